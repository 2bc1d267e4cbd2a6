// SPDX-License-Identifier: MPL-2.0
// Moist air as a real mixture: its state from two of its properties, and what a dryer does to it.
//
// Everything rests on one set of equations (moist_gas.hpp, water.hpp), which agrees with the IAPWS humid-air
// formulation G8-10 within 0.02 % in humidity ratio, enthalpy and volume and 0.002 K in wet bulb, for 30 to
// 120 kPa and from -40 °C up; where W is above 2, near boiling, within 0.01 % times W (0.5 % in saturated air
// 0.2 K below boiling at 30 kPa). Below:
//   x   mole fraction of vapour, x_s that of saturated air at the same temperature and pressure
//   φ   relative humidity = x / x_s, over ice below 0.01 °C
//   W   humidity ratio = 0.621957 x / (1 - x), kg vapour per kg dry air; 0.621957 = M_water / M_air
//   h   enthalpy per kg dry air, zero for dry air at 0 °C and 101.325 kPa and liquid water at 0.01 °C
//   v   volume per kg dry air
//
// In every function `pressure` is that of the air, 30 to 120 kPa; temperatures are -80 to 200 °C. Where a
// relative humidity is given or asked, its temperature must be below the boiling point at that pressure.
// Errors not told below: OutOfRange naming the temperature or pressure; BadInput naming the temperature at
// or above boiling.
// Source of all: IAPWS G8-10 (2010) Equation of state for humid air; G9-12 (2012) Fugacity of H2O in humid
// air; saturation by SR1-86(1992) and R14-08(2011).
#pragma once

#include <optional>

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Pressure of the standard atmosphere.
///   p = 101.325 kPa (1 - 0.0065 H / 288.15)^5.25588
/// altitude: H above the sea, taken as geopotential altitude (at 3000 m that is 0.02 % in pressure), -2000 to
/// 11000 m. Errors: OutOfRange(arg::altitude). Source: ISO 2533:1975 Standard atmosphere.
Pressure altitude_pressure(Length altitude);

/// Humidity ratio W of air.
///   W = 0.621957 x / (1 - x), x = φ x_s(T, p)
/// temp: T. rh: φ.
HumidityRatio humidity_ratio(Temperature temp, RelativeHumidity rh, Pressure pressure);

/// Relative humidity from the humidity ratio.
///   φ = x / x_s, x = W / (0.621957 + W)
/// temp: T. ratio: W. Errors: BadInput(arg::ratio) above saturation.
RelativeHumidity relative_humidity(Temperature temp, HumidityRatio ratio, Pressure pressure);

/// Relative humidity from dry and wet bulb (the thermodynamic wet bulb; iced below 0.01 °C).
///   h(T, W) + (W_s(T*) - W) h_water(T*) = h_s(T*)
/// temp: T. wetbulb: T*. Errors: BadInput(arg::wetbulb) above temp, or below what air without vapour shows.
RelativeHumidity rh_from_wet_bulb(Temperature temp, Temperature wetbulb, Pressure pressure);

/// Relative humidity from dry bulb and dew point (frost point below 0.01 °C).
///   x = x_s(T_d), φ = x / x_s(T)
/// temp: T. dewpoint: T_d. Errors: BadInput(arg::dewpoint) above temp.
RelativeHumidity rh_from_dew_point(Temperature temp, Temperature dewpoint, Pressure pressure);

/// Dew point, frost point below 0.01 °C: x_s(T_d) = x.
/// temp: T. rh: φ. Errors: BadInput(arg::rh) for 0; OutOfRange(arg::rh) when the frost point is below -80 °C.
Temperature dew_point(Temperature temp, RelativeHumidity rh, Pressure pressure);

/// Thermodynamic wet bulb: the equation of rh_from_wet_bulb, solved to 1e-8 K. A bulb that would read between
/// ice and water (both solve the equation within some tenths of a degree of 0.01 °C) counts as wet, not iced.
/// temp: T. rh: φ.
Temperature wet_bulb(Temperature temp, RelativeHumidity rh, Pressure pressure);

