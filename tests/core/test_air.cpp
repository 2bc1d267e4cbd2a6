// SPDX-License-Identifier: MPL-2.0
// States of moist air: the IAPWS formulation on a grid, printed tables, worked examples, inverses, refusals.
#include "drysheet/air.hpp"
#include "drysheet/moist_air.hpp"
#include "drysheet/moist_gas.hpp"
#include "drysheet/water.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::celsius;
using test::in_celsius;
using test::kpa;
using test::near;
using test::refused;

RelativeHumidity rh(double x) { return RelativeHumidity(x); }
const Pressure kSea = kpa(101.325);

// The reference grid of IAPWS G8-10: tests/reference/make_humid_air.py.
TEST(Air, AgreesWithTheIapwsFormulation) {
    int points = 0;
    for (const auto& row : test::reference("humid_air_iapws.csv", ',')) {
        if (row[0] == "p_kPa") continue;
        const auto number = [&row](std::size_t i) { return std::stod(row[i]); };
        const double p = number(0), t = number(1);
        SCOPED_TRACE(row[0] + " kPa, " + row[1] + " °C, rh " + row[2]);
        const AirState air = air_state(celsius(t), rh(number(2)), kpa(p));
        // 0.05 % is wanted; 0.02 % is reached, but where W is above 2, near boiling.
        const double share = std::max(2e-4, 1e-4 * number(3));
        EXPECT_TRUE(near(air.ratio, number(3), share));
        EXPECT_LE(std::abs(air.enthalpy.value() / 1e3 - number(4)), share * std::abs(number(4)) + 3e-4);
        EXPECT_TRUE(near(air.volume, number(5), share));
        EXPECT_NEAR(in_celsius(air.wet_bulb), number(6), 2e-3);  // 0.01 K is wanted
        ++points;
    }
    EXPECT_GE(points, 405);
}

TEST(Air, IapwsCheckValue) {
    // IAPWS G8-10 table 14: dry-air mass fraction 0.977605798 at 300 K and 0.1 MPa:
    // density 1.14614216 kg/m³ and enthalpy 83.4908383 kJ, both per moist air.
    // That air is a little more than saturated, so the test looks below the functions that refuse it.
    const double A = 0.977605798;
    const detail::Air air(300, 100e3, detail::fraction_from(1 / A - 1));
    EXPECT_TRUE(near((1 + air.W()) / air.v(), 1.14614216, 2e-5));
    EXPECT_TRUE(near(air.h() * A, 83490.8383, 5e-5));
}

TEST(Air, VirialExpansion) {
    // Virial coefficients of IAPWS G8-10 by python3-iapws 1.5.2, m³/mol and m⁶/mol². At 5 MPa, far above
    // what is asked of it, even the least of them shows.
    struct Row {
        double T, Baa, Baw, Bww, Caaa, Caaw, Caww, Cwww;
    };
    for (const auto& [T, Baa, Baw, Bww, Caaa, Caaw, Caww, Cwww] :
         {Row{300, -7.76210977082e-06, -2.95672747428e-05, -0.00120129928083, 1.8116663792e-09,
              8.01977740741e-10, -1.1555278368e-07, -4.20419196352e-06},
          Row{450, 1.02948531535e-05, -4.24270531308e-06, -0.000234705037937, 1.57150359254e-09,
              6.38680283036e-10, -1.08174283079e-08, -6.34431107599e-08}})
        for (const double p : {1e5, 5e6})
            for (const double x : {0.0, 0.05, 0.3, 0.7, 1.0}) {
                SCOPED_TRACE(testing::Message() << T << " K, " << p << " Pa, x " << x);
                const double y = 1 - x, RT = 8.314472 * T;
                const double B = y * y * Baa + 2 * x * y * Baw + x * x * Bww;
                const double C =
                    y * y * y * Caaa + 3 * x * y * y * Caaw + 3 * x * x * y * Caww + x * x * x * Cwww;
                EXPECT_TRUE(near(detail::MoistGas(T).volume(p, x), RT / p + B + (C - B * B) / RT * p, 2e-6));
            }
}

