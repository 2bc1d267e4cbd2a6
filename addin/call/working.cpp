#include "addin/call/working.hpp"

#include <algorithm>
#include <optional>
#include <sstream>
#include <stdexcept>

#include "addin/call/expression.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/named_call.hpp"
#include "addin/call/solve.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::size_t kShownCells = 6, kShownRows = 50;

std::string listed(const std::vector<Input>& cells, std::string_view unit, const Reading& reading) {
    std::string text;
    for (std::size_t i = 0; i < std::min(cells.size(), kShownCells); ++i)
        text.append(i == 0 ? std::string_view{} : list_comma(reading))
            .append(cells[i].form == Input::Form::text ? cells[i].text
                                                       : in_words(cells[i].number, 6, reading));
    if (cells.size() > kShownCells)
        text.append(list_comma(reading)).append(written({"… ({} in all)", {cells.size()}}, reading));
    if (!unit.empty()) text.append(" ").append(unit);
    return text;
}

// What the function works with, of one argument, in the parameter's own unit.
Input used(const Parameter& param, const Value& value) {
    if (param.shape == Shape::scalar && !param.repeats) return param.read_in.from_si(value.si);
    if (param.shape == Shape::choice)
        return std::string(param.choices.at(static_cast<std::size_t>(value.choice)));
    std::vector<Input> cells(value.names.begin(), value.names.end());
    for (const double si : value.column) cells.emplace_back(param.read_in.from_si(si));
    return cells;
}

std::string in_a_line(const Call& call, const Parameter& param, const Value& value, const Input& as_used) {
    const Reading& reading = call.reading;
    const std::string_view unit =
        param.kind == Kind::mass && call.masses_as_given ? std::string_view{} : param.shown_unit;
    if (as_used.form == Input::Form::grid) return listed(as_used.cells, unit, reading);
    if (as_used.form == Input::Form::text) return as_used.text;
    std::string line = in_words(as_used.number, unit, 10, reading);
    const bool left_out = value.typed.empty() || value.typed[0].form == Input::Form::missing;
    if (left_out) return written({"{} (left out: the usual value)", {line}}, reading);
    const Input& cell =
        value.typed[0].form == Input::Form::grid ? value.typed[0].cells.front() : value.typed[0];
    if (cell.form == Input::Form::text) return written({"{}, from \"{}\"", {line, cell.text}}, reading);
    return line;
}

// The arguments under their names, and a line for each.
void give(const Call& call, Names& names, std::vector<std::string>& lines) {
    for (std::size_t i = 0; i < call.values.size(); ++i) {
        const Parameter& param = call.function.params[i];
        const Value& value = call.values[i];
        for (std::size_t k = 0; k < value.rows.size(); ++k)
            if (!value.rows[k].typed.empty())
                lines.push_back(
                    std::string(param.rows[k].name) + " = " +
                    listed({value.rows[k].typed.begin(), value.rows[k].typed.end()}, {}, call.reading));
        if (param.shape == Shape::table || !value.given) continue;
        Input as_used = used(param, value);
        lines.push_back(std::string(param.name) + " = " + in_a_line(call, param, value, as_used));
        names.values[std::string(param.name)] = std::move(as_used);
    }
}

// "name [unit] = expression"
struct Step {
    std::string_view name, unit, expression;
};
Step step_of(std::string_view line) {
    const auto equals = line.find('=');
    if (equals == std::string_view::npos)
        throw std::logic_error("a working's line has no '=': " + std::string(line));
    Step step{
        .name = trimmed(line.substr(0, equals)), .unit = {}, .expression = trimmed(line.substr(equals + 1))};
    if (const auto open = step.name.find('['); open != std::string_view::npos) {
        step.unit = step.name.substr(open + 1, step.name.find(']') - open - 1);
        step.name = trimmed(step.name.substr(0, open));
    }
    return step;
}

