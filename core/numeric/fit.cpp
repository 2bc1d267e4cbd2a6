#include "core/numeric/fit.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

#include "core/error.hpp"

namespace drysheet::numeric {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
constexpr double kEpsilon = std::numeric_limits<double>::epsilon();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr int kMostIterations = 1000;
constexpr double kOffset = 1e-8;          // relative offset at which the search ends
constexpr double kRankTolerance = 1e-10;  // of the Jacobian with columns scaled to length 1

/// Where a search is: parameters, residuals, Jacobian.
struct Point {
    VectorXd p;
    VectorXd residuals;
    MatrixXd jacobian;
    double sum = kInfinity;
};

class Search {
  public:
    explicit Search(const FitProblem& problem)
        : problem_(problem), n_(std::ssize(problem.data)), m_(std::ssize(problem.starts.front())) {
        double largest = 0;
        for (double y : problem.data) largest = std::max(largest, std::abs(y));
        rounding_ = std::pow(8 * kEpsilon * largest, 2) * static_cast<double>(n_);
    }

    /// From one start with one first damping. Nothing when no minimum is reached.
    std::optional<Point> run(const std::vector<double>& start, double damping) const {
        Point here = at(Eigen::Map<const VectorXd>(start.data(), m_));
        if (!std::isfinite(here.sum)) return std::nullopt;
        VectorXd scale = VectorXd::Zero(m_);
        double growth = 2;
        for (int iteration = 0; iteration < kMostIterations; ++iteration) {
            if (here.sum <= rounding_) return here;
            // Columns that would push a parameter through its bound are left out of this step.
            const VectorXd gradient = here.jacobian.transpose() * here.residuals;
            for (Index k = 0; k < m_; ++k) {
                if (blocked(here.p, k, gradient[k])) here.jacobian.col(k).setZero();
            }
            scale = scale.cwiseMax(here.jacobian.colwise().norm().transpose());
            const Eigen::HouseholderQR<MatrixXd> qr(here.jacobian);
            const VectorXd qt = qr.householderQ().adjoint() * here.residuals;
            const double along = qt.head(m_).squaredNorm();
            const double across = qt.tail(n_ - m_).squaredNorm();
            if (along / static_cast<double>(m_) <=
                kOffset * kOffset * across / static_cast<double>(n_ - m_)) {
                return here;
            }
            // One damped step: least squares of R and the damping rows.
            bool stepped = false;
            while (!stepped) {
                MatrixXd rows = MatrixXd::Zero(2 * m_, m_);
                rows.topRows(m_) = qr.matrixQR().topRows(m_).triangularView<Eigen::Upper>();
                for (Index k = 0; k < m_; ++k) {
                    rows(m_ + k, k) = std::sqrt(damping) * (scale[k] > 0 ? scale[k] : 1.0);
                }
                VectorXd right = VectorXd::Zero(2 * m_);
                right.head(m_) = qt.head(m_);
                VectorXd step = rows.householderQr().solve(right);
                const Point there = at(clipped(here.p + step));
                step = there.p - here.p;
                const double hoped = here.sum - (here.residuals - here.jacobian * step).squaredNorm();
                const double got = here.sum - there.sum;
                if (std::isfinite(there.sum) && got > 0) {
                    const double gain = hoped > 0 ? got / hoped : 1.0;
                    damping = std::max(damping * std::max(1.0 / 3, 1 - std::pow(2 * gain - 1, 3)), 1e-20);
                    growth = 2;
                    here = there;
                    stepped = true;
                } else {
                    // Rounding: no shorter step can show a gain.
                    if (step.norm() <= 4 * kEpsilon * here.p.norm() || damping > 1e20) {
                        return along <= 1e-8 * here.sum ? std::optional(here) : std::nullopt;
                    }
                    damping *= growth;
                    growth *= 2;
                }
            }
        }
        return std::nullopt;
    }

