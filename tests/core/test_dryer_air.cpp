// SPDX-License-Identifier: MPL-2.0
// What a dryer does with air: worked examples of handbooks, and balances that close.
#include "drysheet/air.hpp"
#include "drysheet/moist_air.hpp"
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
VolumeFlow m3_per_s(double x) { return from_si<VolumeFlow>(x); }
const Pressure kSea = kpa(101.325);

TEST(DryerAir, Heating) {
    // IAPWS G8-10 by python3-iapws 1.5.2, with the functions of make_humid_air.py, here and where it says so.
    EXPECT_TRUE(near(heating_load(m3_per_s(10), celsius(2), rh(1), celsius(40), kSea), 491381, 4e-4));
    // Singh & Heldman ch. 9: 10 m³/s at 30 °C, 80 % to 80 °C: 140 - 85.2 kJ/kg at 0.89 m³/kg; leaves at 7 %
    // (chart).
    EXPECT_TRUE(near(heating_load(m3_per_s(10), celsius(30), rh(0.8), celsius(80), kSea),
                     10 / 0.89 * (140 - 85.2) * 1e3, 0.06));
    EXPECT_NEAR(heated_rh(celsius(30), rh(0.8), celsius(80), kSea).value(), 0.07, 5e-3);
    // Air of 25 °C with a wet bulb of 20 °C, of 10 °C and 80 %, of 10 °C and 30 % at 100 kPa: IAPWS.
    const RelativeHumidity room = rh_from_wet_bulb(celsius(25), celsius(20), kSea);
    EXPECT_TRUE(near(heated_rh(celsius(25), room, celsius(40), kSea), 0.272400, 2e-4));
    EXPECT_TRUE(near(heating_load(m3_per_s(1104 * 0.862 / 3600), celsius(25), room, celsius(40), kSea),
                     4743.07, 4e-4));
    EXPECT_TRUE(near(heating_load(m3_per_s(2.5), celsius(10), rh(0.8), celsius(30), kSea), 62848, 4e-4));
    EXPECT_TRUE(near(heated_rh(celsius(10), rh(0.8), celsius(30), kSea), 0.231272, 2e-4));
    EXPECT_TRUE(
        near(heating_load(m3_per_s(0.75), celsius(10), rh(0.3), celsius(22), kpa(100)), 11151.6, 4e-4));
    // Treybal (1980) ill. 7.7: 100 m³ of air of 55 °C and Y' = 0.030 heated to 110 °C, above boiling: 5.994
    // MJ.
    const RelativeHumidity moist = relative_humidity(celsius(55), HumidityRatio(0.030), kpa(101.33));
    EXPECT_TRUE(
        near(heating_load(m3_per_s(100), celsius(55), moist, celsius(110), kpa(101.33)), 5.994e6, 0.01));
}

