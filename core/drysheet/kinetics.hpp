// SPDX-License-Identifier: MPL-2.0
// Drying kinetics: curve models, weighed runs, diffusion in a slab, drying times.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "drysheet/models/curve_list.hpp"
#include "drysheet/numeric/misfit.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet {

// ---- curve models

/// The models of a drying curve, in the order of curve_models().
#define DRYSHEET_CURVE(name, Curve) name,
enum class CurveModel : std::uint8_t { DRYSHEET_CURVES(DRYSHEET_CURVE) };
#undef DRYSHEET_CURVE

/// What is to be known of a model before it is used. The formulas are texts over the parameters' names.
struct CurveModelInfo {
    std::string_view name;
    std::string_view ratio;                        ///< moisture ratio over `time` in h: "exp(−k × time)"
    std::string_view time;                         ///< its inverse over `ratio`; empty where it is searched
    std::span<const std::string_view> parameters;  ///< their names, in order; time in h
    std::string_view source;
};
std::span<const CurveModelInfo> curve_models();
const CurveModelInfo& info(CurveModel model);

/// Moisture ratio on a drying curve. MR = f(t, parameters); the formulas stand in curve_models().
/// model: the curve; time: since the start of the curve; parameters: in the order of curve_models(), time in
/// h. Range: time from 0; rate constants (k, k0, k1, g), exponents (n, beta) and alpha above 0. Errors:
/// BadInput: time below 0; wrong number or impossible values of parameters. Source: see curve_models().
MoistureRatio curve(CurveModel model, Time time, std::span<const double> parameters);

/// Time at which a drying curve first falls to a moisture ratio: the inverse of curve().
/// In closed form but for two-term, Midilli and Verma, which are searched from time 0 in steps of 3 %, then
/// to 1e-14 of the time. Errors: BadInput: the curve starts below the ratio, parameters as for curve();
/// NoConvergence: the curve never falls to the ratio.
Time curve_time(CurveModel model, MoistureRatio ratio, std::span<const double> parameters);

/// A fitted curve, and what speaks against its being the curve of the readings. robust_errors are the
/// standard errors to go by.
struct CurveFit : numeric::Fit {
    CurveModel model{};
    numeric::Misfit
        misfit;  ///< in shares of the fall from start to equilibrium; a term: h by which the clock is late
    Time at;     ///< of the reading that `misfit` means
    std::optional<CurveModel> better;  ///< where it does not follow: the curve of least AICc
    double better_by = 0;              ///< less AICc, 10 or more
};

/// Parameters of a drying curve by least squares on the moisture ratio. minimum of Σ (MR − f(t, parameters))²
/// times, ratios: the measured points, in any order. A ratio of exactly 1 at time 0 is no reading: it is so
/// by definition, and the ratios are then shares of the first weighing, whose error they have in common.
/// Range: times from 0, more points than parameters. Where two terms can change places the faster comes
/// first. A misfit is told with a chance below 1 % and from 0.5 % of the fall; a single reading only if more
/// than 3 minutes of the clock would explain it. Errors: BadInput: columns of different length, a time below
/// 0, too few points; those of numeric::fit, naming ratios. Source: least squares; numerics in
/// numeric/fit.hpp and numeric/misfit.hpp.
CurveFit curve_fit(CurveModel model, std::span<const Time> times, std::span<const MoistureRatio> ratios);

/// Parameters of a drying curve by least squares on the weighings, the moisture at the start one of them: the
/// first weighing is as uncertain as the rest. minimum of Σ (X − Xe − (X0 − Xe) f(t, parameters))²
/// times: rising; the first is the start. masses: of the material, without tray; solids: dry solids in it;
/// equilibrium_db: Xe. Where a curve does not begin at 1, X0 is the first weighing's.
/// The fit's last parameter is X0 − Xe, in kg/kg, as are its residuals.
/// Errors: BadInput: as drying_rates; a first mass not above the equilibrium's; no more readings than
/// parameters with X0; NoConvergence: as curve_fit, naming masses. Source: as curve_fit.
CurveFit run_fit(CurveModel model, std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                 MoistureDry equilibrium_db);

