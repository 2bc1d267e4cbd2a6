// SPDX-License-Identifier: MPL-2.0
// Hand Out: a lesson for each name of a list. Collect: a folder of answered lessons, marked again, in one
// workbook.
#include <com/sun/star/awt/FontWeight.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/SequenceInputStream.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <rtl/uri.hxx>

#include "addin/lesson/desk.hpp"
#include "addin/lesson/lesson_book.hpp"
#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/folder.hpp"
#include "addin/office/locale.hpp"
#include "addin/office/long_work.hpp"
#include "addin/office/sheets.hpp"
#include "addin/office/uno.hpp"
#include "addin/text/csv.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr const char* kClassTable = "DRYSHEET_CLASS";

beans::PropertyValue value(const char* name, const Any& any) {
    return {OUString::createFromAscii(name), 0, any, beans::PropertyState_DIRECT_VALUE};
}

// The cells that a name of any sheet of the workbook means; empty where none has it.
Range named_anywhere(const Document& document, const char* name) {
    const sal_Int32 count =
        Reference<container::XIndexAccess>(document->getSheets(), UNO_QUERY_THROW)->getCount();
    for (sal_Int32 i = 0; i < count; ++i)
        if (const Range range = named_range(sheet_at(document, i), name); range.is()) return range;
    return {};
}

// Cells row by row.
Input cells_of(const Range& range) {
    return input_from(Any(Reference<sheet::XCellRangeData>(range, UNO_QUERY_THROW)->getDataArray()));
}
Input first_of(const Range& range) {
    if (!range.is()) return {};
    const Input all = cells_of(range);
    return all.cells.empty() ? Input() : all.cells.front();
}
std::string text_of(const Input& cell, const Reading& reading) {
    return cell.form == Input::Form::number ? in_words(cell.number, 15, reading) : cell.text;
}

// What the lecturer's pages of the workbook say.
struct Desk {
    ClassLesson lesson;
    Students students;
};
Desk desk_of(const Document& document, const Reading& reading, const Texts& texts) {
    const Range names = named_anywhere(document, lesson_name::kNames),
                exercises = named_anywhere(document, lesson_name::kExercises);
    if (!names.is() || !exercises.is())
        throw NotDone(
            texts.word("This workbook has no list of names and no exercises. Open the example of lessons "
                       "first: Drying ▸ Open an Example."));
    const Input table = cells_of(exercises);
    std::vector<ExerciseRow> rows;
    for (std::size_t row = 1; row < table.rows(); ++row) {
        ExerciseRow& made = rows.emplace_back();
        for (std::size_t i = 0; i < std::min(kExerciseColumns, table.columns); ++i)
            cell_of(made, i) = text_of(table.cells[row * table.columns + i], reading);
    }
    Desk desk{.lesson = read_lesson(
                  rows, text_of(first_of(named_anywhere(document, lesson_name::kLessons)), reading), reading),
              .students = read_names(cells_of(names).cells, reading)};
    desk.lesson.word = text_of(first_of(named_anywhere(document, lesson_name::kWord)), {});
    const Input later = first_of(named_anywhere(document, lesson_name::kLater));
    if (later.form == Input::Form::number && later.number >= 0 && later.number <= 1)
        desk.lesson.later = later.number;
    else if (!later.blank())
        desk.lesson.said.push_back(
            texts.word("what a later try leaves is a number from 0 to 1: 0.5 was taken"));
    if (desk.lesson.exercises.empty())
        throw NotDone(texts.word("No exercise can be handed out. {}",
                                 {desk.lesson.said.empty() ? "" : desk.lesson.said.front()}));
    return desk;
}

// A list of what was left out, as far as a status bar can show it.
std::string with_said(std::string sentence, const std::vector<std::string>& said, const Texts& texts) {
    constexpr std::size_t shown = 4;
    if (said.empty()) return sentence;
    std::string list;
    for (std::size_t i = 0; i < std::min(shown, said.size()); ++i)
        list.append(i == 0 ? "" : "; ").append(said[i]);
    if (said.size() > shown) list += "; … (" + std::to_string(said.size()) + ")";
    return sentence + " " + texts.word("Not done: {}.", {list});
}

void write_book(const Request& request, const std::string& xml, const OUString& url) {
    const Sequence<sal_Int8> bytes(reinterpret_cast<const sal_Int8*>(xml.data()),  // NOLINT: bytes are bytes
                                   static_cast<sal_Int32>(xml.size()));
    const Reference<frame::XModel> model = request.load(
        "private:stream",
        {value("InputStream", Any(io::SequenceInputStream::createStreamFromSequence(request.context, bytes))),
         value("FilterName", Any(OUString("OpenDocument Spreadsheet Flat XML"))),
         value("PickListEntry", Any(false))},
        true);
    const Opened opened(model);
    const beans::PropertyValue filter = value("FilterName", Any(OUString("calc8")));
    Reference<frame::XStorable>(model, UNO_QUERY_THROW)->storeToURL(url, {&filter, 1});
}