TEST(DryerAir, Mixing) {
    // 2 m³/s at 4 °C with a wet bulb of 2 °C and 6.25 m³/s at 25 °C, 50 %: IAPWS.
    const RelativeHumidity cold = rh_from_wet_bulb(celsius(4), celsius(2), kSea);
    const AirPoint winter =
        mixed_air(celsius(4), cold, m3_per_s(2), celsius(25), rh(0.5), m3_per_s(6.25), kSea);
    EXPECT_NEAR(in_celsius(winter.temp), 19.62872, 2e-3);
    EXPECT_TRUE(near(winter.rh, 0.580325, 4e-4));
    EXPECT_TRUE(near(winter.ratio, 0.00828679, 4e-4));
    EXPECT_TRUE(near(winter.enthalpy, 40762.5, 4e-4));
    EXPECT_NEAR(in_celsius(wet_bulb(winter.temp, winter.rh, kSea)), 14.55777, 4e-3);
    // Çengel & Boles (2011) problem 14-105: 20 m³/min at 32 °C, 40 % with 25 m³/min at 12 °C, 90 %: 20.6
    // °C, 63.4 %, 0.0096, 45.0 kJ/kg.
    const AirPoint cengel =
        mixed_air(celsius(32), rh(0.4), m3_per_s(20 / 60.), celsius(12), rh(0.9), m3_per_s(25 / 60.), kSea);
    EXPECT_NEAR(in_celsius(cengel.temp), 20.6, 0.1);
    EXPECT_NEAR(cengel.rh.value(), 0.634, 5e-3);
    EXPECT_NEAR(cengel.ratio.value(), 0.0096, 1e-4);
    EXPECT_NEAR(cengel.enthalpy.value() / 1e3, 45.0, 0.1);
    // 50 m³/min saturated at 14 °C with 20 m³/min at 32 °C, 60 %: IAPWS.
    const AirPoint outdoor =
        mixed_air(celsius(14), rh(1), m3_per_s(50 / 60.), celsius(32), rh(0.6), m3_per_s(20 / 60.), kSea);
    EXPECT_NEAR(in_celsius(outdoor.temp), 18.93007, 2e-3);
    EXPECT_TRUE(near(outdoor.ratio, 0.0122111, 4e-4));
    EXPECT_TRUE(near(outdoor.enthalpy, 49992.6, 4e-4));
    EXPECT_TRUE(near(outdoor.rh, 0.887665, 4e-4));
    // Potter & Somerton, Theory and Problems of Thermodynamics ex. 9.9, chart: 2 m³ saturated at 5 °C with 5
    // m³ at 35 °C, 40 %: 0.0113, 26 °C, 55 %.
    const AirPoint potter =
        mixed_air(celsius(5), rh(1), m3_per_s(2), celsius(35), rh(0.4), m3_per_s(5), kSea);
    EXPECT_NEAR(potter.ratio.value(), 0.0113, 2e-4);
    EXPECT_NEAR(in_celsius(potter.temp), 26, 0.5);
    EXPECT_NEAR(potter.rh.value(), 0.55, 0.01);
}

TEST(DryerAir, MixtureClosesByMassAndEnergy) {
    const double t1 = 28, t2 = 52, x1 = 0.6, x2 = 0.45, V1 = 0.03, V2 = 0.09;
    const AirPoint mixed =
        mixed_air(celsius(t1), rh(x1), m3_per_s(V1), celsius(t2), rh(x2), m3_per_s(V2), kpa(88));
    const double m1 = V1 / air_volume(celsius(t1), rh(x1), kpa(88)).value(),
                 m2 = V2 / air_volume(celsius(t2), rh(x2), kpa(88)).value();
    const double water = m1 * humidity_ratio(celsius(t1), rh(x1), kpa(88)).value() +
                         m2 * humidity_ratio(celsius(t2), rh(x2), kpa(88)).value();
    const double energy = m1 * air_enthalpy(celsius(t1), rh(x1), kpa(88)).value() +
                          m2 * air_enthalpy(celsius(t2), rh(x2), kpa(88)).value();
    EXPECT_TRUE(near(mixed.ratio, water / (m1 + m2), 1e-12));
    EXPECT_TRUE(near(mixed.enthalpy, energy / (m1 + m2), 1e-9));
    EXPECT_TRUE(near(humidity_ratio(mixed.temp, mixed.rh, kpa(88)), water / (m1 + m2), 1e-9));
    EXPECT_TRUE(near(air_enthalpy(mixed.temp, mixed.rh, kpa(88)), energy / (m1 + m2), 1e-9));
    // Nothing of one stream is the other stream.
    const AirPoint alone =
        mixed_air(celsius(t1), rh(x1), m3_per_s(V1), celsius(t2), rh(x2), m3_per_s(0), kpa(88));
    EXPECT_NEAR(in_celsius(alone.temp), t1, 1e-7);
    EXPECT_TRUE(near(alone.rh, x1, 1e-7));
}

