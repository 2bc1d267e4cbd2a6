#include <gtest/gtest.h>

#include <cmath>

#include "drysheet/air.hpp"
#include "drysheet/energy.hpp"
#include "drysheet/moisture.hpp"
#include "drysheet/package.hpp"
#include "drysheet/scaleplan.hpp"
#include "drysheet/scaleup.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::kg, test::near, test::wb;
Time hours(double x) { return Time::from_value(3600 * x); }
Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }

// Invented: 5 kg ginger peeled and sliced to 4 kg, dried to 1 kg.
BenchTest bench() {
    return {.raw = kg(5),
            .prepared = kg(4),
            .start_moisture = wb(0.8),
            .dried = kg(1),
            .final_moisture = wb(0.2),
            .tray_area = Area::from_value(1),
            .thickness = Length::from_value(0.005),
            .temp = celsius(60),
            .rh = RelativeHumidity(0.1),
            .drying_time = hours(6)};
}
ScaleTarget season() {
    ScaleTarget target{.wanted = kg(100),
                       .days = 25,
                       .tray_size = Area::from_value(0.5),
                       .turnaround = hours(2),
                       .hours_a_day = hours(16),
                       .room_temp = celsius(25),
                       .room_rh = RelativeHumidity(0.6),
                       .raw_price = MoneyPerMass::from_value(2),
                       .tariff = MoneyPerEnergy::from_value(0.2 / 3.6e6),
                       .wage = MoneyPerTime::from_value(4.0 / 3600),
                       .labour = hours(3)};
    target.activation_energy = MolarEnergy::from_value(0);  // no scaling by the air
    return target;
}

TEST(ScalePlan, ByHand) {
    const ScalePlan plan = scale_plan(bench(), season());
    EXPECT_TRUE(near(plan.yield, 0.8, 1e-12));
    EXPECT_TRUE(near(plan.prepared, 400, 1e-12));  // 100 · 4/1
    EXPECT_TRUE(near(plan.raw, 500, 1e-12));       // 400/0.8
    EXPECT_TRUE(near(plan.water, 300, 1e-12));
    EXPECT_TRUE(near(plan.recovered, 1, 1e-12));  // 4 · 0.2/0.8 = 1 kg
    EXPECT_TRUE(near(plan.load, 4, 1e-12));
    EXPECT_EQ(plan.batches_a_day, 2);  // 16/(6 + 2), an exact multiple
    EXPECT_EQ(plan.batches, 50);
    EXPECT_TRUE(near(plan.batch_dried, 2, 1e-12));
    EXPECT_TRUE(near(plan.batch_prepared, 8, 1e-12));
    EXPECT_EQ(plan.trays, 4);  // 8/(4 · 0.5), an exact multiple
    EXPECT_TRUE(near(plan.area, 2, 1e-12));
    EXPECT_TRUE(near(plan.day, 16 * 3600, 1e-12));
    EXPECT_TRUE(near(plan.raw_cost, 10, 1e-12));    // 500 · 2/100
    EXPECT_TRUE(near(plan.labour_cost, 6, 1e-12));  // 3 · 4/2
}

TEST(ScalePlan, DaysOrTraysTellTheSame) {
    ScaleTarget by_trays = season();
    by_trays.days.reset();
    by_trays.trays = 4;
    const ScalePlan a = scale_plan(bench(), season()), b = scale_plan(bench(), by_trays);
    EXPECT_EQ(b.batches, 50);
    EXPECT_EQ(b.days, 25);
    EXPECT_TRUE(near(b.batch_dried, a.batch_dried.value(), 1e-12));
    EXPECT_TRUE(near(b.cost, a.cost.value(), 1e-12));
    by_trays.trays = 3;  // 1.5 kg a batch: 67 batches, 34 days
    EXPECT_EQ(scale_plan(bench(), by_trays).batches, 67);
    EXPECT_EQ(scale_plan(bench(), by_trays).days, 34);
}

TEST(ScalePlan, WholeBatchesAreBought) {
    ScaleTarget target = season();
    target.days.reset();
    target.trays = 3;  // 1.5 kg a batch, 67 batches: 100.5 kg
    const ScalePlan plan = scale_plan(bench(), target);
    EXPECT_TRUE(near(plan.dried, 100.5, 1e-12));
    EXPECT_TRUE(near(plan.prepared, 402, 1e-12));
    EXPECT_TRUE(near(plan.raw, 502.5, 1e-12));
    EXPECT_TRUE(near(plan.water, 301.5, 1e-12));
    EXPECT_TRUE(near(plan.season_cost, plan.cost.value() * 100.5, 1e-12));
}

