#include "addin/call/working.hpp"

#include <algorithm>
#include <optional>
#include <sstream>
#include <stdexcept>

#include "addin/call/evaluate.hpp"
#include "addin/call/expression.hpp"
#include "addin/call/functions.hpp"
#include "addin/call/tables.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::size_t kShownCells = 6, kShownRows = 50;

// The cells of an argument, read and in the parameter's own unit; blank ones are left out.
Input read_cells(const Parameter& param, const Input& input, const Reading& reading) {
    std::vector<Input> cells;
    const std::span<const Input> all = input.form == Input::Form::grid ? std::span<const Input>(input.cells)
                                                                       : std::span<const Input>(&input, 1);
    for (const Input& cell : all) {
        if (cell.blank()) continue;
        if (param.shape == Shape::names)
            cells.push_back(cell);
        else
            cells.emplace_back(read_measured(param, cell, reading).value);
    }
    return Input(std::move(cells));
}

std::string listed(const Input& range, std::string_view unit) {
    std::string text;
    for (std::size_t i = 0; i < std::min(range.cells.size(), kShownCells); ++i) {
        const Input& cell = range.cells[i];
        text.append(i == 0 ? std::string_view{} : list_comma())
            .append(cell.form == Input::Form::text ? cell.text : in_words(cell.number));
    }
    if (range.cells.size() > kShownCells) text += ", … (" + std::to_string(range.cells.size()) + " values)";
    if (!unit.empty()) text.append(" ").append(unit);
    return text;
}

// The arguments under their names, and a line for each.
void give(const Function& function, std::span<const Input> given, const Reading& reading, Names& names,
          std::vector<std::string>& lines) {
    static const Input left_out;
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        const std::string name(param.name);
        const Input& input = i < given.size() ? given[i] : left_out;
        if (param.repeats) {
            std::vector<Input> cells;
            for (std::size_t k = i; k < given.size(); ++k)
                for (Input& cell : read_cells(param, given[k], reading).cells)
                    cells.push_back(std::move(cell));
            const Input all(std::move(cells));
            lines.push_back(name + " = " + listed(all, param.shown_unit));
            names.values[name] = all;
        } else if (param.shape == Shape::scalar) {
            const Measured read = read_measured(param, input, reading);
            if (!read.given && !param.otherwise) continue;
            std::string line = name + " = " + in_words(read.value, param.shown_unit, 10);
            if (!read.given) line += " (left out: the usual value)";
            const Input& one = input.form == Input::Form::grid ? input.cells.front() : input;
            if (one.form == Input::Form::text) line += ", from \"" + one.text + "\"";
            lines.push_back(line);
            names.values[name] = read.value;
        } else if (param.shape == Shape::choice) {
            const Input& one = input.form == Input::Form::grid ? input.cells.front() : input;
            lines.push_back(name + " = " + one.text);
            names.values[name] = one;
        } else if (param.shape == Shape::table) {
            for (const TableRow& row : table_rows(param, input)) {
                const Input cells(std::vector<Input>(row.cells.begin(), row.cells.end()));
                lines.push_back(std::string(row.param->name) + " = " + listed(cells, {}));
            }
        } else if (input.form != Input::Form::missing) {
            const Input cells = read_cells(param, input, reading);
            lines.push_back(name + " = " + listed(cells, param.shown_unit));
            names.values[name] = cells;
        }
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
std::vector<std::string> lines_of(const Function& function, std::span<const Input> given,
                                  const Names& names) {
    std::string_view text = function.working;
    if (!function.workings.empty()) {
        std::size_t choice = 0;
        while (function.params.at(choice).shape != Shape::choice) ++choice;
        text = function.workings.at(
            static_cast<std::size_t>(read_choice(function.params[choice], given[choice])));
    }
    std::istringstream formulas{std::string(text)};
    std::vector<std::string> all;
    for (std::string line; std::getline(formulas, line);)
        if (const auto holds = where_it_holds(line, names)) all.emplace_back(*holds);
    return all;
}

// "Xm, C, K ← parameters": the cells of a range under names of their own.
bool name_cells(std::string_view line, Names& names, std::vector<std::string>& shown) {
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
        text.append(text.empty() ? std::string_view{} : list_comma())
            .append(name + " = " + in_words(cell.number));
    }
    shown.push_back(text);
    return true;
}

