// SPDX-License-Identifier: MPL-2.0
// Every sum of the catalogue and every usual slip of one, found by the values of a formula.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet::workbook {

/// How a formula takes a share or a moisture that it is given.
enum class Taken : unsigned char {
    as_it_stands,
    percent,
    rest,
    rest_of_percent,
    other_basis,
    percent_on_other_basis
};
double taken(double x, Taken how, Kind kind);

/// A sum or a slip of one: a function, and which of its arguments are the formula's variables.
struct Sum {
    const Function* function = nullptr;
    Sentence slip;                    ///< what was done wrong; empty: the sum is right
    std::vector<std::size_t> params;  ///< of the function; the last may stand several times
    bool common = false;              ///< a product, a quotient or a difference: many sums have that form
};

/// One way to read a formula as a sum.
struct SumReading {
    const Sum* sum = nullptr;
    std::vector<std::size_t> variable;  ///< for each of the sum's params, which of the formula's
    std::vector<Taken> how;             ///< ... and how it is taken
    bool rest = false;                  ///< one less the sum: a loss for a yield
    double factor = 1;                  ///< the formula over the sum
};

inline constexpr std::size_t kSamples = 4, kMostVariables = 4;
/// The value of variable `i` at a sample point.
double sample(std::size_t point, std::size_t i);
/// All readings of a formula with these values at the sample points, whatever the factor.
std::vector<SumReading> readings_of(std::size_t variables, const std::array<double, kSamples>& values);

/// 10ⁿ, perhaps with 60, 3600, 24 or 1440.
bool clean_factor(double factor);

}  // namespace drysheet::workbook
