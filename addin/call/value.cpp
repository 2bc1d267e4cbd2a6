// SPDX-License-Identifier: MPL-2.0
#include <cmath>

#include "addin/call/call.hpp"
#include "addin/call/sentences.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

// A cell for every row of the ranges, empty for those left out; lying where the ranges lie.
void keep_places(const Call& call, Table& column) {
    std::size_t next = 0;
    std::vector<Cell> cells;
    for (const bool left_out : call.left_out)
        cells.push_back(left_out ? Cell(std::string()) : column.cells.at(next++));
    column.columns = call.typed[0].columns > 1 ? cells.size() : 1;
    column.cells = std::move(cells);
}

// In a table of quantities a mass has the unit of those given.
void leave_unit_open(Table& table) {
    if (table.columns != 3) return;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        auto* unit = std::get_if<std::string>(&table.cells[row * 3 + 2]);
        if (unit != nullptr && *unit == row_of(Kind::mass).default_unit) *unit = kAsGiven;
    }
}

}  // namespace

Outcome value(const Call& call) {
    const Function& function = call.function;
    try {
        Outcome outcome = function.raw ? function.raw(call.typed, call.reading) : function.call(call.values);
        if (auto* number = std::get_if<double>(&outcome)) {
            if (!std::isfinite(*number)) throw BadInput("", "is beyond what a cell can hold");
            *number += 0.0;  // a zero has no sign
        }
        if (const auto* told = std::get_if<Told>(&outcome)) outcome = written(told->sentence, call.reading);
        if (auto* table = std::get_if<Table>(&outcome)) {
            for (Cell& cell : table->cells)
                if (const auto* told = std::get_if<Told>(&cell)) cell = written(told->sentence, call.reading);
            if (call.masses_as_given) leave_unit_open(*table);
        }
        if (function.row_by_row) keep_places(call, std::get<Table>(outcome));
        return outcome;
    } catch (const NoResult& refused) {
        throw in_sentence(call, refused);
    }
}

Outcome evaluate(const Function& function, std::span<const Input> typed, const Reading& reading) {
    return value(read(function, typed, reading));
}

std::string Call::result_unit() const {
    std::string unit(function.result_unit);
    const std::string gram(row_of(Kind::mass).default_unit);
    if (!masses_as_given || (unit != gram && !unit.starts_with(gram + "/"))) return unit;
    return std::string(kAsGiven) + unit.substr(gram.size());
}

Sentence in_a_sentence(const Call& call, const Outcome& outcome) {
    if (const auto* number = std::get_if<double>(&outcome)) {
        const std::string unit = call.result_unit();
        if (unit == kAsGiven) return {"{} (as given)", {*number}};
        if (unit.starts_with(kAsGiven))
            return {"{} {}{}", {*number, Sentence(kAsGiven), unit.substr(kAsGiven.size())}};
        return {"{}", {{*number, unit}}};
    }
    if (const auto* text = std::get_if<std::string>(&outcome)) return as_it_is(*text);
    const Table& table = std::get<Table>(outcome);
    return {"a table of {}, {}",
            {counted(table.rows(), "1 row", "{} rows"), counted(table.columns, "1 column", "{} columns")}};
}

}  // namespace drysheet
