// SPDX-License-Identifier: MPL-2.0
// Use the Suggestions: the formulas that a review suggests, put into their cells.
#include <algorithm>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/sheet/XSheetAnnotationAnchor.hpp>
#include <com/sun/star/sheet/XSheetAnnotationsSupplier.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/text/XSimpleText.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <set>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/review_sheet.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

/// A suggestion and where it goes.
struct Suggestion {
    std::string formula, was;
    std::vector<table::CellRangeAddress>
        areas;  ///< the first one begins with the cell that it is written for
};

std::vector<table::CellRangeAddress> selected_areas(const Reference<frame::XModel>& workbook) {
    const Reference<uno::XInterface> selected = workbook->getCurrentSelection();
    if (const Reference<sheet::XCellRangeAddressable> one(selected, UNO_QUERY); one.is())
        return {one->getRangeAddress()};
    const Reference<sheet::XSheetCellRanges> several(selected, UNO_QUERY);
    if (!several.is()) return {};
    const auto areas = several->getRangeAddresses();
    return {areas.begin(), areas.end()};
}

Reference<table::XCell> first_cell(const Document& document, const table::CellRangeAddress& area) {
    return sheet_at(document, area.Sheet)->getCellByPosition(area.StartColumn, area.StartRow);
}

bool is_guarded(const Document& document, const table::CellRangeAddress& area) {
    return Reference<util::XProtectable>(sheet_at(document, area.Sheet), UNO_QUERY_THROW)->isProtected();
}

void keep_in_note(const Document& document, const Suggestion& suggestion, const Texts& texts) {
    const table::CellRangeAddress& area = suggestion.areas.front();
    const OUString before = Reference<text::XSimpleText>(Reference<sheet::XSheetAnnotationAnchor>(
                                                             first_cell(document, area), UNO_QUERY_THROW)
                                                             ->getAnnotation(),
                                                         UNO_QUERY_THROW)
                                ->getString();
    const OUString kept = ustring_from(texts.word("Before: {}", {suggestion.was}));
    Reference<sheet::XSheetAnnotationsSupplier>(sheet_at(document, area.Sheet), UNO_QUERY_THROW)
        ->getAnnotations()
        ->insertNew({area.Sheet, area.StartColumn, area.StartRow},
                    before.isEmpty() ? kept : before + "\n" + kept);
}

/// Gives how many cells were filled.
std::size_t put_in(const Document& document, const Suggestion& suggestion) {
    const Reference<table::XCell> first = first_cell(document, suggestion.areas.front());
    first->setFormula(ustring_from(suggestion.formula));
    const Sequence<sheet::FormulaToken> tokens =
        Reference<sheet::XFormulaTokens>(first, UNO_QUERY_THROW)->getTokens();
    std::size_t filled = 0;
    for (const table::CellRangeAddress& area : suggestion.areas)
        for (sal_Int32 row = area.StartRow; row <= area.EndRow; ++row)
            for (sal_Int32 column = area.StartColumn; column <= area.EndColumn; ++column)
                if (++filled > 1)  // relative references follow the cell, as in a copy
                    Reference<sheet::XFormulaTokens>(
                        sheet_at(document, area.Sheet)->getCellByPosition(column, row), UNO_QUERY_THROW)
                        ->setTokens(tokens);
    return filled;
}

}  // namespace

std::string adopt(const Request& request) {
    const Texts& texts = request.texts;
    const Reference<frame::XModel> model = request.writable_workbook();
    const Document document(model, UNO_QUERY_THROW);
    const Reference<sheet::XSpreadsheetView> view(model->getCurrentController(), UNO_QUERY_THROW);
    const Range table = review_table(view->getActiveSheet());
    if (!table.is())
        throw NotDone(texts.word("Go to the sheet of a review first, and select the rows to use."));

    const table::CellRangeAddress place = address_of(table);
    std::set<sal_Int32> rows;
    for (const table::CellRangeAddress& area : selected_areas(model))
        for (sal_Int32 row = std::max(area.StartRow, place.StartRow);
             row <= std::min(area.EndRow, place.EndRow); ++row)
            rows.insert(row - place.StartRow);

    const auto data = Reference<sheet::XCellRangeData>(table, UNO_QUERY_THROW)->getDataArray();
    std::vector<Suggestion> suggestions;
    std::size_t changed = 0;
    for (const sal_Int32 row : rows) {
        const auto at = [&](std::string_view column) {
            OUString text;
            data[row][review_column(column)] >>= text;
            return utf8_from(text);
        };
        Suggestion suggestion{at("Suggested"), at("Formula"), {}};
        if (suggestion.formula.empty()) continue;
        suggestion.areas = areas_named(at("Cell"), document);
        const bool same = !suggestion.areas.empty() &&
                          utf8_from(property<OUString>(first_cell(document, suggestion.areas.front()),
                                                       "FormulaLocal")) == suggestion.was &&
                          !suggestion.was.starts_with("{");
        if (!same) {
            ++changed;
            continue;
        }
        for (const table::CellRangeAddress& area : suggestion.areas)
            if (is_guarded(document, area))
                throw NotDone(texts.word("{} is on a protected sheet. Nothing was changed.", {at("Cell")}));
        suggestions.push_back(std::move(suggestion));
    }
    if (suggestions.empty())
        throw NotDone(
            changed > 0
                ? texts.word("Those cells no longer hold what the review read. Review the workbook again.")
                : texts.word("None of the selected rows suggests a formula."));

    const UndoStep step(document, ustring_from(texts.text("menu.adopt", "Use the Suggestions")));
    std::size_t filled = 0;
    for (const Suggestion& suggestion : suggestions) {
        keep_in_note(document, suggestion, texts);
        filled += put_in(document, suggestion);
    }
    return texts.word(
        "Suggestions used: {}, in cells: {}; what stood there is in a note. Left alone, as the cell has "
        "changed since: {}.",
        {std::to_string(suggestions.size()), std::to_string(filled), std::to_string(changed)});
}

}  // namespace drysheet
