// SPDX-License-Identifier: MPL-2.0
// Student's t and Fisher's F, by Boost.Math.
#pragma once

namespace drysheet::numeric {

/// The t that is exceeded with this probability.
double upper_t(double probability, double degrees_of_freedom);

/// The probability that F of these degrees of freedom exceeds this ratio.
double chance_above(double ratio, double freedom_above, double freedom_below);

}  // namespace drysheet::numeric
