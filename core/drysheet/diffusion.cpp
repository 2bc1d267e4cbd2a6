// SPDX-License-Identifier: MPL-2.0
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "drysheet/kinetics.hpp"
#include "drysheet/numeric/chances.hpp"
#include "drysheet/numeric/roots.hpp"
#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kLeastMisfit = 0.005;  // of the free moisture at the start
constexpr double kSwitch = 0.2;         // both forms converge fast here: 4 and 3 terms

/// ∫ erfc from x.
double ierfc(double x) { return std::exp(-x * x) / std::sqrt(kPi) - x * std::erfc(x); }

/// The mean moisture ratio and its derivative by Fo.
struct SlabValue {
    double E = 1;
    double slope = 0;
};
SlabValue slab(double Fo) {
    constexpr int terms = 12;  // the last one is far below rounding in both forms
    SlabValue value;
    if (Fo < kSwitch) {
        if (Fo == 0) return value;
        const double root = std::sqrt(Fo);
        double sum = 0, theta = 0;
        for (int n = 1; n <= terms; ++n) {
            const double sign = n % 2 == 0 ? 1 : -1;
            sum += sign * ierfc(n / root);
            theta += sign * std::exp(-n * n / Fo);
        }
        value.E = 1 - 2 * root * (1 / std::sqrt(kPi) + 2 * sum);
        value.slope = -(1 + 2 * theta) / std::sqrt(kPi * Fo);
        return value;
    }
    value = {0, 0};
    for (int n = 0; n <= terms; ++n) {
        const double m = 2 * n + 1;
        const double decay = std::exp(-m * m * kPi * kPi * Fo / 4);
        value.E += 8 / (kPi * kPi) * decay / (m * m);
        value.slope -= 2 * decay;
    }
    return value;
}

/// Fo of a ratio by the first term of either form: a start for the search.
double first_guess(double E) {
    return E > 0.5 ? kPi * (1 - E) * (1 - E) / 4 : -4 / (kPi * kPi) * std::log(kPi * kPi / 8 * E);
}

}  // namespace

MoistureRatio slab_ratio(double fourier) {
    if (!(fourier >= 0)) throw BadInput(arg::fourier, "must be 0 or more");
    return MoistureRatio(slab(fourier).E);
}

double slab_fourier(MoistureRatio ratio) {
    const double E = ratio.value();
    if (!(E > 0 && E <= 1)) throw BadInput(arg::ratio, "is not above 0 and up to 1");
    if (E == 1) return 0;
    // The first terms of the short and the long series are within 1 % of the whole.
    const double Fo = first_guess(E);
    return bracketed_root([E](double x) { return slab_ratio(x).value() - E; }, 0.97 * Fo, 1.03 * Fo);
}

namespace {

/// D/L² per hour and the height of the curve (1, but for the error of the first mass).
numeric::Fit fit_slab(const std::vector<double>& t, const std::vector<double>& y, double start) {
    const auto model = [&](std::span<const double> p, std::span<double> values, std::span<double> slopes) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            const SlabValue value = slab(p[0] * t[i]);
            values[i] = p[1] * value.E;
            slopes[i] = t[i] == 0 ? 0 : p[1] * value.slope * t[i];
            slopes[values.size() + i] = value.E;
        }
    };
    return numeric::fit({.argument = arg::ratios,
                         .data = y,
                         .model = model,
                         .starts = {{start, 1}},
                         .low = {0, 0},
                         .high = {1e6 / *std::ranges::max_element(t), 2}});
}

/// By how much D/L² would change if the equilibrium were higher by 0.01 of the first free moisture, to first
/// order.
double equilibrium_effect(const numeric::Fit& fit, const std::vector<double>& y) {
    constexpr double higher = 0.01;
    double kk = 0, ka = 0, aa = 0, k = 0, a = 0;  // normal equations of D/L² and the height
    for (std::size_t i = 0; i < y.size(); ++i) {
        const double by_k = fit.slopes[i], by_a = fit.slopes[y.size() + i];
        const double change = (y[i] - higher) / (1 - higher) - y[i];
        kk += by_k * by_k;
        ka += by_k * by_a;
        aa += by_a * by_a;
        k += by_k * change;
        a += by_a * change;
    }
    return (aa * k - ka * a) / (kk * aa - ka * ka);
}

}  // namespace

