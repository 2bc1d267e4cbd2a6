#include "addin/workbook/neighbours.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <set>
#include <utility>

#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;

bool equal(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::max({std::abs(a), std::abs(b), 1e-12});
}

// The same value for whatever stands in the cells: tried with each number moved a little, three times.
bool same_in_algebra(const Formula& a, const Formula& b, const Place& at, const Picture& picture) {
    for (int round = 1; round <= 3; ++round) {
        const std::function<Given(const Place&)> moved = [&](const Place& place) {
            Given given = shown(picture, place);
            if (given.value.form == Input::Form::number) {
                const double mix =
                    std::sin(12.9898 * place.row + 78.233 * place.column + 37.719 * place.sheet + round) *
                    43758.5453;
                const double part = mix - std::floor(mix);
                given.value.number =
                    given.value.number * (1 + 0.02 * part) + (given.value.number == 0 ? part : 0);
            }
            return given;
        };
        const auto x = number_of(a, at, picture, moved), y = number_of(b, at, picture, moved);
        if (!x || !y || !equal(*x, *y)) return false;
    }
    return true;
}

// Where two formulas first differ, in words: the odd one's part, and its neighbours'.
std::optional<Sentence> difference(const Formula& odd, const Formula& usual, const Place& at,
                                   const Picture& picture) {
    const auto part = [&](const Formula& f) {
        return f.what == What::blank ? Sentence("nothing") : as_it_is(written(f, at, picture));
    };
    const auto of_both = [&](std::string_view form) { return Sentence(form, {part(odd), part(usual)}); };
    const auto reference = [](const Formula& f) {
        return f.what == What::cell || f.what == What::range || f.what == What::name;
    };
    if (same(odd, usual)) return {};
    if (reference(usual) && odd.what == What::number)
        return of_both("{} is typed in where its neighbours have {}");
    if (odd.what == What::range && usual.what == What::range)
        return of_both("it goes over {} where its neighbours' would go over {}");
    if (reference(odd) && reference(usual)) return of_both("it takes {} where its neighbours would take {}");
    if (odd.what == usual.what && odd.text == usual.text && odd.parts.size() == usual.parts.size() &&
        !odd.parts.empty()) {
        for (std::size_t i = 0; i < odd.parts.size(); ++i)
            if (auto found = difference(odd.parts[i], usual.parts[i], at, picture)) return found;
        return {};
    }
    return of_both("it has {} where its neighbours have {}");
}

bool is_total(const Formula& f) {
    return f.what == What::call && (f.text == "SUM" || f.text == "AVERAGE" || f.text == "SUBTOTAL" ||
                                    f.text == "COUNT" || f.text == "MIN" || f.text == "MAX");
}

class Odd {
  public:
    Odd(const Picture& picture, const Copies& copies) : picture_(picture), copies_(copies) {}

    std::vector<Finding> found() {
        for (std::size_t i = 0; i < picture_.sheets.size(); ++i) {
            const int sheet = static_cast<int>(i);
            std::map<int, std::vector<Place>> columns, rows;
            for (const auto& [at, cell] : picture_.sheets[i].cells) {
                if (!cell.formula && !std::holds_alternative<double>(cell.value)) continue;
                if (cell.of_array) continue;
                const Place place{sheet, at.first, at.second};
                columns[at.second].push_back(place);
                rows[at.first].push_back(place);
            }
            for (auto& [unused, line] : columns) blocks(line, true);
            for (auto& [unused, line] : rows) blocks(line, false);
        }
        return std::move(findings_);
    }

  private:
    void blocks(const std::vector<Place>& line, bool down) {
        for (std::size_t from = 0; from < line.size();) {
            std::size_t to = from + 1;
            const auto step = [&](std::size_t i) {
                return down ? line[i].row - line[i - 1].row : line[i].column - line[i - 1].column;
            };
            while (to < line.size() && step(to) == 1) ++to;
            if (to - from >= 5) block(std::span(line).subspan(from, to - from), down);
            from = to;
        }
    }

    void block(std::span<const Place> all, bool down) {
        // a number at the head of a block is a start, not a copy
        while (!all.empty() && copies_.key(all.front()).empty()) all = all.subspan(1);
        while (!all.empty() && copies_.key(all.back()).empty()) all = all.first(all.size() - 1);
        if (all.size() < 5) return;
        std::map<std::string_view, std::size_t> counts;
        for (const Place& place : all) ++counts[copies_.key(place)];
        counts.erase("");
        const auto most = std::ranges::max_element(counts, {}, [](const auto& pair) { return pair.second; });
        if (most == counts.end() || most->second < 4 || 3 * most->second < 2 * all.size()) return;
        const std::string_view usual = most->first;
        const auto first =
            std::ranges::find_if(all, [&](const Place& place) { return copies_.key(place) == usual; });
        // a change that lasts to the end
        while (!all.empty() && copies_.key(all.back()) != usual) all = all.first(all.size() - 1);
        for (const Place& place : all.subspan(1)) {
            const std::string& key = copies_.key(place);
            if (key == usual || (!key.empty() && counts[key] > 1) || done_.contains(place)) continue;
            if (!key.empty() && belongs_across(place, down)) continue;
            judge(place, *first);
        }
    }

