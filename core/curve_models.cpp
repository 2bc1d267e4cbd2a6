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

// The formulas, once, for numbers and for numbers with derivatives. t in h.
using std::exp;
using std::pow;
struct Lewis {
    static constexpr std::size_t count = 1;
    static constexpr Names names{"k"};
    static auto at(double t, const auto& p) { return exp(-p[0] * t); }
};
struct Page {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"k", "n"};
    template <class T>
    static T at(double t, const std::array<T, 2>& p) {
        return exp(-p[0] * pow(T(t), p[1]));
    }
};
struct HendersonPabis {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"a", "k"};
    static auto at(double t, const auto& p) { return p[0] * exp(-p[1] * t); }
};
struct Logarithmic {
    static constexpr std::size_t count = 3;
    static constexpr Names names{"a", "k", "c"};
    static auto at(double t, const auto& p) { return p[0] * exp(-p[1] * t) + p[2]; }
};
struct TwoTerm {
    static constexpr std::size_t count = 4;
    static constexpr Names names{"a", "k0", "b", "k1"};
    static auto at(double t, const auto& p) { return p[0] * exp(-p[1] * t) + p[2] * exp(-p[3] * t); }
};
struct Midilli {
    static constexpr std::size_t count = 4;
    static constexpr Names names{"a", "k", "n", "b"};
    template <class T>
    static T at(double t, const std::array<T, 4>& p) {
        return p[0] * exp(-p[1] * pow(T(t), p[2])) + p[3] * t;
    }
};
struct Weibull {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"alpha", "beta"};
    template <class T>
    static T at(double t, const std::array<T, 2>& p) {
        return exp(-pow(T(t) / p[0], p[1]));
    }
};
struct Verma {
    static constexpr std::size_t count = 3;
    static constexpr Names names{"a", "k", "g"};
    static auto at(double t, const auto& p) { return p[0] * exp(-p[1] * t) + (1 - p[0]) * exp(-p[2] * t); }
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
        return formula.at(t, p);
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

/// Starts of the search, from the points themselves: Page's line ln(−ln MR) against ln t, and Lewis' rate.
std::vector<std::vector<double>> starts(CurveModel model, std::span<const double> t,
                                        std::span<const double> y) {
    std::vector<double> ln_t, ln_ln;
    double top = 0, bottom = 0, latest = 0;
    for (std::size_t i = 0; i < t.size(); ++i) {
        latest = std::max(latest, t[i]);
        if (!(t[i] > 0 && y[i] > 0.01 && y[i] < 0.999)) continue;
        ln_t.push_back(std::log(t[i]));
        ln_ln.push_back(std::log(-std::log(y[i])));
        top -= t[i] * std::log(y[i]);
        bottom += t[i] * t[i];
    }
    const double k = top > 0 ? top / bottom : 1 / std::max(latest, 1e-6);
    auto [ln_k, n] = line(ln_t, ln_ln);
    if (!(n > 0.1 && n < 10)) {
        ln_k = std::log(k);
        n = 1;
    }
    const double page_k = std::exp(ln_k);
    switch (model) {
        case CurveModel::lewis:
            return {{k}};
        case CurveModel::page:
            return {{page_k, n}};
        case CurveModel::henderson_pabis:
            return {{1, k}};
        case CurveModel::logarithmic:
            return {{1, k, 0}, {1.5, k / 2, -0.5}};
        case CurveModel::two_term:
            return {{0.5, 3 * k, 0.5, k / 2}, {0.2, 10 * k, 0.8, k}, {-0.5, 4 * k, 1.5, k}};
        case CurveModel::midilli:
            return {{1, page_k, n, 0}};
        case CurveModel::weibull:
            return {{std::pow(page_k, -1 / n), n}};
        case CurveModel::verma:
            break;
    }
    return {{0.5, 3 * k, k / 2}, {0.2, 10 * k, k}, {-0.5, 4 * k, k}};
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
    std::vector<double> t, y;
    for (Time time : times) t.push_back(time.value() / kHour);
    for (MoistureRatio ratio : ratios) y.push_back(ratio.value());
    numeric::FitProblem problem{.argument = "ratios", .data = y, .model = {}, .starts = starts(model, t, y)};
    problem.model = with_formula(model, [&](auto formula) {
        return numeric::differentiated<formula.count>(
            [&t, formula](std::size_t i, const auto& p) { return formula.at(t[i], p); });
    });
    for (std::string_view name : info(model).parameters) {
        problem.low.push_back(is_positive_by_nature(name) ? 0 : -std::numeric_limits<double>::infinity());
        problem.high.push_back(std::numeric_limits<double>::infinity());
    }
    numeric::Fit fit = numeric::fit(problem);
    put_faster_first(model, fit);
    return fit;
}

std::vector<RankedCurve> curve_rank(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    check_points(times, ratios);
    std::array<std::optional<numeric::Fit>, kModels.size()> fits;
    std::array<CurveModel, kModels.size()> order{};
    for (std::size_t i = 0; i < kModels.size(); ++i) {
        order[i] = static_cast<CurveModel>(i);
        if (times.size() <= kModels[i].parameters.size()) continue;
        try {
            fits[i] = curve_fit(order[i], times, ratios);
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
