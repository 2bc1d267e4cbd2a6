#include <algorithm>
#include <cmath>
#include <numbers>

#include "drysheet/kinetics.hpp"
#include "drysheet/numeric/roots.hpp"
#include "drysheet/numeric/student.hpp"
#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kSwitch = 0.2;  // both forms converge fast here: 4 and 3 terms

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

DiffusivityFit diffusivity(std::span<const Time> times, std::span<const MoistureRatio> ratios,
                           Length thickness, double sides) {
    check_length(arg::ratios, ratios.size(), times.size());
    check_from_start(times, ratios);
    require_positive(thickness, arg::thickness);
    if (sides != 1 && sides != 2)
        throw BadInput(arg::sides, "is no number of faces that dry: 1 or 2 is wanted");
    std::vector<double> t, y, guesses;
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (times[i].value() == 0) continue;
        t.push_back(hours(times[i]));
        y.push_back(ratios[i].value());
        if (y.back() > 0 && y.back() < 1) guesses.push_back(first_guess(y.back()) / t.back());
    }
    if (y.size() < 2) throw BadInput(arg::times, "holds fewer than 2 readings after time 0");
    if (guesses.empty()) throw BadInput(arg::ratios, "holds no ratio between 0 and 1");
    std::ranges::nth_element(guesses, guesses.begin() + std::ssize(guesses) / 2);

    const auto model = [&](std::span<const double> p, std::span<double> values, std::span<double> slopes) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            const SlabValue value = slab(p[0] * t[i]);
            values[i] = value.E;
            slopes[i] = value.slope * t[i];
        }
    };
    const auto fit = numeric::fit({.argument = "ratios",
                                   .data = y,
                                   .model = model,
                                   .starts = {{guesses[guesses.size() / 2]}},
                                   .low = {0},
                                   .high = {1e6 / *std::ranges::max_element(t)}});
    const Length L = thickness / sides;  // the way of the water: half a slab that dries from both sides
    const auto in_si = [&](double per_hour) {
        return Diffusivity(L * L * (per_hour / kHour) / Time::from_value(1));
    };
    return {in_si(fit.parameters[0]), in_si(fit.standard_errors[0]), fit.points};
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
