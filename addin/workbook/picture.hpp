// SPDX-License-Identifier: MPL-2.0
// A workbook as plain data: the office's part takes it once, and everything in this folder judges it, knowing
// no office.
#pragma once

#include <compare>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "addin/text/sentence.hpp"

namespace drysheet::workbook {

/// A cell's place, counted from 0.
struct Place {
    int sheet = 0;
    int row = 0;
    int column = 0;
    friend auto operator<=>(const Place&, const Place&) = default;
};

/// A reference as a formula writes it.
struct Reference {
    Place cell;                ///< where it points from the formula's own cell
    bool sheet_named = false;  ///< the sheet is written before it
    bool row_fixed = false;    ///< a $ before the row
    bool column_fixed = false;
    bool gone = false;  ///< what it pointed at was deleted: #REF!
    std::string file;   ///< of a link to another workbook
};

/// A formula as a tree.
struct Formula {
    enum class What : unsigned char {
        number,
        text,
        truth,  ///< TRUE or FALSE, in `number`
        fault,  ///< an error typed as such, its name in `text`
        blank,  ///< an argument left empty
        cell,   ///< `from`
        range,  ///< `from` to `to`
        name,   ///< a defined name, in `text`; its scope in `from.cell.sheet`, -1 for the whole workbook
        call,   ///< a function, its English name in capitals in `text` ("SUM", "DRY.DRIEDMASS"), of `parts`
        operation,  ///< an operator in `text` (+ - * / ^ & = <> < > <= >= : ~ ! %) of one or two `parts`
        array,      ///< an inline array, row by row, `number` columns wide
        unreadable
    };
    What what = What::blank;
    double number = 0;
    std::string text;
    Reference from, to;
    std::vector<Formula> parts;
};

enum class Format : unsigned char {
    general,
    number,
    percent,
    scientific,
    currency,
    date,
    clock,
    date_clock,
    truth,
    text
};

struct Cell {
    std::variant<std::monostate, double, std::string> value;  ///< of a formula: what it shows now
    int error = 0;                                            ///< the office's code, 502 for Err:502; 0: none
    std::optional<Formula> formula;
    std::string formula_text;  ///< as the user sees it, "=B2*2"
    Format format = Format::general;
    std::string format_code;  ///< `0.0" kg"`
    std::string note;
    std::string style;
    bool of_array = false;  ///< filled by the array formula of another cell
    bool percent_typed = false;
};

/// Merged cells, the first and the last.
struct Merged {
    int row = 0, column = 0, last_row = 0, last_column = 0;
};

struct Sheet {
    std::string name;
    bool hidden = false;
    bool guarded = false;                       ///< protected
    std::map<std::pair<int, int>, Cell> cells;  ///< by row and column; only those that hold something
    std::vector<Merged> merged;
    std::vector<int> hidden_rows, hidden_columns;
};

/// A defined name.
struct Name {
    std::string name;
    int scope = -1;  ///< the sheet it belongs to; -1: the whole workbook
    Formula means;
};

struct Picture {
    std::vector<Sheet> sheets;
    std::vector<Name> names;
    bool decimal_comma = false;
    const Texts* texts = nullptr;  ///< of the reader's language, none: English; they outlive the picture

    Reading reading() const { return {.decimal_comma = decimal_comma, .texts = texts}; }
    std::string say(const Sentence& sentence) const { return drysheet::written(sentence, reading()); }

    const Cell* at(const Place& place) const {
        if (place.sheet < 0 || static_cast<std::size_t>(place.sheet) >= sheets.size()) return nullptr;
        const auto& cells = sheets[static_cast<std::size_t>(place.sheet)].cells;
        const auto found = cells.find({place.row, place.column});
        return found == cells.end() ? nullptr : &found->second;
    }
};

}  // namespace drysheet::workbook
