// SPDX-License-Identifier: MPL-2.0
#include "addin/call/why.hpp"

#include "addin/call/call.hpp"
#include "addin/call/each.hpp"
#include "addin/call/named_call.hpp"
#include "addin/call/solve.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

// A plain 0 where 0 is not what leaving the argument out would mean: a blank cell reaches a function as such.
Sentence and_zeros(const Call& call, Sentence text) {
    for (std::size_t i = 0; i < call.typed.size() && !call.function.params.empty(); ++i) {
        const Parameter& param = parameter_at(call.function, i);
        const Input& input = call.typed[i];
        const bool one = param.shape == Shape::scalar || (param.shape == Shape::column && param.repeats);
        if (!one || input.form != Input::Form::number || input.number != 0 || param.otherwise == 0.0)
            continue;
        const std::string name = param.repeats ? std::string(param.name) + " " +
                                                     std::to_string(i + 2 - call.function.params.size())
                                               : std::string(param.name);
        text = {"{}; {}", {std::move(text), Sentence("{} is 0, as a blank cell would be", {name})}};
    }
    return text;
}

// The outcome with its unit; of a function over rows, the first row that is refused instead.
Sentence outcome_of(const Call& call) {
    const Function& function = call.function;
    if (function.name == "EACH") {  // it gives a table whatever its rows are
        const auto [each_row, columns] = named_call(call.typed);
        const Rows rows = each(each_row, columns, call.reading);
        if (rows.refused) return {"row {}: {}", {rows.refused->row, rows.refused->why.written(call.reading)}};
        return {"fine: {}", {in_a_sentence(call, Outcome(rows.table))}};
    }
    if (function.name == "SOLVEFOR") return {"fine: {}", {in_a_sentence(solve(call.typed, call.reading))}};
    Sentence text{"fine: {}", {in_a_sentence(call, value(call))}};
    if (function.unit_argument) {
        const Input& unit = call.typed[*function.unit_argument];
        std::string storage;
        text = {"{} {}",
                {std::move(text),
                 plain_spaces(unit.cells.empty() ? unit.text : unit.cells.front().text, storage)}};
    }
    text = and_zeros(call, std::move(text));
    if (function.rests_on)
        if (const std::string rests = function.rests_on(call.values); !rests.empty())
            text = {"{}; {}", {std::move(text), written(Sentence(rests), call.reading)}};
    return text;
}

}  // namespace

std::string why(const Function& function, std::span<const Input> typed, const Reading& reading) {
    try {
        return written(outcome_of(read(function, typed, reading)), reading);
    } catch (const Refusal& refusal) {
        return refusal.written(reading);
    }
}

Function why_entry() {
    return {
        .name = "WHY",
        .topic = "trust",
        .summary = "Why a call is refused, in one sentence; or \"fine\" with the value and its unit",
        .params = {function_named(), arguments_of_it()},
        .result = "why",
        .source = kAboutFunctions,
        .checks = {{{"DRIEDMASS", 100.0, 80.0, 0.2},
                    "start: 80 is above 1: a fraction is wanted; 80 % is 0.8.",
                    0,
                    "the argument rules"},
                   {{"DRIEDMASS", 100.0, 0.8, 0.2}, "fine: 25 (as given)", 0, "by hand: 100 × 0.20 ÷ 0.80"},
                   {{"DRIEDMAS", 100.0},
                    "function: \"DRIEDMAS\" is not a function of ours; perhaps \"DRIEDMASS\".",
                    0,
                    "the argument rules"}},
        .refusals = {{{}, "function"}},
        .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
            if (given.empty()) refuse("function", "is missing; give a function's name in quotes");
            try {
                const auto [function, arguments] = named_call(given);
                return why(function, arguments, reading);
            } catch (const Refusal& refusal) {
                return refusal.written(reading);
            }
        }};
}

}  // namespace drysheet
