#include <algorithm>
#include <array>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XUndoAction.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRangeContainer.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/sheet/XViewFreezable.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <cppuhelper/implbase1.hxx>
#include <set>
#include <string_view>
#include <vector>

#include "addin/call/evaluate.hpp"
#include "addin/call/functions.hpp"
#include "addin/call/trust.hpp"
#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/undo.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/blocks.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {

using namespace com::sun::star;
using rtl::OUString;
using uno::Any;
using uno::Reference;
using uno::Sequence;
using uno::UNO_QUERY_THROW;

namespace {

using Document = Reference<sheet::XSpreadsheetDocument>;
using Sheet = Reference<sheet::XSpreadsheet>;
using Progress = Reference<task::XStatusIndicator>;
using Rows = Sequence<Sequence<Any>>;

constexpr sal_Int32 kColumns = 6, kTop = 3;  // of the list, behind the links; rows above it

// What stands between the quotes of an argument that is a text and nothing else; empty otherwise.
std::string_view plain_text(std::string_view argument) {
    if (argument.size() < 2 || !argument.starts_with('"') || !argument.ends_with('"')) return {};
    const auto inside = argument.substr(1, argument.size() - 2);
    return inside.find('"') == std::string_view::npos ? inside : std::string_view();
}

/// A call of one of our functions.
struct Call {
    Sheet sheet;
    std::string sheet_name;
    sal_Int32 column = 0, row = 0;
    bool array = false;
    const Function* function = nullptr;  // none: the name is misspelt
    OUString name;
    std::string whole;
    std::vector<std::string> arguments;
    bool beside_why = false;          // its cell asks DRY.WHY something
    bool fine = false, asked = true;  // DRY.WHY finds nothing to say, and could be asked at all
    std::string verdict;

    /// DRY.WHY of a function that is there: the cell shows what it says.
    bool is_question() const {
        return function == find_function("WHY") && !arguments.empty() &&
               find_function(plain_text(arguments[0])) != nullptr;
    }

