// SPDX-License-Identifier: MPL-2.0
#include "addin/office/sure_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/table/BorderLine2.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <numeric>
#include <tuple>

#include "addin/office/cells.hpp"
#include "addin/office/uno.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet {

using workbook::Assessed;
using workbook::Place;
using workbook::SureInput;

namespace {

constexpr std::array kHeader{"Cell", "Label", "Value", "u", "From", "Contribution", "Share"};
constexpr sal_Int32 kColumns = 8;  // and the bars
constexpr std::array<sal_Int32, kColumns> kWidths{3600, 6400, 3000, 3000,
                                                  6400, 3200, 3200, 4200};  // 1/100 mm
constexpr double kBar = 20;                                                 // signs
constexpr double kLost = 0.005;                                             // of the draws
constexpr std::size_t kMostFormats = 6;
constexpr std::string_view kFigures = "[<1]0.0000;[<100]0.00;0.0";  // four figures or so
constexpr sal_Int32 kBarShade = 0x5b8a72;

double share_of(const Assessed& one, std::size_t input) {
    double squares = 0;
    for (const double part : one.contributions) squares += part * part;
    return squares > 0 ? one.contributions[input] * one.contributions[input] / squares : 0;
}

// As many decimals as two figures of an uncertainty have.
std::string format_for(double u) {
    if (!(u > 0) || u < 1e-7 || u >= 1e9) return "General";
    const int decimals = std::max(0, 1 - static_cast<int>(std::floor(std::log10(u))));
    return decimals == 0 ? "0" : "0." + std::string(static_cast<std::size_t>(decimals), '0');
}

std::string time_format(workbook::Format format) {
    switch (format) {
        case workbook::Format::clock:
            return "[HH]:MM";
        case workbook::Format::date:
            return "YYYY-MM-DD";
        case workbook::Format::date_clock:
            return "YYYY-MM-DD HH:MM";
        default:
            return "General";
    }
}

class Writing {
  public:
    Writing(const Document& document, const Sheet& sheet, const SureSheet& what)
        : document_(document),
          sheet_(sheet),
          what_(what),
          texts_(what.texts),
          reading_{.decimal_comma = what.picture.decimal_comma} {}

    void run() {
        const bool one = what_.results.size() == 1;
        sentence(one ? texts_.word("How sure is {}?", {name_of(what_.results[0])})
                     : texts_.word("How sure are these {} cells?", {std::to_string(what_.results.size())}));
        how();
        if (one) better(what_.assessed[0]);
        remarks();
        sentence(texts_.word("This list does not follow later changes."));
        next_row();
        results();
        next_row();
        inputs();
        write();
    }

  private:
    std::string name_of(const Place& place) const { return workbook::in_words(place, what_.picture); }
    std::string name_of(const SureInput& input) const {
        return input.label.empty() ? name_of(input.cell) : input.label;
    }
    /// "Run.A3, Run.B4:B9"
    std::string listed(std::vector<Place> places) const {
        std::ranges::sort(places, {},
                          [](const Place& at) { return std::tuple(at.sheet, at.column, at.row); });
        std::string text;
        for (std::size_t i = 0, end = 0; i < places.size(); i = end) {
            for (end = i + 1; end < places.size() && places[end].sheet == places[i].sheet &&
                              places[end].column == places[i].column &&
                              places[end].row == places[end - 1].row + 1;)
                ++end;
            text += (text.empty() ? "" : ", ") + name_of(places[i]);
            if (end - i > 1) text += ":" + workbook::in_words(places[end - 1]);
        }
        return text;
    }
    std::string number(double x, int digits = 3) const { return in_words(x, digits, reading_); }

    void next_row() {
        grid_.emplace_back();
        grid_.back().fill(Any(OUString()));
    }
    sal_Int32 rows() const { return static_cast<sal_Int32>(grid_.size()); }
    void sentence(const std::string& words) {
        sentences_.push_back(rows());
        next_row();
        put(0, words);
    }
    void put(std::size_t column, double x) { grid_.back().at(column) <<= x; }
    void put(std::size_t column, const std::string& words) {
        grid_.back().at(column) <<= ustring_from(words);
    }

    bool any_u() const {
        return std::ranges::any_of(what_.sure.inputs,
                                   [](const SureInput& input) { return input.number.u > 0; });
    }