// The answers of one workbook.
AnswerFile read_answers(const Document& document, const std::string& file, const Texts& texts) {
    AnswerFile answers;
    answers.file = file;
    const sal_Int32 count =
        Reference<container::XIndexAccess>(document->getSheets(), UNO_QUERY_THROW)->getCount();
    for (sal_Int32 i = 0; i < count; ++i) {
        const Sheet sheet = sheet_at(document, i);
        const Range range = named_range(sheet, lesson_name::kAnswers),
                    keys = named_range(sheet, lesson_name::kKeys);
        if (!range.is() || !keys.is()) continue;
        const auto said = [&](const char* name) { return text_of(first_of(named_range(sheet, name)), {}); };
        const std::string name = said(lesson_name::kStudent), seal = said(lesson_name::kSeal);
        if (answers.rows.empty()) {
            answers.name = name;
            answers.seal = seal;
            answers.decimal_comma = said(lesson_name::kDecimal) == ",";
        } else if (name != answers.name || seal != answers.seal) {
            answers.notes.push_back(texts.word("its sheets have different names or seals"));
        }
        const Input cells = cells_of(range), of = cells_of(keys);
        for (std::size_t row = 0; row < std::min(of.cells.size(), cells.rows()); ++row) {
            const auto first = cells.cells.begin() + static_cast<std::ptrdiff_t>(row * cells.columns);
            answers.rows.push_back(
                {text_of(of.cells[row], {}),
                 {first, first + static_cast<std::ptrdiff_t>(std::min(kTries, cells.columns))}});
        }
        const auto formulas =
            Reference<sheet::XCellRangesQuery>(range, UNO_QUERY_THROW)
                ->queryFormulaCells(sheet::FormulaResult::VALUE | sheet::FormulaResult::STRING |
                                    sheet::FormulaResult::ERROR)
                ->getRangeAddressesAsString();
        if (!formulas.isEmpty())
            answers.notes.push_back(texts.word("formulas for answers: {}", {utf8_from(formulas)}));
    }
    if (answers.rows.empty()) answers.notes.push_back(texts.word("it holds no lesson"));
    return answers;
}

void put_table(const Sheet& sheet, const Table& table, const std::vector<sal_Int32>& widths,
               const char* name) {
    Sequence<Sequence<Any>> data;
    any_from(table) >>= data;
    const Range range =
        cells(sheet, 0, 0, static_cast<sal_Int32>(table.columns), static_cast<sal_Int32>(table.rows()));
    Reference<sheet::XCellRangeData>(range, UNO_QUERY_THROW)->setDataArray(data);
    const Reference<container::XIndexAccess> columns(
        Reference<table::XColumnRowRange>(range, UNO_QUERY_THROW)->getColumns(), UNO_QUERY_THROW);
    for (sal_Int32 i = 0; i < columns->getCount(); ++i)
        set(Reference<uno::XInterface>(columns->getByIndex(i), UNO_QUERY), "Width",
            widths[std::min(static_cast<std::size_t>(i), widths.size() - 1)]);
    set(range, "VertJustify", table::CellVertJustify2::TOP);
    set(range, "IsTextWrapped", true);
    set(cells(sheet, 0, 0, static_cast<sal_Int32>(table.columns), 1), "CharWeight", awt::FontWeight::BOLD);
    without_language(range);
    if (name != nullptr) name_range(range, name);
}

}  // namespace