TEST(DryerAir, MixtureIsFogPastSaturation) {
    // The dampest air of 35 °C that cold air takes without fog: the mixture is then just saturated.
    const auto refused_at = [](double damp) {
        try {
            (void)mixed_air(celsius(5), rh(0.9), m3_per_s(1), celsius(35), rh(damp), m3_per_s(1), kSea);
        } catch (const BadInput&) {
            return true;
        }
        return false;
    };
    double clear = 0.3, fog = 1;
    ASSERT_FALSE(refused_at(clear));
    ASSERT_TRUE(refused_at(fog));
    while (fog - clear > 1e-9) (refused_at((clear + fog) / 2) ? fog : clear) = (clear + fog) / 2;
    const AirPoint edge =
        mixed_air(celsius(5), rh(0.9), m3_per_s(1), celsius(35), rh(clear), m3_per_s(1), kSea);
    EXPECT_NEAR(edge.rh.value(), 1, 1e-7);
    try {
        (void)mixed_air(celsius(5), rh(0.9), m3_per_s(1), celsius(35), rh(clear + 0.01), m3_per_s(1), kSea);
    } catch (const BadInput& refusal) {  // half of the water that is more in the damp air, a little condensed
        const double more = humidity_ratio(celsius(35), rh(clear + 0.01), kSea).value() -
                            humidity_ratio(celsius(35), rh(clear), kSea).value();
        EXPECT_TRUE(near(refusal.amounts()[0].si, edge.ratio.value() + more / 2, 0.01));
        EXPECT_GT(refusal.amounts()[2].si, 0);
        EXPECT_LT(refusal.amounts()[2].si, more / 2);
    }
}

TEST(DryerAir, AdiabaticExamples) {
    // Geankoplis (1993) ex. 9.3-3: 87.8 °C, H = 0.030, adiabatic: 0.0505 and 40.5 °C at
    // saturation, 0.0500 and 42.5 °C at 90 % (chart).
    const RelativeHumidity inlet = relative_humidity(celsius(87.8), HumidityRatio(0.030), kSea);
    const HumidityRatio full = air_pickup(celsius(87.8), inlet, rh(1), kSea);
    EXPECT_NEAR(full.value(), 0.0505 - 0.030, 1e-3);
    EXPECT_NEAR(in_celsius(exit_air(celsius(87.8), inlet, full, kSea).temp), 40.5, 0.3);
    const AirPoint nearly = exit_air(celsius(87.8), inlet, HumidityRatio(0.020), kSea);
    EXPECT_NEAR(in_celsius(nearly.temp), 42.5, 0.4);
    EXPECT_NEAR(nearly.rh.value(), 0.90, 0.03);
    // Singh & Heldman ch. 9: rice dried with air of 50 °C and 10 %, leaving saturated: 0.0112 kg/kg (chart,
    // 0.0078 to 0.019).
    EXPECT_NEAR(air_pickup(celsius(50), rh(0.10), rh(1), kSea).value(), 0.0112, 4e-4);
    // Himmelblau & Riggs ex. 29.3: along the 22 °C wet bulb from 40 to 27 °C: H 0.0093 to 0.0145.
    const RelativeHumidity start = rh_from_wet_bulb(celsius(40), celsius(22), kSea);
    EXPECT_NEAR(humidity_ratio(celsius(40), start, kSea).value(), 0.0093, 4e-4);
    EXPECT_NEAR(in_celsius(exit_air(celsius(40), start, HumidityRatio(0.0054), kSea).temp), 27, 0.3);
    // 35 °C, 20 % to 80 %: wet bulb and exit by IAPWS.
    const HumidityRatio cooler = air_pickup(celsius(35), rh(0.2), rh(0.8), kpa(101.35));
    EXPECT_NEAR(in_celsius(wet_bulb(celsius(35), rh(0.2), kpa(101.35))), 18.85861, 2e-3);
    EXPECT_NEAR(in_celsius(exit_air(celsius(35), rh(0.2), cooler, kpa(101.35)).temp), 21.25670, 4e-3);
    // Moran & Shapiro ex. 12.13: 38 °C, 10 %, water of 21 °C added until 21 °C: from W = 0.00408 to 0.0110,
    // 71 %.
    const AirPoint pad = exit_air(celsius(38), rh(0.1), HumidityRatio(0.0110 - 0.0041), kSea);
    EXPECT_NEAR(in_celsius(pad.temp), 21, 0.3);
    EXPECT_NEAR(pad.rh.value(), 0.71, 0.02);
}

