// Add a Trial Sheet: a blank sheet for one drying trial, and its report.
#include "addin/workbook/trial.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/lay_out.hpp"
#include "addin/office/undo.hpp"

namespace drysheet {

using namespace com::sun::star;
using rtl::OUString;
using uno::Any;
using uno::Reference;
using uno::UNO_QUERY;
using uno::UNO_QUERY_THROW;

namespace {

Sheet new_sheet(const Document& document, const OUString& name) {
    const Reference<container::XIndexAccess> sheets(document->getSheets(), UNO_QUERY_THROW);
    document->getSheets()->insertNewByName(name, static_cast<sal_Int16>(sheets->getCount()));
    return sheet_named(document, name);
}

}  // namespace

std::string add_trial(const Request& request) {
    const Texts& texts = request.texts;
    const Reference<frame::XModel> model = request.writable_workbook();
    const Document document(model, UNO_QUERY_THROW);
    if (!takes_sheets(document)) throw NotDone(texts.word("The workbook takes no new sheet."));
    const OUString name = free_name(document, texts.word("Trial")),
                   report = free_name(document, texts.word("Trial report"));

    const UndoStep step(document, ustring_from(texts.text("menu.trial", "Add a Trial Sheet")));
    const Sheet sheet = new_sheet(document, name);
    lay_out(document, sheet, trial_plan(texts), request.context);
    const Sheet page = new_sheet(document, report);
    lay_out(document, page, trial_report(utf8_from(name), texts), request.context);
    if (const Reference<sheet::XSpreadsheetView> view(model->getCurrentController(), UNO_QUERY); view.is()) {
        for (const Sheet& made : {page, sheet}) {
            view->setActiveSheet(made);
            set(view, "ShowGrid", false);
        }
        Reference<view::XSelectionSupplier>(view, UNO_QUERY_THROW)
            ->select(Any(named_range(sheet, "product")));
    }
    return texts.word("New sheets: {} and {}. Fill in the shaded cells.",
                      {utf8_from(name), utf8_from(report)});
}

}  // namespace drysheet
