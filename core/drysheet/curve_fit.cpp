// SPDX-License-Identifier: MPL-2.0
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "drysheet/models/curves.hpp"
#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

using models::CurvePoints, models::Instant, models::TwoExponentials;

/// Straight line through points: intercept and slope.
std::pair<double, double> line(std::span<const double> x, std::span<const double> y) {
    double mx = 0, my = 0, sxx = 0, sxy = 0;
    const double n = static_cast<double>(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) {
        mx += x[i] / n;
        my += y[i] / n;
    }
    for (std::size_t i = 0; i < x.size(); ++i) {
        sxx += (x[i] - mx) * (x[i] - mx);
        sxy += (x[i] - mx) * (y[i] - my);
    }
    const double slope = sxx > 0 ? sxy / sxx : 0;
    return {my - slope * mx, slope};
}

CurvePoints seen(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    CurvePoints points;
    std::vector<double> ln_t, ln_ln;
    double top = 0, bottom = 0, latest = 0;
    for (std::size_t i = 0; i < times.size(); ++i) {
        points.x.emplace_back(hours(times[i]));
        points.y.push_back(ratios[i].value());
        const auto& [t, log_t] = points.x.back();
        const double y = points.y.back();
        latest = std::max(latest, t);
        if (!(t > 0 && y > 0.01 && y < 0.999)) continue;
        const double ln_y = std::log(y);
        ln_t.push_back(log_t);
        ln_ln.push_back(std::log(-ln_y));
        top -= t * ln_y;
        bottom += t * t;
    }
    points.rate = top > 0 ? top / bottom : 1 / std::max(latest, 1e-6);
    const auto [ln_k, n] = line(ln_t, ln_ln);
    const bool plausible = n > 0.1 && n < 10;
    points.page_n = plausible ? n : 1;
    points.page_k = plausible ? std::exp(ln_k) : points.rate;
    return points;
}

constexpr double kMisfitLevel = 0.005, kLeastMisfit = 0.005;
constexpr double kSparedMinutes = 4;
constexpr double kBetterBy =
    10;  // Burnham and Anderson 2002, sec. 2.6: the worse has then hardly any support

/// What is fitted: ratios, or the free moistures of a weighed run with that at the start as a last parameter.
struct Readings {
    CurvePoints points;         ///< as ratios
    std::vector<double> data;   ///< what the fit minimises over
    std::string_view argument;  ///< that a refusal names
    bool weighed = false;       ///< data are free moistures
    bool shares_of_one = false;
    double scale() const { return weighed ? data.front() : 1; }
};

template <class Curve>
numeric::FitModel model_of(const Readings& readings) {
    constexpr std::size_t N = Curve::parameters.size();
    const Instant* x = readings.points.x.data();
    if (!readings.weighed)
        return numeric::differentiated<N>([x](std::size_t i, const auto& p) { return Curve::at(x[i], p); });
    return numeric::differentiated<N + 1>(
        [x](std::size_t i, const auto& p) { return x[i].t > 0 ? p[N] * Curve::at(x[i], p) : p[N]; });
}

/// The parameters with the faster of two terms that can change places first.
template <class Curve>
std::vector<double> faster_first(const std::vector<double>& parameters) {
    std::vector<double> ordered = parameters;
    if constexpr (requires { Curve::faster_first(parameters); })
        std::ranges::copy(Curve::faster_first(std::span(parameters).first(Curve::parameters.size())),
                          ordered.begin());
    return ordered;
}

template <class Curve>
numeric::Fit fit_curve(const Readings& readings) {
    numeric::FitProblem problem{.argument = readings.argument,
                                .data = readings.data,
                                .model = model_of<Curve>(readings),
                                .starts = {},
                                .offset = 1e-6,
                                .most_iterations = 40,
                                .shares_of_one = readings.shares_of_one};
    for (std::string_view name : Curve::parameters) {
        problem.low.push_back(models::positive_by_nature(name) ? 0 : -models::kInfinity);
    }
    if (readings.weighed) problem.low.push_back(0);
    problem.high.assign(problem.low.size(), models::kInfinity);
    // The starts come best first: the first that leads to a minimum with known parameters will do.
    for (auto& start : Curve::starts(readings.points)) {
        if (readings.weighed) start.push_back(readings.scale());
        problem.starts = {std::move(start)};
        try {
            numeric::Fit fit = numeric::fit(problem);
            for (std::size_t k = 0; k < fit.parameters.size(); ++k) {
                if (problem.low[k] == 0 && fit.standard_errors[k] > fit.parameters[k]) {
                    throw NoConvergence(readings.argument, "does not determine every parameter of the model");
                }
            }
            const auto ordered = faster_first<Curve>(fit.parameters);
            if (ordered == fit.parameters) return fit;
            problem.starts = {ordered};
            return numeric::fit(problem);
        } catch (const NoConvergence&) {
            continue;
        }
    }
    throw NoConvergence(readings.argument,
                        Curve::parameters.size() == 1
                            ? "does not determine the model's parameter"
                            : "does not determine every parameter of the model; one with fewer may do");
}
numeric::Fit fit_readings(CurveModel model, const Readings& readings) {
    return models::with_curve(model, [&](auto curve) { return fit_curve<decltype(curve)>(readings); });
}

