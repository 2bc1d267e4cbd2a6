#include "addin/office/known_workbook.hpp"

#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>

#include "addin/office/take_picture.hpp"

namespace drysheet {

using namespace com::sun::star;
using uno::Reference;
using uno::UNO_QUERY;

KnownWorkbook::KnownWorkbook(Reference<frame::XModel> document, Reference<uno::XComponentContext> context)
    : document_(std::move(document)), context_(std::move(context)) {}

KnownWorkbook::Read::Read(workbook::Picture taken)
    : picture(std::move(taken)), labels(picture), graph(picture) {}

const KnownWorkbook::Read& KnownWorkbook::read() {
    if (!read_) read_ = std::make_unique<Read>(take_picture(document_, context_));
    return *read_;
}

std::string KnownWorkbook::about(const workbook::Place& place, const Texts& texts) {
    const Read& now = read();
    return workbook::about_cell({now.picture, now.labels, now.graph}, place,
                                {.decimal_comma = now.picture.decimal_comma}, texts);
}

std::optional<workbook::Place> selected_cell(const Reference<frame::XModel>& document) {
    const Reference<uno::XInterface> selected = document->getCurrentSelection();
    table::CellRangeAddress area;
    if (const Reference<sheet::XCellRangeAddressable> one(selected, UNO_QUERY); one.is()) {
        area = one->getRangeAddress();
    } else {
        const Reference<sheet::XSheetCellRanges> several(selected, UNO_QUERY);
        if (!several.is()) return std::nullopt;
        const auto areas = several->getRangeAddresses();
        if (areas.getLength() == 0) return std::nullopt;
        area = areas[areas.getLength() - 1];
    }
    return workbook::Place{area.Sheet, area.StartRow, area.StartColumn};
}

}  // namespace drysheet