struct RankedCurve {
    CurveModel model{};
    std::optional<numeric::Fit> fit;  ///< nothing where the points do not determine the model
};
/// All models fitted as by curve_fit, the least AICc first; models that the points do not determine come
/// last. Errors: as curve_fit; NoConvergence when no model is determined. Source: Burnham and Anderson 2002,
/// Model selection and multimodel inference, 2nd ed, sec. 2.4 (AICc).
std::vector<RankedCurve> curve_rank(std::span<const Time> times, std::span<const MoistureRatio> ratios);

// ---- a weighed run

/// Moisture ratios of a weighed run. MR = (X − Xe)/(X0 − Xe), X = (m − S)/S, X0 from the first mass.
/// masses: of the material, without tray, in order; solids: S, dry solids in it; equilibrium_db: Xe.
/// Errors: BadInput: a mass below the solids; the first moisture not above the equilibrium; no masses.
/// Source: definition; Geankoplis 1993, Transport processes and unit operations, 3rd ed, sec. 9.5.
std::vector<MoistureRatio> moisture_ratios(std::span<const Mass> masses, Mass solids,
                                           MoistureDry equilibrium_db);

/// When a weighed run passed a moisture, on the straight line of mass over time between two readings.
/// The last time, where the balance's noise lets it pass more than once. times: rising; masses: of the
/// material, without tray; solids: dry solids in it; target: wet basis. Range: 2 readings or more. Errors:
/// BadInput: columns of different length, times that do not rise, a mass below the solids; target: not
/// between the moistures that the run began with and reached.
/// Source: definition of the moisture; linear interpolation.
Time time_at(std::span<const Time> times, std::span<const Mass> masses, Mass solids, MoistureWet target);
/// The reading, counted from 0, that ends the line on which time_at finds it; 0: it is the first reading
/// itself. Arguments and errors: as time_at.
std::size_t reading_past(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                         MoistureWet target);

/// What is wrong with a reading, probably.
enum class ReadingSlip : std::uint8_t {
    out_of_line,
    out_of_line_with_all_after,
    heavier_than_before,
    heavier_with_all_after,
    swapped_with_next,
    time_goes_back,
    gap,
    same_twice
};
struct DoubtfulReading {
    std::size_t reading = 0;  ///< counted from 1
    Time time;
    Mass mass;
    std::optional<Mass> expected;  ///< what the other readings let expect there
    ReadingSlip what{};
};
/// Readings of a weighed run that are probably slips, in their order.
/// By numeric::find_slips, for amounts above 0.5 % of the whole loss; before that the times: the fewest
/// readings without which they rise are named, a gap where an interval is over 4 times the longest of the two
/// on either side and 5 % of the loss falls into it. A first reading that is off looks like a warming-up or a
/// quick start, and is found only before readings on a nearly straight line. Range: 6 readings or more.
/// Errors: BadInput: columns of different length, too few. Source: numeric/slips.hpp.
std::vector<DoubtfulReading> run_check(std::span<const Time> times, std::span<const Mass> masses);

/// Drying rate at every reading of a weighed run. R = −dX/dt by local polynomials.
/// The slope of a weighted quadratic or cubic through the nearest readings; degree and number of readings are
/// those that predict each reading best from the others; uneven steps are allowed. Slips that run_check finds
/// are put right before: a reading out of line is left out, a swapped pair changed back, a step taken off.
/// times: rising; masses: of the material, without tray; solids: dry solids in it. Range: 3 readings or more.
/// A bend is rounded off over a few readings; beside a long gap the rate is the mean over it.
/// Errors: BadInput: columns of different length, times that do not rise, a mass below the solids, too few.
/// Source: local polynomials of Savitzky and Golay 1964, Anal. Chem. 36:1627, weighted by distance as in
/// Cleveland 1979, J. Am. Stat. Assoc. 74:829, chosen by prediction as in Allen 1974, Technometrics 16:125.
std::vector<DryingRate> drying_rates(std::span<const Time> times, std::span<const Mass> masses, Mass solids);
/// The same per area of drying surface. N = −(dm/dt)/A
std::vector<MassFlux> drying_fluxes(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                                    Area area);

