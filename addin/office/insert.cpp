// SPDX-License-Identifier: MPL-2.0
#include <algorithm>
#include <com/sun/star/awt/Point.hpp>
#include <com/sun/star/awt/Size.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/chart/X3DDisplay.hpp>
#include <com/sun/star/chart/XAxisXSupplier.hpp>
#include <com/sun/star/chart/XChartDocument.hpp>
#include <com/sun/star/document/XEmbeddedObjectSupplier.hpp>
#include <com/sun/star/drawing/FillStyle.hpp>
#include <com/sun/star/lang/IndexOutOfBoundsException.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/table/XTableCharts.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <vector>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/sheets.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/blocks.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {
namespace {

std::string address_of(const table::CellRangeAddress& area) {
    const auto cell = [](sal_Int32 column, sal_Int32 row) {
        return address(static_cast<std::size_t>(column), static_cast<std::size_t>(row));
    };
    const std::string first = cell(area.StartColumn, area.StartRow), last = cell(area.EndColumn, area.EndRow);
    return first == last ? first : first + ":" + last;
}

// The first cell of what is selected.
table::CellRangeAddress cursor(const Reference<frame::XModel>& workbook, const Texts& texts) {
    const Reference<sheet::XCellRangeAddressable> selected(workbook->getCurrentSelection(), UNO_QUERY);
    if (!selected.is()) throw NotDone(texts.word("Put the cursor on one cell, where the block is to begin."));
    return selected->getRangeAddress();
}

Range target(const Reference<sheet::XSpreadsheet>& sheet, const table::CellRangeAddress& from,
             const Block& block, const Texts& texts) {
    try {
        return sheet->getCellRangeByPosition(from.StartColumn, from.StartRow,
                                             from.StartColumn + static_cast<sal_Int32>(block.columns) - 1,
                                             from.StartRow + static_cast<sal_Int32>(block.rows) - 1);
    } catch (const lang::IndexOutOfBoundsException&) {
        throw NotDone(
            texts.word("The sheet ends before the block does. Put the cursor further up and to the left."));
    }
}

void refuse_to_overwrite(const Range& range, const Texts& texts) {
    const auto filled = Reference<sheet::XCellRangesQuery>(range, UNO_QUERY_THROW)
                            ->queryContentCells(sheet::CellFlags::VALUE | sheet::CellFlags::DATETIME |
                                                sheet::CellFlags::STRING | sheet::CellFlags::FORMULA |
                                                sheet::CellFlags::ANNOTATION)
                            ->getRangeAddresses();
    const auto area = Reference<sheet::XCellRangeAddressable>(range, UNO_QUERY_THROW)->getRangeAddress();
    for (sal_Int32 i = 0; i < filled.getLength(); ++i) {
        // asked for columns that were never used, Calc 7.4 answers with the last one that was
        if (filled[i].EndColumn < area.StartColumn) continue;
        throw NotDone(
            texts.word("The block needs the cells {}, and {} is not empty. Nothing was changed; put the "
                       "cursor where there is room.",
                       {address_of(area), address_of(filled[i])}));
    }
}

// Neither a formula nor a number.
bool is_text(const PatternCell& cell) {
    return !cell.content.starts_with("=") &&
           cell.content.find_first_not_of("0123456789.") != std::string::npos;
}

// Room for a column's longest text; a wider column stays as it is. The title may run on over its neighbours.
void widen(const Range& range, const Block& block) {
    constexpr sal_Int32 letter = 165, margin = 500;  // 1/100 mm
    const auto columns = Reference<table::XColumnRowRange>(range, UNO_QUERY_THROW)->getColumns();
    std::vector<sal_Int32> wanted(block.columns);
    for (const PatternCell& cell : std::span(block.cells).subspan(1)) {
        if (!is_text(cell)) continue;
        sal_Int32& width = wanted[cell.column - block.cells[0].column];
        width = std::max(width, margin + letter * ustring_from(cell.content).getLength());
    }
    for (sal_Int32 i = 0; i < columns->getCount(); ++i) {
        const Reference<beans::XPropertySet> column(columns->getByIndex(i), UNO_QUERY_THROW);
        sal_Int32 width = 0;
        if ((column->getPropertyValue("Width") >>= width) && width < wanted[static_cast<std::size_t>(i)])
            column->setPropertyValue("Width", Any(wanted[static_cast<std::size_t>(i)]));
    }
}

// Lines over the first column of the table, one for each of the others, in the rows that are kept for it.
void draw(const Reference<sheet::XSpreadsheet>& sheet, const PatternChart& chart, const Range& range) {
    constexpr sal_Int32 below = 3;  // what stands under the table, and a blank row
    const auto first = static_cast<sal_Int32>(chart.row + chart.rows) + below;
    const table::CellRangeAddress area =
        Reference<sheet::XCellRangeAddressable>(range, UNO_QUERY_THROW)->getRangeAddress();
    const Range room = sheet->getCellRangeByPosition(area.StartColumn, first, area.EndColumn, area.EndRow);
    const Range numbers =
        cells(sheet, static_cast<sal_Int32>(chart.column), static_cast<sal_Int32>(chart.row),
              static_cast<sal_Int32>(chart.columns), static_cast<sal_Int32>(chart.rows));
    const auto at = property<awt::Point>(room, "Position");
    const auto size = property<awt::Size>(room, "Size");
    const table::CellRangeAddress from =
        Reference<sheet::XCellRangeAddressable>(numbers, UNO_QUERY_THROW)->getRangeAddress();
    const Reference<table::XTableCharts> charts =
        Reference<table::XTableChartsSupplier>(sheet, UNO_QUERY_THROW)->getCharts();
    const Reference<container::XNameAccess> known(charts, UNO_QUERY_THROW);
    OUString name("Drysheet");
    for (sal_Int32 i = 2; known->hasByName(name); ++i) name = "Drysheet " + OUString::number(i);
    charts->addNewByName(name, {at.X, at.Y, size.Width, size.Height}, {&from, 1}, true, true);
    const Reference<document::XEmbeddedObjectSupplier> object(known->getByName(name), UNO_QUERY_THROW);
    const Reference<chart::XChartDocument> drawn(object->getEmbeddedObject(), UNO_QUERY_THROW);
    const Reference<chart::XDiagram> lines(Reference<lang::XMultiServiceFactory>(drawn, UNO_QUERY_THROW)
                                               ->createInstance("com.sun.star.chart.XYDiagram"),
                                           UNO_QUERY_THROW);
    drawn->setDiagram(lines);
    set(drawn, "HasLegend", true);
    set(Reference<chart::X3DDisplay>(lines, UNO_QUERY_THROW)->getWall(), "FillStyle",
        drawing::FillStyle_NONE);
    set(lines, "Lines", true);
    set(lines, "SymbolType", sal_Int32{-3});  // none
    set(lines, "HasXAxisTitle", true);
    set(Reference<chart::XAxisXSupplier>(lines, UNO_QUERY_THROW)->getXAxisTitle(), "String",
        numbers->getCellByPosition(0, 0)->getFormula());
}

}  // namespace

