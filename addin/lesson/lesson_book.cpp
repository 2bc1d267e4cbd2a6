// SPDX-License-Identifier: MPL-2.0
#include "addin/lesson/lesson_book.hpp"

#include <algorithm>
#include <stdexcept>

#include "addin/call/working.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr const char* kHead = R"(<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0" xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0" xmlns:svg="urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0" xmlns:loext="urn:org:documentfoundation:names:experimental:office:xmlns:loext:1.0" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
)";

// Every style: name, parent, cell properties, paragraph and text properties, number format.
struct Style {
    std::string_view name, parent, cell, text, paragraph{}, format{};
};
constexpr Style kStyles[] = {
    {"Title", "Default", "", R"(fo:font-size="16pt" fo:font-weight="bold" fo:color="#24503f")"},
    {"Remark", "Default", R"(fo:wrap-option="wrap" style:vertical-align="top")", R"(fo:color="#555a57")"},
    {"Strong", "Default", R"(fo:wrap-option="wrap")", R"(fo:font-weight="bold" fo:color="#24503f")"},
    {"Head", "Default", R"(fo:background-color="#2a5746" fo:wrap-option="wrap")",
     R"(fo:font-weight="bold" fo:color="#fdfefd")"},
    {"Text", "Default",
     R"(fo:wrap-option="wrap" style:vertical-align="top" fo:border-bottom="0.5pt solid #d5dad7")", ""},
    {"Small", "Text", "", R"(fo:font-size="9pt" fo:color="#555a57")"},
    {"Count", "Text", R"(style:text-align-source="fix")", "", R"(fo:text-align="center")"},
    {"Answer", "Text",
     R"(fo:background-color="#fff6d9" style:cell-protect="none" style:text-align-source="fix" style:vertical-align="middle")",
     R"(fo:color="#1b3a94")", R"(fo:text-align="end")", "typed"},
    {"Open", "Answer", "", "", R"(fo:text-align="start")"},
    {"Open number", "Open", "", "", "", "plain"},
    {"Open text", "Open", R"(fo:wrap-option="wrap" style:vertical-align="top")", ""},
    {"Mark", "Small", R"(style:vertical-align="middle")", ""},
    {"Mark right", "Mark", R"(fo:background-color="#e0f1e4")", R"(fo:font-weight="bold" fo:color="#226b33")"},
    {"Mark near", "Mark", R"(fo:background-color="#fdf1cf")", R"(fo:color="#775c0a")"},
    {"Mark wrong", "Mark", R"(fo:background-color="#f9e4e0")", R"(fo:color="#9c2410")"},
    {"Line", "Default", "", R"(fo:font-size="9.5pt")"}};

std::string style_name(std::string_view name) {
    std::string coded;
    for (const char c : name) coded += c == ' ' ? std::string("_20_") : std::string(1, c);
    return coded;
}

std::string styles(const std::string& title) {
    std::string xml =
        " <office:meta><dc:title>" + escaped_xml(title) + "</dc:title></office:meta>\n" + R"( <office:styles>
  <style:default-style style:family="table-cell"><style:text-properties style:font-name="Liberation Sans" fo:font-size="10pt" fo:language="zxx" fo:country="none"/></style:default-style>
  <number:text-style style:name="typed"><number:text-content/></number:text-style>
  <number:number-style style:name="plain"><number:number number:min-integer-digits="1"/></number:number-style>
  <style:style style:name="Default" style:family="table-cell"><style:table-cell-properties style:vertical-align="middle" fo:padding="0.04cm"/></style:style>
)";
    for (const Style& style : kStyles) {
        xml += "  <style:style style:name=\"" + style_name(style.name) + "\" style:display-name=\"" +
               std::string(style.name) + "\" style:family=\"table-cell\" style:parent-style-name=\"" +
               style_name(style.parent) + "\"";
        if (!style.format.empty()) xml += " style:data-style-name=\"" + std::string(style.format) + "\"";
        xml += ">";
        if (!style.cell.empty()) xml += "<style:table-cell-properties " + std::string(style.cell) + "/>";
        if (!style.paragraph.empty())
            xml += "<style:paragraph-properties " + std::string(style.paragraph) + "/>";
        if (!style.text.empty()) xml += "<style:text-properties " + std::string(style.text) + "/>";
        xml += "</style:style>\n";
    }
    return xml + " </office:styles>\n";
}

std::string cell_text(std::string_view style, std::string_view text, std::string_view more = {}) {
    std::string xml = "<table:table-cell table:style-name=\"" + style_name(style) + "\"" + std::string(more);
    if (text.empty()) return xml + "/>";
    return xml + " office:value-type=\"string\"><text:p>" + escaped_xml(text) +
           "</text:p></table:table-cell>";
}
std::string cell_number(std::string_view style, const std::string& number) {
    return "<table:table-cell table:style-name=\"" + style_name(style) +
           "\" office:value-type=\"float\" office:value=\"" + number + "\"><text:p>" + number +
           "</text:p></table:table-cell>";
}
std::string cell_formula(std::string_view style, std::string_view formula, std::string_view more = {}) {
    return "<table:table-cell table:style-name=\"" + style_name(style) + "\"" + std::string(more) +
           " table:formula=\"of:=" + escaped_xml(formula) + "\"/>";
}
std::string wide_text(std::string_view style, std::string_view text, std::size_t columns) {
    const std::string more =
        " table:number-columns-spanned=\"" + std::to_string(columns) + "\" table:number-rows-spanned=\"1\"";
    return cell_text(style, text, more) + "<table:covered-table-cell table:number-columns-repeated=\"" +
           std::to_string(columns - 1) + "\"/>";
}

std::string in_formula(std::string_view text) {
    std::string quoted = "\"";
    for (const char c : text) quoted.append(c == '"' ? 2 : 1, c);
    return quoted + "\"";
}

// Widths and heights in millimetres become styles as they are used.
class Book {
  public:
    explicit Book(std::string title) : title_(std::move(title)) {}

    struct Column {
        int mm;
        bool hidden = false;
    };
    void begin_sheet(const std::string& name, const std::vector<Column>& columns, bool is_protected) {
        names_.clear();
        conditions_.clear();
        sheet_ = name;
        body_ += "  <table:table table:name=\"" + escaped_xml(name) + "\" table:style-name=\"sheet\"" +
                 (is_protected ? " table:protected=\"true\"" : "") + ">\n" +
                 (is_protected ? "   <loext:table-protection loext:select-protected-cells=\"true\" "
                                 "loext:select-unprotected-cells=\"true\"/>\n"
                               : "");
        for (const Column& column : columns) {
            if (std::ranges::find(widths_, column.mm) == widths_.end()) widths_.push_back(column.mm);
            body_ += "   <table:table-column table:style-name=\"width-" + std::to_string(column.mm) + "\"" +
                     (column.hidden ? " table:visibility=\"collapse\"" : "") + "/>\n";
        }
    }
    void row(int mm, const std::string& cells) {
        if (std::ranges::find(heights_, mm) == heights_.end()) heights_.push_back(mm);
        body_ += "   <table:table-row table:style-name=\"height-" + std::to_string(mm) + "\">" +
                 (cells.empty() ? "<table:table-cell/>" : cells) + "</table:table-row>\n";
    }
    void name(const char* name, const std::string& range) {
        names_ += "    <table:named-range table:name=\"" + std::string(name) +
                  "\" table:base-cell-address=\"" + escaped_xml(quoted(sheet_)) +
                  ".$A$1\" table:cell-range-address=\"" + escaped_xml(quoted(sheet_)) + "." + range +
                  "\"/>\n";
    }
    void marks(const std::string& first, const std::string& last, const std::string& right,
               const std::string& near, const std::string& none) {
        const std::string base = escaped_xml(quoted_plain(sheet_)) + "." + first;
        conditions_ += "    <calcext:conditional-format calcext:target-range-address=\"" + base + ":" +
                       escaped_xml(quoted_plain(sheet_)) + "." + last + "\">\n";
        const auto condition = [&](const char* style, const std::string& formula) {
            conditions_ += "     <calcext:condition calcext:apply-style-name=\"" + std::string(style) +
                           "\" calcext:value=\"formula-is(" + escaped_xml(formula) +
                           ")\" calcext:base-cell-address=\"" + base + "\"/>\n";
        };
        condition("Mark right", "[." + first + "]=[." + right + "]");
        condition("Mark near", "LEFT([." + first + "];LEN([." + near + "]))=[." + near + "]");
        condition("Mark wrong", "[." + first + "]<>" + in_formula(none));
        conditions_ += "    </calcext:conditional-format>\n";
    }
    void end_sheet() {
        if (!names_.empty())
            body_ += "   <table:named-expressions>\n" + names_ + "   </table:named-expressions>\n";
        if (!conditions_.empty())
            body_ +=
                "   <calcext:conditional-formats>\n" + conditions_ + "   </calcext:conditional-formats>\n";
        body_ += "  </table:table>\n";
    }
    std::string take(bool is_protected, const std::string& names = {}) const {
        std::string xml = kHead + styles(title_) + " <office:automatic-styles>\n";
        for (const int mm : widths_)
            xml += "  <style:style style:name=\"width-" + std::to_string(mm) +
                   "\" style:family=\"table-column\"><style:table-column-properties style:column-width=\"" +
                   std::to_string(mm) + "mm\"/></style:style>\n";
        for (const int mm : heights_)
            xml += "  <style:style style:name=\"height-" + std::to_string(mm) +
                   "\" style:family=\"table-row\"><style:table-row-properties style:row-height=\"" +
                   std::to_string(mm) + "mm\" style:use-optimal-row-height=\"false\"/></style:style>\n";
        xml += R"(  <style:style style:name="sheet" style:family="table" style:master-page-name="Page"/>
  <style:page-layout style:name="page"><style:page-layout-properties fo:page-width="29.7cm" fo:page-height="21cm" style:print-orientation="landscape" fo:margin="1.3cm" style:scale-to-X="1" style:scale-to-Y="0"/></style:page-layout>
 </office:automatic-styles>
 <office:master-styles><style:master-page style:name="Page" style:page-layout-name="page"><style:header style:display="false"><text:p/></style:header><style:footer><text:p><text:sheet-name>sheet</text:sheet-name>, <text:page-number>1</text:page-number></text:p></style:footer></style:master-page></office:master-styles>
 <office:body><office:spreadsheet)";
        xml += is_protected ? " table:structure-protected=\"true\">\n" : ">\n";
        xml += body_;
        if (!names.empty()) xml += "  <table:named-expressions>\n" + names + "  </table:named-expressions>\n";
        return xml + " </office:spreadsheet></office:body>\n</office:document>\n";
    }

    /// 'Moist air' as an address has it.
    static std::string quoted_plain(std::string_view sheet) {
        std::string text = "'";
        for (const char c : sheet) text.append(c == '\'' ? 2 : 1, c);
        return text + "'";
    }
    static std::string quoted(std::string_view sheet) { return "$" + quoted_plain(sheet); }

  private:
    std::string title_, body_, sheet_, names_, conditions_;
    std::vector<int> widths_, heights_;
};

// Lines that a text takes in a column of so many letters.
int lines(std::string_view text, std::size_t letters) {
    std::size_t length = 0;
    for (const char c : text) length += (static_cast<unsigned char>(c) & 0xc0U) != 0x80 ? 1 : 0;
    return static_cast<int>((length + letters - 1) / letters);
}

// The arguments of an exercise as a formula has them: numbers joined to their units by the sheet, so that
// they are read in any locale.
std::string arguments_in_formula(const Drawn& drawn) {
    std::string text = in_formula(drawn.exercise->function->name);
    for (const std::vector<Term>& argument : drawn.arguments) {
        std::string terms;
        for (const Term& term : argument) {
            const std::string number = term.number ? in_words(*term.number, 12) : std::string();
            const std::string after =
                term.number && term.after.empty() ? std::string() : in_formula(term.after);
            terms.append(terms.empty() ? "" : "|").append(number);
            terms.append(!number.empty() && !after.empty() ? "&" : "").append(after);
        }
        text += ";" + (argument.size() > 1 ? "{" + terms + "}" : terms);
    }
    return text;
}

std::string answer_unit(const Drawn& drawn, const Texts& texts) {
    const Exercise& exercise = *drawn.exercise;
    if (!exercise.answer_in.empty()) return exercise.answer_in;
    const std::string_view unit = exercise.function->result_unit;
    if (exercise.function->count || unit.empty()) return "–";
    if (exercise.function->gives == Kind::moisture_wet || unit == "fraction")
        return texts.word("fraction or %");
    return drawn.unit;
}

// A sheet's name: what Calc takes, and no other sheet has.
std::string sheet_name(std::string_view lesson, std::vector<std::string>& taken) {
    std::string name;
    for (const char c : lesson)
        name += std::string_view("[]*?:/\\").find(c) == std::string_view::npos ? c : '_';
    if (name.empty()) name = "1";
    std::string free = name;
    for (int i = 2; std::ranges::find(taken, lower(free)) != taken.end(); ++i)
        free = name + " " + std::to_string(i);
    taken.push_back(lower(free));
    return free;
}

constexpr std::size_t kFirstRow = 8;  // of the exercises; rows above are what is said

struct Placed {
    const Drawn* drawn;
    std::string sheet;
    std::size_t row, number;
};

void put_exercise(Book& book, const Placed& place, double later, const Texts& texts) {
    const Drawn& drawn = *place.drawn;
    const std::string row = std::to_string(place.row), call = arguments_in_formula(drawn);
    const auto at = [&row](const char* column) { return "[." + std::string(column) + row + "]"; };
    const std::string joined =
        drawn.exercise->answer_in.empty() ? std::string() : "&" + in_formula(" " + drawn.exercise->answer_in);
    const auto mark = [&](const char* typed) {
        return cell_formula("Small", "IF(LEN(TRIM(" + at(typed) + "))=0;\"\";IFERROR(DRY.MARKCALL(" +
                                         at(typed) + joined + ";" + call + ");\"?\"))");
    };
    const auto counts = [&](const char* of) { return "(" + at(of) + "<>\"\")*(" + at(of) + "<>\"?\")"; };
    const std::string right = "[.$K$4]", share = in_words(later, 6);
    const std::string last =
        "IF(" + at("M") + "<>\"\";" + at("E") + ";IF(" + at("L") + "<>\"\";" + at("D") + ";" + at("C") + "))";
    const std::string last_mark =
        "IF(" + at("M") + "<>\"\";" + at("M") + ";IF(" + at("L") + "<>\"\";" + at("L") + ";" + at("K") + "))";
    std::string cells = cell_number("Count", std::to_string(place.number)) + cell_text("Text", drawn.text);
    for (std::size_t i = 0; i < kTries; ++i) cells += cell_text("Answer", "");
    cells += cell_text("Small", answer_unit(drawn, texts));
    cells += cell_formula("Mark", "IF(OR(" + at("K") + "=" + right + ";" + at("L") + "=" + right + ";" +
                                      at("M") + "=" + right + ");" + right + ";IF(" + last_mark + "=\"\";" +
                                      in_formula(texts.word("no answer yet")) + ";IF(" + last_mark +
                                      "=\"?\";DRY.WHY(\"MARKCALL\";" + last + joined + ";" + call + ");" +
                                      last_mark + ")))");
    cells += cell_formula("Count", in_words(drawn.exercise->points, 6) + "*IF(" + at("K") + "=" + right +
                                       ";1;IF(" + at("L") + "=" + right + ";" + share + "^(" + counts("K") +
                                       ");IF(" + at("M") + "=" + right + ";" + share + "^(" + counts("K") +
                                       "+" + counts("L") + ");0)))");
    cells += cell_formula("Count", counts("K") + "+" + counts("L") + "+" + counts("M"));
    const auto& hints = drawn.exercise->hints;
    std::string hint = in_formula(hints.empty() ? std::string() : hints.front());
    for (std::size_t i = 1; i < hints.size(); ++i)
        hint +=
            "&IF(" + at("I") + ">" + std::to_string(i - 1) + ";CHAR(10)&" + in_formula(hints[i]) + ";\"\")";
    cells += cell_formula("Small", hint) + mark("C") + mark("D") + mark("E") +
             cell_text("Small", key_text(*drawn.exercise));
    int hint_lines = 0;
    for (const std::string& one : hints) hint_lines += lines(one, 42);
    const int tallest = std::max({lines(drawn.text, 56) * 5, hint_lines * 4, 15});
    book.row(tallest + 3, cells);
}

void put_lesson(Book& book, std::span<const Placed> places, const Handout& handout, double later,
                const Texts& texts) {
    const std::string& sheet = places.front().sheet;
    const std::string_view lesson = places.front().drawn->exercise->lesson;
    const std::string story = story_of(lesson, texts);
    book.begin_sheet(sheet,
                     {{14},
                      {105},
                      {24},
                      {24},
                      {24},
                      {19},
                      {62},
                      {15},
                      {18},
                      {70},
                      {20, true},
                      {20, true},
                      {20, true},
                      {20, true}},
                     true);
    const std::size_t last = kFirstRow + places.size() - 1;
    const std::string from = std::to_string(kFirstRow), to = std::to_string(last);
    book.row(9, cell_text("Title", lesson));
    book.row(10, wide_text(
                     "Remark",
                     story + (story.empty() ? "" : " ") + texts.word("All data of this lesson are invented."),
                     10));
    book.row(
        10,
        wide_text(
            "Remark",
            formula_in_words(
                texts.word(
                    "Type your answer in the cream cells, the first one first: a number in the unit shown, "
                    "or with a unit of your own, such as \"1.25 kg\" or \"12 %\". A later try counts for "
                    "less. The working stands on the last sheet once you have tried."),
                {.decimal_comma = texts.decimal_comma()}),
            10));
    const std::string close = "DRY.MARKCALL(51;\"WATERMASS\";100;0.5)";
    book.row(7,
             cell_text("Strong", texts.word("Name")) + cell_text("Strong", handout.name) +
                 "<table:table-cell/><table:table-cell/>" + "<table:table-cell/>" +
                 cell_text("Remark", texts.word("Seal")) + cell_text("Remark", handout.seal) +
                 "<table:table-cell table:number-columns-repeated=\"3\"/>" +
                 // what this office calls right, its decimal sign, and the first word of what it calls close
                 cell_formula("Small", "DRY.MARKCALL(50;\"WATERMASS\";100;0.5)") +
                 cell_formula("Small", "MID(1/2&\"\";2;1)") +
                 cell_formula("Small", "LEFT(" + close + ";FIND(\" \";" + close + "))"));
    double points = 0;
    for (const Placed& place : places) points += place.drawn->exercise->points;
    book.row(7, "<table:table-cell/>" +
                    cell_formula("Strong", in_formula(texts.word("Points: ")) + "&SUM([.H" + from + ":.H" +
                                               to + "])&" + in_formula(" / " + in_words(points))));
    book.row(4, "");
    std::string head;
    for (const std::string_view word :
         {"No.", "Exercise", "Try 1", "Try 2", "Try 3", "in", "Mark", "Points", "Tries", "First step"})
        head += cell_text("Head", texts.word(word));
    book.row(7, head);
    for (const Placed& place : places) put_exercise(book, place, later, texts);
    book.name(lesson_name::kStudent, "$B$4");
    book.name(lesson_name::kSeal, "$G$4");
    book.name(lesson_name::kDecimal, "$L$4");
    book.name(lesson_name::kAnswers, "$C$" + from + ":$E$" + to);
    book.name(lesson_name::kKeys, "$N$" + from + ":$N$" + to);
    book.marks("G" + from, "G" + to, "$K$4", "$M$4", texts.word("no answer yet"));
    book.end_sheet();
}

// Each working as many lines as it has, and blank until an answer has been tried.
void put_workings(Book& book, const std::string& sheet, std::span<const Placed> places, const Texts& texts) {
    book.begin_sheet(sheet, {{10}, {230}}, true);
    book.row(9, cell_text("Title", sheet));
    for (const Placed& place : places) {
        const std::string tried = "[" + Book::quoted(place.sheet) + ".I" + std::to_string(place.row) + "]>0";
        book.row(7, "<table:table-cell/>" +
                        cell_formula("Strong", in_formula(place.sheet + " " + std::to_string(place.number)) +
                                                   "&IF(" + tried + ";\"\";" +
                                                   in_formula(": " + texts.word("an answer first, please")) +
                                                   ")"));
        const std::size_t count =
            working(read(*place.drawn->exercise->function, place.drawn->given, Reading{})).lines.size();
        book.row(5, "<table:table-cell/>" +
                        cell_formula(
                            "Line",
                            "IF(" + tried + ";DRY.WORKING(" + arguments_in_formula(*place.drawn) + ");\"\")",
                            " table:number-matrix-columns-spanned=\"1\" table:number-matrix-rows-spanned=\"" +
                                std::to_string(count) + "\""));
        for (std::size_t i = 1; i < count; ++i) book.row(5, "<table:table-cell/>" + cell_text("Line", ""));
        book.row(4, "");
    }
    book.end_sheet();
}

void put_lessons(Book& book, const ClassLesson& lesson, const Handout& handout,
                 std::vector<std::string> taken, const Texts& texts) {
    std::vector<std::vector<Placed>> sheets;
    const std::string workings = sheet_name(texts.word("Workings"), taken);
    for (const Drawn& drawn : handout.exercises) {
        auto sheet = std::ranges::find(sheets, drawn.exercise->lesson, [](const auto& places) {
            return places.front().drawn->exercise->lesson;
        });
        if (sheet == sheets.end()) {
            sheets.emplace_back();
            sheet = std::prev(sheets.end());
        }
        const std::string name =
            sheet->empty() ? sheet_name(drawn.exercise->lesson, taken) : sheet->front().sheet;
        std::size_t number = 1;
        while (&lesson.exercises[number - 1] != drawn.exercise) ++number;
        sheet->push_back({&drawn, name, kFirstRow + sheet->size(), number});
    }
    std::vector<Placed> all;
    for (const auto& places : sheets) {
        put_lesson(book, places, handout, lesson.later, texts);
        all.insert(all.end(), places.begin(), places.end());
    }
    put_workings(book, workings, all, texts);
}

}  // namespace

std::string student_book(const ClassLesson& lesson, const Handout& handout, const Texts& texts) {
    Book book(handout.name);
    put_lessons(book, lesson, handout, {}, texts);
    return book.take(true);
}

std::string class_book(std::span<const ExerciseRow> rows, std::span<const std::string_view> names,
                       const Texts& texts) {
    constexpr std::size_t kNameRows = 60, kOwnRows = 40, kFirstName = 13;
    const Reading reading{.decimal_comma = texts.decimal_comma(), .texts = &texts};
    Book book(texts.word("Lessons of drying, for a class"));
    std::vector<std::string> taken;

    const std::string class_sheet = sheet_name(texts.word("Class"), taken);
    book.begin_sheet(class_sheet, {{62}, {62}, {10}, {70}, {22}, {22}}, true);
    book.row(9, cell_text("Title", texts.word("Lessons of drying, for a class")));
    for (const std::string_view line :
         {"All data of these lessons are invented; the exercises are a lecturer's to change.",
          "Write the names below. Drying ▸ Class ▸ Hand Out then writes a workbook for each into a folder, "
          "with numbers of "
          "its own, sealed by the name; the pages Class and Exercises are not in it.",
          "Put what comes back into one folder. Drying ▸ Class ▸ Collect marks every answer again, whatever "
          "the files say, "
          "and opens a table of points and slips.",
          "An exercise is a row of the page Exercises: change, delete or add rows. Keep them and the word of "
          "the class until "
          "you have collected."})
        book.row(10, wide_text("Remark", texts.word(line), 6));
    book.row(4, "");
    const std::string exercises_sheet = sheet_name(texts.word("Exercises"), taken);
    const std::string last_row = std::to_string(rows.size() + kOwnRows + 1),
                      in_exercises = Book::quoted(exercises_sheet);
    const auto setting = [&](std::string_view label, const std::string& open, std::string_view result,
                             const std::string& formula) {
        const std::string asked = texts.word(label);
        book.row(lines(asked, 34) * 5 + 2, cell_text("Text", asked) + open + "<table:table-cell/>" +
                                               cell_text("Text", texts.word(result)) +
                                               cell_formula("Count", formula) + cell_text("Count", "–"));
    };
    setting("Word of the class (another word, other numbers)", cell_text("Open", "harvest"), "Exercises",
            "COUNTA([" + in_exercises + ".B2:.B" + last_row + "])");
    setting("Lessons to hand out, parted by commas (blank: all)", cell_text("Open", ""), "Points",
            "SUM([" + in_exercises + ".G2:.G" + last_row + "])");
    setting("What a later try leaves of the points", cell_number("Open number", "0.5"), "Names",
            "COUNTA([.A" + std::to_string(kFirstName) + ":.A" + std::to_string(kFirstName + kNameRows - 1) +
                "])");
    book.row(4, "");
    book.row(4, "");
    book.row(7, cell_text("Head", texts.word("Names")));
    for (std::size_t i = 0; i < kNameRows; ++i)
        book.row(6, cell_text("Open", i < names.size() ? names[i] : std::string_view{}));
    book.name(lesson_name::kWord, "$B$7");
    book.name(lesson_name::kLessons, "$B$8");
    book.name(lesson_name::kLater, "$B$9");
    book.name(lesson_name::kNames,
              "$A$" + std::to_string(kFirstName) + ":$A$" + std::to_string(kFirstName + kNameRows - 1));
    book.end_sheet();

    book.begin_sheet(exercises_sheet, {{26}, {110}, {36}, {60}, {70}, {16}, {16}, {22}, {110}}, false);
    std::string head;
    for (const std::string_view column : exercise_header()) head += cell_text("Head", texts.word(column));
    book.row(7, head);
    for (std::size_t i = 0; i < rows.size() + kOwnRows; ++i) {
        std::string cells;
        int tallest = 1;
        for (std::size_t k = 0; k < kExerciseColumns; ++k) {
            const std::string text = i >= rows.size()             ? std::string()
                                     : k == 0 || k == 1 || k == 8 ? words_of_row(cell_of(rows[i], k), reading)
                                                                  : cell_of(rows[i], k);
            const bool number = (k == 5 || k == 6) && !text.empty();
            cells += number ? cell_number("Open number", text) : cell_text("Open text", text);
            if (k == 1 || k == 8) tallest = std::max(tallest, lines(text, 58));
            if (k == 3 || k == 4) tallest = std::max(tallest, lines(text, 32));
        }
        book.row(tallest * 5 + 2, cells);
    }
    book.name(lesson_name::kExercises, "$A$1:$I$" + last_row);
    book.end_sheet();

    const ClassLesson lesson = [&] {
        ClassLesson made = read_lesson(rows, {}, reading);
        made.word = "harvest";
        return made;
    }();
    const Handout handout = hand_out(lesson, std::string(names.empty() ? "" : names.front()), reading);
    if (!lesson.said.empty() || !handout.said.empty())
        throw std::logic_error("an exercise of the lesson is none");
    put_lessons(book, lesson, handout, taken, texts);
    return book.take(true, "   <table:named-range table:name=\"KEY_RESULTS\" table:base-cell-address=\"" +
                               escaped_xml(Book::quoted(class_sheet)) +
                               ".$A$1\" table:cell-range-address=\"" +
                               escaped_xml(Book::quoted(class_sheet)) + ".$D$7:.$F$9\"/>\n");
}

}  // namespace drysheet
