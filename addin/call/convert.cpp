// SPDX-License-Identifier: MPL-2.0
#include "addin/call/convert.hpp"

#include "addin/call/named_call.hpp"
#include "addin/call/sentences.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"
#include "drysheet/moisture.hpp"

namespace drysheet {
namespace {

const Input& one_cell(const std::string& argument, const Input& input) {
    if (input.form != Input::Form::grid) return input;
    if (input.cells.size() != 1)
        refuse(argument, {"one value is wanted, and {} was given", {in_a_sentence(input)}});
    return input.cells.front();
}

Unit unit_named(const std::string& argument, const Input& given) {
    const Input& input = one_cell(argument, given);
    if (input.blank()) refuse(argument, "is missing; write a unit in quotes, such as \"kg\"");
    std::string storage;
    const auto unit =
        input.form == Input::Form::text ? read_written_unit(plain_spaces(input.text, storage)) : std::nullopt;
    if (!unit) refuse(argument, {"{} is not a unit known here", {in_a_sentence(input)}});
    return *unit;
}

// What a unit measures, in words: the first kind that takes it.
Sentence measures(const Unit& unit) {
    if (unit.dimension == Dimension{}) return "a ratio";
    for (const KindRow& row : kKinds)
        if (fits(unit, row.kind)) return {"a {}", {Sentence(row.name)}};
    return "something else";
}

struct Read {
    double value = 0;
    Unit unit;
};
Read read(const Input& quantity, const Input& from_unit, const Reading& reading) {
    const Input& input = one_cell("quantity", quantity);
    if (input.blank()) refuse("quantity", "is missing");
    if (input.form == Input::Form::number) {
        if (one_cell("from_unit", from_unit).blank())
            refuse("from_unit",
                   {"is missing: {} of what? Name its unit, or write it as a text like \"{} kg\"",
                    {input.number, input.number}});
        return {input.number, unit_named("from_unit", from_unit)};
    }
    std::string storage;
    const QuantityText text = read_quantity(plain_spaces(input.text, storage), reading);
    if (text.fault == TextFault::unknown_unit)
        refuse("quantity", {"\"{}\" is not a unit known here", {text.said}});
    if (text.fault == TextFault::two_values)
        refuse("quantity", {"\"{}\" has more than one value: {}", {text.said, two_values_of(text.said)}});
    if (text.fault == TextFault::comma) refuse("quantity", {kCommaUnclear, {in_a_sentence(input)}});
    if (text.fault != TextFault::none)
        refuse("quantity", {"{} is not a number with a unit", {in_a_sentence(input)}});
    if (text.said.empty()) return {text.value, unit_named("from_unit", from_unit)};
    if (!one_cell("from_unit", from_unit).blank())
        refuse("from_unit", {"is one too many: {} has a unit already", {in_a_sentence(input)}});
    return {text.value, text.unit};
}

}  // namespace

double convert(const Input& quantity, const Input& to_unit, const Input& from_unit, const Reading& reading) {
    const auto [value, from] = read(quantity, from_unit, reading);
    const Unit to = unit_named("to_unit", to_unit);
    const Sentence given = in_a_sentence(one_cell("quantity", quantity));
    if (from.dimension != to.dimension)
        refuse("to_unit",
               {"{} measures {}, and {} is {}",
                {in_a_sentence(one_cell("to_unit", to_unit)), measures(to), given, measures(from)}});
    double si = from.to_si(value);
    const auto impossible = [&](Sentence allowed) {
        refuse("quantity", {"{} is impossible; {}", {given, std::move(allowed)}});
    };
    if (fits(from, Kind::temperature) && si < 0) impossible("nothing is colder than 0 K");
    if (from.basis != Basis::unsaid && (si < 0 || (from.basis == Basis::wet && si >= 1)))
        impossible("a moisture is not below 0, and on the wet basis below 1 (100 %)");
    if (from.basis != to.basis) {
        if (from.basis == Basis::unsaid || to.basis == Basis::unsaid)
            refuse(from.basis == Basis::unsaid ? "quantity" : "to_unit",
                   "the moisture's basis is said on one side only; write wb or db on both");
        try {
            si = from.basis == Basis::wet ? dry_basis(MoistureWet(si)).value()
                                          : wet_basis(MoistureDry(si)).value();
        } catch (const NoResult& refused) {
            refuse("quantity", {"{} {}", {given, Sentence(refused.reason())}});
        }
    }
    return to.from_si(si);
}

Function convert_entry() {
    Parameter from = as_it_stands("from_unit", "unit of a plain number");
    from.may_be_missing = true;
    return {.name = "IN",
            .topic = "trust",
            .summary = "A quantity in another unit, checked; moisture on the other basis too",
            .params = {as_it_stands("quantity",
                                    "a text such as \"140 °F\", or a number with its unit as third argument"),
                       as_it_stands("to_unit", "unit wanted, such as \"°C\", \"kg/m²\" or \"% db\""), from},
            .result = "converted",
            .unit_argument = 1,
            .range = "A temperature on its own is a reading of a thermometer, not a difference.",
            .source = "Exact factors: SI Brochure, 9th ed. (BIPM 2019); NIST SP 811 (2008) App. B.",
            .checks = {{{"140 °F", "°C"}, 60.0, 1e-12, "by hand: (140 − 32) ÷ 1.8"},
                       {{"1 lb", "g"}, 453.59237, 1e-15, "international pound, NIST SP 811"},
                       {{2.0, "h", "min"}, 2.0 / 60, 1e-15, "by hand: 2 min"},
                       {{"80 % wb", "kg/kg db"}, 4.0, 1e-12, "by hand: 0.8 ÷ 0.2"},
                       {{"4 db", "% wb"}, 80.0, 1e-12, "by hand: 4 ÷ 5"},
                       {{"29.92 inHg", "kPa"},
                        101.32,
                        1e-4,
                        "29.92 inHg is the standard atmosphere to four digits"},
                       {{"1 Btu/lb", "kJ/kg"}, 2.326, 1e-12, "NIST SP 811: exact"}},
            .refusals = {{{"140 °F", "kPa"}, "to_unit"},
                         {{"140 °F", "xyz"}, "to_unit"},
                         {{2.0, "h"}, "from_unit"},
                         {{"2 min", "h", "min"}, "from_unit"},
                         {{"warm", "°C"}, "quantity"},
                         {{"80 %", "% db"}, "quantity"},
                         {{"80 % wb", "%"}, "to_unit"},
                         {{"100 % wb", "db"}, "quantity"},
                         {{"150 % wb", "wb"}, "quantity"},
                         {{"-300 °C", "K"}, "quantity"}},
            .see_also = {"DRYBASIS", "WETBASIS"},
            .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
                const auto at = [&](std::size_t i) { return i < given.size() ? given[i] : Input(); };
                if (given.size() > 3) refuse("", "too many arguments: at most 3 are wanted");
                return convert(at(0), at(1), at(2), reading);
            }};
}

}  // namespace drysheet
