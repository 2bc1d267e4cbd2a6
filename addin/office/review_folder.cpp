// SPDX-License-Identifier: MPL-2.0
// Review a Folder: every workbook of it, one summary.
#include <algorithm>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/awt/XRequestCallback.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XDesktop.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/sheet/XViewFreezable.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/task/XJobExecutor.hpp>
#include <com/sun/star/ucb/XSimpleFileAccess.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cppuhelper/implbase2.hxx>
#include <iostream>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/folder.hpp"
#include "addin/office/judge.hpp"
#include "addin/office/long_work.hpp"
#include "addin/office/review_sheet.hpp"
#include "addin/office/service.hpp"
#include "addin/text/csv.hpp"

namespace drysheet {
namespace {

using Line = std::vector<Any>;
using Lines = std::vector<Line>;

Any words(std::string_view text) { return Any(ustring_from(text)); }

struct Summary {
    std::string said;
    Lines findings, files;
    std::array<std::size_t, workbook::kVerdicts> count{};
    std::size_t read = 0, unread = 0;
};

const std::vector<const char*>& finding_header() {
    static const std::vector<const char*> header{"File",    "Cell",      "Finding",    "Why",     "Shows",
                                                 "Formula", "Suggested", "Would show", "Evidence"};
    return header;
}
const std::vector<const char*>& file_header() {
    static const std::vector<const char*> header{
        "File", "Cells read", "wrong", "doubtful", "could be checked", "fine", "not judged"};
    return header;
}

void read_one(const Request& request, const OUString& file, Summary& summary) {
    const std::string name = name_in(file);
    try {
        const Opened opened(request, file);
        const Document document(opened.model(), UNO_QUERY);
        if (!document.is()) throw NotDone(request.texts.word("This is no workbook."));
        const Judged judged = judge(opened.model(), request.context, [](double) {});
        for (const ReviewRow& row : rows_of(judged.review, judged.picture, document)) {
            if (row.verdict == workbook::Verdict::fine || row.verdict == workbook::Verdict::not_judged)
                continue;
            summary.findings.push_back({words(name), words(row.cell), words(workbook::in_words(row.verdict)),
                                        words(row.why), row.shows, words(row.formula), words(row.suggested),
                                        row.would_show ? Any(*row.would_show) : Any(), words(row.evidence)});
        }
        std::size_t cells = 0;
        Line line{words(name), Any()};
        for (std::size_t i = 0; i < judged.review.count.size(); ++i) {
            cells += judged.review.count.at(i);
            summary.count.at(i) += judged.review.count.at(i);
            line.emplace_back(static_cast<double>(judged.review.count.at(i)));
        }
        line.at(1) <<= static_cast<double>(cells);
        summary.files.push_back(std::move(line));
        ++summary.read;
    } catch (const Stopped&) {
        throw;
    } catch (const std::exception& reason) {
        ++summary.unread;
        summary.findings.push_back({words(name), Any(), words("not read"), words(reason.what())});
    } catch (const uno::Exception& reason) {
        ++summary.unread;
        summary.findings.push_back({words(name), Any(), words("not read"), words(utf8_from(reason.Message))});
    }
}

Sequence<Sequence<Any>> as_data(const std::string& above, const std::vector<const char*>& header,
                                const Lines& lines) {
    const auto columns = static_cast<sal_Int32>(header.size());
    Sequence<Sequence<Any>> data(static_cast<sal_Int32>(lines.size()) + 3);
    for (sal_Int32 row = 0; row < data.getLength(); ++row) {
        Sequence<Any>& cells = data.getArray()[row];
        cells.realloc(columns);
        for (sal_Int32 i = 0; i < columns; ++i) {
            Any& cell = cells.getArray()[i];
            const auto column = static_cast<std::size_t>(i);
            if (row == 0 && i == 0)
                cell = words(above);
            else if (row == 2)
                cell = words(header[column]);
            else if (row > 2 && column < lines[static_cast<std::size_t>(row) - 3].size())
                cell = lines[static_cast<std::size_t>(row) - 3][column];
            if (!cell.hasValue()) cell <<= OUString();
        }
    }
    return data;
}

void write_sheet(const Sheet& sheet, const std::string& above, const std::vector<const char*>& header,
                 const Lines& lines, const std::vector<sal_Int32>& widths) {
    const auto data = as_data(above, header, lines);
    const auto width = static_cast<sal_Int32>(header.size());
    const Range all = cells(sheet, 0, 0, width, data.getLength());
    Reference<sheet::XCellRangeData>(all, UNO_QUERY_THROW)->setDataArray(data);
    const Reference<container::XIndexAccess> columns(
        Reference<table::XColumnRowRange>(sheet, UNO_QUERY_THROW)->getColumns(), UNO_QUERY_THROW);
    for (std::size_t i = 0; i < widths.size(); ++i)
        set(Reference<uno::XInterface>(columns->getByIndex(static_cast<sal_Int32>(i)), UNO_QUERY), "Width",
            widths[i]);
    without_language(all);
    set(cells(sheet, 0, 0, 1, 1), "CharWeight", 150.0F);
    set(cells(sheet, 0, 2, width, 1), "CharWeight", 150.0F);
    const Range table = cells(sheet, 0, 2, width, data.getLength() - 2);
    set(table, "VertJustify", table::CellVertJustify2::TOP);
    name_range(table, kFolderName);
}

std::string as_csv(const Lines& lines) {
    Table table{.columns = finding_header().size()};
    for (const char* name : finding_header()) table.cells.emplace_back(std::string(name));
    for (const Line& line : lines)
        for (std::size_t i = 0; i < table.columns; ++i) {
            double number = 0;
            OUString text;
            if (i < line.size() && (line[i] >>= number)) {
                table.cells.emplace_back(number);
                continue;
            }
            if (i < line.size()) line[i] >>= text;
            table.cells.emplace_back(utf8_from(text));
        }
    return csv(table);
}

/// Where the summary goes, without an ending: as told, or beside the folder under a name that is free.
OUString place_of_summary(const Request& request, const Reference<ucb::XSimpleFileAccess>& files,
                          const OUString& folder) {
    OUString told = request.argument("Summary");
    for (const char* ending : {".ods", ".csv"})
        if (told.endsWithIgnoreAsciiCase(OUString::createFromAscii(ending)))
            told = told.copy(0, told.getLength() - 4);
    if (!told.isEmpty()) return told;
    return free_beside(files, folder, "review", {".csv", ".ods"});
}

}  // namespace

std::string review_folder(const Request& request) {
    const Texts& texts = request.texts;
    const auto files = request.service<ucb::XSimpleFileAccess>("com.sun.star.ucb.SimpleFileAccess");
    const OUString folder =
        asked_folder(request, request.texts.text("menu.review-folder", "Review a Folder"));
    const std::vector<OUString> workbooks = workbooks_in(files, folder, texts);
    const OUString base = place_of_summary(request, files, folder);

    Summary summary;
    {
        LongWork work(request, texts.text("menu.review-folder", "Review a Folder"),
                      static_cast<sal_Int32>(workbooks.size()));
        try {
            for (std::size_t i = 0; i < workbooks.size(); ++i) {
                work.done(static_cast<sal_Int32>(i));
                read_one(request, workbooks[i], summary);
            }
        } catch (const Stopped&) {
            summary.said = texts.word("Stopped by Esc.") + " ";
        }
    }
    const auto count = [&summary](workbook::Verdict verdict) {
        return std::to_string(summary.count.at(static_cast<std::size_t>(verdict)));
    };
    using enum workbook::Verdict;
    summary.said += texts.word(
        "Workbooks read: {} of {}, not readable: {}. Wrong: {}, doubtful: {}, could be checked: {}, fine: "
        "{}, not judged: {}.",
        {std::to_string(summary.read), std::to_string(workbooks.size()), std::to_string(summary.unread),
         count(wrong), count(doubtful), count(could_be_checked), count(fine), count(not_judged)});

    std::string written;
    try {
        write_file(base + ".csv", as_csv(summary.findings));
        written = " " + texts.word("Also written: {}.", {name_in(base) + ".csv"});
    } catch (const std::exception& reason) {
        written = " " + texts.word("{} could not be written.", {reason.what()});
    }
    const Reference<frame::XModel> model = request.load("private:factory/scalc");
    const Document document(model, UNO_QUERY_THROW);
    const Sheet findings = sheet_at(document, 0);
    Reference<container::XNamed>(findings, UNO_QUERY_THROW)->setName(ustring_from(texts.word("Findings")));
    write_sheet(findings, summary.said, finding_header(), summary.findings,
                {5000, 5000, 3200, 9000, 2800, 6000, 6000, 2800, 8000});
    const OUString list = ustring_from(texts.word("Files"));
    document->getSheets()->insertNewByName(list, 1);
    write_sheet(sheet_named(document, list), summary.said, file_header(), summary.files, {7000});
    if (!request.argument("Summary").isEmpty() || !request.frame.is())
        Reference<frame::XStorable>(model, UNO_QUERY_THROW)->storeAsURL(base + ".ods", {});
    if (!request.frame.is()) Reference<util::XCloseable>(model, UNO_QUERY_THROW)->close(true);
    return summary.said + written;
}

namespace {

/// Ends an office in which nothing is open, in its own turn.
class End final : public cppu::WeakImplHelper1<awt::XCallback> {
  public:
    explicit End(const Reference<frame::XDesktop>& desktop) : desktop_(desktop) {}
    void SAL_CALL notify(const Any&) override {
        try {
            if (!desktop_->getComponents()->createEnumeration()->hasMoreElements()) desktop_->terminate();
        } catch (const uno::Exception&) {
        }
    }

