// SPDX-License-Identifier: MPL-2.0
// Water by itself, against the check values of the IAPWS releases and printed steam tables.
#include "drysheet/water.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::near;
using test::refused;

Temperature kelvin(double T) { return from_si<Temperature>(T); }
Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }

TEST(Water, SaturationOverLiquid) {
    // IAPWS SR1-86(1992) table 1.
    EXPECT_TRUE(near(saturation_pressure(kelvin(273.16)), 611.657, 1e-6));
    EXPECT_TRUE(near(saturation_pressure(kelvin(373.1243)), 101325, 1e-5));
    // IAPWS R6-95(2018) table 8: another equation, hence the tolerance.
    EXPECT_TRUE(near(saturation_pressure(kelvin(275)), 698.451167, 1e-4));
    EXPECT_TRUE(near(saturation_pressure(kelvin(450)), 932203.564, 1e-4));
    // IAPWS R7-97(2012) table 35. SR1-86 is uncertain by 0.02 % there.
    EXPECT_TRUE(near(saturation_pressure(kelvin(300)), 3536.58941, 1e-4));
    EXPECT_TRUE(near(saturation_pressure(kelvin(500)), 2638897.76, 2e-4));
    EXPECT_TRUE(near(saturation_pressure(kelvin(600)), 12344314.6, 1e-4));
}

TEST(Water, SaturationOverIce) {
    // IAPWS R14-08(2011) table 3.
    EXPECT_TRUE(near(saturation_pressure(kelvin(230)), 8.94735, 1e-6));
    // Hyland & Wexler (1983) eq. for ice, as printed with its coefficients in ASHRAE Fundamentals (2009)
    // ch. 1.
    EXPECT_TRUE(near(saturation_pressure(celsius(-40)), 12.8452, 5e-4));
    EXPECT_TRUE(near(saturation_pressure(celsius(-20)), 103.2604, 5e-4));
    EXPECT_TRUE(near(saturation_pressure(celsius(-10)), 259.9029, 5e-4));
    // Both branches meet at the triple point, 611.657 Pa (R14-08).
    EXPECT_TRUE(near(saturation_pressure(kelvin(273.16 - 1e-9)), 611.657, 1e-6));
}

TEST(Water, RivalSaturationEquationAgrees) {
    // Hyland & Wexler (1983), liquid: values of the equation in ASHRAE Fundamentals (2009) ch. 1; within 0.03
    // %.
    for (const auto& [t, p] : {std::pair(20.0, 2338.8037),
                               {25.0, 3169.2165},
                               {40.0, 7383.46},
                               {60.0, 19943.7606},
                               {80.0, 47411.6115},
                               {100.0, 101418.7168},
                               {120.0, 198685.1571}})
        EXPECT_TRUE(near(saturation_pressure(celsius(t)), p, 3e-4)) << t;
}

TEST(Water, BoilingPoint) {
    // IAPWS R7-97(2012) table 36.
    EXPECT_NEAR(boiling_point(from_si<Pressure>(0.1e6)).value(), 372.755919, 2e-3);
    EXPECT_NEAR(boiling_point(from_si<Pressure>(1e6)).value(), 453.035632, 1e-2);
    EXPECT_NEAR(boiling_point(from_si<Pressure>(10e6)).value(), 584.149488, 5e-3);
    for (double t = -60; t < 350; t += 13)
        EXPECT_NEAR(boiling_point(saturation_pressure(celsius(t))).value(), t + 273.15, 1e-8);
}

