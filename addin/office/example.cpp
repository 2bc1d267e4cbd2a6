// SPDX-License-Identifier: MPL-2.0
// Open an Example, and Use a Blank Form: the same with its inputs emptied.
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <osl/file.hxx>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/sheets.hpp"
#include "addin/office/trial.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

constexpr char kInputs[] = "Measured";  // how the styles of the examples' inputs begin

// Blanks what is typed into the inputs; sheets are protected, which a formula set here passes.
void empty_inputs(const Document& document) {
    const Reference<container::XIndexAccess> sheets(document->getSheets(), UNO_QUERY_THROW);
    for (sal_Int32 i = 0; i < sheets->getCount(); ++i) {
        const Sheet sheet = sheet_at(document, i);
        const auto filled = Reference<sheet::XCellRangesQuery>(sheet, UNO_QUERY_THROW)
                                ->queryContentCells(sheet::CellFlags::VALUE | sheet::CellFlags::DATETIME |
                                                    sheet::CellFlags::STRING)
                                ->getRangeAddresses();
        for (sal_Int32 k = 0; k < filled.getLength(); ++k)
            for (sal_Int32 row = filled[k].StartRow; row <= filled[k].EndRow; ++row)
                for (sal_Int32 column = filled[k].StartColumn; column <= filled[k].EndColumn; ++column) {
                    const Reference<table::XCell> cell = sheet->getCellByPosition(column, row);
                    if (property<OUString>(cell, "CellStyle").startsWith(kInputs))
                        cell->setFormula(OUString());
                }
    }
}

// In the menu's language, where there is one.
OUString file_of(const Request& request, const std::string& name) {
    const OUString translated =
        request.in_package("examples/" + std::string(request.texts.language()) + "/" + name + ".fods");
    osl::DirectoryItem item;
    return osl::DirectoryItem::get(translated, item) == osl::FileBase::E_None
               ? translated
               : request.in_package("examples/" + name + ".fods");
}

std::string open(const Request& request, const std::string& name, bool blank) {
    try {
        Reference<frame::XModel> model;
        if (name == "lab-notebook") {
            model = request.load("private:factory/scalc");
            write_notebook(model, request, blank);
        } else {
            // as a new workbook without a name, so that the example itself stays as it is
            model = request.load(file_of(request, name),
                                 {{"AsTemplate", 0, uno::Any(true), beans::PropertyState_DIRECT_VALUE}});
            if (blank) empty_inputs(Document(model, UNO_QUERY_THROW));
        }
        Reference<document::XUndoManagerSupplier>(model, UNO_QUERY_THROW)->getUndoManager()->clear();
    } catch (const NotDone&) {
        throw NotDone(request.texts.word("The example \"{}\" could not be opened.", {name}));
    }
    return name;
}

}  // namespace

std::string open_example(const Request& request) { return open(request, request.behind("example-"), false); }
std::string open_form(const Request& request) { return open(request, request.behind("form-"), true); }

}  // namespace drysheet
