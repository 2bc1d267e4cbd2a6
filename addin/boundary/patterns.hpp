// Blocks of labels, inputs and formulas that a person puts into a sheet of their own and then changes.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace drysheet {

/// A pattern in lines, its columns set apart by "|".
///   name: content   names a cell; the same name in several lines names the column of them
///   <name>          in a formula: the cell's address, or the column's
///   [name]          its value with the unit that stands to its right: B5&" "&C5; where the name ends in _u,
///   with the
///                   unit to its left
///   {=formula}      an array formula; ^ below it belongs to it
struct Pattern {
    std::string_view command;  ///< the last part of the menu's command
    std::string_view title;
    std::string_view lines;
};

std::span<const Pattern> patterns();
const Pattern* find_pattern(std::string_view command);

/// A cell of a pattern at its place in the sheet.
struct PatternCell {
    std::size_t column = 0, row = 0;
    std::size_t array_rows = 0;  ///< of an array formula; 0 otherwise
    std::string content;         ///< as a person would type it into an English sheet
    bool input = false;          ///< a value to be typed over
};

struct Block {
    std::size_t columns = 0, rows = 0;
    std::vector<PatternCell> cells;
};

/// The pattern with its upper left corner at this cell, counted from 0.
Block placed(const Pattern& pattern, std::size_t column, std::size_t row);

}  // namespace drysheet
