// SPDX-License-Identifier: MPL-2.0
// A simulated run of a tray, or of a stack of trays one behind the other in a stream of warm air.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "drysheet/kinetics.hpp"
#include "drysheet/quantity.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet {

/// How a tray dries: by a drying curve (in the order of CurveModel), by diffusion in a slab, or at the rate
/// of a wet surface that falls in proportion to the free moisture below a critical moisture.
enum class TrayModel : std::uint8_t {
    lewis,
    page,
    henderson_pabis,
    logarithmic,
    two_term,
    midilli,
    weibull,
    verma,
    diffusion,
    falling_rate
};

/// What a run needs beside the six plain arguments. A refusal names a member by its words: "test temp".
struct TrayOptions {
    MoistureWet target;                 ///< the run ends when every tray has reached it
    TrayModel model = TrayModel::page;  ///< of a thin layer in the entering air
    std::vector<double> parameters;     ///< of a curve, time in h
    std::optional<MoistureWet> equilibrium;
    std::optional<IsothermModel> isotherm;  ///< instead of an equilibrium: it follows the air
    std::vector<double> isotherm_parameters;
    Pressure pressure = kStandardPressure;
    double trays = 1;            ///< in series, all alike
    std::optional<double> tray;  ///< the one that is shown; the last when nothing is said
    double steps = 24;           ///< equal steps of time in the result
    std::optional<Diffusivity> diffusivity;
    std::optional<Length> thickness;
    double sides = 2;
    std::optional<MassFlux> rate;  ///< of a wet surface in the entering air
    std::optional<Speed> speed;    ///< of air along the tray, from which that rate follows
    std::optional<MoistureWet> critical;
    std::optional<MolarEnergy>
        activation_energy;                 ///< by which a curve or diffusivity follows the air's temperature
    std::optional<Temperature> test_temp;  ///< at which the curve or diffusivity was measured
};

struct TrayRun {
    struct Row {
        Time time;
        MoistureDry moisture;
        Temperature product;
        Temperature leaving;
        RelativeHumidity leaving_rh;
    };
    std::vector<Row> rows;  ///< of the tray that is shown
    // Balances of the whole stack over the whole run; each pair is reached by two ways and must agree.
    Mass water_lost;         ///< by the product
    Mass water_taken;        ///< by the air, from the states of entering and leaving air
    Energy heat_given;       ///< enthalpy lost by the air, from the same states
    Energy heat_in_product;  ///< enthalpy gained by the product (negative: it left with the water)
};

/// Simulated run of trays in series. For each tray, the air of one entering the next:
///   drying       −dX/dt = N/S,  N = N0 (1 − e^(−u))/u,  u = N0/(G ΔW)
///   curve        N0 = S (X0 − Xe) r(MR) e^(−E/R (1/T − 1/Ttest)),  MR = (X − Xe)/(X0 − Xe), at most N wet;
///                r is the slope −dMR/dt of the curve, or of the diffusion series, where it has that MR
///   falling rate N0 = N wet · min(1, (X − Xe)/(Xc − Xe))
///   wet surface  N wet = hA (T − Tw)/λ(Tw)
///   product      S C(X) dTp/dt = hA (T − Tp) (1 − e^(−v))/v − N λ(Tp),  v = hA/(G cs)
///   air          W' = W + N/G,  h' = h − d(S C(X) (Tp − 0 °C))/dt/G
/// S dry solids of a tray, G dry air, X0 moisture at the start, Xe equilibrium in the air entering the tray,
/// T and Tw its temperature and wet bulb, cs its humid heat, ΔW what it can take up adiabatically until its
/// relative humidity is the water activity of the product (or 1, without an isotherm), λ latent heat, C
/// specific heat. The factors in u and v: along a tray the rate falls with what the air can still take up,
/// and the heat with what it can still give. So the product is at the wet bulb while it is wet and then rises
/// to the air's temperature, with a time constant of at least 1/200 of that of its drying (at most 0.2 h) and
/// 1/500 of the time since the start. Air that would fog stays saturated and gives the product less heat. hA
/// comes from `rate` or `speed`. Without them the fastest tenth of the curve's fall is taken to be that of a
/// wet surface in the entering air, and where the curve is faster still the curve is followed. A curve that
/// does not begin at 1 (an a of Henderson-Pabis other than 1) is joined to 1 by a straight line over the
/// first tenth of its fall, so that in plenty of air the time to a target is drying_time's, which reads the
/// curve's own clock: a below 1 is a fast first loss, above 1 a delay.
///
/// fresh: on one tray; start: its moisture; area: drying surface of one tray; temp, rh, flow: of the air that
/// enters the first tray, flow at that state; options: see above. What the model does not use is not looked
/// at.
///
/// Range: the product starts at the wet bulb (no warming-up), no heat is lost or radiated, the product takes
/// no water back; by diffusion in little air the time is up to a tenth too long (slices that the air held
/// back are more even inside than the series); air below the boiling point of water at its pressure, for
/// above it air has no relative humidity; at most 50 trays, 1000 steps, 10000 h. `speed` by its equation:
/// 2450 to 29300 kg/(h m²) of air from 45 °C up, parallel to the tray (published to 150 °C, further than a
/// relative humidity goes).
///
/// Errors: BadInput: an option missing, or beside one that excludes it; target not below start; target never
/// reached in this air, with the moisture at which the run would end; OutOfRange: speed; NoConvergence:
/// target not reached within 10000 h. And what curves, isotherms and air refuse.
///
/// Source: heat balance of a tray, rate along it: Geankoplis 1993, Transport processes and unit operations,
/// 3rd ed, sec. 9.6 and 9.8; speed: eq. 9.6-9; rate by free moisture: van Meel 1958, Chem. Eng. Sci. 9:36.
TrayRun tray_run(Mass fresh, MoistureWet start, Area area, Temperature temp, RelativeHumidity rh,
                 VolumeFlow flow, const TrayOptions& options);

}  // namespace drysheet
