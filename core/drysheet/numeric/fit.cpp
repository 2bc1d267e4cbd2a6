// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/fit.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

#include "drysheet/error.hpp"

namespace drysheet::numeric {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
constexpr double kEpsilon = std::numeric_limits<double>::epsilon();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kRankTolerance = 1e-10;  // of the Jacobian with columns scaled to length 1

/// Where a search is: the parameters, and the QR factors of the Jacobian there with the residuals beside it.
struct Point {
    VectorXd p;
    double sum = kInfinity;  ///< of squared residuals; infinite where the model has no value
    MatrixXd R;              ///< upper triangle
    VectorXd qt;             ///< Qᵀ residuals, the part along the Jacobian's columns
    double across = 0;       ///< squared length of the rest
};

class Search {
  public:
    explicit Search(const FitProblem& problem)
        : problem_(problem), n_(std::ssize(problem.data)), m_(std::ssize(problem.starts.front())) {
        double largest = 0;
        for (double y : problem.data) largest = std::max(largest, std::abs(y));
        rounding_ = std::pow(8 * kEpsilon * largest, 2) * static_cast<double>(n_);
    }

    /// From one start with one first damping, counting down the iterations. Nothing when no minimum is
    /// reached.
    std::optional<Point> run(const std::vector<double>& start, double damping, int& iterations_left) const {
        Point here = at(Eigen::Map<const VectorXd>(start.data(), m_));
        VectorXd scale = VectorXd::Zero(m_);
        double growth = 2;
        for (; iterations_left > 0 && here.sum < kInfinity; --iterations_left) {
            if (here.sum <= rounding_) return here;
            const double along = along_free(here);
            if (along * static_cast<double>(n_ - m_) <=
                problem_.offset * problem_.offset * here.across * static_cast<double>(m_)) {
                return here;
            }
            scale = scale.cwiseMax(here.R.colwise().norm().transpose());
            while (true) {
                const auto [there, hoped, length] = step(here, scale, damping);
                const double got = here.sum - there.sum;
                if (got > 0) {
                    const double gain = hoped > 0 ? got / hoped : 1.0;
                    damping = std::max(damping * std::max(1.0 / 3, 1 - std::pow(2 * gain - 1, 3)), 1e-20);
                    growth = 2;
                    here = there;
                    break;
                }
                // Rounding: no shorter step can show a gain.
                if (length <= 4 * kEpsilon * here.p.norm() || damping > 1e20) {
                    return along <= 1e-8 * here.sum ? std::optional(here) : std::nullopt;
                }
                damping *= growth;
                growth *= 2;
            }
        }
        return std::nullopt;
    }

    bool at_bound(const VectorXd& p) const {
        for (Index k = 0; k < m_; ++k) {
            if (p[k] <= low(k) || p[k] >= high(k)) return true;
        }
        return false;
    }
    double rounding() const { return rounding_; }

  private:
    Point at(VectorXd p) const {
        Point point{.p = std::move(p), .R = {}, .qt = {}};
        MatrixXd table(n_, m_ + 1);
        const auto observations = problem_.data.size();
        const auto cells = std::span(table.data(), static_cast<std::size_t>(table.size()));
        const auto slopes = cells.first(cells.size() - observations);
        problem_.model(std::span(point.p.data(), static_cast<std::size_t>(m_)), cells.last(observations),
                       slopes);
        table.col(m_) = Eigen::Map<const VectorXd>(problem_.data.data(), n_) - table.col(m_);
        const double sum = table.col(m_).squaredNorm();
        if (!std::isfinite(sum) || !table.allFinite()) return point;
        const Eigen::HouseholderQR<Eigen::Ref<MatrixXd>> qr(table);
        point.R = table.topLeftCorner(m_, m_).triangularView<Eigen::Upper>();
        point.qt = table.col(m_).head(m_);
        point.across = table(m_, m_) * table(m_, m_);
        point.sum = sum;
        return point;
    }