TEST(Air, IdealEnthalpyOfAir) {
    // Lemmon et al. (2000), 1 + τ φ°τ by python3-iapws 1.5.2: -1.27300443474, 0.316326592152
    // and 1.38513000088 at 200, 300 and 450 K, times 8.31451 J/(mol K) · T; differences, as its zero is
    // another.
    const auto h = [](double T) { return detail::MoistGas(T).enthalpy(1e-3, 0).h; };
    EXPECT_TRUE(near(h(300) - h(200), 8.31451 * (300 * 0.316326592152 + 200 * 1.27300443474), 1e-7));
    EXPECT_TRUE(near(h(450) - h(300), 8.31451 * (450 * 1.38513000088 - 300 * 0.316326592152), 1e-7));
}

TEST(Air, SaturatedAirTable) {
    // ASHRAE Fundamentals (2009) ch. 1 table 2, from memory to 60 °C; Ws kg/kg, vs m³/kg, hs kJ/kg. It rests
    // on the equations of Hyland & Wexler (1983), another real-gas formulation.
    struct Row {
        double t, W, v, h;
    };
    for (const auto& [t, W, v, h] : {Row{10, 0.007661, 0.8116, 29.352}, Row{20, 0.014758, 0.8498, 57.555},
                                     Row{30, 0.027329, 0.8962, 100.006}, Row{40, 0.049141, 0.9568, 166.683},
                                     Row{50, 0.086858, 1.0425, 275.345}, Row{60, 0.15354, 1.1752, 460.863}}) {
        const AirState air = air_state(celsius(t), rh(1), kSea);
        EXPECT_TRUE(near(air.ratio, W, 5e-4)) << t;
        EXPECT_TRUE(near(air.volume, v, 1e-4)) << t;
        EXPECT_TRUE(near(air.enthalpy, h * 1e3, 5e-4)) << t;
    }
    // The same table at 0 °C, over ice, to its last digits.
    EXPECT_TRUE(near(humidity_ratio(celsius(0), rh(1), kSea), 0.0037895, 5e-4));
    EXPECT_NEAR(air_enthalpy(celsius(0), rh(1), kSea).value() / 1e3, 9.473, 0.01);
    // The Engineering ToolBox, "Moist air properties" (an ideal mixture): volume of saturated air, 0.3 %, and
    // its enthalpy from 70 °C, 0.6 %.
    for (const auto& [t, v, h] :
         {std::tuple(70.0, 1.404, 806.8), {80.0, 1.879, 1537.0}, {90.0, 3.340, 3876.0}}) {
        EXPECT_TRUE(near(air_volume(celsius(t), rh(1), kSea), v, 3e-3)) << t;
        EXPECT_TRUE(near(air_enthalpy(celsius(t), rh(1), kSea), h * 1e3, 6e-3)) << t;
    }
    // Same page: dry air 0.773 m³/kg at 0 °C and 0.887 at 40 °C; enthalpy 40.2 kJ/kg at 40 °C.
    EXPECT_NEAR(air_volume(celsius(0), rh(0), kSea).value(), 0.773, 5e-4);
    EXPECT_NEAR(air_volume(celsius(40), rh(0), kSea).value(), 0.887, 5e-4);
    EXPECT_NEAR(air_enthalpy(celsius(40), rh(0), kSea).value() / 1e3, 40.2, 0.05);
}

TEST(Air, StandardAtmosphere) {
    // ISO 2533:1975 by geopotential altitude, kPa: 1000 and 2000 m as printed in the US Standard Atmosphere
    // 1976, which is the same here, the others by its formula 101.325 (1 − 0.0065 H/288.15)^5.25588 worked
    // out.
    for (const auto& [H, p] : {std::pair(-500.0, 107.478),
                               {0.0, 101.325},
                               {500.0, 95.461},
                               {1000.0, 89.875},
                               {1500.0, 84.556},
                               {2000.0, 79.495},
                               {3000.0, 70.109},
                               {5000.0, 54.020},
                               {8000.0, 35.600},
                               {10000.0, 26.436},
                               {11000.0, 22.632}})
        EXPECT_NEAR(altitude_pressure(from_si<Length>(H)).value() / 1e3, p, 1e-3) << H;
    // ASHRAE Fundamentals ch. 1 table 1 in psia, by feet; printed to 0.001 psia, worth 0.02 %.
    for (const auto& [feet, psia] : {std::pair(-1000.0, 15.236),
                                     {500.0, 14.430},
                                     {1000.0, 14.175},
                                     {2000.0, 13.664},
                                     {5000.0, 12.230},
                                     {8000.0, 10.914},
                                     {10000.0, 10.108}})
        EXPECT_TRUE(near(altitude_pressure(from_si<Length>(0.3048 * feet)), 6894.757 * psia, 2.5e-4)) << feet;
}

