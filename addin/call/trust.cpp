#include "addin/call/trust.hpp"

#include <algorithm>
#include <cmath>

#include "addin/call/convert.hpp"
#include "addin/call/each.hpp"
#include "addin/call/evaluate.hpp"
#include "addin/call/functions.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/sentences.hpp"
#include "addin/call/uncertainty.hpp"
#include "addin/call/working.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kAbout = "about the functions themselves";

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
        refuse("table", "a table or a range of cells is wanted.");
    if (given.size() < 2 || given[1].blank()) refuse("row", "is missing.");
    const Input& table = given[0];
    static const Parameter which = optional_count("column", "which column, counted from 1", 2);
    const double column = read_measured(which, given.size() > 2 ? given[2] : Input(), reading).value;
    if (column > static_cast<double>(table.columns) || column != std::floor(column))
        refuse("column", in_words(column) + " is not one of the table's " + std::to_string(table.columns) +
                             " columns.");
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
    refuse("row", in_words(given[1]) + " is none of the table's rows: " + names + ".");
}

const Parameter kFunction = as_it_stands("function", "its name in quotes, such as \"DRIEDMASS\"");
const Parameter kArguments = any_more("argument", "the arguments exactly as that function gets them");

}  // namespace

Parameter as_it_stands(std::string_view name, std::string_view text) {
    Parameter param;
    param.name = name;
    param.text = text;
    param.shape = Shape::anything;
    return param;
}

Parameter any_more(std::string_view name, std::string_view text) {
    Parameter param = as_it_stands(name, text);
    param.repeats = true;
    param.may_be_missing = true;
    return param;
}

NamedCall named_call(std::span<const Input> given) {
    if (given.empty() || given[0].blank())
        refuse("function", "is missing; give a function's name in quotes.");
    const Input& name =
        given[0].form == Input::Form::grid && given[0].cells.size() == 1 ? given[0].cells[0] : given[0];
    const Function* found = name.form == Input::Form::text ? find_function(name.text) : nullptr;
    if (found == nullptr) {
        const auto meant = probably_meant(name.text);
        refuse("function", in_words(name) + " is not a function of ours" +
                               (meant ? "; perhaps \"" + std::string(*meant) + "\"." : "."));
    }
    return {*found, given.subspan(1)};
}

std::string why(const Function& function, std::span<const Input> arguments, const Reading& reading) {
    const WrittenAs written(reading);
    try {
        if (function.name == "EACH") {  // it gives a table whatever its rows are
            const auto [each_row, columns] = named_call(arguments);
            std::string refused;
            (void)each(each_row, columns, reading, &refused);
            if (!refused.empty()) return refused;
        }
        std::string text = "fine: " + in_words(function, evaluate(function, arguments, reading));
        if (function.unit_argument) {
            const Input& unit = arguments[*function.unit_argument];
            std::string storage;
            text.append(" ").append(
                plain_spaces(unit.cells.empty() ? unit.text : unit.cells.front().text, storage));
        }
        for (std::size_t i = 0; i < std::min(arguments.size(), function.params.size()); ++i) {
            const Parameter& param = function.params[i];
            if (param.shape == Shape::scalar && arguments[i].form == Input::Form::number &&
                arguments[i].number == 0 && param.otherwise != 0.0)
                text.append("; ").append(param.name).append(" is 0, as a blank cell would be");
        }
        return text;
    } catch (const Refusal& refusal) {
        return refusal.what();
    }
}

std::string source_of(const Function& function) {
    std::string text(function.source);
    std::string ranges;
    for (const Parameter& param : function.params)
        if (const std::string bounds = allowed(param); !bounds.empty())
            ranges.append(ranges.empty() ? "" : ", ").append(param.name).append(" ").append(bounds);
    if (!ranges.empty()) text.append(" Range: ").append(ranges).append(".");
    if (!function.range.empty()) text.append(ranges.empty() ? " Range: " : " ").append(function.range);
    if (!function.caution.empty()) text.append(" ").append(function.caution);
    return text;
}

