// Numbers and amounts in words: the one place that writes a value with its unit.
#pragma once

#include <string>
#include <string_view>

#include "addin/functions/function.hpp"

namespace drysheet {

/// While it lives, this thread writes numbers as the locale reads them: "25,5" where a comma is its decimal
/// sign.
class WrittenAs {
  public:
    explicit WrittenAs(const Reading& reading);
    ~WrittenAs();
    WrittenAs(const WrittenAs&) = delete;
    WrittenAs& operator=(const WrittenAs&) = delete;

  private:
    bool before_;
};

/// A number as a person writes it: six significant digits unless told, no trailing zeros.
std::string in_words(double x, int digits = 6);
/// With its unit: "412.5 g", "0.8".
std::string in_words(double x, std::string_view unit, int digits = 6);
std::string in_words(const Amount& amount, std::string_view unit = {});
/// A formula's own numbers, which are written with a point, as in_words writes them.
std::string formula_in_words(std::string_view formula);
/// What stands between the numbers of a list.
std::string_view list_comma();
/// "1 cell", "3 cells".
std::string counted(std::size_t n, std::string_view thing);
/// In lower case, letters a to z only: names are compared so.
std::string lower(std::string_view text);

/// Without the spaces at its ends.
std::string_view trimmed(std::string_view text);

/// What was given, as the reader of a refusal should see it.
std::string in_words(const Input& input);
/// How many letters to change, insert or drop from one word to the other (Levenshtein).
std::size_t edits(std::string_view a, std::string_view b);
/// The outcome of a function: "25 g", a text in itself, "a table of 5 rows".
std::string in_words(const Function& function, const Outcome& outcome);

}  // namespace drysheet
