// SPDX-License-Identifier: MPL-2.0
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
    const QuantityText text = read_quantity(plain_spaces(input.text, storage), reading);
    if (text.fault != TextFault::none) refuse_text(param, input, text);
    Measured read{.value = text.value, .uncertainty = text.uncertainty, .given = true, .clock = text.clock};
    if (text.said.empty()) {
        hold(param, input, read.value, param.read_in.to_si(read.value));
        return read;
    }
    read.unit = true;
    const Unit& unit = text.unit;
    if (!fits(unit, param.shares ? Kind::fraction : param.kind)) refuse_unit(param, input, unit);
    const bool difference = param.kind == Kind::temperature_difference;
    double si = difference ? unit.step_to_si(read.value) : unit.to_si(read.value),
           step = unit.step_to_si(read.uncertainty);
    const Basis own = param.kind == Kind::moisture_wet ? Basis::wet : Basis::dry;
    if (moisture(param.kind) && unit.basis != Basis::unsaid && unit.basis != own) {
        if (si < 0 || (unit.basis == Basis::wet && si >= 1))
            refuse(param, {"{} is impossible; a wet-basis moisture lies from 0 to below 1 (100 %)",
                           {in_a_sentence(input)}});
        const double slope = unit.basis == Basis::wet ? 1 / ((1 - si) * (1 - si)) : 1 / ((1 + si) * (1 + si));
        step *= slope;
        si = other_basis(si, unit.basis);
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
        refuse(param, {"one row or one column of cells is wanted, and {} was given", {in_a_sentence(input)}});
    return input.cells;
}

// Which cells are left out; nothing where none is.
using LeftOut = std::vector<bool>;

// A clock that falls once goes on past midnight.
class Midnight {
  public:
    void follow(Measured& read) {
        if (!read.clock) return;
        if (!passed_ && read.value < last_) passed_ = true;
        last_ = read.value;
        if (passed_) read.value += 24;
    }

  private:
    double last_ = 0;
    bool passed_ = false;
};

std::string typed_text(const Input& cell) {
    return cell.form == Input::Form::text ? cell.text : in_words(cell.number);
}

void read_cell(const Parameter& param, const Input& cell, const Reading& reading, Midnight& midnight,
               Value& value) {
    if (param.shape == Shape::names)
        value.names.push_back(typed_text(cell));
    else if (param.blank && cell.blank())
        append(param, {.value = *param.blank}, value);
    else {
        Measured read = read_measured(param, cell, reading);
        midnight.follow(read);
        append(param, read, value);
    }
}

// A number with no unit, or a text in hours: a clock or a date of the office, once its format is lost, is
// days.
bool may_be_days(const Input& cell) {
    if (cell.form != Input::Form::text) return true;
    std::string storage;
    const QuantityText text = read_quantity(plain_spaces(cell.text, storage), {});
    return text.fault == TextFault::none && !text.clock &&
           (text.said.empty() || (text.unit.step_to_si(1) == default_unit(Kind::time).step_to_si(1)));
}

// Times that look like clock times (all below 1, the first above 0) or like dates with times.
void refuse_days(const Parameter& param, std::span<const Input> cells, const Value& value) {
    if (param.kind != Kind::time || value.column.size() < 2) return;
    const auto hours = [&](double si) { return default_unit(Kind::time).from_si(si); };
    const auto [low, high] = std::ranges::minmax(value.column);
    const bool clocks = hours(high) < 1 && value.column.front() > 0;
    const bool dates = hours(low) > 20000 && hours(high) - hours(low) < 100;
    if (!clocks && !dates) return;
    for (std::size_t k = 0; k < value.column.size(); ++k)
        if (!may_be_days(cells[value.place(k)])) return;
    refuse(
        param,
        {clocks
             ? "looks like times of day, which a cell holds as parts of a day ({} to {}): subtract the "
               "first and multiply by 24, as in (A2:A9-A2)*24, or, if they are hours, give minutes, as in "
               "A2:A9*60 & \" min\""
             : "looks like dates with times, which a cell holds as days ({} to {}): subtract the first and "
               "multiply by 24, as in (A2:A9-A2)*24, or, if they are hours, give minutes, as in "
               "A2:A9*60 & \" min\"",
         {hours(low), hours(high)}});
}

