#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "addin/call/call.hpp"
#include "addin/call/sentences.hpp"
#include "addin/call/tables.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool moisture(Kind kind) { return kind == Kind::moisture_wet || kind == Kind::moisture_dry; }

void hold(const Parameter& param, const Input& input, double x, double si) {
    if (row_of(param.kind).limits.hold(si) && param.range.hold(x)) [[likely]]
        return;
    refuse_outside(param, input, x, si);
}

Measured read_text(const Parameter& param, const Input& input, const Reading& reading) {
    std::string storage;
    const auto [typed, what] = read_typed(plain_spaces(input.text, storage), reading);
    if (what != TextFault::none) refuse_text(param, input, what);
    Measured read{.value = typed.value, .uncertainty = typed.uncertainty, .given = true};
    if (typed.unit.empty()) {
        hold(param, input, read.value, param.read_in.to_si(read.value));
        return read;
    }
    read.unit = true;
    const auto unit = read_unit(typed.unit);
    if (!unit) refuse_unknown_unit(param, typed.unit);
    if (!fits(*unit, param.shares ? Kind::fraction : param.kind)) refuse_unit(param, input, *unit);
    const bool difference = param.kind == Kind::temperature_difference;
    double si = difference ? unit->step_to_si(read.value) : unit->to_si(read.value),
           step = unit->step_to_si(read.uncertainty);
    const Basis own = param.kind == Kind::moisture_wet ? Basis::wet : Basis::dry;
    if (moisture(param.kind) && unit->basis != Basis::unsaid && unit->basis != own) {
        if (si < 0 || (unit->basis == Basis::wet && si >= 1))
            refuse(param, {"{} is impossible; a wet-basis moisture lies from 0 to below 1 (100 %)",
                           {in_words(input)}});
        const double slope =
            unit->basis == Basis::wet ? 1 / ((1 - si) * (1 - si)) : 1 / ((1 + si) * (1 + si));
        step *= slope;
        si = other_basis(si, unit->basis);
    }
    read.value = param.read_in.from_si(si);
    read.uncertainty = param.read_in.step_from_si(step);
    hold(param, input, read.value, si);
    return read;
}

void read_scalar(const Parameter& param, const Input& input, const Reading& reading, Value& value) {
    const Measured read = read_measured(param, input, reading);
    value.given = read.given || param.otherwise.has_value();
    value.unit = read.unit;
    value.si = param.read_in.to_si(read.value);
    value.u = param.read_in.step_to_si(read.uncertainty);
}

// One more cell of a column, with its uncertainty if it has one.
void append(const Parameter& param, const Measured& read, Value& value) {
    if (param.shares && !value.column.empty() && read.unit != value.unit)
        refuse(param, {"has a unit in some cells and none in others"});
    if (read.uncertainty > 0) {
        value.column_u.resize(value.column.size());
        value.column_u.push_back(param.read_in.step_to_si(read.uncertainty));
    } else if (!value.column_u.empty()) {
        value.column_u.push_back(0);
    }
    value.unit = value.unit || read.unit;
    value.column.push_back(param.read_in.to_si(read.value));
}

// A range as its cells; one column or one row.
std::span<const Input> cells_of(const Parameter& param, const Input& input) {
    if (input.form == Input::Form::missing) refuse(param, "is missing");
    if (input.form != Input::Form::grid) return {&input, 1};
    if (input.columns > 1 && input.rows() > 1)
        refuse(param, {"one row or one column of cells is wanted, and {} was given", {in_words(input)}});
    return input.cells;
}

// Which cells are left out; nothing where none is.
using LeftOut = std::vector<bool>;

void read_cell(const Parameter& param, const Input& cell, const Reading& reading, Value& value) {
    if (param.shape == Shape::names)
        value.names.push_back(cell.form == Input::Form::text ? cell.text : in_words(cell.number));
    else if (param.blank && cell.blank())
        append(param, {.value = *param.blank}, value);
    else
        append(param, read_measured(param, cell, reading), value);
}