// "if temp > 0.01: line" and "if temp ≤ 0.01: line": the line, where it holds.
std::optional<std::string_view> where_it_holds(std::string_view line, const Names& names) {
    if (!line.starts_with("if ")) return line;
    for (const std::string_view sign : {" > ", " ≤ "}) {
        const auto at = line.find(sign), colon = line.find(": ");
        if (at == std::string_view::npos || at > colon) continue;
        const double value = names.values.at(std::string(line.substr(3, at - 3))).number;
        const double limit = std::stod(std::string(line.substr(at + sign.size(), colon - at - sign.size())));
        if ((value > limit) != (sign == " > ")) return {};
        return line.substr(colon + 2);
    }
    throw std::logic_error("a working's condition cannot be read: " + std::string(line));
}

// The lines of the working; where there is one for each name of the first choice, that of the name given.
std::vector<std::string> lines_of(const Call& call, const Names& names) {
    const Function& function = call.function;
    std::string_view text = function.working;
    if (!function.workings.empty()) {
        std::size_t choice = 0;
        while (function.params.at(choice).shape != Shape::choice) ++choice;
        text = function.workings.at(static_cast<std::size_t>(call.values[choice].choice));
    }
    std::istringstream formulas{std::string(text)};
    std::vector<std::string> all;
    for (std::string line; std::getline(formulas, line);)
        if (const auto holds = where_it_holds(line, names)) all.emplace_back(*holds);
    return all;
}

// "Xm, C, K ← parameters": the cells of a range under names of their own.
bool name_cells(std::string_view line, Names& names, std::vector<std::string>& shown) {
    const Reading& reading = names.reading;
    constexpr std::string_view arrow = "←";
    const auto at = line.find(arrow);
    if (at == std::string_view::npos) return false;
    const Input range = names.values.at(std::string(trimmed(line.substr(at + arrow.size()))));
    std::string text;
    std::string_view left = line.substr(0, at);
    for (const Input& cell : range.cells) {
        const auto comma = left.find(',');
        const std::string name(trimmed(left.substr(0, comma)));
        left = comma == std::string_view::npos ? std::string_view{} : left.substr(comma + 1);
        names.values[name] = cell;
        text.append(text.empty() ? std::string_view{} : list_comma(reading))
            .append(name + " = " + in_words(cell.number, 6, reading));
    }
    shown.push_back(text);
    return true;
}

// A cell in words; a blank one as a dash.
std::string word(const Cell& cell, const Reading& reading) {
    if (const auto* number = std::get_if<double>(&cell)) return in_words(*number, 6, reading);
    const auto* text = std::get_if<std::string>(&cell);
    return text != nullptr && !text->empty() ? *text : "–";
}
bool is_number(const Cell& cell) { return std::holds_alternative<double>(cell); }

// A column in one line; a table row by row: name, value and unit or ± standard error, or the cells as they
// stand.
void show_table(const Function& function, const Table& table, std::vector<std::string>& lines,
                const Reading& reading) {
    const bool column = table.columns == 1, quantities = table.columns == 3;
    const std::size_t shown = column ? kShownCells : kShownRows;
    std::string in_one_line;
    for (std::size_t row = 0; row < std::min(table.rows(), shown); ++row) {
        std::string line = word(table.at(row, 0), reading);
        for (std::size_t i = 1; i < table.columns; ++i) {
            const Cell& cell = table.at(row, i);
            if (quantities && i == 2) {
                if (is_number(cell) || word(cell, reading) != "–")
                    line += (is_number(cell) ? " ± " : " ") + word(cell, reading);
            } else {
                const bool value = i == 1 && (is_number(cell) || quantities);
                line.append(value ? " = " : list_comma(reading)).append(word(cell, reading));
            }
        }
        if (column)
            in_one_line.append(row == 0 ? std::string_view{} : list_comma(reading)).append(line);
        else
            lines.push_back(line);
    }
    std::string rest;
    if (table.rows() > shown) rest = written({"… ({} in all)", {table.rows()}}, reading);
    if (column)
        lines.push_back(std::string(function.result) + " = " + in_one_line +
                        (rest.empty() ? "" : std::string(list_comma(reading)) + rest));
    else if (!rest.empty())
        lines.push_back(rest);
}

