// SPDX-License-Identifier: MPL-2.0
// Numbers and amounts in words: the one place that writes a value with its unit.
#pragma once

#include <string>
#include <string_view>

#include "addin/text/cell.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet {

/// An amount as a number in a unit, or in its kind's default unit.
double shown(const Amount& amount, std::string_view unit = {});
template <PhysicalValue T>
double shown(const T& x, std::string_view unit = {}) {
    return shown(amount(x), unit);
}

/// A number as a person writes it: six significant digits unless told, no trailing zeros; 1000000, not 1e+06.
std::string in_words(double x, int digits = 6, const Reading& reading = {});
/// With its unit: "412.5 g", "0.8".
std::string in_words(double x, std::string_view unit, int digits = 6, const Reading& reading = {});
std::string in_words(const Amount& amount, std::string_view unit = {}, const Reading& reading = {});
/// A formula's own numbers, which are written with a point, as in_words writes them.
std::string formula_in_words(std::string_view formula, const Reading& reading);
/// What stands between the numbers of a list.
inline std::string_view list_comma(const Reading& reading) { return reading.decimal_comma ? "; " : ", "; }
/// "1 cell" or "{} cells": one of two forms.
inline Sentence counted(std::size_t n, std::string_view one, std::string_view more) {
    return n == 1 ? Sentence(one) : Sentence(more, {n});
}
/// In lower case, letters a to z only: names are compared so.
std::string lower(std::string_view text);

/// Without the spaces at its ends.
std::string_view trimmed(std::string_view text);

/// As the text of an XML file: its marks escaped, a control character a space.
std::string escaped_xml(std::string_view text);

/// How many letters to change, insert or drop from one word to the other (Levenshtein).
std::size_t edits(std::string_view a, std::string_view b);
}  // namespace drysheet
