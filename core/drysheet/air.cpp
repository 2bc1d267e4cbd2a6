// SPDX-License-Identifier: MPL-2.0
#include "drysheet/air.hpp"

#include <cmath>
#include <utility>

#include "drysheet/moist_air.hpp"
#include "drysheet/numeric/roots.hpp"

namespace drysheet {

using namespace detail;

Pressure altitude_pressure(Length altitude) {
    const double H = altitude.value();
    if (!(H >= -2000 && H <= 11000))
        throw OutOfRange(arg::altitude, "is outside {} to {}, the lowest layer of the standard atmosphere",
                         {Amount{-2000, Kind::length}, Amount{11000, Kind::length}});
    constexpr double p0 = kStandardPressure.value(), T0 = 288.15, beta = -0.0065, g = 9.80665,
                     R = 287.05287;  // ISO 2533
    return from_si<Pressure>(p0 * std::pow(1 + beta * H / T0, -g / (beta * R)));
}

HumidityRatio humidity_ratio(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    return HumidityRatio(air_from(temp, rh, pressure).W());
}

RelativeHumidity relative_humidity(Temperature temp, HumidityRatio ratio, Pressure pressure) {
    const Air saturated = saturated_air(temp, pressure);
    const double x = fraction_from(ratio.value());
    if (x > saturated.x * (1 + 1e-9))
        throw BadInput(arg::ratio, "is {} above the {} of saturated air at {}",
                       {Amount{ratio.value() - saturated.W(), Kind::humidity_ratio},
                        Amount{saturated.W(), Kind::humidity_ratio}, amount(temp)});
    return humidity_from(x, saturated.x);
}

RelativeHumidity rh_from_wet_bulb(Temperature temp, Temperature wetbulb, Pressure pressure) {
    if (wetbulb > temp)
        throw BadInput(arg::wetbulb, "is {} above the dry bulb of {}",
                       {amount(wetbulb - temp), amount(temp)});
    const Air saturated = saturated_air(temp, pressure), bulb = saturated_air(wetbulb, pressure, "wetbulb");
    const Air dry = saturated.with(0);
    const double h_water = water_enthalpy(bulb.T, bulb.p), wanted = bulb.h() - bulb.W() * h_water;
    if (dry.h() >= wanted) {
        if (dry.h() - wanted < 1e-3) return RelativeHumidity(0);  // J/kg: half a millionth of a kelvin
        const auto least = from_si<Temperature>(wet_bulb_of(dry, saturated.x));
        throw BadInput(arg::wetbulb, "is {} below the {} that air without vapour would show",
                       {amount(least - wetbulb), amount(least)});
    }
    // h - W h_water of the air is that of saturated air at the bulb. Searched in 1 + x, as x may be tiny.
    const auto balance = [&](double u) {
        const Air air = dry.with(u - 1);
        const auto [h, by_T, by_x] = air.h_and_slopes();
        return std::pair(h - air.W() * h_water - wanted, by_x - kMassRatio / ((2 - u) * (2 - u)) * h_water);
    };
    const double W = (wanted - dry.h()) / (2.501e6 + 1860 * (dry.T - 273.15) - h_water);
    const double high = std::fmin(1.01 * saturated.x, 0.5 + 0.5 * saturated.x);
    const double u = newton_root(balance, 1 + std::fmin(fraction_from(W), saturated.x), 0.99, 1 + high, 46);
    return humidity_from(u - 1, saturated.x);
}

RelativeHumidity rh_from_dew_point(Temperature temp, Temperature dewpoint, Pressure pressure) {
    if (dewpoint > temp)
        throw BadInput(arg::dewpoint, "is {} above the air's temperature of {}",
                       {amount(dewpoint - temp), amount(temp)});
    const Air saturated = saturated_air(temp, pressure);
    return humidity_from(saturated_air(dewpoint, pressure, "dewpoint").x, saturated.x);
}

Temperature dew_point(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    if (rh.value() == 0) throw BadInput(arg::rh, "leaves no vapour: dry air has no dew point");
    const Air saturated = saturated_air(temp, pressure);
    return from_si<Temperature>(dew_point_of(saturated.with(rh.value() * saturated.x), saturated.x));
}

Temperature wet_bulb(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    const Air saturated = saturated_air(temp, pressure);
    return from_si<Temperature>(wet_bulb_of(saturated.with(rh.value() * saturated.x), saturated.x));
}

SpecificEnergy air_enthalpy(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    return from_si<SpecificEnergy>(air_from(temp, rh, pressure).h());
}

SpecificVolume air_volume(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    return from_si<SpecificVolume>(air_from(temp, rh, pressure).v());
}

Density air_density(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    const Air air = air_from(temp, rh, pressure);
    return from_si<Density>((1 + air.W()) / air.v());
}

AirState air_state(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    const Air saturated = saturated_air(temp, pressure), air = saturated.with(rh.value() * saturated.x);
    std::optional<Temperature> dew;
    if (air.x > 0) dew = from_si<Temperature>(dew_point_of(air, saturated.x));
    return {.temp = temp,
            .rh = rh,
            .ratio = HumidityRatio(air.W()),
            .enthalpy = from_si<SpecificEnergy>(air.h()),
            .wet_bulb = from_si<Temperature>(wet_bulb_of(air, saturated.x)),
            .dew_point = dew,
            .volume = from_si<SpecificVolume>(air.v()),
            .density = from_si<Density>((1 + air.W()) / air.v()),
            .vapour_pressure = from_si<Pressure>(air.x * air.p),
            .saturation_pressure = saturation_pressure(temp)};
}

// ---- what a dryer does with air

namespace {

void require_not_colder(Temperature heated, Temperature temp) {
    if (heated < temp)
        throw BadInput(arg::heated, "is {} below the air's own {}: that would be cooling",
                       {amount(temp - heated), amount(temp)});
}

void require_flow(VolumeFlow flow, std::string_view name) {
    if (!(flow.value() >= 0)) throw BadInput(name, "is below {}", {Amount{0, Kind::volume_flow}});
}

AirPoint point_of(const Air& air, double x_s) {
    return {from_si<Temperature>(air.T), humidity_from(air.x, x_s), HumidityRatio(air.W()),
            from_si<SpecificEnergy>(air.h())};
}

// Saturated air at the temperature of air that was calculated.
Air saturated_beside(const Air& air) {
    return saturated_air(from_si<Temperature>(air.T), from_si<Pressure>(air.p), "");
}

// Air at a dryer's inlet with its wet bulb: water enters the air with the enthalpy it has there, so that
// h - W h_water stays.
struct Inlet {
    Air air;
    double rh, T_wet = 0, h_water = 0;

