// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/quadrature.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <cmath>

#include "drysheet/error.hpp"

namespace drysheet::numeric {

double integrate(const std::function<double(double)>& f, double a, double b) {
    // Its tables cost more than the integral; filling them is guarded, so one object serves all threads.
    static boost::math::quadrature::tanh_sinh<double> rule;
    const double middle = (a + b) / 2, half = (b - a) / 2;
    double error = 0, l1 = 0;
    const double mean = rule.integrate([&](double z) { return f(middle + half * z); }, 1e-10, &error, &l1);
    if (!(std::abs(error) <= 1e-7 * l1)) throw NoConvergence("", "is an integral that does not settle");
    return mean * half;
}

std::optional<double> integrate_smooth(const std::function<double(double)>& f, double a, double b) {
    const double middle = (a + b) / 2, half = (b - a) / 2;
    double difference = 0, l1 = 0;
    const double mean = boost::math::quadrature::gauss_kronrod<double, 15>::integrate(
        [&](double z) { return f(middle + half * z); }, -1.0, 1.0, 0, 0, &difference, &l1);
    if (!(difference <= 1e-8 * l1)) return std::nullopt;
    return mean * half;
}

}  // namespace drysheet::numeric
