// SPDX-License-Identifier: MPL-2.0
// Moisture sorption: equilibrium between a food's moisture and its water activity.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "drysheet/models/isotherm_list.hpp"
#include "drysheet/numeric/misfit.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet {

/// The isotherm models, in the order of isotherm_models().
#define DRYSHEET_ISOTHERM(name, Isotherm) name,
enum class IsothermModel : std::uint8_t { DRYSHEET_ISOTHERMS(DRYSHEET_ISOTHERM) };
#undef DRYSHEET_ISOTHERM

/// What is to be known of a model before it is used. The formulas are texts, lines of `name = expression`
/// over the parameters' names, `temp` in °C where it is needed, and lines of prose that begin with a colon.
struct IsothermModelInfo {
    std::string_view name;
    std::string_view formula;                      ///< the one of the two below that the source prints
    std::string_view moisture;                     ///< `moisture` over `activity`
    std::string_view activity;                     ///< its inverse, `activity` over `moisture_db`
    std::span<const std::string_view> parameters;  ///< their names, in order
    bool needs_temperature;
    std::string_view source;
};
std::span<const IsothermModelInfo> isotherm_models();
const IsothermModelInfo& info(IsothermModel model);

/// Equilibrium moisture at a water activity.
/// X = f(aw, parameters[, t]), the formulas of isotherm_models()
/// model: the isotherm; activity: water activity (the relative humidity of air in equilibrium); parameters:
/// in the order of isotherm_models(), moisture in kg/kg dry basis; temp: for the temperature-dependent
/// forms, whose parameters are those of the grain standard (moisture in % dry basis, temperature in °C).
/// Range: below the pole, aw < 1/K for GAB and aw < 1 for all but GAB with K < 1 and Peleg.
/// Throws BadInput: wrong number or impossible values of parameters, temp missing; OutOfRange: activity at
/// or past the pole, or where the model gives a negative moisture.
/// Source: see isotherm_models().
MoistureDry equilibrium_moisture(IsothermModel model, WaterActivity activity,
                                 std::span<const double> parameters, std::optional<Temperature> temp = {});

/// Water activity at a moisture: the inverse of equilibrium_moisture, in closed form but for Peleg, which is
/// bracketed in 0 ≤ aw ≤ 1. Parameters and errors as there; OutOfRange for a moisture above that at aw = 1.
WaterActivity water_activity(IsothermModel model, MoistureDry moisture_db, std::span<const double> parameters,
                             std::optional<Temperature> temp = {});

/// A fitted isotherm, and what speaks against its being that of the points. robust_errors are the standard
/// errors to go by.
struct IsothermFit : numeric::Fit {
    IsothermModel model{};
    double deviation = 0;                 ///< mean of |X − fitted X| / X
    numeric::Misfit misfit;               ///< in shares of the largest moisture; none: the points follow
    WaterActivity at;                     ///< of the point that `misfit` means
    std::optional<IsothermModel> better;  ///< where they do not follow: the isotherm of least AICc
    double better_by = 0;                 ///< less AICc, 10 or more
    /// The parameter that activities kActivityDoubt too high, all of them, would move most for its error, if
    /// by more than that; and by how much.
    std::optional<std::size_t> moved;
    double moved_by = 0;
};
inline constexpr double kActivityDoubt = 0.005;

/// Fits an isotherm. minimum of Σ (X − f(aw, parameters[, t]))²
/// model: the isotherm; activities, moistures: the measured points; temps: of each point, for the
/// temperature-dependent forms. robust_errors: the largest of those of numeric::fit and those of noise in
/// proportion to the moisture and to the isotherm's slope (noise of the activities).
/// Range: activities strictly between 0 and 1, moistures above 0, more points than parameters.
/// A misfit is told with a chance below 0.5 % and from 2 % of the largest moisture; a single point only if
/// more than 6 % of its moisture and 0.015 of activity would explain it. Errors: BadInput: columns of
/// different length, a point out of range, temps missing or all alike; NoConvergence: the points do not
/// determine the parameters. Source: least squares on moisture as recommended by van den Berg & Bruin (1981);
/// numerics in numeric/fit.hpp and numeric/misfit.hpp.
IsothermFit fit_isotherm(IsothermModel model, std::span<const WaterActivity> activities,
                         std::span<const MoistureDry> moistures,
                         std::optional<std::span<const Temperature>> temps = {});

/// Net isosteric heat of sorption per kg of water from the water activities at one moisture and two
/// temperatures.
/// q = (R/M) ln(aw2/aw1) / (1/T1 − 1/T2)
/// activity1, activity2: at the same moisture; temp1, temp2: absolute.
/// Range: activities above 0; temperatures must differ.
/// Throws BadInput: an activity of 0, equal temperatures.
/// Source: Clausius–Clapeyron with ideal vapour; Rizvi (2014) in Engineering Properties of Foods, 4th ed.
SpecificEnergy isosteric_heat(WaterActivity activity1, Temperature temp1, WaterActivity activity2,
                              Temperature temp2);

/// What may still grow, by the published lower limits; from dry to wet.
enum class GrowthBand : std::uint8_t {
    none,
    osmophilic_yeasts,
    xerophilic_moulds,
    halophilic_bacteria,
    most_moulds,
    many_yeasts,
    many_bacteria,
    spoilage_bacteria
};
struct ActivityBand {
    GrowthBand growth;
    bool above_regulator_line;  ///< aw > 0.85: "low-acid" or "acidified" food in the sense of 21 CFR 114.3
    bool like_a_moisture;  ///< 0.25 or below, where dried foods have their moisture and few their activity
};
struct GrowthBandInfo {
    double low;  ///< the band begins at this water activity and ends where the next
                 ///< begins
    GrowthBand band;
};
std::span<const GrowthBandInfo> growth_bands();

/// The published growth band that holds a water activity.
/// A band includes its lower limit, the cautious side; the regulator's line is strictly above 0.85.
/// activity: measured.
/// Range: 0 to 1. Errors: none.
/// Source: Beuchat (1981) Cereal Foods World 26:345; U.S. 21 CFR 114.3.
ActivityBand activity_band(WaterActivity activity);

}  // namespace drysheet
