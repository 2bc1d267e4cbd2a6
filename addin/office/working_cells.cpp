// SPDX-License-Identifier: MPL-2.0
// Working as Cells: the working of the selected cell's call, on a sheet of its own that follows its inputs.
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/known_workbook.hpp"
#include "addin/office/sheets.hpp"
#include "addin/office/take_picture.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/about_cell.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet {

std::string working_as_cells(const Request& request) {
    const Texts& texts = request.texts;
    const Reference<frame::XModel> model = request.writable_workbook();
    const Document document(model, UNO_QUERY_THROW);
    const auto place = selected_cell(model);
    const workbook::Picture picture = take_picture(model, request.context);
    const workbook::Cell* cell = place ? picture.at(*place) : nullptr;
    const workbook::Formula* call =
        cell != nullptr && cell->formula ? workbook::own_call(*cell->formula) : nullptr;
    if (call == nullptr) throw NotDone(texts.word("The selected cell calls no function of Drysheet."));
    if (!takes_sheets(document)) throw NotDone(texts.word("The workbook takes no new sheet."));

    workbook::Formula working = *call;
    working.text = "DRY.WORKING";
    workbook::Formula name;
    name.what = workbook::Formula::What::text;
    name.text = call->text.substr(sizeof "DRY." - 1);
    working.parts.insert(working.parts.begin(), name);
    const auto calls = workbook::calls_in(*call, *place, picture, workbook::Labels(picture));
    const auto rows =
        static_cast<sal_Int32>(workbook::working_lines(calls.front(), picture.reading()).size());
    if (rows == 0)
        throw NotDone(
            texts.word("There is no working of {} here: it is refused, or has none.", {call->text}));

    const std::string title = texts.text("menu.working", "Working as Cells");
    const OUString sheet_name = free_name(document, texts.word("Working"));
    const UndoStep step(document, ustring_from(title));
    const auto index = static_cast<sal_Int16>(picture.sheets.size());
    document->getSheets()->insertNewByName(sheet_name, index);
    const Sheet sheet = sheet_named(document, sheet_name);
    std::string said = texts.word("Working of {}", {workbook::in_words(*place, picture)});
    sheet->getCellByPosition(0, 0)->setFormula(ustring_from("'" + said));
    Reference<sheet::XArrayFormulaRange>(cells(sheet, 0, 2, 1, rows), UNO_QUERY_THROW)
        ->setArrayFormula(ustring_from("=" + workbook::written(working, {index, 2, 0}, picture)));
    set(cells(sheet, 0, 0, 1, 1), "CharWeight", 150.0F);
    without_language(cells(sheet, 0, 0, 1, rows + 2));
    const Reference<container::XIndexAccess> columns(
        Reference<table::XColumnRowRange>(sheet, UNO_QUERY_THROW)->getColumns(), UNO_QUERY_THROW);
    set(Reference<uno::XInterface>(columns->getByIndex(0), UNO_QUERY), "Width", sal_Int32{16000});
    if (const Reference<sheet::XSpreadsheetView> view(model->getCurrentController(), UNO_QUERY); view.is())
        view->setActiveSheet(sheet);
    return said;
}

}  // namespace drysheet