    /// A function about functions, asked about one that is not there: that one is at fault.
    void blame_a_misspelt_subject() {
        static constexpr std::string_view about_functions[] = {"WHY", "SOURCE", "WORKING", "UNCERTAINTY",
                                                               "EACH"};
        if (function == nullptr || arguments.empty()) return;
        const std::string_view subject = plain_text(arguments[0]);
        if (subject.empty() || find_function(subject) != nullptr ||
            std::ranges::find(about_functions, function->name) == std::end(about_functions))
            return;
        function = nullptr;
        const OUString upper = ustring_from(subject).toAsciiUpperCase();
        name = upper.startsWith("DRY.") ? upper : "DRY." + upper;
    }
};

Reference<table::XCellRange> cells(const Sheet& sheet, sal_Int32 column, sal_Int32 row, sal_Int32 columns,
                                   sal_Int32 rows) {
    return sheet->getCellRangeByPosition(column, row, column + columns - 1, row + rows - 1);
}

template <class Property>
void set(const Reference<uno::XInterface>& range, const char* name, const Property& value) {
    Reference<beans::XPropertySet>(range, UNO_QUERY_THROW)
        ->setPropertyValue(OUString::createFromAscii(name), Any(value));
}

// ---- what there is to check

// Whether an array formula is entered from this cell on; its other cells only repeat it.
bool starts_array(const Sheet& sheet, sal_Int32 column, sal_Int32 row,
                  std::vector<table::CellRangeAddress>& known) {
    for (const auto& area : known)
        if (column >= area.StartColumn && column <= area.EndColumn && row >= area.StartRow &&
            row <= area.EndRow)
            return false;
    const Reference<sheet::XSheetCellCursor> cursor = sheet->createCursorByRange(
        Reference<sheet::XSheetCellRange>(cells(sheet, column, row, 1, 1), UNO_QUERY_THROW));
    cursor->collapseToCurrentArray();
    known.push_back(Reference<sheet::XCellRangeAddressable>(cursor, UNO_QUERY_THROW)->getRangeAddress());
    return true;
}

void collect(const Sheet& sheet, const std::string& name, std::vector<Call>& calls) {
    const auto first = static_cast<std::ptrdiff_t>(calls.size());
    std::vector<table::CellRangeAddress> arrays;
    const Sequence<table::CellRangeAddress> areas = Reference<sheet::XCellRangesQuery>(sheet, UNO_QUERY_THROW)
                                                        ->queryContentCells(sheet::CellFlags::FORMULA)
                                                        ->getRangeAddresses();
    for (sal_Int32 i = 0; i < areas.getLength(); ++i) {
        const table::CellRangeAddress& area = areas[i];
        const Sequence<Sequence<OUString>> formulas =
            Reference<sheet::XCellRangeFormula>(
                sheet->getCellRangeByPosition(area.StartColumn, area.StartRow, area.EndColumn, area.EndRow),
                UNO_QUERY_THROW)
                ->getFormulaArray();
        for (sal_Int32 row = 0; row < formulas.getLength(); ++row) {
            for (sal_Int32 column = 0; column < formulas[row].getLength(); ++column) {
                const OUString& text = formulas[row][column];
                if (text.toAsciiUpperCase().indexOf("DRY.") < 0) continue;
                Call call{.sheet = sheet,
                          .sheet_name = name,
                          .column = area.StartColumn + column,
                          .row = area.StartRow + row,
                          .array = text.startsWith("{")};
                if (call.array && !starts_array(sheet, call.column, call.row, arrays)) continue;
                const std::string formula = utf8_from(text);
                const auto all = calls_in(formula);
                call.beside_why = std::ranges::any_of(
                    all, [why = find_function("WHY")](auto& found) { return found.function == why; });
                for (const CallText& found : all) {
                    call.function = found.function;
                    call.name = ustring_from(found.name).toAsciiUpperCase();
                    call.whole = found.whole;
                    call.arguments.assign(found.arguments.begin(), found.arguments.end());
                    call.blame_a_misspelt_subject();
                    calls.push_back(call);
                }
            }
        }
    }
    // the subject of a question is listed where it stands by itself
    std::set<std::string> by_themselves;
    for (auto call = calls.begin() + first; call != calls.end(); ++call)
        if (!call->beside_why) by_themselves.insert(call->whole);
    const auto end = std::remove_if(calls.begin() + first, calls.end(), [&](const Call& call) {
        return call.is_question() || (call.beside_why && by_themselves.contains(call.whole));
    });
    calls.erase(end, calls.end());
    std::stable_sort(calls.begin() + first, calls.end(), [](const Call& a, const Call& b) {
        return std::pair(a.row, a.column) < std::pair(b.row, b.column);
    });
}

// ---- what there is to say

// DRY.WHY over the same arguments, as the list's own sheet must write them. Empty where an argument is an
// error, or where there is nothing to ask.
OUString question(const Call& call) {
    if (call.function == nullptr) return {};
    std::string formula = "=IFERROR(DRY.WHY(\"" + std::string(call.function->name) + "\"";
    for (const auto& argument : call.arguments) formula += ";" + on_sheet(argument, call.sheet_name);
    return ustring_from(formula + ");\"\")");
}

void judge(Call& call, const std::string& answer, const Texts& texts) {
    if (call.function == nullptr) {
        const std::string name = utf8_from(call.name);
        const auto meant = probably_meant(name);
        call.verdict =
            meant ? texts.word("there is no function {}; perhaps {}", {name, "DRY." + std::string(*meant)})
                  : texts.word("there is no function {}", {name});
        return;
    }
    call.fine = answer.starts_with("fine");
    call.asked = !answer.empty();
    call.verdict = call.asked ? answer : texts.word("not asked: one of its arguments is itself an error");
}

void ask(const Sheet& list, std::vector<Call>& calls, document::XUndoManager& undo, const Progress& progress,
         const Texts& texts) {
    constexpr std::size_t step = 500;
    for (std::size_t from = 0; from < calls.size(); from += step) {
        const auto count = static_cast<sal_Int32>(std::min(step, calls.size() - from));
        const auto range = cells(list, 0, kTop + static_cast<sal_Int32>(from), 1, count);
        Sequence<Sequence<OUString>> formulas(count);
        for (sal_Int32 i = 0; i < count; ++i) {
            const OUString formula = question(calls[from + static_cast<std::size_t>(i)]);
            formulas.getArray()[i] = Sequence<OUString>(&formula, 1);
        }
        quietly(undo, [&] {
            Reference<sheet::XCellRangeFormula>(range, UNO_QUERY_THROW)->setFormulaArray(formulas);
        });
        for (sal_Int32 i = 0; i < count; ++i)
            if (calls[from + static_cast<std::size_t>(i)].array && !formulas[i][0].isEmpty())
                quietly(undo, [&] {
                    Reference<sheet::XArrayFormulaRange>(range->getCellRangeByPosition(0, i, 0, i),
                                                         UNO_QUERY_THROW)
                        ->setArrayFormula(formulas[i][0]);
                });
        const Rows answers = Reference<sheet::XCellRangeData>(range, UNO_QUERY_THROW)->getDataArray();
        for (sal_Int32 i = 0; i < count; ++i)
            judge(calls[from + static_cast<std::size_t>(i)], input_from(answers[i][0]).text, texts);
        if (progress.is()) progress->setValue(static_cast<sal_Int32>(from) + count);
    }
}

Any value_of(const Sheet& sheet, sal_Int32 column, sal_Int32 row) {
    return Reference<sheet::XCellRangeData>(cells(sheet, column, row, 1, 1), UNO_QUERY_THROW)
        ->getDataArray()[0][0];
}

// "fresh: B2 = 412.5; start: 0.8; …"
std::string inputs_of(const Call& call, const Reference<sheet::XSpreadsheets>& sheets) {
    std::string text;
    for (std::size_t i = 0; i < call.arguments.size(); ++i) {
        const std::string& argument = call.arguments[i];
        if (i > 0) text += "; ";
        if (call.function != nullptr && !call.function->params.empty())
            text.append(parameter_at(*call.function, i).name).append(": ");
        text += argument;
        const auto used = cells_in(argument);
        const bool alone = used.size() == 1 && used[0].text == argument;
        for (const CellText& cell : used) {
            Sheet sheet = call.sheet;
            const OUString name = ustring_from(cell.sheet);
            if (!cell.sheet.empty() && (!sheets->hasByName(name) || !(sheets->getByName(name) >>= sheet)))
                continue;
            const Any value =
                value_of(sheet, static_cast<sal_Int32>(cell.column), static_cast<sal_Int32>(cell.row));
            const std::string shown = value.hasValue() ? in_words(input_from(value)) : "an error";
            text += alone ? " = " + shown
                          : (&cell == &used.front() ? " (" : ", ") + std::string(cell.text) + " = " + shown;
        }
        if (!used.empty() && !alone) text += ")";
    }
    return text;
}

Any text(const std::string& words) { return Any(ustring_from(words)); }

Sequence<Any> listed(const Call& call, const Reference<sheet::XSpreadsheets>& sheets) {
    Any value = value_of(call.sheet, call.column, call.row);
    if (!value.hasValue())
        value <<=
            Reference<text::XText>(call.sheet->getCellByPosition(call.column, call.row), UNO_QUERY_THROW)
                ->getString();
    const Any columns[kColumns] = {
        text(call.verdict), value,
        text(call.whole),   text(inputs_of(call, sheets)),
        Any(call.name),     text(call.function == nullptr ? "" : source_of(*call.function))};
    return {columns, kColumns};
}

OUString link_to(const Call& call) {
    const std::string cell =
        "." + address(static_cast<std::size_t>(call.column), static_cast<std::size_t>(call.row));
    return ustring_from("=HYPERLINK(" + in_quotes("#$" + quoted_sheet(call.sheet_name) + cell) + ";" +
                        in_quotes(call.sheet_name + cell) + ")");
}

// ---- the list

/// What stands in the sheet, kept so that a redo can put it there again.
struct List {
    OUString sheet_name;
    sal_Int32 refused = 0;
    Rows head;
    Sequence<Sequence<OUString>> links;
    Rows rows;
};

Sheet sheet_named(const Document& document, const OUString& name) {
    return {document->getSheets()->getByName(name), UNO_QUERY_THROW};
}

// About how wide a text is in the usual font, in 1/100 mm; too wide rather than too narrow.
sal_Int32 width_of(const OUString& text) {
    constexpr std::u16string_view narrow = u" .,;:'()[]|/-fijlrt";
    sal_Int32 width = 500;
    for (sal_Int32 i = 0; i < text.getLength(); ++i) {
        const char16_t c = text[i];
        width += narrow.find(c) != std::u16string_view::npos ? 130 : c >= u'A' && c <= u'Z' ? 280 : 220;
    }
    return width;
}

// How wide each column is, and which cells hold more than that: only those are wrapped, as Calc 7.4 lays out
// every wrapped cell anew at every change of a format.
struct Layout {
    std::array<sal_Int32, kColumns + 1> widths{3500, 3500, 3300, 3500, 3500, 5000, 12000};  // 1/100 mm
    std::vector<table::CellRangeAddress> wrapped;
};
Layout layout_of(const Rows& rows, sal_Int16 sheet) {
    Layout layout;
    const auto fit = [&](sal_Int32 column, sal_Int32 widest) {
        sal_Int32& width = layout.widths.at(static_cast<std::size_t>(column));
        sal_Int32 last = -1;  // row of this column that is wrapped
        for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
            OUString text;
            if (!(rows[row][column - 1] >>= text)) continue;
            const sal_Int32 wanted = width_of(text);
            width = std::clamp(wanted, width, widest);
            if (wanted <= widest) continue;
            if (last < 0 || last + 1 < row)
                layout.wrapped.emplace_back(sheet, column, kTop + row, column, kTop + row);
            layout.wrapped.back().EndRow = kTop + row;
            last = row;
        }
    };
    fit(1, 9000);
    fit(2, 3300);
    fit(3, 8000);
    fit(4, 10000);
    return layout;  // the source runs on to the right
}