  private:
    const Reference<frame::XDesktop> desktop_;
};

/// soffice --headless "service:org.drysheet.ReviewFolder?FOLDER SUMMARY", both as URLs, the second one may be
/// left out.
class FromCommandLine final : public Service<cppu::WeakImplHelper2<task::XJobExecutor, lang::XServiceInfo>> {
  public:
    explicit FromCommandLine(const Reference<uno::XComponentContext>& context)
        : Service("org.drysheet.ReviewFolder", "org.drysheet.ReviewFolder"), context_(context) {}

    void SAL_CALL trigger(const OUString& told) override {
        Request request{
            context_, {}, Sequence<beans::PropertyValue>(2), "review-folder", texts_of_menu(context_)};
        const sal_Int32 space = told.indexOf(' ');
        const OUString values[] = {space < 0 ? told : told.copy(0, space),
                                   space < 0 ? OUString() : told.copy(space + 1)};
        const char* const names[] = {"Folder", "Summary"};
        for (sal_Int32 i = 0; i < 2; ++i)
            request.arguments.getArray()[i] = beans::PropertyValue(
                OUString::createFromAscii(names[i]), 0, Any(values[i]), beans::PropertyState_DIRECT_VALUE);
        try {
            std::cout << review_folder(request) << std::endl;
        } catch (const std::exception& reason) {
            std::cerr << reason.what() << std::endl;
        } catch (const uno::Exception& reason) {
            std::cerr << utf8_from(reason.Message) << std::endl;
        }
        try {  // an office that was started for this alone would wait for ever
            request.service<awt::XRequestCallback>("com.sun.star.awt.AsyncCallback")
                ->addCallback(new End(request.service<frame::XDesktop>("com.sun.star.frame.Desktop")), Any());
        } catch (const uno::Exception&) {
        }
    }

  private:
    const Reference<uno::XComponentContext> context_;
};

}  // namespace
}  // namespace drysheet

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* SAL_CALL
drysheet_review_folder(com::sun::star::uno::XComponentContext* context,
                       const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return drysheet::made<drysheet::FromCommandLine>(context);
}
