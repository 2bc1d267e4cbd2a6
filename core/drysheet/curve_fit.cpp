#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "drysheet/models/curves.hpp"
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

/// The parameters with the faster of two terms that can change places first.
std::vector<double> faster_first(CurveModel model, const std::vector<double>& parameters) {
    return models::with_curve(model, [&](auto curve) {
        if constexpr (requires { curve.faster_first(parameters); })
            return curve.faster_first(parameters);
        else
            return parameters;
    });
}

numeric::Fit fit_points(CurveModel model, const CurvePoints& points) {
    numeric::FitProblem problem{.argument = "ratios",
                                .data = points.y,
                                .model = {},
                                .starts = {},
                                .offset = 1e-6,
                                .most_iterations = 80};
    problem.model = models::with_curve(model, [&](auto curve) {
        return numeric::differentiated<curve.parameters.size()>(
            [x = points.x.data()](std::size_t i, const auto& p) { return decltype(curve)::at(x[i], p); });
    });
    for (std::string_view name : info(model).parameters) {
        problem.low.push_back(models::positive_by_nature(name) ? 0
                                                               : -std::numeric_limits<double>::infinity());
        problem.high.push_back(std::numeric_limits<double>::infinity());
    }
    // The starts come best first: the first that leads to a minimum with known parameters will do.
    for (auto& start : models::with_curve(model, [&](auto curve) { return curve.starts(points); })) {
        problem.starts = {std::move(start)};
        try {
            numeric::Fit fit = numeric::fit(problem);
            for (std::size_t k = 0; k < fit.parameters.size(); ++k) {
                if (problem.low[k] == 0 && fit.standard_errors[k] > fit.parameters[k]) {
                    throw NoConvergence(arg::ratios, "does not determine every parameter of the model");
                }
            }
            const auto ordered = faster_first(model, fit.parameters);
            if (ordered == fit.parameters) return fit;
            problem.starts = {ordered};
            return numeric::fit(problem);
        } catch (const NoConvergence&) {
            continue;
        }
    }
    throw NoConvergence(arg::ratios,
                        problem.low.size() == 1
                            ? "does not determine the model's parameter"
                            : "does not determine every parameter of the model; one with fewer may do");
}

void check_points(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_length(arg::ratios, ratios.size(), times.size());
    check_from_start(times, ratios);
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

numeric::Fit curve_fit(CurveModel model, std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    return fit_points(model, seen(times, ratios));
}

std::vector<RankedCurve> curve_rank(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    const CurvePoints points = seen(times, ratios);
    const auto models = curve_models();
    std::vector<std::optional<numeric::Fit>> fits(models.size());
    std::vector<CurveModel> order(models.size());
    for (std::size_t i = 0; i < models.size(); ++i) {
        order[i] = static_cast<CurveModel>(i);
        if (times.size() <= models[i].parameters.size()) continue;
        try {
            fits[i] = fit_points(order[i], points);
        } catch (const NoConvergence&) {
            // Stays without a fit: that is what the ranking says of it.
        }
    }
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
