// SPDX-License-Identifier: MPL-2.0
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

#include "drysheet/models/isotherms.hpp"
#include "drysheet/numeric/fit.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {

std::vector<double> models::IsothermPoints::line(
    const std::function<std::vector<double>(std::size_t)>& term) const {
    const auto columns = std::ssize(term(0)) - 1;
    Eigen::MatrixXd A(std::ssize(aw), columns);
    Eigen::VectorXd y(std::ssize(aw));
    for (Eigen::Index i = 0; i < y.size(); ++i) {
        const auto row = term(static_cast<std::size_t>(i));
        y(i) = row[0];
        A.row(i) = Eigen::Map<const Eigen::RowVectorXd>(&row[1], columns);
    }
    const Eigen::VectorXd c = A.colPivHouseholderQr().solve(y);
    return {c.begin(), c.end()};
}

namespace {

using models::IsothermPoints;

constexpr double kNotAllowed = std::numeric_limits<double>::quiet_NaN();  // what fit() takes for "not here"

numeric::FitModel model_of(IsothermModel model, const IsothermPoints& d) {
    return models::with_isotherm(model, [&](auto isotherm) {
        constexpr std::size_t N = isotherm.parameters.size();
        return numeric::differentiated<N>([&d](std::size_t i, const auto& p) {
            using Isotherm = decltype(isotherm);
            for (std::size_t k = 0; k < N; ++k)
                if (!Isotherm::may_be_negative(k) && !(p[k].value > 0)) return numeric::Dual<N>(kNotAllowed);
            return Isotherm::template at<numeric::Dual<N>>(d.aw[i], d.t[i], p);
        });
    });
}

IsothermPoints checked_points(IsothermModel model, std::span<const WaterActivity> activities,
                              std::span<const MoistureDry> moistures, std::span<const Temperature> temps) {
    check_length(arg::moistures, moistures.size(), activities.size());
    const bool by_temperature = info(model).needs_temperature;
    if (by_temperature && temps.size() != activities.size())
        throw BadInput(arg::temps, "must have {} in it, the temperature of every point, for this model",
                       {count(activities.size())});
    IsothermPoints d;
    bool spread = false;
    for (std::size_t i = 0; i < activities.size(); ++i) {
        if (activities[i].value() <= 0 || activities[i].value() >= 1)
            throw BadInput(arg::activities, "holds {}, where a point between 0 and 1 is wanted",
                           {amount(activities[i])});
        if (moistures[i].value() <= 0)
            throw BadInput(arg::moistures, "holds {}, where a point above 0 is wanted",
                           {amount(moistures[i])});
        d.aw.push_back(activities[i].value());
        d.X.push_back(moistures[i].value());
        d.t.push_back(by_temperature ? to_si(temps[i]) - 273.15 : 0);
        spread = spread || d.t[i] != d.t[0];
    }
    if (by_temperature && !spread)
        throw BadInput(arg::temps, "are all alike: this model needs points at two temperatures at least");
    return d;
}

}  // namespace

namespace {

constexpr double kMisfitLevel = 0.005, kLeastMisfit = 0.02;
constexpr double kSparedShare = 0.06, kSparedActivity = 3 * kActivityDoubt;
constexpr double kBetterBy =
    10;  // Burnham and Anderson 2002, sec. 2.6: the worse has then hardly any support

/// dX/daw of the isotherm at a point.
double slope_at(IsothermModel model, const IsothermPoints& d, std::size_t i, const std::vector<double>& p) {
    return models::moisture(model, numeric::Dual<1>::parameter(d.aw[i], 0), d.t[i], p).slope[0];
}

IsothermFit fitted(IsothermModel model, const IsothermPoints& d) {
    const std::size_t n = info(model).parameters.size();
    numeric::FitProblem problem{.argument = arg::moistures, .data = d.X, .model = model_of(model, d)};
    models::with_isotherm(model, [&](auto isotherm) {
        problem.starts = d.X.size() > n ? isotherm.starts(d)
                                        : models::Starts{std::vector<double>(n)};  // too few: fit() refuses
        for (std::size_t k = 0; k < n; ++k) {
            problem.low.push_back(isotherm.low(k));
            problem.high.push_back(isotherm.high(k));
        }
    });
    IsothermFit fit{numeric::fit(problem), model, {}, {}, {}, {}, {}, {}, {}};
    std::vector<double> of_moisture, of_activity, doubt;
    for (std::size_t i = 0; i < d.X.size(); ++i) {
        const double X = d.X[i] - fit.residuals[i];
        const double slope = slope_at(model, d, i, fit.parameters);
        fit.deviation += std::abs(fit.residuals[i] / d.X[i]) / static_cast<double>(d.X.size());
        of_moisture.push_back(X * X);
        of_activity.push_back(slope * slope);
        doubt.push_back(slope * kActivityDoubt);
    }
    for (const auto& variances : {of_moisture, of_activity}) {
        const auto errors = numeric::errors_under(fit, variances);
        for (std::size_t k = 0; k < n; ++k) fit.robust_errors[k] = std::max(fit.robust_errors[k], errors[k]);
    }
    const auto moved = numeric::change_with(fit, doubt);
    double most = 1;
    for (std::size_t k = 0; k < n; ++k) {
        const double of_error = std::abs(moved[k]) / fit.robust_errors[k];
        if (!(of_error > most)) continue;
        most = of_error;
        fit.moved = k;
        fit.moved_by = std::abs(moved[k]);
    }
    return fit;
}

/// The least AICc of the isotherms that need what these points have, if it is less by kBetterBy.
void look_for_better(IsothermFit& fit, const IsothermPoints& d) {
    for (std::size_t i = 0; i < isotherm_models().size(); ++i) {
        const auto model = static_cast<IsothermModel>(i);
        const IsothermModelInfo& about = info(model);
        if (about.needs_temperature != info(fit.model).needs_temperature) continue;
        if (d.X.size() <= about.parameters.size()) continue;
        try {
            const double less = fit.aicc - fitted(model, d).aicc;
            if (!(less > std::max(fit.better_by, kBetterBy))) continue;
            fit.better = model;
            fit.better_by = less;
        } catch (const NoConvergence&) {
            continue;
        }
    }
}

}  // namespace

IsothermFit fit_isotherm(IsothermModel model, std::span<const WaterActivity> activities,
                         std::span<const MoistureDry> moistures,
                         std::optional<std::span<const Temperature>> temps) {
    const IsothermPoints d =
        checked_points(model, activities, moistures, temps.value_or(std::span<const Temperature>{}));
    IsothermFit fit = fitted(model, d);
    std::vector<std::size_t> order(d.X.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return d.aw[i]; });
    // What one point may be off by itself: the noise of its moisture and its activity.
    std::vector<double> spared;
    for (std::size_t i = 0; i < d.X.size(); ++i) {
        const double slope = slope_at(model, d, i, fit.parameters);
        spared.push_back(std::max(kSparedShare * d.X[i], kSparedActivity * std::abs(slope)));
    }
    fit.misfit = numeric::misfit(fit, order, kMisfitLevel, spared);
    fit.misfit.size /= *std::ranges::max_element(d.X);
    if (std::abs(fit.misfit.size) < kLeastMisfit) fit.misfit = {};
    if (fit.misfit.kind == numeric::Misfit::Kind::none) return fit;
    fit.at = activities[fit.misfit.at];
    look_for_better(fit, d);
    return fit;
}

}  // namespace drysheet
