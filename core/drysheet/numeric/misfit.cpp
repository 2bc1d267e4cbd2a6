// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/misfit.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "drysheet/numeric/chances.hpp"

namespace drysheet::numeric {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// cos(π k (i + ½)/n), k = 1 to `count` in columns.
MatrixXd waves(Index n, Index count) {
    const Eigen::ArrayXd phase = std::numbers::pi / static_cast<double>(n) *
                                 (Eigen::ArrayXd::LinSpaced(n, 0, static_cast<double>(n - 1)) + 0.5);
    MatrixXd Z(n, count);
    for (Index k = 0; k < count; ++k) Z.col(k) = (static_cast<double>(k + 1) * phase).cos();
    return Z;
}

}  // namespace

Misfit misfit(const Fit& fit, std::span<const std::size_t> order, double level,
              std::span<const double> spared, const Term& term) {
    const Index n = std::ssize(fit.residuals), p = std::ssize(fit.parameters);
    Misfit worst;
    if (n - p < 3 || !(fit.residual_sum > 0)) return worst;
    const auto sorted = [&](std::span<const double> values) {
        VectorXd v(n);
        for (Index i = 0; i < n; ++i) v(i) = values[order[static_cast<std::size_t>(i)]];
        return v;
    };
    const VectorXd e = sorted(fit.residuals);
    MatrixXd J(n, p);
    for (Index k = 0; k < p; ++k)
        J.col(k) = sorted(std::span(fit.slopes).subspan(static_cast<std::size_t>(k * n), fit.points));
    const MatrixXd Q = Eigen::HouseholderQR<MatrixXd>(J).householderQ() * MatrixXd::Identity(n, p);

    const auto chance = [&](double gain, Index terms) {
        const double rest = std::max(fit.residual_sum - gain, 1e-12 * fit.residual_sum);
        const double freedom = static_cast<double>(n - p - terms), f = static_cast<double>(terms);
        return chance_above(gain / f / (rest / freedom), f, freedom);
    };
    // One term more: what of it the model cannot do itself explains its share of the residuals.
    const auto judge = [&](Misfit::Kind kind, Index at, const VectorXd& z, Index of, double least) {
        const VectorXd rest = z - Q * (Q.transpose() * z);
        const double own = rest.squaredNorm();
        if (!(own > 1e-6 * z.squaredNorm())) return;
        const double size = rest.dot(e) / own;
        if (std::abs(size) <= least) return;
        const double of_any = static_cast<double>(of) * chance(size * size * own, 1);
        if (of_any < worst.chance) worst = {kind, order[static_cast<std::size_t>(at)], size, of_any};
    };
    for (Index i = 0; i < n; ++i) {
        const double least = spared.empty() ? 0 : spared[order[static_cast<std::size_t>(i)]];
        judge(Misfit::Kind::one_reading, i, VectorXd::Unit(n, i), n, least);
    }
    for (Index i = 2; i < n - 1; ++i) {
        VectorXd step = VectorXd::Ones(n);
        step.head(i).setZero();
        judge(Misfit::Kind::step, i, step, n, 0);
    }
    if (!term.values.empty()) judge(Misfit::Kind::term, 0, sorted(term.values), 1, term.spared);

    const MatrixXd Z = waves(n, std::min<Index>(4, (n - p) / 2));
    const MatrixXd rest = Z - Q * (Q.transpose() * Z);
    const VectorXd wave = rest * rest.colPivHouseholderQr().solve(e);
    if (const double together = chance(wave.squaredNorm(), Z.cols()); together < worst.chance) {
        Index at = 0;
        wave.cwiseAbs().maxCoeff(&at);
        worst = {Misfit::Kind::bend, order[static_cast<std::size_t>(at)], wave(at), together};
    }
    return worst.chance < level ? worst : Misfit{};
}

}  // namespace drysheet::numeric
