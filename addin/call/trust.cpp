// SPDX-License-Identifier: MPL-2.0
#include "addin/call/trust.hpp"

#include <algorithm>
#include <cmath>

#include "addin/call/call.hpp"
#include "addin/call/convert.hpp"
#include "addin/call/each.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/named_call.hpp"
#include "addin/call/sentences.hpp"
#include "addin/call/solve.hpp"
#include "addin/call/uncertainty.hpp"
#include "addin/call/why.hpp"
#include "addin/call/working.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

Outcome function_table() {
    Table table{.columns = 5};
    for (const Function& function : functions())
        for (const std::string& text :
             {"DRY." + std::string(function.name), usage(function), std::string(function.result_unit),
              std::string(function.topic), std::string(function.summary)})
            table.cells.emplace_back(text);
    return table;
}

Parameter optional_count(std::string_view name, std::string_view text, double otherwise) {
    Parameter param;
    param.name = name;
    param.text = text;
    param.range = at_least(1);
    param.otherwise = otherwise;
    param.may_be_missing = true;
    return param;
}

// The office's own exact VLOOKUP does not find the texts of a table that mixes texts and numbers (seen
// in 7.4).
Outcome pick(std::span<const Input> given, const Reading& reading) {
    if (given.empty() || given[0].form != Input::Form::grid)
        refuse("table", "a table or a range of cells is wanted");
    if (given.size() < 2 || given[1].blank()) refuse("row", "is missing");
    const Input& table = given[0];
    static const Parameter which = optional_count("column", "which column, counted from 1", 2);
    const double column = read_measured(which, given.size() > 2 ? given[2] : Input(), reading).value;
    if (column > static_cast<double>(table.columns) || column != std::floor(column))
        refuse("column", {"{} is not one of the table's {} columns", {column, table.columns}});
    std::string names;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const Input& name = table.cells[row * table.columns];
        if (lower(name.text) == lower(given[1].text)) {
            const Input& cell = table.cells[row * table.columns + static_cast<std::size_t>(column) - 1];
            if (cell.form == Input::Form::number) return cell.number;
            return cell.text;
        }
        names.append(names.empty() ? "" : ", ").append(name.text);
    }
    refuse("row", {"{} is none of the table's rows: {}", {in_a_sentence(given[1]), names}});
}

}  // namespace

std::string source_of(const Function& function, const Reading& reading) {
    std::string text(function.source);
    std::string ranges;
    for (const Parameter& param : function.params)
        if (const Sentence bounds = allowed(param); !bounds.empty())
            ranges.append(ranges.empty() ? "" : ", ")
                .append(param.name)
                .append(" ")
                .append(written(bounds, reading));
    if (!ranges.empty()) text.append(" Range: ").append(ranges).append(".");
    if (!function.range.empty()) text.append(ranges.empty() ? " Range: " : " ").append(function.range);
    if (!function.caution.empty()) text.append(" ").append(function.caution);
    return text;
}

std::vector<Function> trust_entries() {
    std::vector<Function> entries;
    entries.push_back(convert_entry());
    entries.push_back(why_entry());
    entries.push_back({.name = "SOURCE",
                       .topic = "trust",
                       .summary = "Where a function's equation comes from, and the range in which it holds",
                       .params = {function_named()},
                       .result = "source",
                       .source = kAboutFunctions,
                       .checks = {{{"DRIEDMASS"},
                                   "Balance of dry solids, in = out; Geankoplis (1993) Transport Processes "
                                   "and Unit Operations, 3rd ed., ex. 1.5-1. Range: fresh above 0 g.",
                                   0,
                                   "the entry's own source"}},
                       .refusals = {{{"NOSUCH"}, "function"}},
                       .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
                           return source_of(named_call(given).function, reading);
                       }});
    entries.push_back(working_entry());
    entries.push_back(uncertainty_entry());
    entries.push_back(solve_entry());
    for (Function& entry : class_entries()) entries.push_back(std::move(entry));
    entries.push_back(
        {.name = "PICK",
         .topic = "trust",
         .summary = "One value of a table by the name of its row",
         .params = {as_it_stands("table", "a function that gives a table, or the cells it stands in"),
                    as_it_stands("row", "the row's name in the first column, in quotes"),
                    optional_count("column", "which column, counted from 1", 2)},
         .result = "value",
         .source = kAboutFunctions,
         .checks = {{{Input({"gap", 1.5, "g", "u", 0.5, "g"}, 3), "u"}, 0.5, 1e-12, "the given table"},
                    {{Input({"gap", 1.5, "g", "u", 0.5, "g"}, 3), "U", 3.0}, "g", 0, "the given table"}},
         .refusals = {{{Input({"gap", 1.5}, 2), "gop"}, "row"},
                      {{Input({"gap", 1.5}, 2), "gap", 3.0}, "column"}},
         .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
             return pick(given, reading);
         }});
    entries.push_back(each_entry());
    entries.push_back(
        {.name = "FUNCTIONS",
         .topic = "trust",
         .summary = "Every function with its arguments, result unit and topic",
         .result = "functions",
         .source = kAboutFunctions,
         .checks =
             {{{}, "DRY.DRIEDMASS(fresh; start; final)", 0, "the function's own type", "DRY.DRIEDMASS"}},
         .raw = [](std::span<const Input>, const Reading&) -> Outcome { return function_table(); }});
    return entries;
}

}  // namespace drysheet