void write(const Document& document, const List& list, document::XUndoManager& undo) {
    const Sheet sheet = sheet_named(document, list.sheet_name);
    const Layout layout = layout_of(
        list.rows, Reference<sheet::XCellRangeAddressable>(sheet, UNO_QUERY_THROW)->getRangeAddress().Sheet);
    const auto format = [&](const auto& range, const char* name, const auto& value) {
        quietly(undo, [&] { set(range, name, value); });
    };
    const Reference<container::XIndexAccess> columns(
        Reference<table::XColumnRowRange>(sheet, UNO_QUERY_THROW)->getColumns(), UNO_QUERY_THROW);
    for (sal_Int32 i = 0; i <= kColumns; ++i)
        format(Reference<table::XCellRange>(columns->getByIndex(i), UNO_QUERY_THROW), "Width",
               layout.widths.at(static_cast<std::size_t>(i)));
    const sal_Int32 count = list.rows.getLength();
    quietly(undo, [&] {
        Reference<sheet::XCellRangeData>(cells(sheet, 0, 0, kColumns + 1, kTop), UNO_QUERY_THROW)
            ->setDataArray(list.head);
    });
    quietly(undo, [&] {
        Reference<sheet::XCellRangeData>(cells(sheet, 1, kTop, kColumns, count), UNO_QUERY_THROW)
            ->setDataArray(list.rows);
    });
    quietly(undo, [&] {
        Reference<sheet::XCellRangeFormula>(cells(sheet, 0, kTop, 1, count), UNO_QUERY_THROW)
            ->setFormulaArray(list.links);
    });
    format(cells(sheet, 0, 0, 1, 1), "CharWeight", 150.0F);
    format(cells(sheet, 0, kTop - 1, kColumns + 1, 1), "CharWeight", 150.0F);
    format(cells(sheet, 0, kTop, kColumns + 1, count), "VertJustify", table::CellVertJustify2::TOP);
    format(cells(sheet, 2, kTop, 1, count), "HoriJustify", table::CellHoriJustify_LEFT);
    if (list.refused > 0)
        format(cells(sheet, 0, kTop, kColumns + 1, list.refused), "CellBackColor", sal_Int32{0xffe0d0});
    if (layout.wrapped.empty()) return;
    const Reference<sheet::XSheetCellRangeContainer> wrapped(
        Reference<lang::XMultiServiceFactory>(document, UNO_QUERY_THROW)
            ->createInstance("com.sun.star.sheet.SheetCellRanges"),
        UNO_QUERY_THROW);
    wrapped->addRangeAddresses({layout.wrapped.data(), static_cast<sal_Int32>(layout.wrapped.size())}, false);
    format(wrapped, "IsTextWrapped", true);
}

