// Slopes of noisy readings.
#pragma once

#include <span>
#include <vector>

namespace drysheet::numeric {

/// The slope of y(x) at every x by robust locally weighted quadratics.
/// The window holds the nearest fifth of the readings (at least 7, or all there are), weighted by the tricube
/// of the distance; four rounds of bisquare weights on residuals over their own standard deviation take the
/// weight from readings off by more than 6 median deviations and more than `doubt`. x must rise; 3 readings
/// or more; fewer than 6 are not doubted. Source: Cleveland 1979, J. Am. Stat. Assoc. 74:829.
std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y, double doubt);

/// The median of the magnitudes. `values` must not be empty.
double median_magnitude(std::vector<double> values);

}  // namespace drysheet::numeric