void show_result(const Call& call, const Outcome& outcome, std::vector<std::string>& lines) {
    const Function& function = call.function;
    if (const auto* table = std::get_if<Table>(&outcome))
        return show_table(function, *table, lines, call.reading);
    lines.push_back(std::string(function.result.empty() ? "result" : function.result) + " = " +
                    written(in_a_sentence(call, outcome), call.reading));
}

}  // namespace

namespace {

// What was looked for, and the proof: the function's own working with it.
Working working_of_search(const Call& call) {
    const Solved solved = solve(call.typed, call.reading);
    const auto [function, arguments] = named_call(call.typed.subspan(1));
    const Parameter& unknown = parameter_at(function, solved.argument);
    Working made = working(read(function, solved.arguments, call.reading));
    made.lines.insert(
        made.lines.begin(),
        {written({"wanted: DRY.{} = {}", {function.name, in_a_sentence(call.typed[0])}}, call.reading),
         written({"found by search: {} = {}; with it:", {unknown.name, in_a_sentence(solved)}},
                 call.reading)});
    return made;
}

}  // namespace

Working working(const Call& call) {
    const Function& function = call.function;
    const Reading& reading = call.reading;
    if (function.name == "SOLVEFOR") return working_of_search(call);
    if (function.raw)
        refuse("function", {"DRY.{} does no sum of its own that could be shown", {function.name}});
    Working made;
    const Outcome outcome = value(call);
    if (const auto* number = std::get_if<double>(&outcome)) made.value = *number;
    Names names{.values = {}, .reading = reading, .call = {}};
    names.call = [](std::string_view name, std::span<const Input> arguments) {
        const Function* found = find_function(name);
        if (found == nullptr || !found->scalar)
            throw std::logic_error("a working calls " + std::string(name));
        return std::get<double>(evaluate(*found, arguments, {}));
    };
    give(call, names, made.lines);

    if (!function.caution.empty()) made.lines.push_back(written(function.caution, reading));
    const std::vector<std::string> all = lines_of(call, names);
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].starts_with(":")) {
            made.lines.push_back(written(trimmed(std::string_view(all[i]).substr(1)), reading));
            continue;
        }
        if (name_cells(all[i], names, made.lines)) continue;
        const Step step = step_of(all[i]);
        const Computed computed = compute(step.expression, names);
        const bool last = function.scalar && i + 1 == all.size();
        if (last) made.as_written = computed.value;
        const std::string expression = formula_in_words(step.expression, reading);
        made.lines.push_back(std::string(step.name) + " = " + expression);
        if (computed.with_numbers != expression) made.lines.push_back("   = " + computed.with_numbers);
        made.lines.push_back("   = " + written(last ? in_a_sentence(call, made.value)
                                                    : Sentence("{}", {{computed.value, step.unit}}),
                                               reading));
        names.values[std::string(step.name)] = computed.value;
    }
    if (!made.as_written) show_result(call, outcome, made.lines);
    return made;
}

Function working_entry() {
    return {
        .name = "WORKING",
        .topic = "trust",
        .summary =
            "The working of a call as a student writes it: what is given, formula, numbers put in, result",
        .params = {function_named(), arguments_of_it()},
        .result = "working",
        .source = kAboutFunctions,
        .checks = {{{"DRIEDMASS", 100.0, 0.8, 0.2}, "   = 100 × (1 − 0.8) ÷ (1 − 0.2)", 0, "by hand"}},
        .refusals = {{{"DRIEDMASS", 100.0, 80.0, 0.2}, "start"}, {{"WHY", "DRIEDMASS"}, "function"}},
        .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
            const auto [function, arguments] = named_call(given);
            Table table{.columns = 1};
            for (std::string& line : working(read(function, arguments, reading)).lines)
                table.cells.emplace_back(std::move(line));
            return table;
        }};
}

}  // namespace drysheet