// A worked example: a book's state from dry and wet bulb. Books use an ideal mixture or read a chart.
TEST(Air, DryAndWetBulbExamples) {
    struct Example {
        double t, wet, p, W, humidity, tol_W, tol_rh;
        const char* source;
    };
    for (const Example& e : {
             Example{40, 20, 101.325, 0.00645364, 0.140220, 2e-4, 5e-5, "IAPWS G8-10, python3-iapws 1.5.2"},
             Example{25, 15, 101.325, 0.00656088, 0.332219, 2e-4, 1e-4, "IAPWS G8-10, python3-iapws 1.5.2"},
             Example{25, 20, 101.325, 0.0126611, 0.634950, 2e-4, 1e-4, "IAPWS G8-10, python3-iapws 1.5.2"},
             Example{40, 25.5, 101.325, 0.0148, 0.33, 0.02, 0.02, "Felder & Rousseau problem 8.72, chart"},
             Example{35, 27, 101.325, 0.0195, 0.55, 0.02, 0.01, "Felder & Rousseau problem 8.71, chart"},
             Example{60, 27.5, 101.325, 0.010, 0.08, 0.04, 0.01, "Singh & Heldman ch. 9, chart"},
             // Molal humidity 0.037 and 0.11 mol/mol: W = 0.622 times that.
             Example{37.778, 29.444, 101.325, 0.622 * 0.037, 0.545, 0.02, 0.02,
                     "Hougen, Watson & Ragatz, illustration 5.8, 100 °F and 85 °F, chart"},
             Example{48.889, 46.278, 101.325, 0.622 * 0.11, 0.86, 0.02, 0.02,
                     "Hougen, Watson & Ragatz, illustration 5.8, 120 °F and 115.3 °F, chart"},
             Example{21.5, 15, 101.325, 0.0080, 0.50, 0.02, 0.01, "engineeringprep.com problem 307, chart"},
         }) {
        const RelativeHumidity got = rh_from_wet_bulb(celsius(e.t), celsius(e.wet), kpa(e.p));
        EXPECT_NEAR(got.value(), e.humidity, e.tol_rh) << e.source;
        EXPECT_TRUE(near(humidity_ratio(celsius(e.t), got, kpa(e.p)), e.W, e.tol_W)) << e.source;
        EXPECT_NEAR(in_celsius(wet_bulb(celsius(e.t), got, kpa(e.p))), e.wet, 1e-7) << e.source;
    }
}

