#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "drysheet/curve_formulas.hpp"
#include "drysheet/numeric/first_fall.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

using namespace curves;

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

void check_parameters(CurveModel model, std::span<const double> parameters) {
    const auto names = info(model).parameters;
    if (parameters.size() != names.size()) {
        throw BadInput(arg::parameters, "must be as many numbers as this model has, {}",
                       {count(names.size())});
    }
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!std::isfinite(parameters[i]))
            throw BadInput(arg::parameters, "holds something that is no number");
        if (is_positive_by_nature(names[i]) && !(parameters[i] > 0)) {
            throw BadInput(arg::parameters,
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

}  // namespace

std::span<const CurveModelInfo> curve_models() { return kModels; }
const CurveModelInfo& info(CurveModel model) { return kModels.at(static_cast<std::size_t>(model)); }

MoistureRatio curve(CurveModel model, Time time, std::span<const double> parameters) {
    check_parameters(model, parameters);
    if (!(time.value() >= 0)) throw BadInput(arg::time, "is before the start of the curve");
    const double ratio = value_at(model, hours(time), parameters);
    if (!std::isfinite(ratio)) throw BadInput(arg::parameters, "give no finite ratio");
    return MoistureRatio(ratio);
}

Time curve_time(CurveModel model, MoistureRatio ratio, std::span<const double> parameters) {
    check_parameters(model, parameters);
    const double start = value_at(model, 0, parameters);
    if (ratio.value() > start)
        throw BadInput(arg::ratio, "is above {}, where the curve starts", {amount(start)});
    const auto t = time_of(model, ratio.value(), parameters);
    if (!t || !std::isfinite(*t)) throw NoConvergence(arg::ratio, "is never reached on this curve");
    return from_hours(*t);
}

}  // namespace drysheet
