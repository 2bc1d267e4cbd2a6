// SPDX-License-Identifier: MPL-2.0
#include "drysheet/energy.hpp"

#include "addin/functions/cautions.hpp"
#include "addin/functions/topics.hpp"
#include "drysheet/water.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kEarle = "Earle & Earle (1983) Unit Operations in Food Processing, ch. 7";

}  // namespace

std::vector<Function> energy_entries() {
    constexpr std::string_view topic = "energy";
    const auto share = [](std::string_view name, std::string_view text) {
        return Param{.name = name, .text = text};
    };
    return {
        function<latent_heat>(
            {.name = "LATENTHEAT",
             .topic = topic,
             .summary = "Heat that evaporates water at a temperature (sublimes ice below 0 °C)",
             .params = {{{arg::temp, "temperature of the water", within(-80, 150)}}},
             .result = "heat",
             .range = "Within 0.15 kJ/kg of IAPWS-95 up to 120 °C, 0.5 kJ/kg up to 150 °C.",
             .source = "IAPWS R6-95(2018) for vapour and IAPWS SR1-86(1992) for the saturated liquid; IAPWS "
                       "R10-06(2009) for ice.",
             .working = ": enthalpy of saturated vapour less that of the liquid (of the ice below 0 °C)",
             .checks = {{{40.0}, 2406.0, 1e-4, "steam tables (IAPWS-95): 2406.0 at 40 °C"},
                        {{10.0},
                         2477.2,
                         5e-5,
                         "Engineering Toolbox, Water - heat of vaporization: 2477.2 at 10 °C"},
                        {{100.0}, 2256.4, 1e-4, "steam tables (IAPWS-95): 2256.4 at 100 °C"},
                        {{150.0}, 2113.75, 2.4e-4, "IAPWS-95 by python3-iapws 1.5.2"}},
             .refusals = {{{"40 g"}, "temp"}, {{-300.0}, "temp"}},
             .see_also = {"HEATDEMAND", "DRYEREFFICIENCY"},
             .slips = {{"the latent heat at 100 °C was taken", "LATENTHEAT(100)"},
                       {"the latent heat at 0 °C was taken", "LATENTHEAT(0)"}}}),
        function<specific_heat>(
            {.name = "SPECIFICHEAT",
             .topic = topic,
             .summary = "Specific heat of a fresh food from its moisture alone",
             .params = {{{"moisture", "moisture of the food"}}},
             .result = "cp",
             .range = "Fresh fruit, vegetables, meat and fish above freezing.",
             .source = "Siebel (1892) Ice and Refrigeration 2:256, in SI.",
             .caution = "Too low for what is half dry or dried: against tabulated values by 15 % at 45 % "
                        "moisture and by 29 % at 14 %. Take DRY.FOODHEAT there.",
             .working = "cp = 0.837 + 3.349 × moisture",
             .checks = {{{0.872}, 3.77, 5e-3, "Geankoplis, 4th ed., Table A.4-1: fresh oranges 87.2 %"},
                        {{0.743}, 3.31, 6e-3, "Geankoplis, 4th ed., Table A.4-1: green peas 74.3 %"},
                        {{0.70}, 3.18, 2e-3, "Geankoplis, 4th ed., Table A.4-1: fresh cod 70 %"}},
             .refusals = {{{70.0}, "moisture"}, {{0.0}, "moisture"}},
             .see_also = {"FOODHEAT", "HEATDEMAND"},
             .slips = {{"the share of the dry matter was put in for the moisture",
                        "0.837 + 3.349 × (1 − moisture)"},
                       {"the specific heat of water was taken for all of it", "4.186"}}}),
        function<food_heat>(
            {.name = "FOODHEAT",
             .topic = topic,
             .summary = "Specific heat of a food from its composition and temperature",
             .params = {{share("water", "mass fraction of water"),
                         share("protein", "mass fraction of protein"),
                         share("fat", "mass fraction of fat"),
                         share("carbohydrate", "mass fraction of carbohydrate without fibre"),
                         share("fibre", "mass fraction of fibre"),
                         share("ash", "mass fraction of ash"),
                         {arg::temp, "temperature of the food", within(0, 150)}}},
             .result = "cp",
             .range = "No ice; the fractions sum to 1 within 0.005. Water has the coefficient 4.1762 of Choi "
                      "& Okos, which agrees with the steam tables within 0.3 % from 0 to 100 °C; some "
                      "handbooks print 4.1289, 1 % less.",
             .source = "Choi & Okos (1986) in Food Engineering and Process Applications, vol. 1.",
             .working =
                 "cp_water [kJ/(kg·K)] = 4.1762 − 9.0864 ÷ 10^5 × temp + 5.4731 ÷ 10^6 × temp^2\n"
                 "cp_protein [kJ/(kg·K)] = 2.0082 + 1.2089 ÷ 10^3 × temp − 1.3129 ÷ 10^6 × temp^2\n"
                 "cp_fat [kJ/(kg·K)] = 1.9842 + 1.4733 ÷ 10^3 × temp − 4.8008 ÷ 10^6 × temp^2\n"
                 "cp_carbohydrate [kJ/(kg·K)] = 1.5488 + 1.9625 ÷ 10^3 × temp − 5.9399 ÷ 10^6 × temp^2\n"
                 "cp_fibre [kJ/(kg·K)] = 1.8459 + 1.8306 ÷ 10^3 × temp − 4.6509 ÷ 10^6 × temp^2\n"
                 "cp_ash [kJ/(kg·K)] = 1.0926 + 1.8896 ÷ 10^3 × temp − 3.6817 ÷ 10^6 × temp^2\n"
                 "cp = water × cp_water + protein × cp_protein + fat × cp_fat + carbohydrate × "
                 "cp_carbohydrate + fibre × cp_fibre + ash × cp_ash",
             .checks = {{{1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 20.0},
                         4.17657,
                         1e-5,
                         "by hand: 4.1762 − 20 × 9.0864e-5 + 400 × 5.4731e-6"},
                        {{0.75, 0.0, 0.0, 0.25, 0.0, 0.0, 20.0},
                         3.52,
                         1e-2,
                         "Geankoplis, 4th ed., Table A.4-1: potatoes 75 %, solids taken as starch"}},
             .refusals = {{{0.8, 0.0, 0.0, 0.1, 0.0, 0.0, 20.0}, "water"},
                          {{0.8, 0.0, 0.0, 0.2, 0.0, 0.0, -5.0}, "temp"},
                          {{80.0, 0.0, 0.0, 20.0, 0.0, 0.0, 20.0}, "water"}},
             .see_also = {"SPECIFICHEAT"}}),
        function<heat_demand>(
            {.name = "HEATDEMAND",
             .topic = topic,
             .summary = "Least heat that dries a batch: warm the feed, evaporate the water",
             .mass_in_a_unit = kAlways,
             .params = {{{arg::fresh, "mass of feed", positive},
                         {arg::start, "moisture of the feed"},
                         {arg::final, "moisture of the dried product"},
                         {arg::feed_temp, "temperature of the feed", at_least(0)},
                         {arg::dryer_temp, "temperature at which the water evaporates"}}},
             .result = "demand",
             .range = "Without losses and without the air that leaves: a real dryer takes two to four times "
                      "as much (common practice, no source).",
             .source = "Earle & Earle (1983) Unit Operations in Food Processing, ex. 7.1, with Siebel's "
                       "specific heat and the latent heat of IAPWS.",
             .caution = kHeater,
             .working = "water [kg] = fresh × (start − final) ÷ (1 − final)\n"
                        "warming [kJ] = fresh × SPECIFICHEAT(start) × (dryer_temp − feed_temp)\n"
                        "evaporating [kJ] = water × LATENTHEAT(dryer_temp)\n"
                        "demand = (warming + evaporating) ÷ 3600",
             .checks = {{{"1000 g", 0.8, 0.1, 100.0, 100.0},
                         0.48763,
                         1e-3,
                         "Earle (1983) ex. 7.1, its evaporation: 0.7 ÷ 0.9 kg × 2257 kJ/kg ÷ 3600"},
                        {{"1000 g", 0.8, 0.1, 21.0, 100.0},
                         0.56479,
                         1e-3,
                         "by hand, the same from 21 °C with Siebel's 3.5162: 79 × 3.5162 ÷ 3600 more"},
                        {{"1 kg", 0.8, 0.1, 21.0, 60.0},
                         0.54745,
                         1e-3,
                         "by hand, Earle (1983) ex. 7.2: (0.7 ÷ 0.9 × 2357.7 + 39 × 3.5162) ÷ 3600"}},
             .refusals = {{{"1000 g", 0.1, 0.8, 21.0, 60.0}, "final"},
                          {{"1000 g", 0.8, 0.1, 65.0, 60.0}, "dryer_temp"},
                          {{"1000 g", 0.8, 0.1, -5.0, 60.0}, "feed_temp"},
                          {{"1000 g", 0.8, 0.1, 21.0, 200.0}, "dryer_temp"}},
             .see_also = {"DRYEREFFICIENCY", "HEATINGLOAD", "WATERREMOVED"},
             .slips = {{"the warming was left out",
                        "fresh × (start − final) ÷ (1 − final) × LATENTHEAT(dryer_temp) ÷ 3600"},
                       {"the evaporation was left out",
                        "fresh × SPECIFICHEAT(start) × (dryer_temp − feed_temp) ÷ 3600"},
                       {"the percentages were subtracted",
                        "fresh × (SPECIFICHEAT(start) × (dryer_temp − feed_temp) + (start − final) × "
                        "LATENTHEAT(dryer_temp)) ÷ 3600"},
                       {"all was warmed as if it were water",
                        "fresh × (4.186 × (dryer_temp − feed_temp) + (start − final) ÷ (1 − final) × "
                        "LATENTHEAT(dryer_temp)) ÷ 3600"}}}),
        function<dryer_efficiency>(
            {.name = "DRYEREFFICIENCY",
             .topic = topic,
             .summary = "Share of the energy used that evaporated water",
             .mass_in_a_unit = kAlways,
             .params = {{{arg::water, "water evaporated", positive},
                         {arg::energy, "energy used by heater and fan", positive},
                         {arg::temp, "temperature at which the water evaporated"}}},
             .result = "efficiency",
             .range =
                 "At most 1: with a heat pump or sun, whose heat is not counted, use DRY.ENERGYPERWATER.",
             .source = kEarle,
             .working = "latent [kJ] = water × LATENTHEAT(temp)\n"
                        "efficiency = latent ÷ (3600 × energy)",
             .checks = {{{"10000 g", 13.366667, 40.0}, 0.5, 1e-4, "by hand: 10 × 2406.0 ÷ 48120 kJ"}},
             .refusals = {{{"10000 g", 6.0, 40.0}, "energy"}, {{"10000 g", 0.0, 40.0}, "energy"}},
             .see_also = {"ENERGYPERWATER", "LATENTHEAT"},
             .slips = {{"the energy was not turned to kJ", "water × LATENTHEAT(temp) ÷ energy"}}}),
        function<energy_per_water>(
            {.name = "ENERGYPERWATER",
             .topic = topic,
             .summary = "Energy used per kilogram of water evaporated",
             .mass_in_a_unit = kAlways,
             .params = {{{arg::energy, "energy used", at_least(0)},
                         {arg::water, "water evaporated", positive}}},
             .result = "use",
             .unit = "kWh/kg",
             .source = "Definition: energy used over water evaporated.",
             .working = "use = energy ÷ water",
             .checks = {{{12.0, "8000 g"}, 1.5, 1e-12, "by hand: 12 ÷ 8"},
                        {{"43.2 MJ", "8 kg"}, 1.5, 1e-12, "by hand: 43.2 MJ is 12 kWh"}},
             .refusals = {{{12.0, 0.0}, "water"}},
             .see_also = {"DRYEREFFICIENCY"},
             .slips = {{"the water was left in g", "energy ÷ (1000 × water)"}}}),
        function<run_energy>(
            {.name = "RUNENERGY",
             .topic = topic,
             .summary = "Energy of a run from rated power and time",
             .params = {{{"power", "rated power", at_least(0)},
                         {arg::time, "running time", at_least(0)},
                         {.name = "duty", .text = "share of the time it is on", .otherwise = 1}}},
             .result = "energy",
             .source = "Definition: power over time.",
             .working = "energy = power × time × duty",
             .checks = {{{2.0, 9.0}, 18.0, 1e-12, "by hand: 2 kW × 9 h"},
                        {{"2000 W", "540 min", "50 %"}, 9.0, 1e-12, "by hand: 2 kW × 9 h × 0.5"}},
             .refusals = {{{-2.0, 9.0}, "power"}, {{2.0, 9.0, 50.0}, "duty"}},
             .see_also = {"ENERGYPERWATER", "UNITCOST"},
             .slips = {{"the share of the time was left out", "power × time"},
                       {"the power was divided by the time", "power ÷ time × duty"}}}),
        function<unit_cost>(
            {.name = "UNITCOST",
             .topic = topic,
             .summary = "Cost of a kilogram of dried product",
             .mass_in_a_unit = kAlways,
             .params = {{{arg::dried, "dried product", positive},
                         {"raw_cost", "what the raw material cost in all", at_least(0)},
                         {arg::energy, "energy used", at_least(0)},
                         {"tariff", "price of energy", at_least(0)},
                         {"hours", "hours of work", at_least(0)},
                         {"wage", "pay of an hour", at_least(0)},
                         {.name = "other",
                          .text = "packaging, rent, transport",
                          .range = at_least(0),
                          .otherwise = 0}}},
             .result = "cost",
             .source = "Definition: the sum of the costs over the mass made.",
             .working = "cost = (raw_cost + energy × tariff + hours × wage + other) ÷ dried",
             .checks = {{{"8 kg", 120.0, 18.0, 0.25, 6.0, 12.0, 3.5},
                         25.0,
                         1e-12,
                         "by hand: (120 + 4.5 + 72 + 3.5) ÷ 8"},
                        {{"8 kg", 120.0, 18.0, 0.25, 6.0, 12.0}, 24.5625, 1e-12, "by hand: 196.5 ÷ 8"}},
             .refusals = {{{0.0, 120.0, 18.0, 0.25, 6.0, 12.0}, "dried"},
                          {{"8 kg", -1.0, 18.0, 0.25, 6.0, 12.0}, "raw_cost"}},
             .see_also = {"RUNENERGY"},
             .slips = {{"the raw material was left out", "(energy × tariff + hours × wage + other) ÷ dried"},
                       {"the energy was left out", "(raw_cost + hours × wage + other) ÷ dried"},
                       {"the work was left out", "(raw_cost + energy × tariff + other) ÷ dried"},
                       {"the dried mass was left out",
                        "raw_cost + energy × tariff + hours × wage + other"}}}),
    };
}

}  // namespace drysheet