TEST(Water, LatentHeat) {
    // IAPWS R6-95(2018) table 8: h'' - h' at 275 K.
    EXPECT_TRUE(near(latent_heat(kelvin(275)), 2496530.23, 5e-6));
    // Printed steam tables on IAPWS-95 (Wagner & Pruss 2002), to 0.1 kJ/kg.
    for (const auto& [t, kilojoules] : {std::pair(0.01, 2500.9),
                                        {2.0, 2496.2},
                                        {4.0, 2491.4},
                                        {10.0, 2477.2},
                                        {14.0, 2467.7},
                                        {18.0, 2458.3}})
        EXPECT_NEAR(latent_heat(celsius(t)).value() / 1e3, kilojoules, 0.05 + 1e-2) << t;
    // Çengel & Boles, table A-4.
    for (const auto& [t, kilojoules] : {std::pair(15.0, 2465.4), {20.0, 2453.5}, {25.0, 2441.7}})
        EXPECT_NEAR(latent_heat(celsius(t)).value() / 1e3, kilojoules, 0.15) << t;
    // IAPWS-95 by python3-iapws 1.5.2: what the range says.
    for (const auto& [t, kilojoules] : {std::pair(40.0, 2405.977),
                                        {60.0, 2357.655},
                                        {80.0, 2308.004},
                                        {90.0, 2282.491},
                                        {100.0, 2256.404},
                                        {110.0, 2229.646},
                                        {120.0, 2202.114},
                                        {130.0, 2173.698},
                                        {140.0, 2144.281},
                                        {145.0, 2129.161},
                                        {150.0, 2113.746}})
        EXPECT_NEAR(latent_heat(celsius(t)).value() / 1e3, kilojoules, t <= 120 ? 0.15 : 0.5) << t;
    // Sublimation: vapour of IAPWS-95, ice of IAPWS-06 at 101.325 kPa, by python3-iapws 1.5.2.
    EXPECT_NEAR(latent_heat(celsius(-1e-3)).value() / 1e3, 2834.257, 0.005);
    EXPECT_NEAR(latent_heat(celsius(-10)).value() / 1e3, 2836.518, 0.005);
    EXPECT_NEAR(latent_heat(celsius(-20)).value() / 1e3, 2837.961, 0.005);
}

TEST(Water, LatentHeatAgreesWithClapeyron) {
    // L = T (v'' - v') dp/dT with an ideal vapour: within 0.3 % below 40 °C, over ice and over water.
    for (double t = -58; t <= 40; t += 5) {
        const double T = t + 273.15;
        const auto s = detail::saturation(T);
        EXPECT_TRUE(near(latent_heat(kelvin(T)), 461.518 * T * T * s.dlnp_dT, 3e-3)) << t;
    }
}

TEST(Water, CondensedPhases) {
    // IAPWS R10-06(2009) table 6: ice at 273.152519 K and 101.325 kPa, h = u + p/ρ with u = -333.465403393
    // kJ/kg.
    EXPECT_NEAR(detail::condensed(273.152519).h, -333465.403393 + 101325 / 916.721463419, 1);
    // IAPWS R6-95(2018) table 8: h' at 275 K; and at 450 K.
    EXPECT_NEAR(detail::condensed(275).h, 7759.72201, 2);
    EXPECT_NEAR(detail::condensed(450).h, 749161.585, 80);
    // IAPWS-95 by python3-iapws 1.5.2.
    EXPECT_TRUE(near(1 / detail::condensed(293.15).v, 998.1618, 2e-5));
    EXPECT_TRUE(near(1 / detail::condensed(353.15).v, 971.7662, 2e-5));
}

TEST(Water, IdealVapour) {
    // IAPWS R6-95(2018) table 6: φ°τ = 9.04611106 at 500 K; h°/(R T) = 1 + τ φ°τ, R = 0.46151805 kJ/(kg K),
    // M = 18.015268 g/mol.
    const double tau = 647.096 / 500, molar_gas_constant = 461.51805 * 18.015268e-3;
    EXPECT_TRUE(
        near(detail::ideal_vapour_enthalpy(500), molar_gas_constant * 500 * (1 + tau * 9.04611106), 1e-9));
}

TEST(Water, Refusals) {
    // The ends of a range belong to it.
    EXPECT_NO_THROW(saturation_pressure(celsius(-100)));
    EXPECT_NO_THROW(latent_heat(celsius(-80)));
    EXPECT_NO_THROW(latent_heat(celsius(150)));
    EXPECT_EQ(refused<OutOfRange>([] { return saturation_pressure(celsius(-101)); }), "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return saturation_pressure(celsius(374)); }), "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return saturation_pressure(celsius(std::nan(""))); }), "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return latent_heat(celsius(-81)); }), "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return latent_heat(celsius(151)); }), "temp");
    EXPECT_EQ(refused<OutOfRange>([] { return boiling_point(from_si<Pressure>(0)); }), "pressure");
    EXPECT_EQ(refused<OutOfRange>([] { return boiling_point(from_si<Pressure>(21e6)); }), "pressure");
}

}  // namespace
}  // namespace drysheet
