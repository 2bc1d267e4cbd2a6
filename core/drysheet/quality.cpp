// SPDX-License-Identifier: MPL-2.0
#include "drysheet/quality.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include "drysheet/numeric/quadrature.hpp"
#include "drysheet/require.hpp"
#include "drysheet/yield.hpp"

namespace drysheet {

double content_after(double content, MoistureWet start, MoistureWet final, Fraction kept) {
    if (!(content >= 0)) throw BadInput(arg::content, "is below 0");
    return content * drying_ratio(start, final) * kept.value();
}

OsmoticSoak osmotic_soak(Mass mass, MoistureWet moisture, Mass mass_after, MoistureWet moisture_after) {
    require_positive(mass, arg::mass);
    require_positive(mass_after, arg::mass_after);
    const Mass gained =
        unless_rounding(mass_after * (1 - moisture_after.value()) - mass * (1 - moisture.value()),
                        std::max(mass, mass_after));
    OsmoticSoak soak{.water_loss = (mass * moisture.value() - mass_after * moisture_after.value()) / mass,
                     .solids_gain = gained / mass,
                     .weight_reduction = (mass - mass_after) / mass};
    if (soak.solids_gain > 0) soak.ratio = soak.water_loss / soak.solids_gain;
    return soak;
}

namespace {

void check_order(double order) {
    if (order != 0 && order != 1) throw BadInput(arg::order, "is neither 1 nor 0");
}

/// k(T) of Arrhenius, per second.
struct Arrhenius {
    double rate, over_gas_constant, at;

    Arrhenius(DryingRate k0, Temperature T0, MolarEnergy E)
        : rate(to_si(k0)), over_gas_constant(to_si(E) / kMolarGasConstant), at(to_si(T0)) {
        require_positive(k0, arg::rate);
        if (!(E >= MolarEnergy())) throw BadInput(arg::energy, "is below 0");
    }
    double operator()(double T) const { return rate * std::exp(over_gas_constant * (1 / at - 1 / T)); }
};

}  // namespace

std::vector<double> quality_losses(std::span<const Time> times, std::span<const Temperature> temps,
                                   DryingRate rate, Temperature rate_temp, MolarEnergy energy) {
    const Arrhenius k(rate, rate_temp, energy);
    if (temps.size() != times.size()) throw BadInput(arg::temps, "must have as many cells as times");
    if (times.size() < 2) throw BadInput(arg::times, "is wanted for two points or more");
    require_rising(times);
    std::vector<double> losses;
    for (std::size_t i = 1; i < times.size(); ++i) {
        const double dt = to_si(times[i] - times[i - 1]);
        const double T0 = to_si(temps[i - 1]), dT = to_si(temps[i]) - T0;
        const auto along = [&](double s) { return k(T0 + s * dT); };
        const auto smooth = numeric::integrate_smooth(along, 0, 1);
        losses.push_back(dt * (smooth ? *smooth : numeric::integrate(along, 0, 1)));
    }
    return losses;
}

Fraction quality_left(std::span<const Time> times, std::span<const Temperature> temps, DryingRate rate,
                      Temperature rate_temp, MolarEnergy energy, double order) {
    check_order(order);
    const auto losses = quality_losses(times, temps, rate, rate_temp, energy);
    const double S = std::accumulate(losses.begin(), losses.end(), 0.0);
    return Fraction(order == 1 ? std::exp(-S) : std::fmax(1 - S, 0));
}

Time quality_time(Fraction left, Temperature temp, DryingRate rate, Temperature rate_temp, MolarEnergy energy,
                  double order) {
    check_order(order);
    const double q = left.value();
    if (!(q > 0)) throw BadInput(arg::left, "must be above 0");
    return from_si<Time>((order == 1 ? -std::log(q) : 1 - q) /
                         Arrhenius(rate, rate_temp, energy)(to_si(temp)));
}

double colour_difference(double L1, double a1, double b1, double L2, double a2, double b2) {
    constexpr double degree = std::numbers::pi / 180;
    const auto seventh = [](double C) {
        return std::sqrt(std::pow(C, 7) / (std::pow(C, 7) + std::pow(25.0, 7)));
    };
    const double G = 0.5 * (1 - seventh((std::hypot(a1, b1) + std::hypot(a2, b2)) / 2));
    const double a1_ = (1 + G) * a1, a2_ = (1 + G) * a2, C1 = std::hypot(a1_, b1), C2 = std::hypot(a2_, b2);
    const auto hue = [](double a, double b) {
        const double h = a == 0 && b == 0 ? 0 : std::atan2(b, a) / degree;
        return h < 0 ? h + 360 : h;
    };
    const double h1 = hue(a1_, b1), h2 = hue(a2_, b2);

    // A grey has no hue and needs none: dH is 0 then, and with it every term that the hue goes into.
    double dh = h2 - h1, h = (h1 + h2) / 2;
    if (std::abs(dh) > 180 * (1 + 4 * std::numeric_limits<double>::epsilon())) {  // opposite but for rounding
        dh += dh > 0 ? -360 : 360;
        h += h < 180 ? 180 : -180;
    }
    const double dL = L2 - L1, dC = C2 - C1, dH = 2 * std::sqrt(C1 * C2) * std::sin(dh / 2 * degree);
    const double L50 = std::pow((L1 + L2) / 2 - 50, 2), C = (C1 + C2) / 2;
    const auto cosine = [](double angle) { return std::cos(angle * degree); };
    const double T = 1 - 0.17 * cosine(h - 30) + 0.24 * cosine(2 * h) + 0.32 * cosine(3 * h + 6) -
                     0.20 * cosine(4 * h - 63);
    const double SL = 1 + 0.015 * L50 / std::sqrt(20 + L50), SC = 1 + 0.045 * C, SH = 1 + 0.015 * C * T;
    const double dtheta = 30 * degree * std::exp(-std::pow((h - 275) / 25, 2));
    const double RT = -std::sin(2 * dtheta) * 2 * seventh(C);
    const double l = dL / SL, c = dC / SC, x = dH / SH;
    return std::sqrt(l * l + c * c + x * x + RT * c * x);
}

}  // namespace drysheet
