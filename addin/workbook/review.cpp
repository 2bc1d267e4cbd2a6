// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/review.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/carry.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"
#include "addin/workbook/neighbours.hpp"
#include "addin/workbook/plausible.hpp"
#include "addin/workbook/recognise.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;

// Every part of a formula, those of the names it uses too.
void for_each_meant(const Formula& formula, const Picture& picture,
                    const std::function<void(const Formula&)>& visit, int depth = 0) {
    for_each_part(formula, [&](const Formula& part) {
        visit(part);
        if (part.what == What::name && depth < 30)
            if (const Formula* means = meaning(picture, part))
                for_each_meant(*means, picture, visit, depth + 1);
    });
}

bool is_ours(const Formula& f) { return f.what == What::call && f.text.starts_with("DRY."); }

// A name that is none of our functions, called or asked about: DRY.WHY("DRIEDMAS"; …).
std::optional<Sentence> misspelt(const Formula& f) {
    if (!is_ours(f)) return {};
    std::string name = f.text;
    if (const Function* function = find_function(name)) {
        for (std::size_t i = 0; i < f.parts.size() && i < function->params.size(); ++i)
            if (function->raw && function->params[i].name == "function" && f.parts[i].what == What::text &&
                find_function(f.parts[i].text) == nullptr)
                name = f.parts[i].text;
        if (name == f.text) return {};
    }
    const auto meant = probably_meant(name);
    if (meant) return Sentence("there is no function {}; perhaps DRY.{}", {name, *meant});
    return Sentence("there is no function {}", {name});
}

std::optional<std::string> refusal_of(const Function& function,
                                      const std::vector<std::optional<Input>>& given,
                                      const Reading& reading) {
    std::vector<Input> arguments;
    for (const auto& one : given) {
        if (!one) return {};
        arguments.push_back(*one);
    }
    try {
        (void)evaluate(function, arguments, reading);
    } catch (const Refusal& refusal) {
        return refusal.written(reading);
    }
    return {};
}

// What each argument gives; nothing where it is an error or cannot be known.
std::vector<std::optional<Input>> arguments_of(const Formula& call, const Place& at, const Picture& picture) {
    std::vector<std::optional<Input>> made;
    for (const Formula& part : call.parts) {
        auto given = compute_whole(part, at, picture);
        if (!given || given->fault) {
            made.emplace_back();
            continue;
        }
        if (part.what == What::cell && given->value.form == Input::Form::missing)
            given->value = 0.0;  // so the office hands a blank cell over
        made.emplace_back(std::move(given->value));
    }
    return made;
}

std::string lower_first(std::string text) {
    if (text.size() > 1 && text[0] >= 'A' && text[0] <= 'Z' && text[1] >= 'a')
        text[0] = static_cast<char>(text[0] - 'A' + 'a');
    return text;
}

class Reviewer {
  public:
    Reviewer(const Picture& picture, const Labels& labels, const std::function<void(double)>& alive)
        : picture_(picture),
          labels_(labels),
          copies_(picture),
          carrier_(picture, labels),
          alive_(alive),
          reading_(picture.reading()) {}

    Review made() {
        for (Finding& finding : odd_ones(picture_, copies_)) add(std::move(finding), true);
        for (Finding& finding : short_ranges(picture_, copies_)) add(std::move(finding), true);
        for (Finding& finding : odd_totals(picture_, copies_)) add(std::move(finding), true);
        said(0.2);
        formulas();
        contradictions();
        points_for_commas();
        two_meanings();
        recognitions();
        implausibilities();
        return gathered();
    }

  private:
    void said(double done) const {
        if (alive_) alive_(done);
    }
    void add(Finding finding, bool alone) {
        const Place at = finding.cell;
        if (found_.contains(at)) return;
        if (alone) alone_.insert(at);
        found_.emplace(at, std::move(finding));
    }

    bool flagged(const Place& place) const {
        const auto found = found_.find(place);
        return found != found_.end() && found->second.verdict <= Verdict::doubtful;
    }