    Inlet(Temperature temp, RelativeHumidity humidity, Pressure pressure)
        : air(saturated_air(temp, pressure)), rh(humidity.value()) {
        const double x_s = air.x;
        air.x *= rh;
        T_wet = wet_bulb_of(air, x_s);
        h_water = water_enthalpy(T_wet, air.p);
    }
    /// W2 - W1 when the air leaves with the relative humidity exit_rh.
    double pickup(RelativeHumidity exit_rh) const {
        const double wanted = air.h() - air.W() * h_water;
        const auto balance = [&](double T) {
            Air exit(T, air.p, 0);
            const auto [x_s, x_s_by_T] = exit.gas.saturated(air.p);
            exit.x = exit_rh.value() * x_s;
            const auto [h, by_T, by_x] = exit.h_and_slopes();
            const double W_by_x = kMassRatio / ((1 - exit.x) * (1 - exit.x));
            return std::pair(h - exit.W() * h_water - wanted,
                             by_T + exit_rh.value() * x_s_by_T * (by_x - W_by_x * h_water));
        };
        // From the inlet down to the wet bulb the humidity of air on the line rises to 1, its logarithm
        // almost evenly.
        const double start =
            T_wet + (air.T - T_wet) * std::log(exit_rh.value()) / std::log(std::fmax(rh, 1e-3));
        const double T =
            newton_root(balance, std::fmin(start, air.T), T_wet - 1e-6, air.T + 1e-6, 40, "exit_rh");
        const Air exit = air_from(from_si<Temperature>(T), exit_rh, from_si<Pressure>(air.p));
        return std::fmax(exit.W() - air.W(), 0);  // below 0 by no more than rounding
    }
};

}  // namespace

RelativeHumidity heated_rh(Temperature temp, RelativeHumidity rh, Temperature heated, Pressure pressure) {
    require_not_colder(heated, temp);
    const Air air = air_from(temp, rh, pressure);
    return humidity_from(air.x, saturated_air(heated, pressure, "heated").x);
}

Power heating_load(VolumeFlow flow, Temperature temp, RelativeHumidity rh, Temperature heated,
                   Pressure pressure) {
    require_flow(flow, arg::flow);
    require_not_colder(heated, temp);
    const Air before = air_from(temp, rh, pressure), after = air_of(heated, pressure, before.x, "heated");
    return from_si<Power>(flow.value() / before.v() * (after.h() - before.h()));
}

AirPoint mixed_air(Temperature temp1, RelativeHumidity rh1, VolumeFlow flow1, Temperature temp2,
                   RelativeHumidity rh2, VolumeFlow flow2, Pressure pressure) {
    require_flow(flow1, arg::flow1);
    require_flow(flow2, arg::flow2);
    const Air saturated1 = saturated_air(temp1, pressure, "temp1"),
              saturated2 = saturated_air(temp2, pressure, "temp2");
    const Air a = saturated1.with(rh1.value() * saturated1.x),
              b = saturated2.with(rh2.value() * saturated2.x);
    const double m1 = flow1.value() / a.v(), m2 = flow2.value() / b.v();
    if (!(m1 + m2 > 0))
        throw BadInput(arg::flow2, "leaves no air to mix: both flows are {}", {Amount{0, Kind::volume_flow}});
    const double s = m2 / (m1 + m2);
    const Air mixed = air_from_enthalpy(a.h() + s * (b.h() - a.h()), a.W() + s * (b.W() - a.W()), a.p);
    const Air saturated = saturated_beside(mixed);
    if (mixed.x > saturated.x * (1 + 1e-9))
        throw BadInput("", "would be fog: {} of water at {}, {} more than saturated air holds",
                       {Amount{mixed.W(), Kind::humidity_ratio}, Amount{mixed.T, Kind::temperature},
                        Amount{mixed.W() - saturated.W(), Kind::humidity_ratio}});
    return point_of(mixed, saturated.x);
}

HumidityRatio air_pickup(Temperature temp, RelativeHumidity rh, RelativeHumidity exit_rh, Pressure pressure) {
    if (exit_rh < rh)
        throw BadInput(arg::exit_rh, "is below the inlet's {}: air that takes up water leaves damper",
                       {amount(rh)});
    const Inlet inlet(temp, rh, pressure);
    return HumidityRatio(exit_rh == rh ? 0 : inlet.pickup(exit_rh));
}

AirPoint exit_air(Temperature temp, RelativeHumidity rh, HumidityRatio pickup, Pressure pressure) {
    const Inlet inlet(temp, rh, pressure);
    const Air full = saturated_air(from_si<Temperature>(inlet.T_wet), pressure);
    const double room = full.W() - inlet.air.W(), more = pickup.value() - room;
    if (more > 1e-9 * full.W())
        throw BadInput(
            arg::pickup, "is {} more than the {} that this air can take up until it is saturated",
            {Amount{more, Kind::humidity_ratio}, Amount{std::fmax(room, 0), Kind::humidity_ratio}});
    if (more >= 0) return point_of(full, full.x);
    const Air exit = air_from_enthalpy(inlet.air.h() + pickup.value() * inlet.h_water,
                                       inlet.air.W() + pickup.value(), inlet.air.p);
    return point_of(exit, saturated_beside(exit).x);
}

VolumeFlow air_needed(Mass water, Time time, Temperature temp, RelativeHumidity rh, RelativeHumidity exit_rh,
                      Pressure pressure) {
    if (!(water.value() >= 0)) throw BadInput(arg::water, "is below {}", {Amount{0, Kind::mass}});
    if (!(time.value() > 0)) throw BadInput(arg::time, "is not above {}", {Amount{0, Kind::time}});
    if (exit_rh <= rh)
        throw BadInput(arg::exit_rh, "is not above the inlet's {}: such air carries no water off",
                       {amount(rh)});
    const Inlet inlet(temp, rh, pressure);
    return from_si<VolumeFlow>(water.value() / time.value() / inlet.pickup(exit_rh) * inlet.air.v());
}

}  // namespace drysheet
