// SPDX-License-Identifier: MPL-2.0
// What repeated readings of one thing say.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Statistics of repeated readings, in the readings' own unit.
struct Replicates {
    std::size_t n = 0;
    double mean = 0;
    double sd = 0;                       ///< sample standard deviation, n - 1
    double se = 0;                       ///< of the mean
    double half_width = 0;               ///< of the confidence interval of the mean
    double low = 0;                      ///< mean - half_width
    double high = 0;                     ///< mean + half_width
    std::optional<double> grubbs;        ///< Grubbs' G of the suspect; none when all readings are equal
    std::optional<double> grubbs_limit;  ///< its critical value; none for two readings
    double suspect = 0;                  ///< the reading furthest from the mean (the first of several)
    bool outlier = false;                ///< grubbs is above grubbs_limit
};

/// Mean, spread, Student-t confidence interval and Grubbs' test of repeated readings.
///   s = sqrt(sum (x - mean)^2 / (n - 1)); half-width = t(1 - alpha/2; n - 1) s / sqrt(n)
///   G = max |x - mean| / s; limit = (n - 1)/sqrt(n) sqrt(t^2 / (n - 2 + t^2)), t = t(1 - alpha/(2n); n - 2)
/// range: the readings, two or more, any unit. confidence: 1 - alpha, of the interval and of the two-sided
/// test. Errors: BadInput(arg::range) for fewer than two readings or one that is not finite;
/// BadInput(arg::confidence) unless it is above 0 and below 1. Source: JCGM 100:2008 (GUM) 4.2, G.3; Grubbs
/// (1969) Procedures for detecting outlying observations in samples, Technometrics 11(1):1-21; NIST/SEMATECH
/// e-Handbook of Statistical Methods, 1.3.5.17.1.
Replicates replicates(std::span<const double> range, Fraction confidence = Fraction(0.95));

}  // namespace drysheet
