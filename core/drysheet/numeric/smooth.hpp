// Slopes of noisy readings.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace drysheet::numeric {

/// The slope of y(x) at every x by local polynomials.
/// A quadratic or a cubic through the nearest readings, weighted by the tricube of the distance; degree and
/// number of readings (5 to 200) are those by which the readings foretell each other best, each from the
/// others. Left out, at most one in ten, are readings without which the others foretell each other far
/// better: those that stand out (below) by their residual over its own standard deviation, and in runs of up
/// to 60 whichever it is. None is left out that lies less than `doubt` off. Beside a gap longer than the rest
/// of its window the slope is that to the neighbour. x must rise; 3 readings or more; fewer than 6 are not
/// doubted. Source: Cleveland 1979, J. Am. Stat. Assoc. 74:829 (local weights); Allen 1974, Technometrics
/// 16:125 (choice by prediction from the others); Cook and Weisberg 1982, Residuals and influence in
/// regression, sec. 2.1 (residuals by leverage).
std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y, double doubt);

/// The places of the residuals above 6 median residuals and above `doubt`, the largest first.
std::vector<std::size_t> standing_out(std::span<const double> residuals, double doubt);

}  // namespace drysheet::numeric
