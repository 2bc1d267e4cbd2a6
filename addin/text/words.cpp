// SPDX-License-Identifier: MPL-2.0
#include "addin/text/words.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numeric>
#include <vector>

#include "drysheet/units.hpp"

namespace drysheet {

double shown(const Amount& amount, std::string_view unit) {
    return (unit.empty() ? default_unit(amount.kind) : read_unit(unit).value()).from_si(amount.si);
}

std::string formula_in_words(std::string_view formula, const Reading& reading) {
    std::string text(formula);
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    for (std::size_t i = 1; reading.decimal_comma && i + 1 < text.size(); ++i)
        if (text[i] == '.' && digit(text[i - 1]) && digit(text[i + 1])) text[i] = ',';
    return text;
}

std::string in_words(double x, int digits, const Reading& reading) {
    if (std::isnan(x)) return "not a number";
    if (x == 0) return "0";
    char buffer[40];
    auto end = std::to_chars(buffer, buffer + sizeof buffer, x, std::chars_format::general, digits).ptr;
    if (std::abs(x) >= 1 && std::abs(x) < 1e15 && std::find(buffer, end, 'e') != end) {  // 1000000, not 1e+06
        double rounded = 0;
        std::from_chars(buffer, end, rounded);
        end = std::to_chars(buffer, buffer + sizeof buffer, rounded, std::chars_format::fixed, 0).ptr;
    }
    if (reading.decimal_comma) std::replace(buffer, end, '.', ',');
    return {buffer, end};
}

std::string in_words(double x, std::string_view unit, int digits, const Reading& reading) {
    std::string text = in_words(x, digits, reading);
    if (!unit.empty()) text.append(" ").append(unit);
    return text;
}

std::string in_words(const Amount& amount, std::string_view unit, const Reading& reading) {
    if (unit.empty()) unit = row_of(amount.kind).default_unit;
    return in_words(shown(amount, unit), unit, 6, reading);
}

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

std::string lower(std::string_view text) {
    std::string low(text);
    for (char& c : low) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return low;
}

std::string escaped_xml(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (c == '"')
            out += "&quot;";
        else
            out += c >= 0 && c < ' ' ? ' ' : c;
    }
    return out;
}

// A line break or a stray control character would tear the sentence.
static std::string quoted(std::string text) {
    for (char& c : text)
        if (c >= 0 && c < ' ') c = '?';
    return "\"" + text + "\"";
}

Sentence in_a_sentence(const Input& input) {
    switch (input.form) {
        case Input::Form::missing:
            return "nothing";
        case Input::Form::number:
            return {"{}", {{input.number, {}, 10}}};
        case Input::Form::text:
            return input.blank() ? Sentence("a blank cell") : as_it_is(quoted(input.text));
        case Input::Form::grid:
            break;
    }
    return {"a range of {} × {} cells", {input.rows(), input.columns}};
}

std::size_t edits(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (const char c : a) {
        std::size_t corner = row[0]++;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t replaced = corner + (c == b[j] ? 0 : 1);
            corner = row[j + 1];
            row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
        }
    }
    return row.back();
}

}  // namespace drysheet
