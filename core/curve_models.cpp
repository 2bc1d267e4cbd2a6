#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/kinetics.hpp"
#include "core/numeric/first_fall.hpp"

namespace drysheet {
namespace {

using Names = std::array<std::string_view, 4>;
constexpr double kHour = 3600;  // s

/// A time on the curve in h, and its logarithm for powers of it: t^n = exp(n ln t).
struct Instant {
    explicit Instant(double hours) : t(hours), ln_t(hours > 0 ? std::log(hours) : kLogOfZero) {}
    static constexpr double kLogOfZero = -1e6;  // finite, so that 0^n = 0 has slopes: they are 0
    double t;
    double ln_t;
};

// The formulas, once, for numbers and for numbers with derivatives.
using std::exp;
using std::log;
struct Lewis {
    static constexpr std::size_t count = 1;
    static constexpr Names names{"k"};
    static auto at(const Instant& x, const auto& p) { return exp(p[0] * -x.t); }
};
struct Page {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"k", "n"};
    static auto at(const Instant& x, const auto& p) { return exp(-p[0] * exp(p[1] * x.ln_t)); }
};
struct HendersonPabis {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"a", "k"};
    static auto at(const Instant& x, const auto& p) { return p[0] * exp(p[1] * -x.t); }
};
struct Logarithmic {
    static constexpr std::size_t count = 3;
    static constexpr Names names{"a", "k", "c"};
    static auto at(const Instant& x, const auto& p) { return p[0] * exp(p[1] * -x.t) + p[2]; }
};
struct TwoTerm {
    static constexpr std::size_t count = 4;
    static constexpr Names names{"a", "k0", "b", "k1"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(p[1] * -x.t) + p[2] * exp(p[3] * -x.t);
    }
};
struct Midilli {
    static constexpr std::size_t count = 4;
    static constexpr Names names{"a", "k", "n", "b"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(-p[1] * exp(p[2] * x.ln_t)) + p[3] * x.t;
    }
};
struct Weibull {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"alpha", "beta"};
    static auto at(const Instant& x, const auto& p) { return exp(-exp(p[1] * (x.ln_t - log(p[0])))); }
};
struct Verma {
    static constexpr std::size_t count = 3;
    static constexpr Names names{"a", "k", "g"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(p[1] * -x.t) + (1.0 - p[0]) * exp(p[2] * -x.t);
    }
};

/// Calls `f` with the formula of a model.
auto with_formula(CurveModel model, const auto& f) {
    switch (model) {
        case CurveModel::lewis:
            return f(Lewis());
        case CurveModel::page:
            return f(Page());
        case CurveModel::henderson_pabis:
            return f(HendersonPabis());
        case CurveModel::logarithmic:
            return f(Logarithmic());
        case CurveModel::two_term:
            return f(TwoTerm());
        case CurveModel::midilli:
            return f(Midilli());
        case CurveModel::weibull:
            return f(Weibull());
        case CurveModel::verma:
            break;
    }
    return f(Verma());
}

template <class Formula>
constexpr CurveModelInfo describe(std::string_view name, std::string_view formula, std::string_view source) {
    return {name, formula, std::span(Formula::names).first(Formula::count), source};
}
constexpr std::array kModels{
    describe<Lewis>("Lewis", "MR = exp(−k t)", "Lewis 1921, J. Ind. Eng. Chem. 13:427"),
    describe<Page>("Page", "MR = exp(−k t^n)", "Page 1949, M.Sc. thesis, Purdue University"),
    describe<HendersonPabis>("Henderson-Pabis", "MR = a exp(−k t)",
                             "Henderson and Pabis 1961, J. Agric. Eng. Res. 6:169"),
    describe<Logarithmic>(
        "logarithmic", "MR = a exp(−k t) + c",
        "Chandra and Singh 1995, Applied numerical methods for food and agricultural engineers"),
    describe<TwoTerm>("two-term", "MR = a exp(−k0 t) + b exp(−k1 t)", "Henderson 1974, Trans. ASAE 17:1167"),
    describe<Midilli>("Midilli", "MR = a exp(−k t^n) + b t",
                      "Midilli, Kucuk and Yapar 2002, Drying Technology 20:1503"),
    describe<Weibull>("Weibull", "MR = exp(−(t/alpha)^beta)", "Weibull 1951, J. Appl. Mech. 18:293"),
    describe<Verma>("Verma", "MR = a exp(−k t) + (1 − a) exp(−g t)", "Verma et al. 1985, Trans. ASAE 28:296"),
};

