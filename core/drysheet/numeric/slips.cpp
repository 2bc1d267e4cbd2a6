// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/slips.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <tuple>
#include <utility>

namespace drysheet::numeric {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// What is usual, said as a weak prior: noise of 0.3 % of the spread, weighing as much as 4 readings, and a
// curvature (second derivative over the whole length) of 10 spreads.
constexpr double kUsualNoise = 0.003, kNoiseWeight = 4;
constexpr double kUsualCurvature = 10, kCurvatureWeight = 4;
constexpr std::size_t kLeastReadings = 6;
constexpr std::size_t kWindow = 60, kOverlap = 15;
constexpr Index kBeside = 5;  // readings behind the first that say where it should be

/// One way in which the curve may run: the projection that takes line and curvature out of the readings.
struct Smooth {
    MatrixXd P;  ///< V⁻¹ − V⁻¹X(XᵀV⁻¹X)⁻¹XᵀV⁻¹, V in units of the noise's variance
    double log_det = 0;
    double strength = 0;
};

/// Over x or its root, with curvature from hardly any to as much as the noise lets see.
std::vector<Smooth> smooths(std::span<const double> x) {
    const auto n = std::ssize(x);
    std::vector<Smooth> all;
    using Clock = double (*)(double);
    for (const Clock clock : {Clock([](double u) { return u; }), Clock([](double u) { return std::sqrt(u); }),
                              Clock([](double u) { return std::log1p(30 * u) / std::log1p(30); })}) {
        VectorXd s(n);
        for (Index i = 0; i < n; ++i)
            s[i] = clock((x[static_cast<std::size_t>(i)] - x.front()) / (x.back() - x.front()));
        MatrixXd curvature(n, n), line(n, 2);
        for (Index i = 0; i < n; ++i) {
            line.row(i) << 1, s[i];
            for (Index j = 0; j < n; ++j) {
                const double low = std::min(s[i], s[j]), high = std::max(s[i], s[j]);
                curvature(i, j) = low * low * (3 * high - low) / 6;
            }
        }
        for (int decade = 0; decade < 10; ++decade) {
            const MatrixXd V = MatrixXd::Identity(n, n) + std::pow(10.0, decade) * curvature;
            const Eigen::LLT<MatrixXd> factor(V);
            MatrixXd P = factor.solve(MatrixXd::Identity(n, n));
            const MatrixXd through = P * line;
            P -= through * (line.transpose() * through).ldlt().solve(through.transpose());
            const double log_det = 2 * factor.matrixLLT().diagonal().array().log().sum();
            all.push_back({std::move(P), log_det, std::pow(10.0, decade)});
        }
    }
    return all;
}

struct Suspicion {
    Slip slip;
    double gain;  ///< of twice the log-likelihood, beyond that of a mere chance
};

class Search {
  public:
    Search(std::span<const double> x, std::span<const double> y, double doubt)
        : x_(x),
          y_(Eigen::Map<const VectorXd>(y.data(), std::ssize(y))),
          doubt_(doubt),
          smooths_(smooths(x)) {
        range_ = y_.maxCoeff() - y_.minCoeff();
    }

    std::vector<Slip> run() {
        std::vector<Slip> found;
        if (!(range_ > 0)) return found;
        const auto most = static_cast<std::size_t>((y_.size() + 9) / 10);
        while (found.size() < most) {
            auto next = likeliest();
            if (!next) break;
            take(*next);
            found.push_back(next->slip);
        }
        const auto near_start = [](const Slip& slip) { return slip.at <= kBeside; };
        if (found.size() < most && std::ranges::none_of(found, near_start))
            if (const auto first = first_reading()) found.push_back(*first);
        return found;
    }

  private:
    double count() const { return static_cast<double>(y_.size()); }
    /// Of the noise, in squared spreads.
    double variance(double sum) const {
        return (std::max(sum, 0.0) / (range_ * range_) + kNoiseWeight * kUsualNoise * kUsualNoise) /
               (count() + kNoiseWeight);
    }
    /// −2 log-likelihood, but for a constant.
    double log_likelihood(const Smooth& smooth, double sum) const {
        const double v = variance(sum);
        return smooth.log_det + (count() + kNoiseWeight) * std::log(v) +
               kCurvatureWeight * std::log1p(smooth.strength * v / (kUsualCurvature * kUsualCurvature));
    }

