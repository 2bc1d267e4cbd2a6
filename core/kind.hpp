// The kinds of physical value this library tells apart, and what each may hold at all.
#pragma once

#include <cstdint>
#include <limits>

namespace drysheet {

/// What a number means. Several kinds are dimensionless; that is why they are told apart here.
enum class Kind : std::uint8_t {
    mass,
    time,
    length,
    area,
    temperature,
    temperature_difference,
    pressure,
    energy,
    power,
    density,
    specific_volume,
    specific_energy,
    heat_capacity,
    volume_flow,
    mass_flow,
    areal_load,
    mass_flux,
    permeance,
    diffusivity,
    molar_energy,
    drying_rate,
    speed,
    money,
    money_per_energy,
    money_per_time,
    money_per_mass,
    moisture_wet,
    moisture_dry,
    relative_humidity,
    water_activity,
    humidity_ratio,
    moisture_ratio,
    fraction,
    number,
    count_of_kinds
};

/// The values a kind can have at all. A value outside is impossible, not merely unusual.
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

/// A quantity with its type erased: the number in coherent SI units (kg, m, s, K, Pa, J) and its kind.
struct Amount {
    double si = 0;
    Kind kind = Kind::number;
};

}  // namespace drysheet