/// Rate constants, exponents and the time scale must be above 0; the amplitudes a, b and c are free.
constexpr bool is_positive_by_nature(std::string_view name) {
    return name != "a" && name != "b" && name != "c";
}

void check_parameters(CurveModel model, std::span<const double> parameters) {
    const auto names = info(model).parameters;
    if (parameters.size() != names.size()) {
        throw BadInput(
            "parameters", "holds {} values; the model has {} parameters",
            {amount(static_cast<double>(parameters.size())), amount(static_cast<double>(names.size()))});
    }
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!std::isfinite(parameters[i])) throw BadInput("parameters", "holds something that is no number");
        if (is_positive_by_nature(names[i]) && !(parameters[i] > 0)) {
            throw BadInput("parameters",
                           "holds {} where a rate constant, exponent or time scale above 0 is wanted",
                           {amount(parameters[i])});
        }
    }
}

double value_at(CurveModel model, double t, std::span<const double> parameters) {
    return with_formula(model, [&](auto formula) {
        std::array<double, formula.count> p{};
        std::copy_n(parameters.begin(), formula.count, p.begin());
        return formula.at(Instant(t), p);
    });
}

/// The time at which 1 − x of the fall of an exponential is done; nothing outside 0 < x ≤ 1.
std::optional<double> exponential_time(double x, double k) {
    if (!(x > 0 && x <= 1)) return std::nullopt;
    return -std::log(x) / k;
}

std::optional<double> time_of(CurveModel model, double ratio, std::span<const double> p) {
    const auto search = [&](double from, double to) {
        return numeric::first_fall([&](double t) { return value_at(model, t, p); }, ratio, from, to);
    };
    const auto between = [&](double k1, double k2) {
        return search(1e-6 / std::max(k1, k2), 100 / std::min(k1, k2));
    };
    switch (model) {
        case CurveModel::lewis:
            return exponential_time(ratio, p[0]);
        case CurveModel::henderson_pabis:
            return exponential_time(ratio / p[0], p[1]);
        case CurveModel::logarithmic:
            return exponential_time((ratio - p[2]) / p[0], p[1]);
        case CurveModel::two_term:
            return between(p[1], p[3]);
        case CurveModel::verma:
            return between(p[1], p[2]);
        case CurveModel::midilli: {
            const double scale = std::pow(p[1], -1 / p[2]);
            return search(1e-6 * scale, 1e6 * scale);
        }
        case CurveModel::page:
        case CurveModel::weibull:
            break;
    }
    const bool page = model == CurveModel::page;
    const auto t_n = exponential_time(ratio, page ? p[0] : 1.0);
    if (!t_n) return t_n;
    return page ? std::pow(*t_n, 1 / p[1]) : p[0] * std::pow(*t_n, 1 / p[1]);
}

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
            x.emplace_back(times[i].value() / kHour);
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

/// The best of a grid of rates for two exponentials, their amplitudes by linear least squares:
/// one of them may be a constant (rate 0), or their sum may be held at 1.
struct TwoExponentials {
    double a = 0, k0 = 0, b = 0, k1 = 0;
};
TwoExponentials best_two(const Points& points, std::span<const double> rates, bool sum_is_one) {
    const std::size_t count = rates.size();
    const Eigen::Map<const Eigen::ArrayXd> y(points.y.data(), std::ssize(points.y));
    Eigen::ArrayXd t(y.size());
    for (Eigen::Index i = 0; i < t.size(); ++i) t[i] = points.x[static_cast<std::size_t>(i)].t;
    std::vector<Eigen::ArrayXd> decays;
    for (double rate : rates) decays.emplace_back((-rate * t).exp());
    TwoExponentials best;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j) {
            const auto &u = decays[i], &v = decays[j];
            double a = 0, b = 0;
            if (sum_is_one) {
                a = ((u - v) * (y - v)).sum() / (u - v).square().sum();
                b = 1 - a;
            } else {
                const double uu = u.square().sum(), uv = (u * v).sum(), vv = v.square().sum();
                const double uy = (u * y).sum(), vy = (v * y).sum();
                const double determinant = uu * vv - uv * uv;
                a = (vv * uy - uv * vy) / determinant;
                b = (uu * vy - uv * uy) / determinant;
            }
            const double sum = (a * u + b * v - y).square().sum();
            if (sum < least) {
                least = sum;
                best = {a, rates[i], b, rates[j]};
            }
        }
    }
    return best;
}

