// SPDX-License-Identifier: MPL-2.0
#include "addin/office/sheets.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/lang/Locale.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <com/sun/star/util/XProtectable.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {

Sheet sheet_at(const Document& document, sal_Int32 index) {
    return {Reference<container::XIndexAccess>(document->getSheets(), UNO_QUERY_THROW)->getByIndex(index),
            UNO_QUERY_THROW};
}

Sheet sheet_named(const Document& document, const OUString& name) {
    return {document->getSheets()->getByName(name), UNO_QUERY_THROW};
}

OUString free_name(const Document& document, const std::string& wanted) {
    const Reference<sheet::XSpreadsheets> sheets = document->getSheets();
    OUString name = ustring_from(wanted);
    for (sal_Int32 i = 2; sheets->hasByName(name); ++i)
        name = ustring_from(wanted) + " " + OUString::number(i);
    return name;
}

Range named_range(const Sheet& sheet, const char* name) {
    const auto names = property<Reference<sheet::XNamedRanges>>(sheet, "NamedRanges");
    if (!names.is() || !names->hasByName(OUString::createFromAscii(name))) return {};
    const Reference<sheet::XCellRangeReferrer> named(names->getByName(OUString::createFromAscii(name)),
                                                     UNO_QUERY);
    return named.is() ? named->getReferredCells() : Range();
}

void name_range(const Range& range, const char* name) {
    const Sheet sheet = Reference<sheet::XSheetCellRange>(range, UNO_QUERY_THROW)->getSpreadsheet();
    const table::CellRangeAddress area = address_of(range);
    const auto corner = [](sal_Int32 column, sal_Int32 row) {
        return "$" + column_letters(static_cast<std::size_t>(column)) + "$" + std::to_string(row + 1);
    };
    property<Reference<sheet::XNamedRanges>>(sheet, "NamedRanges")
        ->addNewByName(
            OUString::createFromAscii(name),
            ustring_from(
                "$" +
                quoted_sheet(utf8_from(Reference<container::XNamed>(sheet, UNO_QUERY_THROW)->getName())) +
                "." + corner(area.StartColumn, area.StartRow) + ":" + corner(area.EndColumn, area.EndRow)),
            {area.Sheet, area.StartColumn, area.StartRow}, 0);
}

Range cells(const Sheet& sheet, sal_Int32 column, sal_Int32 row, sal_Int32 columns, sal_Int32 rows) {
    return sheet->getCellRangeByPosition(column, row, column + columns - 1, row + rows - 1);
}

table::CellRangeAddress address_of(const Range& range) {
    return Reference<sheet::XCellRangeAddressable>(range, UNO_QUERY_THROW)->getRangeAddress();
}

OUString link_formula(const std::string& sheet_name, const std::string& cell, const std::string& words) {
    return ustring_from("=HYPERLINK(" + in_quotes("#$" + quoted_sheet(sheet_name) + "." + cell) + ";" +
                        in_quotes(words) + ")");
}

sal_Int32 number_format(const Reference<uno::XInterface>& workbook, const std::string& code) {
    return Reference<util::XNumberFormatsSupplier>(workbook, UNO_QUERY_THROW)
        ->getNumberFormats()
        ->addNewConverted(ustring_from(code), {"en", "US", OUString()}, {});
}

void without_language(const Range& range) {
    for (const char* script : {"CharLocale", "CharLocaleAsian", "CharLocaleComplex"})
        set(range, script, lang::Locale("zxx", OUString(), OUString()));
}

bool takes_sheets(const Document& document) {
    return !Reference<util::XProtectable>(document, UNO_QUERY_THROW)->isProtected() &&
           !Reference<frame::XStorable>(document, UNO_QUERY_THROW)->isReadonly();
}

}  // namespace drysheet