TEST(Air, StateExamples) {
    // Geankoplis (1993) ex. 9.3-2: 60 °C, dew point 26.7 °C: H = 0.0225 (chart), humid volume 0.977 m³/kg.
    const RelativeHumidity dewy = rh_from_dew_point(celsius(60), celsius(26.7), kSea);
    EXPECT_TRUE(near(humidity_ratio(celsius(60), dewy, kSea), 0.0225, 0.01));
    EXPECT_TRUE(near(air_volume(celsius(60), dewy, kSea), 0.977, 2e-3));
    // Treybal (1980) ill. 7.6: 55 °C, Y' = 0.030, 101.33 kPa: vapour 4662 Pa, RH 29.6 %, dew point 31.5 °C,
    // 0.974 m³/kg, 133.2 kJ/kg.
    const AirState air = air_state(
        celsius(55), relative_humidity(celsius(55), HumidityRatio(0.030), kpa(101.33)), kpa(101.33));
    EXPECT_TRUE(near(air.rh, 0.296, 1e-2));
    EXPECT_TRUE(near(air.vapour_pressure, 4662, 2e-3));
    EXPECT_NEAR(in_celsius(*air.dew_point), 31.5, 0.2);
    EXPECT_TRUE(near(air.volume, 0.974, 1e-3));
    EXPECT_TRUE(near(air.enthalpy, 133200, 3e-3));
    EXPECT_TRUE(near(air.density, 1.030 / 0.974, 1e-3));
    // Çengel & Boles ex. 14-1: 25 °C, 75 %, 100 kPa: ω = 0.0152; the rest by IAPWS, python3-iapws 1.5.2.
    EXPECT_TRUE(near(humidity_ratio(celsius(25), rh(0.75), kpa(100)), 0.0152, 5e-3));
    EXPECT_TRUE(near(air_enthalpy(celsius(25), rh(0.75), kpa(100)), 63886.4, 2e-4));
    // Çengel & Boles (2011) problem 14-105, from a chart: 32 °C 40 %: 0.0119, 62.7, 0.882; 12 °C 90 %:
    // 0.0079, 31.9, 0.819.
    EXPECT_NEAR(humidity_ratio(celsius(32), rh(0.4), kSea).value(), 0.0119, 1e-4);
    EXPECT_NEAR(air_enthalpy(celsius(32), rh(0.4), kSea).value() / 1e3, 62.7, 0.2);
    EXPECT_NEAR(air_volume(celsius(32), rh(0.4), kSea).value(), 0.882, 2e-3);
    EXPECT_NEAR(humidity_ratio(celsius(12), rh(0.9), kSea).value(), 0.0079, 1e-4);
    EXPECT_NEAR(air_enthalpy(celsius(12), rh(0.9), kSea).value() / 1e3, 31.9, 0.2);
    EXPECT_NEAR(air_volume(celsius(12), rh(0.9), kSea).value(), 0.819, 2e-3);
    // Khurmi & Gupta: 17 °C, 60 %: W = 0.00723 and dew point 9.18 °C, from tables of the ideal mixture.
    EXPECT_TRUE(near(humidity_ratio(celsius(17), rh(0.6), kSea), 0.00723, 5e-3));
    EXPECT_NEAR(in_celsius(dew_point(celsius(17), rh(0.6), kSea)), 9.18, 0.1);
    // Hougen, Watson & Ragatz, illustration 5.8: 100 °F, wet bulb 85 °F: dew point 80.5 °F.
    const RelativeHumidity hot = rh_from_wet_bulb(celsius(37.778), celsius(29.444), kSea);
    EXPECT_NEAR(in_celsius(dew_point(celsius(37.778), hot, kSea)), (80.5 - 32) / 1.8, 0.2);
    // By hand: humidity 0.03 at 100 kPa is 0.03/(0.621957 + 0.03) of it as vapour.
    const RelativeHumidity earle = relative_humidity(celsius(50), HumidityRatio(0.03), kpa(100));
    EXPECT_TRUE(near(air_state(celsius(50), earle, kpa(100)).vapour_pressure, 3000 / 0.651957, 1e-6));
}

TEST(Air, IdealMixtureIsNearButNotThis) {
    // Perfect-gas relations are off by up to 0.7 % (Kuehn et al. 1998, quoted in ASHRAE Fundamentals ch. 1),
    // and they are lower in W, by the enhancement factor of 1.004 to 1.006.
    for (double t = 0; t <= 50; t += 5) {
        const double ps = saturation_pressure(celsius(t)).value(), ideal = 0.621945 * ps / (101325 - ps);
        const double real = humidity_ratio(celsius(t), rh(1), kSea).value();
        EXPECT_GT(real / ideal, 1.003) << t;
        EXPECT_LT(real / ideal, 1.007) << t;
    }
}

TEST(Air, InversesReturn) {
    for (const double p : {30.0, 54.0, 80.0, 101.325, 120.0})
        for (double t = -40; t <= 100; t += 3.5)
            for (const double x : {0.02, 0.1, 0.33, 0.5, 0.77, 0.95, 1.0}) {
                if (t > -0.5 + in_celsius(boiling_point(kpa(p)))) continue;
                SCOPED_TRACE(testing::Message() << p << " kPa, " << t << " °C, rh " << x);
                const Temperature T = celsius(t), wet = wet_bulb(T, rh(x), kpa(p)),
                                  dew = dew_point(T, rh(x), kpa(p));
                EXPECT_TRUE(near(relative_humidity(T, humidity_ratio(T, rh(x), kpa(p)), kpa(p)), x, 1e-12));
                EXPECT_TRUE(near(rh_from_wet_bulb(T, wet, kpa(p)), x, 1e-7));
                EXPECT_TRUE(near(rh_from_dew_point(T, dew, kpa(p)), x, 1e-7));
                EXPECT_LE(dew, wet);
                EXPECT_LE(wet, T);
            }
}

TEST(Air, SaturatedAirIsAtItsWetBulbAndDewPoint) {
    for (double t = -30; t < 99; t += 4.7) {
        EXPECT_EQ(wet_bulb(celsius(t), rh(1), kSea), celsius(t));
        EXPECT_EQ(dew_point(celsius(t), rh(1), kSea), celsius(t));
        EXPECT_NEAR(rh_from_wet_bulb(celsius(t), celsius(t), kSea).value(), 1, 1e-12);
        EXPECT_EQ(rh_from_dew_point(celsius(t), celsius(t), kSea).value(), 1);
    }
}

