// SPDX-License-Identifier: MPL-2.0
#include "addin/call/mark.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "addin/call/answer.hpp"
#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/refusal.hpp"
#include "addin/call/slips.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr double kRelative = kRightRelative, kKelvins = kRightKelvins;
constexpr double kClose = 5;       // in tolerances
constexpr double kVery = 0.005;    // a slip is named for "that very answer": three digits
constexpr double kCounted = 1000;  // a whole number below it may be a count

const Dimension& kelvin() { return default_unit(Kind::temperature).dimension; }
bool whole(double x) { return x == std::floor(x); }
bool very(double a, double x) { return std::abs(a - x) <= kVery * std::abs(x); }

// How far off an answer may be, in the unit in which both numbers stand.
struct Tolerance {
    double relative = kRelative;
    std::optional<double> amount;

    double around(double e) const { return amount ? *amount : relative * std::abs(e); }
};

Sentence close_by(double a, double e, std::string_view unit, const Tolerance& tolerance) {
    if (e == 0 || tolerance.amount)
        return {"close: {} is {} off", {{a, unit}, {std::abs(a - e), unit == "°C" ? "K" : unit, 3}}};
    return {"close: {} is {} % off", {{a, unit}, {100 * std::abs(a - e) / std::abs(e), {}, 3}}};
}

constexpr std::string_view kSomethingElse = "wrong unit: it measures something else",
                           kUncounted = "wrong: a count is exact",
                           kWholeWet = "wrong: a wet-basis moisture is below 1";

// The other units in which a plain right answer may be meant: those that functions give and take, then all.
const std::vector<std::string>& units_in_use() {
    static const std::vector<std::string> all = [] {
        std::vector<std::string> found;
        const auto add = [&](std::string_view name) {
            if (!name.empty() && std::ranges::find(found, name) == found.end()) found.emplace_back(name);
        };
        for (const KindRow& row : kKinds) add(row.default_unit);
        for (const Function& function : functions()) {
            add(function.result_unit);
            for (const Parameter& param : function.params) add(param.shown_unit);
        }
        for (const NamedUnit& unit : vocabulary()) add(unit.spellings.substr(0, unit.spellings.find(' ')));
        return found;
    }();
    return all;
}

// What the numbers are to each other where neither has a dimension: shares, moistures, ratios.
Sentence about_a_ratio(double a, double e) {
    constexpr double most = 20;  // kg of water to a kg of solids: wetter than any food
    constexpr std::string_view dry = "wrong basis: this would be right on the dry basis",
                               wet = "wrong basis: this would be right on the wet basis";
    if (e > 0 && e < 1 && very(a, e / (1 - e))) return dry;
    if (e > 0 && e <= most && very(a, e / (1 + e))) return wet;
    if (e >= 10 && e < 100 && very(a, 100 * e / (100 - e))) return dry;
    if (e > 100 && e <= 100 * most && very(a, 100 * e / (100 + e))) return wet;
    if (e > 0 && e < 1 && very(a, 1 - e)) return "wrong: this and the right answer make a whole";
    return {};
}

struct Times {
    double factor;
    std::string_view small, large;
    Kind of = Kind::number;  ///< what it is said of; a number: of anything
};
constexpr Times kTimes[] = {{1000, "g", "kg"},
                            {60, "minutes", "hours", Kind::time},
                            {3600, "seconds", "hours", Kind::time},
                            {24, "hours", "days", Kind::time},
                            {453.59237, "g", "lb", Kind::mass},
                            {1 / 0.45359237, "lb", "kg", Kind::mass},
                            {28.349523125, "g", "oz", Kind::mass},
                            {25.4, "mm", "in", Kind::length},
                            {100, "cm", "m", Kind::length},
                            {10, "mm", "cm", Kind::length},
                            {3600, "kJ", "kWh", Kind::energy},
                            {3.6, "MJ", "kWh", Kind::energy}};

Sentence about_units(double a, double e, const std::optional<Unit>& unit) {
    if (e == 0) return {};
    for (const auto& [factor, small, large, of] : kTimes) {
        if (of != Kind::number && !(unit && fits(*unit, of))) continue;
        for (const bool up : {true, false})
            if (very(a, up ? e * factor : e / factor))
                return {up ? "wrong unit: {} times too large, as with {} for {}"
                           : "wrong unit: {} times too small, as with {} for {}",
                        {{factor, {}, 4}, Sentence(up ? small : large), Sentence(up ? large : small)}};
    }
    return {};
}