/// Where the search starts, from the points themselves.
std::vector<double> start_of(CurveModel model, const Points& points) {
    const double k = points.rate;
    switch (model) {
        case CurveModel::lewis:
            return {k};
        case CurveModel::page:
            return {points.page_k, points.page_n};
        case CurveModel::henderson_pabis:
            return {1, k};
        case CurveModel::midilli:
            return {1, points.page_k, points.page_n, 0};
        case CurveModel::weibull:
            return {std::pow(points.page_k, -1 / points.page_n), points.page_n};
        case CurveModel::logarithmic: {
            // One rate of a grid with a constant beside it.
            TwoExponentials best;
            best = best_two(points, std::array{k, 0.0}, false);
            return {best.a, best.k0, best.b};
        }
        case CurveModel::two_term:
        case CurveModel::verma:
            break;
    }
    const std::array rates{8 * k, 4 * k, 2 * k, k, k / 2, k / 4};
    const auto [a, k0, b, k1] = best_two(points, rates, model == CurveModel::verma);
    if (model == CurveModel::verma) return {a, k0, k1};
    return {a, k0, b, k1};
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
                                .starts = {start_of(model, points)},
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
    numeric::Fit fit = numeric::fit(problem);
    put_faster_first(model, fit);
    return fit;
}

void check_points(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    if (times.size() != ratios.size()) {
        throw BadInput(
            "ratios", "holds {} values beside {} times",
            {amount(static_cast<double>(ratios.size())), amount(static_cast<double>(times.size()))});
    }
    for (Time time : times) {
        if (!(time.value() >= 0))
            throw BadInput("times", "holds {}: drying starts at time 0", {amount(time)});
    }
}

}  // namespace

std::span<const CurveModelInfo> curve_models() { return kModels; }
const CurveModelInfo& info(CurveModel model) { return kModels.at(static_cast<std::size_t>(model)); }

MoistureRatio curve(CurveModel model, Time time, std::span<const double> parameters) {
    check_parameters(model, parameters);
    if (!(time.value() >= 0)) throw BadInput("time", "is before the start of the curve");
    const double ratio = value_at(model, time.value() / kHour, parameters);
    if (!std::isfinite(ratio)) throw BadInput("parameters", "give no finite ratio");
    return MoistureRatio(ratio);
}

Time curve_time(CurveModel model, MoistureRatio ratio, std::span<const double> parameters) {
    check_parameters(model, parameters);
    const double start = value_at(model, 0, parameters);
    if (ratio.value() > start)
        throw BadInput("ratio", "is above {}, where the curve starts", {amount(start)});
    const auto t = time_of(model, ratio.value(), parameters);
    if (!t || !std::isfinite(*t)) throw NoConvergence("ratio", "is never reached on this curve");
    return Time::from_value(*t * kHour);
}

numeric::Fit curve_fit(CurveModel model, std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    return fit_points(model, Points(times, ratios));
}

std::vector<RankedCurve> curve_rank(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    const Points points(times, ratios);
    std::array<std::optional<numeric::Fit>, kModels.size()> fits;
    std::array<CurveModel, kModels.size()> order{};
    for (std::size_t i = 0; i < kModels.size(); ++i) {
        order[i] = static_cast<CurveModel>(i);
        if (times.size() <= kModels[i].parameters.size()) continue;
        try {
            fits[i] = fit_points(order[i], points);
        } catch (const NoConvergence&) {
            // Stays without a fit: that is what the ranking says of it.
        }
    }
    const auto fit_of = [&](CurveModel model) -> auto& { return fits[static_cast<std::size_t>(model)]; };
    std::ranges::stable_sort(order, [&](CurveModel a, CurveModel b) {
        if (!fit_of(a) || !fit_of(b)) return fit_of(a) && !fit_of(b);
        return fit_of(a)->aicc < fit_of(b)->aicc;
    });
    if (!fit_of(order.front())) throw NoConvergence("ratios", "do not determine any of the models");
    std::vector<RankedCurve> ranked;
    for (CurveModel model : order) ranked.push_back({model, fit_of(model)});
    return ranked;
}

}  // namespace drysheet
