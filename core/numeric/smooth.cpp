#include "core/numeric/smooth.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace drysheet::numeric {
namespace {

/// The quadratic around one reading.
struct Local {
    double value = 0;
    double slope = 0;
    double leverage = 0;  ///< how far the reading itself pulls the value
};

/// `trust` is the weight of each reading; those without any do not count in the window.
Local local_quadratic(std::span<const double> x, std::span<const double> y, std::span<const double> trust,
                      std::size_t at, std::size_t window) {
    // The window grows from the reading to whichever side is nearer.
    const auto next = [&](std::size_t i, std::ptrdiff_t step) {
        do {
            i += static_cast<std::size_t>(step);  // wraps below 0 to beyond the end
        } while (i < x.size() && !(trust[i] > 0));
        return i;
    };
    std::vector<std::size_t> chosen;
    if (trust[at] > 0) chosen.push_back(at);
    std::size_t left = next(at, -1), right = next(at, 1);
    while (chosen.size() < window && (left < x.size() || right < x.size())) {
        const bool take_left = right >= x.size() || (left < x.size() && x[at] - x[left] <= x[right] - x[at]);
        chosen.push_back(take_left ? left : right);
        (take_left ? left : right) = take_left ? next(left, -1) : next(right, 1);
    }
    // Weights end a tenth beyond the furthest, so that it still counts.
    const double reach = 1.1 * std::abs(x[chosen.back()] - x[at]);
    const auto rows = static_cast<Eigen::Index>(chosen.size());
    Eigen::MatrixX3d powers(rows, 3);
    Eigen::VectorXd right_side(rows);
    double own_root = 0;
    for (Eigen::Index k = 0; k < rows; ++k) {
        const std::size_t i = chosen[static_cast<std::size_t>(k)];
        const double d = (x[i] - x[at]) / reach;
        const double tricube = std::pow(1 - std::pow(std::abs(d), 3), 3);
        const double root = std::sqrt(tricube * trust[i]);
        powers.row(k) << root, root * d, root * d * d;
        right_side[k] = root * y[i];
        if (i == at) own_root = root;
    }
    const Eigen::HouseholderQR<Eigen::MatrixX3d> qr(powers);
    const Eigen::Vector3d coefficients = qr.solve(right_side);
    // Leverage: own weight · e₁ᵀ(AᵀA)⁻¹e₁.
    const Eigen::Matrix3d r = qr.matrixQR().topRows<3>().triangularView<Eigen::Upper>();
    const Eigen::Vector3d z = r.transpose().triangularView<Eigen::Lower>().solve(Eigen::Vector3d::UnitX());
    return {coefficients[0], coefficients[1] / reach, own_root * own_root * z.squaredNorm()};
}

}  // namespace

double median_magnitude(std::vector<double> values) {
    for (double& v : values) v = std::abs(v);
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y, double doubt) {
    const std::size_t n = x.size();
    const std::size_t window = std::min(n, std::max<std::size_t>(7, (n + 4) / 5));
    std::vector<double> trust(n, 1.0), residuals(n), slopes(n);
    constexpr int rounds = 4;
    for (int round = 0; round <= rounds; ++round) {
        for (std::size_t i = 0; i < n; ++i) {
            const Local local = local_quadratic(x, y, trust, i, window);
            slopes[i] = local.slope;
            residuals[i] = (y[i] - local.value) / std::sqrt(std::max(1 - local.leverage, 1e-3));
        }
        if (n < 6 || round == rounds) break;
        const double limit = std::max(6 * median_magnitude(residuals), doubt);
        if (!(limit > 0)) break;
        for (std::size_t i = 0; i < n; ++i) {
            const double u = residuals[i] / limit;
            trust[i] = std::abs(u) < 1 ? (1 - u * u) * (1 - u * u) : 0;
        }
    }
    return slopes;
}

}  // namespace drysheet::numeric