TEST(DryerAir, ExitLiesOnTheAdiabaticLine) {
    for (const double t : {-5.0, 30.0, 60.0, 90.0})
        for (const double x : {0.02, 0.2, 0.6})
            for (const double out : {0.65, 0.9, 1.0}) {
                SCOPED_TRACE(testing::Message() << t << " °C, " << x << " to " << out);
                const HumidityRatio pickup = air_pickup(celsius(t), rh(x), rh(out), kpa(90));
                const AirPoint exit = exit_air(celsius(t), rh(x), pickup, kpa(90));
                EXPECT_TRUE(near(exit.rh, out, 1e-7));
                EXPECT_NEAR(exit.ratio.value(),
                            humidity_ratio(celsius(t), rh(x), kpa(90)).value() + pickup.value(), 1e-12);
                const Temperature wet = wet_bulb(celsius(t), rh(x), kpa(90));
                // By a bulb around the triple point the exit may count as wet where the inlet was iced.
                if (std::abs(in_celsius(wet)) > 1) {
                    EXPECT_NEAR(wet_bulb(exit.temp, exit.rh, kpa(90)).value(), wet.value(), 1e-6);
                }
                EXPECT_TRUE(near(exit.enthalpy.value() - air_enthalpy(celsius(t), rh(x), kpa(90)).value(),
                                 pickup.value() * detail::water_enthalpy(wet.value(), 90e3), 1e-6));
            }
}

TEST(DryerAir, NeededAirCarriesTheWater) {
    const auto water = from_si<Mass>(7.2);
    const auto time = from_si<Time>(6 * 3600);
    const VolumeFlow flow = air_needed(water, time, celsius(60), rh(0.12), rh(0.4), kSea);
    const double carried = flow.value() / air_volume(celsius(60), rh(0.12), kSea).value() *
                           air_pickup(celsius(60), rh(0.12), rh(0.4), kSea).value();
    EXPECT_TRUE(near(carried, water.value() / time.value(), 1e-12));
    EXPECT_EQ(air_needed(from_si<Mass>(0), time, celsius(60), rh(0.12), rh(0.4), kSea).value(), 0);
}

TEST(DryerAir, HeatingLeavesTheRatio) {
    for (const double hot : {25.0, 45.0, 60.0, 95.0}) {
        const RelativeHumidity after = heated_rh(celsius(25), rh(0.7), celsius(hot), kpa(85));
        EXPECT_TRUE(near(humidity_ratio(celsius(hot), after, kpa(85)),
                         humidity_ratio(celsius(25), rh(0.7), kpa(85)).value(), 1e-12));
        const double load =
            (air_enthalpy(celsius(hot), after, kpa(85)) - air_enthalpy(celsius(25), rh(0.7), kpa(85)))
                .value() /
            air_volume(celsius(25), rh(0.7), kpa(85)).value();
        EXPECT_NEAR(heating_load(m3_per_s(1), celsius(25), rh(0.7), celsius(hot), kpa(85)).value(), load,
                    1e-6);
    }
}

TEST(DryerAir, LimitsAreNotRefused) {
    // The whole pick-up leaves saturated air; nearly saturated air takes up nearly nothing; both are allowed.
    for (const double t : {-60.0, -20.0, 3.0, 40.0, 90.0})
        for (const double x : {0.0, 0.5, 1 - 1e-7, 1 - 1e-11, 1.0}) {
            SCOPED_TRACE(testing::Message() << t << " °C, rh " << x);
            const HumidityRatio full = air_pickup(celsius(t), rh(x), rh(1), kSea);
            EXPECT_TRUE(near(exit_air(celsius(t), rh(x), full, kSea).rh, 1, 1e-7));
            EXPECT_TRUE(near(exit_air(celsius(t), rh(x), HumidityRatio(0), kSea).rh, x, 1e-7));
            EXPECT_NEAR(rh_from_wet_bulb(celsius(t), wet_bulb(celsius(t), rh(x), kSea), kSea).value(), x,
                        1e-7);
        }
    // Air so cold and dry that its bulb is below what the equations reach.
    EXPECT_EQ(refused<NoConvergence>([] { return wet_bulb(celsius(-80), rh(0), kpa(30)); }), "");
}