/// Whether the readings show a constant-rate period, and if that is unclear, why.
enum class BendFinding : std::uint8_t {
    found,
    little_evidence,  ///< a curve without a constant rate follows the readings nearly as well
    few_readings,     ///< fewer than 5 before, 7 after it, or 15 in all
    step              ///< the masses jump, as after a spill: run_check
};
/// The end of the constant-rate period, each value with its standard uncertainty.
struct CriticalPoint {
    DryingRate rate;       ///< in the constant-rate period
    MoistureDry moisture;  ///< critical
    Time time;             ///< on the clock of the readings
    DryingRate u_rate;
    MoistureDry u_moisture;
    Time u_time;
    double evidence = 0;       ///< AICc of the best curve without a bend less that of the bend
    std::size_t readings = 0;  ///< used
    BendFinding finding{};
};
/// The bend of a drying curve: a constant rate, then a falling one. Fitted to the moistures themselves,
/// because rates would multiply the noise: X = Xc + R (tc − t) up to tc; after it the rate falls from R with
/// the free moisture, in a straight line, with a power of it, or in two straight lines. The three are
/// averaged by their Akaike weights (AIC: AICc would not let a short run say that its fall is bent); the
/// uncertainties take in how far they differ. Rivals: one constant rate; Page's curve with an equilibrium; a
/// rate R tanh((X − Xe)/a). Slips that run_check finds are put right before. times: rising; masses: of the
/// material, without tray; solids: dry solids in it. Range: 8 readings or more. A warming-up period should be
/// left out by the user. Errors: BadInput: as drying_rates; NoConvergence: no evidence of a constant or of a
/// falling rate. Source: periods: Geankoplis 1993, 3rd ed, sec. 9.5 to 9.7; segmented fit: Seber and Wild
/// 1989, Nonlinear regression, ch. 9; weights and their uncertainty: Burnham and Anderson 2002, Model
/// selection and multimodel inference, 2nd ed, sec. 2.9 and 4.3.
CriticalPoint critical_point(std::span<const Time> times, std::span<const Mass> masses, Mass solids);

// ---- diffusion

/// Mean moisture ratio of a slab that dries by diffusion.
///   MR = 8/π² Σ exp(−(2n+1)² π² Fo/4)/(2n+1)², for Fo < 0.2 as 1 − 2 √Fo (1/√π + 2 Σ (−1)ⁿ ierfc(n/√Fo))
/// fourier: Fo = D t/L², L half the thickness of a slab that dries from both sides.
/// Range: Fo from 0; uniform at the start, surface at equilibrium, no shrinkage. Both forms to rounding.
/// Errors: BadInput: fourier below 0.
/// Source: Crank 1975, The mathematics of diffusion, 2nd ed, eq. 4.18 and 4.20.
MoistureRatio slab_ratio(double fourier);
/// The Fourier number at which it is a ratio: slab_ratio turned round.
/// ratio: above 0, up to 1. Errors: BadInput: ratio of 0. Source: as slab_ratio.
double slab_fourier(MoistureRatio ratio);

