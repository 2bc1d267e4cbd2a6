// SPDX-License-Identifier: MPL-2.0
#include "addin/call/working.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <sstream>
#include <stdexcept>

#include "addin/call/expression.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/named_call.hpp"
#include "addin/call/solve.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::size_t kShownCells = 6, kShownRows = 50;

std::string listed(const std::vector<Input>& cells, std::string_view unit, const Reading& reading,
                   int digits = 10) {
    std::string text;
    for (std::size_t i = 0; i < std::min(cells.size(), kShownCells); ++i)
        text.append(i == 0 ? std::string_view{} : list_comma(reading))
            .append(cells[i].form == Input::Form::text
                        ? cells[i].text
                        : number_in_working(cells[i].number, {}, reading, digits));
    if (cells.size() > kShownCells)
        text.append(list_comma(reading)).append(written({"… ({} in all)", {cells.size()}}, reading));
    if (!unit.empty()) text.append(" ").append(unit);
    return text;
}

// A cell in words; a blank one as a dash.
std::string word(const Cell& cell, const Reading& reading) {
    if (const auto* number = std::get_if<double>(&cell)) return number_in_working(*number, {}, reading);
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

// A unit as it stands behind a number: none for shares and ratios.
std::string physical(std::string_view unit) {
    const auto read = read_unit(unit);
    return read && read->dimension != Dimension{} ? std::string(unit) : std::string();
}

// A unit as it stands behind a result: all but that of a plain share.
std::string of_result(std::string_view unit) {
    return unit.starts_with("fraction") ? std::string() : std::string(unit);
}

// The unit of one call's masses: the first one that was typed, where the result is a mass too or none at all.
struct MassUnit {
    Unit unit;
    std::string name;
};
std::optional<MassUnit> typed_mass_unit(const Call& call) {
    const Function& function = call.function;
    const bool of_mass = function.gives == Kind::mass;
    if (!function.mass_in_a_unit.empty() || call.masses_as_given ||
        (function.gives && !of_mass && default_unit(*function.gives).dimension[0] != 0))
        return std::nullopt;
    for (std::size_t i = 0; i < call.values.size(); ++i) {
        if (function.params[i].kind != Kind::mass) continue;
        for (const Input& typed : call.values[i].typed) {
            if (typed.form != Input::Form::text) continue;
            std::string storage;
            const QuantityText read = read_quantity(plain_spaces(typed.text, storage), call.reading);
            if (read.fault != TextFault::none || !fits(read.unit, Kind::mass)) continue;
            const auto named = read_unit(read.said);
            if (named && named->dimension == read.unit.dimension)
                return MassUnit{*named, std::string(read.said)};
        }
    }
    return std::nullopt;
}

bool mentions(std::string_view expression, std::string_view name) {
    const auto part_of_name = [&](std::size_t at) {
        return at < expression.size() &&
               (std::isalnum(static_cast<unsigned char>(expression[at])) != 0 || expression[at] == '_');
    };
    for (auto at = expression.find(name); at != std::string_view::npos; at = expression.find(name, at + 1))
        if (!part_of_name(at + name.size()) && (at == 0 || !part_of_name(at - 1))) return true;
    return false;
}

struct InUse {
    const Unit* unit;
    std::string name;
};

// Writes one call's working, line by line.
class Writer {
  public:
    Writer(const Call& call, Working& made)
        : call_(call), reading_(call.reading), made_(made), mass_(typed_mass_unit(call)) {}

    void write() {
        const Outcome outcome = value(call_);
        if (const auto* number = std::get_if<double>(&outcome)) made_.value = *number;
        Names names = new_names();
        give(names);
        const Function& function = call_.function;
        if (!function.caution.empty()) made_.lines.push_back(written(function.caution, reading_));
        const std::optional<double> last = steps(call_, made_.value, names);
        if (function.scalar && last) {
            made_.as_written = last;
            if (mass_ && function.gives == Kind::mass)
                made_.as_written = default_unit(Kind::mass).from_si(mass_->unit.to_si(*last));
            std::string& line = made_.lines.back();
            std::string shown = written(in_a_sentence(call_, made_.value), reading_);
            if (in_words(made_.value).find('e') != std::string::npos)
                shown = number_in_working(made_.value, call_.result_unit(), reading_);
            if (mass_ && function.gives == Kind::mass && line != "   = " + shown)
                line += " = " + shown;
            else
                line = "   = " + shown;
        } else {
            show_result(call_, outcome, made_.lines);
        }
    }

  private:
    Names new_names() {
        Names names{.values = {}, .reading = reading_, .call = {}};
        names.call = [this](std::string_view name, std::span<const Input> arguments,
                            const std::string& shown) { return work_out(name, arguments, shown); };
        return names;
    }

    InUse in_use(const Call& call, const Parameter& param) const {
        if (param.kind == Kind::mass) {
            if (!call.function.mass_in_a_unit.empty()) return {&unit_in_working(call.function, param), "kg"};
            if (call.masses_as_given) return {&param.read_in, {}};
            if (mass_ && &call == &call_) return {&mass_->unit, mass_->name};
        }
        return {&param.read_in, std::string(param.shown_unit)};
    }

    // What the function works with, of one argument.
    static Input used(const Parameter& param, const Value& value, const Unit& unit) {
        if (param.shape == Shape::scalar && !param.repeats) return unit.from_si(value.si);
        if (param.shape == Shape::choice)
            return std::string(param.choices.at(static_cast<std::size_t>(value.choice)));
        std::vector<Input> cells(value.names.begin(), value.names.end());
        for (const double si : value.column) cells.emplace_back(unit.from_si(si));
        return cells;
    }

    std::string in_a_line(const Value& value, const Input& as_used, const std::string& unit) const {
        if (as_used.form == Input::Form::grid) return listed(as_used.cells, unit, reading_);
        if (as_used.form == Input::Form::text) return as_used.text;
        std::string line = number_in_working(as_used.number, unit, reading_, 10);
        if (value.typed.empty() || value.typed[0].form == Input::Form::missing)
            return written({"{} (left out: the usual value)", {line}}, reading_);
        const Input& cell =
            value.typed[0].form == Input::Form::grid ? value.typed[0].cells.front() : value.typed[0];
        // as the student wrote it, then as it is put in
        if (cell.form == Input::Form::text && cell.text != line) line = cell.text + " = " + line;
        return line;
    }

    // The arguments under their names, and a line for each.
    void give(Names& names) {
        for (std::size_t i = 0; i < call_.values.size(); ++i) {
            const Parameter& param = call_.function.params[i];
            const Value& value = call_.values[i];
            for (std::size_t k = 0; k < value.rows.size(); ++k)
                if (!value.rows[k].typed.empty())
                    made_.lines.push_back(
                        std::string(param.rows[k].name) + " = " +
                        listed({value.rows[k].typed.begin(), value.rows[k].typed.end()}, {}, reading_));
            if (param.shape == Shape::table) continue;
            const InUse use = in_use(call_, param);
            if (!value.given) {
                if (param.repeats) names.values[std::string(param.name)] = Input(std::vector<Input>{});
                continue;
            }
            Input as_used = used(param, value, *use.unit);
            if (!(as_used.form == Input::Form::grid && as_used.cells.empty()))
                made_.lines.push_back(std::string(param.name) + " = " + in_a_line(value, as_used, use.name));
            names.units[std::string(param.name)] = physical(use.name);
            names.values[std::string(param.name)] = std::move(as_used);
        }
    }

    // An inner sum: its value, and its own working above the line that uses it, once.
    Names::Called work_out(std::string_view name, std::span<const Input> arguments,
                           const std::string& shown) {
        const Function* found = find_function(name);
        if (found == nullptr || (!found->scalar && !hidden_))
            throw std::logic_error("a working calls " + std::string(name));
        static const Reading plain;
        const Call call = read(*found, arguments, plain);
        const Outcome outcome = value(call);
        if (const auto* table = std::get_if<Table>(&outcome)) return {std::get<double>(table->at(0, 1))};
        const double result = std::get<double>(outcome);
        const std::string unit = physical(found->result_unit);
        if (hidden_ || std::ranges::find(worked_out_, shown) != worked_out_.end()) return {result, unit};
        worked_out_.push_back(shown);
        Names names = new_names();
        std::string given;
        for (std::size_t i = 0; i < call.values.size(); ++i) {
            const Parameter& param = found->params[i];
            if (!call.values[i].given) continue;
            const InUse use = in_use(call, param);
            const Input as_used = used(param, call.values[i], *use.unit);
            names.values[std::string(param.name)] = as_used;
            names.units[std::string(param.name)] = physical(use.name);
            names.computed.emplace(param.name);
            if (as_used.form == Input::Form::number)
                given.append(given.empty() ? std::string_view{} : list_comma(reading_))
                    .append(param.name)
                    .append(" = ")
                    .append(number_in_working(as_used.number, physical(use.name), reading_));
        }
        push(shown + ": " + given);
        indent_ += 3;
        if (!steps(call, result, names))
            push(std::string(found->result) + " = " + number_in_working(result, unit, reading_));
        indent_ -= 3;
        return {result, unit};
    }

    void push(const std::string& line) { made_.lines.push_back(std::string(indent_, ' ') + line); }

    // The lines of a call; the value of the last one, where it is a formula.
    std::optional<double> steps(const Call& call, double itself, Names& names) {
        std::optional<double> last;
        names.values["itself"] = itself;
        add_ranges(call, names);
        for (const std::string& written_line : lines_of(call)) {
            std::string_view text = written_line;
            if (!stands(text, names)) continue;
            last.reset();
            const WorkingLine line = read_working_line(text);
            const std::string name(line.name), unit = unit_of(line, call);
            switch (line.form) {
                case WorkingLine::Form::prose:
                    push(written(line.words, reading_));
                    break;
                case WorkingLine::Form::cells:
                    name_cells(line, names);
                    break;
                case WorkingLine::Form::tried:
                    push(written(line.words, reading_));
                    push("   " + written({"{} = {}, found by trial, since with it",
                                          {name, number_in_working(
                                                     itself, physical(call.function.result_unit), reading_)}},
                                         reading_));
                    set(names, name, itself, call.function.result_unit);
                    break;
                case WorkingLine::Form::holds: {
                    const auto equals = line.expression.find(" = ");
                    const Computed left = compute(line.expression.substr(0, equals), names),
                                   right = compute(line.expression.substr(equals + 3), names);
                    push(formula_in_words(line.expression, reading_));
                    push("   " + left.with_numbers + " = " + right.with_numbers);
                    break;
                }
                case WorkingLine::Form::found: {
                    push(name + ": " + written(line.words, reading_));
                    const auto range = names.values.find(line.expression);
                    if (range != names.values.end() && range->second.form == Input::Form::grid) {
                        push("   " + name + " = " + listed(range->second.cells, unit, reading_, 6));
                        set(names, name, range->second, unit);
                        break;
                    }
                    hidden_ = true;
                    const double found = compute(line.expression, names).value;
                    hidden_ = false;
                    push("   " + name + " = " + number_in_working(found, unit, reading_));
                    set(names, name, found, unit);
                    break;
                }
                case WorkingLine::Form::each:
                    push(name + " = " + formula_in_words(line.expression, reading_));
                    set(names, name, in_each_row(line, unit, names), unit);
                    break;
                case WorkingLine::Form::step: {
                    const Computed computed = compute(line.expression, names);
                    const std::string expression = formula_in_words(line.expression, reading_);
                    push(std::string(name).append(" = ").append(expression));
                    const std::string result = number_in_working(computed.value, of_result(unit), reading_);
                    if (computed.with_numbers != expression && computed.with_numbers != result)
                        push("   = " + computed.with_numbers);
                    push("   = " + result);
                    set(names, name, computed.value, unit);
                    last = computed.value;
                    break;
                }
            }
        }
        return last;
    }
    std::string unit_of(const WorkingLine& line, const Call& call) const {
        if (line.unit == "mass") return call.masses_as_given ? "" : mass_ ? mass_->name : "g";
        if (!line.unit.empty() || line.name != call.function.result) return std::string(line.unit);
        return mass_ && &call == &call_ && call.function.gives == Kind::mass
                   ? mass_->name
                   : std::string(call.function.result_unit);
    }
    static void set(Names& names, const std::string& name, const Input& found, std::string_view unit) {
        names.values[name] = found;
        names.units[name] = physical(unit);
        names.computed.insert(name);
    }

    // What the entry adds to the arguments, in the units in which these are shown.
    void add_ranges(const Call& call, Names& names) const {
        if (!call.function.working_ranges) return;
        for (const WorkingRange& range : call.function.working_ranges(call.values)) {
            const auto param = std::ranges::find(call.function.params, range.like, &Parameter::name);
            const InUse use = param == call.function.params.end() ? InUse{nullptr, {}} : in_use(call, *param);
            const auto cell = [&use](double si) { return use.unit != nullptr ? use.unit->from_si(si) : si; };
            Input input;
            if (const auto* number = std::get_if<double>(&range.cells)) {
                input = cell(*number);
            } else {
                std::vector<Input> cells;
                if (const auto* numbers = std::get_if<std::vector<double>>(&range.cells))
                    for (const double si : *numbers) cells.emplace_back(cell(si));
                else
                    for (const std::string& text : std::get<std::vector<std::string>>(range.cells))
                        cells.emplace_back(text);
                input = std::move(cells);
            }
            set(names, std::string(range.name), input, use.name);
        }
    }

    // The expression worked out in each row of its ranges; a range of texts as long names the rows.
    std::vector<Input> in_each_row(const WorkingLine& line, const std::string& unit, const Names& names) {
        std::size_t rows = 0;
        for (const auto& [name, value] : names.values)
            if (value.form == Input::Form::grid && mentions(line.expression, name)) rows = value.cells.size();
        const std::vector<Input>* labels = nullptr;
        for (const auto& [name, value] : names.values)
            if (value.cells.size() == rows && rows > 0 && value.cells.front().form == Input::Form::text)
                labels = &value.cells;
        std::vector<Input> results;
        Names row = names;
        row.computed.emplace("before");
        if (!line.from.empty()) row.values["before"] = compute(line.from, names).value;
        for (std::size_t i = 0; i < rows; ++i) {
            for (const auto& [name, value] : names.values)
                if (value.form == Input::Form::grid && value.cells.size() == rows)
                    row.values[name] = value.cells[i];
            const Computed computed = compute(line.expression, row);
            results.emplace_back(computed.value);
            row.values["before"] = computed.value;
            if (i < kShownRows)
                push("   " + (labels != nullptr ? (*labels)[i].text : std::to_string(i + 1)) + ": " +
                     computed.with_numbers + " = " +
                     number_in_working(computed.value, of_result(unit), reading_));
        }
        if (rows > kShownRows) push("   " + written({"… ({} in all)", {rows}}, reading_));
        return results;
    }

    void name_cells(const WorkingLine& line, Names& names) {
        const Input range = names.values.at(std::string(line.expression));
        std::string text;
        std::string_view left = line.name;
        for (const Input& cell : range.cells) {
            const auto comma = left.find(',');
            const std::string name(trimmed(left.substr(0, comma)));
            left = comma == std::string_view::npos ? std::string_view{} : left.substr(comma + 1);
            names.values[name] = cell;
            text.append(text.empty() ? std::string_view{} : list_comma(reading_))
                .append(name + " = " + number_in_working(cell.number, {}, reading_, 10));
        }
        push(text);
    }

    // The lines of the working; where there is one for each name of the first choice, those of the name
    // given.
    static std::vector<std::string> lines_of(const Call& call) {
        const Function& function = call.function;
        std::string_view text = function.working;
        if (!function.workings.empty()) {
            std::size_t choice = 0;
            while (function.params.at(choice).shape != Shape::choice) ++choice;
            text = function.workings.at(static_cast<std::size_t>(call.values[choice].choice));
        }
        std::istringstream formulas{std::string(text)};
        std::vector<std::string> all;
        for (std::string line; std::getline(formulas, line);) all.push_back(line);
        return all;
    }

    // Does the line stand here? Its conditions go: "if temp > 0.01: ", "if k given: ".
    static bool stands(std::string_view& line, const Names& names) {
        while (line.starts_with("if ")) {
            const auto colon = line.find(": ");
            if (!holds(line.substr(3, colon - 3), names)) return false;
            line.remove_prefix(colon + 2);
        }
        return true;
    }
    static bool holds(std::string_view condition, const Names& names) {
        for (const std::string_view said : {" given", " left out"})
            if (condition.ends_with(said))
                return names.values.contains(condition.substr(0, condition.size() - said.size())) ==
                       (said == " given");
        constexpr std::array<std::string_view, 4> signs{" > ", " ≤ ", " < ", " ≥ "};
        for (std::size_t i = 0; i < signs.size(); ++i) {
            const auto at = condition.find(signs[i]);
            if (at == std::string_view::npos) continue;
            std::string gap(condition.substr(0, at));  // 0 for what only rounding leaves
            gap.append(" − (").append(condition.substr(at + signs[i].size())).append(")");
            const double difference = compute(gap, names).value;
            return (i < 2 ? difference > 0 : difference < 0) == (i % 2 == 0);
        }
        throw std::logic_error("a working's condition cannot be read: " + std::string(condition));
    }

    const Call& call_;
    const Reading& reading_;
    Working& made_;
    const std::optional<MassUnit> mass_;
    std::vector<std::string> worked_out_;
    std::size_t indent_ = 0;
    bool hidden_ = false;
};

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
    if (function.name == "SOLVEFOR") return working_of_search(call);
    if (function.raw)
        refuse("function", {"DRY.{} does no sum of its own that could be shown", {function.name}});
    Working made;
    Writer(call, made).write();
    return made;
}