// What was found, an empty line, and the columns' names.
Rows head_of(const std::string& summary, const Texts& texts) {
    const char* const names[] = {"Cell",   "What DRY.WHY says", "The cell shows", "Call",
                                 "Inputs", "Function",          "Source"};
    Rows rows(kTop);
    for (sal_Int32 row = 0; row < kTop; ++row) {
        rows.getArray()[row].realloc(kColumns + 1);
        for (sal_Int32 i = 0; i <= kColumns; ++i) {
            Any& cell = rows.getArray()[row].getArray()[i];
            if (row == 0 && i == 0)
                cell = text(summary);
            else if (row == kTop - 1)
                cell = text(texts.word(names[i]));
            else
                cell <<= OUString();
        }
    }
    return rows;
}

/// The office takes the sheet away and brings it back by itself, but brings it back empty.
class Refill final : public cppu::WeakImplHelper1<document::XUndoAction> {
  public:
    Refill(const Document& document, List list) : document_(document), list_(std::move(list)) {}
    OUString SAL_CALL getTitle() override { return list_.sheet_name; }
    void SAL_CALL undo() override {}
    void SAL_CALL redo() override {
        const Reference<document::XUndoManagerSupplier> supplier(document_, UNO_QUERY_THROW);
        write(document_, list_, *supplier->getUndoManager());
    }