    /// Squared length of the residuals along the columns of the free parameters. Columns that would push a
    /// parameter through its bound are cleared, so that the next step leaves them out.
    double along_free(Point& here) const {
        bool blocked = false;
        const VectorXd gradient = here.R.transpose() * here.qt;
        for (Index k = 0; k < m_; ++k) {
            if ((here.p[k] <= low(k) && gradient[k] < 0) || (here.p[k] >= high(k) && gradient[k] > 0)) {
                here.R.col(k).setZero();
                blocked = true;
            }
        }
        if (!blocked) return here.qt.squaredNorm();
        const VectorXd newton = here.R.completeOrthogonalDecomposition().solve(here.qt);
        return (here.R * newton).squaredNorm();
    }

    struct Step {
        Point there;
        double hoped;   ///< fall of the sum if the model were linear
        double length;  ///< of the step
    };
    /// One damped step: least squares of R and the damping rows.
    Step step(const Point& here, const VectorXd& scale, double damping) const {
        MatrixXd rows = MatrixXd::Zero(2 * m_, m_);
        VectorXd right = VectorXd::Zero(2 * m_);
        rows.topRows(m_) = here.R;
        right.head(m_) = here.qt;
        for (Index k = 0; k < m_; ++k) rows(m_ + k, k) = std::sqrt(damping) * (scale[k] > 0 ? scale[k] : 1.0);
        VectorXd p = here.p + rows.householderQr().solve(right);
        for (Index k = 0; k < m_; ++k) p[k] = std::clamp(p[k], low(k), high(k));
        const VectorXd moved = p - here.p;
        const double hoped = here.qt.squaredNorm() - (here.qt - here.R * moved).squaredNorm();
        const double length = moved.norm();
        return {at(std::move(p)), hoped, length};
    }

    static double bound(const std::vector<double>& bounds, Index k, double none) {
        if (bounds.empty()) return none;
        return bounds[static_cast<std::size_t>(k)];
    }
    double low(Index k) const { return bound(problem_.low, k, -kInfinity); }
    double high(Index k) const { return bound(problem_.high, k, kInfinity); }

    const FitProblem& problem_;
    Index n_;
    Index m_;
    double rounding_ = 0;  ///< a residual sum that is nothing but rounding
};

/// What is known of a minimum; nothing when the data do not determine every parameter.
std::optional<VectorXd> standard_errors(const Point& minimum, double variance) {
    const VectorXd lengths = minimum.R.colwise().norm();
    if (!(lengths.minCoeff() > 0)) return std::nullopt;
    const MatrixXd scaled = minimum.R * lengths.cwiseInverse().asDiagonal();
    const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeFullV);
    const VectorXd& s = svd.singularValues();
    if (!(s[s.size() - 1] > kRankTolerance * s[0])) return std::nullopt;
    // Diagonal of the inverse of the scaled normal matrix: how much the other parameters can make up for one.
    const VectorXd inflation = (svd.matrixV() * s.cwiseInverse().asDiagonal()).rowwise().squaredNorm();
    const VectorXd errors = (variance * inflation).cwiseSqrt().cwiseQuotient(lengths);
    for (Index k = 0; k < errors.size(); ++k) {
        if (errors[k] > std::abs(minimum.p[k]) && inflation[k] > 1e4) return std::nullopt;
    }
    return errors;
}

/// What a fit's slopes say: J = Q R, and R⁻¹.
struct Slopes {
    MatrixXd Q, half;
    explicit Slopes(const Fit& fit) {
        const Index n = std::ssize(fit.residuals), m = std::ssize(fit.parameters);
        const Eigen::HouseholderQR<MatrixXd> qr(Eigen::Map<const MatrixXd>(fit.slopes.data(), n, m));
        Q = qr.householderQ() * MatrixXd::Identity(n, m);
        half =
            qr.matrixQR().topLeftCorner(m, m).triangularView<Eigen::Upper>().solve(MatrixXd::Identity(m, m));
    }
    /// 1 − leverage of each observation.
    VectorXd left() const { return 1 - Q.rowwise().squaredNorm().array(); }
    /// Of the parameters when Qᵀ noise has this covariance.
    VectorXd errors(const MatrixXd& middle) const {
        return (half * middle * half.transpose()).diagonal().cwiseSqrt();
    }
};

