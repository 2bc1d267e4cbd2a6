#include "addin/call/evaluate.hpp"

#include <algorithm>
#include <cmath>

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
    const auto unit = read_unit(typed.unit);
    if (!unit) refuse_unknown_unit(param, typed.unit);
    if (!fits(*unit, param.kind)) refuse_unit(param, input, *unit);
    const bool difference = param.kind == Kind::temperature_difference;
    double si = difference ? unit->step_to_si(read.value) : unit->to_si(read.value),
           step = unit->step_to_si(read.uncertainty);
    const Basis own = param.kind == Kind::moisture_wet ? Basis::wet : Basis::dry;
    if (moisture(param.kind) && unit->basis != Basis::unsaid && unit->basis != own) {
        if (si < 0 || (unit->basis == Basis::wet && si >= 1))
            refuse(param,
                   in_words(input) + " is impossible; a wet-basis moisture lies from 0 to below 1 (100 %).");
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

const Input& single(const Parameter& param, const Input& input) {
    if (input.form != Input::Form::grid) [[likely]]
        return input;
    if (input.cells.size() != 1) refuse(param, "one value is wanted, and " + in_words(input) + " was given.");
    return input.cells.front();
}

void read_scalar(const Parameter& param, const Input& input, const Reading& reading, Value& value) {
    const Measured read = read_measured(param, input, reading);
    value.given = read.given || param.otherwise.has_value();
    value.si = param.read_in.to_si(read.value);
    value.u = param.read_in.step_to_si(read.uncertainty);
}

// One more cell of a column, with its uncertainty if it has one.
void append(const Parameter& param, const Measured& read, Value& value) {
    if (read.uncertainty > 0) {
        value.column_u.resize(value.column.size());
        value.column_u.push_back(param.read_in.step_to_si(read.uncertainty));
    } else if (!value.column_u.empty()) {
        value.column_u.push_back(0);
    }
    value.column.push_back(param.read_in.to_si(read.value));
}

// A range as its cells; one column or one row.
std::span<const Input> cells_of(const Parameter& param, const Input& input) {
    if (input.form == Input::Form::missing) refuse(param, "is missing.");
    if (input.form != Input::Form::grid) return {&input, 1};
    if (input.columns > 1 && input.rows() > 1)
        refuse(param, "one row or one column of cells is wanted, and " + in_words(input) + " was given.");
    return input.cells;
}

void read_cells(const Parameter& param, std::span<const Input> cells, const std::vector<bool>& skipped,
                const Reading& reading, Value& value) {
    value.given = true;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i < skipped.size() && skipped[i]) continue;
        if (param.blank && cells[i].blank()) {
            append(param, {.value = *param.blank}, value);
            continue;
        }
        try {
            if (param.shape == Shape::names) {
                value.names.push_back(cells[i].form == Input::Form::text ? cells[i].text
                                                                         : in_words(cells[i].number));
            } else {
                append(param, read_measured(param, cells[i], reading), value);
            }
        } catch (const Refusal& refusal) {
            if (cells.size() == 1) throw;
            std::string sentence = refusal.what();
            sentence.insert(sentence.size() - 1, " (cell " + std::to_string(i + 1) + " of the range)");
            throw Refusal(refusal.reason(), refusal.argument(), sentence);
        }
    }
    if (param.shape == Shape::column && value.column.empty()) refuse(param, "has no value in it.");
}

void read_row(const Parameter& param, std::span<const Input> cells, const Reading& reading, Value& value) {
    static const Input left_out;
    if (param.shape == Shape::column) {
        if (!cells.empty()) read_cells(param, cells, {}, reading, value);
        return;
    }
    if (cells.size() > 2 || (cells.size() == 2 && param.shape == Shape::choice))
        refuse(param, "has more beside it than a value and its unit.");
    const Input& input = cells.empty() ? left_out : cells[0];
    if (param.shape == Shape::choice) {
        if (!cells.empty() || !param.may_be_missing)
            value = {.given = true, .choice = read_choice(param, input)};
    } else if (cells.size() == 2) {
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
            throw Refusal(refusal.reason(), refusal.argument(),
                          std::string(table.name) + " table, " + refusal.what());
        }
    }
}

bool is_range(const Parameter& param) {
    return (param.shape == Shape::column || param.shape == Shape::names) && !param.repeats;
}

// Rows that are blank in every range of the group are left out, as a column may be longer than its data; so
// are those of a reading that was missed.
std::vector<bool> blank_rows(const Function& function, std::span<const Input> given) {
    std::vector<bool> blank, missed;
    const Parameter* first = nullptr;
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        if (!is_range(param) || param.alone) continue;
        if (i >= given.size()) {
            if (param.may_be_missing) continue;
            refuse(param, "is missing.");
        }
        const auto cells = cells_of(param, given[i]);
        if (first == nullptr) {
            first = &param;
            blank.assign(cells.size(), true);
            missed.assign(cells.size(), false);
        } else if (blank.size() != cells.size()) {
            refuse(param, "has " + counted(cells.size(), "cell") + ", and " + std::string(first->name) +
                              " has " + std::to_string(blank.size()) + "; they belong together row by row.");
        }
        for (std::size_t row = 0; row < cells.size(); ++row) {
            blank[row] = blank[row] && cells[row].blank();
            missed[row] = missed[row] || (param.missed && cells[row].blank());
        }
    }
    for (std::size_t row = 0; row < blank.size(); ++row) blank[row] = blank[row] || missed[row];
    return blank;
}

