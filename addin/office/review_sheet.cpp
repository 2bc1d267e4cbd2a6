// SPDX-License-Identifier: MPL-2.0
#include "addin/office/review_sheet.hpp"

#include <algorithm>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/table/BorderLine2.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/text/XText.hpp>
#include <set>

#include "addin/office/cells.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/formula.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {

using workbook::Place;
using workbook::Verdict;

namespace {

constexpr sal_Int32 kTop = 3;  // rows above the findings
constexpr auto kColumns = static_cast<sal_Int32>(kReviewHeader.size());

struct Box {
    Place first;
    int rows = 1, columns = 1;
};

// Few rectangles that are these cells: runs down a column, then columns side by side.
std::vector<Box> boxes_of(std::vector<Place> places) {
    std::ranges::sort(places, {}, [](const Place& at) { return std::tuple(at.sheet, at.column, at.row); });
    std::vector<Box> runs, boxes;
    for (const Place& at : places) {
        if (!runs.empty() && runs.back().first.sheet == at.sheet && runs.back().first.column == at.column &&
            runs.back().first.row + runs.back().rows == at.row)
            ++runs.back().rows;
        else
            runs.push_back({at});
    }
    for (const Box& run : runs) {
        const auto beside = std::ranges::find_if(boxes, [&run](const Box& box) {
            return box.first.sheet == run.first.sheet && box.first.row == run.first.row &&
                   box.rows == run.rows && box.first.column + box.columns == run.first.column;
        });
        if (beside != boxes.end())
            ++beside->columns;
        else
            boxes.push_back(run);
    }
    return boxes;
}

std::string sheet_in_label(const std::string& name) {
    return name.find_first_of(",'") == std::string::npos ? name : quoted_sheet(name);
}

std::string label_of(const workbook::Finding& finding, const workbook::Picture& picture) {
    const std::vector<Place> all = finding.cells.empty() ? std::vector{finding.cell} : finding.cells;
    std::string label;
    int sheet = -1;
    for (const Box& box : boxes_of(all)) {
        if (!label.empty()) label += ", ";
        if (box.first.sheet != sheet)
            label += sheet_in_label(picture.sheets.at(static_cast<std::size_t>(box.first.sheet)).name) + ".";
        sheet = box.first.sheet;
        label += workbook::in_words(box.first);
        if (box.rows * box.columns > 1)
            label += ":" + workbook::in_words({box.first.sheet, box.first.row + box.rows - 1,
                                               box.first.column + box.columns - 1});
    }
    if (all.size() > 1) label += ", " + std::to_string(all.size()) + " cells";
    return label;
}

// "Run.B2" of "Run.B2:B200, 199 cells".
std::string first_cell(const std::string& label) {
    const auto dot = label.starts_with('\'') ? label.find('.', label.find("'.")) : label.find('.');
    return label.substr(0, label.find_first_of(":,", dot == std::string::npos ? 0 : dot));
}

OUString text_at(const Sequence<Any>& row, sal_Int32 column) {
    OUString text;
    row[column] >>= text;
    return text;
}

/// What people wrote into the last two columns of the reviews that there are.
class Settled {
  public:
    explicit Settled(const Document& document) {
        const Reference<container::XIndexAccess> sheets(document->getSheets(), UNO_QUERY_THROW);
        for (sal_Int32 sheet = 0; sheet < sheets->getCount(); ++sheet) {
            const Range table = review_table(sheet_at(document, sheet));
            if (!table.is()) continue;
            const auto rows = Reference<sheet::XCellRangeData>(table, UNO_QUERY_THROW)->getDataArray();
            for (sal_Int32 i = 0; i < rows.getLength(); ++i) {
                const auto at = [&](std::string_view column) {
                    return utf8_from(text_at(rows[i], review_column(column)));
                };
                const auto words = [&](std::string_view column) {  // as it is shown: a date, say
                    return utf8_from(Reference<text::XText>(
                                         table->getCellByPosition(review_column(column), i), UNO_QUERY_THROW)
                                         ->getString());
                };
                Row settled{at("Why"), words("Settled"), words("By")};
                auto& same = by_formula_[{first_cell(at("Cell")), at("Formula")}];
                // a later review replaces what an earlier one said of the same
                std::erase_if(same, [&](const Row& old) { return old.why == settled.why; });
                if (!settled.settled.empty() || !settled.by.empty()) same.push_back(std::move(settled));
            }
        }
    }