DiffusivityFit diffusivity(std::span<const Time> times, std::span<const MoistureRatio> ratios,
                           Length thickness, double sides) {
    constexpr double kLevel = 0.01;
    check_length(arg::ratios, ratios.size(), times.size());
    check_from_start(times, ratios);
    require_positive(thickness, arg::thickness);
    if (sides != 1 && sides != 2) throw BadInput(arg::sides, "must be 1 or 2, the faces that dry");
    std::vector<double> t, y;
    for (std::size_t i = 0; i < times.size(); ++i) {
        t.push_back(hours(times[i]));
        y.push_back(ratios[i].value());
    }
    if (std::ranges::count_if(t, [](double x) { return x > 0; }) < 2)
        throw BadInput(arg::times, "holds fewer than 2 readings after time 0");
    // The first mass was weighed, too, whether its row is given or not: as a share of itself it is 1.
    if (!std::ranges::count(t, 0.0)) {
        t.push_back(0);
        y.push_back(1);
    }
    std::vector<double> guesses;
    for (std::size_t i = 0; i < t.size(); ++i)
        if (t[i] > 0 && y[i] > 0 && y[i] < 1) guesses.push_back(first_guess(y[i]) / t[i]);
    if (guesses.empty()) throw BadInput(arg::ratios, "holds no ratio between 0 and 1");
    std::ranges::nth_element(guesses, guesses.begin() + std::ssize(guesses) / 2);
    const auto fit = fit_slab(t, y, guesses[guesses.size() / 2]);
    std::vector<std::size_t> order(t.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return t[i]; });

    const Length L = thickness / sides;  // the way of the water: half a slab that dries from both sides
    const auto in_si = [&](double per_hour) {
        return Diffusivity(L * L * (per_hour / kHour) / Time::from_value(1));
    };
    DiffusivityFit result{.diffusivity = in_si(fit.parameters[0]),
                          .standard_error = in_si(fit.robust_errors[0]),
                          .points = fit.points,
                          .r2 = fit.r2,
                          .rmse = fit.rmse,
                          .equilibrium_effect = in_si(equilibrium_effect(fit, y)),
                          .misfit = numeric::misfit(fit, order, kLevel)};
    // A misfit of a thousandth of the water is none, however even the readings.
    if (std::abs(result.misfit.size) < kLeastMisfit) result.misfit = {};
    result.at = from_hours(t[result.misfit.at]);
    return result;
}

ArrheniusFit activation_energy(std::span<const Temperature> temps, std::span<const double> values) {
    constexpr double R = kMolarGasConstant;
    check_length(arg::values, values.size(), temps.size());
    if (temps.size() < 3) throw BadInput(arg::temps, "holds fewer than 3 temperatures");
    const double n = static_cast<double>(temps.size());
    double mx = 0, my = 0;
    for (std::size_t i = 0; i < temps.size(); ++i) {
        if (!(values[i] > 0))
            throw BadInput(arg::values, "holds {}: the logarithm of it is needed", {amount(values[i])});
        mx += 1 / to_si(temps[i]) / n;
        my += std::log(values[i]) / n;
    }
    double sxx = 0, sxy = 0, syy = 0;
    for (std::size_t i = 0; i < temps.size(); ++i) {
        const double dx = 1 / to_si(temps[i]) - mx;
        const double dy = std::log(values[i]) - my;
        sxx += dx * dx;
        sxy += dx * dy;
        syy += dy * dy;
    }
    if (!(sxx > 1e-24)) throw BadInput(arg::temps, "holds the same temperature throughout");
    if (!(syy > 0)) throw BadInput(arg::values, "holds the same value throughout");
    const double slope = sxy / sxx;
    const double unexplained = std::max(syy - slope * sxy, 0.0);
    const double u_slope = std::sqrt(unexplained / (n - 2) / sxx);
    const double half_width = numeric::upper_t(0.025, n - 2) * u_slope;
    return {.energy = MolarEnergy::from_value(-slope * R),
            .u_energy = MolarEnergy::from_value(u_slope * R),
            .low = MolarEnergy::from_value((-slope - half_width) * R),
            .high = MolarEnergy::from_value((-slope + half_width) * R),
            .freedom = temps.size() - 2,
            .factor = std::exp(my - slope * mx),
            .r2 = 1 - unexplained / syy};
}

}  // namespace drysheet
