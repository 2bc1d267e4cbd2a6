// The check of a whole workbook: every call of our functions, listed in a new sheet.
#pragma once

#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/task/XStatusIndicator.hpp>
#include <string>

#include "addin/text/texts.hpp"

namespace drysheet {

/// Adds a sheet with a row for each call: where, formula, value, what DRY.WHY says of its arguments, its
/// inputs and source; the refused ones first. Nothing else changes, and one undo takes the sheet away again.
/// Gives a sentence that sums up; throws NotDone where there is nothing to list.
std::string check_workbook(
    const com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>& document,
    const com::sun::star::uno::Reference<com::sun::star::task::XStatusIndicator>& progress,
    const Texts& texts);

}  // namespace drysheet
