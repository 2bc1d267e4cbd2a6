// SPDX-License-Identifier: MPL-2.0
// The plain picture of an open workbook.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>

#include "addin/workbook/picture.hpp"

namespace drysheet {

/// All of its sheets, as they stand now; nothing is changed. Formulas are in English with ";", but for their
/// text, which is as the user sees it.
workbook::Picture take_picture(
    const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& document,
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

}  // namespace drysheet