    void how() {
        if (!any_u())
            return sentence(
                texts_.word("No input has a ±. Write one beside it, in a column headed ±, or as a text like "
                            "\"1200 ± 1 g\"."));
        std::size_t by_draws = 0;
        bool settled = true;
        double lost = 0;
        std::size_t draws = 0;
        for (const Assessed& one : what_.assessed) {
            if (one.known) lost = std::max(lost, one.drawn.without_value);
            if (!one.by_draws) continue;
            ++by_draws;
            settled = settled && one.drawn.settled;
            draws = std::max(draws, one.drawn.draws);
        }
        if (by_draws < what_.results.size())
            sentence(
                texts_.word("First order: each input moved up and down by its u in a hidden copy of this "
                            "workbook (JCGM 100); 2000 draws of all inputs together agree with it."));
        if (by_draws > 0)
            sentence(
                texts_.word("First order misleads here: u and the interval are those of {} draws of all "
                            "inputs together (JCGM 101). Contributions are to first order.",
                            {std::to_string(draws)}));
        if (!settled)
            sentence(texts_.word("The draws were ended before they had settled to two figures of u."));
        if (lost > kLost)
            sentence(texts_.word(
                "Within these uncertainties there is no result for {} % of the draws; the rest is counted.",
                {number(100 * lost, 2)}));
    }

    // "Fresh mass: 0.2 instead of 1"
    std::string bettered(std::size_t i, double factor) const {
        const SureInput& input = what_.sure.inputs[i];
        return texts_.word("{} to {} instead of {}",
                           {name_of(input), number(factor * input.number.u, 2), number(input.number.u, 2)});
    }
    void better(const Assessed& one) {
        if (!one.known) return;
        const numeric::Better found = numeric::for_half(one.contributions);
        if (found.inputs.empty()) return;
        std::string all;
        for (const std::size_t i : found.inputs) all += (all.empty() ? "" : "; ") + bettered(i, found.factor);
        sentence(found.inputs.size() == 1
                     ? texts_.word("For half the u, know one input better: {}.", {all})
                     : texts_.word("For half the u, know these inputs better together: {}.", {all}));
    }

    void remarks() {
        if (!what_.sure.blanks.empty())
            sentence(texts_.word("Blank cells that formulas on the way refer to: {}.",
                                 {listed(what_.sure.blanks)}));
        std::vector<Place> exact;
        for (const SureInput& input : what_.sure.inputs)
            if (!(input.number.u > 0)) exact.push_back(input.cell);
        if (!exact.empty() && any_u())
            sentence(
                texts_.word("Taken as exact, since nothing says how good they are: {}.", {listed(exact)}));
    }

    void heading(const std::vector<std::string>& words) {
        headings_.push_back(rows());
        next_row();
        for (std::size_t i = 0; i < words.size(); ++i) put(i, words[i]);
    }
    OUString link(const Place& place) const {
        return link_formula(what_.picture.sheets.at(static_cast<std::size_t>(place.sheet)).name,
                            workbook::in_words(place), name_of(place));
    }

    void results() {
        heading({texts_.word("Result"), texts_.word("What it is"), texts_.word("Value"), "u",
                 texts_.word("Mostly from"), texts_.word("95 % from"), texts_.word("95 % to"),
                 texts_.word("By")});
        first_result_ = rows();
        for (std::size_t r = 0; r < what_.results.size(); ++r) {
            const Assessed& one = what_.assessed[r];
            next_row();
            result_links_.push_back(link(what_.results[r]));
            put(1, workbook::label_of(what_.results[r], what_.picture, what_.labels));
            result_formats_.push_back(format_for(one.u));
            if (!one.known) {
                put(4, texts_.word("without a value beside some input's own"));
                continue;
            }
            put(2, one.value);
            if (!any_u()) continue;
            put(3, one.u);
            put(5, one.low);
            put(6, one.high);
            put(7, one.by_draws ? texts_.word("draws") : texts_.word("first order"));
            const auto most = std::ranges::max_element(one.contributions);
            if (most == one.contributions.end() || *most == 0) continue;
            const auto i = static_cast<std::size_t>(most - one.contributions.begin());
            put(4, name_of(what_.sure.inputs[i]) + ", " + number(100 * share_of(one, i), 2) + " %");
        }
    }