// Both numbers stand in the same unit, if in any.
Sentence marked(double a, double e, const Tolerance& tolerance, const std::optional<Unit>& unit,
                std::string_view unit_name) {
    const double allowed = tolerance.around(e), gap = std::abs(a - e);
    const bool physical = unit && unit->dimension != Dimension{};
    const bool exact = !unit && e != 0 && whole(e) && (!whole(a) || std::abs(e) < kCounted);
    if (a == e || (gap <= allowed && !exact)) return kRight;
    Sentence close = close_by(a, e, unit_name, tolerance);
    if (gap <= allowed) return close;
    if (!physical)
        if (Sentence said = about_a_ratio(a, e); !said.empty()) return said;
    if (gap <= kClose * allowed) return close;
    if (e != 0 && !physical) {
        if (very(a, 100 * e)) return "wrong unit: 100 times too large, as is a percentage for a fraction";
        if (very(a, e / 100)) return "wrong unit: 100 times too small, as is a fraction for a percentage";
    }
    if (Sentence said = about_units(a, e, unit); !said.empty()) return said;
    if (unit && unit->dimension == kelvin()) {
        if (very(a, 1.8 * e + 32)) return "wrong unit: this is the right temperature in °F";
        if (std::abs(a - e - 273.15) <= allowed) return "wrong unit: this is the right temperature in K";
    }
    if (e != 0 && very(a, 1 / e)) return "wrong: this is 1 over the right answer";
    if (gap > 0 && std::abs(a + e) <= allowed) return "wrong: the sign is the other way round";
    return "wrong";
}

Tolerance read_tolerance(const Input& given, const Answer& got, const Answer& wanted,
                         const Reading& reading) {
    const Answer& known = wanted.physical() ? wanted : got;
    const bool temperature = known.physical() && known.unit->dimension == kelvin();
    const auto read = read_answer("tolerance", given, reading);
    if (!read)
        return temperature ? Tolerance{.relative = 0, .amount = known.unit->step_from_si(kKelvins)}
                           : Tolerance{};
    if (!(read->value > 0)) refuse("tolerance", "must be above 0");
    if (read->physical()) {
        if (!known.physical() || known.unit->dimension != read->unit->dimension)
            refuse("tolerance",
                   {"{} is an amount, and the expected value is not of its kind", {in_a_sentence(given)}});
        return {.relative = 0, .amount = known.unit->step_from_si(read->unit->step_to_si(read->value))};
    }
    if (temperature) refuse("tolerance", "for a temperature an amount is wanted, such as \"0.5 K\"");
    const double relative = read->unit ? read->unit->to_si(read->value) : read->value;
    if (relative > 0.2) refuse("tolerance", {"{} is above 0.2, which is 20 %", {in_a_sentence(given)}});
    return {.relative = relative, .amount = {}};
}

Sentence mark_count(double a, double e) {
    if (a == e) return kRight;
    if (!whole(a) && std::ceil(a) == e) return "wrong: not rounded up";
    return kUncounted;
}

// The answer names a physical unit and the right answer none: whether they agree, its unit would have to
// tell.
Sentence unclear(const Answer& got, double e, const Tolerance& tolerance) {
    const double si = got.unit->to_si(got.value);
    std::vector<std::string> names{got.unit_name};
    names.insert(names.end(), units_in_use().begin(), units_in_use().end());
    for (const std::string& name : names) {
        const auto unit = name == got.unit_name ? got.unit : read_unit(name);
        if (!unit || unit->dimension != got.unit->dimension) continue;
        const double allowed = tolerance.amount ? unit->step_from_si(got.unit->step_to_si(*tolerance.amount))
                                                : tolerance.around(e);
        if (std::abs(unit->from_si(si) - e) <= allowed)
            return {"unclear: right if the right answer is in {}; give it with its unit", {name}};
    }
    return {};
}