    std::optional<Suspicion> likeliest() const {
        const Index n = y_.size();
        double without = std::numeric_limits<double>::infinity();
        // Least −2 log-likelihood of each slip over all smooths, and its size there: outliers, steps, swaps.
        struct Best {
            double least = std::numeric_limits<double>::infinity();
            double size = 0;
        };
        std::vector<Best> outliers(static_cast<std::size_t>(n)), steps(outliers), swaps(outliers);
        for (const Smooth& smooth : smooths_) {
            const VectorXd Py = smooth.P * y_;
            const double sum = y_.dot(Py);
            without = std::min(without, log_likelihood(smooth, sum));
            const auto ask = [&](Best& best, double along, double length) {
                if (!(length > 1e-9)) return;
                const double value = log_likelihood(smooth, sum - along * along / length);
                if (value < best.least) best = {value, along / length};
            };
            double along = 0, length = 0;
            for (Index i = n - 1; i >= 0; --i) {
                const auto at = static_cast<std::size_t>(i);
                ask(outliers[at], Py[i], smooth.P(i, i));
                along += Py[i];
                length += smooth.P(i, i) + 2 * smooth.P.row(i).tail(n - 1 - i).sum();
                if (i > 1 && i < n - 1) ask(steps[at], along, length);
                if (i + 1 == n) continue;
                const double d = y_[i + 1] - y_[i];
                const double swapped =
                    sum + 2 * d * (Py[i] - Py[i + 1]) +
                    d * d * (smooth.P(i, i) + smooth.P(i + 1, i + 1) - 2 * smooth.P(i, i + 1));
                const double value = log_likelihood(smooth, swapped);
                if (value < swaps[at].least) swaps[at] = {value, d};
            }
        }
        const double chance = 3.5 * std::log(count()) + 1.5;  // measured: tests/simulation/FIGURES.md
        std::optional<Suspicion> best;
        const auto consider = [&](const Best& one, Slip slip, double handicap) {
            const double gain = without - one.least - chance - handicap;
            if (gain > 0 && std::abs(one.size) > doubt_ && (!best || gain > best->gain))
                best = Suspicion{slip, gain};
        };
        for (Index i = 0; i < n; ++i) {
            const auto at = static_cast<std::size_t>(i);
            consider(outliers[at], {SlipKind::out_of_line, at, y_[i] - outliers[at].size}, 0);
            consider(steps[at], {SlipKind::step, at, y_[i] - steps[at].size}, 1e-9);
            if (i + 1 < n) consider(swaps[at], {SlipKind::swapped, at, y_[i + 1]}, 0);
        }
        return best;
    }

    /// The first reading, which a curve may follow however it lies: out of line where those behind it lie on
    /// a straight or bending line that misses it by far more than it bends.
    std::optional<Slip> first_reading() const {
        if (y_.size() < 4 * kBeside) return std::nullopt;
        double noise = 0, least = std::numeric_limits<double>::infinity();
        for (const Smooth& smooth : smooths_) {
            const double sum = y_.dot(smooth.P * y_), value = log_likelihood(smooth, sum);
            if (value < least) std::tie(least, noise) = std::pair(value, range_ * std::sqrt(variance(sum)));
        }
        // A quadratic in steps of the first interval, 0 at the first reading.
        MatrixXd powers(kBeside, 3);
        for (Index i = 0; i < kBeside; ++i) {
            const double step = (x_[static_cast<std::size_t>(i + 1)] - x_[0]) / (x_[1] - x_[0]);
            powers.row(i) << 1, step, step * step;
        }
        const MatrixXd covariance = (powers.transpose() * powers).inverse();
        const VectorXd line = covariance * powers.transpose() * y_.segment(1, kBeside);
        // Where no quadratic fits, what it says of the first is no better than that.
        noise = std::max(noise, 1.5 * (y_.segment(1, kBeside) - powers * line).norm());
        const double off = y_[0] - line[0];
        const double bends = 2 * line[2], u_bends = 2 * std::sqrt(covariance(2, 2)) * noise;
        // A warming-up bends down by about the third of what it misses by, a rate that falls with √t up by
        // the sixth.
        const double explained = off < 0 ? 4 * std::max(-bends, 0.0) : 15 * std::max(bends, 0.0);
        const double limit = explained + (off < 0 ? 4 : 15) * u_bends / 2;
        if (std::abs(off) > std::max({doubt_, limit, 4 * noise * std::sqrt(1 + covariance(0, 0))}))
            return Slip{SlipKind::out_of_line, 0, line[0]};
        return std::nullopt;
    }

    void take(const Suspicion& suspicion) {
        const auto i = static_cast<Index>(suspicion.slip.at);
        if (suspicion.slip.kind == SlipKind::swapped) {
            std::swap(y_[i], y_[i + 1]);
            return;
        }
        VectorXd shape = VectorXd::Zero(y_.size());
        if (suspicion.slip.kind == SlipKind::step)
            shape.tail(y_.size() - i).setOnes();
        else
            shape[i] = 1;
        for (Smooth& smooth : smooths_) {
            const VectorXd through = smooth.P * shape;
            const double length = shape.dot(through);
            if (length > 1e-9) smooth.P -= through * through.transpose() / length;
        }
    }

    std::span<const double> x_;
    VectorXd y_;
    double doubt_;
    std::vector<Smooth> smooths_;
    double range_ = 0;
};

}  // namespace

std::vector<Slip> find_slips(std::span<const double> x, std::span<const double> y, double doubt) {
    std::vector<Slip> all;
    const std::size_t n = x.size();
    if (n < kLeastReadings) return all;
    for (std::size_t from = 0;; from += kWindow - 2 * kOverlap) {
        const bool last = from + kWindow + kOverlap >= n;
        const std::size_t length = last ? n - from : kWindow;
        for (Slip slip : Search(x.subspan(from, length), y.subspan(from, length), doubt).run()) {
            slip.at += from;
            const bool at_seam =
                (from > 0 && slip.at < from + kOverlap) || (!last && slip.at >= from + length - kOverlap);
            if (!at_seam) all.push_back(slip);
        }
        if (last) break;
    }
    std::ranges::sort(all, {}, &Slip::at);
    return all;
}

Mended mended(std::span<const double> y, std::span<const Slip> slips) {
    Mended made{{y.begin(), y.end()}, std::vector<bool>(y.size(), true)};
    for (const Slip& slip : slips) {
        switch (slip.kind) {
            case SlipKind::out_of_line:
                made.kept[slip.at] = false;
                break;
            case SlipKind::swapped:
                std::swap(made.y[slip.at], made.y[slip.at + 1]);
                break;
            case SlipKind::step:
                for (std::size_t i = slip.at; i < y.size(); ++i) made.y[i] += slip.expected - y[slip.at];
                break;
        }
    }
    return made;
}

}  // namespace drysheet::numeric
