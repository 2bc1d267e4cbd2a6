// SPDX-License-Identifier: MPL-2.0
// A state of moist air per kilogram of dry air, and the two searches over saturated states (wet bulb, dew
// point), in plain SI numbers. Inner part of the topic air; the functions for use are in air.hpp.
#pragma once

#include <string_view>

#include "drysheet/moist_gas.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet::detail {

inline constexpr double kMassRatio = kMolarMassWater / kMolarMassAir;

struct Air {
    double T, p, x;  ///< K, Pa, mole fraction of vapour
    MoistGas gas;

    Air(double temperature, double pressure, double fraction)
        : T(temperature), p(pressure), x(fraction), gas(temperature) {}
    Air with(double fraction) const {
        Air other = *this;
        other.x = fraction;
        return other;
    }
    double per_kg(double per_mole) const { return per_mole / ((1 - x) * kMolarMassAir); }
    double W() const { return kMassRatio * x / (1 - x); }
    double h() const { return per_kg(gas.enthalpy(p, x).h); }  ///< J/kg
    MoistGas::Enthalpy h_and_slopes() const {
        const auto [h, by_T, by_x] = gas.enthalpy(p, x);
        return {per_kg(h), per_kg(by_T), per_kg(by_x + h / (1 - x))};
    }
    double v() const { return per_kg(gas.volume(p, x)); }  ///< m³/kg
};

inline double fraction_from(double W) { return W / (kMassRatio + W); }

/// Saturated air. Refuses, naming `name`, a temperature out of range or at or above boiling.
Air saturated_air(Temperature temp, Pressure pressure, std::string_view name = "temp");
inline Air air_from(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    const Air saturated = saturated_air(temp, pressure);
    return saturated.with(rh.value() * saturated.x);
}
/// Air of a temperature that may be above boiling, and of a known composition.
Air air_of(Temperature temp, Pressure pressure, double x, std::string_view name);
/// The air that has this enthalpy and humidity ratio, saturated or not.
Air air_from_enthalpy(double h, double W, double p);

/// x / x_s; what is outside 0 to 1 by no more than rounding is at that limit.
RelativeHumidity humidity_from(double x, double x_s);

/// Enthalpy of liquid water or ice beside air, J/kg.
double water_enthalpy(double T, double p);

/// Thermodynamic wet bulb and dew point of air that would be saturated with x_s, K.
double wet_bulb_of(const Air& air, double x_s);
double dew_point_of(const Air& air, double x_s);

}  // namespace drysheet::detail
