// SPDX-License-Identifier: MPL-2.0
// What a cell gives and what it gets back, without any office.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "addin/text/sentence.hpp"

namespace drysheet {

/// One argument as it stands in the sheet.
struct Input {
    enum class Form : unsigned char { missing, number, text, grid };

    Form form = Form::missing;
    double number = 0;
    std::string text;          ///< UTF-8
    std::vector<Input> cells;  ///< row by row; a blank cell of a range is a text without characters
    std::size_t columns = 0;

    Input() = default;
    Input(double value) : form(Form::number), number(value) {}              // NOLINT: a cell is its value
    Input(std::string value) : form(Form::text), text(std::move(value)) {}  // NOLINT
    Input(const char* value) : form(Form::text), text(value) {}             // NOLINT
    Input(std::vector<Input> column) : Input(std::move(column), std::size_t{1}) {}  // NOLINT
    Input(std::vector<Input> grid, std::size_t width)
        : form(Form::grid), cells(std::move(grid)), columns(width) {}

    std::size_t rows() const { return columns == 0 ? 0 : cells.size() / columns; }
    bool blank() const {
        return form == Form::missing ||
               (form == Form::text && text.find_first_not_of(' ') == std::string::npos);
    }
};

/// A column of cells, for check values: column(1.0, 2.0, "3 g").
template <class... Cells>
Input column(Cells... cells) {
    return Input(std::vector<Input>{Input(cells)...});
}

/// A sentence of a result, while it is not yet written. (A variant of Sentence itself would take a literal
/// for it.)
struct Told {
    Sentence sentence;
    Told(Sentence told) : sentence(std::move(told)) {}  // NOLINT: a sentence is told
    bool operator==(const Told& other) const { return written(sentence) == written(other.sentence); }
};

/// Texts are names or what was typed. What the sheet gets has no Told any more: value() writes them.
using Cell = std::variant<std::monostate, double, std::string, Told>;

/// An array result, row by row.
struct Table {
    std::size_t columns = 1;
    std::vector<Cell> cells;

    std::size_t rows() const { return columns == 0 ? 0 : cells.size() / columns; }
    const Cell& at(std::size_t row, std::size_t column) const { return cells[row * columns + column]; }
};

/// What a function gives: a number in its result unit, a text, or a table.
using Outcome = std::variant<double, std::string, Table, Told>;

/// What was given, as the reader of a refusal should see it.
Sentence in_a_sentence(const Input& input);

}  // namespace drysheet