    // A formula that is a copy of those beside it, in the other direction, belongs to them.
    bool belongs_across(const Place& place, bool down) const {
        for (const int step : {-1, 1}) {
            const Place beside{place.sheet, place.row + (down ? 0 : step), place.column + (down ? step : 0)};
            if (beside.row >= 0 && beside.column >= 0 && copies_.key(beside) == copies_.key(place))
                return true;
        }
        return false;
    }

    void judge(const Place& place, const Place& model) {
        const Cell& cell = *picture_.at(place);
        const Formula usual = copied(*picture_.at(model)->formula, model, place);
        const auto now = number_in(picture_, place), would = number_of(usual, place, picture_);
        Finding finding{.cell = place};
        if (cell.formula) {
            if (is_total(*cell.formula) != is_total(usual)) return;  // a row of totals may hold a mean price
            if (same_in_algebra(*cell.formula, usual, place, picture_)) return;
            finding.why = picture_.say(
                {"unlike its neighbours: {}",
                 {difference(*cell.formula, usual, place, picture_).value_or("it is another formula")}});
        } else {
            finding.why = picture_.say("a number is typed in among copies of a formula");
        }
        finding.verdict = !would || (now && equal(*now, *would)) ? Verdict::doubtful : Verdict::wrong;
        finding.suggested = "=" + written(usual, place, picture_);
        finding.would_show = would;
        finding.evidence = picture_.say({"the cells beside it are copies of {}", {in_words(model)}});
        done_.insert(place);
        findings_.push_back(std::move(finding));
    }

    const Picture& picture_;
    const Copies& copies_;
    std::set<Place> done_;
    std::vector<Finding> findings_;
};

// A typed number of a block: no formula, no text, no date.
bool typed_number(const Picture& picture, const Place& place) {
    if (place.row < 0 || place.column < 0) return false;
    const Cell* cell = picture.at(place);
    return cell != nullptr && !cell->formula && std::holds_alternative<double>(cell->value);
}

}  // namespace

Copies::Copies(const Picture& picture) {
    for (std::size_t i = 0; i < picture.sheets.size(); ++i)
        for (const auto& [at, cell] : picture.sheets[i].cells)
            if (cell.formula && !cell.of_array) {
                const Place place{static_cast<int>(i), at.first, at.second};
                keys_.emplace(place, copied_key(*cell.formula, place));
            }
}

const std::string& Copies::key(const Place& place) const {
    static const std::string none;
    const auto found = keys_.find(place);
    return found == keys_.end() ? none : found->second;
}

std::vector<Finding> odd_ones(const Picture& picture, const Copies& copies) {
    return Odd(picture, copies).found();
}

std::vector<Finding> short_ranges(const Picture& picture) {
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < picture.sheets.size(); ++i)
        for (const auto& [at, cell] : picture.sheets[i].cells) {
            if (!cell.formula || !is_total(*cell.formula) || cell.formula->parts.size() != 1) continue;
            const Formula& range = cell.formula->parts[0];
            if (range.what != What::range || range.from.gone || !range.from.file.empty()) continue;
            const Place place{static_cast<int>(i), at.first, at.second};
            const Place& from = range.from.cell;
            const Place& to = range.to.cell;
            const bool down = from.column == to.column && to.row - from.row >= 2;
            const bool across = from.row == to.row && to.column - from.column >= 2;
            if ((!down && !across) || from.sheet != place.sheet || range.from.sheet_named) continue;
            if ((down && place.column != from.column) || (across && place.row != from.row)) continue;
            const auto step = [down](Place one, int by) {
                (down ? one.row : one.column) += by;
                return one;
            };
            if (!typed_number(picture, step(to, 1)) && !typed_number(picture, step(from, -1))) continue;
            bool all = true;
            for (Place one = from; all && !(step(one, -1) == to); one = step(one, 1))
                all = typed_number(picture, one);
            if (!all) continue;
            // numbers between the range's end and the total, or right above its start under the same heading
            Place last = to;
            while (typed_number(picture, step(last, 1)) && step(last, 1) != place) last = step(last, 1);
            Place first = from;
            while (typed_number(picture, step(first, -1))) first = step(first, -1);
            const bool behind =
                last != to && (down ? place.row > last.row && place.row - last.row <= 2
                                    : place.column > last.column && place.column - last.column <= 2);
            const bool before =
                first != from && (down ? from.row - first.row : from.column - first.column) == 1;
            if (!behind && !before) continue;
            Formula longer = *cell.formula;
            if (behind) longer.parts[0].to.cell = last;
            if (before) longer.parts[0].from.cell = first;
            Finding finding{.cell = place, .verdict = behind ? Verdict::wrong : Verdict::doubtful};
            finding.why = picture.say({"its range leaves out {}, a number of the same block",
                                       {in_words(behind ? step(to, 1) : first)}});
            finding.suggested = "=" + written(longer, place, picture);
            finding.would_show = number_of(longer, place, picture);
            finding.evidence = picture.say({"numbers stand without a gap from {} to {}",
                                            {in_words(behind && !before ? from : first), in_words(last)}});
            if (finding.would_show && number_in(picture, place) &&
                equal(*finding.would_show, *number_in(picture, place)))
                continue;
            findings.push_back(std::move(finding));
        }
    return findings;
}

}  // namespace drysheet::workbook
