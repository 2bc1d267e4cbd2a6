// SPDX-License-Identifier: MPL-2.0
// What a review of a workbook says.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

enum class Verdict : unsigned char { wrong, doubtful, could_be_checked, fine, not_judged };
inline constexpr std::size_t kVerdicts = 5;

/// "could be checked": the same in every language.
const char* in_words(Verdict verdict);  // about_cell.cpp

/// One row of the review sheet; copied formulas are one.
struct Finding {
    Place cell;                ///< the first of the group
    std::vector<Place> cells;  ///< all of it, where it is more than one
    Verdict verdict = Verdict::not_judged;
    std::string why;        ///< one sentence
    std::string suggested;  ///< a formula for the first cell, "=DRY.DRIEDMASS(B2;C2;D2)"; empty: none
    std::optional<double> would_show;  ///< what that gives there
    std::string evidence;              ///< what was read from labels, formats and neighbours, in words
};

struct Review {
    std::vector<Finding> findings;               ///< worst first; then in the order of the sheets
    std::array<std::size_t, kVerdicts> count{};  ///< cells, by verdict
};

}  // namespace drysheet::workbook
