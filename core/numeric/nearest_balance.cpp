#include "core/numeric/nearest_balance.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include "core/error.hpp"

namespace drysheet::numeric {
namespace {

// Minimises ((x - x0)/ux)^2/2 + ((y - y0)/uy)^2/2 + l x y.
std::pair<double, double> stationary(double x0, double ux, double y0, double uy, double l) {
    const double q = ux * uy * l, pole = (1 - q) * (1 + q);
    return {(x0 - ux * ux * l * y0) / pole, (y0 - uy * uy * l * x0) / pole};
}

}  // namespace

std::array<double, 4> nearest_balance(const std::array<double, 4>& given, const std::array<double, 4>& u) {
    const auto point = [&](double l) {
        const auto [F, a] = stationary(given[0], u[0], given[1], u[1], l);
        const auto [D, b] = stationary(given[2], u[2], given[3], u[3], -l);
        return std::array{F, a, D, b};
    };
    const auto gap = [&](double l) {
        const auto [F, a, D, b] = point(l);
        return F * a - D * b;
    };
    const double at_zero = gap(0);
    if (at_zero == 0) return given;

    // Newton's step from 0 is exact where no product of two uncertainties bends the balance.
    const double spread = std::pow(given[1] * u[0], 2) + std::pow(given[0] * u[1], 2) +
                          std::pow(given[3] * u[2], 2) + std::pow(given[2] * u[3], 2);
    const double step = at_zero / spread;
    const double bend = std::max(u[0] * u[1], u[2] * u[3]);
    if (std::abs(step) * bend < 1e-17) return point(step);

    const double edge = std::copysign(1 / bend, step);
    double inside = 0, outside = std::abs(step) < std::abs(edge) / 2 ? step : edge / 2;
    for (int i = 0; i < 60 && gap(outside) * at_zero > 0; ++i) {
        inside = outside;
        outside += (edge - outside) / 2;
    }
    const double f_inside = gap(inside), f_outside = gap(outside);
    if (f_outside == 0) return point(outside);
    if (f_inside * f_outside > 0)
        throw NoConvergence("", "does not exist: the values are too far apart to be made to agree");
    std::uintmax_t steps = 200;
    const auto root =
        inside < outside
            ? boost::math::tools::toms748_solve(gap, inside, outside, f_inside, f_outside,
                                                boost::math::tools::eps_tolerance<double>(50), steps)
            : boost::math::tools::toms748_solve(gap, outside, inside, f_outside, f_inside,
                                                boost::math::tools::eps_tolerance<double>(50), steps);
    if (steps >= 200)
        throw NoConvergence("", "does not exist: the values are too far apart to be made to agree");
    return point((root.first + root.second) / 2);
}

}  // namespace drysheet::numeric