    template <class Visit>
    void for_each_formula(Visit visit) {
        for (std::size_t i = 0; i < picture_.sheets.size(); ++i)
            for (const auto& [at, cell] : picture_.sheets[i].cells)
                if (cell.formula && !cell.of_array)
                    visit(Place{static_cast<int>(i), at.first, at.second}, cell);
    }

    void formulas() {
        std::size_t all = 0, done = 0;
        for_each_formula([&](const Place&, const Cell&) { ++all; });
        for_each_formula([&](const Place& place, const Cell& cell) {
            if (++done % 500 == 0) said(0.2 + 0.4 * static_cast<double>(done) / static_cast<double>(all));
            if (found_.contains(place)) return;
            add(judged(place, cell), false);
        });
    }

    Finding judged(const Place& place, const Cell& cell) {
        Finding finding{.cell = place};
        const Formula& formula = *cell.formula;
        bool ours = false, unreadable = false;
        std::optional<Sentence> wrong_name;
        for_each_meant(formula, picture_, [&](const Formula& part) {
            ours = ours || is_ours(part);
            unreadable = unreadable || part.what == What::unreadable;
            if (!wrong_name) wrong_name = misspelt(part);
        });
        const auto is = [&](Verdict verdict, const Sentence& why, std::string evidence = {}) {
            finding.verdict = verdict;
            finding.why = picture_.say(why);
            finding.evidence = std::move(evidence);
        };
        if (wrong_name) {
            is(Verdict::wrong, *wrong_name);
            return finding;
        }
        if (unreadable) {
            is(Verdict::not_judged, "the formula could not be read");
            return finding;
        }
        const auto judged = carrier_.judge(place);
        if (!judged.clashes.empty()) {
            const Clash& clash = judged.clashes.front();
            is(clash.verdict, as_it_is(clash.why), clash.evidence);
            return finding;
        }
        if (ours)
            if (auto refusal = first_refusal(formula, place, cell)) {
                if (on_purpose(place))
                    is(Verdict::fine, {"refused, as its workbook says it is to be: {}", {*refusal}});
                else
                    is(Verdict::wrong, as_it_is(*refusal), inputs_said(formula, place));
                return finding;
            }
        if (cell.error != 0) {
            if (const auto root = root_error(formula)) {
                is(Verdict::not_judged, {"it rests on an error in {}", {in_words_from(*root, place)}});
            } else {
                is(Verdict::doubtful, "it shows an error");
            }
            return finding;
        }
        if (judged.agrees) {
            is(Verdict::fine, "its unit, carried through, is the one that its label says", judged.evidence);
        } else if (ours) {
            is(Verdict::fine, "its functions take what they are given, as far as the labels say what that is",
               inputs_said(formula, place));
        }
        return finding;
    }

    std::string in_words_from(const Place& place, const Place& at) const {
        return place.sheet == at.sheet ? in_words(place) : in_words(place, picture_);
    }

    // Of IF(…) the branch that is taken, as far as that can be known: what waits for an answer is not
    // refused.
    const Formula& taken(const Formula& formula, const Place& place) const {
        if (formula.what != What::call || formula.text != "IF" || formula.parts.size() < 2) return formula;
        const auto condition = number_of(formula.parts[0], place, picture_);
        const std::size_t branch = !condition ? 0U : *condition != 0 ? 1U : 2U;
        return branch == 0 || branch >= formula.parts.size() ? formula : taken(formula.parts[branch], place);
    }

    // The innermost call that is refused. Where the cell shows no error and hides none, nothing is.
    std::optional<std::string> first_refusal(const Formula& formula, const Place& place,
                                             const Cell& cell) const {
        bool hides = cell.error != 0;
        for_each_part(formula, [&](const Formula& part) {
            hides = hides || (part.what == What::call && part.text == "IFERROR");
        });
        if (!hides) return {};
        std::optional<std::string> found;
        for_each_meant(taken(formula, place), picture_, [&](const Formula& part) {
            const Function* function = is_ours(part) ? find_function(part.text) : nullptr;
            if (function == nullptr) return;
            if (auto refusal = refusal_of(*function, arguments_of(part, place, picture_), reading_))
                found = part.text + ": " + lower_first(*refusal);
        });
        return found;
    }

