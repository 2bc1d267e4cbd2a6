// SPDX-License-Identifier: MPL-2.0
// How Sure Is This Cell: the ± of the selected results from all inputs they rest on, by moving these in a
// hidden copy.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/hidden_copy.hpp"
#include "addin/office/judge.hpp"
#include "addin/office/long_work.hpp"
#include "addin/office/sure_sheet.hpp"
#include "addin/office/undo.hpp"
#include "addin/office/uno.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/formula.hpp"
#include "addin/workbook/replay.hpp"

namespace drysheet {

using workbook::Place;
using workbook::SureInput;
using Clock = std::chrono::steady_clock;

namespace {

constexpr std::size_t kMostResults = 500;
constexpr int kMostTexts = 9;        // between a text and the number that it shows
constexpr double kSame = 1e-9;       // of what the copy and the replay show
constexpr std::size_t kFewRows = 2;  // of a derivative's tableau, where each value is a recalculation
constexpr std::chrono::seconds kAdaptiveTime{30};  // for the draws of JCGM 101
constexpr std::chrono::milliseconds kTick{100};    // between two looks at the progress bar

// A text that shows a number stands for the one it was made of: the first formula that it refers to, over
// other such texts.
std::optional<Place> number_shown_by(Place place, const workbook::Picture& picture) {
    for (int step = 0; step < kMostTexts; ++step) {
        const workbook::Cell& cell = *picture.at(place);
        if (!cell.formula || cell.error != 0) return {};
        if (std::holds_alternative<double>(cell.value)) return place;
        const std::vector<workbook::Area> areas = workbook::areas_in(*cell.formula, picture);
        const auto next = std::ranges::find_if(areas, [&](const workbook::Area& area) {
            const workbook::Cell* one = picture.at({area.sheet, area.top, area.left});
            return area.one_cell() && one != nullptr && one->formula;
        });
        if (next == areas.end()) return {};
        place = {next->sheet, next->top, next->left};
    }
    return {};
}

// The formulas with a number in what is selected.
std::vector<Place> selected_results(const Reference<frame::XModel>& model, const workbook::Picture& picture,
                                    const Texts& texts) {
    const Reference<sheet::XCellRangeAddressable> selected(model->getCurrentSelection(), UNO_QUERY);
    if (!selected.is()) throw NotDone(texts.word("Select one result, or one range of them, first."));
    const table::CellRangeAddress area = selected->getRangeAddress();
    const workbook::Reference from{.cell = {area.Sheet, area.StartRow, area.StartColumn}},
        to{.cell = {area.Sheet, area.EndRow, area.EndColumn}};
    std::vector<Place> results;
    const std::vector<Place> filled = workbook::filled_cells(picture, from, to, kMostResults);
    for (const Place& place : filled) {
        const workbook::Cell& cell = *picture.at(place);
        const bool result = cell.formula || cell.of_array;
        if (result && (cell.error != 0 || std::holds_alternative<double>(cell.value)))
            results.push_back(place);
    }
    if (results.empty() && filled.size() == 1)
        if (const auto shown = number_shown_by(filled.front(), picture)) results.push_back(*shown);
    if (results.empty()) throw NotDone(texts.word("Select one result, or one range of them, first."));
    return results;
}

bool same(const std::vector<std::optional<double>>& a, const std::vector<std::optional<double>>& b,
          const std::vector<std::optional<double>>& scale) {
    for (std::size_t r = 0; r < a.size(); ++r) {
        if (a[r].has_value() != b[r].has_value()) return false;
        if (a[r] && std::abs(*a[r] - *b[r]) > kSame * (std::abs(*b[r]) + std::abs(scale[r].value_or(0))))
            return false;
    }
    return true;
}

std::vector<Input> contents(std::span<const SureInput> inputs, std::span<const double> x,
                            bool decimal_comma) {
    std::vector<Input> made;
    made.reserve(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i) made.push_back(inputs[i].with(x[i], decimal_comma));
    return made;
}

class Assessing {
  public:
    Assessing(const Request& request, const Reference<frame::XModel>& model,
              const std::vector<Place>& results, const workbook::Sure& sure, const workbook::Picture& picture,
              LongWork& work)
        : texts_(request.texts),
          results_(results),
          picture_(picture),
          work_(work),
          inputs_(sure.inputs.size()) {
        for (std::size_t i = 0; i < sure.inputs.size(); ++i) {
            const SureInput& input = sure.inputs[i];
            if (!(input.number.u > 0)) continue;
            index_.push_back(i);
            moved_.push_back(input);
            places_.push_back(input.cell);
            at_.push_back(input.number.value);
        }
        copy_.emplace(request, model, places_, results_);
    }

