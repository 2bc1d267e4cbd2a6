// SPDX-License-Identifier: MPL-2.0
// Student's t.
#pragma once

#include <boost/math/distributions/students_t.hpp>

namespace drysheet::numeric {

/// The t that is exceeded with this probability.
inline double upper_t(double probability, double degrees_of_freedom) {
    const boost::math::students_t_distribution<double> t(degrees_of_freedom);
    return boost::math::quantile(boost::math::complement(t, probability));
}

}  // namespace drysheet::numeric