std::string hand_out_workbooks(const Request& request) {
    const Texts& texts = request.texts;
    const Document document(request.workbook(), UNO_QUERY_THROW);
    Reading reading = reading_of(request.context);
    reading.texts = &texts;
    Desk desk = desk_of(document, reading, texts);
    if (desk.students.all.empty()) throw NotDone(texts.word("There is no name in the list."));
    const std::string title = texts.text("menu.hand-out", "Hand Out");
    const OUString folder = asked_folder(request, title);
    const auto files = request.service<ucb::XSimpleFileAccess>("com.sun.star.ucb.SimpleFileAccess");
    if (!files->exists(folder) || !files->isFolder(folder))
        throw NotDone(texts.word("There is no folder {}.", {utf8_from(folder)}));

    std::vector<std::string> said = desk.lesson.said;
    said.insert(said.end(), desk.students.said.begin(), desk.students.said.end());
    std::size_t written = 0;
    std::string stopped;
    {
        LongWork work(request, title, static_cast<sal_Int32>(desk.students.all.size()));
        try {
            for (std::size_t i = 0; i < desk.students.all.size(); ++i) {
                work.done(static_cast<sal_Int32>(i));
                const Student& student = desk.students.all[i];
                const OUString url = folder + "/" +
                                     rtl::Uri::encode(ustring_from(student.file), rtl_UriCharClassPchar,
                                                      rtl_UriEncodeIgnoreEscapes, RTL_TEXTENCODING_UTF8) +
                                     ".ods";
                if (files->exists(url)) {
                    said.push_back(texts.word("{} is there already", {student.file + ".ods"}));
                    continue;
                }
                try {
                    const Handout handout = hand_out(desk.lesson, student.name, reading);
                    if (i == 0) said.insert(said.end(), handout.said.begin(), handout.said.end());
                    write_book(request, student_book(desk.lesson, handout, texts), url);
                    ++written;
                } catch (const uno::Exception& reason) {
                    said.push_back(student.file + ": " + utf8_from(reason.Message));
                }
            }
        } catch (const Stopped&) {
            stopped = texts.word("Stopped by Esc.") + " ";
        }
    }
    return with_said(stopped + texts.word("Workbooks written: {} of {}, with {} exercises each, into {}.",
                                          {std::to_string(written), std::to_string(desk.students.all.size()),
                                           std::to_string(desk.lesson.exercises.size()), name_in(folder)}),
                     said, texts);
}

std::string collect_answers(const Request& request) {
    const Texts& texts = request.texts;
    const Document document(request.workbook(), UNO_QUERY_THROW);
    Reading reading = reading_of(request.context);
    reading.texts = &texts;
    const Desk desk = desk_of(document, reading, texts);
    const std::string title = texts.text("menu.collect", "Collect");
    const OUString folder = asked_folder(request, title);
    const auto files = request.service<ucb::XSimpleFileAccess>("com.sun.star.ucb.SimpleFileAccess");
    const std::vector<OUString> workbooks = workbooks_in(files, folder, texts);

    std::vector<AnswerFile> answers;
    std::string said;
    {
        LongWork work(request, title, static_cast<sal_Int32>(workbooks.size()));
        try {
            for (std::size_t i = 0; i < workbooks.size(); ++i) {
                work.done(static_cast<sal_Int32>(i));
                const std::string file = name_in(workbooks[i]);
                try {
                    const Opened opened(request, workbooks[i]);
                    const Document answered(opened.model(), UNO_QUERY);
                    if (!answered.is()) throw NotDone(texts.word("This is no workbook."));
                    if (named_anywhere(answered, lesson_name::kNames).is()) continue;  // the lecturer's own
                    answers.push_back(read_answers(answered, file, texts));
                } catch (const Stopped&) {
                    throw;
                } catch (const std::exception& reason) {
                    answers.push_back({.file = file, .notes = {reason.what()}});
                } catch (const uno::Exception& reason) {
                    answers.push_back({.file = file, .notes = {utf8_from(reason.Message)}});
                }
            }
        } catch (const Stopped&) {
            said = texts.word("Stopped by Esc.") + " ";
        }
    }
    if (answers.empty())
        throw NotDone(said + texts.word("There is no answered lesson in {}.", {name_in(folder)}));
    const ClassResult result = collect(desk.lesson, answers, desk.students.all, reading);
    said += texts.word("Workbooks read: {}, with a note: {}.",
                       {std::to_string(result.files), std::to_string(result.noted)});
    const OUString base = free_beside(files, folder, "class", {".csv"});
    try {
        write_file(base + ".csv", csv(result.table));
        said += " " + texts.word("Also written: {}.", {name_in(base) + ".csv"});
    } catch (const std::exception& reason) {
        said += " " + texts.word("{} could not be written.", {reason.what()});
    }
    const Reference<frame::XModel> model = request.load("private:factory/scalc");
    const Document made(model, UNO_QUERY_THROW);
    const Sheet sheet = sheet_at(made, 0);
    Reference<container::XNamed>(sheet, UNO_QUERY_THROW)->setName(ustring_from(texts.word("Class")));
    put_table(sheet, result.table, {4500, 4500, 1800, 1400, 4200}, kClassTable);
    const auto further = [&](std::string_view name, const Table& table, sal_Int16 at,
                             const std::vector<sal_Int32>& widths) {
        const OUString wanted = free_name(made, texts.word(name));
        made->getSheets()->insertNewByName(wanted, at);
        put_table(sheet_named(made, wanted), table, widths, nullptr);
    };
    further("Points", result.histogram, 1, {3500, 2000, 12000});
    further("Exercises", result.exercises, 2, {4500, 1800, 1800, 12000, 1800});
    return with_said(said, desk.lesson.said, texts);
}

}  // namespace drysheet
