// The nearest values that satisfy a bilinear balance.
#pragma once

#include <array>

namespace drysheet::numeric {

/// The point (F, a, D, b) with F a = D b that minimises sum ((x - given)/u)^2; u = 0 keeps a value.
/// For a multiplier l the stationary point is closed form; l is the root of F a - D b, which falls
/// steadily where the Lagrangian is convex, |l| < min(1/(uF ua), 1/(uD ub)): there the stationary point is
/// the global minimum. Given values above 0, u not negative and not all 0. Throws NoConvergence("") after 200
/// steps.
std::array<double, 4> nearest_balance(const std::array<double, 4>& given, const std::array<double, 4>& u);

}  // namespace drysheet::numeric
