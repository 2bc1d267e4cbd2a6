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

}  // namespace

Outcome value(const Call& call) {
    const Function& function = call.function;
    try {
        Outcome outcome = function.raw ? function.raw(call.typed, call.reading) : function.call(call.values);
        if (auto* number = std::get_if<double>(&outcome)) {
            if (!std::isfinite(*number)) throw BadInput("", "is beyond what a cell can hold");
            *number += 0.0;  // a zero has no sign
        }
        if (function.row_by_row) keep_places(call, std::get<Table>(outcome));
        return outcome;
    } catch (const Refused& refused) {
        throw in_sentence(call, refused);
    }
}

Outcome evaluate(const Function& function, std::span<const Input> typed, const Reading& reading) {
    return value(read(function, typed, reading));
}

std::string in_words(const Function& function, const Outcome& outcome, const Reading& reading) {
    if (const auto* number = std::get_if<double>(&outcome))
        return in_words(*number, function.result_unit, 6, reading);
    if (const auto* text = std::get_if<std::string>(&outcome)) return *text;
    const Table& table = std::get<Table>(outcome);
    return written({"a table of {}, {}", {counted(table.rows(), "row"), counted(table.columns, "column")}},
                   reading);
}

}  // namespace drysheet
