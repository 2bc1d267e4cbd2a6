// SPDX-License-Identifier: MPL-2.0
// How sure cells are, as a sheet.
#pragma once

#include <string>
#include <vector>

#include "addin/office/sheets.hpp"
#include "addin/text/texts.hpp"
#include "addin/workbook/sure.hpp"

namespace drysheet {

struct SureSheet {
    std::vector<workbook::Place> results;
    std::vector<workbook::Assessed> assessed;  ///< of each
    workbook::Sure sure;
    const workbook::Picture& picture;
    const workbook::Labels& labels;
    const Texts& texts;
};

/// One sentence on the whole: "Sheet1.B5: u = 0.32, 95 % from 9.4 to 10.6."
std::string summary_of(const SureSheet& what);

/// Fills an empty sheet of the document and gives its names.
void write_sure(const Document& document, const Sheet& sheet, const SureSheet& what);

}  // namespace drysheet
