// SPDX-License-Identifier: MPL-2.0
#include "drysheet/moist_air.hpp"

#include <cmath>
#include <utility>

#include "drysheet/numeric/roots.hpp"

namespace drysheet::detail {

Air air_of(Temperature temp, Pressure pressure, double x, std::string_view name) {
    const double T = temp.value(), p = pressure.value();
    constexpr double rounding = 1e-6;  // -80 °C typed is 193.149999...
    if (!(T >= kColdest - rounding && T <= kHottest + rounding))
        throw OutOfRange(name, "is outside {} to {}, for which the equations of moist air hold",
                         {Amount{kColdest, Kind::temperature}, Amount{kHottest, Kind::temperature}});
    if (!(p >= kThinnest && p <= kDensest))
        throw OutOfRange(arg::pressure,
                         "is outside {} to {}, for which the equations of moist air were tested",
                         {Amount{kThinnest, Kind::pressure}, Amount{kDensest, Kind::pressure}});
    return {T, p, x};
}

Air saturated_air(Temperature temp, Pressure pressure, std::string_view name) {
    Air air = air_of(temp, pressure, 0, name);
    const Saturation pure = saturation(air.T);
    air.x = pure.p < air.p ? air.gas.saturated(air.p, pure).x : 1;
    if (!(air.x < 1)) {
        const Temperature boiling = boiling_point(pressure);
        throw BadInput(name,
                       "is {} above {}, where water boils at {}: from there up air has no relative humidity",
                       {amount(temp - boiling), amount(boiling), amount(pressure)});
    }
    return air;
}

Air air_from_enthalpy(double h, double W, double p) {
    const double x = fraction_from(W);
    const auto balance = [=](double T) {
        const Air air(T, p, x);
        const auto found = air.h_and_slopes();
        return std::pair(found.h - h, found.by_T);
    };
    const double start = 273.15 + (h - 2.501e6 * W) / (1006 + 1860 * W);
    return {newton_root(balance, start, kColdest, kHottest, 40), p, x};
}

RelativeHumidity humidity_from(double x, double x_s) {
    const double rh = x / x_s, limit = rh < 0.5 ? 0 : 1;
    return RelativeHumidity((rh < 0 || rh > 1) && std::abs(rh - limit) < 1e-9 ? limit : rh);
}

namespace {

double water_enthalpy(double T, double p, const Condensed& water, const Saturation& pure) {
    return T < kTriplePoint ? water.h : water.h + water.v * (p - pure.p);
}

// What remains of h + (W_s - W) h_water - h_s at a bulb temperature T, and its slope; falls as T rises.
struct WetBulbBalance {
    double h, W, p;

    std::pair<double, double> operator()(double T) const {
        const Saturation pure = saturation(T);
        const Condensed water = condensed(T);
        const double h_water = water_enthalpy(T, p, water, pure);
        Air air(T, p, 0);
        const auto [x, x_by_T] = air.gas.saturated(p, pure);
        air.x = x;
        const auto [h_s, h_by_T, h_by_x] = air.h_and_slopes();
        const double excess = air.W() - W, W_by_T = kMassRatio * x_by_T / ((1 - x) * (1 - x));
        return {h + excess * h_water - h_s, W_by_T * h_water + excess * water.c - h_by_T - x_by_T * h_by_x};
    }
};

// Rough properties, for start values only: the Magnus forms of the WMO Guide (2008) with an enhancement of
// 0.4 %, and constant heat capacities.
struct Phase {
    double a, b;           // x p = 613.7 Pa exp(a t / (b + t)) at saturation, t in °C
    double h, c;           // enthalpy of the phase at 0 °C, J/kg, and its slope
    double latent, drift;  // latent heat at 0 °C, J/kg, and its slope
};
constexpr Phase kLiquid{17.62, 243.12, 0, 4186, 2.501e6, -2360},
    kIce{22.46, 272.62, -333.5e3, 2100, 2.834e6, -200};

// A start for the wet bulb, good to about 0.1 K: the balance of an ideal mixture.
double wet_bulb_start(const WetBulbBalance& air, const Phase& phase) {
    // Within some kelvins by itself; three of Newton's steps do the rest.
    const double q = std::fmax(air.h + 40e3, 1e3), z = std::log(air.p * q / (q + 1.555e6));
    double t = -195.9 + (23.49 + 0.1873 * z) * z;
    for (int step = 0; step < 3; ++step) {
        const double e = std::fmin(613.7 * std::exp(phase.a * t / (phase.b + t)), 0.95 * air.p);
        const double W_s = kMassRatio * e / (air.p - e);
        const double W_by_t = W_s * air.p / (air.p - e) * phase.a * phase.b / ((phase.b + t) * (phase.b + t));
        const double latent = phase.latent + phase.drift * t;
        t += (air.h - 1006 * t - W_s * latent - air.W * (phase.h + phase.c * t)) /
             (1006 + W_by_t * latent + W_s * phase.drift + air.W * phase.c);
    }
    return 273.15 + t;
}

}  // namespace

double water_enthalpy(double T, double p) { return water_enthalpy(T, p, condensed(T), saturation(T)); }

double wet_bulb_of(const Air& air, double x_s) {
    if (air.x >= x_s) return air.T;
    const WetBulbBalance balance{air.h(), air.W(), air.p};
    double start = air.T;
    bool wet = air.T >= kTriplePoint;
    if (wet) {
        start = wet_bulb_start(balance, kLiquid);
        // So near the triple point the balance itself must tell.
        if (start < kTriplePoint + 2) wet = balance(kTriplePoint).first >= 0;
    }
    if (!wet) start = wet_bulb_start(balance, kIce);
    // An iced bulb stays below the triple point, where the balance has a step. Below it the search may go a
    // little past the air's temperature, so that a root at that end is not crept up to.
    const double low = wet ? kTriplePoint : kColdest;
    const double high = wet ? air.T : std::fmin(air.T + 1e-3, std::nextafter(kTriplePoint, 0.0));
    return std::fmin(newton_root(balance, std::fmin(std::fmax(start, low), high), low, high, 33), air.T);
}

double dew_point_of(const Air& air, double x_s) {
    if (air.x >= x_s) return air.T;
    const auto balance = [&air](double T) {
        const auto [x, x_by_T] = MoistGas(T).saturated(air.p);
        return std::pair(std::log(x / air.x), x_by_T / x);
    };
    if (balance(kColdest).first > 0)
        throw OutOfRange(arg::rh, "gives a frost point below {}, where the equations of moist air end",
                         {Amount{kColdest, Kind::temperature}});
    const double z = std::log(air.x * air.p / 613.7);
    const Phase& phase = z < 0 ? kIce : kLiquid;
    const double start = 273.15 + phase.b * z / (phase.a - z);
    return newton_root(balance, std::fmin(std::fmax(start, kColdest), air.T), kColdest, air.T, 33);
}

}  // namespace drysheet::detail
