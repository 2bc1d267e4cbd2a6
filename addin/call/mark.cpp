#include "addin/call/mark.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/named_call.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

// An answer may be this many tolerances off and still count as rounded on the way.
constexpr double kRoundedEarly = 3;

struct Factor {
    double factor;  ///< answer over expected
    std::string_view words;
    Kind of = Kind::number;  ///< what it is a slip of; a number: of anything
};
constexpr Factor kUnits[] = {{1000, "1000 times too large: g for kg, or the like"},
                             {0.001, "1000 times too small: kg for g, or the like"},
                             {1e6, "a million times too large"},
                             {1e-6, "a million times too small"},
                             {60, "60 times too large: min for h, or s for min", Kind::time},
                             {1.0 / 60, "60 times too small: h for min, or min for s", Kind::time},
                             {3600, "3600 times too large: s for h, or kJ for kWh", Kind::time},
                             {1.0 / 3600, "3600 times too small: h for s, or kWh for kJ", Kind::time},
                             {24, "24 times too large: h for days", Kind::time},
                             {1.0 / 24, "24 times too small: days for h", Kind::time},
                             {453.59237, "g for lb", Kind::mass},
                             {1 / 453.59237, "lb for g", Kind::mass},
                             {0.45359237, "kg for lb", Kind::mass},
                             {1 / 0.45359237, "lb for kg", Kind::mass},
                             {28.349523125, "g for oz", Kind::mass},
                             {1 / 28.349523125, "oz for g", Kind::mass},
                             {25.4, "mm for in", Kind::length},
                             {1 / 25.4, "in for mm", Kind::length},
                             {3.6, "3.6 times too large: MJ for kWh, or km/h for m/s", Kind::energy},
                             {1 / 3.6, "3.6 times too small: kWh for MJ, or m/s for km/h", Kind::energy},
                             {100, "100 times too large: cm for m", Kind::length},
                             {0.01, "100 times too small: m for cm", Kind::length},
                             {10, "10 times too large: a decimal point out of place, or mm for cm"},
                             {0.1, "10 times too small: a decimal point out of place, or cm for mm"}};

// A unit of mass has no slips of time; a rate may have any.
bool may_be(Kind slip, const std::optional<Unit>& unit) {
    if (!unit || slip == Kind::number) return true;
    for (const Kind pure : {Kind::mass, Kind::time, Kind::length, Kind::temperature})
        if (fits(*unit, pure)) return slip == pure;
    return true;
}

struct Given {
    double value = 0;
    std::optional<Unit> unit;
};

std::optional<Given> read(const std::string& argument, const Input& given, const Reading& reading) {
    if (given.form == Input::Form::grid && given.cells.size() != 1)
        refuse(argument, {"one value is wanted, and {} was given", {in_words(given)}});
    const Input& input = given.form == Input::Form::grid ? given.cells.front() : given;
    if (input.blank()) return std::nullopt;
    if (input.form == Input::Form::number) return Given{input.number, std::nullopt};
    std::string storage;
    const auto [typed, what] = read_typed(plain_spaces(input.text, storage), reading);
    if (what != TextFault::none)
        refuse(argument, {"{} is not a number, with or without a unit", {in_words(input)}});
    if (typed.unit.empty()) return Given{typed.value, std::nullopt};
    const auto unit = read_unit(typed.unit);
    if (!unit) refuse(argument, {"\"{}\" is not a unit known here", {typed.unit}});
    return Given{typed.value, unit};
}

// The unit in which a plain number beside this one is meant: the default of the kind.
Unit usual(const Unit& unit) {
    if (unit.dimension == Dimension{}) return {};
    for (std::size_t i = 0; i < kKinds.size(); ++i) {
        const Kind kind = static_cast<Kind>(i);
        if (kind != Kind::temperature_difference && fits(unit, kind)) return default_unit(kind);
    }
    return {};
}

bool close(double a, double e, double tolerance) {
    return a == e || (std::isfinite(e) && std::abs(a - e) <= tolerance * std::abs(e));
}