TEST(Air, WetBulbSolvesItsEquation) {
    // h + (W_s - W) h_water = h_s, from the public functions; h_water of IAPWS-95 and IAPWS-06 at 101.325
    // kPa.
    const struct { double t, x; } points[] = {{60, 0.1}, {25, 0.5}, {-5, 0.3}, {95, 0.05}};
    for (const auto& [t, x] : points) {
        const Temperature wet = wet_bulb(celsius(t), rh(x), kSea);
        const double W = humidity_ratio(celsius(t), rh(x), kSea).value(),
                     W_s = humidity_ratio(wet, rh(1), kSea).value();
        const double h = air_enthalpy(celsius(t), rh(x), kSea).value(),
                     h_s = air_enthalpy(wet, rh(1), kSea).value();
        const double water = detail::water_enthalpy(wet.value(), 101325);
        EXPECT_NEAR(h + (W_s - W) * water, h_s, 1e-3) << t;
        EXPECT_NEAR(
            water, in_celsius(wet) < 0 ? -333.4e3 + 2.1e3 * in_celsius(wet) : 4.186e3 * in_celsius(wet), 500);
    }
}

TEST(Air, NoWetBulbBelowThatOfDryAir) {
    for (const double t : {20.0, 40.0, 80.0}) {
        const double least = in_celsius(wet_bulb(celsius(t), rh(0), kSea));
        const auto humidity = [&](double above) {
            return rh_from_wet_bulb(celsius(t), celsius(least + above), kSea).value();
        };
        EXPECT_NEAR(humidity(0), 0, 1e-9);
        EXPECT_GT(humidity(1e-4), 0);
        EXPECT_LT(humidity(1e-4), 1e-5);
        for (const double below : {1e-5, 0.5}) try {
                (void)humidity(-below);
                ADD_FAILURE() << t << " not refused, " << below << " K below";
            } catch (const BadInput& refusal) {
                EXPECT_EQ(refusal.argument(), "wetbulb");
                EXPECT_NEAR(refusal.amounts()[0].si, below, 1e-7);
                EXPECT_NEAR(refusal.amounts()[1].si, least + 273.15, 1e-7);
            }
    }
}

TEST(Air, IceBulb) {
    // Iced below the triple point: at -5 °C dry the latent heat is 2834, not 2501 kJ/kg; ASHRAE Fundamentals
    // ch. 1 eq. 37, as several public programs quote it: W = ((2830 - 0.24 t*) Ws* - 1.006 (t - t*)) / (2830
    // + 1.86 t - 2.1 t*), an ideal mixture.
    for (double t = -20; t <= -1; t += 2)
        for (const double x : {0.2, 0.5, 0.8}) {
            const double wet = in_celsius(wet_bulb(celsius(t), rh(x), kSea));
            const double W_s = humidity_ratio(celsius(wet), rh(1), kSea).value();
            const double W = ((2830 - 0.24 * wet) * W_s - 1.006 * (t - wet)) / (2830 + 1.86 * t - 2.1 * wet);
            EXPECT_NEAR(humidity_ratio(celsius(t), rh(x), kSea).value(), W, 4e-6) << t;
        }
    // Around the triple point the bulb jumps from wet to iced as the air gets drier, and never back.
    bool iced = false;
    for (double x = 0.6; x > 0.05; x -= 0.01) {
        const double wet = in_celsius(wet_bulb(celsius(6), rh(x), kSea));
        EXPECT_TRUE(!iced || wet < 0.01) << wet;
        iced = wet < 0.01;
    }
    EXPECT_TRUE(iced);
}

TEST(Air, Altitude) {
    // At 3000 m air holds more vapour per kg at the same relative humidity, about as p0/p, and its wet bulb
    // is lower.
    const Pressure high = altitude_pressure(from_si<Length>(3000));
    const double ratio = humidity_ratio(celsius(20), rh(0.5), high).value() /
                         humidity_ratio(celsius(20), rh(0.5), kSea).value();
    EXPECT_NEAR(ratio, 101.325 / 70.109, 0.01);
    EXPECT_LT(wet_bulb(celsius(40), rh(0.2), high), wet_bulb(celsius(40), rh(0.2), kSea));
    // ASHRAE Chart No. 4 and 5 rest on this: same dew point over the range, within 0.03 K (enhancement only).
    EXPECT_NEAR(in_celsius(dew_point(celsius(20), rh(0.5), high)),
                in_celsius(dew_point(celsius(20), rh(0.5), kSea)), 0.03);
}

