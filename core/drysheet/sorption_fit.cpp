#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

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

IsothermFit fit_isotherm(IsothermModel model, std::span<const WaterActivity> activities,
                         std::span<const MoistureDry> moistures,
                         std::optional<std::span<const Temperature>> temps) {
    const IsothermPoints d =
        checked_points(model, activities, moistures, temps.value_or(std::span<const Temperature>{}));
    const std::size_t n = info(model).parameters.size();
    const auto formula = model_of(model, d);
    numeric::FitProblem problem{.argument = "moistures", .data = d.X, .model = formula};
    models::with_isotherm(model, [&](auto isotherm) {
        problem.starts = d.X.size() > n ? isotherm.starts(d)
                                        : models::Starts{std::vector<double>(n)};  // too few: fit() refuses
        for (std::size_t k = 0; k < n; ++k) {
            problem.low.push_back(isotherm.low(k));
            problem.high.push_back(isotherm.high(k));
        }
    });
    const numeric::Fit fit = numeric::fit(problem);
    IsothermFit result{.parameters = fit.parameters,
                       .standard_errors = fit.standard_errors,
                       .r2 = fit.r2,
                       .rmse = fit.rmse,
                       .aicc = fit.aicc,
                       .points = fit.points,
                       .model = model};
    std::vector<double> values(d.X.size()), slopes(d.X.size() * n);
    formula(fit.parameters, values, slopes);
    for (std::size_t i = 0; i < d.X.size(); ++i)
        result.deviation += std::abs(1 - values[i] / d.X[i]) / static_cast<double>(d.X.size());
    return result;
}

}  // namespace drysheet
