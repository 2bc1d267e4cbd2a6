// SPDX-License-Identifier: MPL-2.0
// The nearest values that satisfy a bilinear balance.
#pragma once

#include <array>

namespace drysheet::numeric {

struct Nearest {
    std::array<double, 4> at{};  ///< F, a, D, b
    double multiplier = 0;       ///< l: at - given = -u^2 l (a, F, -b, -D)
};

/// The point (F, a, D, b) with F a = D b that minimises sum ((x - given)/u)^2; u = 0 keeps a value.
/// For a multiplier l the stationary point is closed form; l is the root of F a - D b, which falls steadily
/// where the Lagrangian is convex, |l| < min(1/(uF ua), 1/(uD ub)): there the stationary point is the global
/// minimum. Given values above 0, u not negative and not all 0. Throws NoConvergence("") where no such point
/// closes the balance to 1e-9: values many times their own uncertainty apart, with uncertainties as large as
/// the values.
Nearest nearest_balance(const std::array<double, 4>& given, const std::array<double, 4>& u);

}  // namespace drysheet::numeric