/// Standard errors at a minimum that hold under unequal noise.
VectorXd robust_errors(const FitProblem& problem, const Fit& fit, const VectorXd& equal_noise) {
    const Slopes slopes(fit);
    const MatrixXd& Q = slopes.Q;
    const VectorXd left = slopes.left();
    const Eigen::Map<const VectorXd> e(fit.residuals.data(), left.size());
    // A reading that settles a parameter by itself has no residual to tell of its noise.
    const VectorXd noise = (left.array() > 1e-6).select(e.array().square() / left.array(), fit.reduced_chi2);
    MatrixXd middle = Q.transpose() * noise.asDiagonal() * Q;
    if (problem.shares_of_one) {
        const VectorXd data = Eigen::Map<const VectorXd>(problem.data.data(), left.size());
        const VectorXd c = Q.transpose() * (data - e);
        middle += fit.reduced_chi2 * c * c.transpose();
    }
    return slopes.errors(middle).cwiseMax(equal_noise);
}

}  // namespace

std::vector<double> errors_under(const Fit& fit, std::span<const double> variances) {
    const Slopes slopes(fit);
    const Eigen::Map<const VectorXd> D(variances.data(), std::ssize(variances));
    const double s2 = fit.residual_sum / slopes.left().dot(D);
    const VectorXd errors = slopes.errors(s2 * slopes.Q.transpose() * D.asDiagonal() * slopes.Q);
    return {errors.begin(), errors.end()};
}

std::vector<double> change_with(const Fit& fit, std::span<const double> change) {
    const Slopes slopes(fit);
    const VectorXd moved =
        slopes.half * (slopes.Q.transpose() * Eigen::Map<const VectorXd>(change.data(), std::ssize(change)));
    return {moved.begin(), moved.end()};
}

Fit fit(const FitProblem& problem) {
    const std::size_t points = problem.data.size();
    const std::size_t count = problem.starts.front().size();
    const double n = static_cast<double>(points);
    const double p = static_cast<double>(count);
    if (points <= count) {
        throw BadInput(problem.argument,
                       "holds {} points: the model has {} parameters and needs more than that",
                       {Amount{n, Kind::number}, Amount{p, Kind::number}});
    }
    const double mean = std::accumulate(problem.data.begin(), problem.data.end(), 0.0) / n;
    double spread = 0;
    for (double y : problem.data) spread += (y - mean) * (y - mean);
    if (!(spread > 0)) throw BadInput(problem.argument, "holds the same value throughout");

    const Search search(problem);
    std::optional<Point> best;
    std::optional<VectorXd> errors;
    for (const auto& start : problem.starts) {
        // A first damping that is too small may throw the search onto a plateau; then a cautious one is
        // tried.
        int iterations_left = problem.most_iterations;
        for (double damping : {1e-3, 1.0, 1e3}) {
            const auto found = search.run(start, damping, iterations_left);
            if (!found) continue;
            const auto known = standard_errors(*found, found->sum / (n - p));
            const bool better = !best || found->sum < best->sum;
            if (better) {
                best = found;
                errors = known;
            }
            if (known) break;
        }
    }
    if (!best) throw NoConvergence(problem.argument, "gives no minimum from any start of the search");
    if (!errors || search.at_bound(best->p)) {
        throw NoConvergence(problem.argument, "does not determine every parameter of the model");
    }

    Fit result;
    result.parameters.assign(best->p.begin(), best->p.end());
    result.standard_errors.assign(errors->begin(), errors->end());
    result.points = points;
    result.residual_sum = best->sum;
    result.r2 = 1 - best->sum / spread;
    result.rmse = std::sqrt(best->sum / n);
    result.reduced_chi2 = best->sum / (n - p);
    result.residuals.resize(points);
    result.slopes.resize(points * count);
    problem.model(result.parameters, result.residuals, result.slopes);
    for (std::size_t i = 0; i < points; ++i) result.residuals[i] = problem.data[i] - result.residuals[i];
    const VectorXd robust = robust_errors(problem, result, *errors);
    result.robust_errors.assign(robust.begin(), robust.end());
    const double K = p + 1;
    result.aicc = n > K + 1 ? n * std::log(std::max(best->sum, search.rounding()) / n) + 2 * K +
                                  2 * K * (K + 1) / (n - K - 1)
                            : kInfinity;
    return result;
}

}  // namespace drysheet::numeric
