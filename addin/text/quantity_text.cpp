// SPDX-License-Identifier: MPL-2.0
#include "addin/text/quantity_text.hpp"

#include <charconv>
#include <cmath>
#include <span>

#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

void skip_spaces(std::string_view& rest) {
    while (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
}
bool take(std::string_view& rest, std::string_view token) {
    if (!rest.starts_with(token)) return false;
    rest.remove_prefix(token.size());
    return true;
}

// "1 200": behind at most three digits, then in threes, exactly three digits after a space.
bool thousands_follow(std::string_view rest, std::size_t digits_before, bool grouped) {
    if (!grouped && (digits_before == 0 || digits_before > 3)) return false;
    for (std::size_t i = 1; i <= 3; ++i)
        if (i >= rest.size() || !digit(rest[i])) return false;
    return rest.size() == 4 || !digit(rest[4]);
}

// A number with a point, or with a comma where the locale writes one.
TextFault take_number(std::string_view& rest, const Reading& reading, double& value) {
    std::string_view sign_taken = rest;
    const bool negative = take(sign_taken, "-") || take(sign_taken, "−");
    if (!negative) take(sign_taken, "+");
    std::size_t end = 0, whole_digits = 0, decimals = 0, points = 0, commas = 0;
    bool grouped = false;
    for (; end < sign_taken.size(); ++end) {
        const char c = sign_taken[end];
        if (c == ' ' && points + commas == 0 &&
            thousands_follow(sign_taken.substr(end), whole_digits, grouped)) {
            grouped = true;
            continue;
        }
        if (digit(c)) {
            (points + commas == 0 ? whole_digits : decimals) += 1;
        } else if (c == '.' && end + 1 < sign_taken.size() && digit(sign_taken[end + 1])) {
            ++points;
        } else if (c == '.' && whole_digits > 0 && points + commas == 0) {
            ++points;  // "5. g"
        } else if (c == ',' && end + 1 < sign_taken.size() && digit(sign_taken[end + 1])) {
            ++commas;
        } else {
            break;
        }
    }
    if (whole_digits + decimals == 0) return TextFault::no_number;
    if (commas > 0 && !reading.decimal_comma) return TextFault::comma;
    if (points + commas > 1) return TextFault::thousands;
    // In a comma locale "1.200" is one thousand two hundred to most readers.
    if (points == 1 && reading.decimal_comma && decimals == 3 && whole_digits > 0 && whole_digits <= 3 &&
        sign_taken.front() != '0')
        return TextFault::thousands;
    if (end + 1 < sign_taken.size() && (sign_taken[end] == 'e' || sign_taken[end] == 'E')) {
        std::size_t power = end + 1;
        if (sign_taken[power] == '-' || sign_taken[power] == '+') ++power;
        if (power < sign_taken.size() && digit(sign_taken[power])) {
            while (power < sign_taken.size() && digit(sign_taken[power])) ++power;
            end = power;
        }
    }
    std::string with_point;
    std::string_view digits = sign_taken.substr(0, end);
    if (commas > 0 || grouped) {
        with_point = digits;
        std::erase(with_point, ' ');
        if (commas > 0) with_point[with_point.find(',')] = '.';
        digits = with_point;
    }
    const auto [stop, failed] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (failed != std::errc{} || !std::isfinite(value)) return TextFault::no_number;
    if (negative) value = -value;
    sign_taken.remove_prefix(end);
    rest = sign_taken;
    return TextFault::none;
}

bool take_plus_minus(std::string_view& rest) {
    return take(rest, "±") || take(rest, "+/-") || take(rest, "+-");
}

}  // namespace

