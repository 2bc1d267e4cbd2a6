// SPDX-License-Identifier: MPL-2.0
// Small things that every command does to sheets.
#pragma once

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/table/CellRangeAddress.hpp>
#include <string>

namespace drysheet {

using Document = com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>;
using Sheet = com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheet>;
using Range = com::sun::star::uno::Reference<com::sun::star::table::XCellRange>;

template <class T>
T property(const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& object, const char* name,
           T otherwise = {}) {
    const com::sun::star::uno::Reference<com::sun::star::beans::XPropertySet> properties(
        object, com::sun::star::uno::UNO_QUERY);
    if (properties.is()) properties->getPropertyValue(rtl::OUString::createFromAscii(name)) >>= otherwise;
    return otherwise;
}

template <class Property>
void set(const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& object, const char* name,
         const Property& value) {
    com::sun::star::uno::Reference<com::sun::star::beans::XPropertySet>(object,
                                                                        com::sun::star::uno::UNO_QUERY_THROW)
        ->setPropertyValue(rtl::OUString::createFromAscii(name), com::sun::star::uno::Any(value));
}

/// Behind what is to be typed over.
inline constexpr sal_Int32 kInputShade = 0xf4edd3;

/// The sheet at this place, counted from 0.
Sheet sheet_at(const Document& document, sal_Int32 index);
Sheet sheet_named(const Document& document, const rtl::OUString& name);

/// This name, or the first of "Review 2", "Review 3" … that no sheet has.
rtl::OUString free_name(const Document& document, const std::string& wanted);

/// The cells that a name of this very sheet means; empty where it has none.
Range named_range(const Sheet& sheet, const char* name);

/// Gives cells a name of their own sheet.
void name_range(const Range& range, const char* name);

/// Those columns and rows of a sheet.
Range cells(const Sheet& sheet, sal_Int32 column, sal_Int32 row, sal_Int32 columns, sal_Int32 rows);
com::sun::star::table::CellRangeAddress address_of(const Range& range);

/// A formula that shows these words and leads to a cell of the same workbook.
rtl::OUString link_formula(const std::string& sheet_name, const std::string& cell, const std::string& words);

/// The number of a format for English code, in the locale of the workbook.
sal_Int32 number_format(const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& workbook,
                        const std::string& code);

/// No spelling waves below what is written there.
void without_language(const Range& range);

/// Whether sheets may be put into the workbook.
bool takes_sheets(const Document& document);

}  // namespace drysheet
