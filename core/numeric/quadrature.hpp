// Integrals of smooth functions.
#pragma once

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>

#include "core/error.hpp"

namespace drysheet::numeric {

/// ∫ f(x) dx from a to b by adaptive Gauss–Kronrod (15 points, at most 2^15 intervals, relative tolerance 1e-10).
/// Throws NoConvergence, naming no argument, where the estimated error stays above 1e-6 of the value.
template <class F>
double integrate(F f, double a, double b) {
    double error = 0, l1 = 0;
    const double value =
        boost::math::quadrature::gauss_kronrod<double, 15>::integrate(f, a, b, 15, 1e-10, &error, &l1);
    if (!(std::abs(error) <= 1e-6 * l1)) throw NoConvergence("", "is an integral that does not settle");
    return value;
}

}  // namespace drysheet::numeric