struct DiffusivityFit {
    Diffusivity diffusivity;
    Diffusivity standard_error;
    std::size_t points = 0;  ///< used, the first mass among them
    double r2 = 0, rmse = 0;
    Diffusivity
        equilibrium_effect;  ///< change if the equilibrium were higher by 0.01 of the first free moisture
    numeric::Misfit misfit;  ///< in shares of the first free moisture
    Time at;                 ///< of the reading that `misfit` means
};
/// Effective diffusivity by least squares of the whole series slab_ratio on the moisture ratios.
/// ratio = a slab_ratio(D t/L²): a is 1 but for the error of the first mass, which all ratios share; the
/// ratio 1 at time 0 is a reading that holds it (it is added where its row was left out), so that a surface
/// film cannot pass for a. A misfit is told with a chance below 1 % and from 0.5 % of the free moisture.
/// times, ratios: the measured points, in any order. thickness: of the full slab; sides: 2 when both dry, 1
/// when the slab lies on a closed tray. Errors: BadInput: columns of different length, a time below 0, fewer
/// than 2 readings after time 0, sides neither 1 nor 2, no ratio between 0 and 1; those of numeric::fit.
/// Source: Crank 1975, eq. 4.18 and 4.20; numeric/misfit.hpp.
DiffusivityFit diffusivity(std::span<const Time> times, std::span<const MoistureRatio> ratios,
                           Length thickness, double sides);

struct ArrheniusFit {
    MolarEnergy energy;
    MolarEnergy u_energy;
    MolarEnergy low;  ///< with `high` the 95 % interval, Student's t
    MolarEnergy high;
    std::size_t freedom = 0;  ///< degrees of freedom: points less 2
    double factor = 0;        ///< in the unit of the values
    double r2 = 0;            ///< of ln value against 1/T
};
/// Activation energy of a rate constant or diffusivity. ln value = ln factor − E/(R T), a straight line in
/// 1/T. temps: absolute inside; values: all in one unit, above 0. Range: 3 points or more, of at least 2
/// temperatures. Errors: BadInput: columns of different length, too few, temperatures all alike, a value not
/// above 0. Source: Arrhenius equation; R = 8.314462618 J/(mol K), CODATA 2018.
ArrheniusFit activation_energy(std::span<const Temperature> temps, std::span<const double> values);

// ---- drying times

/// Time at a constant drying rate. t = S (X1 − X2)/(A R)
/// solids: S; start_db, end_db: X1, X2; area: A, drying surface; rate: R.
/// Errors: BadInput: end_db above start_db; solids, area or rate not above 0.
/// Source: Geankoplis 1993, 3rd ed, eq. 9.6-2.
Time constant_rate_time(Mass solids, MoistureDry start_db, MoistureDry end_db, Area area, MassFlux rate);

/// Time in the falling-rate period with a rate in proportion to the free moisture, and before it at the
/// constant rate when the start lies above the critical moisture.
///   t = S (Xc − Xe)/(A R) ln((X1 − Xe)/(X2 − Xe)), X1 at most Xc
/// rate: R, of the constant-rate period, reached at critical_db.
/// Errors: BadInput: end_db above start_db or not above equilibrium_db, critical_db not above equilibrium_db;
/// solids, area or rate not above 0.
/// Source: Geankoplis 1993, 3rd ed, eq. 9.7-8 (there Xe = 0, free moisture).
Time falling_rate_time(Mass solids, MoistureDry start_db, MoistureDry end_db, MoistureDry critical_db,
                       MoistureDry equilibrium_db, Area area, MassFlux rate);

/// Drying time of another thickness. t2 = t1 (L2/L1)^exponent
/// exponent: 2 where diffusion inside limits, 1 where the air limits.
/// Errors: BadInput: time or a thickness not above 0.
/// Source: Crank 1975, sec. 4.3 (time enters only as D t/L²).
Time thickness_time(Time time, Length thickness, Length new_thickness, double exponent);

/// Time to dry from a start to a target moisture on a fitted curve. MR = (X − Xe)/(X0 − Xe), then curve_time
/// start, target, equilibrium: wet basis; model, parameters: of a run that started at the same moisture.
/// Errors: BadInput: target above start or not above equilibrium; those of curve_time.
/// Source: definition of the moisture ratio.
Time drying_time(MoistureWet start, MoistureWet target, MoistureWet equilibrium, CurveModel model,
                 std::span<const double> parameters);

}  // namespace drysheet