// A cell for every row of the ranges, empty for those left out; lying where the ranges lie.
void keep_places(const Function& function, std::span<const Input> given, Table& column) {
    std::size_t next = 0;
    std::vector<Cell> cells;
    for (const bool left_out : blank_rows(function, given))
        cells.push_back(left_out ? Cell(std::string()) : column.cells.at(next++));
    column.columns = given[0].columns > 1 ? cells.size() : 1;
    column.cells = std::move(cells);
}

std::vector<bool> blank_cells(std::span<const Input> cells) {
    std::vector<bool> blank(cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) blank[i] = cells[i].blank();
    return blank;
}

// Those behind the last one filled.
std::vector<bool> blank_end(std::span<const Input> cells) {
    std::vector<bool> blank = blank_cells(cells);
    std::fill(blank.begin(), std::find(blank.rbegin(), blank.rend(), false).base(), false);
    return blank;
}

void read_repeated(const Parameter& param, std::span<const Input> rest, const Reading& reading,
                   Value& value) {
    if (rest.empty() && !param.may_be_missing) refuse(param, "is missing.");
    for (const Input& input : rest) {
        if (param.ranges && input.form == Input::Form::grid) {
            const auto cells = cells_of(param, input);
            read_cells(param, cells, blank_cells(cells), reading, value);
        } else {
            const Input& one = single(param, input);
            append(param, read_measured(param, one, reading), value);
        }
    }
    value.given = true;
}

}  // namespace

int read_choice(const Parameter& param, const Input& given) {
    const Input& input = single(param, given);
    const auto same = [](char a, char b) { return a == b || (a == '-' && b == ' '); };  // "Henderson Pabis"
    const std::string wanted = typed_name(input);
    std::string all;
    for (std::size_t i = 0; i < param.choices.size(); ++i) {
        if (std::ranges::equal(lower(param.choices[i]), wanted, same)) return static_cast<int>(i);
        all.append(i == 0 ? "" : ", ").append(param.choices[i]);
    }
    refuse(param, (input.blank() ? "is missing; the names known here: "
                                 : in_words(input) + " is none of the names known here: ") +
                      all + ".");
}

Measured read_measured(const Parameter& param, const Input& given, const Reading& reading) {
    const Input& input = single(param, given);
    switch (input.form) {
        case Input::Form::number: {
            if (input.number == 0 && moisture(param.kind) && !param.zero)
                refuse(param, "0 is refused because a blank cell reads as 0; \"0 %\" means bone dry.");
            hold(param, input, input.number, param.read_in.to_si(input.number));
            return {.value = input.number, .uncertainty = 0, .given = true};
        }
        case Input::Form::text:
            if (input.blank()) refuse(param, "is blank.");
            return read_text(param, input, reading);
        case Input::Form::missing:
            if (!param.may_be_missing) refuse(param, "is missing.");
            return {.value = param.otherwise.value_or(0), .uncertainty = 0, .given = false};
        case Input::Form::grid:
            break;
    }
    refuse(param, "a range in a range cannot be read.");
}

const Parameter& parameter_at(const Function& function, std::size_t argument) {
    return function.params[std::min(argument, function.params.size() - 1)];
}

std::vector<Value> read_arguments(const Function& function, std::span<const Input> given,
                                  const Reading& reading) {
    const bool repeats = !function.params.empty() && function.params.back().repeats;
    if (given.size() > function.params.size() && !repeats)
        throw Refusal(Refusal::Reason::argument, "",
                      "too many arguments: " + std::to_string(given.size()) + " were given, and at most " +
                          std::to_string(function.params.size()) + " are wanted.");
    static const Input left_out;
    std::vector<Value> values(function.params.size());
    std::vector<bool> skipped;
    bool skipped_known = false;
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        const Input& input = i < given.size() ? given[i] : left_out;
        if (param.repeats) {
            read_repeated(param, given.subspan(std::min(i, given.size())), reading, values[i]);
        } else if (param.shape == Shape::scalar) [[likely]] {
            read_scalar(param, input, reading, values[i]);
        } else if (param.shape == Shape::choice) {
            values[i] = {.given = true, .choice = read_choice(param, input)};
        } else if (param.shape == Shape::table) {
            read_table(param, input, reading, values[i]);
        } else if (input.form != Input::Form::missing || !param.may_be_missing) {
            const auto cells = cells_of(param, input);
            if (!param.alone && !skipped_known) {
                skipped = blank_rows(function, given);
                skipped_known = true;
            }
            read_cells(param, cells, param.alone ? blank_end(cells) : skipped, reading, values[i]);
        }
    }
    return values;
}

Outcome evaluate(const Function& function, std::span<const Input> given, const Reading& reading) {
    const WrittenAs written(reading);
    try {
        Outcome outcome = function.raw ? function.raw(given, reading)
                                       : function.call(read_arguments(function, given, reading));
        if (auto* number = std::get_if<double>(&outcome)) {
            if (!std::isfinite(*number)) throw BadInput("", "is beyond what a cell can hold");
            *number += 0.0;  // a zero has no sign
        }
        if (function.row_by_row) keep_places(function, given, std::get<Table>(outcome));
        return outcome;
    } catch (const Refused& refused) {
        throw in_sentence(function, given, refused);
    }
}

}  // namespace drysheet
