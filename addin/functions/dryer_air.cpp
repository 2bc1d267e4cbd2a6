// SPDX-License-Identifier: MPL-2.0
#include "addin/functions/air_words.hpp"
#include "addin/functions/cautions.hpp"
#include "addin/functions/topics.hpp"
#include "drysheet/air.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kAdiabatic =
    "Adiabatic: no heat lost or added, water from the product at the wet bulb of the air. A product that is "
    "still warming up, or far on in its falling rate, takes up heat of its own.";
constexpr Param kInlet{arg::temp, "temperature of the air at the dryer's inlet", kTemps};
constexpr Param kExit{arg::exit_rh, "relative humidity with which the air leaves"};

Outcome point_table(const AirPoint& point) {
    return quantities({{"temp", amount(point.temp)},
                       {"rh", amount(point.rh)},
                       {"ratio", amount(point.ratio)},
                       {"enthalpy", amount(point.enthalpy)}});
}

}  // namespace

std::vector<Function> dryer_air_entries() {
    constexpr std::string_view topic = "air";
    return {
        function<heated_rh>(
            {.name = "HEATEDRH",
             .topic = topic,
             .summary = "Relative humidity of room air heated to the dryer's setting",
             .params = {{{arg::temp, "temperature of the room", kTemps},
                         {arg::rh, "relative humidity of the room"},
                         {arg::heated, "temperature after the heater", kTemps},
                         kPressure}},
             .result = "heated_rh",
             .range = kAirRange,
             .source = kAirSource,
             .working = "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        ": heating adds no water, so the ratio stays\n"
                        "heated_rh = RELHUMIDITY(heated; ratio; pressure)",
             .checks = {{{30.0, 0.8, 80.0}, 0.07, 0.05, "Singh & Heldman ch. 9: 7 % (chart)"},
                        {{10.0, 0.8, 30.0}, 0.231272, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"}},
             .refusals = {{{30.0, 0.8, 20.0}, "heated"},
                          {{30.0, 0.8, 105.0}, "heated"},
                          {{30.0, 80.0, 60.0}, "rh"}},
             .see_also = {"HEATINGLOAD", "AIRPICKUP"},
             .slips = {{"the humidity was taken as unchanged", "rh"},
                       {"the humidity was scaled with the temperature", "rh × temp ÷ heated"}}}),
        function<heating_load>(
            {.name = "HEATINGLOAD",
             .topic = topic,
             .summary = "Heating power for a flow of air",
             .params = {{{arg::flow, "air flow, measured before the heater", at_least(0)},
                         {arg::temp, "temperature before the heater", kTemps},
                         {arg::rh, "relative humidity before the heater"},
                         {arg::heated, "temperature after the heater, may be above boiling", kTemps},
                         kPressure}},
             .result = "load",
             .range = kAirRange,
             .source = kAirSource,
             .caution = kHeater,
             .working = "volume [m³/kg] = AIRVOLUME(temp; rh; pressure)\n"
                        "dry_air [kg/h] = flow ÷ volume\n"
                        "enthalpy_before [kJ/kg] = AIRENTHALPY(temp; rh; pressure)\n"
                        "if heated ≤ 68: rh_after = HEATEDRH(temp; rh; heated; pressure)\n"
                        "if heated ≤ 68: enthalpy_after [kJ/kg] = AIRENTHALPY(heated; rh_after; pressure)\n"
                        "if heated > 68: enthalpy_after [kJ/kg] ~ enthalpy_before + 3600 × itself ÷ dry_air "
                        ": of the "
                        "heated air, which holds the same ratio, by the equations of the source\n"
                        "load [kW] = dry_air × (enthalpy_after − enthalpy_before) ÷ 3600",
             .checks =
                 {{{"10 m³/s", 2.0, 1.0, 40.0}, 491.381, 4e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                  {{2700.0, 10.0, 0.3, 22.0, 100.0}, 11.1516, 4e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                  {{360000.0, 55.0, 0.296, 110.0, 101.33},
                   5994.0,
                   0.01,
                   "Treybal (1980) ill. 7.7: 100 m³ take 5.994 MJ"}},
             .refusals = {{{100.0, 25.0, 0.5, 20.0}, "heated"},
                          {{100.0, 25.0, 50.0, 60.0}, "rh"},
                          {{-1.0, 25.0, 0.5, 60.0}, "flow"}},
             .see_also = {"HEATEDRH", "AIRNEEDED", "MIXEDAIR"},
             .slips = {{"the volume was taken for the mass of air",
                        "flow × (AIRENTHALPY(heated; HEATEDRH(temp; rh; heated; pressure); pressure) − "
                        "AIRENTHALPY(temp; rh; pressure)) ÷ 3600"},
                       {"the flow was taken as that of the heated air",
                        "flow ÷ AIRVOLUME(heated; HEATEDRH(temp; rh; heated; pressure); pressure) × "
                        "(AIRENTHALPY(heated; HEATEDRH(temp; rh; heated; pressure); pressure) − "
                        "AIRENTHALPY(temp; rh; pressure)) ÷ 3600"},
                       {"the relative humidity was taken as unchanged by heating",
                        "flow ÷ AIRVOLUME(temp; rh; pressure) × (AIRENTHALPY(heated; rh; pressure) − "
                        "AIRENTHALPY(temp; rh; pressure)) ÷ 3600"}}}),
        function<mixed_air>(
            {.name = "MIXEDAIR",
             .topic = topic,
             .summary = "State of two air streams mixed, such as fresh and recirculated air",
             .params = {{{"temp1", "temperature of the first stream", kTemps},
                         {"rh1", "its relative humidity"},
                         {arg::flow1, "its flow, at its own state", at_least(0)},
                         {arg::temp2, "temperature of the second stream", kTemps},
                         {"rh2", "its relative humidity"},
                         {arg::flow2, "its flow, at its own state", at_least(0)},
                         kPressure}},
             .result = "mixture",
             .range = kAirRange,
             .source = kAirSource,
             .working = "dry_air1 [kg/h] = flow1 ÷ AIRVOLUME(temp1; rh1; pressure)\n"
                        "dry_air2 [kg/h] = flow2 ÷ AIRVOLUME(temp2; rh2; pressure)\n"
                        "share2 = dry_air2 ÷ (dry_air1 + dry_air2)\n"
                        "ratio [kg/kg] = (1 − share2) × HUMIDITYRATIO(temp1; rh1; pressure) + share2 × "
                        "HUMIDITYRATIO(temp2; rh2; pressure)\n"
                        "enthalpy [kJ/kg] = (1 − share2) × AIRENTHALPY(temp1; rh1; pressure) + share2 × "
                        "AIRENTHALPY(temp2; rh2; pressure)\n"
                        ": temperature and relative humidity are those of air with this ratio and enthalpy",
             .checks = {{{32.0, 0.4, 1200.0, 12.0, 0.9, 1500.0},
                         20.6,
                         5e-3,
                         "Çengel & Boles (2011) problem 14-105: 20.6 °C (chart)",
                         "temp"},
                        {{32.0, 0.4, 1200.0, 12.0, 0.9, 1500.0},
                         0.634,
                         1e-2,
                         "Çengel & Boles (2011) problem 14-105: 63.4 % (chart)",
                         "rh"},
                        {{32.0, 0.4, 1200.0, 12.0, 0.9, 1500.0},
                         0.0096,
                         1e-2,
                         "Çengel & Boles (2011) problem 14-105: 0.0096 (chart)",
                         "ratio"},
                        {{32.0, 0.4, 1200.0, 12.0, 0.9, 1500.0},
                         45.0,
                         3e-3,
                         "Çengel & Boles (2011) problem 14-105: 45.0 kJ/kg (chart)",
                         "enthalpy"}},
             .refusals = {{{-5.0, 0.9, 1.0, 35.0, 0.95, 1.0}, ""},
                          {{25.0, 0.5, 0.0, 60.0, 0.1, 0.0}, "flow2"},
                          {{25.0, 0.5, 1.0, 105.0, 0.1, 1.0}, "temp2"}},
             .see_also = {"EXITAIR", "HEATINGLOAD"},
             .show = point_table}),
        function<air_pickup>(
            {.name = "AIRPICKUP",
             .topic = topic,
             .summary = "Water that a kilogram of dry air takes up on its way through the dryer",
             .params = {{kInlet, kRh, kExit, kPressure}},
             .result = "pickup",
             .range = kAdiabatic,
             .source = kAirSource,
             .working =
                 "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                 "wetbulb [°C] = WETBULB(temp; rh; pressure)\n"
                 "enthalpy [kJ/kg] = AIRENTHALPY(temp; rh; pressure)\n"
                 "h_water [kJ/kg] ~ water_enthalpy(wetbulb; pressure) : enthalpy of the water at the wet "
                 "bulb, by "
                 "the source\n"
                 "try pickup: the air leaves with exit_rh, with what the water brings along\n"
                 "t_exit [°C] ~ EXITAIR(temp; rh; pickup; pressure) : the temperature at which it leaves\n"
                 "enthalpy_exit [kJ/kg] = AIRENTHALPY(t_exit; exit_rh; pressure)\n"
                 "holds enthalpy + pickup × h_water = enthalpy_exit\n"
                 "ratio_exit [kg/kg] = HUMIDITYRATIO(t_exit; exit_rh; pressure)\n"
                 "pickup [kg/kg] = ratio_exit − ratio",
             .checks = {{{50.0, 0.1, 1.0}, 0.0112, 0.03, "Singh & Heldman ch. 9: 0.0112 kg/kg (chart)"},
                        {{60.0, 0.3, 0.3}, 0.0, 1e-12, "no change of humidity: nothing taken up"}},
             .refusals = {{{60.0, 0.5, 0.4}, "exit_rh"},
                          {{60.0, 10.0, 0.4}, "rh"},
                          {{105.0, 0.1, 0.4}, "temp"}},
             .see_also = {"AIRNEEDED", "EXITAIR"},
             .slips = {{"the air was taken to stay at its temperature",
                        "HUMIDITYRATIO(temp; exit_rh; pressure) − HUMIDITYRATIO(temp; rh; pressure)"},
                       {"the humidities were subtracted", "exit_rh − rh"}}}),
        function<exit_air>(
            {.name = "EXITAIR",
             .topic = topic,
             .summary = "State of the air that leaves the dryer, from the water it took up",
             .params = {{kInlet, kRh, {arg::pickup, "water taken up per kilogram of dry air"}, kPressure}},
             .result = "exit",
             .range = kAdiabatic,
             .source = kAirSource,
             .working = "ratio_in [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        "wetbulb [°C] = WETBULB(temp; rh; pressure)\n"
                        "ratio_out [kg/kg] = ratio_in + pickup\n"
                        ": the air leaves with ratio_out at the same wet bulb",
             .checks = {{{38.0, 0.1, 0.0069}, 21.0, 0.015, "Moran & Shapiro ex. 12.13: 21 °C", "temp"},
                        {{38.0, 0.1, 0.0069}, 0.71, 0.02, "Moran & Shapiro ex. 12.13: about 71 %", "rh"},
                        {{87.8, 0.0722, 0.0200},
                         0.0500,
                         0.01,
                         "Geankoplis (1993) ex. 9.3-3: 0.0300 to 0.0500 (chart); 0.0300 is 7.22 %",
                         "ratio"},
                        {{87.8, 0.0722, 0.0200},
                         42.5,
                         0.01,
                         "Geankoplis (1993) ex. 9.3-3: 42.5 °C (chart)",
                         "temp"}},
             .refusals = {{{60.0, 0.1, 0.05}, "pickup"}, {{60.0, 10.0, 0.01}, "rh"}},
             .see_also = {"AIRPICKUP", "MIXEDAIR"},
             .show = point_table}),
        function<air_needed>(
            {.name = "AIRNEEDED",
             .topic = topic,
             .summary = "Air flow at the dryer's inlet that carries the water off in time",
             .mass_in_a_unit = kAlways,
             .params = {{{arg::water, "water to evaporate", at_least(0)},
                         {arg::time, "in which time", positive},
                         kInlet,
                         kRh,
                         kExit,
                         kPressure}},
             .result = "needed",
             .range = kAdiabatic,
             .source = kAirSource,
             .caution = kHeater,
             .working = "pickup [kg/kg] = AIRPICKUP(temp; rh; exit_rh; pressure)\n"
                        "dry_air [kg/h] = water ÷ time ÷ pickup\n"
                        "needed = dry_air × AIRVOLUME(temp; rh; pressure)",
             .checks = {{{"11.2 g", 1.0, 50.0, 0.1, 1.0},
                         0.926,
                         0.03,
                         "by hand: 0.0112 kg/h ÷ 0.0112 kg/kg (Singh & Heldman ch. 9) × "
                         "0.926 m³/kg (ideal gas at 50 °C)"}},
             .refusals = {{{"7200 g", 6.0, 60.0, 0.5, 0.5}, "exit_rh"},
                          {{"7200 g", 0.0, 60.0, 0.1, 0.5}, "time"},
                          {{"7200 g", 6.0, 60.0, 12.0, 0.5}, "rh"}},
             .see_also = {"AIRPICKUP", "HEATINGLOAD"},
             .slips = {{"the mass of dry air was given, not its volume",
                        "water ÷ time ÷ AIRPICKUP(temp; rh; exit_rh; pressure)"},
                       {"the air was taken to stay at its temperature",
                        "water ÷ time ÷ (HUMIDITYRATIO(temp; exit_rh; pressure) − HUMIDITYRATIO(temp; "
                        "rh; pressure)) × AIRVOLUME(temp; rh; pressure)"},
                       {"the time was left out",
                        "water ÷ AIRPICKUP(temp; rh; exit_rh; pressure) × AIRVOLUME(temp; rh; "
                        "pressure)"}}}),
    };
}

}  // namespace drysheet
