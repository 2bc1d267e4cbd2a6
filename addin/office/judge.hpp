// SPDX-License-Identifier: MPL-2.0
// A workbook of the office, read and judged.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <functional>

#include "addin/workbook/findings.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet {

struct Judged {
    workbook::Picture picture;  ///< without what reviews wrote themselves
    workbook::Review review;
};

/// The picture of a workbook without what reviews wrote themselves.
workbook::Picture picture_to_judge(
    const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& document,
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

/// `alive` hears how much is done, 0 to 1, and may throw to stop.
Judged judge(const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& document,
             const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context,
             const std::function<void(double)>& alive);

}  // namespace drysheet