struct UnitInUse {
    std::string_view name;
    Unit unit;
};

// The other units in which a function gives or takes a number: days beside hours, kWh/kg beside kJ/kg.
const std::vector<UnitInUse>& units_in_use() {
    static const std::vector<UnitInUse> all = [] {
        std::vector<UnitInUse> found;
        const auto add = [&](std::string_view name) {
            const auto unit = read_unit(name);
            if (unit && std::ranges::find(found, name, &UnitInUse::name) == found.end())
                found.push_back({name, *unit});
        };
        for (const Function& function : functions()) {
            add(function.result_unit);
            for (const Parameter& param : function.params) add(param.shown_unit);
        }
        return found;
    }();
    return all;
}

// A slip between fractions, percents and the bases of moisture; e is the right answer.
std::string slip_of_a_ratio(double a, double e, double tolerance) {
    constexpr double most = 20;  // kg of water to a kg of solids: wetter than any food
    const auto is = [&](double x) { return close(a, x, tolerance); };
    if (!(e > 0 && e <= 100 * most)) return "";
    if (e <= most && is(100 * e)) return "percent for fraction: the number is right, but 100 times too large";
    if (is(e / 100)) return "fraction for percent: the number is right, but 100 times too small";
    if (e < 1 && (is(e / (1 - e)) || is(100 * e / (1 - e))))
        return "wrong basis: this is the dry basis, and the wet basis was asked";
    if (e <= most && (is(e / (1 + e)) || is(100 * e / (1 + e))))
        return "wrong basis: this is the wet basis, and the dry basis was asked";
    if (e > 1 && e < 100 && is(100 * e / (100 - e)))
        return "wrong basis: this is the dry basis, and the wet basis was asked";
    if (e > 1 && is(100 * e / (100 + e)))
        return "wrong basis: this is the wet basis, and the dry basis was asked";
    if (e < 1 && (is(1 - e) || is(100 * (1 - e))))
        return "the other share: this and the right answer make a whole, as solids and water do";
    return "";
}

// unit: in which both stand, where it is known; none for a ratio.
std::string marked(double a, double e, double tolerance, const std::optional<Unit>& unit) {
    const auto is = [&](double x) { return close(a, x, tolerance); };
    if (is(e)) return "right";
    if (e != 0 && std::abs(a - e) <= kRoundedEarly * tolerance * std::abs(e))
        return "right, but rounded early: " + in_words(a) + " is " +
               in_words(100 * std::abs(a - e) / std::abs(e), 3) + " % off";
    if (!unit)
        if (std::string slip = slip_of_a_ratio(a, e, tolerance); !slip.empty()) return slip;
    if (is(1 / e)) return "inverted: this is 1 over the right answer";
    for (const auto& [factor, words, of] : kUnits)
        if (may_be(of, unit) && is(e * factor)) return "wrong unit: " + std::string(words);
    if (may_be(Kind::temperature, unit)) {
        if (is(1.8 * e + 32)) return "wrong unit: °F for °C";
        if (is((e - 32) / 1.8)) return "wrong unit: °C for °F";
        if (e > -273.15 && is(e + 273.15)) return "wrong unit: K for °C";
    }
    if (is(-e)) return "wrong sign: the size is right";
    return "wrong";
}

}  // namespace