    // Cells that show a refusal on purpose stand under the names INTENDED_ERRORS, INTENDED_ERRORS_2 …
    bool on_purpose(const Place& place) const {
        return std::ranges::any_of(picture_.names, [&](const Name& name) {
            if (!name.name.starts_with("INTENDED_ERRORS")) return false;
            const auto areas = areas_in(name.means, picture_);
            return std::ranges::any_of(areas, [&](const Area& area) { return area.holds(place); });
        });
    }

    std::optional<Place> root_error(const Formula& formula) const {
        for (const Area& area : areas_in(formula, picture_))
            for (const Place& place : filled_cells(picture_, {.cell = {area.sheet, area.top, area.left}},
                                                   {.cell = {area.sheet, area.bottom, area.right}}))
                if (picture_.at(place)->error != 0) return place;
        return {};
    }

    std::string inputs_said(const Formula& formula, const Place& at) const {
        std::vector<Place> cells;
        for_each_part(formula, [&](const Formula& part) {
            if (part.what == What::cell && !part.from.gone && part.from.file.empty() && cells.size() < 6 &&
                std::ranges::find(cells, part.from.cell) == cells.end())
                cells.push_back(part.from.cell);
        });
        return carrier_.said_of(cells, at);
    }

    // A label that says another unit than the number's own format or the cell beside it.
    void contradictions() {
        for (std::size_t i = 0; i < picture_.sheets.size(); ++i)
            for (const auto& [at, cell] : picture_.sheets[i].cells) {
                const Place place{static_cast<int>(i), at.first, at.second};
                const Meaning& meaning = labels_.at(place);
                if (meaning.contradiction.empty()) continue;
                if (flagged(place)) continue;
                Finding finding{.cell = place, .verdict = Verdict::doubtful};
                finding.why = picture_.say(
                    {"its label and its unit contradict one another: {}", {meaning.contradiction}});
                finding.evidence = meaning.evidence;
                found_.insert_or_assign(place, std::move(finding));
                if (!cell.formula) alone_.insert(place);
            }
    }

    // "0.614" typed where a point parts thousands is 614.
    void points_for_commas() {
        if (!picture_.decimal_comma) return;
        for (std::size_t i = 0; i < picture_.sheets.size(); ++i)
            for (const auto& [at, cell] : picture_.sheets[i].cells) {
                const Place place{static_cast<int>(i), at.first, at.second};
                const Meaning& meaning = labels_.at(place);
                const auto* typed = cell.formula ? nullptr : std::get_if<double>(&cell.value);
                const bool share = meaning.kind == Kind::water_activity ||
                                   meaning.kind == Kind::moisture_wet ||
                                   meaning.kind == Kind::relative_humidity;
                if (typed == nullptr || !share || flagged(place) || *typed != std::floor(*typed) ||
                    *typed <= 100 || *typed >= 1000)
                    continue;
                Finding finding{.cell = place, .verdict = Verdict::doubtful};
                finding.why =
                    picture_.say({"is it {}, typed with a point? Here a point parts thousands: {} was read",
                                  {*typed / 1000, *typed}});
                finding.evidence = meaning.evidence;
                found_.insert_or_assign(place, std::move(finding));
                alone_.insert(place);
            }
    }

