// SPDX-License-Identifier: MPL-2.0
// What a file of a drying curve works with. A curve is one file here, told whole in it (name, source,
// formula, inverse, starts of a fit), and one row in curves.hpp. Not for users of the core.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "drysheet/models/model.hpp"
#include "drysheet/numeric/first_fall.hpp"

namespace drysheet::models {

using std::exp;
using std::log;

/// A time on the curve in h, and its logarithm for powers of it: t^n = exp(n ln t).
struct Instant {
    explicit Instant(double hours) : t(hours), ln_t(hours > 0 ? std::log(hours) : kLogOfZero) {}
    static constexpr double kLogOfZero = -1e6;  // finite, so that 0^n = 0 has slopes: they are 0
    double t;
    double ln_t;
};

/// Two exponentials with amplitudes a and b; `sum` is their residual sum less that of MR alone.
struct TwoExponentials {
    double a = 0, k0 = 0, b = 0, k1 = 0;
    double sum = kInfinity;
};

/// The points of a fit, and what is seen of them before any search.
struct CurvePoints {
    std::vector<Instant> x;
    std::vector<double> y;
    double rate = 0;                ///< Lewis' k, by −Σ t ln MR / Σ t²
    double page_k = 0, page_n = 0;  ///< by the line ln(−ln MR) = ln k + n ln t

    /// The best pairs of falling rates, at most three; amplitudes by linear least squares, or by that with
    /// a + b = 1.
    std::vector<TwoExponentials> pairs(std::span<const double> rates, bool sum_is_one) const;
    /// The same over a grid around `rate`.
    std::vector<TwoExponentials> pairs(bool sum_is_one) const;
};

/// Rate constants, exponents and the time scale must be above 0; the amplitudes a, b and c are free.
constexpr bool positive_by_nature(std::string_view name) { return name != "a" && name != "b" && name != "c"; }

/// The time at which 1 − x of the fall of an exponential is done; nothing outside 0 < x ≤ 1.
inline std::optional<double> exponential_time(double x, double k) {
    if (!(x > 0 && x <= 1)) return std::nullopt;
    return -std::log(x) / k;
}

/// Time of a curve without a closed inverse, searched between two times.
template <class Curve>
std::optional<double> searched_time(double ratio, Parameters p, double from, double to) {
    return numeric::first_fall([&](double t) { return Curve::at(Instant(t), p); }, ratio, from, to);
}
/// The same of a sum of two exponentials.
template <class Curve>
std::optional<double> searched_between(double ratio, Parameters p, double k1, double k2) {
    return searched_time<Curve>(ratio, p, 1e-6 / std::max(k1, k2), 100 / std::min(k1, k2));
}

}  // namespace drysheet::models