std::string mark(const Input& answer, const Input& expected, double tolerance, const Reading& reading) {
    const auto wanted = read("expected", expected, reading);
    if (!wanted) refuse("expected", "is missing");
    const auto got = read("answer", answer, reading);
    if (!got) return "no answer yet";
    const double e = wanted->value;
    double a = got->value;
    if (got->unit && wanted->unit && got->unit->dimension != wanted->unit->dimension)
        return "wrong unit: it measures something else";
    const auto measures = [](const std::optional<Given>& given) {
        return given->unit && given->unit->dimension != Dimension{};
    };
    if (got->unit) {
        // In the unit of the right answer; where that is a plain number, in the unit such a number is meant
        // in.
        const Unit common = wanted->unit ? *wanted->unit : usual(*got->unit);
        double si = got->unit->to_si(a);
        if (got->unit->basis != common.basis && got->unit->basis != Basis::unsaid &&
            common.basis != Basis::unsaid)
            si = other_basis(si, got->unit->basis);
        a = common.from_si(si);
        if (measures(got) && !wanted->unit && !close(a, e, tolerance))
            for (const auto& [name, unit] : units_in_use())
                if (unit.dimension == got->unit->dimension && close(unit.from_si(si), e, tolerance))
                    return "unclear: right if the right answer is in " + std::string(name) +
                           "; give it with its unit";
    }
    // A blank cell reaches a function as the number 0.
    if (!got->unit && a == 0 && e != 0) return "no answer yet";
    // A fraction where percents were asked is the same moisture.
    if (!got->unit && wanted->unit && wanted->unit->form == RatioForm::percent &&
        close(100 * a, e, tolerance))
        return "right";
    return marked(a, e, tolerance,
                  measures(wanted) ? wanted->unit
                  : measures(got)  ? got->unit
                                   : std::nullopt);
}

Function mark_entry() {
    Parameter tolerance = detail::complete({.name = "tolerance",
                                            .text = "how far off still counts as right, relative",
                                            .range = above_up_to(0, 0.2),
                                            .otherwise = 0.01},
                                           Kind::fraction, Shape::scalar, false, {});
    return {
        .name = "MARK",
        .topic = "trust",
        .summary =
            "Marks a student's answer and says what went wrong: rounded early, wrong basis, percent for "
            "fraction, wrong unit, inverted",
        .params = {as_it_stands("answer", "what the student wrote, with or without a unit"),
                   as_it_stands("expected", "the right answer, usually a formula"), tolerance},
        .result = "mark",
        .range =
            "The text begins with the verdict: no answer yet; right; unclear (a unit that a plain right "
            "answer leaves open); right, but rounded early (within 3 tolerances); wrong basis; the other "
            "share; percent for fraction; fraction for percent; wrong unit; inverted; wrong sign; wrong.",
        .source = "Relative difference; the known slips are compared one by one.",
        .checks = {{{25.1, 25.0}, "right", 0, "by hand: 0.4 % off", "", 2, true},
                   {{25.6, 25.0}, "right, but rounded early", 0, "by hand: 2.4 % off", "", 2, true},
                   {{4.0, 0.8}, "wrong basis: this is the dry basis", 0, "by hand: 0.8 ÷ 0.2", "", 2, true},
                   {{0.8, 4.0}, "wrong basis: this is the wet basis", 0, "by hand: 4 ÷ 5", "", 2, true},
                   {{80.0, 0.8}, "percent for fraction", 0, "by hand", "", 2, true},
                   {{0.025, 25.0}, "wrong unit: 1000 times too small", 0, "by hand", "", 2, true},
                   {{0.25, 4.0}, "inverted", 0, "by hand", "", 2, true},
                   {{"0.025 kg", 25.0}, "right", 0, "25 g", "", 2, true},
                   {{0.0, 25.0}, "no answer yet", 0, "a blank cell", "", 2, true},
                   {{7.3, 25.0}, "wrong", 0, "by hand", "", 2, true}},
        .refusals = {{{25.0}, "expected"},
                     {{"about 25", 25.0}, "answer"},
                     {{25.0, 25.0, 5.0}, "tolerance"},
                     {{column(1.0, 2.0), 25.0}, "answer"}},
        .see_also = {"WORKING", "WHY"},
        .raw = [tolerance](std::span<const Input> given, const Reading& reading) -> Outcome {
            const auto at = [&](std::size_t i) { return i < given.size() ? given[i] : Input(); };
            if (given.size() > 3) refuse("", "too many arguments: at most 3 are wanted");
            return mark(at(0), at(1), read_measured(tolerance, at(2), reading).value, reading);
        }};
}

}  // namespace drysheet