void read_cells(const Parameter& param, std::span<const Input> cells, const LeftOut& left_out,
                const Reading& reading, Value& value) {
    value.given = true;
    const bool some = std::ranges::find(left_out, true) != left_out.end();
    Midnight midnight;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (some && left_out[i]) continue;
        try {
            read_cell(param, cells[i], reading, midnight, value);
        } catch (const Refusal& refusal) {
            if (cells.size() == 1) throw;
            throw refusal.with({"{} (cell {} of the range)", {refusal.why(), i + 1}});
        }
        if (some) value.places.push_back(i);
    }
    if (param.shape == Shape::column && value.column.empty()) refuse(param, "has no value in it");
    refuse_days(param, cells, value);
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
                           {counted(cells.size(), "1 cell", "{} cells"), first->name, blank.size()}});
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

// What one mass of a call says of its unit.
struct MassSeen {
    const Parameter* plain = nullptr;
    const Parameter* written = nullptr;
    const Input* plain_cell = nullptr;
    const Input* written_cell = nullptr;
    const Parameter* table = nullptr;  // of whose rows `plain` is one

    void add(const Parameter& param, const Input& cell, const Reading& reading) {
        if (cell.form == Input::Form::grid) {
            for (const Input& one : cell.cells) add(param, one, reading);
            return;
        }
        std::string storage;
        const bool text = cell.form == Input::Form::text && !cell.blank();
        const QuantityText read =
            text ? read_quantity(plain_spaces(cell.text, storage), reading) : QuantityText{};
        if (text && !read.said.empty()) {
            if (written == nullptr) written = &param, written_cell = &cell;
        } else if ((text && read.value != 0) || (cell.form == Input::Form::number && cell.number != 0)) {
            if (plain == nullptr) plain = &param, plain_cell = &cell;
        }
    }
};

// All masses of a call have a unit, or none has; none where the result would differ with it. 0 and blank have
// no unit and go with either.
void judge_masses(Call& call) {
    const Function& function = call.function;
    MassSeen seen;
    for (std::size_t i = 0; i < call.values.size(); ++i) {
        const Parameter& param = function.params[i];
        const Value& value = call.values[i];
        for (std::size_t k = 0; k < value.rows.size(); ++k) {
            const auto& cells = value.rows[k].typed;
            if (param.rows[k].kind != Kind::mass || cells.empty() || value.rows[k].unit) continue;
            if (seen.plain == nullptr)
                seen.plain = &param.rows[k], seen.plain_cell = &cells[0], seen.table = &param;
        }
        if (param.kind != Kind::mass || param.shape == Shape::choice) continue;
        // a call of plain numbers is the common one, and is told without a look at its cells
        if (!value.unit && value.column.empty()) {
            if (value.si != 0 && seen.plain == nullptr && !value.typed.empty() &&
                value.typed[0].form != Input::Form::missing)
                seen.plain = &param, seen.plain_cell = &value.typed[0];
            continue;
        }
        for (const Input& cell : value.typed) seen.add(param, cell, call.reading);
    }
    if (seen.plain == nullptr) return;
    bool needed = function.mass_in_a_unit == kAlways;
    for (std::size_t i = 0; i < call.values.size(); ++i)
        needed = needed || (function.params[i].name == function.mass_in_a_unit && call.values[i].given);
    const Input& cell =
        seen.plain_cell->form == Input::Form::grid ? seen.plain_cell->cells.front() : *seen.plain_cell;
    const std::string mass = cell.form == Input::Form::text ? std::string(trimmed(cell.text))
                                                            : written(in_a_sentence(cell), call.reading);
    const auto refusal = [&](Sentence why) {
        const Refusal made(Refusal::Reason::argument, std::string(seen.plain->name), std::move(why));
        return seen.table == nullptr ? made
                                     : made.under({"{} table, {}", {seen.table->name, seen.plain->name}});
    };
    if (needed)
        throw refusal(
            {"{} is a mass without a unit, and the result would differ with it: join the unit, as in "
             "B5 & \" kg\", or write \"{} kg\"",
             {mass, mass}});
    if (seen.written != nullptr)
        throw refusal({"{} has no unit, and {} has one ({}): give all masses of a call with a unit, or none",
                       {mass, seen.written->name, in_a_sentence(*seen.written_cell)}});
    call.masses_as_given = true;
}

}  // namespace

const Input& single(const Parameter& param, const Input& input) {
    if (input.form != Input::Form::grid) [[likely]]
        return input;
    if (input.cells.size() != 1)
        refuse(param, {"one value is wanted, and {} was given", {in_a_sentence(input)}});
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
    refuse(param, {"{} is none of the names known here: {}", {in_a_sentence(input), all}});
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
        } else if (param.shape == Shape::text) {
            if (input.form == Input::Form::missing && !param.may_be_missing) refuse(param, "is missing");
            value.given = input.form != Input::Form::missing;
            if (value.given) value.names = {typed_text(single(param, input))};
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
    if (function.takes_masses) judge_masses(call);
    return call;
}

}  // namespace drysheet
