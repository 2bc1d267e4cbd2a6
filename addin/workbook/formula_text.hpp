// SPDX-License-Identifier: MPL-2.0
// The text of a cell's formula: which of our functions it calls, with what, and the same seen from another
// sheet.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

/// One call in a formula; the views are parts of the formula's text.
struct CallText {
    const Function* function = nullptr;       ///< none of this name: it is misspelt
    std::string_view name;                    ///< "DRY.DRIEDMASS", in whatever case it is written
    std::string_view whole;                   ///< "DRY.DRIEDMASS(B2;B3;B4)"
    std::vector<std::string_view> arguments;  ///< an argument left out is empty
};

/// Every call of a function named DRY.…, nested ones too, in the order in which they are written. The formula
/// is in the grammar of the office's interface: English names, semicolons, texts in "…", names of sheets in
/// '…'.
std::vector<CallText> calls_in(std::string_view formula);

/// The expression as another sheet must write it: a reference without a sheet gets this one, and a cell its
/// dollars (Calc is slow to take in a column of formulas that refer to cells beside them).
std::string on_sheet(std::string_view expression, std::string_view sheet);

/// A text as a formula writes it: "a ""b""".
std::string in_quotes(std::string_view text, char mark = '"');

/// A sheet's name as a formula writes it: 'It''s wet'.
std::string quoted_sheet(std::string_view name);

/// "AB", counted from 0; "AB12".
std::string column_letters(std::size_t column);
std::string address(std::size_t column, std::size_t row);

/// A single cell that an expression refers to; the sheet is empty where none is written.
struct CellText {
    std::string_view text;
    std::string sheet;
    std::size_t column = 0, row = 0;
};
std::vector<CellText> cells_in(std::string_view expression);

}  // namespace drysheet