std::string put_formulas(const Request& request) {
    const Pattern* found = find_pattern(request.behind("put-"));
    if (found == nullptr) throw NotDone("There is no command \"" + request.name + "\".");
    const Pattern& pattern = *found;
    const Texts& texts = request.texts;
    const Reference<frame::XModel> workbook = request.writable_workbook();
    const Reference<sheet::XSpreadsheetView> view(workbook->getCurrentController(), UNO_QUERY_THROW);
    const Reference<sheet::XSpreadsheet> sheet = view->getActiveSheet();
    const auto from = cursor(workbook, texts);
    const Block block = placed(pattern, static_cast<std::size_t>(from.StartColumn),
                               static_cast<std::size_t>(from.StartRow), texts);
    const Range range = target(sheet, from, block, texts);
    if (Reference<util::XProtectable>(sheet, UNO_QUERY_THROW)->isProtected())
        throw NotDone(texts.word("This sheet is protected. Nothing was changed."));
    refuse_to_overwrite(range, texts);

    const UndoStep step(workbook, ustring_from(block.cells[0].content));
    // four figures or so, whatever the unit; a column is easier to read with one number of decimals
    const Any figures(number_format(workbook, "[<1]0.0000;[<100]0.00;0.0"));
    const Any decimals(number_format(workbook, "0.000")), percent(number_format(workbook, "0.00 %"));
    // as typed, yet not General itself, which gives way to the format of a clock time typed there
    const Any typed(number_format(workbook, "[<0.001]General;0.####"));
    // in a format that is per cent throughout Calc adds a sign to what is typed: 0.65 %, and 65 %% for 65 %
    const Any typed_percent(number_format(workbook, "[<0]-General;0.### %"));
    const auto format_of = [&](const PatternCell& cell) {
        if (cell.input) return cell.percent ? typed_percent : typed;
        return cell.array_rows > 1 ? decimals : cell.percent ? percent : figures;
    };
    for (const PatternCell& cell : block.cells) {
        const auto column = static_cast<sal_Int32>(cell.column), row = static_cast<sal_Int32>(cell.row);
        const auto rows = std::max<sal_Int32>(1, static_cast<sal_Int32>(cell.array_rows));
        const Range place = sheet->getCellRangeByPosition(column, row, column, row + rows - 1);
        const OUString content = ustring_from(cell.content);
        if (cell.array_rows > 0)
            Reference<sheet::XArrayFormulaRange>(place, UNO_QUERY_THROW)->setArrayFormula(content);
        else
            place->getCellByPosition(0, 0)->setFormula(content);
        if ((cell.input && !is_text(cell)) || cell.content.starts_with("="))
            set(place, "NumberFormat", format_of(cell));
        if (cell.input) set(place, "CellBackColor", Any(kInputShade));
        if (cell.column > block.cells[0].column && is_text(cell)) {  // a unit, set off from its number
            set(place, "HoriJustify", Any(table::CellHoriJustify_LEFT));
            set(place, "ParaIndent", Any(sal_Int16{150}));  // 1/100 mm
        }
    }
    set(range->getCellRangeByPosition(0, 0, 0, 0), "CharWeight", Any(150.0F));
    widen(range, block);
    if (block.chart) draw(sheet, *block.chart, range);
    return address_of(Reference<sheet::XCellRangeAddressable>(range, UNO_QUERY_THROW)->getRangeAddress());
}

}  // namespace drysheet
