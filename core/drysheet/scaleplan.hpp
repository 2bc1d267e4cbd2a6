// SPDX-License-Identifier: MPL-2.0
// From one bench test and a wanted output to a whole plan.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "drysheet/bench_curve.hpp"
#include "drysheet/error.hpp"
#include "drysheet/kinetics.hpp"
#include "drysheet/quantity.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet {

/// How a figure is known.
enum class Known : std::uint8_t { measured, guessed, typical };

/// What was weighed and measured at the bench. A refusal names a member by its words: "tray area".
struct BenchTest {
    Mass raw;       ///< as bought
    Mass prepared;  ///< put on the tray
    MoistureWet start_moisture;
    Mass dried;
    std::optional<MoistureWet> final_moisture;  ///< measured; else from the weights
    Area tray_area;
    Length thickness;
    Temperature temp;  ///< of the air entering the dryer
    RelativeHumidity rh;
    Time drying_time;
    std::optional<CurveModel> model;  ///< fitted curve, wanted for another target moisture
    std::vector<double> parameters;
    std::optional<MoistureWet> equilibrium;
    std::optional<Known> start_is, final_is, time_is;  ///< measured when nothing is said
};

/// What is wanted, and what the place, the dryer and the money are.
struct ScaleTarget {
    Mass wanted;                    ///< dried product of the season
    std::optional<double> days;     ///< working days; the trays follow
    std::optional<double> trays;    ///< of the dryer; the days follow
    double trays_in_a_row = 1;      ///< that the air passes one after another
    Area tray_size;                 ///< of one tray
    std::optional<ArealLoad> load;  ///< prepared material per area
    std::optional<Length> new_thickness;
    std::optional<double> thickness_exponent;  ///< 1: the air outside rules, 2: diffusion inside
    std::optional<Temperature> new_temp;
    std::optional<MolarEnergy> activation_energy;
    std::optional<Known> energy_is;
    std::optional<MoistureWet> target_moisture;
    Time turnaround;
    Time hours_a_day;
    Temperature room_temp;
    RelativeHumidity room_rh;
    std::optional<RelativeHumidity> exit_rh;
    Pressure pressure = kStandardPressure;
    std::optional<Pressure> pressure_drop;
    std::optional<Fraction> fan_efficiency;
    MoneyPerMass raw_price;
    MoneyPerEnergy tariff;
    MoneyPerTime wage;
    Time labour;                      ///< of a batch
    std::optional<Money> other_cost;  ///< of a batch
    // The pack, all of it or nothing.
    std::optional<Mass> pack_mass;
    std::optional<Area> pack_area;
    std::optional<Time> keeping_time;
    std::optional<MoistureWet> limit_moisture;
    std::optional<IsothermModel> isotherm;
    std::vector<double> isotherm_parameters;
    std::optional<Temperature> store_temp;
    std::optional<RelativeHumidity> store_rh;
};

/// What is taken when nothing is said. Common practice, no source.
inline constexpr double kUsualExitRh = 0.4;
inline constexpr double kUsualPressureDrop = 250;  ///< Pa
inline constexpr double kUsualFanEfficiency = 0.5;

/// How the test's curve was carried over to the new air.
enum class AirScaling : std::uint8_t { none, activation_energy, wet_bulb_depression };

/// A figure that a plan can do without, or the refusal that stands in its place.
template <class T>
struct Attempt {
    std::optional<T> value;
    std::optional<NoResult> refusal;
};

/// The dryer and its season, for one drying time.
struct DryerPlan {
    Time drying_time;  ///< of the simulated run
    double batches_a_day = 0, batches = 0, days = 0, trays = 0;
    ArealLoad load;  ///< of each tray, alike
    Area area;
    Mass batch_prepared, batch_dried, batch_water;
    Mass raw, prepared, water, dried;  ///< of the season's whole batches
    Time day;                          ///< hours in use of a working day
    Time labour;                       ///< hours of work of a working day

    VolumeFlow air_flow, room_flow;  ///< at the dryer's inlet, and the same air in the room
    RelativeHumidity exit_rh;        ///< of all the air of a run, mixed
    Power heater, fan;
    Energy batch_energy, season_energy;
    Attempt<Energy> least_heat;
    Attempt<Fraction> efficiency;
    SpecificEnergy energy_per_water;
    MoneyPerMass raw_cost, energy_cost, labour_cost, other_cost, cost;
    Money season_cost;
};

struct ScalePlan {
    BenchTest test;
    ScaleTarget target;

    Fraction yield;
    double drying_ratio = 1;  ///< prepared per dried, by weight, handling losses included
    MoistureWet final_moisture;
    double recovered = 1;  ///< dried mass over what the solids would have given

    BenchCurve curve;  ///< of the test
    Time curve_time;   ///< on it, to the moisture wanted
    ArealLoad full_load;
    double depth = 1;  ///< of the bed, by that of the test
    AirScaling air_scaling = AirScaling::none;
    Carried carried;
    Time carried_time;  ///< the likely one, in plenty of air
    Temperature temp;
    RelativeHumidity rh;  ///< of the air entering the dryer
    Mass row_prepared;    ///< on full trays in a row
    VolumeFlow row_flow;  ///< of the air over them

    DryerPlan likely;
    Attempt<DryerPlan> fast, slow;     ///< the same dryer and air, were the other resistance to rule
    std::optional<Permeance> barrier;  ///< the most the film may pass
};

/// The whole plan, put together from the other functions of the add-in; each step is one of them.
///   curve: fitted, else Lewis through the test's start and end; carried by `carried` to
///     depth = the greater of new thickness/thickness and load/the test's load
///     air outside = (T1 − Tw1)/(T2 − Tw2), a guess
///     air inside = exp(E/R (1/T2 − 1/T1)) with an activation energy; else that of the outside in slower air,
///       and 1 in faster, so that nothing unmeasured is promised
///     share of the outside = 2 − thickness exponent; without one 0 beside an activation energy, else a half
///   air flow: carries the water off in the carried time, at the exit humidity
///   drying time: tray_run of the planned trays with the carried curve in that air, longer because the air
///     cools and moistens along them
///   fan = air flow · pressure drop / efficiency
/// test, target: see above. Dryer air is room air heated, none of it goes round again.
/// Range: whole batches, each begun and ended within a day; trays loaded alike.
/// Errors: BadInput: something missing, both or neither of days and trays; nothing to dry; dried mass more
/// than 5 % above what the solids give; another target moisture without a curve. And what the single
/// functions refuse. Source: those of the functions; van Meel 1958, Chem. Eng. Sci. 9:36 (rate by wet-bulb
/// depression).
ScalePlan scale_plan(const BenchTest& test, const ScaleTarget& target);

}  // namespace drysheet
