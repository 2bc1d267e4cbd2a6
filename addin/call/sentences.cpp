// SPDX-License-Identifier: MPL-2.0
#include "addin/call/sentences.hpp"

#include <algorithm>
#include <cmath>

#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool share(Kind kind) {
    return kind == Kind::moisture_wet || kind == Kind::relative_humidity || kind == Kind::water_activity ||
           kind == Kind::fraction;
}
std::string_view unit_beside(const Parameter& param) {
    return share(param.kind) ? std::string_view{} : param.shown_unit;
}
// The same beside what was given: of a plain mass only the sheet knows the unit.
std::string_view unit_beside(const Parameter& param, const Input& given) {
    return param.kind == Kind::mass && given.form == Input::Form::number ? std::string_view{}
                                                                         : unit_beside(param);
}

using Part = Sentence::Part;
Part number(double x, std::string_view unit = {}) { return {x, unit, 10}; }
// An amount in a unit, or in its kind's own.
Part in_unit(const Amount& amount, std::string_view unit) {
    if (unit.empty()) unit = row_of(amount.kind).default_unit;
    return {shown(amount, unit), unit};
}

// "12.5 g", a quantity as it may be written.
Part example(const Parameter& param) {
    if (param.kind == Kind::water_activity) return 0.6;
    if (share(param.kind)) return {12.5, "%"};
    return {param.kind == Kind::moisture_dry ? 0.5 : 12.5, param.shown_unit};
}

// The bounds in words: "above 0 g", "from 0 to 1".
Sentence bounds(const Limits& limits, std::string_view unit) {
    const bool low = std::isfinite(limits.low), high = std::isfinite(limits.high);
    const Part from(limits.low, low && high ? std::string_view{} : unit), to(limits.high, unit);
    if (low && high) {
        if (limits.low_open)
            return {limits.high_open ? "above {} to below {}" : "above {} to {}", {from, to}};
        return {limits.high_open ? "from {} to below {}" : "from {} to {}", {from, to}};
    }
    if (low) return {limits.low_open ? "above {}" : "at least {}", {from}};
    if (high) return {limits.high_open ? "below {}" : "at most {}", {to}};
    return "any number";
}

// A number, or a text with nothing but a number.
bool is_plain(const Input& input) {
    return input.form == Input::Form::number ||
           (input.form == Input::Form::text &&
            input.text.find_first_not_of("0123456789.,+-± ") == std::string::npos);
}

// What was probably meant by a number that is refused; empty where it cannot be told.
Sentence hint(const Parameter& param, const Input& input, double x) {
    const bool plain = is_plain(input);
    const Kind kind = param.kind;
    const auto is = [&](std::string_view unit, double meant) {
        return Sentence{"{} is {}", {number(x, unit), number(meant)}};
    };
    if (share(kind) && x > 1 && x <= 100) {
        const bool may_be_dry = kind == Kind::moisture_wet && x <= 20;
        if (plain && x >= 2 && may_be_dry)
            return {"a fraction is wanted; {}; a dry basis of {} kg/kg is written \"{} db\"",
                    {is("%", x / 100), x, x}};
        if (plain && x >= 2) return {"a fraction is wanted; {}", {is("%", x / 100)}};
        if (plain && may_be_dry)
            return {"a fraction is wanted; a dry basis of {} kg/kg is written \"{} db\"", {x, x}};
        if (may_be_dry) return {"a fraction is wanted; a dry basis is written \"{} % db\"", {100 * x}};
        return "a fraction is wanted";
    }
    if (kind == Kind::moisture_wet && x == 1) return "nothing but water has no solids to dry";
    if (plain && share(kind) && x > param.range.high) return {"a fraction is wanted; {}", {is("%", x / 100)}};
    if (plain && x >= 2 && kind == Kind::moisture_dry && x > param.range.high)
        return {"kg of water to a kg of solids is wanted; {}", {is("%", x / 100)}};
    if (plain && x >= 1 && x <= 500 && kind == Kind::humidity_ratio)
        return {"kg of water to a kg of dry air is wanted; {}", {is("g/kg", x / 1000)}};
    if (plain && x >= 300 && x <= 1200 && kind == Kind::pressure)
        return {"kPa is wanted; {}", {is("hPa", x / 10)}};
    if (plain && x >= 30000 && x <= 120000 && kind == Kind::pressure)
        return {"kPa is wanted; {}", {is("Pa", x / 1000)}};
    if (plain && x > 2 && kind == Kind::moisture_ratio)
        return "it is 1 at the start; weights become ratios by DRY.RATIOS";
    if (x == 0 && input.form == Input::Form::number) return "a blank cell reads as 0";
    if (x < 0 && kind != Kind::temperature) return "a minus sign too many, or two cells changed places";
    return {};
}