TEST(DryerAir, Refusals) {
    const auto one = m3_per_s(1);
    const auto kilo = from_si<Mass>(1);
    const auto hour = from_si<Time>(3600);
    EXPECT_EQ(bad_input([] { return heated_rh(celsius(25), rh(0.5), celsius(20), kSea); }), "heated");
    EXPECT_EQ(bad_input([] { return heated_rh(celsius(25), rh(0.5), celsius(110), kSea); }), "heated");
    EXPECT_EQ(bad_input([&] { return heating_load(one, celsius(25), rh(0.5), celsius(20), kSea); }),
              "heated");
    EXPECT_EQ(
        refused<OutOfRange>([&] { return heating_load(one, celsius(25), rh(0.5), celsius(200.1), kSea); }),
        "heated");
    EXPECT_NO_THROW(heating_load(one, celsius(25), rh(0.5), celsius(200), kSea));
    EXPECT_EQ(refused<OutOfRange>([] { return air_volume(celsius(-80.1), rh(0.5), kSea); }), "temp");
    EXPECT_NO_THROW(air_volume(celsius(-80), rh(0.5), kSea));
    EXPECT_EQ(bad_input([] { return heating_load(m3_per_s(-1), celsius(25), rh(0.5), celsius(60), kSea); }),
              "flow");
    EXPECT_EQ(bad_input([&] {
                  return mixed_air(celsius(25), rh(0.5), m3_per_s(-1), celsius(60), rh(0.1), one, kSea);
              }),
              "flow1");
    EXPECT_EQ(bad_input([&] {
                  return mixed_air(celsius(25), rh(0.5), one, celsius(60), rh(0.1), m3_per_s(-1), kSea);
              }),
              "flow2");
    EXPECT_EQ(bad_input([] {
                  return mixed_air(celsius(25), rh(0.5), m3_per_s(0), celsius(60), rh(0.1), m3_per_s(0),
                                   kSea);
              }),
              "flow2");
    EXPECT_EQ(
        bad_input([&] { return mixed_air(celsius(105), rh(0.5), one, celsius(60), rh(0.1), one, kSea); }),
        "temp1");
    EXPECT_EQ(
        bad_input([&] { return mixed_air(celsius(25), rh(0.5), one, celsius(105), rh(0.1), one, kSea); }),
        "temp2");
    // Fog: damp exhaust into cold air, as breath on a winter day.
    EXPECT_EQ(
        bad_input([&] { return mixed_air(celsius(-5), rh(0.9), one, celsius(35), rh(0.95), one, kSea); }),
        "");
    EXPECT_EQ(bad_input([] { return air_pickup(celsius(60), rh(0.5), rh(0.4), kSea); }), "exit_rh");
    EXPECT_EQ(air_pickup(celsius(60), rh(0.5), rh(0.5), kSea).value(), 0);
    EXPECT_EQ(bad_input([] { return exit_air(celsius(60), rh(0.1), HumidityRatio(0.05), kSea); }), "pickup");
    EXPECT_EQ(bad_input([&] { return air_needed(kilo, hour, celsius(60), rh(0.5), rh(0.5), kSea); }),
              "exit_rh");
    EXPECT_EQ(
        bad_input([&] { return air_needed(from_si<Mass>(-1), hour, celsius(60), rh(0.1), rh(0.5), kSea); }),
        "water");
    EXPECT_EQ(
        bad_input([&] { return air_needed(kilo, from_si<Time>(0), celsius(60), rh(0.1), rh(0.5), kSea); }),
        "time");
    EXPECT_EQ(bad_input([] { return exit_air(celsius(120), rh(0.1), HumidityRatio(0.001), kSea); }), "temp");
}

TEST(DryerAir, PickupPastSaturationSaysByHowMuch) {
    try {
        (void)exit_air(celsius(50), rh(0.10), HumidityRatio(0.0212), kSea);
        FAIL();
    } catch (const BadInput& refusal) {
        EXPECT_NEAR(refusal.amounts()[0].si, 0.01,
                    4e-4);  // 0.0212 less what Singh & Heldman's rice example gives
        EXPECT_NEAR(refusal.amounts()[1].si, 0.0112, 4e-4);
    }
}

}  // namespace
}  // namespace drysheet
