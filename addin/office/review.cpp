// SPDX-License-Identifier: MPL-2.0
// Review This Workbook: every formula read, what is found in a new sheet.
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/sheet/XViewFreezable.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/judge.hpp"
#include "addin/office/long_work.hpp"
#include "addin/office/review_sheet.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

/// The sheet comes to the front, its heading staying where it is.
void bring_to_front(const Document& document, const Sheet& sheet) {
    const Reference<frame::XController> controller =
        Reference<frame::XModel>(document, UNO_QUERY_THROW)->getCurrentController();
    const Reference<sheet::XSpreadsheetView> view(controller, UNO_QUERY);
    if (!view.is()) return;
    view->setActiveSheet(sheet);
    Reference<sheet::XViewFreezable>(controller, UNO_QUERY_THROW)->freezeAtPosition(0, 3);
}

}  // namespace

std::string review(const Request& request) {
    const Reference<frame::XModel> model = request.workbook();
    const Document document(model, UNO_QUERY_THROW);
    const Texts& texts = request.texts;
    const std::string title = texts.text("menu.review", "Review This Workbook");
    LongWork work(request, title, 100);
    const Judged judged = judge(model, request.context,
                                [&work](double share) { work.done(static_cast<sal_Int32>(80 * share)); });
    const std::vector<ReviewRow> rows = rows_of(judged.review, judged.picture, document);
    std::string summary = summary_of(judged.review, rows, texts);
    std::vector<std::string> names;
    for (const workbook::Sheet& sheet : judged.picture.sheets) names.push_back(sheet.name);
    const auto alive = [&work] { work.done(90); };

    if (!takes_sheets(document)) {
        const Document fresh(request.load("private:factory/scalc"), UNO_QUERY_THROW);
        write_review(sheet_at(fresh, 0), rows, summary, names, false, alive);
        bring_to_front(fresh, sheet_at(fresh, 0));
        return texts.word("The workbook takes no new sheet, so the review is in a new workbook.") + " " +
               summary;
    }
    const OUString name = free_name(document, texts.word("Review"));
    const UndoStep step(document, ustring_from(title));
    document->getSheets()->insertNewByName(name, static_cast<sal_Int16>(names.size()));
    try {
        write_review(sheet_named(document, name), rows, summary, names, true, alive);
    } catch (...) {
        document->getSheets()->removeByName(name);
        throw;
    }
    bring_to_front(document, sheet_named(document, name));
    return summary;
}

}  // namespace drysheet
