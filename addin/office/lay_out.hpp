// SPDX-License-Identifier: MPL-2.0
// A described sheet as cells of the office: contents, styles, notes, validations, names, charts, page.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>

#include "addin/office/sheets.hpp"
#include "addin/workbook/sheet_plan.hpp"

namespace drysheet {

/// Fills an empty sheet. What it makes beyond the sheet, cell styles and a page style, is added once to the
/// workbook and left as people have changed it. A chart may show cells of other sheets, which must be there.
void lay_out(const Document& document, const Sheet& sheet, const SheetPlan& plan,
             const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

}  // namespace drysheet