    void inputs() {
        const auto& all = what_.sure.inputs;
        // of several results the one in which an input has its largest share
        std::vector<double> shares(all.size()), parts(all.size()), u(all.size());
        for (const Assessed& one : what_.assessed)
            for (std::size_t i = 0; one.known && i < all.size(); ++i)
                if (const double share = share_of(one, i); share > shares[i]) {
                    shares[i] = share;
                    parts[i] = one.contributions[i];
                    u[i] = one.u;
                }
        if (what_.results.size() > 1)
            sentence(
                texts_.word("Contribution and share are those in the result where the share is largest."));
        heading({kHeader.begin(), kHeader.end()});
        std::vector<std::size_t> order(all.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::ranges::stable_sort(order, std::ranges::greater(), [&](std::size_t i) { return shares[i]; });
        first_input_ = rows();
        for (const std::size_t i : order) {
            const SureInput& input = all[i];
            next_row();
            input_links_.push_back(link(input.cell));
            value_formats_.push_back(time_format(what_.picture.at(input.cell)->format));
            input_formats_.push_back(input.number.u > 0 ? format_for(u[i] / 10) : "General");
            u_formats_.push_back(format_for(input.number.u));
            put(1, input.label);
            put(2, input.number.value);
            put(4, input.from);
            if (!(input.number.u > 0)) continue;
            put(3, input.number.u);
            put(5, parts[i]);
            put(6, shares[i]);
            std::string bar;
            for (auto signs = static_cast<int>(std::round(kBar * shares[i])); signs > 0; --signs) bar += "█";
            put(7, bar);
        }
    }

    // ---- into the sheet: the office keeps a hundred changes of a step at most, so few of them

    Range rows_of(sal_Int32 first, sal_Int32 count, sal_Int32 column = 0,
                  sal_Int32 columns = kColumns) const {
        return cells(sheet_, column, first, columns, count);
    }
    void write_links(sal_Int32 first, const std::vector<OUString>& links) const {
        if (links.empty()) return;
        Sequence<Sequence<OUString>> rows(static_cast<sal_Int32>(links.size()));
        for (std::size_t i = 0; i < links.size(); ++i)
            rows.getArray()[static_cast<sal_Int32>(i)] = Sequence<OUString>(&links[i], 1);
        Reference<sheet::XCellRangeFormula>(rows_of(first, rows.getLength(), 0, 1), UNO_QUERY_THROW)
            ->setFormulaArray(rows);
    }
    // Each row's own format, as long as these are few.
    void write_formats(sal_Int32 first, const std::vector<std::string>& formats, sal_Int32 column,
                       sal_Int32 columns, std::string_view otherwise = kFigures) const {
        std::vector<std::size_t> starts;
        for (std::size_t i = 0; i < formats.size(); ++i)
            if (i == 0 || formats[i] != formats[i - 1]) starts.push_back(i);
        const bool few = starts.size() <= kMostFormats;
        if (!few) starts = {0};
        for (std::size_t k = 0; k < starts.size(); ++k) {
            const std::size_t end = k + 1 < starts.size() ? starts[k + 1] : formats.size();
            const std::string format(few ? std::string_view(formats[starts[k]]) : otherwise);
            if (format != "General")
                set(rows_of(first + static_cast<sal_Int32>(starts[k]),
                            static_cast<sal_Int32>(end - starts[k]), column, columns),
                    "NumberFormat", number_format(document_, format));
        }
    }

    void write() const {
        Sequence<Sequence<Any>> data(rows());
        for (sal_Int32 i = 0; i < rows(); ++i)
            data.getArray()[i] = Sequence<Any>(grid_[static_cast<std::size_t>(i)].data(), kColumns);
        Reference<sheet::XCellRangeData>(rows_of(0, rows()), UNO_QUERY_THROW)->setDataArray(data);
        write_links(first_result_, result_links_);
        write_links(first_input_, input_links_);
        const auto results = static_cast<sal_Int32>(result_links_.size()),
                   inputs = static_cast<sal_Int32>(input_links_.size());
        write_formats(first_result_, result_formats_, 2, 2);
        write_formats(first_result_, result_formats_, 5, 2);
        write_formats(first_input_, value_formats_, 2, 1, "General");
        write_formats(first_input_, u_formats_, 3, 1);
        write_formats(first_input_, input_formats_, 5, 1);
        set(rows_of(first_input_, inputs, 6, 1), "NumberFormat", number_format(document_, "0.0 %"));

        without_language(rows_of(0, rows()));
        set(rows_of(0, rows()), "VertJustify", table::CellVertJustify2::TOP);
        set(rows_of(0, 1, 0, 1), "CharWeight", 150.0F);
        for (const sal_Int32 row : headings_) {
            set(rows_of(row, 1), "CharWeight", 150.0F);
            set(rows_of(row, 1), "BottomBorder2", table::BorderLine2(0x5a6660, 0, 26, 0, 0, 26));
        }
        set(rows_of(first_input_, inputs, 7, 1), "CharColor", kBarShade);
        const sal_Int32 tables = first_result_ - 1, length = rows() - tables;
        for (const sal_Int32 column : {sal_Int32{2}, sal_Int32{5}})
            set(rows_of(tables, length, column, 2), "HoriJustify", table::CellHoriJustify_RIGHT);
        for (const sal_Int32 column : {sal_Int32{4}, sal_Int32{7}}) {  // set off from the number before it
            set(rows_of(tables, length, column, 1), "HoriJustify", table::CellHoriJustify_LEFT);
            set(rows_of(tables, length, column, 1), "ParaIndent", sal_Int16{250});
        }
        widths();  // before anything is wrapped: a row is laid out as wide as its columns are then
        for (const sal_Int32 column : {sal_Int32{1}, sal_Int32{4}})
            set(rows_of(tables, length, column, 1), "IsTextWrapped", true);

        constexpr std::array<std::pair<sal_Int32, const char*>, 4> names{
            {{2, "sure_value"}, {3, "sure_u"}, {5, "sure_low"}, {6, "sure_high"}}};
        for (const auto& [column, name] : names) name_range(rows_of(first_result_, results, column, 1), name);
        name_range(rows_of(first_input_ - 1, inputs + 1, 0, static_cast<sal_Int32>(kHeader.size())),
                   "DRYSHEET_SURE");
    }

    void widths() const {
        const Reference<table::XColumnRowRange> sheet(sheet_, UNO_QUERY_THROW);
        const Reference<container::XIndexAccess> columns(sheet->getColumns(), UNO_QUERY_THROW),
            rows(sheet->getRows(), UNO_QUERY_THROW);
        for (sal_Int32 i = 0; i < kColumns; ++i)
            set(Reference<uno::XInterface>(columns->getByIndex(i), UNO_QUERY), "Width",
                kWidths.at(static_cast<std::size_t>(i)));
        // a sentence runs over all columns; merged cells do not make their rows higher by themselves
        constexpr sal_Int32 letter = 190, height = 480;  // 1/100 mm
        const sal_Int32 width = std::accumulate(kWidths.begin(), kWidths.end(), sal_Int32{0});
        for (const sal_Int32 row : sentences_) {
            OUString words;
            grid_[static_cast<std::size_t>(row)][0] >>= words;
            const sal_Int32 lines = 1 + words.getLength() * letter / width;
            if (lines == 1) continue;
            const Range line = rows_of(row, 1);
            Reference<util::XMergeable>(line, UNO_QUERY_THROW)->merge(true);
            set(line, "IsTextWrapped", true);
            set(Reference<uno::XInterface>(rows->getByIndex(row), UNO_QUERY), "Height", height * lines);
        }
    }

    const Document& document_;
    const Sheet& sheet_;
    const SureSheet& what_;
    const Texts& texts_;
    const Reading reading_;
    std::vector<std::array<Any, kColumns>> grid_;
    std::vector<sal_Int32> sentences_, headings_;
    std::vector<OUString> result_links_, input_links_;
    std::vector<std::string> result_formats_, input_formats_, value_formats_, u_formats_;
    sal_Int32 first_result_ = 0, first_input_ = 0;
};

}  // namespace

std::string summary_of(const SureSheet& what) {
    const Reading reading{.decimal_comma = what.picture.decimal_comma};
    if (what.results.size() > 1)
        return what.texts.word("How sure: {} results, each in a row of the new sheet.",
                               {std::to_string(what.results.size())});
    const Assessed& one = what.assessed[0];
    const std::string cell = workbook::in_words(what.results[0], what.picture);
    if (!one.known)
        return what.texts.word("{} has no value beside some input's own, so nothing can be said.", {cell});
    return what.texts.word(
        "{}: u = {}, 95 % from {} to {}.",
        {cell, in_words(one.u, 2, reading), in_words(one.low, 4, reading), in_words(one.high, 4, reading)});
}

void write_sure(const Document& document, const Sheet& sheet, const SureSheet& what) {
    Writing(document, sheet, what).run();
}

}  // namespace drysheet