Sentence mark_number(const Input& answer, const Input& expected, const Input& tolerance,
                     const Reading& reading) {
    const auto wanted = read_answer("expected", expected, reading);
    if (!wanted) refuse("expected", "is missing");
    const auto got = read_answer("answer", answer, reading);
    const double e = wanted->value;
    // A blank cell reaches a function as the number 0.
    if (!got || (!got->unit && !got->counts && got->value == 0 && e != 0)) return "no answer yet";
    const Tolerance allowed = read_tolerance(tolerance, *got, *wanted, reading);
    if (got->counts || wanted->counts)
        return got->unit || wanted->unit ? kSomethingElse : mark_count(got->value, e);

    if (got->physical()) {
        if (wanted->unit) {
            if (wanted->unit->dimension != got->unit->dimension) return kSomethingElse;
            return marked(wanted->unit->from_si(got->unit->to_si(got->value)), e, allowed, wanted->unit,
                          wanted->unit_name);
        }
        if (Sentence said = unclear(*got, e, allowed); !said.empty()) return said;
        return marked(got->value, e, allowed, got->unit, got->unit_name);
    }
    if (wanted->physical()) {
        if (got->unit) return kSomethingElse;
        Sentence said = marked(got->value, e, allowed, wanted->unit, wanted->unit_name);
        if (said.form == kRight) return {"unit missing: the number is right in {}", {wanted->unit_name}};
        if (fits(*wanted->unit, Kind::time) &&
            std::abs(wanted->unit->from_si(got->value * 86400) - e) <= allowed.around(e))
            return "unclear: right if the cell holds a clock time; give it with its unit";
        return said;
    }

    // Shares and ratios: in the right answer's unit, on its basis; a number without one may be either.
    const Unit common = wanted->unit.value_or(Unit{});
    const auto right = [&](double x) { return marked(x, e, allowed, wanted->unit, {}).form == kRight; };
    if (!got->unit) {
        if (common.form == RatioForm::percent && right(100 * got->value)) return kRight;
        return marked(got->value, e, allowed, wanted->unit, {});
    }
    const double si = got->unit->to_si(got->value);
    const double same = common.from_si(si);
    if (got->unit->basis != Basis::unsaid && common.basis != Basis::unsaid &&
        got->unit->basis != common.basis) {
        if (got->unit->basis == Basis::wet && si >= 1) return kWholeWet;
        return marked(common.from_si(other_basis(si, got->unit->basis)), e, allowed, wanted->unit, {});
    }
    if (right(same) || (!wanted->unit && right(got->value))) return kRight;
    if (got->unit->basis != Basis::unsaid && common.basis == Basis::unsaid &&
        !(got->unit->basis == Basis::wet && si >= 1) &&
        right(common.from_si(other_basis(si, got->unit->basis))))
        return got->unit->basis == Basis::wet
                   ? "unclear: right if the right answer is on the dry basis; give it with its basis"
                   : "unclear: right if the right answer is on the wet basis; give it with its basis";
    return marked(same, e, allowed, wanted->unit ? wanted->unit : got->unit, {});
}

}  // namespace

Sentence mark_call(const Input& answer, const Call& call) {
    const Function& function = call.function;
    const double e = std::get<double>(value(call));
    const auto got = read_answer("answer", answer, call.reading);
    if (!got || (!got->unit && !got->counts && got->value == 0 && e != 0)) return "no answer yet";
    if (got->counts && !function.count) return kSomethingElse;
    const Unit unit = function.result_unit.empty() ? Unit{} : read_unit(function.result_unit).value();
    double a = got->value;
    if (got->unit) {
        if (got->unit->dimension != unit.dimension) return kSomethingElse;
        double si = got->unit->to_si(a);
        if (got->unit->basis != Basis::unsaid && unit.basis != Basis::unsaid &&
            got->unit->basis != unit.basis) {
            if (got->unit->basis == Basis::wet && si >= 1) return kWholeWet;
            si = other_basis(si, got->unit->basis);
        }
        a = unit.from_si(si);
    }
    Tolerance allowed;
    if (function.gives == Kind::temperature) allowed.amount = kKelvins;
    if (function.count) allowed.amount = 0;
    const std::vector<Slip> usual = slips(call);
    const auto gap = [&](double x) { return std::abs(a - x); };
    const auto near = [&](double x) {
        return gap(x) <= (function.count ? kRelative * std::abs(x) : allowed.around(x));
    };
    const auto nearest =
        std::ranges::min_element(usual, {}, [&](const Slip& slip) { return gap(slip.answer); });
    const bool slipped = nearest != usual.end() && near(nearest->answer) && gap(nearest->answer) < gap(e);
    if (a == e || (gap(e) <= allowed.around(e) && !slipped)) return kRight;
    if (got->physical() && call.masses_as_given && std::abs(got->value - e) <= allowed.around(e))
        return {"unclear: right if the masses were given in {}; give them with their unit", {got->unit_name}};
    if (slipped) return nearest->sentence;
    if (function.count) return kUncounted;
    return gap(e) <= kClose * allowed.around(e) ? close_by(a, e, function.result_unit, allowed) : "wrong";
}

std::string mark(const Input& answer, const Input& expected, const Input& tolerance, const Reading& reading) {
    return written(mark_number(answer, expected, tolerance, reading), reading);
}

}  // namespace drysheet
