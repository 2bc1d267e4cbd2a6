// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/plausible.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;

constexpr Dimension kNone{}, kMass{1};

bool any_of(const Label& label, std::initializer_list<Say> says) {
    return std::ranges::any_of(says, [&](Say say) { return label.has(say); });
}

// A quotient, times plain numbers: its two sides.
std::optional<std::pair<const Formula*, const Formula*>> sides(const Formula& f) {
    if (f.what != What::operation || f.parts.size() != 2) return {};
    const Formula &a = f.parts[0], &b = f.parts[1];
    if (f.text == "/" && b.what == What::number) return sides(a);
    if (f.text == "/") return std::pair(&a, &b);
    if (f.text == "*" && b.what == What::number) return sides(a);
    if (f.text == "*" && a.what == What::number) return sides(b);
    return {};
}

// The cell that a side is, but for plain factors.
const Place* cell_of(const Formula& f) {
    if (f.what == What::cell) return f.from.gone || !f.from.file.empty() ? nullptr : &f.from.cell;
    if (f.what != What::operation || f.parts.size() != 2 || (f.text != "*" && f.text != "/")) return nullptr;
    if (f.parts[1].what == What::number) return cell_of(f.parts[0]);
    if (f.parts[0].what == What::number && f.text == "*") return cell_of(f.parts[1]);
    return nullptr;
}

struct Doubt {
    const Picture& picture;
    const Labels& labels;
    Carrier& carrier;
    const Place& place;
    const Meaning& own = labels.at(place);
    const Formula& formula = *picture.at(place)->formula;
    std::optional<double> value = number_in(picture, place);

    std::optional<Sentence> found() const {
        if (own.has(Say::deviation) || own.has(Say::difference)) return {};
        for (const auto doubt :
             {&Doubt::share, &Doubt::below_nothing, &Doubt::solids, &Doubt::upside_down, &Doubt::mixed_units})
            if (auto why = (this->*doubt)()) return why;
        return {};
    }

    std::optional<Sentence> share() const {
        if (!value || !own.unit || own.unit->dimension != kNone) return {};
        const bool part = own.kind == Kind::relative_humidity || own.kind == Kind::water_activity ||
                          (own.kind == Kind::moisture_wet && own.basis == Basis::wet) ||
                          (own.kind == Kind::fraction && own.has(Say::yield) && !own.has(Say::water));
        const double whole = own.unit->denominator / own.unit->numerator;
        if (!part || (own.unit_by_value && own.kind != Kind::relative_humidity) || *value <= 1.005 * whole)
            return {};
        return Sentence("its value, {}, is more than the whole", {{*value, {}, 4}});
    }

    std::optional<Sentence> below_nothing() const {
        static constexpr std::array kinds{Kind::mass,   Kind::time, Kind::power,
                                          Kind::energy, Kind::area, Kind::pressure};
        const bool difference =
            formula.what == What::operation && formula.text == "-" &&
            std::ranges::all_of(formula.parts, [](const Formula& f) { return f.what == What::cell; });
        if (difference || !value || *value > -1e-9 || !own.kind || !own.unit ||
            any_of(own, {Say::loss, Say::price, Say::rate}) ||
            std::ranges::find(kinds, *own.kind) == kinds.end())
            return {};
        return Sentence("its value, {}, is below nothing", {{*value, {}, 4}});
    }

    std::optional<Sentence> solids() const {
        const Place* source = cell_of(formula);
        if (source == nullptr || !own.unit || own.unit->dimension != kMass) return {};
        const Meaning& from = labels.at(*source);
        if (!from.unit || from.unit->dimension != kMass) return {};
        if (own.has(Say::solids) && !from.has(Say::solids) &&
            any_of(from, {Say::dried, Say::net, Say::fresh, Say::mass}))
            return "a whole mass is taken for its dry solids: the water left in it is forgotten";
        if (own.has(Say::dried) && !own.has(Say::solids) && from.has(Say::solids) && !from.has(Say::dried))
            return "the dry solids are taken for the dried product: the water left in it is forgotten";
        return {};
    }

    std::optional<Sentence> upside_down() const {
        const auto quotient = sides(formula);
        if (!quotient) return {};
        const Place *top = cell_of(*quotient->first), *bottom = cell_of(*quotient->second);
        if (top != nullptr && bottom != nullptr)
            if (const auto said = read_quotient(own.label)) {
                const Meaning &a = labels.at(*top), &b = labels.at(*bottom);
                static constexpr std::array<std::pair<Say, Say>, 5> pairs{{{Say::fresh, Say::dried},
                                                                           {Say::whole, Say::dried},
                                                                           {Say::energy, Say::dried},
                                                                           {Say::energy, Say::water},
                                                                           {Say::price, Say::mass}}};
                for (auto [x, y] : pairs)
                    for (int turn = 0; turn < 2; ++turn, std::swap(x, y))
                        if (said->first.has(x) && said->second.has(y) && !said->first.has(y) &&
                            !said->second.has(x) && a.has(y) && b.has(x) && !a.has(x) && !b.has(y))
                            return Sentence("upside down: by its label the other is divided by the one");
            }
        if (value && *value > 0 && *value < 1 && any_of(own, {Say::ratio}) && own.has(Say::fresh) &&
            own.has(Say::dried) && !own.has(Say::moisture) &&
            (!own.unit || own.unit->form == RatioForm::mass_ratio))
            return Sentence("a drying ratio, fresh over dried, is above 1: is it upside down?");
        return {};
    }

    std::optional<Sentence> mixed_units() const {
        if (own.unit || !any_of(own, {Say::yield, Say::share})) return {};
        const Carried carried = carrier.of(formula, place);
        if (!carried.known() || carried.weak || carried.dimension != kNone || carried.scales.size() != 1)
            return {};
        const double scale = carried.scales.front();
        if (std::abs(scale - 1) < 1e-3 || std::abs(scale - 0.01) < 1e-5) return {};
        return Sentence("masses of two units are divided: it comes out {} times the fraction",
                        {{1 / scale, {}, 4}});
    }
};

}  // namespace

std::optional<Finding> implausible(const Picture& picture, const Labels& labels, Carrier& carrier,
                                   const Place& place) {
    const Doubt doubt{.picture = picture, .labels = labels, .carrier = carrier, .place = place};
    const auto why = doubt.found();
    if (!why) return {};
    std::vector<Place> inputs{place};
    for_each_part(doubt.formula, [&](const Formula& part) {
        if (part.what == What::cell && !part.from.gone && part.from.file.empty() && inputs.size() < 5)
            inputs.push_back(part.from.cell);
    });
    return Finding{.cell = place,
                   .verdict = Verdict::doubtful,
                   .why = picture.say(*why),
                   .evidence = carrier.said_of(inputs, place)};
}

}  // namespace drysheet::workbook
