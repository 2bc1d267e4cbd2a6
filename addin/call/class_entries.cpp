// SPDX-License-Identifier: MPL-2.0
#include "addin/call/call.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/named_call.hpp"
#include "addin/call/refusal.hpp"
#include "addin/call/slips.hpp"

namespace drysheet {
namespace {

const Parameter kAnswer = as_it_stands("answer", "what the student wrote, with or without a unit");

// The call, of a function that gives one number.
Call number_call(std::span<const Input> given, const Reading& reading) {
    const auto [function, arguments] = named_call(given);
    if (!function.scalar || function.raw)
        refuse("function", {"DRY.{} gives no single number", {function.name}});
    return read(function, arguments, reading);
}

Table slip_table(std::span<const Input> given, const Reading& reading) {
    const Call call = number_call(given, reading);
    (void)value(call);  // refused as it would be in a cell
    const std::string unit = call.result_unit();
    Table table{.columns = 3, .cells = {"value", "unit", "slip"}};
    for (const Slip& slip : slips(call))
        for (const Cell& cell : {Cell(slip.answer), Cell(unit), Cell(Told(slip.sentence))})
            table.cells.push_back(cell);
    return table;
}

}  // namespace

std::vector<Function> class_entries() {
    constexpr std::string_view topic = "trust";
    const auto at_most = [](std::span<const Input> given, std::size_t most) {
        if (given.size() > most) refuse("", {"too many arguments: at most {} are wanted", {most}});
    };
    const auto at = [](std::span<const Input> given, std::size_t i) {
        return i < given.size() ? given[i] : Input();
    };
    Parameter tolerance = as_it_stands(
        "tolerance",
        "how far off still counts as right: relative, 0.01 when left out, or an amount such as \"0.3 K\"");
    tolerance.may_be_missing = true;
    return {
        {.name = "MARK",
         .topic = topic,
         .summary = "Marks a student's answer where only the right number is known: right, close, wrong "
                    "basis, wrong "
                    "unit, wrong",
         .params = {kAnswer, as_it_stands("expected", "the right answer, usually a formula"), tolerance},
         .result = "mark",
         .range =
             "The text begins with the verdict: no answer yet; right; close (within 5 tolerances); unclear "
             "(the "
             "unit of a plain right answer would have to be known); unit missing; wrong basis; wrong unit; "
             "wrong. A temperature is right within 0.5 K unless told; counts are exact.",
         .source =
             "Relative difference; it tells what the two numbers are to each other and claims no cause.",
         .checks =
             {{{25.1, 24.9}, "right", 0, "by hand: 0.8 % off"},
              {{25.6, 25.0}, "close: 25.6 is 2.4 % off", 0, "by hand: 0.6 ÷ 25"},
              {{4.0, 0.8}, "wrong basis: this would be right on the dry basis", 0, "by hand: 0.8 ÷ 0.2"},
              {{0.8, 4.0}, "wrong basis: this would be right on the wet basis", 0, "by hand: 4 ÷ 5"},
              {{80.0, 0.8},
               "wrong unit: 100 times too large, as is a percentage for a fraction",
               0,
               "by hand: 80 % is 0.8"},
              {{0.025, 25.0}, "wrong unit: 1000 times too small, as with kg for g", 0, "by hand: 25 ÷ 1000"},
              {{0.25, 4.0}, "wrong: this is 1 over the right answer", 0, "by hand: 1 ÷ 4"},
              {{"0.025 kg", "25 g"}, "right", 0, "25 g is 0.025 kg"},
              {{"61 °C", "60 °C"}, "close: 61 °C is 1 K off", 0, "by hand: more than 0.5 K, not 2.5 K"},
              {{0.0, 25.0}, "no answer yet", 0, "a blank cell reads as 0"},
              {{7.0, 25.0}, "wrong", 0, "by hand"}},
         .refusals = {{{25.0}, "expected"},
                      {{"about 25", 25.0}, "answer"},
                      {{25.0, 25.0, 5.0}, "tolerance"},
                      {{"61 °C", "60 °C", 0.01}, "tolerance"},
                      {{column(1.0, 2.0), 25.0}, "answer"}},
         .see_also = {"MARKCALL", "WORKING", "WHY"},
         .raw = [at, at_most](std::span<const Input> given, const Reading& reading) -> Outcome {
             at_most(given, 3);
             return mark(at(given, 0), at(given, 1), at(given, 2), reading);
         }},
        {.name = "MARKCALL",
         .topic = topic,
         .summary = "Marks a student's answer where the sum is known: right, or what was done wrong",
         .params = {kAnswer, function_named(), arguments_of_it()},
         .result = "mark",
         .range =
             "No answer yet; right (within 1 %, or 0.5 K for a temperature; a count exactly); the usual slip "
             "that "
             "gives that very answer, in words; close (within five times that); unclear; wrong. Of the right "
             "answer and the slips the nearest is taken, so a slip is never right for being near.",
         .source = "The function itself with the change that the slip makes; see DRY.SLIPS.",
         .checks =
             {{{25.0, "DRIEDMASS", 100.0, 0.8, 0.2}, "right", 0, "by hand: 100 × 0.20 ÷ 0.80"},
              {{24.0, "DRIEDMASS", 100.0, 0.8, 0.2},
               "the final moisture was taken on the dry basis",
               0,
               "by hand: 0.2 db is 1 ÷ 6 wb; 100 × 0.20 × 6 ÷ 5"},
              {{20.0, "DRIEDMASS", 100.0, 0.8, 0.2},
               "the final moisture was left out",
               0,
               "by hand: 100 × 0.20"},
              {{40.0, "DRIEDMASS", 100.0, 0.8, 0.2},
               "the percentages were subtracted",
               0,
               "by hand: 100 × (1 − 0.6)"},
              {{25.7, "DRIEDMASS", 100.0, 0.8, 0.2}, "close: 25.7 g is 2.8 % off", 0, "by hand: 0.7 ÷ 25"},
              {{"0.55", "CHAINYIELD", 0.8, 0.3}, "the yields were averaged", 0, "by hand: 1.1 ÷ 2"},
              {{63.49, "TRAYSFOR", "63.49 kg", 1.0, 1.0}, "it was not rounded up", 0, "by hand"},
              {{11.0, "DRIEDMASS", 100.0, 0.8, 0.2}, "wrong", 0, "by hand"}},
         .refusals = {{{25.0, "NOSUCH", 1.0}, "function"},
                      {{25.0, "STAGES"}, "function"},
                      {{"about 25", "DRIEDMASS", 100.0, 0.8, 0.2}, "answer"},
                      {{25.0, "DRIEDMASS", 100.0, 80.0, 0.2}, "start"}},
         .see_also = {"SLIPS", "MARK", "WORKING"},
         .raw = [at](std::span<const Input> given, const Reading& reading) -> Outcome {
             return Told(mark_call(
                 at(given, 0), number_call(given.subspan(std::min<std::size_t>(1, given.size())), reading)));
         }},
        {.name = "SLIPS",
         .topic = topic,
         .summary = "The answers that usual slips would give, with a header row: value, unit, slip",
         .params = {function_named(), arguments_of_it()},
         .result = "slips",
         .range = "Slips that four digits cannot tell from the right answer are left out; slips that give "
                  "the same "
                  "are one row.",
         .source =
             "The function itself with the change that the slip makes (a moisture on the other basis, two "
             "arguments of a kind swapped, something left out, a factor between units); where the function "
             "refuses such values, its working.",
         .checks = {{{"DRYBASIS", 0.75},
                     "the answer is on the wet basis",
                     0,
                     "by hand: 3 on the wet basis is 0.75",
                     "",
                     2,
                     true}},
         .refusals = {{{"NOSUCH", 1.0}, "function"}, {{"DRIEDMASS", 100.0, 80.0, 0.2}, "start"}},
         .see_also = {"MARKCALL"},
         .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
             return slip_table(given, reading);
         }},
    };
}

}  // namespace drysheet