    // One cell that is handed over as two things.
    void two_meanings() {
        const auto at_odds = [](Kind a, Kind b) {
            const auto moist = [](Kind kind) {
                return kind == Kind::moisture_wet || kind == Kind::moisture_dry;
            };
            return (moist(a) && moist(b) && a != b) ||
                   (moist(a) && (b == Kind::water_activity || b == Kind::relative_humidity)) ||
                   (moist(b) && (a == Kind::water_activity || a == Kind::relative_humidity));
        };
        for (const auto& [place, uses] : carrier_.uses())
            for (const Use& use : uses) {
                if (!at_odds(uses.front().kind, use.kind)) continue;
                if (flagged(place) || flagged(use.by) || flagged(uses.front().by)) break;
                Finding finding{.cell = place, .verdict = Verdict::wrong};
                finding.why =
                    picture_.say({"one cell is used with two meanings: {} ({}) takes it as {}, {} ({}) as {}",
                                  {in_words_from(uses.front().by, place), uses.front().argument,
                                   Sentence(row_of(uses.front().kind).name), in_words_from(use.by, place),
                                   use.argument, Sentence(row_of(use.kind).name)}});
                finding.evidence = labels_.at(place).evidence;
                found_.insert_or_assign(place, std::move(finding));
                alone_.insert(place);
                break;
            }
    }

    // Known sums and slips, once a group of copies.
    void recognitions() {
        std::map<std::pair<int, std::string_view>, std::vector<Place>> groups;
        for (const auto& [place, finding] : found_)
            if (finding.verdict >= Verdict::fine && !alone_.contains(place))
                groups[{place.sheet, copies_.key(place)}].push_back(place);
        std::size_t done = 0;
        for (const auto& [key, cells] : groups) {
            if (++done % 50 == 0)
                said(0.6 + 0.4 * static_cast<double>(done) / static_cast<double>(groups.size()));
            const Cell* first = picture_.at(cells.front());
            if (first == nullptr || !first->formula || first->error != 0 || key.second.empty() ||
                first->formula->what == What::number)
                continue;
            bool ours = false;
            for_each_meant(*first->formula, picture_,
                           [&](const Formula& part) { ours = ours || is_ours(part); });
            if (ours) continue;
            const auto known = recognise(picture_, cells.front(), labels_, reading_);
            if (!known) continue;
            for (const Place& place : cells) {
                Finding& finding = found_.at(place);
                finding.verdict = known->verdict;
                finding.why = known->why;
                finding.evidence = known->evidence;
                if (place == cells.front()) {
                    finding.suggested = known->suggested;
                    finding.would_show = known->would_show;
                }
            }
        }
    }

    // What comes of a doubtful cell is not doubted again.
    void implausibilities() {
        for_each_formula([&](const Place& place, const Cell& cell) {
            if (flagged(place) || cell.error != 0) return;
            auto doubt = implausible(picture_, labels_, carrier_, place);
            if (!doubt || rests_on_flagged(*cell.formula, 6)) return;
            found_.insert_or_assign(place, std::move(*doubt));
        });
    }
    bool rests_on_flagged(const Formula& formula, int deep) const {
        bool found = false;
        for (const Area& area : areas_in(formula, picture_))
            for (const Place& one : filled_cells(picture_, {.cell = {area.sheet, area.top, area.left}},
                                                 {.cell = {area.sheet, area.bottom, area.right}})) {
                const Cell* cell = picture_.at(one);
                found = found || flagged(one) ||
                        (deep > 0 && cell->formula && rests_on_flagged(*cell->formula, deep - 1));
                if (found) return true;
            }
        return found;
    }

    // Copies with one verdict are one row, the worst first.
    Review gathered() {
        Review review;
        std::map<std::tuple<int, std::string_view, Verdict>, std::size_t> groups;
        for (auto& [place, finding] : found_) {
            ++review.count.at(static_cast<std::size_t>(finding.verdict));
            const std::string& key = copies_.key(place);
            if (key.empty() || alone_.contains(place)) {
                review.findings.push_back(std::move(finding));
                continue;
            }
            const auto [known, added] = groups.emplace(
                std::tuple(place.sheet, std::string_view(key), finding.verdict), review.findings.size());
            if (added) {
                review.findings.push_back(std::move(finding));
                continue;
            }
            Finding& group = review.findings[known->second];
            if (group.cells.empty()) group.cells.push_back(group.cell);
            group.cells.push_back(place);
        }
        std::ranges::stable_sort(review.findings, {}, &Finding::verdict);
        said(1);
        return review;
    }