  private:
    const Document document_;
    const List list_;
};

OUString free_name(const Reference<sheet::XSpreadsheets>& sheets, const Texts& texts) {
    const OUString wanted = ustring_from(texts.word("Formula check"));
    OUString name = wanted;
    for (sal_Int32 i = 2; sheets->hasByName(name); ++i) name = wanted + " " + OUString::number(i);
    return name;
}

std::string summary_of(const std::vector<Call>& calls, std::size_t refused, const Texts& texts) {
    std::size_t cells = 0;
    for (std::size_t i = 0; i < calls.size(); ++i)
        cells += i == 0 || calls[i].sheet != calls[i - 1].sheet || calls[i].row != calls[i - 1].row ||
                         calls[i].column != calls[i - 1].column
                     ? 1
                     : 0;
    return texts.word(
        "Calls of DRY functions: {}, in cells: {}. Without a value, listed first: {}. This list does "
        "not follow later changes.",
        {std::to_string(calls.size()), std::to_string(cells), std::to_string(refused)});
}

/// The list comes to the front, its heading staying where it is.
void bring_to_front(const Document& document, const Sheet& sheet) {
    const Reference<frame::XController> controller =
        Reference<frame::XModel>(document, UNO_QUERY_THROW)->getCurrentController();
    const Reference<sheet::XSpreadsheetView> view(controller, uno::UNO_QUERY);
    if (!view.is()) return;
    view->setActiveSheet(sheet);
    Reference<sheet::XViewFreezable>(controller, UNO_QUERY_THROW)->freezeAtPosition(0, kTop);
}

}  // namespace

std::string check(const Request& request) {
    const Texts& texts = request.texts;
    const Document document(request.writable_workbook(), UNO_QUERY_THROW);
    const Reference<task::XStatusIndicatorFactory> indicators(request.frame, uno::UNO_QUERY);
    const Progress progress = indicators.is() ? indicators->createStatusIndicator() : Progress();
    if (!Reference<sheet::XCalculatable>(document, UNO_QUERY_THROW)->isAutomaticCalculationEnabled())
        throw NotDone(
            texts.word("This workbook does not calculate by itself. Switch that on (Data > Calculate > "
                       "AutoCalculate) and check again."));
    if (Reference<util::XProtectable>(document, UNO_QUERY_THROW)->isProtected())
        throw NotDone(
            texts.word("The sheets of this workbook are protected (Tools > Protect Spreadsheet Structure), "
                       "and the list needs a new one."));
    const Reference<sheet::XSpreadsheets> sheets = document->getSheets();
    const Reference<container::XIndexAccess> by_index(sheets, UNO_QUERY_THROW);
    const Sequence<OUString> names = sheets->getElementNames();
    std::vector<Call> calls;
    for (sal_Int32 i = 0; i < names.getLength(); ++i)
        collect(Sheet(by_index->getByIndex(i), UNO_QUERY_THROW), utf8_from(names[i]), calls);
    if (calls.empty())
        throw NotDone(texts.word("There is no call of a DRY function to check in this workbook."));

    List list{.sheet_name = free_name(sheets, texts)};
    const OUString title = ustring_from(texts.text("menu.check", kCheckTitle));
    const UndoStep step(document, title);
    sheets->insertNewByName(list.sheet_name, static_cast<sal_Int16>(names.getLength()));
    const Sheet sheet = sheet_named(document, list.sheet_name);
    if (progress.is()) progress->start(title, static_cast<sal_Int32>(calls.size()));
    ask(sheet, calls, step.list(), progress, texts);
    const auto refused =
        std::count_if(calls.begin(), calls.end(), [](const Call& call) { return !call.fine; });
    std::string summary = summary_of(calls, static_cast<std::size_t>(refused), texts);
    std::ranges::stable_sort(calls, {}, [](const Call& call) { return std::pair(call.fine, !call.asked); });
    list.refused = static_cast<sal_Int32>(refused);
    list.head = head_of(summary, texts);
    list.links.realloc(static_cast<sal_Int32>(calls.size()));
    list.rows.realloc(static_cast<sal_Int32>(calls.size()));
    for (std::size_t i = 0; i < calls.size(); ++i) {
        const OUString link = link_to(calls[i]);
        list.links.getArray()[i] = Sequence<OUString>(&link, 1);
        list.rows.getArray()[i] = listed(calls[i], sheets);
    }
    write(document, list, step.list());
    if (progress.is()) progress->end();
    step.list().addUndoAction(new Refill(document, list));
    bring_to_front(document, sheet);
    return summary;
}

}  // namespace drysheet