    void carry_over(ReviewRow& row) const {
        const auto found = by_formula_.find({first_cell(row.cell), row.formula});
        if (found == by_formula_.end()) return;
        const auto& among = found->second;
        auto same = std::ranges::find(among, row.why, &Row::why);
        if (same == among.end() && among.size() == 1) same = among.begin();  // other words for it by now
        if (same == among.end()) return;
        row.settled = same->settled;
        row.by = same->by;
    }

  private:
    struct Row {
        std::string why, settled, by;
    };
    std::map<std::pair<std::string, std::string>, std::vector<Row>> by_formula_;
};

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

sal_Int32 shade_of(const ReviewRow& row) {
    if (!row.settled.empty()) return 0xf1f1ec;
    switch (row.verdict) {
        case Verdict::wrong:
            return 0xf6d9cd;
        case Verdict::doubtful:
            return 0xf7ebcb;
        case Verdict::could_be_checked:
            return 0xdcebe4;
        default:
            return -1;
    }
}

OUString link_to(const ReviewRow& row, const std::vector<std::string>& sheet_names) {
    return link_formula(sheet_names.at(static_cast<std::size_t>(row.first.sheet)),
                        workbook::in_words(row.first), row.cell);
}

void format_table(const Sheet& sheet, const Sequence<Sequence<Any>>& data,
                  const std::vector<ReviewRow>& rows) {
    const auto count = static_cast<sal_Int32>(rows.size());
    const Reference<container::XIndexAccess> columns(
        Reference<table::XColumnRowRange>(sheet, UNO_QUERY_THROW)->getColumns(), UNO_QUERY_THROW);
    constexpr std::array<std::pair<sal_Int32, sal_Int32>, kColumns> limits{{{2600, 6500},
                                                                            {2600, 4000},
                                                                            {4000, 10500},
                                                                            {2200, 3600},
                                                                            {3000, 8000},
                                                                            {3000, 8000},
                                                                            {2200, 3600},
                                                                            {3000, 9000},
                                                                            {3600, 6000},
                                                                            {2200, 4000}}};  // 1/100 mm
    std::array<sal_Int32, kColumns> widths{};
    for (sal_Int32 i = 0; i < kColumns; ++i) {
        const auto [least, most] = limits.at(static_cast<std::size_t>(i));
        sal_Int32 width = least;
        for (sal_Int32 row = kTop - 1; row < data.getLength(); ++row) {
            OUString text;
            if (data[row][i] >>= text) width = std::max(width, std::min(most, width_of(text)));
        }
        widths.at(static_cast<std::size_t>(i)) = width;
        set(columns->getByIndex(i).get<Reference<uno::XInterface>>(), "Width", width);
    }
    without_language(cells(sheet, 0, 0, kColumns, kTop + count));
    set(cells(sheet, 0, 0, 1, 1), "CharWeight", 150.0F);
    set(cells(sheet, 0, kTop - 1, kColumns, 1), "CharWeight", 150.0F);
    set(cells(sheet, 0, kTop - 1, kColumns, 1), "BottomBorder2",
        table::BorderLine2(0x5a6660, 0, 26, 0, 0, 26));
    if (count == 0) return;
    set(cells(sheet, 0, kTop, kColumns, count), "VertJustify", table::CellVertJustify2::TOP);
    for (const sal_Int32 value : {sal_Int32{3}, sal_Int32{6}})
        set(cells(sheet, value, kTop, 1, count), "HoriJustify", table::CellHoriJustify_LEFT);
    for (sal_Int32 from = 0, row = 1; row <= count; ++row) {
        const sal_Int32 shade = shade_of(rows[static_cast<std::size_t>(from)]);
        if (row < count && shade_of(rows[static_cast<std::size_t>(row)]) == shade) continue;
        if (shade >= 0) set(cells(sheet, 0, kTop + from, kColumns, row - from), "CellBackColor", shade);
        from = row;
    }
    // Calc 7.4 lays out every wrapped cell anew at each change of a format: few of them, and last
    for (const sal_Int32 i : {0, 2, 4, 5, 7, 8}) {
        sal_Int32 from = -1;
        for (sal_Int32 row = 0; row <= count; ++row) {
            OUString text;
            const bool wide = row < count && (data[kTop + row][i] >>= text) &&
                              width_of(text) > widths.at(static_cast<std::size_t>(i));
            if (wide && from < 0) from = row;
            if (!wide && from >= 0) {
                set(cells(sheet, i, kTop + from, 1, row - from), "IsTextWrapped", true);
                from = -1;
            }
        }
    }
}

}  // namespace