/// All models; nothing where the readings do not determine one.
std::vector<std::optional<numeric::Fit>> fits_of_all(const Readings& readings) {
    std::vector<std::optional<numeric::Fit>> fits;
    for (std::size_t i = 0; i < curve_models().size(); ++i) {
        auto& fit = fits.emplace_back();
        if (readings.data.size() <= curve_models()[i].parameters.size() + (readings.weighed ? 1 : 0))
            continue;
        try {
            fit = fit_readings(static_cast<CurveModel>(i), readings);
        } catch (const NoConvergence&) {
            // Stays without a fit: that is what the ranking says of it.
        }
    }
    return fits;
}

CurveFit judged(CurveModel model, const Readings& readings) {
    CurveFit fit{fit_readings(model, readings), model, {}, {}, {}};
    const auto& x = readings.points.x;
    const double scale = readings.weighed ? fit.parameters.back() : 1;
    std::vector<std::size_t> order(x.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return x[i].t; });
    // A clock started late; and what a single time may have been off.
    constexpr double minute = 1.0 / 60;
    std::vector<double> late, spared;
    models::with_curve(model, [&](auto curve) {
        for (const Instant& at : x) {
            const double fall =
                (curve.at(Instant(at.t + minute), fit.parameters) - curve.at(at, fit.parameters)) * scale;
            late.push_back(readings.weighed && at.t == 0 ? 0 : fall / minute);
            spared.push_back(kSparedMinutes * std::abs(fall));
        }
    });
    fit.misfit = numeric::misfit(fit, order, kMisfitLevel, spared, {late, kSparedMinutes * minute});
    const bool clock = fit.misfit.kind == numeric::Misfit::Kind::term;
    if (!clock) fit.misfit.size /= scale;
    if (!clock && std::abs(fit.misfit.size) < kLeastMisfit) fit.misfit = {};
    if (fit.misfit.kind == numeric::Misfit::Kind::none) return fit;
    fit.at = from_hours(x[fit.misfit.at].t);
    const auto rivals = fits_of_all(readings);
    for (std::size_t i = 0; i < rivals.size(); ++i) {
        if (!rivals[i] || !(fit.aicc - rivals[i]->aicc > std::max(fit.better_by, kBetterBy))) continue;
        fit.better = static_cast<CurveModel>(i);
        fit.better_by = fit.aicc - rivals[i]->aicc;
    }
    return fit;
}

/// Points that count: a ratio of 1 at time 0 is so by definition.
Readings readings_of(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_length(arg::ratios, ratios.size(), times.size());
    check_from_start(times, ratios);
    std::vector<Time> t;
    std::vector<MoistureRatio> y;
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (times[i].value() == 0 && ratios[i].value() == 1) continue;
        t.push_back(times[i]);
        y.push_back(ratios[i]);
    }
    Readings readings{.points = seen(t, y), .data = {}, .argument = arg::ratios};
    readings.data = readings.points.y;
    readings.shares_of_one = t.size() < times.size();
    return readings;
}

void check_more_than_parameters(CurveModel model, const Readings& readings) {
    const std::size_t parameters = info(model).parameters.size() + (readings.weighed ? 1 : 0);
    if (readings.data.size() > parameters) return;
    throw BadInput(
        readings.argument,
        readings.weighed
            ? "holds {} readings: the model has {} parameters with the start, and needs more than that"
            : "holds {} readings, not counting a ratio of 1 at time 0, which is so by definition: the "
              "model has {} parameters and needs more than that",
        {count(readings.data.size()), count(parameters)});
}

}  // namespace

