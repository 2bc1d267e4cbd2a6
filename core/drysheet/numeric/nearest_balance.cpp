// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/nearest_balance.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include "drysheet/error.hpp"

namespace drysheet::numeric {
namespace {

// Minimises ((x - x0)/ux)^2/2 + ((y - y0)/uy)^2/2 + l x y.
std::pair<double, double> stationary(double x0, double ux, double y0, double uy, double l) {
    const double q = ux * uy * l, pole = (1 - q) * (1 + q);
    return {(x0 - ux * ux * l * y0) / pole, (y0 - uy * uy * l * x0) / pole};
}

NoConvergence too_far_apart() {
    return {"", "does not exist: the values are too far apart to be made to agree"};
}

}  // namespace

Nearest nearest_balance(const std::array<double, 4>& given, const std::array<double, 4>& u) {
    const auto point = [&](double l) {
        const auto [F, a] = stationary(given[0], u[0], given[1], u[1], l);
        const auto [D, b] = stationary(given[2], u[2], given[3], u[3], -l);
        return Nearest{{F, a, D, b}, l};
    };
    const auto gap = [&](double l) {
        const auto [F, a, D, b] = point(l).at;
        return F * a - D * b;
    };
    const auto closed = [&](double l) {
        const Nearest found = point(l);
        const auto [F, a, D, b] = found.at;
        if (!(std::abs(F * a - D * b) <= 1e-9 * std::abs(F * a))) throw too_far_apart();
        return found;
    };
    const double at_zero = gap(0);
    constexpr double kRounding = 4 * std::numeric_limits<double>::epsilon();
    if (std::abs(at_zero) <= kRounding * std::abs(given[0] * given[1])) return {given, 0};

    // Newton's step from 0 is exact where no product of two uncertainties bends the balance.
    double slope = 0;
    for (std::size_t i = 0; i < 4; ++i) slope += std::pow(given[i ^ 1U] * u[i], 2);
    const double step = at_zero / slope;
    if (!std::isfinite(step)) throw too_far_apart();
    const double bend = std::max(u[0] * u[1], u[2] * u[3]);
    if (std::abs(step) * bend < 1e-17) return closed(step);

    const double edge = std::copysign(1 / bend, step);
    double inside = 0, outside = std::abs(step) < std::abs(edge) / 2 ? step : edge / 2;
    for (int i = 0; i < 50 && gap(outside) * at_zero > 0; ++i) {
        inside = outside;
        outside += (edge - outside) / 2;
    }
    if (gap(inside) * gap(outside) > 0) return closed(outside);
    if (inside > outside) std::swap(inside, outside);
    std::uintmax_t steps = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        gap, inside, outside, boost::math::tools::eps_tolerance<double>(50), steps);
    return closed(low + (high - low) / 2);
}

}  // namespace drysheet::numeric