std::vector<ReviewRow> rows_of(const workbook::Review& review, const workbook::Picture& picture,
                               const Document& document) {
    const Settled settled(document);
    std::vector<ReviewRow> rows;
    rows.reserve(review.findings.size());
    for (const workbook::Finding& finding : review.findings) {
        ReviewRow row{.cell = label_of(finding, picture),
                      .first = finding.cell,
                      .verdict = finding.verdict,
                      .why = finding.why,
                      .suggested = finding.suggested,
                      .would_show = finding.would_show,
                      .evidence = finding.evidence};
        if (const workbook::Cell* cell = picture.at(finding.cell)) {
            row.formula = cell->formula_text;
            if (cell->error != 0)
                row.shows <<=
                    Reference<text::XText>(sheet_at(document, finding.cell.sheet)
                                               ->getCellByPosition(finding.cell.column, finding.cell.row),
                                           UNO_QUERY_THROW)
                        ->getString();
            else if (const auto* number = std::get_if<double>(&cell->value))
                row.shows <<= *number;
            else if (const auto* text = std::get_if<std::string>(&cell->value))
                row.shows <<= ustring_from(*text);
        }
        settled.carry_over(row);
        rows.push_back(std::move(row));
    }
    std::stable_partition(rows.begin(), rows.end(), [](const ReviewRow& row) { return row.settled.empty(); });
    return rows;
}

std::string summary_of(const workbook::Review& review, const std::vector<ReviewRow>& rows,
                       const Texts& texts) {
    std::size_t formulas = 0;
    for (const std::size_t count : review.count) formulas += count;
    const auto of = [&review](Verdict verdict) {
        return std::to_string(review.count.at(static_cast<std::size_t>(verdict)));
    };
    const auto settled =
        std::ranges::count_if(rows, [](const ReviewRow& row) { return !row.settled.empty(); });
    return texts.word(
        "Cells read: {}. Wrong: {}, doubtful: {}, could be checked: {}, fine: {}, not judged: {}. "
        "Rows settled before: {}. This list does not follow later changes.",
        {std::to_string(formulas), of(Verdict::wrong), of(Verdict::doubtful), of(Verdict::could_be_checked),
         of(Verdict::fine), of(Verdict::not_judged), std::to_string(settled)});
}

