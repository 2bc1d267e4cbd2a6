// SPDX-License-Identifier: MPL-2.0
// Roots of one equation in one unknown, by Boost.Math, bounded in steps and range.
#pragma once

#include <boost/math/tools/roots.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <stdexcept>
#include <string_view>

#include "drysheet/error.hpp"

namespace drysheet {

inline constexpr std::uintmax_t kMostRootSteps = 60;

/// The root of f between low and high, where f has opposite signs (or is zero).
///   TOMS 748 (Alefeld, Potra & Shi 1995), until the bracket is narrower than relative_tolerance · |x|.
/// f: double -> double. argument: what a refusal names; empty: the result.
/// Errors: NoConvergence without a change of sign, or after kMostRootSteps steps.
template <class F>
double bracketed_root(F f, double low, double high, double relative_tolerance = 1e-12,
                      std::string_view argument = {}) {
    const double at_low = f(low), at_high = f(high);
    if (at_low == 0) return low;
    if (at_high == 0) return high;
    if (!((at_low < 0) != (at_high < 0)) || std::isnan(at_low) || std::isnan(at_high))
        throw NoConvergence(argument, "has no solution: the search found no change of sign");
    const auto narrow = [relative_tolerance](double a, double b) {
        return std::abs(b - a) <= relative_tolerance * std::fmin(std::abs(a), std::abs(b));
    };
    std::uintmax_t steps = kMostRootSteps;
    const auto [a, b] = boost::math::tools::toms748_solve(f, low, high, at_low, at_high, narrow, steps);
    if (!narrow(a, b) && f(a) != 0)
        throw NoConvergence(argument, "has no solution that the search could reach");
    return a + (b - a) / 2;
}

/// The root of f near start by Newton's steps, kept between low and high (bisection where a step leaves
/// them). Stops when a step is below 2^(1 - digits) · |x|; as Newton converges quadratically, x is then as
/// good as f's own arithmetic. f: double -> pair or tuple (value, slope). Errors: NoConvergence after
/// kMostRootSteps steps, or when no root lies between low and high.
template <class F>
double newton_root(F f, double start, double low, double high, int digits = 36,
                   std::string_view argument = {}) {
    std::uintmax_t steps = kMostRootSteps;
    double x = 0;
    try {
        x = boost::math::tools::newton_raphson_iterate(f, start, low, high, digits, steps);
    } catch (const std::runtime_error&) {  // what Boost.Math throws when no root is in the bracket
        throw NoConvergence(argument, "has no solution: the search found no change of sign");
    }
    if (steps >= kMostRootSteps || !std::isfinite(x))
        throw NoConvergence(argument, "has no solution that the search could reach");
    // Without a root inside, the steps creep up to an end: then Newton's step from that end is still long.
    const double last_step = std::ldexp(std::abs(x), 1 - digits);
    for (const double end : {low, high}) {
        if (std::abs(x - end) > 4 * last_step) continue;
        const auto [value, slope] = f(end);
        if (!(std::abs(value) <= 8 * last_step * std::abs(slope)))
            throw NoConvergence(argument, "has no solution in the range that can be searched");
    }
    return x;
}

}  // namespace drysheet