    std::vector<workbook::Assessed> run(const workbook::Graph& graph) {
        workbook::Replay replay(picture_, graph, places_, results_);
        const auto by_copy = [this](std::span<const double> x) {
            tick();
            return (*copy_)(contents(moved_, x, picture_.decimal_comma));
        };
        const auto by_replay = [this, &replay](std::span<const double> x) {
            tick();
            return replay(contents(moved_, x, picture_.decimal_comma));
        };
        const bool agree = checked(by_copy, by_replay);
        const auto start = Clock::now();
        const auto go_on = [start] { return Clock::now() - start < kAdaptiveTime; };
        auto assessed = agree ? workbook::assess(by_replay, moved_, numeric::kTableau, go_on)
                              : workbook::assess(by_copy, moved_, kFewRows, go_on);
        for (workbook::Assessed& one : assessed) {  // those that were not moved contribute nothing
            std::vector<double> parts(inputs_);
            for (std::size_t i = 0; i < one.contributions.size(); ++i)
                parts[index_[i]] = one.contributions[i];
            one.contributions = std::move(parts);
        }
        return assessed;
    }

  private:
    // Every input moved by its u in the copy, and whether the formulas worked out here say the same each
    // time.
    bool checked(const numeric::Models& by_copy, const numeric::Models& by_replay) {
        const auto base = by_copy(at_);
        for (std::size_t r = 0; r < results_.size(); ++r) {
            const auto shown = workbook::number_in(picture_, results_[r]);
            const double now = base[r].value_or(0);
            if (shown && (!base[r] || std::abs(*shown - now) > kSame * (std::abs(*shown) + std::abs(now))))
                throw NotDone(
                    texts_.word("{} shows {} when it is worked out anew, not {}: it may hang on the clock or "
                                "on chance (NOW, RAND), or was not recalculated.",
                                {workbook::in_words(results_[r], picture_),
                                 base[r] ? drysheet::in_words(now) : "–", drysheet::in_words(*shown)}));
        }
        bool agree = same(by_replay(at_), base, base);
        std::vector<double> x = at_;
        for (std::size_t i = 0; i < x.size() && agree; ++i) {
            const double u = moved_[i].number.u;
            for (const double moved : {at_[i] + u, at_[i] - u}) {
                x[i] = moved;
                agree = agree && same(by_replay(x), by_copy(x), base);
            }
            x[i] = at_[i];
        }
        return agree;
    }

    void tick() {
        if (Clock::now() - last_ < kTick) return;
        last_ = Clock::now();
        done_ += (95 - done_) / 50;  // how long the draws take is not known beforehand
        work_.done(static_cast<sal_Int32>(done_));
    }

    const Texts& texts_;
    const std::vector<Place>& results_;
    const workbook::Picture& picture_;
    LongWork& work_;
    std::size_t inputs_;
    std::vector<SureInput> moved_;  ///< those with a u
    std::vector<std::size_t> index_;
    std::vector<Place> places_;
    std::vector<double> at_;
    std::optional<HiddenCopy> copy_;
    Clock::time_point last_ = Clock::now();
    double done_ = 20;
};

}  // namespace

std::string how_sure(const Request& request) {
    const Texts& texts = request.texts;
    const Reference<frame::XModel> model = request.workbook();
    const Document document(model, UNO_QUERY_THROW);
    if (!takes_sheets(document)) throw NotDone(texts.word("The workbook takes no new sheet."));
    const std::string title = texts.text("menu.sure", "How Sure Is This Cell");
    LongWork work(request, title, 100);

    const workbook::Picture picture = picture_to_judge(model, request.context);
    const std::vector<Place> results = selected_results(model, picture, texts);
    work.done(10);
    const workbook::Labels labels(picture);
    const workbook::Graph graph(picture);
    SureSheet what{.results = results,
                   .assessed = {},
                   .sure = workbook::rests_on(results, picture, labels, graph, texts),
                   .picture = picture,
                   .labels = labels,
                   .texts = texts};
    for (const Place& place : results)
        if (picture.at(place)->error != 0)
            throw NotDone(texts.word(
                "{} shows an error, which begins in {}.",
                {workbook::in_words(place, picture),
                 workbook::in_words(what.sure.errors.empty() ? place : what.sure.errors.front(), picture)}));
    if (what.sure.inputs.empty())
        throw NotDone(texts.word("{} rests on no number that was typed.",
                                 {workbook::in_words(results.front(), picture)}));
    work.done(20);
    if (std::ranges::any_of(what.sure.inputs, [](const SureInput& input) { return input.number.u > 0; }))
        what.assessed = Assessing(request, model, results, what.sure, picture, work).run(graph);
    else
        for (const Place& place : results)
            what.assessed.push_back({.known = true, .value = workbook::number_in(picture, place).value()});

    const OUString name = free_name(document, texts.word("How sure"));
    const UndoStep step(document, ustring_from(title));
    document->getSheets()->insertNewByName(name, static_cast<sal_Int16>(picture.sheets.size()));
    const Sheet sheet = sheet_named(document, name);
    try {
        write_sure(document, sheet, what);
    } catch (...) {
        document->getSheets()->removeByName(name);
        throw;
    }
    if (const Reference<sheet::XSpreadsheetView> view(model->getCurrentController(), UNO_QUERY); view.is())
        view->setActiveSheet(sheet);
    return summary_of(what);
}

}  // namespace drysheet
