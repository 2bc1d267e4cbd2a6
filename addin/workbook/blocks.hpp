// SPDX-License-Identifier: MPL-2.0
// Blocks of labels, inputs and formulas that a person puts into a sheet of their own and then changes.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "addin/text/texts.hpp"

namespace drysheet {

/// A pattern in lines below its title, their columns set apart by "|".
///   name: content   names a cell; the same name in several lines names the column of them
///   <name>          in a formula: the cell's address, or the column's
///   <name fixed>    the same with $ before column and row; <name in row> the cell of that column in this
///   row, $A7;
///                   <name in column> the cell of that row in this column, C$6; <above>, <left> the cell next
///                   to it
///   "               the content of the cell to its left once more, seen from here
///   [name]          its value with the unit that stands to its right, B5&" "&C5; where the name ends in _u,
///                   with the unit to its left
///   [name if other] a column's values with the unit above them, nothing where the other column is blank
///   {=formula}      an array formula; ^ below it belongs to it
///   content %       a number or a formula's result shown as per cent; the cell holds the fraction, 0.86
///   Label           a text that begins with a capital letter is translated; a unit never does
///   =reason         what DRY.WHY says of the first call in the other formulas that is refused
struct Pattern {
    std::string_view command;  ///< the last part of the menu's command
    std::string_view title;
    std::string_view lines;
    std::string_view chart_of{};  ///< names the headings of a table whose rows are named side; a chart of it
                                  ///< stands below the block
};

std::span<const Pattern> patterns();
const Pattern* find_pattern(std::string_view command);

/// A cell of a pattern at its place in the sheet.
struct PatternCell {
    std::size_t column = 0, row = 0;
    std::size_t array_rows = 0;  ///< of an array formula; 0 otherwise
    std::string content;         ///< as a person would type it into an English sheet
    bool input = false;          ///< a value to be typed over, or its unit
    bool percent = false;        ///< a fraction to be shown as per cent
};

/// Where a chart takes its numbers from, headings included.
struct PatternChart {
    std::size_t column = 0, row = 0, columns = 0, rows = 0;
};

struct Block {
    std::size_t columns = 0, rows = 0;  ///< with the room for its chart
    std::vector<PatternCell> cells;
    std::optional<PatternChart> chart{};
};

/// The pattern with its upper left corner at this cell, counted from 0, its labels in the language of the
/// texts.
Block placed(const Pattern& pattern, std::size_t column, std::size_t row, const Texts& texts = {});

/// What a translator finds of a pattern: its title and its labels, each with its key.
std::vector<std::pair<std::string, std::string>> labels(const Pattern& pattern);

}  // namespace drysheet
