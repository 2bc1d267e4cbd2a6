// SPDX-License-Identifier: MPL-2.0
#include "addin/call/each.hpp"

#include <bit>
#include <cstdint>

#include "addin/call/call.hpp"
#include "addin/call/named_call.hpp"

namespace drysheet {
namespace {

bool gone_through(const Function& function, std::size_t argument, const Input& input) {
    const Parameter& param = parameter_at(function, argument);
    const bool whole = (param.shape == Shape::column || param.shape == Shape::names) && !param.repeats;
    if (param.shape == Shape::table) return false;
    return !whole && input.form == Input::Form::grid && input.cells.size() > 1;
}

}  // namespace

double error_cell(int code) {
    constexpr std::uint64_t quiet_nan = 0x7FF8000000000000u;
    return std::bit_cast<double>(quiet_nan | static_cast<std::uint32_t>(code));
}

Rows each(const Function& function, std::span<const Input> arguments, const Reading& reading) {
    if (!function.scalar || function.raw)
        refuse("function", {"DRY.{} does not give a single number", {function.name}});
    std::size_t rows = 0;
    bool lying = false;
    std::vector<std::size_t> moving;
    std::vector<Input> row(arguments.begin(), arguments.end());
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        if (!gone_through(function, i, arguments[i])) continue;
        const Input& range = arguments[i];
        if (range.rows() > 1 && range.columns > 1)
            refuse("argument", "one row or one column of cells is wanted for each range");
        if (rows != 0 && rows != range.cells.size())
            refuse("argument", {"the ranges have {} and {} cells; they belong together row by row",
                                {rows, range.cells.size()}});
        if (moving.empty()) lying = range.columns > 1;
        rows = range.cells.size();
        moving.push_back(i);
    }
    if (moving.empty()) refuse("argument", "no range was given to go through");
    Rows made{.table = {.columns = lying ? rows : 1}};
    Table& table = made.table;
    table.cells.reserve(rows);
    for (std::size_t k = 0; k < rows; ++k) {
        bool blank = true;
        for (const std::size_t i : moving) {
            row[i] = arguments[i].cells[k];
            blank = blank && row[i].blank();
        }
        if (blank) {
            table.cells.emplace_back(std::string());
            continue;
        }
        try {
            table.cells.emplace_back(std::get<double>(evaluate(function, row, reading)));
        } catch (const Refusal& refusal) {
            if (!made.refused) made.refused = {k + 1, refusal};
            table.cells.emplace_back(error_cell(
                refusal.reason() == Refusal::Reason::argument ? kInvalidArgument : kNoConvergence));
        }
    }
    return made;
}

Function each_entry() {
    return {
        .name = "EACH",
        .topic = "trust",
        .summary = "A function over whole columns in one call, row by row, for long tables",
        .params = {function_named(),
                   any_more(
                       "argument",
                       "its arguments; a range is gone through row by row, a single value stays the same")},
        .result = "column",
        .source = kAboutFunctions,
        .checks = {{{"DRIEDMASS", column(100.0, "2 kg"), 0.8, 0.2}, 25.0, 1e-12, "by hand"}},
        .refusals = {{{"DRIEDMASS", 100.0, 0.8, 0.2}, "argument"},
                     {{"DRIEDMASS", column(100.0, 200.0), column(0.8, 0.7, 0.6), 0.2}, "argument"},
                     {{"CLOSURE", column(1.0, 2.0)}, "function"}},
        .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
            const auto [function, arguments] = named_call(given);
            return each(function, arguments, reading).table;
        }};
}

}  // namespace drysheet
