// SPDX-License-Identifier: MPL-2.0
// Slopes of noisy readings.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace drysheet::numeric {

/// The slope of y(x) at every x by local polynomials.
/// A quadratic or a cubic through the nearest readings, weighted by the tricube of the distance; degree and
/// number of readings (5 to 200) are those that predict each reading best from the others. Readings that are
/// not `kept` do not count. Beside a gap longer than the rest of its window the slope is that to the
/// neighbour. x must rise; 3 readings or more. Source: Cleveland 1979, J. Am. Stat. Assoc. 74:829 (local
/// weights); Allen 1974, Technometrics 16:125 (choice by prediction from the others).
std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y,
                                 const std::vector<bool>& kept);

}  // namespace drysheet::numeric
