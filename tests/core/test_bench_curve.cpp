// SPDX-License-Identifier: MPL-2.0
#include <gtest/gtest.h>

#include "drysheet/bench_curve.hpp"
#include "drysheet/renamed.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::hours, test::near, test::wb;

TEST(BenchCurve, LewisThroughTwoPoints) {
    // X 4 to 0.25 above an equilibrium of 0 in 6 h: k = ln 16/6 = 0.462098 1/h.
    const BenchCurve curve = lewis_through(wb(0.8), wb(0.2), MoistureWet(0), hours(6));
    EXPECT_EQ(curve.model, CurveModel::lewis);
    EXPECT_TRUE(near(curve.parameters.at(0), 0.462098, 1e-6));
    EXPECT_EQ(test::bad_input([] { return lewis_through(wb(0.8), wb(0.2), wb(0.3), hours(6)); }), "target");
    EXPECT_EQ(test::bad_input([] { return lewis_through(wb(0.8), wb(0.2), MoistureWet(0), hours(0)); }),
              "time");
}

TEST(BenchCurve, StretchedEveryModelTakesItsTime) {
    const std::vector<std::vector<double>> parameters{{0.4},
                                                      {0.3, 1.3},
                                                      {0.9, 0.4},
                                                      {1.05, 0.3, -0.05},
                                                      {0.6, 0.8, 0.4, 0.2},
                                                      {1, 0.4, 1.1, -0.01},
                                                      {2.5, 1.1},
                                                      {0.4, 0.9, 0.25}};
    for (std::size_t i = 0; i < parameters.size(); ++i) {
        const auto model = static_cast<CurveModel>(i);
        const BenchCurve longer = stretched({model, parameters[i]}, 1.7);
        for (const double t : {0.5, 2.0, 5.0})
            EXPECT_TRUE(near(curve(model, hours(1.7 * t), longer.parameters).value(),
                             curve(model, hours(t), parameters[i]).value(), 1e-12))
                << info(model).name;
    }
}

TEST(BenchCurve, CarriedByOneResistanceOrTheOther) {
    // By hand: depth 0.6, air 0.8 outside and 0.9 inside: 0.48 and 0.36 · 0.9 = 0.324; a quarter of the
    // outside: 0.25 · 0.48 + 0.75 · 0.324 = 0.363, of it thickness 0.25 · 0.6 + 0.75 · 0.36 = 0.42.
    const Carried all = carried(0.6, 0.8, 0.9, 0.25);
    EXPECT_TRUE(near(all.fast().time(), 0.324, 1e-12));
    EXPECT_TRUE(near(all.slow().time(), 0.48, 1e-12));
    EXPECT_TRUE(near(all.likely.time(), 0.363, 1e-12));
    EXPECT_TRUE(near(all.likely.thickness, 0.42, 1e-12));
    EXPECT_TRUE(near(carried(2, 1, 1, 0).fast().time(), 2, 1e-12));  // thicker: the outside is the faster
}

TEST(Renamed, KeepsEverythingButTheName) {
    const auto throws = [] {
        throw OutOfRange("a", "{} {} {} {} {}",
                         {amount(1.0), amount(2.0), amount(3.0), amount(4.0), amount(5.0)});
    };
    try {
        renamed({{"b", "c"}, {"a", "b"}}, throws);
        FAIL() << "not refused";
    } catch (const OutOfRange& refusal) {
        EXPECT_EQ(refusal.argument(), "b");
        ASSERT_EQ(refusal.amounts().size(), 5u);
        EXPECT_EQ(refusal.amounts()[4].si, 5);
    }
    EXPECT_EQ(test::refused<OutOfRange>([&] {
                  return renamed({{"b", "c"}}, [&] { return throws(), 0; });
              }),
              "a");
}

}  // namespace
}  // namespace drysheet
