// SPDX-License-Identifier: MPL-2.0
// Add a Trial Sheet: a blank sheet for one drying trial, and its report. Put Trials Side by Side.
#include "addin/workbook/trial.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <span>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/lay_out.hpp"
#include "addin/office/trial.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/trial_example.hpp"

namespace drysheet {
namespace {

Sheet new_sheet(const Document& document, const OUString& name) {
    const Reference<container::XIndexAccess> sheets(document->getSheets(), UNO_QUERY_THROW);
    document->getSheets()->insertNewByName(name, static_cast<sal_Int16>(sheets->getCount()));
    return sheet_named(document, name);
}

void show_without_grid(const Reference<frame::XModel>& model, std::initializer_list<Sheet> last_in_front) {
    const Reference<sheet::XSpreadsheetView> view(model->getCurrentController(), UNO_QUERY);
    if (!view.is()) return;
    for (const Sheet& sheet : last_in_front) {
        view->setActiveSheet(sheet);
        set(view, "ShowGrid", false);
    }
}

// The trials of a workbook, wherever their cells have gone since.
std::vector<TrialCells> trials_in(const Document& document) {
    std::vector<TrialCells> trials;
    const uno::Sequence<OUString> names = document->getSheets()->getElementNames();
    const TrialCells blank = cells_of_plan({}, trial_plan());
    for (sal_Int32 i = 0; i < names.getLength(); ++i) {
        const Sheet sheet = sheet_named(document, names[i]);
        if (!named_range(sheet, "product").is() || !named_range(sheet, "expected_dried").is()) continue;
        TrialCells trial{.sheet = utf8_from(names[i]), .names = {}};
        for (const auto& [name, area] : blank.names) {
            const Range range = named_range(sheet, name.c_str());
            if (!range.is()) continue;
            const table::CellRangeAddress at = address_of(range);
            trial.names[name] = {static_cast<std::size_t>(at.StartColumn),
                                 static_cast<std::size_t>(at.StartRow),
                                 static_cast<std::size_t>(at.EndColumn - at.StartColumn + 1),
                                 static_cast<std::size_t>(at.EndRow - at.StartRow + 1)};
        }
        trials.push_back(std::move(trial));
    }
    return trials;
}

Sheet trial_on(const Reference<frame::XModel>& model, const Request& request, const OUString& name,
               const OUString& report) {
    const Document document(model, UNO_QUERY_THROW);
    const Sheet sheet = new_sheet(document, name);
    lay_out(document, sheet, trial_plan(request.texts), request.context);
    const Sheet page = new_sheet(document, report);
    lay_out(document, page, trial_report(utf8_from(name), request.texts), request.context);
    show_without_grid(model, {page, sheet});
    return sheet;
}

std::string side_by_side(const Reference<frame::XModel>& model, const Request& request) {
    const Document document(model, UNO_QUERY_THROW);
    const std::vector<TrialCells> trials = trials_in(document);
    const OUString name = free_name(document, request.texts.word("Trials"));
    const Sheet sheet = new_sheet(document, name);
    lay_out(document, sheet, trials_side_by_side(utf8_from(name), trials, request.texts), request.context);
    show_without_grid(model, {sheet});
    return request.texts.word("New sheet: {}. Trials in it: {}.",
                              {utf8_from(name), std::to_string(trials.size())});
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
    const Sheet sheet = trial_on(model, request, name, report);
    if (const Reference<view::XSelectionSupplier> selection(model->getCurrentController(), UNO_QUERY);
        selection.is())
        selection->select(Any(named_range(sheet, "product")));
    return texts.word("New sheets: {} and {}. Fill in the shaded cells.",
                      {utf8_from(name), utf8_from(report)});
}

void write_notebook(const Reference<frame::XModel>& model, const Request& request, bool blank) {
    const Document document(model, UNO_QUERY_THROW);
    const Reference<sheet::XSpreadsheets> sheets = document->getSheets();
    const uno::Sequence<OUString> before = sheets->getElementNames();
    const Reference<sheet::XCalculatable> sums(document, UNO_QUERY_THROW);
    sums->enableAutomaticCalculation(false);
    for (const TrialExample& example : kNotebook) {
        const Sheet sheet =
            trial_on(model, request, ustring_from(example.sheet), ustring_from(example.report));
        for (const Typed& typed : std::span(example.first, blank ? 0 : example.count)) {
            const Reference<table::XCell> cell =
                named_range(sheet, std::string(typed.name).c_str())
                    ->getCellByPosition(0, static_cast<sal_Int32>(typed.row));
            // a clock's time or a date stays the text that it is
            const bool number = typed.text.find_first_not_of("0123456789.") == std::string_view::npos;
            if (number)
                cell->setFormula(ustring_from(typed.text));
            else
                Reference<text::XText>(cell, UNO_QUERY_THROW)
                    ->setString(ustring_from(request.texts.text(typed.text)));
        }
    }
    sums->enableAutomaticCalculation(true);
    sums->calculate();
    for (sal_Int32 i = 0; i < before.getLength(); ++i) sheets->removeByName(before[i]);
    if (!blank) side_by_side(model, request);
    show_without_grid(model, {sheet_at(document, 0)});
}

std::string put_trials_side_by_side(const Request& request) {
    const Texts& texts = request.texts;
    const Reference<frame::XModel> model = request.writable_workbook();
    const Document document(model, UNO_QUERY_THROW);
    if (!takes_sheets(document)) throw NotDone(texts.word("The workbook takes no new sheet."));
    if (trials_in(document).size() < 2)
        throw NotDone(texts.word("There are not two trial sheets in this workbook yet."));
    const UndoStep step(document, ustring_from(texts.text("menu.trials", "Put Trials Side by Side")));
    return side_by_side(model, request);
}

}  // namespace drysheet