// The sentence, and behind it what was probably meant.
Sentence with_hint(Sentence sentence, std::string_view form, const Sentence& meant) {
    return meant.empty() ? sentence : Sentence{form, {std::move(sentence), meant}};
}

}  // namespace

Sentence allowed(const Parameter& param) {
    if (!std::isfinite(param.range.low) && !std::isfinite(param.range.high)) return {};
    return bounds(param.range, unit_beside(param));
}

void refuse(const Parameter& param, Sentence why) { refuse(param.name, std::move(why)); }

void refuse_outside(const Parameter& param, const Input& input, double x, double si) {
    const Part given = in_a_sentence(input);
    if (!std::isfinite(x)) refuse(param, {"{} is not a number", {given}});
    const Limits& possible = row_of(param.kind).limits;
    const Sentence meant = hint(param, input, x);
    constexpr std::string_view meaning = "{}: {}";
    if (possible.hold(si))
        refuse(param, with_hint({"{} is outside the range; allowed is {}",
                                 {given, bounds(param.range, unit_beside(param, input))}},
                                meaning, meant));
    if (share(param.kind) && x > 1) refuse(param, with_hint({"{} is above 1", {given}}, meaning, meant));
    const Limits in_unit{.low = param.read_in.from_si(possible.low),
                         .high = param.read_in.from_si(possible.high),
                         .low_open = possible.low_open,
                         .high_open = possible.high_open};
    refuse(param,
           with_hint({"{} is impossible; allowed is {}", {given, bounds(in_unit, unit_beside(param, input))}},
                     meaning, meant));
}

namespace {

[[noreturn]] void refuse_unknown_unit(const Parameter& param, std::string_view unit) {
    Sentence why = {"a plain number is read in {}", {param.shown_unit}};
    if (unit == "gr")
        why = "write g for a gram, grain for a grain";
    else if (unit.starts_with(":"))
        why = "half past six is written \"6:30\" or \"6.5 h\"";
    else if (unit.find('/') != std::string_view::npos && unit.find("·") != std::string_view::npos)
        why = "a product below the line is written in brackets, as in \"g/(m²·day)\"";
    else if (param.shown_unit.empty())
        why = "a plain number is read in no unit";
    refuse(param, {"\"{}\" is not a unit known here; {}", {unit, std::move(why)}});
}

}  // namespace

void refuse_text(const Parameter& param, const Input& input, const QuantityText& text) {
    const Part given = in_a_sentence(input);
    switch (text.fault) {
        case TextFault::none:
        case TextFault::uncertainty:
            break;
        case TextFault::no_number:
            if (read_unit(input.text))
                refuse(param,
                       {"{} has no number: a heading, or a unit whose cell before it is blank", {given}});
            refuse(param, {"{} does not begin with a number; write it like \"{}\"", {given, example(param)}});
        case TextFault::comma:
            refuse(param, {kCommaUnclear, {given}});
        case TextFault::thousands:
            refuse(param, {"{} is ambiguous: it may hold a thousands separator; write the number without one",
                           {given}});
        case TextFault::unknown_unit:
            refuse_unknown_unit(param, text.said);
        case TextFault::two_values:
            refuse(param, {"\"{}\" has more than one value: {}", {text.said, two_values_of(text.said)}});
        case TextFault::parts:
            refuse(param,
                   {"{} is not one quantity: parts of one dimension are wanted, the larger unit first, as in "
                    "\"2 lb 3 oz\"",
                    {given}});
    }
    refuse(param, {"{} has no readable uncertainty; write it like \"412.5 ± 0.1 g\"", {given}});
}

