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

/// Readings that are not `kept` do not count in the window.
Local local_quadratic(std::span<const double> x, std::span<const double> y, const std::vector<bool>& kept,
                      std::size_t at, std::size_t window) {
    // The window grows from the reading to whichever side is nearer.
    const auto next = [&](std::size_t i, std::ptrdiff_t step) {
        do {
            i += static_cast<std::size_t>(step);  // wraps below 0 to beyond the end
        } while (i < x.size() && !kept[i]);
        return i;
    };
    std::vector<std::size_t> chosen;
    if (kept[at]) chosen.push_back(at);
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
        const double root = std::sqrt(tricube);
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

std::optional<std::size_t> standing_out(std::span<const double> residuals, double doubt) {
    std::vector<double> sizes(residuals.begin(), residuals.end());
    for (double& size : sizes) size = std::abs(size);
    const auto worst = std::ranges::max_element(sizes) - sizes.begin();
    const double largest = sizes[static_cast<std::size_t>(worst)];
    const auto middle = sizes.begin() + std::ssize(sizes) / 2;
    std::ranges::nth_element(sizes, middle);
    if (largest <= std::max(6 * *middle, doubt)) return std::nullopt;
    return static_cast<std::size_t>(worst);
}

std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y, double doubt) {
    const std::size_t n = x.size();
    const std::size_t window = std::min(n, std::max<std::size_t>(7, (n + 4) / 5));
    std::vector<bool> kept(n, true);
    std::vector<double> slopes(n), residuals(n);
    for (std::size_t may_go = n < 6 ? 0 : (n + 9) / 10;; --may_go) {
        for (std::size_t i = 0; i < n; ++i) {
            const Local local = local_quadratic(x, y, kept, i, window);
            slopes[i] = local.slope;
            residuals[i] = kept[i] ? (y[i] - local.value) / std::sqrt(std::max(1 - local.leverage, 1e-3)) : 0;
        }
        const auto worst = may_go > 0 ? standing_out(residuals, doubt) : std::nullopt;
        if (!worst) return slopes;
        kept[*worst] = false;
    }
}

}  // namespace drysheet::numeric
