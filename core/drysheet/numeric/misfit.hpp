// SPDX-License-Identifier: MPL-2.0
// Whether what a fit leaves is mere noise.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "drysheet/numeric/fit.hpp"

namespace drysheet::numeric {

struct Misfit {
    enum class Kind : std::uint8_t {
        none,
        one_reading,  ///< `at` alone is off by `size`
        step,         ///< from `at` on the readings are off by `size`
        bend,         ///< the residuals wave slowly, by `size` at most, which is at `at`
        term          ///< the caller's own term stands in them, `size` times
    };
    Kind kind{};
    std::size_t at = 0;
    double size = 0;    ///< reading less curve
    double chance = 1;  ///< of as much or more if all were noise
};

/// A term of the caller's own, of each observation, that is not doubted up to a factor of `spared`.
struct Term {
    std::span<const double> values{};
    double spared = 0;
};

/// What speaks most against the residuals being noise around the model, with a chance below `level`.
/// Each is a term added to the linearised model and judged by its F test: one reading's own level (t of the
/// deleted residual) and a step before each reading (both for the number of readings: Bonferroni), the
/// caller's own, and slow waves together, cos(π k (i + ½)/n), k = 1 to 4 (fewer for few readings).
/// order: the observations in the order of x; spared: of each observation, what it may be off by itself
/// without being doubted (empty: nothing). Fewer than 3 observations more than parameters are not judged.
/// Source: Seber and Lee 2003, Linear regression analysis, 2nd ed, sec. 4.1 (F test) and 10.2 (deleted
/// residuals); Eubank and Hart 1992, Annals of Statistics 20:1412 (waves, after Neyman's smooth test).
Misfit misfit(const Fit& fit, std::span<const std::size_t> order, double level,
              std::span<const double> spared = {}, const Term& term = {});

}  // namespace drysheet::numeric