void refuse_unit(const Parameter& param, const Input& input, const Unit& unit) {
    const Sentence name = row_of(param.kind).name;
    const bool vowel = std::string_view("aeiou").find(name.form.front()) != std::string_view::npos;
    Sentence why{vowel ? "{} is not an {}" : "{} is not a {}", {in_a_sentence(input), name}};
    if (param.kind == Kind::humidity_ratio && unit.form == RatioForm::percent)
        why = {"{} (a percentage looks like a relative humidity)", {std::move(why)}};
    if (param.kind == Kind::relative_humidity && unit.form == RatioForm::mass_ratio)
        why = {"{} (grams per kilogram look like a humidity ratio)", {std::move(why)}};
    if (param.kind == Kind::moisture_wet && unit.form == RatioForm::mass_ratio && unit.basis == Basis::unsaid)
        refuse(param, {"{}; a dry basis says so: \"{} db\"", {std::move(why), input.text}});
    if (param.shown_unit.empty()) refuse(param, {"{}; a plain number is wanted", {std::move(why)}});
    refuse(param, {"{}; a unit like {} is wanted", {std::move(why), param.shown_unit}});
}

namespace {

// What a refusal of the core speaks of: the argument's own name, its unit and kind, what was given for it.
struct Subject {
    std::string_view table, unit;
    Kind kind = Kind::number;
    std::vector<Part> given;
    Sentence meant;
};

Subject subject_of(const Call& call, const NoResult& refused) {
    Subject subject{.unit = refused.argument().empty() ? call.function.result_unit : std::string_view{}};
    for (std::size_t i = 0; i < call.values.size(); ++i) {
        const Parameter& param = call.function.params[i];
        if (param.name == refused.argument()) {
            subject.unit = param.shown_unit;
            subject.kind = param.kind;
            if (i >= call.typed.size() || call.typed[i].form == Input::Form::missing) return subject;
            const Input& given = call.typed[i];
            if (given.form == Input::Form::number && param.shape == Shape::scalar) {
                subject.given.push_back(number(given.number, unit_beside(param, given)));
                subject.meant = hint(param, given, given.number);
            } else {
                subject.given.emplace_back(in_a_sentence(given));
            }
            return subject;
        }
        const auto row = std::ranges::find(param.rows, refused.argument(), &Parameter::name);
        if (row == param.rows.end() || call.values[i].rows.empty()) continue;
        subject.table = param.name;
        subject.unit = row->shown_unit;
        subject.kind = row->kind;
        for (const Input& cell :
             call.values[i].rows[static_cast<std::size_t>(row - param.rows.begin())].typed)
            subject.given.push_back(subject.given.empty() ? in_a_sentence(cell)
                                                          : Part(cell.text));  // the unit beside it
        return subject;
    }
    return subject;
}

}  // namespace

Refusal in_sentence(const Call& call, const NoResult& refused) {
    const Subject subject = subject_of(call, refused);
    std::vector<Part> amounts;
    for (const Amount& amount : refused.amounts()) {
        const bool unit_open = amount.kind == Kind::mass && call.masses_as_given;
        if (unit_open || (share(amount.kind) && amount.kind != Kind::moisture_wet))
            amounts.emplace_back(shown(amount));
        else
            amounts.push_back(
                in_unit(amount, amount.kind == subject.kind ? subject.unit : std::string_view{}));
    }
    const auto* in_words = dynamic_cast<const NoResultInWords*>(&refused);
    Sentence why = in_words != nullptr ? in_words->why() : Sentence{refused.reason(), std::move(amounts)};
    if (subject.given.size() == 1)
        why = {"{} {}", {subject.given[0], std::move(why)}};
    else if (subject.given.size() > 1)
        why = {"{} {} {}", {subject.given[0], subject.given[1], std::move(why)}};
    why = with_hint(std::move(why), "{}; {}", subject.meant);
    const bool search = dynamic_cast<const NoConvergence*>(&refused) != nullptr;
    const Refusal refusal(search ? Refusal::Reason::no_solution : Refusal::Reason::argument,
                          std::string(refused.argument()), std::move(why));
    if (refused.argument().empty())
        return refusal.under(call.function.result.empty() ? Sentence("the result")
                                                          : as_it_is(std::string(call.function.result)));
    return subject.table.empty() ? refusal
                                 : refusal.under({"{} table, {}", {subject.table, refused.argument()}});
}

}  // namespace drysheet
