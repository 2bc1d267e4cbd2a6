// SPDX-License-Identifier: MPL-2.0
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
            if (to - from >= 4) block(std::span(line).subspan(from, to - from), down);
            from = to;
        }
    }

    void block(std::span<const Place> all, bool down) {
        // a number at the head of a block is a start, not a copy
        while (!all.empty() && copies_.key(all.front()).empty()) all = all.subspan(1);
        while (!all.empty() && copies_.key(all.back()).empty()) all = all.first(all.size() - 1);
        if (all.size() < 4) return;
        std::map<std::string_view, std::size_t> counts;
        for (const Place& place : all) ++counts[copies_.key(place)];
        counts.erase("");
        const auto most = std::ranges::max_element(counts, {}, [](const auto& pair) { return pair.second; });
        if (most == counts.end() || most->second < 3) return;
        const bool many = most->second >= 4 && 3 * most->second >= 2 * all.size();
        const std::string_view usual = most->first;
        const auto first =
            std::ranges::find_if(all, [&](const Place& place) { return copies_.key(place) == usual; });
        // a change that lasts to the end, but not a reference that slipped by one cell
        while (!all.empty() && copies_.key(all.back()) != usual &&
               !(many && copies_.key(all[all.size() - 2]) == usual && slipped(all.back(), *first)))
            all = all.first(all.size() - 1);
        for (const Place& place : all.subspan(1)) {
            const std::string& key = copies_.key(place);
            if (key == usual || (!key.empty() && counts[key] > 1) || done_.contains(place)) continue;
            if (!key.empty() && belongs_across(place, down)) continue;
            if (many || between_copies(all, place, usual)) judge(place, *first);
        }
    }

    bool slipped(const Place& place, const Place& model) const {
        const Cell& cell = *picture_.at(place);
        if (!cell.formula) return false;
        std::vector<Place> theirs, usual;
        const auto cells = [](std::vector<Place>& to) {
            return [&to](const Formula& part) {
                if (part.what == What::cell && !part.from.gone) to.push_back(part.from.cell);
            };
        };
        for_each_part(*cell.formula, cells(theirs));
        for_each_part(copied(*picture_.at(model)->formula, model, place), cells(usual));
        if (theirs.size() != usual.size()) return false;
        int off = 0;
        for (std::size_t i = 0; i < theirs.size(); ++i)
            off += std::abs(theirs[i].row - usual[i].row) + std::abs(theirs[i].column - usual[i].column) +
                   (theirs[i].sheet == usual[i].sheet ? 0 : 9);
        return off == 1;
    }

    // No more than two odd ones, with a copy on either side of them.
    bool between_copies(std::span<const Place> all, const Place& place, std::string_view usual) const {
        const auto at = std::ranges::find(all, place);
        std::ptrdiff_t odd = 1;
        auto before = at, behind = at;
        while (before != all.begin() && copies_.key(*std::prev(before)) != usual) --before, ++odd;
        while (std::next(behind) != all.end() && copies_.key(*std::next(behind)) != usual) ++behind, ++odd;
        return odd <= 2 && before != all.begin() && std::next(behind) != all.end() &&
               !copies_.key(place).empty();
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
            // unchanged along the row
            if (const Place& from = cell.formula->from.cell;
                cell.formula->what == What::cell && usual.what != What::cell && !copies_.key(from).empty() &&
                std::abs(from.row - place.row) + std::abs(from.column - place.column) == 1)
                return;
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

std::vector<Finding> short_ranges(const Picture& picture, const Copies& copies) {
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
            // typed numbers, or copies of one formula
            const auto like = [&](const Place& one) {
                return typed_number(picture, from)
                           ? typed_number(picture, one)
                           : !copies.key(from).empty() && copies.key(one) == copies.key(from);
            };
            if (!like(step(to, 1)) && !like(step(from, -1))) continue;
            std::size_t others = 0;  // "oops" rows may be among the copies
            for (Place one = from; !(step(one, -1) == to); one = step(one, 1)) others += like(one) ? 0 : 1;
            if (others > (typed_number(picture, from) ? 0U : 1U)) continue;
            // numbers between the range's end and the total, or right above its start under the same heading
            Place last = to;
            while (like(step(last, 1)) && step(last, 1) != place) last = step(last, 1);
            Place first = from;
            while (like(step(first, -1))) first = step(first, -1);
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

namespace {

const Formula* only_range(const Formula& f) {
    const bool takes_one = f.what == What::call && f.parts.size() == 1 && f.parts[0].what == What::range;
    return takes_one && !f.parts[0].from.gone && f.parts[0].from.file.empty() ? &f.parts[0] : nullptr;
}

// "=AVERAGE(E11:F11)" beside "=STDEV(E11:G11)": the range of the neighbour that has one more.
const Formula* longer_beside(const Picture& picture, const Place& place, const Formula& range) {
    for (const auto& [down, across] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        const Place beside{place.sheet, place.row + down, place.column + across};
        if (beside.row < 0 || beside.column < 0) continue;
        const Cell* cell = picture.at(beside);
        const Formula* other = cell != nullptr && cell->formula ? only_range(*cell->formula) : nullptr;
        if (other == nullptr || cell->formula->text == picture.at(place)->formula->text) continue;
        const Place &a = range.from.cell, &b = range.to.cell, &x = other->from.cell, &y = other->to.cell;
        const bool same_line =
            a.sheet == x.sheet && ((a.row == b.row && x.row == y.row && a.row == x.row) ||
                                   (a.column == b.column && x.column == y.column && a.column == x.column));
        const int starts = a.row - x.row + a.column - x.column, ends = y.row - b.row + y.column - b.column;
        if (same_line && starts >= 0 && ends >= 0 && starts + ends == 1) return other;
    }
    return nullptr;
}

bool is_ratio(const Formula& f) {
    if (f.what != What::operation || f.parts.size() != 2) return false;
    if (f.text == "/") return true;
    return f.text == "*" && ((f.parts[0].what == What::number && is_ratio(f.parts[1])) ||
                             (f.parts[1].what == What::number && is_ratio(f.parts[0])));
}

}  // namespace

std::vector<Finding> odd_totals(const Picture& picture, const Copies& copies) {
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < picture.sheets.size(); ++i)
        for (const auto& [at, cell] : picture.sheets[i].cells) {
            if (!cell.formula || cell.of_array) continue;
            const Place place{static_cast<int>(i), at.first, at.second};
            if (const Formula* range = only_range(*cell.formula); range != nullptr && is_total(*cell.formula))
                if (const Formula* longer = longer_beside(picture, place, *range)) {
                    findings.push_back(
                        {.cell = place,
                         .verdict = Verdict::doubtful,
                         .why = picture.say({"its range is one short of that of the formula beside it, {}",
                                             {written(*longer, place, picture)}}),
                         .evidence = picture.say("the two go over the same row or column")});
                    continue;
                }
            // the copies right above, two at least
            const Place model{place.sheet, place.row - 1, place.column};
            const Place above{place.sheet, place.row - 2, place.column};
            if (place.row < 2 || copies.key(model).empty() || copies.key(model) != copies.key(above) ||
                copies.key(model) == copies.key(place))
                continue;
            const Formula usual = copied(*picture.at(model)->formula, model, place);
            // the copies' own cells are sums in this row
            std::size_t sums = 0;
            std::set<Place> theirs, ours;
            for_each_part(usual, [&](const Formula& part) {
                if (part.what != What::cell || part.from.gone) return;
                theirs.insert(part.from.cell);
                const Cell* one = picture.at(part.from.cell);
                if (part.from.cell.row == place.row && one != nullptr && one->formula &&
                    one->formula->what == What::call && one->formula->text == "SUM")
                    ++sums;
            });
            for_each_part(*cell.formula, [&](const Formula& part) {
                if (part.what == What::cell && !part.from.gone) ours.insert(part.from.cell);
            });
            const auto would = number_of(usual, place, picture), now = number_in(picture, place);
            if (sums < 2 || !would || !now || equal(*would, *now)) continue;
            Finding finding{
                .cell = place, .suggested = "=" + written(usual, place, picture), .would_show = would};
            finding.evidence = picture.say(
                {"the cells above are copies of {}, and its cells are sums in this row", {in_words(model)}});
            if (ours == theirs) {
                finding.verdict = Verdict::wrong;
                finding.why = picture.say(
                    equal(*would * *now, 1)
                        ? Sentence("upside down: the rows above divide the other way")
                        : Sentence("it takes the same cells as the rows above, but otherwise: {}",
                                   {difference(*cell.formula, usual, place, picture).value_or(Sentence())}));
            } else if (cell.formula->what == What::call && cell.formula->text == "AVERAGE" &&
                       is_ratio(usual) && only_range(*cell.formula) != nullptr) {
                finding.verdict = Verdict::doubtful;
                finding.why =
                    picture.say("a mean of ratios in a row of sums: the ratio of the sums is another");
            } else {
                continue;
            }
            findings.push_back(std::move(finding));
        }
    return findings;
}

}  // namespace drysheet::workbook