WorkingLine read_working_line(std::string_view line) {
    using Form = WorkingLine::Form;
    if (line.starts_with(":")) return {.form = Form::prose, .words = trimmed(line.substr(1))};
    if (line.starts_with("if ")) {
        const auto colon = line.find(": ");
        WorkingLine read = read_working_line(line.substr(colon + 2));
        const std::string_view condition = line.substr(3, colon - 3);
        read.condition =
            read.condition.empty()
                ? condition
                : std::string_view(condition.data(),
                                   static_cast<std::size_t>(read.condition.data() - condition.data()) +
                                       read.condition.size());
        return read;
    }
    if (line.starts_with("try ")) {
        const auto colon = line.find(": ");
        return {.form = Form::tried, .name = line.substr(4, colon - 4), .words = line.substr(colon + 2)};
    }
    if (line.starts_with("holds ")) return {.form = Form::holds, .expression = line.substr(6)};
    constexpr std::string_view arrow = "←";
    if (const auto at = line.find(arrow); at != std::string_view::npos)
        return {.form = Form::cells,
                .name = trimmed(line.substr(0, at)),
                .expression = trimmed(line.substr(at + arrow.size()))};
    WorkingLine read{.form = Form::step};
    if (line.starts_with("each ")) {
        read.form = Form::each;
        line.remove_prefix(5);
    }
    auto sign = line.find(" ~ ");
    if (sign != std::string_view::npos)
        read.form = Form::found;
    else
        sign = line.find(" = ");
    if (sign == std::string_view::npos)
        throw std::logic_error("a working's line has no '=': " + std::string(line));
    read.name = trimmed(line.substr(0, sign));
    read.expression = trimmed(line.substr(sign + 3));
    if (read.form == Form::found) {
        const auto colon = read.expression.find(" : ");
        read.words = read.expression.substr(colon + 3);
        read.expression = read.expression.substr(0, colon);
    }
    if (const auto from = read.name.find(" from "); from != std::string_view::npos) {
        read.from = read.name.substr(from + 6);
        read.name = read.name.substr(0, from);
    }
    if (const auto open = read.name.find('['); open != std::string_view::npos) {
        read.unit = read.name.substr(open + 1, read.name.find(']') - open - 1);
        read.name = trimmed(read.name.substr(0, open));
    }
    return read;
}

const Unit& unit_in_working(const Function& function, const Parameter& param) {
    static const Unit kilogram = read_unit("kg").value();
    return param.kind == Kind::mass && !function.mass_in_a_unit.empty() ? kilogram : param.read_in;
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