    Point at(VectorXd p) const {
        Point point{std::move(p), VectorXd(n_), MatrixXd(n_, m_)};
        VectorXd slope(m_);
        const auto parameters = std::span<const double>(point.p.data(), problem_.starts.front().size());
        const auto slopes = std::span<double>(slope.data(), parameters.size());
        for (Index i = 0; i < n_; ++i) {
            const auto k = static_cast<std::size_t>(i);
            point.residuals[i] = problem_.data[k] - problem_.model(k, parameters, slopes);
            point.jacobian.row(i) = slope;
        }
        const double sum = point.residuals.squaredNorm();
        point.sum = point.jacobian.allFinite() && std::isfinite(sum) ? sum : kInfinity;
        return point;
    }

    bool at_bound(const VectorXd& p) const {
        for (Index k = 0; k < m_; ++k) {
            if (p[k] <= low(k) || p[k] >= high(k)) return true;
        }
        return false;
    }
    double rounding() const { return rounding_; }

  private:
    double low(Index k) const {
        return problem_.low.empty() ? -kInfinity : problem_.low[static_cast<std::size_t>(k)];
    }
    double high(Index k) const {
        return problem_.high.empty() ? kInfinity : problem_.high[static_cast<std::size_t>(k)];
    }
    VectorXd clipped(VectorXd p) const {
        for (Index k = 0; k < m_; ++k) p[k] = std::clamp(p[k], low(k), high(k));
        return p;
    }
    bool blocked(const VectorXd& p, Index k, double gradient) const {
        return (p[k] <= low(k) && gradient < 0) || (p[k] >= high(k) && gradient > 0);
    }

    const FitProblem& problem_;
    Index n_;
    Index m_;
    double rounding_ = 0;  ///< a residual sum that is nothing but rounding
};

/// What is known of a minimum; nothing when the data do not determine every parameter.
std::optional<VectorXd> standard_errors(const Point& minimum, double variance) {
    const VectorXd lengths = minimum.jacobian.colwise().norm();
    if (!(lengths.minCoeff() > 0)) return std::nullopt;
    const MatrixXd scaled = minimum.jacobian * lengths.cwiseInverse().asDiagonal();
    const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeThinV);
    const VectorXd s = svd.singularValues();
    if (!(s[s.size() - 1] > kRankTolerance * s[0])) return std::nullopt;
    // Diagonal of the inverse of the scaled normal matrix: how much the other parameters can make up for one.
    const VectorXd inflation = (svd.matrixV() * s.cwiseInverse().asDiagonal()).rowwise().squaredNorm();
    const VectorXd errors = (variance * inflation).cwiseSqrt().cwiseQuotient(lengths);
    for (Index k = 0; k < errors.size(); ++k) {
        if (errors[k] > std::abs(minimum.p[k]) && inflation[k] > 1e4) return std::nullopt;
    }
    return errors;
}

}  // namespace

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
        for (double damping : {1e-3, 1.0, 1e3}) {
            const auto found = search.run(start, damping);
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
    if (!best) throw NoConvergence(problem.argument, "give no minimum from any start of the search");
    if (!errors || search.at_bound(best->p)) {
        throw NoConvergence(problem.argument, "do not determine every parameter of the model");
    }

    Fit result;
    result.parameters.assign(best->p.begin(), best->p.end());
    result.standard_errors.assign(errors->begin(), errors->end());
    result.points = points;
    result.residual_sum = best->sum;
    result.r2 = 1 - best->sum / spread;
    result.rmse = std::sqrt(best->sum / n);
    result.reduced_chi2 = best->sum / (n - p);
    const double K = p + 1;
    result.aicc = n > K + 1 ? n * std::log(std::max(best->sum, search.rounding()) / n) + 2 * K +
                                  2 * K * (K + 1) / (n - K - 1)
                            : kInfinity;
    return result;
}

}  // namespace drysheet::numeric
