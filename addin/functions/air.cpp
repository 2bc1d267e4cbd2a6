// SPDX-License-Identifier: MPL-2.0
#include "drysheet/air.hpp"

#include "addin/functions/air_words.hpp"
#include "addin/functions/topics.hpp"
#include "drysheet/water.hpp"

namespace drysheet {
// Lines that several workings share: the enhancement factor of saturated air, and the enthalpy of water
// beside air.
#define ENHANCEMENT                                                                                      \
    "HUMIDITYRATIO(temp; 1; pressure) ÷ (18.015268 ÷ 28.96546 + HUMIDITYRATIO(temp; 1; pressure)) × " \
    "pressure ÷ ps : enhancement of saturated air: x = f × ps ÷ pressure satisfies x φ(x, p) p = "   \
    "ps φ(1, ps) exp(v (p − ps) ÷ (R T)), by trial, with the virial coefficients of the source"
#define WATER_AT "water_enthalpy("
#define WATER_IS "; pressure) : enthalpy of the water (ice) there, by the source"

namespace {

constexpr std::string_view kWetRange =
    "30 to 120 kPa, from -80 °C to the boiling point at that pressure. The wet bulb is thermodynamic "
    "(adiabatic saturation), iced below 0.01 °C.";

Outcome state_table(const AirState& air) {
    using Shown = std::variant<Amount, Told>;
    return quantities({{"temp", amount(air.temp)},
                       {"rh", amount(air.rh)},
                       {"ratio", amount(air.ratio)},
                       {"enthalpy", amount(air.enthalpy)},
                       {"wet bulb", amount(air.wet_bulb)},
                       {"dew point", air.dew_point ? Shown(amount(*air.dew_point)) : Shown(Sentence("none"))},
                       {"volume", amount(air.volume)},
                       {"density", amount(air.density)},
                       {"vapour pressure", amount(air.vapour_pressure)},
                       {"saturation pressure", amount(air.saturation_pressure)}});
}

}  // namespace

std::vector<Function> air_entries() {
    constexpr std::string_view topic = "air";
    return {
        function<saturation_pressure>(
            {.name = "SATPRESSURE",
             .topic = topic,
             .summary = "Vapour pressure of water at saturation, over ice below 0.01 °C",
             .params = {{{arg::temp, "temperature", within(-100, 373)}}},
             .result = "pressure",
             .source = "IAPWS SR1-86(1992) eq. 1 (Wagner & Pruss 1993) over water; IAPWS R14-08(2011) eq. 6 "
                       "over ice.",
             .working = "T [K] = temp + 273.15\n"
                        "if temp > 0.01: theta = 1 − T ÷ 647.096\n"
                        "if temp > 0.01: pressure = 22064 × exp(647.096 ÷ T × (−7.85951783 × theta + "
                        "1.84408259 × theta^1.5 − 11.7866497 × theta^3 + 22.6807411 × theta^3.5 − 15.9618719 "
                        "× theta^4 + 1.80122502 × theta^7.5))\n"
                        "if temp ≤ 0.01: theta = T ÷ 273.16\n"
                        "if temp ≤ 0.01: pressure = 0.611657 × exp((−21.2144006 × theta^0.00333333333 + "
                        "27.3203819 × theta^1.20666667 − 6.10598130 × theta^1.70333333) ÷ theta)",
             .checks =
                 {{{0.01}, 0.611657, 1e-6, "IAPWS SR1-86 table 1: 611.657 Pa at 273.16 K"},
                  {{"373.1243 K"}, 101.325, 1e-5, "IAPWS SR1-86 table 1: 101.325 kPa at 373.1243 K"},
                  {{"230 K"}, 0.00894735, 1e-6, "IAPWS R14-08 table 3: 8.94735 Pa at 230 K"},
                  {{"275 K"}, 0.698451167, 1e-4, "IAPWS R6-95 table 8: 0.698451167 kPa at 275 K"},
                  {{20.0}, 2.3393, 1e-4, "Engineering Toolbox, Water - heat of vaporization: 2.3393 kPa"}},
             .refusals = {{{400.0}, "temp"}, {{"40 g"}, "temp"}, {{-120.0}, "temp"}},
             .see_also = {"HUMIDITYRATIO", "DEWPOINT"}}),
        function<altitude_pressure>(
            {.name = "ALTITUDEPRESSURE",
             .topic = topic,
             .summary = "Air pressure of the standard atmosphere at an altitude",
             .params = {{{arg::altitude, "height above the sea", within(-2000, 11000), "m"}}},
             .result = "pressure",
             .range = "-2000 to 11000 m, taken as geopotential altitude (0.02 % of pressure at 3000 m). The "
                      "weather moves the true pressure by 2 to 3 %; a barometer's reading not reduced to sea "
                      "level is better.",
             .source = "ISO 2533:1975 Standard atmosphere.",
             .working =
                 "pressure = 101.325 × (1 − 0.0065 × altitude ÷ 288.15)^(9.80665 ÷ (0.0065 × 287.05287))",
             .checks =
                 {{{0.0}, 101.325, 1e-12, "ISO 2533: 101.325 kPa at sea level"},
                  {{1000.0},
                   89.875,
                   2e-5,
                   "US Standard Atmosphere 1976, the same as ISO 2533 here: 89.875 kPa"},
                  {{"5000 ft"}, 84.323, 2e-4, "ASHRAE Fundamentals ch. 1 table 1: 12.230 psia"},
                  {{3000.0},
                   70.108,
                   2e-5,
                   "by hand, ASHRAE Fundamentals ch. 1 eq. 3: 101.325 × (1 − 2.25577e-5 × 3000)^5.2559"}},
             .refusals = {{{12000.0}, "altitude"}, {{"20 °C"}, "altitude"}},
             .see_also = {"HUMIDITYRATIO"}}),
        function<humidity_ratio>(
            {.name = "HUMIDITYRATIO",
             .topic = topic,
             .summary = "Humidity ratio: water vapour per kilogram of dry air",
             .params = {{kTemp, kRh, kPressure}},
             .result = "ratio",
             .range = kAirRange,
             .source = kAirSource,
             .working = "ps [kPa] = SATPRESSURE(temp)\n"
                        "f ~ " ENHANCEMENT "\n"
                        "x = rh × f × ps ÷ pressure\n"
                        "ratio [kg/kg] = 18.015268 ÷ 28.96546 × x ÷ (1 − x)",
             .checks =
                 {{{20.0, 1.0}, 0.0147625, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                  {{60.0, 1.0}, 0.153562, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                  {{25.0, 0.75, 100.0}, 0.0152, 5e-3, "Çengel & Boles ex. 14-1: 0.0152"},
                  {{32.0, "40 %"}, 0.0119, 6e-3, "Çengel & Boles (2011) problem 14-105: 0.0119 (chart)"},
                  {{-10.0, 1.0}, 0.00160629, 5e-4, "python3-iapws, IAPWS G8-10"}},
             .refusals = {{{110.0, 0.1}, "temp"}, {{25.0, 60.0}, "rh"}, {{25.0, 0.6, 1013.0}, "pressure"}},
             .see_also = {"RELHUMIDITY", "AIRSTATE", "ALTITUDEPRESSURE"},
             .slips = {{"the vapour pressure was not taken off the pressure below the line",
                        "0.621945 × rh × SATPRESSURE(temp) ÷ pressure"},
                       {"the molar ratio was left out",
                        "rh × SATPRESSURE(temp) ÷ (pressure − rh × SATPRESSURE(temp))"},
                       {"the relative humidity was left out", "HUMIDITYRATIO(temp; 1; pressure)"}}}),
        function<relative_humidity>(
            {.name = "RELHUMIDITY",
             .topic = topic,
             .summary = "Relative humidity of air from its humidity ratio",
             .params = {{kTemp, {arg::ratio, "its humidity ratio"}, kPressure}},
             .result = "rh",
             .range = kAirRange,
             .source = kAirSource,
             .working = "ps [kPa] = SATPRESSURE(temp)\n"
                        "f ~ " ENHANCEMENT "\n"
                        "x_s = f × ps ÷ pressure\n"
                        "x = ratio ÷ (18.015268 ÷ 28.96546 + ratio)\n"
                        "rh = x ÷ x_s",
             .checks = {{{55.0, 0.030, 101.33}, 0.296, 1e-2, "Treybal (1980) ill. 7.6: 29.6 %"},
                        {{30.0, "16.11895 g/kg"}, 0.6, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"}},
             .refusals = {{{20.0, 0.016}, "ratio"}, {{20.0, -0.001}, "ratio"}, {{101.0, 0.01}, "temp"}},
             .see_also = {"HUMIDITYRATIO"},
             .slips = {{"the ratio was divided by that of saturated air",
                        "ratio ÷ HUMIDITYRATIO(temp; 1; pressure)"}}}),
        function<rh_from_wet_bulb>(
            {.name = "RHFROMWETBULB",
             .topic = topic,
             .summary = "Relative humidity from a dry and a wet bulb",
             .params = {{kTemp, {arg::wetbulb, "wet bulb, well ventilated", kTemps}, kPressure}},
             .result = "rh",
             .range = kWetRange,
             .source = kAirSource,
             .working = "ratio_s [kg/kg] = HUMIDITYRATIO(wetbulb; 1; pressure)\n"
                        "enthalpy_s [kJ/kg] = AIRENTHALPY(wetbulb; 1; pressure)\n"
                        "h_water [kJ/kg] ~ " WATER_AT "wetbulb" WATER_IS "\n"
                        "try rh: the air that water of the wet bulb brings to saturation there\n"
                        "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        "enthalpy [kJ/kg] = AIRENTHALPY(temp; rh; pressure)\n"
                        "holds enthalpy + (ratio_s − ratio) × h_water = enthalpy_s",
             .checks = {{{25.0, 15.0}, 0.332219, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                        {{35.0, 27.0}, 0.55, 0.02, "Felder & Rousseau problem 8.71: 55 % (chart)"},
                        {{40.0, 20.0}, 0.14022, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                        {{-5.0, -6.7973602}, 0.6, 1e-4, "python3-iapws, IAPWS G8-10, iced bulb"}},
             .refusals = {{{20.0, 21.0}, "wetbulb"}, {{40.0, 5.0}, "wetbulb"}, {{105.0, 40.0}, "temp"}},
             .see_also = {"WETBULB", "RHFROMDEWPOINT"},
             .slips = {{"the wet bulb was taken for the dew point",
                        "RHFROMDEWPOINT(temp; wetbulb; pressure)"},
                       {"the temperatures were divided", "wetbulb ÷ temp"}}}),
        function<rh_from_dew_point>(
            {.name = "RHFROMDEWPOINT",
             .topic = topic,
             .summary = "Relative humidity from temperature and dew point",
             .params =
                 {{kTemp, {arg::dewpoint, "its dew point, frost point below 0.01 °C", kTemps}, kPressure}},
             .result = "rh",
             .range = kAirRange,
             .source = kAirSource,
             .working = "ratio [kg/kg] = HUMIDITYRATIO(dewpoint; 1; pressure)\n"
                        "rh = RELHUMIDITY(temp; ratio; pressure)",
             .checks =
                 {{{55.0, 31.5, 101.33}, 0.296, 0.015, "Treybal (1980) ill. 7.6: dew point 31.5 °C, 29.6 %"},
                  {{17.0, 9.18}, 0.6, 5e-3, "Khurmi & Gupta: 17 °C, 60 %, dew point 9.18 °C"}},
             .refusals = {{{20.0, 21.0}, "dewpoint"}, {{20.0, "5 g"}, "dewpoint"}},
             .see_also = {"DEWPOINT", "RHFROMWETBULB"},
             .slips = {{"the dew point was taken for the wet bulb",
                        "RHFROMWETBULB(temp; dewpoint; pressure)"},
                       {"the temperatures were divided", "dewpoint ÷ temp"}}}),
        function<dew_point>(
            {.name = "DEWPOINT",
             .topic = topic,
             .summary = "Dew point of air, frost point below 0.01 °C",
             .params = {{kTemp, kRh, kPressure}},
             .result = "dewpoint",
             .range = kAirRange,
             .source = kAirSource,
             .working = "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        "try dewpoint: saturated air holds this ratio at the dew point\n"
                        "holds HUMIDITYRATIO(dewpoint; 1; pressure) = ratio",
             .checks = {{{55.0, 0.296, 101.33}, 31.5, 6e-3, "Treybal (1980) ill. 7.6: 31.5 °C"},
                        {{17.0, 0.6}, 9.18, 1e-2, "Khurmi & Gupta: 9.18 °C"},
                        {{30.0, 1.0}, 30.0, 1e-12, "by definition: saturated air is at its dew point"}},
             .refusals = {{{20.0, 0.0}, "rh"}, {{20.0, 60.0}, "rh"}, {{120.0, 0.1}, "temp"}},
             .see_also = {"RHFROMDEWPOINT", "WETBULB"},
             .slips = {{"the wet bulb was given", "WETBULB(temp; rh; pressure)"},
                       {"the temperature was multiplied by the humidity", "temp × rh"}}}),
        function<wet_bulb>(
            {.name = "WETBULB",
             .topic = topic,
             .summary = "Wet bulb: how warm a wet product stays in this air, and the coldest it can get",
             .params = {{kTemp, kRh, kPressure}},
             .result = "wetbulb",
             .range = kWetRange,
             .source = kAirSource,
             .working = "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        "enthalpy [kJ/kg] = AIRENTHALPY(temp; rh; pressure)\n"
                        "try wetbulb: water of the wet bulb brings the air to saturation there\n"
                        "ratio_s [kg/kg] = HUMIDITYRATIO(wetbulb; 1; pressure)\n"
                        "enthalpy_s [kJ/kg] = AIRENTHALPY(wetbulb; 1; pressure)\n"
                        "h_water [kJ/kg] ~ " WATER_AT "wetbulb" WATER_IS "\n"
                        "holds enthalpy + (ratio_s − ratio) × h_water = enthalpy_s",
             .checks =
                 {{{25.0, 0.332219}, 15.0, 1e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                  {{"95 °F", 0.2, "14.7 psi"}, 18.89, 0.015, "Çengel & Boles ex. 14-7: 66.0 °F (chart)"},
                  {{60.0, 0.2}, 34.9261869, 1e-4, "python3-iapws, IAPWS G8-10"},
                  {{-5.0, 0.6}, -6.7973602, 1e-4, "python3-iapws, IAPWS G8-10, iced bulb"}},
             .refusals = {{{20.0, 60.0}, "rh"}, {{110.0, 0.1}, "temp"}, {{20.0, 0.5, 20.0}, "pressure"}},
             .see_also = {"RHFROMWETBULB", "AIRPICKUP"},
             .slips = {{"the dew point was given", "DEWPOINT(temp; rh; pressure)"},
                       {"the temperature was multiplied by the humidity", "temp × rh"}}}),
        function<air_enthalpy>(
            {.name = "AIRENTHALPY",
             .topic = topic,
             .summary = "Enthalpy of moist air per kilogram of dry air",
             .params = {{kTemp, kRh, kPressure}},
             .result = "enthalpy",
             .range = kAirRange,
             .source = kAirSource,
             .working =
                 "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                 "ideal [kJ/kg] = 1.006 × temp + ratio × (2501 + 1.86 × temp)\n"
                 "departure [kJ/kg] ~ itself − ideal : of the real mixture from the ideal one, by the virial "
                 "coefficients of the source\n"
                 "enthalpy [kJ/kg] = ideal + departure",
             .checks = {{{20.0, 1.0}, 57.5628, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                        {{60.0, 1.0}, 460.918, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                        {{12.0, 0.9}, 31.9, 6e-3, "Çengel & Boles (2011) problem 14-105: 31.9 (chart)"},
                        {{0.0, 0.0}, 0.0, 1e-3, "the zero of the scale: dry air at 0 °C"}},
             .refusals = {{{20.0, 60.0}, "rh"}, {{110.0, 0.1}, "temp"}},
             .see_also = {"HEATINGLOAD", "AIRSTATE"},
             .slips = {{"the water vapour was left out", "1.006 × temp"},
                       {"the heat of evaporation was left out",
                        "1.006 × temp + HUMIDITYRATIO(temp; rh; pressure) × 1.86 × temp"},
                       {"the air was taken as saturated", "AIRENTHALPY(temp; 1; pressure)"}}}),
        function<air_volume>(
            {.name = "AIRVOLUME",
             .topic = topic,
             .summary = "Volume of moist air per kilogram of dry air",
             .params = {{kTemp, kRh, kPressure}},
             .result = "volume",
             .range = kAirRange,
             .source = kAirSource,
             .working =
                 "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                 "ideal [m³/kg] = 0.287055 × (temp + 273.15) × (1 + 28.96546 ÷ 18.015268 × ratio) ÷ "
                 "pressure\n"
                 "Z ~ itself ÷ ideal : compressibility 1 + B p ÷ (R T) + (C − B²) p² ÷ (R T)², by the virial "
                 "coefficients of the source\n"
                 "volume [m³/kg] = Z × ideal",
             .checks = {{{20.0, 1.0}, 0.8498095, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                        {{60.0, 1.0}, 1.175216, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"},
                        {{0.0, 0.0}, 0.773, 7e-4, "The Engineering ToolBox, Moist air properties: 0.773"}},
             .refusals = {{{20.0, 60.0}, "rh"}, {{110.0, 0.1}, "temp"}},
             .see_also = {"AIRDENSITY"},
             .slips = {{"the water vapour was left out", "AIRVOLUME(temp; 0; pressure)"},
                       {"the volume of a kilogram of moist air was given",
                        "1 ÷ AIRDENSITY(temp; rh; pressure)"}}}),
        function<air_density>(
            {.name = "AIRDENSITY",
             .topic = topic,
             .summary = "Density of moist air",
             .params = {{kTemp, kRh, kPressure}},
             .result = "density",
             .range = kAirRange,
             .source = kAirSource,
             .working = "volume [m³/kg] = AIRVOLUME(temp; rh; pressure)\n"
                        "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        "density = (1 + ratio) ÷ volume",
             .checks =
                 {{{60.0, 1.0}, 0.981575, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2: 1.153562 ÷ 1.175216"},
                  {{20.0, 0.0}, 1.204575, 2e-4, "IAPWS G8-10 by python3-iapws 1.5.2"}},
             .refusals = {{{20.0, 60.0}, "rh"}, {{110.0, 0.1}, "temp"}},
             .see_also = {"AIRVOLUME"},
             .slips = {{"the water vapour was left out", "AIRDENSITY(temp; 0; pressure)"},
                       {"the mass of the dry air alone was given", "1 ÷ AIRVOLUME(temp; rh; pressure)"}}}),
        function<air_state>(
            {.name = "AIRSTATE",
             .topic = topic,
             .summary = "Every property of moist air, with its unit",
             .params = {{kTemp, kRh, kPressure}},
             .result = "state",
             .range = kWetRange,
             .source = kAirSource,
             .working = "ratio [kg/kg] = HUMIDITYRATIO(temp; rh; pressure)\n"
                        "enthalpy [kJ/kg] = AIRENTHALPY(temp; rh; pressure)\n"
                        "volume [m³/kg] = AIRVOLUME(temp; rh; pressure)\n"
                        "density [kg/m³] = (1 + ratio) ÷ volume\n"
                        "vapour_pressure [kPa] = ratio ÷ (18.015268 ÷ 28.96546 + ratio) × pressure\n"
                        ": wet bulb and dew point as DRY.WORKING shows for DRY.WETBULB and DRY.DEWPOINT",
             .checks =
                 {{{55.0, 0.296, 101.33}, 0.030, 7e-3, "Treybal (1980) ill. 7.6: Y' = 0.030", "ratio"},
                  {{55.0, 0.296, 101.33}, 4.662, 7e-3, "Treybal (1980) ill. 7.6: 4662 Pa", "vapour pressure"},
                  {{55.0, 0.296, 101.33}, 31.5, 6e-3, "Treybal (1980) ill. 7.6: 31.5 °C", "dew point"},
                  {{55.0, 0.296, 101.33}, 0.974, 2e-3, "Treybal (1980) ill. 7.6: 0.974 m³/kg", "volume"},
                  {{55.0, 0.296, 101.33}, 133.2, 6e-3, "Treybal (1980) ill. 7.6: 133.2 kJ/kg", "enthalpy"},
                  {{40.0, 1.0},
                   7.385,
                   1e-4,
                   "steam tables (IAPWS-95): 7.385 kPa at 40 °C",
                   "saturation pressure"},
                  {{20.0, 0.0}, "none", 0, "air without vapour has no dew point", "dew point"}},
             .refusals = {{{20.0, 60.0}, "rh"}, {{110.0, 0.1}, "temp"}},
             .see_also = {"HUMIDITYRATIO", "WETBULB", "DEWPOINT"},
             .show = state_table}),
    };
}

}  // namespace drysheet