/// Enthalpy h per kg of dry air. temp: T. rh: φ.
SpecificEnergy air_enthalpy(Temperature temp, RelativeHumidity rh, Pressure pressure);

/// Volume v of moist air per kg of dry air. temp: T. rh: φ.
SpecificVolume air_volume(Temperature temp, RelativeHumidity rh, Pressure pressure);

/// Density of moist air, (1 + W) / v. temp: T. rh: φ.
Density air_density(Temperature temp, RelativeHumidity rh, Pressure pressure);

/// Every property of a state.
struct AirState {
    Temperature temp;
    RelativeHumidity rh;
    HumidityRatio ratio;
    SpecificEnergy enthalpy;
    Temperature wet_bulb;
    std::optional<Temperature> dew_point;  ///< none without vapour
    SpecificVolume volume;
    Density density;
    Pressure vapour_pressure;      ///< x p
    Pressure saturation_pressure;  ///< of pure water at the temperature
};
/// temp: T. rh: φ.
AirState air_state(Temperature temp, RelativeHumidity rh, Pressure pressure);

// ---- what a dryer does with air

/// Relative humidity after heating at constant humidity ratio and pressure.
/// temp, rh: before. heated: temperature after. Errors: BadInput(arg::heated) below temp.
RelativeHumidity heated_rh(Temperature temp, RelativeHumidity rh, Temperature heated, Pressure pressure);

/// Heat to warm a stream of air at constant humidity ratio.
///   Q = V / v1 (h2 - h1)
/// flow: V, measured at the state before. temp, rh: before. heated: temperature after, may be above boiling.
/// Errors: BadInput(arg::flow) below 0; BadInput(arg::heated) below temp.
Power heating_load(VolumeFlow flow, Temperature temp, RelativeHumidity rh, Temperature heated,
                   Pressure pressure);

/// The state of a mixture or of air leaving a dryer.
struct AirPoint {
    Temperature temp;
    RelativeHumidity rh;
    HumidityRatio ratio;
    SpecificEnergy enthalpy;
};

/// Two streams of air mixed without loss of heat.
///   m = V1/v1 + V2/v2,  m W = m1 W1 + m2 W2,  m h = m1 h1 + m2 h2
/// temp1, rh1, temp2, rh2: the streams. flow1, flow2: V1, V2, each measured at its own state.
/// Errors: BadInput(arg::flow1), BadInput(arg::flow2) below 0 or both 0; BadInput naming no argument when the
/// mixture would fog.
AirPoint mixed_air(Temperature temp1, RelativeHumidity rh1, VolumeFlow flow1, Temperature temp2,
                   RelativeHumidity rh2, VolumeFlow flow2, Pressure pressure);

/// Water that air takes up on its way through a dryer, adiabatic: at constant thermodynamic wet bulb T*.
///   h2 = h1 + (W2 - W1) h_water(T*), φ2 = exit_rh; result W2 - W1
/// temp, rh: at the inlet. exit_rh: at the exit. Errors: BadInput(arg::exit_rh) below rh.
HumidityRatio air_pickup(Temperature temp, RelativeHumidity rh, RelativeHumidity exit_rh, Pressure pressure);

/// State of the air after it took up water, adiabatic as air_pickup.
/// temp, rh: at the inlet. pickup: W2 - W1. Errors: BadInput(arg::pickup) past saturation.
AirPoint exit_air(Temperature temp, RelativeHumidity rh, HumidityRatio pickup, Pressure pressure);

/// Air flow, at the inlet state, that carries water off in a given time.
///   V = water / time / air_pickup · v(inlet)
/// water: mass to evaporate. time: in which. temp, rh: at the inlet. exit_rh: at the exit.
/// Errors: BadInput(arg::water) below 0; BadInput(arg::time) unless above 0; BadInput(arg::exit_rh) unless
/// above rh.
VolumeFlow air_needed(Mass water, Time time, Temperature temp, RelativeHumidity rh, RelativeHumidity exit_rh,
                      Pressure pressure);

}  // namespace drysheet
