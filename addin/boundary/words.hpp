// Numbers and amounts in words: the one place that writes a value with its unit.
#pragma once

#include <string>
#include <string_view>

#include "addin/catalogue/entry.hpp"

namespace drysheet {

/// A number as a person writes it: six significant digits unless told, no trailing zeros, a point whatever
/// the locale.
std::string in_words(double x, int digits = 6);
/// With its unit: "412.5 g", "0.8".
std::string in_words(double x, std::string_view unit, int digits = 6);
std::string in_words(const Amount& amount, std::string_view unit = {});
/// "1 cell", "3 cells".
std::string counted(std::size_t n, std::string_view thing);
/// In lower case, letters a to z only: names are compared so.
std::string lower(std::string_view text);

/// What was given, as the reader of a refusal should see it.
std::string in_words(const Input& input);
/// How many letters to change, insert or drop from one word to the other (Levenshtein).
std::size_t edits(std::string_view a, std::string_view b);
/// The outcome of a function: "25 g", a text in itself, "a table of 5 rows".
std::string in_words(const Function& function, const Outcome& outcome);

}  // namespace drysheet
