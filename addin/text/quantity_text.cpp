#include "addin/text/quantity_text.hpp"

#include <charconv>
#include <cmath>

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

// A number with a point, or with a comma where the locale writes one.
TextFault take_number(std::string_view& rest, const Reading& reading, double& value) {
    std::string_view sign_taken = rest;
    const bool negative = take(sign_taken, "-") || take(sign_taken, "−");
    if (!negative) take(sign_taken, "+");
    std::size_t end = 0, whole_digits = 0, decimals = 0, points = 0, commas = 0;
    for (; end < sign_taken.size(); ++end) {
        const char c = sign_taken[end];
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
    if (commas > 0) {
        with_point = digits;
        with_point[with_point.find(',')] = '.';
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

}  // namespace drysheet
