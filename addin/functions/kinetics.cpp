// SPDX-License-Identifier: MPL-2.0
#include "drysheet/kinetics.hpp"

#include <array>
#include <cmath>
#include <optional>

#include "addin/functions/cautions.hpp"
#include "addin/functions/topics.hpp"

namespace drysheet {
namespace {

constexpr Param kClock{arg::times,
                       "times of the readings, rising, from any start; cells in a clock's format hold days"};
constexpr Param kMasses{
    .name = arg::masses,
    .text = "masses of the readings, without the tray; a blank one leaves its reading out",
    .missed = true};
constexpr Param kSolids{arg::solids, "dry solids in them, from DRY.SOLIDSMASS", positive};
constexpr Param kStartDb{"start_db", "moisture at the start, dry basis"};
constexpr Param kEndDb{arg::end_db, "moisture at the end, dry basis"};
constexpr Param kArea{arg::area, "area of the drying surface", positive};
constexpr Param kRateArea{arg::area, "drying surface, for rates per area", positive};
constexpr Param kRate{arg::rate, "drying rate in the constant-rate period", positive};

using Rates = std::vector<Amount>;
Rates rates(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
            std::optional<Area> area) {
    Rates column;
    if (area) {
        for (const MassFlux& flux : drying_fluxes(times, masses, solids, *area))
            column.push_back(amount(flux));
    } else {
        for (const DryingRate& rate : drying_rates(times, masses, solids)) column.push_back(amount(rate));
    }
    return column;
}
Outcome rates_column(const Rates& column) {
    Table table{.columns = 1};
    for (const Amount& rate : column) table.cells.emplace_back(shown(rate));
    return table;
}

Outcome doubt_table(const std::vector<DoubtfulReading>& doubts) {
    constexpr std::array<std::string_view, 8> words{"out of line",
                                                    "out of line, with all after it",
                                                    "heavier than before",
                                                    "heavier than before, with all after it",
                                                    "swapped with the next",
                                                    "time goes back",
                                                    "gap",
                                                    "same twice"};
    Table table{.columns = 5, .cells = {"reading", "time", "mass", "expected", "what"}};
    for (const DoubtfulReading& doubt : doubts) {
        const Cell expected = doubt.expected ? Cell(shown(*doubt.expected)) : Cell("");
        const Told what = Sentence(words[static_cast<std::size_t>(doubt.what)]);
        for (const Cell& cell : {Cell(static_cast<double>(doubt.reading)), Cell(shown(doubt.time)),
                                 Cell(shown(doubt.mass)), expected, Cell(what)})
            table.cells.push_back(cell);
    }
    if (doubts.empty()) {
        table.cells.insert(table.cells.end(), 4, "");
        table.cells.emplace_back(Told(Sentence("nothing found")));
    }
    return table;
}

/// The bend, with its rate per solids or per area.
struct Bend {
    CriticalPoint point;
    Amount rate, u_rate;
};
Bend bend(std::span<const Time> times, std::span<const Mass> masses, Mass solids, std::optional<Area> area) {
    const CriticalPoint point = critical_point(times, masses, solids);
    const auto shown_as = [&](DryingRate rate) {
        return area ? amount(MassFlux(rate * solids / *area)) : amount(rate);
    };
    return {point, shown_as(point.rate), shown_as(point.u_rate)};
}
Sentence verdict(const CriticalPoint& point) {
    switch (point.finding) {
        case BendFinding::found:
            break;
        case BendFinding::little_evidence:
            return "unclear: a curve without a constant rate follows the readings nearly as well";
        case BendFinding::few_readings:
            return "unclear: fewer than 5 readings before the bend, 7 after it or 15 in all";
        case BendFinding::step:
            return "unclear: the masses jump, as after a spill; DRY.RUNCHECK says where";
    }
    return "found";
}
Outcome bend_table(const Bend& bend) {
    return quantities({{"rate", bend.rate},
                       {"moisture", amount(bend.point.moisture)},
                       {"time", amount(bend.point.time)},
                       {"u rate", bend.u_rate},
                       {"u moisture", amount(bend.point.u_moisture)},
                       {"u time", amount(bend.point.u_time)},
                       {"evidence", amount(bend.point.evidence)},
                       {"readings", amount(static_cast<double>(bend.point.readings))},
                       {"verdict", verdict(bend.point)}});
}

// The readings on either side of the target; twice the first where that is it.
std::vector<WorkingRange> beside(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                                 MoistureWet target) {
    const std::size_t after = reading_past(times, masses, solids, target), before = after - (after > 0);
    return {{"time_1", "times", to_si(times[before])},
            {"mass_1", "masses", to_si(masses[before])},
            {"time_2", "times", to_si(times[after])},
            {"mass_2", "masses", to_si(masses[after])}};
}

Input column_of(const std::vector<double>& values) {
    return Input(std::vector<Input>(values.begin(), values.end()));
}

constexpr std::string_view kIodide =
    "McMurry and Fay, Chemistry, worked example 12.13: 190 kJ/mol (slope read from two points)";
constexpr std::string_view kIodideLine =
    "SciPy 1.10.1, linregress and t, on the data of McMurry and Fay's example 12.13";
constexpr std::string_view kPentoxide =
    "SciPy 1.10.1, linregress and t, on the data of Zumdahl, Chemistry, 9th ed., ch. 12, exercise 67";

Input grams_of(Input masses) {
    for (Input& cell : masses.cells) cell = std::to_string(cell.number) + " g";
    return masses;
}

constexpr std::string_view kPeriods =
    "by hand: readings made from 1 kg/(kg·h) for 3 h from 6 to 3 kg/kg, then an exponential";

}  // namespace

std::vector<Function> kinetics_entries() {
    constexpr std::string_view topic = "kinetics";
    // 100 g of solids: 1 kg/(kg·h) for 3 h, then falling with a time constant of 2.5 h.
    std::vector<double> bend_hours, bend_masses;
    for (int i = 0; i < 25; ++i) {
        const double t = 0.5 * i;
        bend_hours.push_back(t);
        bend_masses.push_back(100 * (1 + (t < 3 ? 6 - t : 3 - 2.5 * (1 - std::exp(-(t - 3) / 2.5)))));
    }
    const Input clock = column_of(bend_hours), masses = column_of(bend_masses);
    // 2 HI → H2 + I2, rate constants in 1/(M·s).
    const Input iodide_temps = column(283.0, 356.0, 393.0, 427.0, 508.0),
                iodide_rates = column(3.52e-7, 3.02e-5, 2.19e-4, 1.16e-3, 3.95e-2);
    bend_masses[9] += 20;
    const Input slipped = column_of(bend_masses);
    const Input steady_hours = column(0.0, 0.5, 1.5, 2.0), steady_masses = column(500.0, 475.0, 425.0, 400.0),
                steady_grams = column("500 g", "475 g", "425 g", "400 g");

    return {
        function<moisture_ratios>(
            {.name = "RATIOS",
             .topic = topic,
             .summary = "Moisture ratios of a weighed run, the first mass being the start",
             .params = {{kMasses,
                         kSolids,
                         {.name = arg::equilibrium_db,
                          .text = "moisture to which this air would dry it; 0 is a common assumption",
                          .otherwise = 0.0,
                          .zero = true}}},
             .result = "ratios",
             .source =
                 "Definition; Geankoplis (1993) Transport Processes and Unit Operations, 3rd ed., sec. 9.5.",
             .working = "each X = (masses − solids) ÷ solids\n"
                        "start = first(X)\n"
                        "each ratios = (X − equilibrium_db) ÷ (start − equilibrium_db)",
             .checks = {{{column(500.0, 300.0), 100.0}, 1.0, 1e-12, "by hand: the start is 1"},
                        {{column("4.944 kg"), "3.765 kg", 0.0505}, 1.0, 1e-12, "by hand: the start is 1"}},
             .refusals = {{{column(500.0, 90.0), 100.0, 0.0}, "masses"},
                          {{column(500.0, 300.0), 0.0, 0.0}, "solids"},
                          {{column(500.0, 300.0), 100.0, 5.0}, "equilibrium_db"}},
             .see_also = {"CURVEFIT", "RATES", "MOISTURERATIO"},
             .row_by_row = true}),
        function<time_at>(
            {.name = "TIMEAT",
             .topic = topic,
             .summary = "When a weighed run passed a moisture, between two of its readings",
             .params = {{kClock, kMasses, kSolids, {arg::target, "moisture to look for, wet basis"}}},
             .result = "time",
             .range =
                 "2 readings or more. On the straight line of mass over time between two readings; the last "
                 "time, where the balance's noise lets the run pass it more than once. Refused beyond what "
                 "the "
                 "run began with and reached.",
             .source = "Definition of the moisture; linear interpolation.",
             .caution = kNoKeeping,
             .working = "target_mass [mass] = solids ÷ (1 − target)\n"
                        ": time on the straight line between the readings on either side of it\n"
                        "mass_1 [mass] ~ mass_1 : the reading before\n"
                        "time_1 [h] ~ time_1 : its time\n"
                        "if time_2 > time_1: mass_2 [mass] ~ mass_2 : the reading after\n"
                        "if time_2 > time_1: time_2 [h] ~ time_2 : its time\n"
                        "if time_2 > time_1: time = time_1 + (time_2 − time_1) × (mass_1 − target_mass) ÷ "
                        "(mass_1 − mass_2)\n"
                        "if time_2 ≤ time_1: time = time_1",
             .working_ranges = ranges_by<beside>,
             .checks = {{{column(0.0, 2.0, 5.0), column(500.0, 300.0, 150.0), 100.0, 0.6},
                         3.0,
                         1e-12,
                         "by hand: 100 ÷ 0.4 = 250 g, a third of the way from 300 to 150 g"},
                        {{column(0.0, 2.0, 5.0), column(500.0, 300.0, 150.0), 100.0, 0.8},
                         0.0,
                         1e-12,
                         "by hand: 100 ÷ 0.2 = 500 g, the first reading"},
                        {{column(0.0, 1.0, 2.0, 3.0), column(500.0, 249.0, 251.0, 200.0), 100.0, 0.6},
                         2.0 + 1.0 / 51,
                         1e-12,
                         "by hand: 250 g passed twice, the last time 1 g after 251 g of the way to 200 g"}},
             .refusals = {{{column(0.0, 2.0, 5.0), column(500.0, 300.0, 150.0), 100.0, 0.3}, "target"},
                          {{column(0.0, 2.0, 5.0), column(500.0, 300.0, 150.0), 100.0, 0.81}, "target"},
                          {{column(0.0, 2.0, 1.0), column(500.0, 300.0, 150.0), 100.0, 0.6}, "times"},
                          {{column(0.0, 2.0, 5.0), column(500.0, 300.0, 150.0), 200.0, 0.6}, "masses"}},
             .see_also = {"CURVETIME", "DRYINGTIME", "RUNCHECK"}}),
        function<run_check>(
            {.name = "RUNCHECK",
             .topic = topic,
             .summary =
                 "Readings of a weighed run that are probably slips, and what to expect in their place",
             .params = {{{arg::times, "times of the readings, in the order in which they were taken"},
                         kMasses}},
             .result = "doubts",
             .range =
                 "6 readings or more, counted without blank rows. Amounts above 0.5 % of the whole loss that "
                 "no smooth curve explains; a gap is over 4 times as long as the intervals around it, with 5 "
                 "% of the "
                 "loss in it. A first reading that is off looks like a warming-up or a quick start, and is "
                 "found "
                 "only before readings on a nearly straight line.",
             .source =
                 "Smoothing spline as in Wahba (1990) Spline Models for Observational Data, ch. 1; single "
                 "readings and steps by their likelihood, de Jong and Penzer (1998) J. Am. Stat. Assoc. "
                 "93:796.",
             .working = ": each reading is left out in turn, each pair changed over, each later part "
                        "shifted; what makes the rest "
                        "far more likely on a smooth curve is named",
             .checks = {{{clock, slipped}, "out of line", 0, "by construction: 20 g added to one reading"},
                        {{clock, masses}, "nothing found", 0, "by construction: no slip"}},
             .refusals = {{{column(0.0, 1.0, 2.0), column(500.0, 400.0, 350.0)}, "times"}},
             .see_also = {"RATES", "TIMEAT", "CRITICALPOINT"},
             .show = doubt_table}),
        function<rates>(
            {.name = "RATES",
             .topic = topic,
             .summary = "Drying rates of a weighed run, smoothed: kg/(kg·h), or kg/(m²·h) with an area",
             .mass_in_a_unit = arg::area,
             .params = {{kClock, kMasses, kSolids, kRateArea}},
             .result = "rates",
             .range =
                 "3 readings or more. A quadratic or cubic through the nearest readings, as many as predict "
                 "each reading best from the others; a bend is rounded off over a few readings, and beside a "
                 "long "
                 "gap the rate is the mean over it. The slips that DRY.RUNCHECK names are put right first: a "
                 "reading "
                 "out of line is left out, a swapped pair changed back, a step taken off.",
             .source = "Local polynomials of Savitzky and Golay (1964) Anal. Chem. 36:1627, for uneven steps "
                       "weighted by distance as in Cleveland (1979) J. Am. Stat. Assoc. 74:829, chosen by "
                       "prediction as in Allen (1974) Technometrics 16:125.",
             .working = ": at each reading, minus the slope of a weighted polynomial through its neighbours",
             .checks = {{{steady_hours, steady_masses, 100.0},
                         0.5,
                         1e-10,
                         "by hand: 50 g an hour on 100 g of solids"},
                        {{steady_hours, steady_grams, "100 g", 0.25},
                         0.2,
                         1e-10,
                         "by hand: 0.05 kg an hour from 0.25 m²"}},
             .refusals = {{{column(0.0, 1.0, 1.0), column(500.0, 450.0, 400.0), 100.0}, "times"},
                          {{column(0.0, 1.0), column(500.0, 450.0), 100.0}, "times"},
                          {{steady_hours, steady_masses, 450.0}, "masses"},
                          {{steady_hours, steady_grams, "100 g", 0.0}, "area"},
                          {{steady_hours, steady_masses, 100.0, 0.25}, "masses"}},
             .see_also = {"CRITICALPOINT", "RATIOS"},
             .row_by_row = true,
             .show = rates_column}),
        function<bend>(
            {.name = "CRITICALPOINT",
             .topic = topic,
             .summary =
                 "Constant drying rate, and the moisture and time at which it ends, with their uncertainties",
             .mass_in_a_unit = arg::area,
             .params = {{kClock, kMasses, kSolids, kRateArea}},
             .result = "bend",
             .range = "8 readings or more; found only with 5 in each period. Leave out a warming-up period. "
                      "The slips "
                      "that DRY.RUNCHECK names are put right first. Evidence is the AICc of the best curve "
                      "without a "
                      "constant rate less that of the bend: below 0 the call is refused, below 10 the "
                      "verdict is unclear.",
             .source = "Periods: Geankoplis (1993) 3rd ed., sec. 9.5 to 9.7; segmented fit: Seber and Wild "
                       "(1989) Nonlinear "
                       "Regression, ch. 9; rivals, weights and the uncertainty of an average: Burnham and "
                       "Anderson (2002) "
                       "Model Selection and Multimodel Inference, 2nd ed., sec. 2.6, 2.9 and 4.3.",
             .working =
                 ": up to the bend X = Xc + R (tc − t); after it the rate falls from R in a straight line "
                 "over the "
                 "free moisture, with a power of it, or in two straight lines\n"
                 ": each is fitted to the moistures by least squares; rate, moisture and time are their "
                 "averages, "
                 "weighted by exp(−AIC ÷ 2)\n"
                 ": rivals: one constant rate, Page's curve with an equilibrium, a rate R tanh((X − Xe) ÷ a)",
             .checks = {{{clock, masses, 100.0}, 1.0, 1e-6, kPeriods, "rate"},
                        {{clock, masses, 100.0}, 3.0, 1e-6, kPeriods, "moisture"},
                        {{clock, masses, 100.0}, 3.0, 1e-6, kPeriods, "time"},
                        {{clock, grams_of(masses), "100 g", 0.25},
                         0.4,
                         1e-6,
                         "by hand: 0.1 kg of solids at 1 kg/(kg·h) on 0.25 m²",
                         "rate"},
                        {{clock, masses, 100.0}, 25.0, 0, "by counting", "readings"},
                        {{clock, masses, 100.0}, "found", 0, "by construction", "verdict"}},
             .refusals = {{{column(0.0, 1.0, 2.0), column(500.0, 450.0, 400.0), 100.0}, "times"},
                          {{column(0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0),
                            column(500.0, 450.0, 400.0, 350.0, 300.0, 250.0, 200.0, 150.0), 100.0},
                           "masses"}},
             .see_also = {"RATES", "FALLRATETIME"},
             .show = bend_table}),
        function<activation_energy>(
            {.name = "ACTIVATIONENERGY",
             .topic = topic,
             .summary = "Activation energy of a rate constant or diffusivity from its values at several "
                        "temperatures",
             .params = {{{arg::temps, "temperatures"},
                         {arg::values, "rate constants or diffusivities, all in one unit", positive}}},
             .result = "fit",
             .range =
                 "3 points or more. The factor is in the unit of the values. low and high are 95 % limits of "
                 "the energy; three temperatures leave one degree of freedom, and limits 6 times as wide as "
                 "many would for the same scatter.",
             .source = "Arrhenius equation, ln value = ln factor − E ÷ (R T), a straight line in 1 ÷ T; R = "
                       "8.314462618 J/(mol·K) (CODATA 2018).",
             .working = ": the least-squares line of ln(value) over 1 ÷ T\n"
                        "each x = 1 ÷ (temps + 273.15)\n"
                        "each y = ln(values)\n"
                        "mean_x = mean(x)\n"
                        "mean_y = mean(y)\n"
                        "each xy = (x − mean_x) × (y − mean_y)\n"
                        "slope = sum(xy) ÷ squares(x; mean_x)\n"
                        "energy [kJ/mol] = −8.314462618 × slope ÷ 1000\n"
                        "factor = exp(mean_y − slope × mean_x)",
             .checks = {{{iodide_temps, iodide_rates}, 190.0, 0.03, kIodide, "energy"},
                        {{iodide_temps, iodide_rates}, 186.313903, 1e-8, kIodideLine, "energy"},
                        {{iodide_temps, iodide_rates}, 9.826650704e10, 1e-8, kIodideLine, "factor"},
                        {{iodide_temps, iodide_rates}, 0.9991981923, 1e-9, kIodideLine, "r2"},
                        {{iodide_temps, iodide_rates}, 176.6165102, 1e-8, kIodideLine, "low"},
                        {{iodide_temps, iodide_rates}, 196.0112968, 1e-8, kIodideLine, "high"},
                        {{column("298 K", "318 K", "338 K"), column(3.5e-5, 5.0e-4, 4.9e-3)},
                         93.35415854,
                         1e-8,
                         kPentoxide,
                         "low"},
                        {{column("298 K", "318 K", "338 K"), column(3.5e-5, 5.0e-4, 4.9e-3)},
                         113.6266344,
                         1e-8,
                         kPentoxide,
                         "high"},
                        {{column("298 K", "318 K", "338 K"), column(3.5e-5, 5.0e-4, 4.9e-3)},
                         1.0,
                         0,
                         "by counting: 3 temperatures less 2",
                         "degrees of freedom"}},
             .refusals = {{{column(40.0, 50.0), column(0.1, 0.2)}, "temps"},
                          {{column(40.0, 40.0, 40.0), column(0.1, 0.2, 0.3)}, "temps"},
                          {{column(40.0, 50.0, 60.0), column(0.1, 0.0, 0.3)}, "values"}},
             .see_also = {"DIFFUSIVITY", "CURVEFIT"},
             .show = [](const ArrheniusFit& fit) -> Outcome {
                 return quantities({{"energy", amount(fit.energy)},
                                    {"factor", amount(fit.factor)},
                                    {"r2", amount(fit.r2)},
                                    {"u energy", amount(fit.u_energy)},
                                    {"low", amount(fit.low)},
                                    {"high", amount(fit.high)},
                                    {"degrees of freedom", amount(static_cast<double>(fit.freedom))}});
             }}),
        function<constant_rate_time>(
            {.name = "CONSTRATETIME",
             .topic = topic,
             .summary = "Drying time at a constant rate",
             .mass_in_a_unit = kAlways,
             .params = {{kSolids, kStartDb, kEndDb, kArea, kRate}},
             .result = "time",
             .source = "Geankoplis (1993) 3rd ed., eq. 9.6-2.",
             .caution = kDryEnough,
             .working = "time = solids × (start_db − end_db) ÷ (area × rate)",
             .checks = {{{"21.5 kg", 0.38, 0.25, 1.0, 1.51}, 1.85, 1e-3, "Geankoplis (1993) example 9.6-2"},
                        {{"399 kg", 0.38, 0.195, 18.58, 1.51},
                         2.63,
                         1e-3,
                         "Geankoplis (1993) example 9.7-1, its constant period, the data as in the book's "
                         "Scilab companion; by "
                         "hand: 399 ÷ 18.58 × 0.185 ÷ 1.51"},
                        {{"40 kg", 1.0 / 3, 0.2, 1.0, 1.08},
                         17778.0 / 3600,
                         1e-4,
                         "Treybal (1980) illustration 12.3"}},
             .refusals = {{{"1000 g", 0.2, 0.3, 1.0, 1.0}, "end_db"},
                          {{0.0, 0.3, 0.2, 1.0, 1.0}, "solids"},
                          {{"1000 g", 0.3, 0.2, 0.0, 1.0}, "area"},
                          {{"1000 g", 0.3, 0.2, 1.0, 0.0}, "rate"}},
             .see_also = {"FALLRATETIME", "RATES"},
             .slips = {{"the area was left out", "solids × (start_db − end_db) ÷ rate"},
                       {"the rate was multiplied in, not divided by",
                        "solids × (start_db − end_db) × area × rate"}}}),
        function<falling_rate_time>(
            {.name = "FALLRATETIME",
             .topic = topic,
             .summary = "Drying time with a falling rate in proportion to the free moisture, and the "
                        "constant-rate time before it",
             .mass_in_a_unit = kAlways,
             .params = {{kSolids,
                         kStartDb,
                         kEndDb,
                         {arg::critical_db, "moisture at which the constant rate ends, dry basis"},
                         {.name = arg::equilibrium_db,
                          .text = "moisture to which this air would dry it; 0 is a common assumption",
                          .zero = true},
                         kArea,
                         kRate}},
             .result = "time",
             .range = "The rate falls in a straight line from the critical to the equilibrium moisture.",
             .source = "Geankoplis (1993) 3rd ed., eq. 9.6-2 and 9.7-8, on free moisture.",
             .caution = kDryEnough,
             .working = "constant = max(start_db; critical_db) − max(end_db; critical_db)\n"
                        "falling = (critical_db − equilibrium_db) × ln((min(start_db; critical_db) − "
                        "equilibrium_db) ÷ (min(end_db; critical_db) − equilibrium_db))\n"
                        "time = solids × (constant + falling) ÷ (area × rate)",
             .checks =
                 {{{"0.9 kg", 3.0, 0.25, 1.5, 0.1 / 0.9, 0.18, 2.0},
                   11.745,
                   1e-4,
                   "Anantharaman and Begum, Mass Transfer, example 6.9 (title from memory), by its formula"},
                  {{"1 kg", "30 % db", "8 % db", "15 % db", "5 % db", 1.0, "0.1 kg/(m²·h)"},
                   2.703973,
                   1e-6,
                   "Coulson and Richardson vol. 2, example 16.1: 1.5 + ln(0.10 ÷ 0.03)"},
                  {{"1 kg", 0.12, 0.08, 0.15, 0.05, 1.0, 0.1}, 0.8472979, 1e-6, "by hand: ln(0.07 ÷ 0.03)"},
                  {{"1 kg", 0.3, 0.2, 0.15, 0.05, 1.0, 0.1}, 1.0, 1e-12, "by hand: 0.1 kg at 0.1 kg/(m²·h)"}},
             .refusals = {{{"1000 g", 0.3, 0.05, 0.2, 0.05, 1.0, 1.0}, "end_db"},
                          {{"1000 g", 0.3, 0.4, 0.2, 0.05, 1.0, 1.0}, "end_db"},
                          {{"1000 g", 0.3, 0.2, 0.04, 0.05, 1.0, 1.0}, "critical_db"}},
             .see_also = {"CONSTRATETIME", "CRITICALPOINT"},
             .slips = {{"the rate was taken as constant to the end",
                        "solids × (start_db − end_db) ÷ (area × rate)"},
                       {"the area was left out",
                        "FALLRATETIME(solids; start_db; end_db; critical_db; equilibrium_db; 1; rate)"}}}),
        function<thickness_time>(
            {.name = "THICKNESSTIME",
             .topic = topic,
             .summary = "Drying time of another thickness",
             .params =
                 {{{arg::time, "drying time of the known thickness", positive},
                   {arg::thickness, "known", positive},
                   {arg::new_thickness, "wanted", positive},
                   {.name = "exponent",
                    .text = "2 where diffusion inside limits, 1 where the air limits; most foods lie between",
                    .range = within(0, 3),
                    .otherwise = 2.0}}},
             .result = "new_time",
             .source = "Crank (1975) 2nd ed., sec. 4.3: time enters only as D t ÷ L².",
             .caution = kDryEnough,
             .working = "new_time = time × (new_thickness ÷ thickness)^exponent",
             .checks =
                 {{{1.0, 10.0, 60.0}, 36.0, 1e-12, "Coulson and Richardson vol. 2, example 16.2: (60 ÷ 10)²"},
                  {{5.0, 4.0, 8.0, 1.0}, 10.0, 1e-12, "by hand: 5 × 8 ÷ 4"}},
             .refusals = {{{0.0, 4.0, 8.0}, "time"},
                          {{5.0, 0.0, 8.0}, "thickness"},
                          {{5.0, 4.0, 8.0, -1.0}, "exponent"},
                          {{5.0, 4.0, 0.0}, "new_thickness"}},
             .see_also = {"SLABRATIO", "DRYINGTIME"},
             .slips = {{"the exponent was taken as 1", "time × new_thickness ÷ thickness"},
                       {"the exponent was taken as 2", "time × (new_thickness ÷ thickness)^2"}}}),
    };
}

}  // namespace drysheet