// Figures of a side row that cannot be had leave the others alone.
TEST(ScalePlan, HotAndColdRooms) {
    BenchTest test = bench();
    test.temp = celsius(45);
    ScaleTarget target = season();
    target.room_temp = celsius(42);
    target.room_rh = RelativeHumidity(0.12);
    const ScalePlan hot = scale_plan(test, target);
    EXPECT_FALSE(hot.efficiency);  // the room's warmth dries
    EXPECT_TRUE(hot.least_heat);
    EXPECT_GT(hot.cost, MoneyPerMass());
    target.room_temp = celsius(-5);
    const ScalePlan cold = scale_plan(test, target);
    EXPECT_FALSE(cold.least_heat);
    EXPECT_TRUE(cold.efficiency);
}

TEST(ScalePlan, BalancesClose) {
    const ScalePlan plan = scale_plan(bench(), season());
    EXPECT_TRUE(near(plan.prepared - plan.water, plan.target.wanted.value(), 1e-12));
    EXPECT_TRUE(near(plan.batches * plan.batch_dried, plan.target.wanted.value(), 1e-12));
    EXPECT_TRUE(near(plan.batches * plan.batch_water, plan.water.value(), 1e-12));
    EXPECT_TRUE(near(plan.raw_cost + plan.energy_cost + plan.labour_cost + plan.other_cost, plan.cost.value(),
                     1e-12));
    EXPECT_TRUE(near(plan.season_cost, plan.cost.value() * 100, 1e-12));
    // Water carried off by the air of a batch: flow, time and the water taken up to the exit humidity.
    const Pressure p = plan.target.pressure;
    const double dry_air =
        plan.air_flow.value() / air_volume(plan.temp, plan.rh, p).value() * plan.drying_time.value();
    EXPECT_TRUE(near(dry_air * air_pickup(plan.temp, plan.rh, RelativeHumidity(kUsualExitRh), p).value(),
                     plan.batch_water.value(), 1e-9));
    // Heat given to that air, by its enthalpies, and the fan.
    const double heat = dry_air * (air_enthalpy(plan.temp, plan.rh, p) -
                                   air_enthalpy(plan.target.room_temp, plan.target.room_rh, p))
                                      .value();
    const double fan =
        plan.air_flow.value() * kUsualPressureDrop / kUsualFanEfficiency * plan.drying_time.value();
    EXPECT_TRUE(near(plan.batch_energy, heat + fan, 1e-9));
    ASSERT_TRUE(plan.least_heat);
    EXPECT_LT(*plan.least_heat, plan.batch_energy);
}

TEST(ScalePlan, TimeByThicknessAndAir) {
    ScaleTarget target = season();
    target.new_thickness = Length::from_value(0.010);
    target.hours_a_day = hours(24);
    target.turnaround = hours(0);
    ScalePlan plan = scale_plan(bench(), target);
    EXPECT_TRUE(near(plan.drying_time, 24 * 3600, 1e-12));  // 6 · 2²
    EXPECT_TRUE(near(plan.load, 8, 1e-12));
    EXPECT_EQ(plan.batches_a_day, 1);
    target.thickness_exponent = 1;
    EXPECT_TRUE(near(scale_plan(bench(), target).drying_time, 12 * 3600, 1e-12));

    // An activation energy: R ln 2 / (1/T1 − 1/T2) between 60 and 70 °C halves the time.
    target = season();
    target.activation_energy = MolarEnergy::from_value(8.314462618 * std::log(2) / (1 / 333.15 - 1 / 343.15));
    target.new_temp = celsius(70);
    plan = scale_plan(bench(), target);
    EXPECT_EQ(plan.air_scaling, AirScaling::activation_energy);
    EXPECT_TRUE(near(plan.air_factor, 0.5, 1e-12));

    // Without one: by wet-bulb depression, and none in the test's own air.
    target.activation_energy.reset();
    plan = scale_plan(bench(), target);
    EXPECT_EQ(plan.air_scaling, AirScaling::wet_bulb_depression);
    // Wet bulbs by python3-iapws 1.5 (tests/reference/make_humid_air.py): 28.9852 °C at 60 °C and 10
    // %; 30.7601 °C at 70 °C of air that has 60 % at 25 °C.
    EXPECT_TRUE(near(plan.air_factor, (60 - 28.9852) / (70 - 30.7601), 1e-4));
    EXPECT_LT(plan.air_factor, 1);
    BenchTest same = bench();
    target.new_temp.reset();
    same.rh = heated_rh(target.room_temp, target.room_rh, same.temp, target.pressure);
    plan = scale_plan(same, target);
    EXPECT_EQ(plan.air_scaling, AirScaling::none);
    EXPECT_EQ(plan.air_factor, 1);
}

