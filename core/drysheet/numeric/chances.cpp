// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/chances.hpp"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace drysheet::numeric {

double upper_t(double probability, double degrees_of_freedom) {
    const boost::math::students_t_distribution<double> t(degrees_of_freedom);
    return boost::math::quantile(boost::math::complement(t, probability));
}

double chance_above(double ratio, double freedom_above, double freedom_below) {
    const boost::math::fisher_f_distribution<double> F(freedom_above, freedom_below);
    return boost::math::cdf(boost::math::complement(F, ratio));
}

}  // namespace drysheet::numeric
