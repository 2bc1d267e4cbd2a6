// SPDX-License-Identifier: MPL-2.0
// Integrals of functions that are smooth inside the interval and may rise steeply at its ends.
#pragma once

#include <functional>
#include <optional>

namespace drysheet::numeric {

/// ∫ f(x) dx from a to b, a < b, by tanh-sinh quadrature (at most 15 halvings of the step, to 1e-10
/// relative). Throws NoConvergence, naming no argument, where the estimated error stays above 1e-7 of the
/// value.
double integrate(const std::function<double(double)>& f, double a, double b);

/// The same by 15 points (Gauss–Kronrod), where f is smooth enough for the 7 of Gauss to agree with them to
/// 1e-8; nothing where it is not.
std::optional<double> integrate_smooth(const std::function<double(double)>& f, double a, double b);

}  // namespace drysheet::numeric
