// SPDX-License-Identifier: MPL-2.0
// Formulas as trees: read from text or from an office's tokens, and written again.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// A piece of a formula in the order in which it is written.
struct Token {
    enum class What : unsigned char {
        operand,    ///< `operand`: a number, text, reference, name, inline array …
        function,   ///< its name in `text`; an opening bracket follows
        operation,  ///< an operator, in `text`
        open,
        close,
        separator  ///< between two arguments
    };
    What what = What::operand;
    std::string text;
    Formula operand;
};

/// The tree of these tokens, by the office's order of operators: a sign binds more than ^, and ^ goes from
/// the left. Brackets leave no trace. `unreadable` where they make no formula.
Formula tree_of(std::span<const Token> tokens);

/// The tree of a formula in A1 notation as this cell holds it, with or without "=" before it: ";" between
/// arguments, a point in numbers, "Sheet.A1" or "'My sheet'.A1", an inline array as {1;2|3;4}.
Formula parse(std::string_view text, const Place& at, const Picture& picture);

/// The formula as the cell `at` would hold it, without "=": brackets only where they are needed, a sheet's
/// name where it is another than the cell's.
std::string written(const Formula& formula, const Place& at, const Picture& picture);

/// The same for every copy of one formula: references relative to their cell, as R1C1 notation has them.
std::string copied_key(const Formula& formula, const Place& at);

/// The formula as a copy of it in another cell would be.
Formula copied(Formula formula, const Place& from, const Place& to);

/// "B3"; "Run.B3" with the sheet's name.
std::string in_words(const Place& place);
std::string in_words(const Place& place, const Picture& picture);

/// Calls `visit` with this formula and every part of it, the whole before its parts.
void for_each_part(const Formula& formula, const std::function<void(const Formula&)>& visit);

/// Two formulas that read the same, wherever they stand.
bool same(const Formula& a, const Formula& b);

}  // namespace drysheet::workbook
