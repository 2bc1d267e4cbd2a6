// From one bench test and a wanted output to a whole plan.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "drysheet/kinetics.hpp"
#include "drysheet/quantity.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet {

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
};

/// What is wanted, and what the place, the dryer and the money are.
struct ScaleTarget {
    Mass wanted;                    ///< dried product of the season
    std::optional<double> days;     ///< working days; the trays follow
    std::optional<double> trays;    ///< of the dryer; the days follow
    Area tray_size;                 ///< of one tray
    std::optional<ArealLoad> load;  ///< prepared material per area
    std::optional<Length> new_thickness;
    double thickness_exponent = 2;
    std::optional<Temperature> new_temp;
    std::optional<MolarEnergy> activation_energy;
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

/// How the test's time was carried over to the new air.
enum class AirScaling : std::uint8_t { none, activation_energy, wet_bulb_depression };

struct ScalePlan {
    BenchTest test;
    ScaleTarget target;

    Mass raw, prepared, water, dried;  ///< of the season's whole batches
    Fraction yield;
    double drying_ratio = 1;  ///< prepared per dried, by weight, handling losses included
    MoistureWet final_moisture;
    double recovered = 1;  ///< dried mass over what the solids would have given

    ArealLoad load;
    Time curve_time;  ///< before scaling: measured, or by the curve to the target moisture
    double thickness_factor = 1;
    AirScaling air_scaling = AirScaling::none;
    double air_factor = 1;
    Time drying_time;
    Temperature temp;
    RelativeHumidity rh;  ///< of the air entering the dryer

    double batches_a_day = 0, batches = 0, days = 0, trays = 0;
    Area area;
    Mass batch_prepared, batch_dried, batch_water;
    Time day;  ///< hours in use of a working day

    VolumeFlow air_flow, room_flow;  ///< at the dryer's inlet, and the same air in the room
    Power heater, fan;
    Energy batch_energy, season_energy;
    std::optional<Energy> least_heat;  ///< not for a room below 0 °C
    std::optional<Fraction>
        efficiency;  ///< not where the room's warm air gives more of the heat than the heater
    SpecificEnergy energy_per_water;
    MoneyPerMass raw_cost, energy_cost, labour_cost, other_cost, cost;
    Money season_cost;
    std::optional<Permeance> barrier;  ///< the most the film may pass
};

/// The whole plan, put together from the other functions of the add-in; each step is one of them.
///   drying time = test's time · (new thickness/thickness)^exponent · air factor
///   air factor = exp(E/R (1/T2 − 1/T1)) with an activation energy, else (T1 − Tw1)/(T2 − Tw2), a guess: it
///                holds where the air limits, and promises too much where diffusion does
///   fan = air flow · pressure drop / efficiency
/// test, target: see above. Dryer air is room air heated, none of it goes round again.
/// Range: whole batches, each begun and ended within a day; the flow is the mean of a batch.
/// Errors: BadInput: something missing, both or neither of days and trays; nothing to dry; dried mass more
/// than 5 % above what the solids give; another target moisture without a curve. And what the single
/// functions refuse. Source: those of the functions; van Meel 1958, Chem. Eng. Sci. 9:36 (rate by wet-bulb
/// depression).
ScalePlan scale_plan(const BenchTest& test, const ScaleTarget& target);

}  // namespace drysheet