void read_cells(const Parameter& param, std::span<const Input> cells, const LeftOut& left_out,
                const Reading& reading, Value& value) {
    value.given = true;
    const bool some = std::ranges::find(left_out, true) != left_out.end();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (some && left_out[i]) continue;
        try {
            read_cell(param, cells[i], reading, value);
        } catch (const Refusal& refusal) {
            if (cells.size() == 1) throw;
            throw refusal.with({"{} (cell {} of the range)", {refusal.why(), i + 1}});
        }
        if (some) value.places.push_back(i);
    }
    if (param.shape == Shape::column && value.column.empty()) refuse(param, "has no value in it");
}

LeftOut blank_cells(std::span<const Input> cells) {
    LeftOut blank(cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) blank[i] = cells[i].blank();
    return blank;
}

// Those behind the last one filled.
LeftOut blank_end(std::span<const Input> cells) {
    LeftOut blank = blank_cells(cells);
    std::fill(blank.begin(), std::find(blank.rbegin(), blank.rend(), false).base(), false);
    return blank;
}

void read_row(const Parameter& param, std::span<const Input> cells, const Reading& reading, Value& value) {
    static const Input missing;
    value.typed = cells;
    if (param.shape == Shape::column) {
        if (!cells.empty()) read_cells(param, cells, {}, reading, value);
        return;
    }
    if (cells.size() > 2 || (cells.size() == 2 && param.shape == Shape::choice))
        refuse(param, "has more beside it than a value and its unit");
    const Input& input = cells.empty() ? missing : cells[0];
    if (param.shape == Shape::choice) {
        if (!cells.empty() || !param.may_be_missing) {
            value.given = true;
            value.choice = read_choice(param, input);
        }
    } else if (cells.size() == 2) {
        // the number as the office holds it, whatever the locale's decimal sign
        read_scalar(param, with_unit(param, input, cells[1]),
                    input.form == Input::Form::number ? Reading{} : reading, value);
    } else {
        read_scalar(param, input, reading, value);
    }
}

void read_table(const Parameter& table, const Input& input, const Reading& reading, Value& value) {
    const std::vector<TableRow> rows = table_rows(table, input);
    value.given = true;
    value.rows.resize(table.rows.size());
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const Parameter& param = table.rows[i];
        const auto row = std::ranges::find(rows, &param, &TableRow::param);
        try {
            read_row(param, row == rows.end() ? std::span<const Input>{} : row->cells, reading,
                     value.rows[i]);
        } catch (const Refusal& refusal) {
            throw refusal.under({"{} table, {}", {table.name, param.name}});
        }
    }
}

bool is_range(const Parameter& param) {
    return (param.shape == Shape::column || param.shape == Shape::names) && !param.repeats;
}

// Rows that are blank in every range of the group are left out, as a column may be longer than its data; so
// are those of a reading that was missed.
LeftOut pair_rows(const Function& function, std::span<const Input> typed) {
    LeftOut blank, missed;
    const Parameter* first = nullptr;
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        if (!is_range(param) || param.alone) continue;
        if (i >= typed.size() || typed[i].form == Input::Form::missing) {
            if (param.may_be_missing) continue;
            refuse(param, "is missing");
        }
        const auto cells = cells_of(param, typed[i]);
        if (first == nullptr) {
            first = &param;
            blank.assign(cells.size(), true);
            missed.assign(cells.size(), false);
        } else if (blank.size() != cells.size()) {
            refuse(param, {"has {}, and {} has {}; they belong together row by row",
                           {counted(cells.size(), "cell"), first->name, blank.size()}});
        }
        for (std::size_t row = 0; row < cells.size(); ++row) {
            blank[row] = blank[row] && cells[row].blank();
            missed[row] = missed[row] || (param.missed && cells[row].blank());
        }
    }
    for (std::size_t row = 0; row < blank.size(); ++row) blank[row] = blank[row] || missed[row];
    return blank;
}

