// SPDX-License-Identifier: MPL-2.0
#include "addin/office/hidden_copy.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/XSeekable.hpp>
#include <com/sun/star/io/XStream.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {
namespace {

constexpr char kFilter[] = "OpenDocument Spreadsheet Flat XML";
constexpr char kSheet[] = "drysheet_moved";

beans::PropertyValue property_value(const char* name, const Any& value) {
    return {OUString::createFromAscii(name), 0, value, beans::PropertyState_DIRECT_VALUE};
}

Document copy_of(const Request& request, const Reference<frame::XModel>& workbook) {
    const auto stream = request.service<io::XStream>("com.sun.star.io.TempFile");
    const Any filter(OUString::createFromAscii(kFilter));
    Sequence<beans::PropertyValue> how(2);
    how.getArray()[0] = property_value("FilterName", filter);
    how.getArray()[1] = property_value("OutputStream", Any(stream->getOutputStream()));
    Reference<frame::XStorable>(workbook, UNO_QUERY_THROW)->storeToURL("private:stream", how);
    Reference<io::XSeekable>(stream, UNO_QUERY_THROW)->seek(0);
    return {request.load("private:stream",
                         {property_value("FilterName", filter),
                          property_value("InputStream", Any(stream->getInputStream())),
                          property_value("UpdateDocMode", Any(sal_Int16{0}))},
                         true),
            UNO_QUERY_THROW};
}

Reference<table::XCell> cell_at(const Document& document, const workbook::Place& place) {
    return sheet_at(document, place.sheet)->getCellByPosition(place.column, place.row);
}

// Not a text, the value of which is 0.
bool shows_number(const Reference<table::XCell>& cell) {
    sal_Int32 type = 0;
    Reference<beans::XPropertySet>(cell, UNO_QUERY_THROW)->getPropertyValue("FormulaResultType2") >>= type;
    return type == sheet::FormulaResult::VALUE;
}

}  // namespace

HiddenCopy::HiddenCopy(const Request& request, const Reference<frame::XModel>& workbook,
                       std::span<const workbook::Place> inputs, std::span<const workbook::Place> results)
    : copy_(copy_of(request, workbook)) {
    try {
        Reference<document::XUndoManagerSupplier>(copy_, UNO_QUERY_THROW)->getUndoManager()->lock();
        Reference<sheet::XCalculatable>(copy_, UNO_QUERY_THROW)->enableAutomaticCalculation(true);
        const Reference<sheet::XSpreadsheets> sheets = copy_->getSheets();
        const OUString name = free_name(copy_, kSheet);
        sheets->insertNewByName(
            name,
            static_cast<sal_Int16>(Reference<container::XIndexAccess>(sheets, UNO_QUERY_THROW)->getCount()));
        const Sheet sheet = sheet_named(copy_, name);
        moved_ = cells(sheet, 0, 0, 1, static_cast<sal_Int32>(inputs.size()));
        for (std::size_t i = 0; i < inputs.size(); ++i) {
            const Reference<table::XCell> from = cell_at(copy_, inputs[i]);
            // what it holds now, so that nothing changes until it is moved
            moved_->getCellByPosition(0, static_cast<sal_Int32>(i))->setValue(from->getValue());
            from->setFormula(
                ustring_from("=$" + quoted_sheet(utf8_from(name)) + ".$A$" + std::to_string(i + 1)));
        }
        for (const workbook::Place& place : results) results_.push_back(cell_at(copy_, place));
        Reference<frame::XModel>(copy_, UNO_QUERY_THROW)->lockControllers();
    } catch (...) {
        Reference<util::XCloseable>(copy_, UNO_QUERY_THROW)->close(true);
        throw;
    }
}

HiddenCopy::~HiddenCopy() {
    try {
        Reference<util::XCloseable>(copy_, UNO_QUERY_THROW)->close(true);
    } catch (const uno::Exception&) {  // it is hidden and nobody else's
    }
}

std::vector<std::optional<double>> HiddenCopy::operator()(std::span<const Input> inputs) {
    Sequence<Sequence<Any>> rows(static_cast<sal_Int32>(inputs.size()));
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        Sequence<Any> row(1);
        if (inputs[i].form == Input::Form::text)
            row.getArray()[0] <<= ustring_from(inputs[i].text);
        else
            row.getArray()[0] <<= inputs[i].number;
        rows.getArray()[static_cast<sal_Int32>(i)] = row;
    }
    Reference<sheet::XCellRangeData>(moved_, UNO_QUERY_THROW)->setDataArray(rows);
    std::vector<std::optional<double>> values;
    values.reserve(results_.size());
    for (const auto& cell : results_) {
        const bool number = cell->getError() == 0 && shows_number(cell);
        values.push_back(number ? std::optional(cell->getValue()) : std::nullopt);
    }
    return values;
}

}  // namespace drysheet
