#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "drysheet/curve_formulas.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

using namespace curves;

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

/// The points of a fit, and what is seen of them before any search.
struct Points {
    std::vector<Instant> x;
    std::vector<double> y;
    double rate = 0;                ///< Lewis' k, by −Σ t ln MR / Σ t²
    double page_k = 0, page_n = 0;  ///< by the line ln(−ln MR) = ln k + n ln t

    Points(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
        std::vector<double> ln_t, ln_ln;
        double top = 0, bottom = 0, latest = 0;
        for (std::size_t i = 0; i < times.size(); ++i) {
            x.emplace_back(hours(times[i]));
            y.push_back(ratios[i].value());
            const double t = x.back().t;
            latest = std::max(latest, t);
            if (!(t > 0 && y.back() > 0.01 && y.back() < 0.999)) continue;
            const double ln_y = std::log(y.back());
            ln_t.push_back(x.back().ln_t);
            ln_ln.push_back(std::log(-ln_y));
            top -= t * ln_y;
            bottom += t * t;
        }
        rate = top > 0 ? top / bottom : 1 / std::max(latest, 1e-6);
        const auto [ln_k, n] = line(ln_t, ln_ln);
        const bool plausible = n > 0.1 && n < 10;
        page_n = plausible ? n : 1;
        page_k = plausible ? std::exp(ln_k) : rate;
    }
};

/// Two exponentials with amplitudes a and b; `sum` is their residual sum less that of MR alone.
struct TwoExponentials {
    double a = 0, k0 = 0, b = 0, k1 = 0;
    double sum = std::numeric_limits<double>::infinity();
};
/// The best pairs out of a grid of falling rates, amplitudes by linear least squares, or by that with a + b =
/// 1: the best of neighbours, of rates a little apart and of rates far apart, since each may lead to a
/// minimum of its own.
std::vector<TwoExponentials> best_pairs(const Points& points, const Eigen::ArrayXd& rates, bool sum_is_one) {
    const Eigen::Map<const Eigen::VectorXd> y(points.y.data(), std::ssize(points.y));
    Eigen::ArrayXd t(y.size());
    for (Eigen::Index i = 0; i < t.size(); ++i) t[i] = points.x[static_cast<std::size_t>(i)].t;
    Eigen::MatrixXd decays(y.size(), rates.size());
    for (Eigen::Index k = 0; k < rates.size(); ++k) decays.col(k) = (-rates[k] * t).exp();
    const Eigen::MatrixXd products = decays.transpose() * decays;
    const Eigen::VectorXd with_y = decays.transpose() * y;
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

/// Where the search starts, from the points themselves.
std::vector<std::vector<double>> starts(CurveModel model, const Points& points) {
    const double k = points.rate;
    std::vector<std::vector<double>> made;
    switch (model) {
        case CurveModel::lewis:
            return {{k}};
        case CurveModel::page:
            return {{points.page_k, points.page_n}};
        case CurveModel::henderson_pabis:
            return {{1, k}};
        case CurveModel::midilli:
            return {{1, points.page_k, points.page_n, 0}, {1, k, 1, 0}};
        case CurveModel::weibull:
            return {{std::pow(points.page_k, -1 / points.page_n), points.page_n}};
        case CurveModel::logarithmic:
            // The second rate is 0: a constant. A slow start for curves that are nearly straight.
            for (const double rate : {k, k / 4}) {
                for (const auto& pair : best_pairs(points, Eigen::Array2d(rate, 0), false)) {
                    made.push_back({pair.a, pair.k0, pair.b});
                }
            }
            return made;
        case CurveModel::two_term:
        case CurveModel::verma:
            break;
    }
    // From 32 k down to k / 8 in steps of √2.
    const Eigen::ArrayXd rates = k * (std::numbers::ln2 * Eigen::ArrayXd::LinSpaced(17, 5, -3)).exp();
    const bool verma = model == CurveModel::verma;
    for (const auto& [a, k0, b, k1, sum] : best_pairs(points, rates, verma)) {
        made.push_back(verma ? std::vector{a, k0, k1} : std::vector{a, k0, b, k1});
    }
    return made;
}

/// Two terms that can change places: the faster first.
void put_faster_first(CurveModel model, numeric::Fit& fit) {
    auto& p = fit.parameters;
    auto& u = fit.standard_errors;
    if (model == CurveModel::two_term && p[1] < p[3]) {
        for (auto* v : {&p, &u}) std::swap_ranges(v->begin(), v->begin() + 2, v->begin() + 2);
    } else if (model == CurveModel::verma && p[1] < p[2]) {
        p[0] = 1 - p[0];
        for (auto* v : {&p, &u}) std::swap((*v)[1], (*v)[2]);
    }
}

numeric::Fit fit_points(CurveModel model, const Points& points) {
    numeric::FitProblem problem{.argument = "ratios",
                                .data = points.y,
                                .model = {},
                                .starts = {},
                                .offset = 1e-6,
                                .most_iterations = 80};
    problem.model = with_formula(model, [&](auto formula) {
        return numeric::differentiated<formula.count>(
            [x = points.x.data()](std::size_t i, const auto& p) { return decltype(formula)::at(x[i], p); });
    });
    for (std::string_view name : info(model).parameters) {
        problem.low.push_back(is_positive_by_nature(name) ? 0 : -std::numeric_limits<double>::infinity());
        problem.high.push_back(std::numeric_limits<double>::infinity());
    }
    // The starts come best first: the first that leads to a minimum with known parameters will do.
    for (auto& start : starts(model, points)) {
        problem.starts = {std::move(start)};
        try {
            numeric::Fit fit = numeric::fit(problem);
            for (std::size_t k = 0; k < fit.parameters.size(); ++k) {
                if (problem.low[k] == 0 && fit.standard_errors[k] > fit.parameters[k]) {
                    throw NoConvergence(arg::ratios, "does not determine every parameter of the model");
                }
            }
            put_faster_first(model, fit);
            return fit;
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

numeric::Fit curve_fit(CurveModel model, std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    return fit_points(model, Points(times, ratios));
}

std::vector<RankedCurve> curve_rank(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    const Points points(times, ratios);
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
