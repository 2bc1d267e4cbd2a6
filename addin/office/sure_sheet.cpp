#include "addin/office/sure_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/table/BorderLine2.hpp>
#include <com/sun/star/table/CellHoriJustify.hpp>
#include <com/sun/star/table/CellVertJustify2.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <numeric>

#include "addin/office/cells.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet {

using namespace com::sun::star;
using rtl::OUString;
using uno::Any;
using uno::Reference;
using uno::Sequence;
using uno::UNO_QUERY;
using uno::UNO_QUERY_THROW;
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
        set(cells(sheet_, 0, 0, 1, 1), "CharWeight", 150.0F);
        how();
        if (one) better(what_.assessed[0]);
        remarks();
        sentence(texts_.word("This list does not follow later changes."));
        ++row_;
        results();
        ++row_;
        inputs();
        widths();
    }

  private:
    std::string name_of(const Place& place) const { return workbook::in_words(place, what_.picture); }
    std::string listed(const std::vector<Place>& places) const {
        std::string text;
        for (const Place& place : places) text += (text.empty() ? "" : ", ") + name_of(place);
        return text;
    }
    std::string number(double x, int digits = 3) const { return in_words(x, digits, reading_); }

    void sentence(const std::string& words) {
        const Range line = cells(sheet_, 0, row_++, kColumns, 1);
        Reference<util::XMergeable>(line, UNO_QUERY_THROW)->merge(true);
        line->getCellByPosition(0, 0)->setFormula(ustring_from("'" + words));
        set(line, "IsTextWrapped", true);
        set(line, "VertJustify", table::CellVertJustify2::TOP);
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
        const std::string name = input.label.empty() ? name_of(input.cell) : input.label;
        return texts_.word("{} to {} instead of {}",
                           {name, number(factor * input.number.u, 2), number(input.number.u, 2)});
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

    Range heading(const std::vector<std::string>& words) {
        const Range line = cells(sheet_, 0, row_++, static_cast<sal_Int32>(words.size()), 1);
        for (std::size_t i = 0; i < words.size(); ++i)
            line->getCellByPosition(static_cast<sal_Int32>(i), 0)->setFormula(ustring_from("'" + words[i]));
        set(line, "CharWeight", 150.0F);
        set(line, "BottomBorder2", table::BorderLine2(0x5a6660, 0, 26, 0, 0, 26));
        return line;
    }
    void put(sal_Int32 column, double x, const std::string& format) {
        const Range cell = cells(sheet_, column, row_, 1, 1);
        cell->getCellByPosition(0, 0)->setValue(x);
        if (format != "General") set(cell, "NumberFormat", number_format(document_, format));
    }
    void put(sal_Int32 column, const std::string& words) {
        const Range cell = cells(sheet_, column, row_, 1, 1);
        cell->getCellByPosition(0, 0)->setFormula(ustring_from("'" + words));
        set(cell, "IsTextWrapped", true);
    }
    void link(const Place& place) {
        sheet_->getCellByPosition(0, row_)->setFormula(
            link_formula(what_.picture.sheets.at(static_cast<std::size_t>(place.sheet)).name,
                         workbook::in_words(place), name_of(place)));
    }

    void results() {
        heading({texts_.word("Result"), texts_.word("What it is"), texts_.word("Value"), "u",
                 texts_.word("Mostly from"), texts_.word("95 % from"), texts_.word("95 % to"),
                 texts_.word("By")});
        const sal_Int32 first = row_, count = static_cast<sal_Int32>(what_.results.size());
        for (std::size_t r = 0; r < what_.results.size(); ++r, ++row_) {
            const Assessed& one = what_.assessed[r];
            link(what_.results[r]);
            put(1, workbook::label_of(what_.results[r], what_.picture, what_.labels));
            const std::string format = format_for(one.u);
            if (!one.known) {
                put(4, texts_.word("without a value beside some input's own"));
                continue;
            }
            put(2, one.value, format);
            if (!any_u()) continue;
            put(3, one.u, format);
            put(5, one.low, format);
            put(6, one.high, format);
            put(7, one.by_draws ? texts_.word("draws") : texts_.word("first order"));
            if (const auto most = std::ranges::max_element(one.contributions);
                most != one.contributions.end() && *most > 0) {
                const auto i = static_cast<std::size_t>(most - one.contributions.begin());
                const SureInput& input = what_.sure.inputs[i];
                put(4, (input.label.empty() ? name_of(input.cell) : input.label) + ", " +
                           number(100 * share_of(one, i), 2) + " %");
            }
        }
        constexpr std::array<std::pair<sal_Int32, const char*>, 4> names{
            {{2, "sure_value"}, {3, "sure_u"}, {5, "sure_low"}, {6, "sure_high"}}};
        for (const auto& [column, name] : names) name_range(cells(sheet_, column, first, 1, count), name);
        set(cells(sheet_, 0, first, kColumns, count), "VertJustify", table::CellVertJustify2::TOP);
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
        const sal_Int32 top = row_;
        heading({kHeader.begin(), kHeader.end()});
        std::vector<std::size_t> order(all.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::ranges::stable_sort(order, std::ranges::greater(), [&](std::size_t i) { return shares[i]; });
        for (const std::size_t i : order) {
            const SureInput& input = all[i];
            link(input.cell);
            put(1, input.label);
            put(2, input.number.value, "General");
            if (input.number.u > 0) {
                put(3, input.number.u, "General");
                put(5, parts[i], format_for(u[i] / 10));
                put(6, shares[i], "0.0 %");
                const auto signs = static_cast<int>(std::round(kBar * shares[i]));
                std::string bar;
                for (int k = 0; k < signs; ++k) bar += "█";
                if (!bar.empty()) put(7, bar);
            }
            put(4, input.from);
            ++row_;
        }
        const sal_Int32 count = row_ - top;
        name_range(cells(sheet_, 0, top, static_cast<sal_Int32>(kHeader.size()), count), "DRYSHEET_SURE");
        if (count > 1) {
            set(cells(sheet_, 7, top + 1, 1, count - 1), "CharColor", kBarShade);
            set(cells(sheet_, 7, top + 1, 1, count - 1), "IsTextWrapped", false);
            set(cells(sheet_, 0, top + 1, kColumns, count - 1), "VertJustify", table::CellVertJustify2::TOP);
            set(cells(sheet_, 2, top + 1, 2, count - 1), "HoriJustify", table::CellHoriJustify_RIGHT);
        }
    }

    void widths() {
        const Reference<container::XIndexAccess> columns(
            Reference<table::XColumnRowRange>(sheet_, UNO_QUERY_THROW)->getColumns(), UNO_QUERY_THROW);
        for (sal_Int32 i = 0; i < kColumns; ++i)
            set(Reference<uno::XInterface>(columns->getByIndex(i), UNO_QUERY), "Width",
                kWidths.at(static_cast<std::size_t>(i)));
        without_language(cells(sheet_, 0, 0, kColumns, row_));
        // merged cells do not make their rows higher by themselves
        const Reference<container::XIndexAccess> rows(
            Reference<table::XColumnRowRange>(sheet_, UNO_QUERY_THROW)->getRows(), UNO_QUERY_THROW);
        const sal_Int32 width = std::accumulate(kWidths.begin(), kWidths.end(), sal_Int32{0});
        for (sal_Int32 i = 0; i < row_; ++i) {
            const Range line = cells(sheet_, 0, i, kColumns, 1);
            if (!Reference<util::XMergeable>(line, UNO_QUERY_THROW)->getIsMerged()) continue;
            const sal_Int32 letters = line->getCellByPosition(0, 0)->getFormula().getLength();
            constexpr sal_Int32 letter = 210, height = 480;  // 1/100 mm
            set(Reference<uno::XInterface>(rows->getByIndex(i), UNO_QUERY), "Height",
                height * (1 + letters * letter / width));
        }
    }

    const Document& document_;
    const Sheet& sheet_;
    const SureSheet& what_;
    const Texts& texts_;
    const Reading reading_;
    sal_Int32 row_ = 0;
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