TEST(Air, Limits) {
    // Without vapour: h is cp t with cp about 1.006 kJ/(kg K), v that of dry air (R = 287.05, 0.06 % for a
    // real gas).
    for (double t = -40; t <= 95; t += 15) {
        EXPECT_EQ(humidity_ratio(celsius(t), rh(0), kSea).value(), 0);
        EXPECT_NEAR(air_enthalpy(celsius(t), rh(0), kSea).value(), 1006 * t, 5 + 2.0 * std::abs(t));
        EXPECT_TRUE(near(air_volume(celsius(t), rh(0), kSea), 287.055 * (t + 273.15) / 101325, 1.4e-3)) << t;
    }
    EXPECT_NEAR(air_enthalpy(celsius(0), rh(0), kSea).value(), 0, 1);  // the zero of the scale, J/kg
    EXPECT_FALSE(air_state(celsius(20), rh(0), kSea).dew_point.has_value());
}

TEST(Air, Refusals) {
    EXPECT_EQ(bad_input([] { return humidity_ratio(celsius(101), rh(0.1), kSea); }), "temp");
    EXPECT_EQ(bad_input([] { return air_enthalpy(celsius(95), rh(0.1), kpa(80)); }), "temp");
    EXPECT_NO_THROW(humidity_ratio(celsius(99.9), rh(0.1), kSea));
    EXPECT_NO_THROW(humidity_ratio(celsius(-80), rh(0.1), kSea));  // the ends of the range belong to it
    EXPECT_EQ(bad_input([] { return relative_humidity(celsius(20), HumidityRatio(0.016), kSea); }), "ratio");
    EXPECT_EQ(bad_input([] { return rh_from_wet_bulb(celsius(20), celsius(21), kSea); }), "wetbulb");
    EXPECT_EQ(bad_input([] { return rh_from_wet_bulb(celsius(40), celsius(5), kSea); }), "wetbulb");
    EXPECT_EQ(bad_input([] { return rh_from_dew_point(celsius(20), celsius(21), kSea); }), "dewpoint");
    EXPECT_EQ(bad_input([] { return dew_point(celsius(20), rh(0), kSea); }), "rh");
    EXPECT_EQ(refused<OutOfRange>([] { return dew_point(celsius(-70), rh(0.01), kSea); }), "rh");
    EXPECT_EQ(refused<OutOfRange>([] { return wet_bulb(celsius(20), rh(0.5), kpa(20)); }), "pressure");
    EXPECT_EQ(refused<OutOfRange>([] { return wet_bulb(celsius(20), rh(0.5), kpa(1013)); }), "pressure");
    for (const double p : {29.9, 120.1})
        EXPECT_EQ(refused<OutOfRange>([p] { return wet_bulb(celsius(20), rh(0.5), kpa(p)); }), "pressure")
            << p;
    for (const double p : {30.0, 120.0}) EXPECT_NO_THROW((void)wet_bulb(celsius(20), rh(0.5), kpa(p))) << p;
    EXPECT_EQ(refused<OutOfRange>([] { return humidity_ratio(celsius(-90), rh(0.5), kSea); }), "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return humidity_ratio(celsius(std::nan("")), rh(0.5), kSea); }),
              "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return altitude_pressure(from_si<Length>(12000)); }), "altitude");
}

TEST(Air, RefusalsSayByHowMuch) {
    try {
        (void)humidity_ratio(celsius(110), rh(0.1), kSea);
        FAIL();
    } catch (const BadInput& refusal) {
        // Boiling at 101.325 kPa: 373.1243 K (IAPWS SR1-86 table 1), 10.03 K lower.
        ASSERT_EQ(refusal.amounts().size(), 3U);
        EXPECT_NEAR(refusal.amounts()[0].si, 383.15 - 373.1243, 1e-3);
        EXPECT_NEAR(refusal.amounts()[1].si, 373.1243, 1e-3);
    }
    try {
        (void)relative_humidity(celsius(20), HumidityRatio(0.016), kSea);
        FAIL();
    } catch (const BadInput& refusal) {
        EXPECT_NEAR(refusal.amounts()[0].si, 0.016 - 0.0147625, 3e-6);  // IAPWS, humid_air_iapws.csv
        EXPECT_NEAR(refusal.amounts()[1].si, 0.0147625, 3e-6);
    }
}

}  // namespace
}  // namespace drysheet