void read_repeated(const Parameter& param, std::span<const Input> rest, const Reading& reading,
                   Value& value) {
    if (rest.empty() && !param.may_be_missing) refuse(param, "is missing");
    value.typed = rest;
    value.given = true;
    for (const Input& input : rest) {
        if (param.ranges && input.form == Input::Form::grid) {
            const auto cells = cells_of(param, input);
            read_cells(param, cells, blank_cells(cells), reading, value);
        } else {
            append(param, read_measured(param, single(param, input), reading), value);
        }
    }
    value.places.clear();  // of several ranges a cell is counted among the readings
}

}  // namespace

const Input& single(const Parameter& param, const Input& input) {
    if (input.form != Input::Form::grid) [[likely]]
        return input;
    if (input.cells.size() != 1) refuse(param, {"one value is wanted, and {} was given", {in_words(input)}});
    return input.cells.front();
}

int read_choice(const Parameter& param, const Input& given) {
    const Input& input = single(param, given);
    const auto same = [](char a, char b) { return a == b || (a == '-' && b == ' '); };  // "Henderson Pabis"
    const std::string wanted = typed_name(input);
    std::string all;
    for (std::size_t i = 0; i < param.choices.size(); ++i) {
        if (std::ranges::equal(lower(param.choices[i]), wanted, same)) return static_cast<int>(i);
        all.append(i == 0 ? "" : ", ").append(param.choices[i]);
    }
    if (input.blank()) refuse(param, {"is missing; the names known here: {}", {all}});
    refuse(param, {"{} is none of the names known here: {}", {in_words(input), all}});
}

Measured read_measured(const Parameter& param, const Input& given, const Reading& reading) {
    const Input& input = single(param, given);
    switch (input.form) {
        case Input::Form::number: {
            if (input.number == 0 && moisture(param.kind) && !param.zero)
                refuse(param, "0 is refused because a blank cell reads as 0; \"0 %\" means bone dry");
            hold(param, input, input.number, param.read_in.to_si(input.number));
            return {.value = input.number, .uncertainty = 0, .given = true};
        }
        case Input::Form::text:
            if (input.blank()) refuse(param, "is blank");
            return read_text(param, input, reading);
        case Input::Form::missing:
            if (!param.may_be_missing) refuse(param, "is missing");
            return {.value = param.otherwise.value_or(0), .uncertainty = 0, .given = false};
        case Input::Form::grid:
            break;
    }
    refuse(param, "a range in a range cannot be read");
}

const Parameter& parameter_at(const Function& function, std::size_t argument) {
    return function.params[std::min(argument, function.params.size() - 1)];
}

Call read(const Function& function, std::span<const Input> typed, const Reading& reading) {
    Call call{.function = function, .typed = typed, .reading = reading};
    if (function.raw) return call;
    const bool repeats = !function.params.empty() && function.params.back().repeats;
    if (typed.size() > function.params.size() && !repeats)
        refuse("", {"too many arguments: {} were given, and at most {} are wanted",
                    {typed.size(), function.params.size()}});
    static const Input missing;
    call.values.resize(function.params.size());
    bool paired = false;
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        Value& value = call.values[i];
        const Input& input = i < typed.size() ? typed[i] : missing;
        if (i < typed.size()) value.typed = typed.subspan(i, 1);
        if (param.repeats) {
            read_repeated(param, typed.subspan(std::min(i, typed.size())), reading, value);
        } else if (param.shape == Shape::scalar) [[likely]] {
            read_scalar(param, input, reading, value);
        } else if (param.shape == Shape::choice) {
            value.given = input.form != Input::Form::missing || !param.may_be_missing;
            if (value.given) value.choice = read_choice(param, input);
        } else if (param.shape == Shape::table) {
            read_table(param, input, reading, value);
        } else if (input.form != Input::Form::missing || !param.may_be_missing) {
            const auto cells = cells_of(param, input);
            if (!param.alone && !paired) {
                call.left_out = pair_rows(function, typed);
                paired = true;
            }
            read_cells(param, cells, param.alone ? blank_end(cells) : call.left_out, reading, value);
        }
    }
    return call;
}

}  // namespace drysheet
