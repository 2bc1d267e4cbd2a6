// SPDX-License-Identifier: MPL-2.0
#include "drysheet/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "drysheet/numeric/chances.hpp"

namespace drysheet {

using numeric::upper_t;

Replicates replicates(std::span<const double> range, Fraction confidence) {
    if (range.size() < 2) throw BadInput(arg::range, "must hold two readings or more to have a spread");
    if (!std::ranges::all_of(range, [](double x) { return std::isfinite(x); }))
        throw BadInput(arg::range, "holds a reading that is not a finite number");
    const double alpha = 1 - confidence.value();
    if (!(alpha > 0 && alpha < 1))
        throw BadInput(arg::confidence, "must lie between 0 and 1, for example 0.95");

    // The second pass takes away what rounding left in the mean of large, close readings.
    const double n = static_cast<double>(range.size());
    const double near = std::accumulate(range.begin(), range.end(), 0.0) / n;
    double rest = 0, squares = 0;
    for (const double x : range) rest += x - near;
    const double mean = near + rest / n;
    for (const double x : range) squares += (x - near) * (x - near);
    const double sd = std::sqrt(std::max(0.0, squares - rest * rest / n) / (n - 1));
    if (!std::isfinite(sd)) throw BadInput(arg::range, "holds readings too large to square");

    Replicates r{.n = range.size(), .mean = mean, .sd = sd, .se = sd / std::sqrt(n)};
    r.half_width = upper_t(alpha / 2, n - 1) * r.se;
    r.low = mean - r.half_width;
    r.high = mean + r.half_width;
    r.suspect = *std::ranges::max_element(range, {}, [mean](double x) { return std::abs(x - mean); });
    if (sd > 0) r.grubbs = std::abs(r.suspect - mean) / sd;
    if (n > 2) {
        const double t = upper_t(alpha / (2 * n), n - 2);
        r.grubbs_limit = (n - 1) / std::sqrt(n) * std::sqrt(t * t / (n - 2 + t * t));
    }
    r.outlier = r.grubbs && r.grubbs_limit && *r.grubbs > *r.grubbs_limit;
    return r;
}

}  // namespace drysheet
