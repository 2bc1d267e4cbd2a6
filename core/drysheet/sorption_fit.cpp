#include <Eigen/QR>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

#include "drysheet/numeric/fit.hpp"
#include "drysheet/runs.hpp"
#include "drysheet/sorption.hpp"
#include "drysheet/sorption_formulas.hpp"

namespace drysheet {
namespace {

/// The measured points as plain numbers.
struct Points {
    std::vector<double> aw, X, t;

    /// Coefficients of y = Σ c_j column_j by linear least squares, over the points: term(i) is {y, column…}.
    template <std::size_t N>
    std::array<double, N - 1> line(const std::function<std::array<double, N>(std::size_t)>& term) const {
        Eigen::MatrixXd A(aw.size(), N - 1);
        Eigen::VectorXd y(aw.size());
        for (std::size_t i = 0; i < aw.size(); ++i) {
            const auto row = term(i);
            const auto r = static_cast<Eigen::Index>(i);
            y(r) = row[0];
            for (std::size_t j = 1; j < N; ++j) A(r, static_cast<Eigen::Index>(j - 1)) = row[j];
        }
        const Eigen::VectorXd c = A.colPivHouseholderQr().solve(y);
        std::array<double, N - 1> out{};
        for (std::size_t j = 0; j + 1 < N; ++j) out[j] = c(static_cast<Eigen::Index>(j));
        return out;
    }
};

using Starts = std::vector<std::vector<double>>;

/// Starting values from the points themselves: every model is a straight line once its curved parameters are
/// set.
Starts starts(IsothermModel model, const Points& d) {
    using Line2 = std::array<double, 2>;
    using Line3 = std::array<double, 3>;
    const auto odds = [&](std::size_t i) { return std::log(d.aw[i] / (1 - d.aw[i])); };
    const auto dry = [&](std::size_t i) { return std::log(-std::log1p(-d.aw[i])); };
    const auto wet = [&](std::size_t i) { return std::log(-std::log(d.aw[i])); };
    const auto X = [&](std::size_t i) { return std::log(d.X[i]); };
    const auto M = [&](std::size_t i) { return std::log(100 * d.X[i]); };
    Starts all;
    switch (model) {
        case IsothermModel::gab:
        case IsothermModel::bet:
            for (const double K : {0.6, 0.8, 0.95})
                for (const double C : {2.0, 10.0, 50.0}) {
                    const double k = model == IsothermModel::gab ? K : 1;
                    const auto [Xm] = d.line<2>([&](std::size_t i) -> Line2 {
                        return {d.X[i], detail::gab(k * d.aw[i], 1.0, C)};
                    });
                    if (model == IsothermModel::gab)
                        all.push_back({Xm, C, K});
                    else if (K == 0.6)
                        all.push_back({Xm, C});
                }
            break;
        case IsothermModel::oswin: {
            const auto [c, b] = d.line<3>([&](std::size_t i) -> Line3 { return {X(i), 1, odds(i)}; });
            all.push_back({std::exp(c), b});
            break;
        }
        case IsothermModel::halsey: {
            const auto [c, s] = d.line<3>([&](std::size_t i) -> Line3 { return {X(i), 1, -wet(i)}; });
            all.push_back({std::exp(c / s), 1 / s});
            break;
        }
        case IsothermModel::henderson: {
            const auto [c, s] = d.line<3>([&](std::size_t i) -> Line3 { return {X(i), 1, dry(i)}; });
            all.push_back({std::exp(-c / s), 1 / s});
            break;
        }
        case IsothermModel::peleg:
            for (const double n1 : {0.3, 0.8})
                for (const double n2 : {2.0, 6.0, 15.0}) {
                    const auto [k1, k2] = d.line<3>([&](std::size_t i) -> Line3 {
                        return {d.X[i], std::pow(d.aw[i], n1), std::pow(d.aw[i], n2)};
                    });
                    all.push_back({std::max(k1, 1e-3), n1, std::max(k2, 1e-3), n2});
                }
            break;
        case IsothermModel::modified_henderson:
            for (const double C : {20.0, 60.0, 200.0}) {
                const auto [c, s] = d.line<3>([&](std::size_t i) -> Line3 {
                    return {M(i), 1, dry(i) - std::log(d.t[i] + C)};
                });
                all.push_back({std::exp(-c / s), 1 / s, C});
            }
            break;
        case IsothermModel::modified_chung_pfost:
            for (const double C : {20.0, 60.0, 200.0}) {
                const auto [c, s] = d.line<3>([&](std::size_t i) -> Line3 {
                    return {100 * d.X[i], 1, -wet(i) - std::log(d.t[i] + C)};
                });
                all.push_back({std::exp(c / s), 1 / s, C});
            }
            break;
        case IsothermModel::modified_halsey: {
            const auto [c, e, s] = d.line<4>([&](std::size_t i) -> std::array<double, 4> {
                return {M(i), 1, d.t[i], -wet(i)};
            });
            all.push_back({c / s, e / s, 1 / s});
            break;
        }
        case IsothermModel::modified_oswin:
            for (const double C : {1.5, 2.5, 4.0}) {
                const auto [A, B] = d.line<3>([&](std::size_t i) -> Line3 {
                    const double f = std::exp(odds(i) / C);
                    return {100 * d.X[i], f, f * d.t[i]};
                });
                all.push_back({A, B, C});
            }
            break;
    }
    return all;
}

/// May the parameter be 0 or below? Only the coefficients of temperature in the grain-standard forms.
bool free_sign(IsothermModel model, std::size_t k) {
    return (model == IsothermModel::modified_halsey && k < 2) ||
           (model == IsothermModel::modified_oswin && k < 2) ||
           ((model == IsothermModel::modified_henderson || model == IsothermModel::modified_chung_pfost) &&
            k == 2);
}

constexpr double kNotAllowed = std::numeric_limits<double>::quiet_NaN();  // what fit() takes for "not here"

template <std::size_t N>
numeric::Model model_of(IsothermModel model, const Points& d) {
    return numeric::differentiated<N>([model, &d](std::size_t i, const auto& p) {
        for (std::size_t k = 0; k < N; ++k)
            if (!free_sign(model, k) && !(p[k].value > 0)) return numeric::Dual<N>(kNotAllowed);
        std::array<numeric::Dual<N>, 4> room;  // the formulas take the parameters of any model
        std::ranges::copy(p, room.begin());
        return detail::moisture(model, d.aw[i], d.t[i], room);
    });
}

Points checked_points(IsothermModel model, std::span<const WaterActivity> activities,
                      std::span<const MoistureDry> moistures, std::span<const Temperature> temps) {
    check_length(arg::moistures, moistures.size(), activities.size());
    const bool by_temperature = info(model).needs_temperature;
    if (by_temperature && temps.size() != activities.size())
        throw BadInput(arg::temps, "must have {} in it, the temperature of every point, for this model",
                       {count(activities.size())});
    Points d;
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
    const Points d =
        checked_points(model, activities, moistures, temps.value_or(std::span<const Temperature>{}));
    const std::size_t n = info(model).parameters.size();
    const auto formula = n == 2   ? model_of<2>(model, d)
                         : n == 3 ? model_of<3>(model, d)
                                  : model_of<4>(model, d);
    numeric::FitProblem problem{.argument = "moistures", .data = d.X, .model = formula};
    problem.starts =
        d.X.size() > n ? starts(model, d) : Starts{std::vector<double>(n)};  // too few: fit() refuses
    if (model == IsothermModel::peleg) {
        problem.low = {0, 0, 0, 1};
        problem.high = {HUGE_VAL, 1, HUGE_VAL, HUGE_VAL};
    }
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
