// SPDX-License-Identifier: MPL-2.0
// Pictures of workbooks as text, so that a test reads like a sheet.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// A picture from lines:
///   // a note
///   sheet Run 3                      begins a sheet
///   A1 | Fresh mass (kg) | 12.5      a cell, and the ones right of it; nothing between two | is a blank cell
///   C2:C9 | =A2/B2 | kg              the same in every row, formulas as copied down
///   name fresh_kg = $'Run 3'.B1      a defined name; `name 'Run 3'!fresh_kg = …` belongs to that sheet
///   merged A1:C1 · hidden row 5 · hidden column C · hidden sheet · guarded · decimal comma
///   ! …                              what a test expects; given back as it stands
/// A cell's content is a number, a number with % (a percent format), a formula from "=", or a text; 'text in
/// quotes' is a text whatever it looks like. Behind it, in braces: {percent} {clock} {date} {date clock}
/// {number} {scientific} {currency} {text} {format CODE} {note words} {error 502} {array} {shows 3.2}.
/// Formulas without {shows} or {error} get the value that they have.
struct PictureText {
    Picture picture;
    std::vector<std::string> expected;
};
PictureText read_picture(std::string_view text);

/// Works out every formula of a picture that shows nothing yet.
void calculate(Picture& picture);

/// "B3" or "Run 3.B3" as a place; on the first sheet where none is named.
Place place(const Picture& picture, std::string_view address);

}  // namespace drysheet::workbook
