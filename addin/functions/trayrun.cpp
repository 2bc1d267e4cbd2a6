// SPDX-License-Identifier: MPL-2.0
#include "drysheet/trayrun.hpp"

#include "addin/functions/air_words.hpp"
#include "addin/functions/cautions.hpp"
#include "addin/functions/curve_choice.hpp"
#include "addin/functions/isotherm_choice.hpp"
#include "addin/functions/topics.hpp"

namespace drysheet {

template <>
struct ChoiceOf<TrayModel> {
    static std::vector<std::string_view> names() {
        std::vector<std::string_view> all = ChoiceOf<CurveModel>::names();
        all.insert(all.end(), {"diffusion", "falling rate"});
        return all;
    }
};

template <>
struct FieldsOf<TrayOptions> {
    static std::vector<Field<TrayOptions>> fields() {
        using O = TrayOptions;
        return {
            field<&O::target>(
                {arg::target, "moisture at which the run ends: when every tray has reached it"}),
            field<&O::model>({arg::model, "how a thin layer dries in the entering air"}),
            field<&O::parameters>(
                {arg::parameters, "of a curve, side by side in the order of DRY.CURVEMODELS, time in h"}),
            field<&O::equilibrium>(
                {.name = arg::equilibrium, .text = "moisture reached in the end, 0 is common", .zero = true}),
            field<&O::isotherm>({arg::row::isotherm, "instead of an equilibrium: it then follows the air"}),
            field<&O::isotherm_parameters>(
                {arg::row::isotherm_parameters, "side by side in the order of DRY.SORPTIONMODELS"}),
            field<&O::pressure>(
                {.name = arg::pressure, .text = "of the air", .otherwise = kUsualPressureKPa}),
            field<&O::trays>(
                {.name = arg::trays, .text = "in series, all alike", .range = within(1, 50), .otherwise = 1}),
            field<&O::tray>(
                {arg::tray, "the one that is shown, counted from where the air enters; else the last"}),
            field<&O::steps>({.name = arg::steps,
                              .text = "equal steps of time in the result",
                              .range = within(1, 1000),
                              .otherwise = 24}),
            field<&O::diffusivity>({arg::diffusivity, "for diffusion", positive}),
            field<&O::thickness>({arg::thickness, "of the slices, for diffusion", positive}),
            field<&O::sides>({.name = arg::sides,
                              .text = "that dry, for diffusion: 2, or 1 on a closed tray",
                              .otherwise = 2}),
            field<&O::rate>({arg::rate,
                             "drying rate of a wet surface in the entering air; wanted for falling rate",
                             positive}),
            field<&O::speed>({arg::speed, "of the air along the tray, instead of a rate", positive}),
            field<&O::critical>({arg::critical, "moisture below which the rate falls, for falling rate"}),
            field<&O::activation_energy>(
                {"activation energy", "by which a curve or diffusivity follows the air's temperature"}),
            field<&O::test_temp>(
                {arg::row::test_temp, "air temperature at which the curve or diffusivity was measured"}),
        };
    }
};

namespace {

Outcome show(const TrayRun& run) {
    Table table{.columns = 5};
    for (const char* head :
         {"time", "moisture_db", "product temperature", "leaving temperature", "leaving rh"})
        table.cells.emplace_back(std::string(head));
    for (const TrayRun::Row& row : run.rows)
        for (const Amount& x : {amount(row.time), amount(row.moisture), amount(row.product),
                                amount(row.leaving), amount(row.leaving_rh)})
            table.cells.emplace_back(shown(x));
    return table;
}

Input options(std::vector<Input> cells) { return {std::move(cells), 2}; }

}  // namespace

std::vector<Function> trayrun_entries() {
    const Input sand = options({"target", "0.25 db", "model", "falling rate", "rate", 1.51, "critical",
                                "0.195 db", "equilibrium", 0.0, "steps", 1.0});
    const Input wood = options({"target", "0.09 db", "model", "diffusion", "diffusivity", "2.97E-6 m²/h",
                                "thickness", 25.4, "equilibrium", "0.04 db", "steps", 1.0});
    const Input page = options({"target", "10 %", "model", "Page", "equilibrium", 0.0, "steps", 1.0});
    const Input logarithmic({"target", "10 %", "", "", "model", "logarithmic", "", "", "parameters", 0.9, 0.5,
                             0.1, "equilibrium", 0.0, "", ""},
                            4);
    const Input unknown = options({"target", "10 %", "modle", "Page"});
    const Input both = options({"target", "10 %", "model", "diffusion", "diffusivity", 1e-10, "thickness",
                                5.0, "equilibrium", 0.0, "trays", 2.0, "tray", 3.0});
    const auto call = [](const char* fresh, const char* start, Input table) {
        return std::vector<Input>{fresh, start, 1.0, 65.6, 0.06, "1e7 m³/h", std::move(table)};
    };
    return {function<tray_run>(
        {.name = "TRAYRUN",
         .topic = "kinetics",
         .summary = "Simulated run of a tray, or of a stack of trays in series, in a stream of warm air: a "
                    "header row, then time, moisture, product temperature and leaving air",
         .mass_in_a_unit = kAlways,
         .params = {{{arg::fresh, "prepared material on one tray", positive},
                     {arg::start, "its moisture"},
                     {arg::area, "drying surface of one tray", positive},
                     {arg::temp, "air entering the first tray"},
                     {arg::rh, "relative humidity of that air"},
                     {arg::flow, "flow of that air, at that state", positive},
                     {"options",
                      "two columns, name and value, in any order; a third may hold units. Wanted are target, "
                      "model and what it needs, and equilibrium or isotherm"}}},
         .result = "run",
         .range = "The product starts at the wet bulb of the entering air (no warming-up), no heat is lost, "
                  "trays are alike, and the product takes no water back; by diffusion in little air the time "
                  "is up to a tenth too long. Air below the boiling point of water "
                  "at its pressure. A speed: air from 45 °C up, 2450 to 29300 kg/(h·m²) along the tray.",
         .source =
             "Heat and mass balance of each tray, with the add-in's own moist air: Geankoplis 1993, "
             "Transport processes and unit operations, 3rd ed., sec. 9.6 and 9.8, speed eq. 9.6-9; rate by "
             "free moisture: van Meel 1958, Chem. Eng. Sci. 9:36; adaptive steps of Dormand and Prince 1980.",
         .caution = kDryEnough,
         .working = ": on each tray: drying rate N = N0 × (1 − exp(−u)) ÷ u, with u = N0 ÷ (air flow × what "
                    "the air can still take up)\n"
                    ": N0 of a curve or diffusion = solids × (X0 − Xe) × −dMR/dt where the curve has MR = (X "
                    "− Xe) ÷ (X0 − Xe)\n"
                    ": a curve that does not begin at 1 is joined to 1 by a straight line over the first "
                    "tenth of its fall: in plenty of air the time is DRYINGTIME's\n"
                    ": N0 of falling rate = rate of a wet surface, below the critical moisture × (X − Xe) ÷ "
                    "(Xc − Xe)\n"
                    ": product: heat from the air at its wet-surface coefficient − latent heat; wet bulb at "
                    "first, the air in the end\n"
                    ": air: humidity ratio + N ÷ air flow, enthalpy − what the product gained; it enters the "
                    "next tray",
         .checks = {{call("29.67 kg", "0.38 db", sand), "1.85", 0,
                     "Geankoplis, ex. 9.6-2: 21.5 kg/m² from 0.38 to 0.25 at 1.51 kg/(h·m²) in 1.85 h", "", 2,
                     true},
                    {call("6 kg", "0.29 db", wood), "30.8", 0,
                     "Geankoplis, ex. 9.9-1: 4 × 12.7² mm² ÷ (π² × 2.97 mm²/h) × ln(8 × 0.25 ÷ (π² × 0.05)) "
                     "= 30.8 h",
                     "", 2, true},
                    {call("29.67 kg", "0.38 db", sand), "leaving rh", 0, "the header row"}},
         .refusals = {{call("6 kg", "0.29 db", unknown), "options"},
                      {call("6 kg", "80 %", page), "parameters"},
                      {call("6 kg", "80 %", logarithmic), "target"},
                      {call("6 kg", "80 %", both), "tray"},
                      {call("6 kg", "80 %", options({"target", "10 %", "model", "Pages"})), "model"},
                      {call("6 kg", "80 %", options({"target", "10 %"})), "model"},
                      {call("6 kg", "80 %", "target"), "options"},
                      {{"6 kg", "80 %", 1.0, 65.6, 1.0, 100.0, wood}, "rh"}},
         .see_also = {"EXITAIR", "CURVEFIT", "SCALEPLAN"},
         .show = show})};
}

}  // namespace drysheet