std::vector<Function> trust_entries() {
    std::vector<Function> entries;
    entries.push_back(convert_entry());
    entries.push_back(
        {.name = "WHY",
         .topic = "trust",
         .summary = "Why a call is refused, in one sentence; or \"fine\" with the value and its unit",
         .params = {kFunction, kArguments},
         .result = "why",
         .source = kAbout,
         .checks = {{{"DRIEDMASS", 100.0, 80.0, 0.2}, "80 % is 0.8", 0, "the argument rules"},
                    {{"DRIEDMASS", 100.0, 0.8, 0.2}, "fine: 25 g", 0, "by hand: 100 × 0.20 ÷ 0.80"},
                    {{"DRIEDMAS", 100.0}, "perhaps \"DRIEDMASS\"", 0, "the argument rules"}},
         .refusals = {{{}, "function"}},
         .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
             if (given.empty()) refuse("function", "is missing; give a function's name in quotes.");
             try {
                 const auto [function, arguments] = named_call(given);
                 return why(function, arguments, reading);
             } catch (const Refusal& refusal) {
                 return refusal.what();
             }
         }});
    entries.push_back({.name = "SOURCE",
                       .topic = "trust",
                       .summary = "Where a function's equation comes from, and the range in which it holds",
                       .params = {kFunction},
                       .result = "source",
                       .source = kAbout,
                       .checks = {{{"DRIEDMASS"}, "dry solids", 0, "the entry's own source"}},
                       .refusals = {{{"NOSUCH"}, "function"}},
                       .raw = [](std::span<const Input> given, const Reading&) -> Outcome {
                           return source_of(named_call(given).function);
                       }});
    entries.push_back(
        {.name = "WORKING",
         .topic = "trust",
         .summary =
             "The working of a call as a student writes it: what is given, formula, numbers put in, result",
         .params = {kFunction, kArguments},
         .result = "working",
         .source = kAbout,
         .checks = {{{"DRIEDMASS", 100.0, 0.8, 0.2}, "= 100 × (1 − 0.8) ÷ (1 − 0.2)", 0, "by hand"}},
         .refusals = {{{"DRIEDMASS", 100.0, 80.0, 0.2}, "start"}, {{"WHY", "DRIEDMASS"}, "function"}},
         .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
             const auto [function, arguments] = named_call(given);
             Table table{.columns = 1};
             for (std::string& line : working(function, arguments, reading).lines)
                 table.cells.emplace_back(std::move(line));
             return table;
         }});
    entries.push_back(uncertainty_entry());
    for (Function& entry : class_entries()) entries.push_back(std::move(entry));
    entries.push_back(
        {.name = "PICK",
         .topic = "trust",
         .summary = "One value of a table by the name of its row",
         .params = {as_it_stands("table", "a function that gives a table, or the cells it stands in"),
                    as_it_stands("row", "the row's name in the first column, in quotes"),
                    optional_count("column", "which column, counted from 1", 2)},
         .result = "value",
         .source = kAbout,
         .checks = {{{Input({"gap", 1.5, "g", "u", 0.5, "g"}, 3), "u"}, 0.5, 1e-12, "the given table"},
                    {{Input({"gap", 1.5, "g", "u", 0.5, "g"}, 3), "U", 3.0}, "g", 0, "the given table"}},
         .refusals = {{{Input({"gap", 1.5}, 2), "gop"}, "row"},
                      {{Input({"gap", 1.5}, 2), "gap", 3.0}, "column"}},
         .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
             return pick(given, reading);
         }});
    entries.push_back(
        {.name = "EACH",
         .topic = "trust",
         .summary = "A function over whole columns in one call, row by row, for long tables",
         .params = {kFunction,
                    any_more(
                        "argument",
                        "its arguments; a range is gone through row by row, a single value stays the same")},
         .result = "column",
         .source = kAbout,
         .checks = {{{"DRIEDMASS", column(100.0, "2 kg"), 0.8, 0.2}, 25.0, 1e-12, "by hand"}},
         .refusals = {{{"DRIEDMASS", 100.0, 0.8, 0.2}, "argument"},
                      {{"DRIEDMASS", column(100.0, 200.0), column(0.8, 0.7, 0.6), 0.2}, "argument"},
                      {{"CLOSURE", column(1.0, 2.0)}, "function"}},
         .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
             const auto [function, arguments] = named_call(given);
             return each(function, arguments, reading);
         }});
    entries.push_back(
        {.name = "FUNCTIONS",
         .topic = "trust",
         .summary = "Every function with its arguments, result unit and topic",
         .result = "functions",
         .source = kAbout,
         .checks =
             {{{}, "DRY.DRIEDMASS(fresh; start; final)", 0, "the function's own type", "DRY.DRIEDMASS"}},
         .raw = [](std::span<const Input>, const Reading&) -> Outcome { return function_table(); }});
    return entries;
}

}  // namespace drysheet