// A cell in words; a blank one as a dash.
std::string word(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return in_words(*number);
    const auto* text = std::get_if<std::string>(&cell);
    return text != nullptr && !text->empty() ? *text : "–";
}
bool is_number(const Cell& cell) { return std::holds_alternative<double>(cell); }

// A column in one line; a table row by row: name, value and unit or ± standard error, or the cells as they
// stand.
void show_table(const Function& function, const Table& table, std::vector<std::string>& lines) {
    const bool column = table.columns == 1, quantities = table.columns == 3;
    const std::size_t shown = column ? kShownCells : kShownRows;
    std::string in_one_line;
    for (std::size_t row = 0; row < std::min(table.rows(), shown); ++row) {
        std::string line = word(table.at(row, 0));
        for (std::size_t i = 1; i < table.columns; ++i) {
            const Cell& cell = table.at(row, i);
            if (quantities && i == 2) {
                if (is_number(cell) || word(cell) != "–")
                    line += (is_number(cell) ? " ± " : " ") + word(cell);
            } else {
                const bool value = i == 1 && (is_number(cell) || quantities);
                line.append(value ? " = " : list_comma()).append(word(cell));
            }
        }
        if (column)
            in_one_line.append(row == 0 ? std::string_view{} : list_comma()).append(line);
        else
            lines.push_back(line);
    }
    std::string rest;
    if (table.rows() > shown) rest = "… (" + counted(table.rows(), column ? "value" : "row") + ")";
    if (column)
        lines.push_back(std::string(function.result) + " = " + in_one_line +
                        (rest.empty() ? "" : std::string(list_comma()) + rest));
    else if (!rest.empty())
        lines.push_back(rest);
}

void show_result(const Function& function, const Outcome& outcome, std::vector<std::string>& lines) {
    if (const auto* table = std::get_if<Table>(&outcome)) return show_table(function, *table, lines);
    lines.push_back(std::string(function.result.empty() ? "result" : function.result) + " = " +
                    in_words(function, outcome));
}

}  // namespace

Working working(const Function& function, std::span<const Input> given, const Reading& reading) {
    if (function.raw)
        throw Refusal(
            Refusal::Reason::argument, "function",
            "function: DRY." + std::string(function.name) + " does no sum of its own that could be shown.");
    Working made;
    const Outcome outcome = evaluate(function, given, reading);
    if (const auto* number = std::get_if<double>(&outcome)) made.value = *number;
    Names names;
    names.call = [&reading](std::string_view name, std::span<const Input> arguments) {
        const Function* found = find_function(name);
        if (found == nullptr || !found->scalar)
            throw std::logic_error("a working calls " + std::string(name));
        return std::get<double>(evaluate(*found, arguments, reading));
    };
    give(function, given, reading, names, made.lines);

    if (!function.caution.empty()) made.lines.emplace_back(function.caution);
    const std::vector<std::string> all = lines_of(function, given, names);
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].starts_with(":")) {
            made.lines.emplace_back(trimmed(std::string_view(all[i]).substr(1)));
            continue;
        }
        if (name_cells(all[i], names, made.lines)) continue;
        const Step step = step_of(all[i]);
        const Computed computed = compute(step.expression, names);
        const bool last = function.scalar && i + 1 == all.size();
        if (last) made.as_written = computed.value;
        const std::string expression = formula_in_words(step.expression);
        made.lines.push_back(std::string(step.name) + " = " + expression);
        if (computed.with_numbers != expression) made.lines.push_back("   = " + computed.with_numbers);
        made.lines.push_back("   = " + (last ? in_words(made.value, function.result_unit)
                                             : in_words(computed.value, step.unit)));
        names.values[std::string(step.name)] = computed.value;
    }
    if (!made.as_written) show_result(function, outcome, made.lines);
    return made;
}

}  // namespace drysheet