    const Picture& picture_;
    const Labels& labels_;
    Copies copies_;
    Carrier carrier_;
    const std::function<void(double)>& alive_;
    Reading reading_;
    std::map<Place, Finding> found_;
    std::set<Place> alone_;  // a row each, whatever they are copies of
};

}  // namespace

Review review(const Picture& picture, const std::function<void(double)>& alive) {
    const Labels labels(picture);
    return Reviewer(picture, labels, alive).made();
}

std::string with_unit(const Input& value, const Meaning& meaning, std::string_view unit,
                      const Reading& reading) {
    if (value.form != Input::Form::number) return written(in_a_sentence(value), reading);
    if (meaning.percent_format) return in_words(100 * value.number, "%", 6, reading);
    return in_words(value.number, unit, 10, reading);
}

std::vector<AboutCall> calls_in(const Formula& formula, const Place& at, const Picture& picture,
                                const Labels& labels) {
    std::vector<AboutCall> calls;
    for_each_meant(formula, picture, [&](const Formula& part) {
        const Function* function = is_ours(part) ? find_function(part.text) : nullptr;
        if (function == nullptr) return;
        AboutCall call{.function = function,
                       .written = written(part, at, picture),
                       .arguments = {},
                       .given = arguments_of(part, at, picture),
                       .refusal = {}};
        for (std::size_t i = 0; i < part.parts.size(); ++i) {
            AboutArgument argument{.written = written(part.parts[i], at, picture)};
            std::string unit;
            if (!function->params.empty()) {
                const Parameter& param = parameter_at(*function, i);
                argument.name = param.name;
                unit = param.shown_unit;
            }
            Meaning meaning;
            if (part.parts[i].what == What::cell) {
                meaning = labels.at(part.parts[i].from.cell);
                argument.label = meaning.label;
                if (meaning.unit) unit = meaning.unit_text;
            }
            argument.shown = call.given[i] ? with_unit(*call.given[i], meaning, unit, picture.reading())
                                           : picture.say("an error");
            call.arguments.push_back(std::move(argument));
        }
        call.refusal = refusal_of(*function, call.given, picture.reading()).value_or("");
        calls.push_back(std::move(call));
    });
    return calls;
}

Reviewed::Reviewed(Picture picture, const std::function<void(double)>& alive)
    : picture_(std::move(picture)),
      labels_(picture_),
      graph_(picture_),
      review_(Reviewer(picture_, labels_, alive).made()) {}

About Reviewed::about(const Place& place) const {
    About made{.cell = place, .meaning = labels_.at(place)};
    made.unit = made.meaning.unit_text;
    made.evidence = made.meaning.evidence;
    const Cell* cell = picture_.at(place);
    if (cell != nullptr && cell->formula) {
        if (made.unit.empty()) {
            Carrier carrier(picture_, labels_);
            const Carried carried = carrier.of(*cell->formula, place);
            if (carried.known() && !carried.weak && carried.scales.size() == 1) {
                made.unit = unit_name(carried.dimension, carried.scales.front());
                if (!made.unit.empty())
                    made.evidence +=
                        (made.evidence.empty() ? "" : ", ") + picture_.say("by the units of its inputs");
            }
        }
        made.calls = calls_in(*cell->formula, place, picture_, labels_);
    }
    for (const Finding& finding : review_.findings)
        if (finding.cell == place || std::ranges::find(finding.cells, place) != finding.cells.end())
            made.finding = finding;
    made.inputs =
        cell != nullptr && (cell->formula || cell->of_array) ? graph_.inputs_of(place) : std::vector<Place>{};
    made.results = graph_.results_of(place);
    return made;
}

}  // namespace drysheet::workbook
