// SPDX-License-Identifier: MPL-2.0
#include "addin/call/answer.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "addin/call/refusal.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/worded_unit.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

// The digits and signs of an exponent, raised ones too, as plain ones; takes them from the front.
std::string exponent_at(std::string_view& rest) {
    static constexpr std::array<std::pair<std::string_view, char>, 14> kRaised{{{"⁻", '-'},
                                                                                {"⁺", '+'},
                                                                                {"−", '-'},
                                                                                {"^", '^'},
                                                                                {"⁰", '0'},
                                                                                {"¹", '1'},
                                                                                {"²", '2'},
                                                                                {"³", '3'},
                                                                                {"⁴", '4'},
                                                                                {"⁵", '5'},
                                                                                {"⁶", '6'},
                                                                                {"⁷", '7'},
                                                                                {"⁸", '8'},
                                                                                {"⁹", '9'}}};
    std::string plain;
    for (bool more = true; more && !rest.empty();) {
        more = false;
        if (digit(rest.front()) || rest.front() == '-' || rest.front() == '+') {
            plain += rest.front();
            rest.remove_prefix(1);
            more = true;
        }
        for (const auto& [raised, as] : kRaised)
            if (rest.starts_with(raised)) {
                if (as != '^') plain += as;
                rest.remove_prefix(raised.size());
                more = true;
            }
    }
    return plain;
}

// "1.35 × 10^-3" as "1.35e-3".
std::string without_powers_of_ten(std::string_view text) {
    for (const std::string_view times : {"×", "·", "⋅", "*", "x", "X"}) {
        const auto at = text.find(times);
        if (at == std::string_view::npos || at == 0) continue;
        std::string_view rest = trimmed(text.substr(at + times.size()));
        const std::string_view number = trimmed(text.substr(0, at));
        if (!rest.starts_with("10") || number.empty() || !digit(number.back())) continue;
        rest.remove_prefix(2);
        const std::string exponent = exponent_at(rest);
        if (exponent.empty()) continue;
        return std::string(number) + "e" + exponent + std::string(rest);
    }
    return std::string(text);
}

// A unit with the words that say of what: "kg water/kg dry solids", and with a product below the line.
std::optional<Unit> read_worded_unit(std::string_view text) {
    if (const auto unit = read_written_unit(text)) return unit;
    const auto [plain, basis] = without_nouns(text, true);
    auto unit = read_unit(plain);
    const auto line = plain.find('/');
    if (!unit && line != std::string::npos && plain.find('(') == std::string::npos)
        unit = read_unit(plain.substr(0, line + 1) + "(" + plain.substr(line + 1) + ")");
    if (unit && unit->basis == Basis::unsaid) unit->basis = basis;
    return unit;
}

bool counts_things(std::string_view word) {
    static constexpr std::array kThings{"tray",   "batch", "batche", "piece", "pack", "bag",
                                        "pouche", "pouch", "box",    "boxe",  "run",  "load",
                                        "pc",     "pcs",   "sachet", "jar",   "crate"};
    std::string thing = lower(word);
    if (thing.ends_with('s') && thing != "pcs") thing.pop_back();
    return std::ranges::find(kThings, thing) != kThings.end();
}

}  // namespace

std::optional<Answer> read_answer(std::string_view argument, const Input& given, const Reading& reading) {
    if (given.form == Input::Form::grid && given.cells.size() != 1)
        refuse(argument, {"one value is wanted, and {} was given", {in_a_sentence(given)}});
    const Input& input = given.form == Input::Form::grid ? given.cells.front() : given;
    if (input.blank()) return std::nullopt;
    if (input.form == Input::Form::number) return Answer{.value = input.number};
    std::string storage;
    const std::string text = without_powers_of_ten(plain_spaces(input.text, storage));
    const QuantityText read = read_quantity(text, reading);
    Answer answer{.value = read.value, .unit_name = std::string(read.said)};
    if (read.fault == TextFault::none) {
        if (!read.said.empty()) answer.unit = read.unit;
        return answer;
    }
    if (read.fault != TextFault::unknown_unit)
        refuse(argument, {"{} is not a number, with or without a unit", {in_a_sentence(input)}});
    answer.counts = counts_things(read.said);
    if (!answer.counts) answer.unit = read_worded_unit(read.said);
    if (!answer.counts && !answer.unit) refuse(argument, {"\"{}\" is not a unit known here", {read.said}});
    return answer;
}

}  // namespace drysheet
