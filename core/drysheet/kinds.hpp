// SPDX-License-Identifier: MPL-2.0
// The kinds of physical value this library tells apart: one row a kind.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string_view>

namespace drysheet {

/// An interval of values.
struct Limits {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
    bool low_open = false;   ///< low itself is excluded
    bool high_open = false;  ///< high itself is excluded

    constexpr bool hold(double x) const {
        return (low_open ? x > low : x >= low) && (high_open ? x < high : x <= high) &&
               x < std::numeric_limits<double>::infinity() && x > -std::numeric_limits<double>::infinity();
    }
};
constexpr Limits any_number() { return {}; }
constexpr Limits above(double low) { return {.low = low, .low_open = true}; }
constexpr Limits at_least(double low) { return {.low = low}; }
constexpr Limits within(double low, double high) { return {.low = low, .high = high}; }
constexpr Limits from_to_below(double low, double high) {
    return {.low = low, .high = high, .high_open = true};
}
constexpr Limits above_up_to(double low, double high) { return {.low = low, .high = high, .low_open = true}; }
constexpr Limits between(double low, double high) {
    return {.low = low, .high = high, .low_open = true, .high_open = true};
}
inline constexpr Limits positive = above(0);

/// How a dimensionless unit was written: `%` of humidity and g/kg of humidity ratio are not the same
/// statement.
enum class RatioForm : std::uint8_t { none, fraction, percent, ppm, mass_ratio };

/// Which of these forms a dimensionless kind may be written in.
enum class Forms : std::uint8_t {
    with_dimension,     ///< the kind has a dimension, and that decides
    bare,               ///< a number alone
    share,              ///< a fraction, %, ppm
    share_or_on_basis,  ///< the same; a mass ratio only with its basis said: kg/kg alone may mean the other
    mass_ratio,         ///< kg/kg, g/kg; a % would mean something else
    any
};

// ROW(kind, Type, the type itself, name, default unit, limits in coherent SI units, forms). The default unit
// is how a plain number is read and what is shown beside a value; the limits are what is possible at all: a
// value outside is impossible, not merely unusual. Several kinds are dimensionless; that is why they are told
// apart.
// clang-format off
#define DRYSHEET_KINDS(ROW)                                                                                          \
    ROW(mass, Mass, Quantity<si::mass>, "mass", "g", at_least(0), with_dimension)                                    \
    ROW(time, Time, Quantity<si::time>, "time", "h", at_least(0), with_dimension)                                    \
    ROW(length, Length, Quantity<si::length>, "length", "mm", any_number(), with_dimension)                          \
    ROW(area, Area, Quantity<si::area>, "area", "m²", at_least(0), with_dimension)                                   \
    ROW(temperature, Temperature, Quantity<boost::units::absolute<si::temperature>>, "temperature", "°C", above(0), with_dimension) \
    ROW(temperature_difference, TemperatureDifference, Quantity<si::temperature>, "temperature difference", "K", any_number(), with_dimension) \
    ROW(pressure, Pressure, Quantity<si::pressure>, "pressure", "kPa", above(0), with_dimension)                     \
    ROW(energy, Energy, Quantity<si::energy>, "energy", "kWh", any_number(), with_dimension)                         \
    ROW(power, Power, Quantity<si::power>, "power", "kW", any_number(), with_dimension)                              \
    ROW(density, Density, decltype(Mass() / Volume()), "density", "kg/m³", at_least(0), with_dimension)              \
    ROW(specific_volume, SpecificVolume, decltype(Volume() / Mass()), "specific volume", "m³/kg", at_least(0), with_dimension) \
    ROW(specific_energy, SpecificEnergy, decltype(Energy() / Mass()), "specific energy", "kJ/kg", any_number(), with_dimension) \
    ROW(heat_capacity, HeatCapacity, decltype(Energy() / Mass() / TemperatureDifference()), "specific heat", "kJ/(kg·K)", any_number(), with_dimension) \
    ROW(volume_flow, VolumeFlow, decltype(Volume() / Time()), "volume flow", "m³/h", at_least(0), with_dimension)    \
    ROW(mass_flow, MassFlow, decltype(Mass() / Time()), "mass flow", "g/h", at_least(0), with_dimension)             \
    ROW(areal_load, ArealLoad, decltype(Mass() / Area()), "tray load", "kg/m²", at_least(0), with_dimension)         \
    ROW(mass_flux, MassFlux, decltype(Mass() / Area() / Time()), "drying flux", "kg/(m²·h)", any_number(), with_dimension) \
    ROW(permeance, Permeance, decltype(Mass() / Area() / Time() / Pressure()), "permeance", "g/(m²·day·kPa)", at_least(0), with_dimension) \
    ROW(diffusivity, Diffusivity, decltype(Area() / Time()), "diffusivity", "m²/s", at_least(0), with_dimension)     \
    ROW(molar_energy, MolarEnergy, decltype(Energy() / Quantity<si::amount>()), "molar energy", "kJ/mol", any_number(), with_dimension) \
    ROW(drying_rate, DryingRate, decltype(1.0 / Time()), "rate", "kg/(kg·h)", any_number(), with_dimension)   \
    ROW(speed, Speed, Quantity<si::velocity>, "speed", "m/s", at_least(0), with_dimension)                           \
    ROW(money, Money, Quantity<MoneyUnit::unit_type>, "money", "money", any_number(), with_dimension)                \
    ROW(money_per_energy, MoneyPerEnergy, decltype(Money() / Energy()), "money per energy", "money/kWh", any_number(), with_dimension) \
    ROW(money_per_time, MoneyPerTime, decltype(Money() / Time()), "money per time", "money/h", any_number(), with_dimension) \
    ROW(money_per_mass, MoneyPerMass, decltype(Money() / Mass()), "money per mass", "money/kg", any_number(), with_dimension) \
    ROW(moisture_wet, MoistureWet, Ratio<Kind::moisture_wet>, "moisture, wet basis", "fraction wb", from_to_below(0, 1), share_or_on_basis) \
    ROW(moisture_dry, MoistureDry, Ratio<Kind::moisture_dry>, "moisture, dry basis", "kg/kg db", at_least(0), any)   \
    ROW(relative_humidity, RelativeHumidity, Ratio<Kind::relative_humidity>, "relative humidity", "fraction", within(0, 1), share) \
    ROW(water_activity, WaterActivity, Ratio<Kind::water_activity>, "water activity", "", within(0, 1), bare)        \
    ROW(humidity_ratio, HumidityRatio, Ratio<Kind::humidity_ratio>, "humidity ratio", "kg/kg", at_least(0), mass_ratio) \
    ROW(moisture_ratio, MoistureRatio, Ratio<Kind::moisture_ratio>, "moisture ratio", "", any_number(), share)       \
    ROW(fraction, Fraction, Ratio<Kind::fraction>, "fraction", "fraction", within(0, 1), share)                      \
    ROW(number, Number, double, "number", "", any_number(), bare)
// clang-format on

#define DRYSHEET_KIND(kind, Type, type, name, unit, limits, forms) kind,
enum class Kind : std::uint8_t { DRYSHEET_KINDS(DRYSHEET_KIND) };
#undef DRYSHEET_KIND

/// A kind's row.
struct KindRow {
    Kind kind;
    std::string_view name;          ///< "mass", "moisture, wet basis"
    std::string_view default_unit;  ///< readable by read_unit; empty for a pure number
    Limits limits;
    Forms forms;
};
#define DRYSHEET_KIND(kind, Type, type, name, unit, limits, forms) \
    KindRow{Kind::kind, name, unit, limits, Forms::forms},
inline constexpr auto kKinds = std::to_array({DRYSHEET_KINDS(DRYSHEET_KIND)});
#undef DRYSHEET_KIND
constexpr const KindRow& row_of(Kind kind) { return kKinds[static_cast<std::size_t>(kind)]; }

/// A quantity with its type erased: the number in coherent SI units (kg, m, s, K, Pa, J) and its kind.
struct Amount {
    double si = 0;
    Kind kind = Kind::number;
};

}  // namespace drysheet