void write_review(const Sheet& sheet, const std::vector<ReviewRow>& rows, const std::string& summary,
                  const std::vector<std::string>& sheet_names, bool linked,
                  const std::function<void()>& alive) {
    const auto count = static_cast<sal_Int32>(rows.size());
    const Sequence<Any> blank = [] {
        Sequence<Any> row(kColumns);
        for (sal_Int32 i = 0; i < kColumns; ++i) row.getArray()[i] <<= OUString();
        return row;
    }();
    Sequence<Sequence<Any>> data(kTop + count);
    for (sal_Int32 i = 0; i < data.getLength(); ++i) data.getArray()[i] = blank;
    const auto at = [&data](sal_Int32 row, std::size_t column) -> Any& {
        return data.getArray()[row].getArray()[column];
    };
    at(0, 0) <<= ustring_from(summary);
    for (std::size_t i = 0; i < kReviewHeader.size(); ++i)
        at(kTop - 1, i) <<= OUString::createFromAscii(kReviewHeader.at(i));
    for (sal_Int32 i = 0; i < count; ++i) {
        const ReviewRow& row = rows[static_cast<std::size_t>(i)];
        const std::array<Any, kReviewHeader.size()> columns{
            Any(ustring_from(row.cell)),
            Any(OUString::createFromAscii(workbook::in_words(row.verdict))),
            Any(ustring_from(row.why)),
            row.shows.hasValue() ? row.shows : Any(OUString()),
            Any(ustring_from(row.formula)),
            Any(ustring_from(row.suggested)),
            row.would_show ? Any(*row.would_show) : Any(OUString()),
            Any(ustring_from(row.evidence)),
            Any(ustring_from(row.settled)),
            Any(ustring_from(row.by))};
        for (std::size_t j = 0; j < columns.size(); ++j) at(kTop + i, j) = columns.at(j);
    }
    Reference<sheet::XCellRangeData>(cells(sheet, 0, 0, kColumns, kTop + count), UNO_QUERY_THROW)
        ->setDataArray(data);
    alive();
    constexpr sal_Int32 step = 500;
    for (sal_Int32 from = 0; linked && from < count; from += step) {
        const sal_Int32 some = std::min(step, count - from);
        Sequence<Sequence<OUString>> links(some);
        for (sal_Int32 i = 0; i < some; ++i) {
            const ReviewRow& row = rows[static_cast<std::size_t>(from) + static_cast<std::size_t>(i)];
            // a text in a formula may not be longer where the workbook is saved for others
            const OUString link = row.cell.size() < 250 ? link_to(row, sheet_names) : ustring_from(row.cell);
            links.getArray()[i] = Sequence<OUString>(&link, 1);
        }
        Reference<sheet::XCellRangeFormula>(cells(sheet, 0, kTop + from, 1, some), UNO_QUERY_THROW)
            ->setFormulaArray(links);
        alive();
    }
    format_table(sheet, data, rows);
    name_range(cells(sheet, 0, kTop - 1, kColumns, count + 1), kReviewName);
}

sal_Int32 review_column(std::string_view name) {
    return static_cast<sal_Int32>(std::ranges::find(kReviewHeader, name) - kReviewHeader.begin());
}

Range review_table(const Sheet& sheet) {
    const Range table = named_range(sheet, kReviewName);
    if (!table.is()) return {};
    const table::CellRangeAddress area = address_of(table);
    if (area.EndRow == area.StartRow || area.EndColumn - area.StartColumn + 1 < kColumns) return {};
    return table->getCellRangeByPosition(0, 1, kColumns - 1, area.EndRow - area.StartRow);
}

std::vector<table::CellRangeAddress> areas_named(const std::string& cell, const Document& document) {
    std::vector<table::CellRangeAddress> areas;
    std::string rest = cell;
    Sheet sheet;
    while (!rest.empty()) {
        std::string name;
        if (rest.starts_with('\'')) {
            std::size_t i = 1;
            for (; i < rest.size(); ++i) {
                if (rest[i] == '\'' && i + 1 < rest.size() && rest[i + 1] == '\'')
                    ++i;
                else if (rest[i] == '\'')
                    break;
                name += rest[i];
            }
            rest = rest.substr(std::min(rest.size(), i + 1));
            if (rest.starts_with('.')) rest = rest.substr(1);
        }
        const auto comma = rest.find(", ");
        std::string address = rest.substr(0, comma);
        rest = comma == std::string::npos ? std::string() : rest.substr(comma + 2);
        if (const auto dot = address.rfind('.'); dot != std::string::npos) {
            name = address.substr(0, dot);
            address = address.substr(dot + 1);
        }
        if (!name.empty()) {
            const bool there = document->getSheets()->hasByName(ustring_from(name));
            sheet = there ? sheet_named(document, ustring_from(name)) : Sheet();
        }
        if (!sheet.is() || address.ends_with(" cells")) continue;
        areas.push_back(address_of(
            Reference<table::XCellRange>(sheet->getCellRangeByName(ustring_from(address)), UNO_QUERY_THROW)));
    }
    return areas;
}

}  // namespace drysheet