TEST(ScalePlan, AnotherTargetMoistureByTheCurve) {
    BenchTest test = bench();
    test.model = CurveModel::lewis;
    test.parameters = {0.5};
    ScaleTarget target = season();
    target.target_moisture = wb(0.1);
    const ScalePlan plan = scale_plan(test, target);
    // X 4 to 1/9: ln 36/0.5 h; prepared per dried 4 · (0.9/0.8) = 4.5
    EXPECT_TRUE(near(plan.drying_time, 3600 * std::log(36.0) / 0.5, 1e-12));
    EXPECT_TRUE(near(plan.drying_ratio, 4.5, 1e-12));
    EXPECT_TRUE(near(plan.prepared, 450, 1e-12));
    EXPECT_TRUE(near(plan.batch_water, plan.batch_prepared.value() - plan.batch_dried.value(), 1e-12));
}

TEST(ScalePlan, HandlingLossesStayInTheDryingRatio) {
    BenchTest test = bench();
    test.dried = kg(0.95);  // 5 % stuck to the tray
    const ScalePlan plan = scale_plan(test, season());
    EXPECT_TRUE(near(plan.recovered, 0.95, 1e-12));
    EXPECT_TRUE(near(plan.prepared, 100 * 4 / 0.95, 1e-12));
    test.final_moisture.reset();  // then they count as water: by hand 1 − 0.8/0.95
    EXPECT_TRUE(near(scale_plan(test, season()).final_moisture, 1 - 0.8 / 0.95, 1e-12));
}

TEST(ScalePlan, PackBarrier) {
    ScaleTarget target = season();
    target.pack_mass = kg(0.1);
    target.pack_area = Area::from_value(0.04);
    target.keeping_time = hours(90 * 24);
    target.limit_moisture = wb(0.22);
    target.isotherm = IsothermModel::oswin;
    target.isotherm_parameters = {0.2, 0.5};
    target.store_temp = celsius(25);
    target.store_rh = RelativeHumidity(0.75);
    const ScalePlan plan = scale_plan(bench(), target);
    ASSERT_TRUE(plan.barrier);
    // Through a film of that permeance it keeps just that long.
    const Time kept = shelf_time(kg(0.08), MoistureDry(0.25), dry_basis(wb(0.22)), *target.isotherm,
                                 target.isotherm_parameters, *target.pack_area, *plan.barrier,
                                 *target.store_temp, *target.store_rh);
    EXPECT_TRUE(near(kept, 90 * 86400, 1e-9));
    EXPECT_FALSE(scale_plan(bench(), season()).barrier);
}

std::string refused(auto change) {
    BenchTest test = bench();
    ScaleTarget target = season();
    change(test, target);
    return test::refused<Refused>([&] { return scale_plan(test, target); });
}
TEST(ScalePlan, RefusalsNameTheRow) {
    using T = BenchTest&;
    using G = ScaleTarget&;
    EXPECT_EQ(refused([](T t, G) { t.prepared = kg(6); }), "prepared");
    EXPECT_EQ(refused([](T t, G) { t.dried = kg(1.1); }), "dried");
    EXPECT_EQ(refused([](T t, G) { t.final_moisture.reset(), t.dried = kg(0.5); }), "dried");
    EXPECT_EQ(refused([](T t, G) { t.final_moisture = wb(0.9), t.dried = kg(4); }), "final moisture");
    EXPECT_EQ(refused([](T t, G) { t.tray_area = Area(); }), "tray area");
    EXPECT_EQ(refused([](T t, G) { t.drying_time = hours(0); }), "drying time");
    EXPECT_EQ(refused([](T, G g) { g.days.reset(); }), "days");
    EXPECT_EQ(refused([](T, G g) { g.trays = 3; }), "days");
    EXPECT_EQ(refused([](T, G g) { g.days = 2.5; }), "days");
    EXPECT_EQ(refused([](T, G g) { g.hours_a_day = hours(7); }), "hours a day");
    EXPECT_EQ(refused([](T, G g) { g.target_moisture = wb(0.1); }), "model");
    EXPECT_EQ(refused([](T, G g) { g.target_moisture = wb(0.9); }), "target moisture");
    EXPECT_EQ(refused([](T, G g) { g.new_temp = celsius(20); }), "new temp");
    EXPECT_EQ(refused([](T, G g) { g.exit_rh = RelativeHumidity(0.05); }), "exit rh");
    EXPECT_EQ(refused([](T, G g) { g.room_rh = RelativeHumidity(1), g.room_temp = celsius(50); }), "exit rh");
    EXPECT_EQ(refused([](T t, G) { t.final_moisture = wb(0.8), t.dried = kg(4); }), "final moisture");
    EXPECT_EQ(refused([](T, G g) { g.tray_size = Area(); }), "tray size");
    EXPECT_EQ(refused([](T, G g) { g.store_temp = celsius(25); }), "pack mass");
}

}  // namespace
}  // namespace drysheet