// The best of neighbours, of rates a little apart and of rates far apart, since each may lead to a minimum of
// its own.
std::vector<TwoExponentials> models::CurvePoints::pairs(std::span<const double> ks, bool sum_is_one) const {
    const Eigen::Map<const Eigen::ArrayXd> rates(ks.data(), std::ssize(ks));
    const Eigen::Map<const Eigen::VectorXd> ratios(y.data(), std::ssize(y));
    Eigen::ArrayXd t(ratios.size());
    for (Eigen::Index i = 0; i < t.size(); ++i) t[i] = x[static_cast<std::size_t>(i)].t;
    Eigen::MatrixXd decays(ratios.size(), rates.size());
    for (Eigen::Index k = 0; k < rates.size(); ++k) decays.col(k) = (-rates[k] * t).exp();
    const Eigen::MatrixXd products = decays.transpose() * decays;
    const Eigen::VectorXd with_y = decays.transpose() * ratios;
    std::vector<TwoExponentials> best(3);
    for (Eigen::Index i = 0; i < rates.size(); ++i) {
        for (Eigen::Index j = i + 1; j < rates.size(); ++j) {
            const double uu = products(i, i), uv = products(i, j), vv = products(j, j);
            const double uy = with_y[i], vy = with_y[j];
            double a = (uy - vy - uv + vv) / (uu - 2 * uv + vv), b = 1 - a;
            if (!sum_is_one) {
                const double determinant = uu * vv - uv * uv;
                a = (vv * uy - uv * vy) / determinant;
                b = (uu * vy - uv * uy) / determinant;
            }
            const double sum = a * a * uu + 2 * a * b * uv + b * b * vv - 2 * (a * uy + b * vy);
            auto& rival = best[j - i <= 2 ? 0 : j - i <= 4 ? 1 : 2];
            if (sum < rival.sum) rival = {a, rates[i], b, rates[j], sum};
        }
    }
    std::ranges::sort(best, {}, &TwoExponentials::sum);
    std::erase_if(best, [](const TwoExponentials& pair) { return !std::isfinite(pair.sum); });
    return best;
}

std::vector<TwoExponentials> models::CurvePoints::pairs(bool sum_is_one) const {
    // From 32 k down to k / 8 in steps of √2.
    const Eigen::ArrayXd rates = rate * (std::numbers::ln2 * Eigen::ArrayXd::LinSpaced(17, 5, -3)).exp();
    return pairs(std::span(rates.data(), 17), sum_is_one);
}

CurveFit curve_fit(CurveModel model, std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    const Readings readings = readings_of(times, ratios);
    check_more_than_parameters(model, readings);
    return judged(model, readings);
}

CurveFit run_fit(CurveModel model, std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                 MoistureDry equilibrium_db) {
    check_length(arg::masses, masses.size(), times.size());
    const auto ratios = moisture_ratios(masses, solids, equilibrium_db);
    require_rising(times);
    std::vector<Time> since;
    since.reserve(times.size());
    for (const Time& time : times) since.push_back(time - times[0]);
    Readings readings{.points = seen(since, ratios), .data = {}, .argument = arg::masses, .weighed = true};
    for (const Mass& mass : masses) readings.data.push_back(mass / solids - 1 - equilibrium_db.value());
    check_more_than_parameters(model, readings);
    return judged(model, readings);
}

std::vector<RankedCurve> curve_rank(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    const Readings readings = readings_of(times, ratios);
    check_more_than_parameters(CurveModel::lewis, readings);
    const auto fits = fits_of_all(readings);
    std::vector<CurveModel> order;
    for (std::size_t i = 0; i < fits.size(); ++i) order.push_back(static_cast<CurveModel>(i));
    const auto fit_of = [&](CurveModel model) -> auto& { return fits[static_cast<std::size_t>(model)]; };
    std::ranges::stable_sort(order, [&](CurveModel a, CurveModel b) {
        if (!fit_of(a) || !fit_of(b)) return fit_of(a) && !fit_of(b);
        // Page and Weibull are one curve: rounding must not decide their order.
        return std::round(1e6 * fit_of(a)->aicc) < std::round(1e6 * fit_of(b)->aicc);
    });
    if (!fit_of(order.front())) throw NoConvergence(arg::ratios, "does not determine any of the models");
    std::vector<RankedCurve> ranked;
    ranked.reserve(order.size());
    for (CurveModel model : order) ranked.push_back({model, fit_of(model)});
    return ranked;
}

}  // namespace drysheet