std::string_view plain_spaces(std::string_view text, std::string& storage) {
    bool odd = false;
    for (const char c : text) odd |= c == '\xC2' || c == '\xE2' || c == '\t';
    if (odd) {
        storage.clear();
        for (std::size_t i = 0; i < text.size(); ++i) {
            const std::string_view rest = text.substr(i);
            if (rest.starts_with("\u00A0")) {
                storage += ' ';
                i += 1;
            } else if (rest.starts_with("\u202F") || rest.starts_with("\u2009")) {
                storage += ' ';
                i += 2;
            } else {
                storage += text[i] == '\t' ? ' ' : text[i];
            }
        }
        text = storage;
    }
    skip_spaces(text);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

TypedOrFault read_typed(std::string_view text, const Reading& reading) {
    TypedOrFault result;
    std::string_view rest = text;
    const bool bracketed = take(rest, "(");  // "(412.5 ± 0.1) g"
    skip_spaces(rest);
    if ((result.fault = take_number(rest, reading, result.typed.value)) != TextFault::none) return result;
    skip_spaces(rest);
    std::string_view unit_of_value;
    for (const std::string_view sign : {"±", "+/-", "+-"})
        if (const auto at = rest.find(sign); at != std::string_view::npos && !bracketed) {
            unit_of_value = rest.substr(0, at);  // "412.5 g ± 0.1 g"
            while (!unit_of_value.empty() && unit_of_value.back() == ' ') unit_of_value.remove_suffix(1);
            rest.remove_prefix(at);
            break;
        }
    if (take_plus_minus(rest)) {
        skip_spaces(rest);
        result.fault = take_number(rest, reading, result.typed.uncertainty);
        if (result.fault != TextFault::none || result.typed.uncertainty < 0) {
            if (result.fault == TextFault::none || result.fault == TextFault::no_number)
                result.fault = TextFault::uncertainty;
            return result;
        }
        skip_spaces(rest);
    }
    if (bracketed && !take(rest, ")")) {
        result.fault = TextFault::no_number;
        return result;
    }
    skip_spaces(rest);
    if (!unit_of_value.empty()) {
        if (!rest.empty() && rest != unit_of_value) {
            result.fault = TextFault::uncertainty;  // two units: which one is meant cannot be told
            return result;
        }
        rest = unit_of_value;
    }
    result.typed.unit = rest;
    return result;
}

namespace {

std::string_view without_end(std::string_view text) {
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

// "8.1 kg kg": the unit beside the number, where what stands behind it is a unit of the same dimension.
std::optional<QuantityText> with_unit_joined_on(const QuantityText& number) {
    const std::string_view text = number.said;
    for (auto at = text.rfind(' '); at != std::string_view::npos && at > 0; at = text.rfind(' ', at - 1)) {
        const auto first = read_written_unit(text.substr(0, at)),
                   second = read_written_unit(text.substr(at + 1));
        if (!first || !second || first->dimension != second->dimension) continue;
        // "% db" and "kg/kg db" are units as they stand; "kg kg" would be one of kg²
        if (const auto whole = read_unit(text); whole && whole->dimension == first->dimension)
            return std::nullopt;
        QuantityText read = number;
        read.said = without_end(text.substr(0, at));
        read.unit = *first;
        return read;
    }
    return std::nullopt;
}

// "2 lb 3 oz": what follows the first unit is a part of the same quantity, in a smaller one.
std::optional<QuantityText> with_parts(const QuantityText& number, const Reading& reading) {
    for (std::size_t i = 1; i + 1 < number.said.size(); ++i) {
        if (number.said[i - 1] != ' ' || !digit(number.said[i])) continue;
        const auto unit = read_written_unit(number.said.substr(0, i));
        if (!unit) continue;
        QuantityText whole = number;
        whole.unit = *unit;
        const QuantityText rest = read_quantity(number.said.substr(i), reading);
        whole.fault = rest.fault;
        if (rest.fault == TextFault::none &&
            (rest.said.empty() || rest.unit.dimension != unit->dimension || rest.value < 0 ||
             unit->offset != 0 || rest.unit.step_to_si(1) >= unit->step_to_si(1)))
            whole.fault = TextFault::parts;
        if (whole.fault == TextFault::none) {
            const double part = unit->step_from_si(rest.unit.step_to_si(rest.value));
            whole.value += std::signbit(whole.value) ? -part : part;
            whole.uncertainty = unit->step_from_si(rest.unit.step_to_si(rest.uncertainty));
            whole.said = without_end(number.said.substr(0, i));
        }
        return whole;
    }
    return std::nullopt;
}

// "2 lb 3 oz ± 0.5 oz": the uncertainty of parts has a unit of its own.
std::optional<QuantityText> parts_with_uncertainty(std::string_view text, const Reading& reading) {
    for (const std::string_view sign : {"±", "+/-", "+-"}) {
        const auto at = text.find(sign);
        if (at == std::string_view::npos) continue;
        const auto [first, fault] = read_typed(without_end(text.substr(0, at)), reading);
        if (fault != TextFault::none) return std::nullopt;
        const auto whole = with_parts({.value = first.value, .said = first.unit}, reading);
        std::string_view behind = text.substr(at + sign.size());
        skip_spaces(behind);
        const QuantityText u = read_quantity(behind, reading);
        if (!whole || whole->fault != TextFault::none || u.fault != TextFault::none || u.said.empty() ||
            u.unit.dimension != whole->unit.dimension || u.value < 0)
            return std::nullopt;
        QuantityText read = *whole;
        read.uncertainty = whole->unit.step_from_si(u.unit.step_to_si(u.value));
        return read;
    }
    return std::nullopt;
}

// "10:30", "7:05:30" and the same with a unit of time behind it: in hours.
std::optional<QuantityText> clock(std::string_view text) {
    QuantityText read{.said = "h", .unit = read_unit("h").value(), .clock = true};
    double scale = 1;
    std::size_t parts = 0;
    for (;;) {
        std::size_t digits = 0;
        double number = 0;
        while (digits < text.size() && digit(text[digits])) number = 10 * number + (text[digits++] - '0');
        if (digits == 0 || digits > 3 || (parts > 0 && (digits != 2 || number >= 60))) return std::nullopt;
        read.value += number * scale;
        scale /= 60;
        text.remove_prefix(digits);
        if (++parts == 3 || !text.starts_with(':')) break;
        text.remove_prefix(1);
    }
    if (parts < 2) return std::nullopt;
    skip_spaces(text);
    if (text.empty()) return read;
    const auto joined = read_written_unit(text);
    return joined && joined->dimension == read.unit.dimension ? std::optional(read) : std::nullopt;
}

// Words between spaces, in lower case, and what they stand for.
struct UnitWords {
    std::string_view words, meaning;
};
constexpr UnitWords kTwoValues[] = {
    {" pfund pfd ", "500 g, or 454 g: write g, or lb for the latter"},
    {" livre livres ", "500 g, or 454 g: write g, or lb for the latter"},
    {" libra libras ", "454 g, or 460 g: write g, or lb for the former"},
    {" zentner ", "50 kg, or 100 kg: write kg"},
};
constexpr UnitWords kUnitWords[] = {
    {" kgs kilogramm kilogramme kilogrammes kilogramo kilogramos ", "kg"},
    {" gms gramm gramme grammes gramo gramos ", "g"},
    {" milligramm milligramme milligrammes miligramo miligramos ", "mg"},
    {" tonne tonnen tonelada toneladas ", "t"},
    {" unze unzen once onces onza onzas ", "oz"},
    {" meter mètre mètres metro metros ", "m"},
    {" zentimeter centimètre centimètres centímetro centímetros ", "cm"},
    {" millimeter millimètre millimètres milímetro milímetros ", "mm"},
    {" liter litre litres litro litros ", "L"},
    {" milliliter millilitre millilitres mililitro mililitros ", "mL"},
    {" sekunde sekunden seconde secondes segundo segundos sek ", "s"},
    {" mins minuten minute minutes minuto minutos mn ", "min"},
    {" stunde stunden std std. heure heures hora horas ", "h"},
    {" tag tage tagen jour jours día días dia dias ", "day"},
    {" woche wochen semaine semaines semana semanas ", "week"},
    {" prozent ", "%"},
};

std::string_view meaning_of(std::string_view word, std::span<const UnitWords> among) {
    if (word.find(' ') != std::string_view::npos) return {};
    const std::string padded = " " + lower(word) + " ";
    for (const auto& [words, meaning] : among)
        if (words.find(padded) != std::string_view::npos) return meaning;
    return {};
}

}  // namespace

std::string_view two_values_of(std::string_view unit) { return meaning_of(unit, kTwoValues); }

std::optional<Unit> read_written_unit(std::string_view text) {
    if (const auto unit = read_unit(text)) return unit;
    if (const auto meaning = meaning_of(text, kUnitWords); !meaning.empty()) return read_unit(meaning);
    if (text == "pour cent" || text == "por ciento") return read_unit("%");
    // "GRAMS", "Min": a whole word; of short ones the case may tell, as in MW and mW
    if (text.size() < 3 || text.find_first_of("/·^()²³ ") != std::string_view::npos) return std::nullopt;
    return read_unit(lower(text));
}

QuantityText read_quantity(std::string_view text, const Reading& reading) {
    if (text.find(':') != std::string_view::npos)
        if (const auto time = clock(text)) return *time;
    const auto [typed, fault] = read_typed(text, reading);
    QuantityText read{
        .value = typed.value, .uncertainty = typed.uncertainty, .said = typed.unit, .fault = fault};
    if (fault == TextFault::uncertainty)
        if (const auto parts = parts_with_uncertainty(text, reading)) return *parts;
    if (fault != TextFault::none || typed.unit.empty()) return read;
    if (typed.unit.find(' ') != std::string_view::npos) {
        if (const auto joined = with_unit_joined_on(read)) return *joined;
        if (const auto parts = with_parts(read, reading)) return *parts;
    }
    if (const auto unit = read_written_unit(typed.unit))
        read.unit = *unit;
    else
        read.fault = two_values_of(typed.unit).empty() ? TextFault::unknown_unit : TextFault::two_values;
    return read;
}

}  // namespace drysheet
