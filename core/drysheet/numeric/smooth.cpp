// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/smooth.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

namespace drysheet::numeric {
namespace {

constexpr std::size_t kMostReadings = 200;  // in a window

double cube(double x) { return x * x * x; }

/// How to smooth: a polynomial of this degree through so many readings.
struct Smoother {
    std::size_t window;
    Eigen::Index degree;
};

/// The polynomial around one reading.
struct Local {
    double slope = 0;
    double prediction_error = 0;  ///< of the reading, from the polynomial that the others alone would give
};

struct Readings {
    std::span<const double> x, y;
    const std::vector<bool>& kept;  ///< the others do not count

    std::size_t size() const { return x.size(); }
};

Local local_polynomial(const Readings& of, std::size_t at, const Smoother& smoother) {
    // The window grows from the reading to whichever side is nearer.
    const auto next = [&](std::size_t i, std::ptrdiff_t step) {
        do {
            i += static_cast<std::size_t>(step);  // wraps below 0 to beyond the end
        } while (i < of.size() && !of.kept[i]);
        return i;
    };
    std::vector<std::size_t> chosen;
    if (of.kept[at]) chosen.push_back(at);
    std::size_t left = next(at, -1), right = next(at, 1);
    while (chosen.size() < smoother.window && (left < of.size() || right < of.size())) {
        const bool take_left =
            right >= of.size() || (left < of.size() && of.x[at] - of.x[left] <= of.x[right] - of.x[at]);
        chosen.push_back(take_left ? left : right);
        (take_left ? left : right) = take_left ? next(left, -1) : next(right, 1);
    }
    // Weights end a tenth beyond the furthest, so that it still counts.
    const double reach = 1.1 * std::abs(of.x[chosen.back()] - of.x[at]);
    const auto rows = static_cast<Eigen::Index>(chosen.size()), terms = smoother.degree + 1;
    using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, Eigen::Dynamic, 4>;
    Matrix powers(rows, terms);
    Eigen::VectorXd right_side(rows);
    for (Eigen::Index k = 0; k < rows; ++k) {
        const std::size_t i = chosen[static_cast<std::size_t>(k)];
        const double d = (of.x[i] - of.x[at]) / reach;
        double power = std::sqrt(cube(1 - cube(std::abs(d))));  // of the tricube
        right_side[k] = power * of.y[i];
        for (Eigen::Index j = 0; j < terms; ++j) {
            powers(k, j) = power;
            power *= d;
        }
    }
    const Eigen::HouseholderQR<Matrix> qr(powers);
    const Eigen::VectorXd coefficients = qr.solve(right_side);
    // Leverage: e₁ᵀ(AᵀA)⁻¹e₁, as the reading's own weight is 1.
    const Matrix r = qr.matrixQR().topRows(terms).triangularView<Eigen::Upper>();
    const Eigen::VectorXd z =
        r.transpose().triangularView<Eigen::Lower>().solve(Eigen::VectorXd::Unit(terms, 0));
    const double own_share = std::max(1 - z.squaredNorm(), 1e-3);
    const double residual = of.kept[at] ? of.y[at] - coefficients[0] : 0;
    double slope = coefficients[1] / reach;
    // Beyond a gap longer than the rest of its window a polynomial is a guess; the way to the neighbour is
    // not.
    if (of.kept[at] && chosen.size() > 2) {
        const double gap = of.x[at] - of.x[chosen[1]], rest = of.x[chosen[1]] - of.x[chosen.back()];
        if (gap * rest > 0 && std::abs(gap) > std::abs(rest)) slope = (of.y[at] - of.y[chosen[1]]) / gap;
    }
    return {slope, residual / own_share};
}

/// The smoother that predicts each reading best from the others, asked at 100 of them at most. A narrower
/// window or a higher degree must be better by a tenth, as it passes more of the noise.
Smoother best_smoother(const Readings& of) {
    const auto n = static_cast<std::size_t>(std::ranges::count(of.kept, true));
    const std::size_t step = (of.size() + 99) / 100;
    Smoother best{n, 2};
    double least = std::numeric_limits<double>::infinity();
    for (const Eigen::Index degree : {2, 3})
        for (std::size_t window = std::min(n, kMostReadings); window >= 5; window = window * 10 / 13) {
            double sum = 0;
            for (std::size_t i = 0; i < of.size(); i += step)
                sum += std::pow(local_polynomial(of, i, {window, degree}).prediction_error, 2);
            if (sum < 0.9 * least) {
                least = sum;
                best = {window, degree};
            }
        }
    return best;
}

}  // namespace

std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y,
                                 const std::vector<bool>& kept) {
    const Readings readings{x, y, kept};
    const Smoother smoother = best_smoother(readings);
    std::vector<double> slopes;
    slopes.reserve(x.size());
    for (std::size_t i = 0; i < x.size(); ++i)
        slopes.push_back(local_polynomial(readings, i, smoother).slope);
    return slopes;
}

}  // namespace drysheet::numeric
