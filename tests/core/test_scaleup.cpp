// SPDX-License-Identifier: MPL-2.0
// Loads and counts: rounding up and down right at exact multiples.
#include "drysheet/scaleup.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::near;
using test::refused;

Mass kg(double x) { return from_si<Mass>(x); }
Area m2(double x) { return from_si<Area>(x); }
ArealLoad load(double x) { return from_si<ArealLoad>(x); }
Time h(double x) { return from_si<Time>(3600 * x); }

TEST(Scaleup, by_hand) {
    EXPECT_TRUE(near(to_si(tray_load(kg(3), m2(0.6))), 5, 1e-14));  // 3 ÷ 0.6
    EXPECT_EQ(trays_for(kg(12), load(2.5), m2(0.4)), 12);           // 12 ÷ (2.5·0.4)
    EXPECT_EQ(trays_for(kg(12.001), load(2.5), m2(0.4)), 13);       // a gram too much
    EXPECT_EQ(trays_for(kg(0), load(2.5), m2(0.4)), 0);
    EXPECT_EQ(batches_for(kg(100), kg(8)), 13);   // 12.5
    EXPECT_EQ(batches_for(kg(0.3), kg(0.1)), 3);  // 0.3/0.1 is 2.9999999999999996
    EXPECT_TRUE(near(to_si(daily_output(kg(2), h(7), h(1), h(24))) * 86400, 6, 1e-14));    // 3 batches
    EXPECT_TRUE(near(to_si(daily_output(kg(2), h(7.5), h(1), h(24))) * 86400, 4, 1e-14));  // 2.8 → 2 batches
    EXPECT_TRUE(near(to_si(daily_output(kg(2), h(0.7), h(0.1), h(2.4))) * 86400, 6,
                     1e-14));  // 2.4/0.8 in floating point
}

TEST(Scaleup, exact_multiples_are_not_rounded_away) {
    for (const double each : {0.1, 0.3, 0.7, 1.1, 2.54, 1.0 / 3})
        for (int n = 1; n <= 2000; ++n) {
            ASSERT_EQ(batches_for(kg(n * each), kg(each)), n) << each;
            ASSERT_EQ(trays_for(kg(n * each * 0.37), load(each), m2(0.37)), n) << each;
            ASSERT_EQ(batches_for(kg((n + 1e-4) * each), kg(each)), n + 1) << each;
        }
}

TEST(Scaleup, refusals) {
    EXPECT_EQ(refused<BadInput>([] { return tray_load(kg(3), m2(0)); }), "area");
    EXPECT_EQ(refused<BadInput>([] { return trays_for(kg(3), load(0), m2(1)); }), "load");
    EXPECT_EQ(refused<BadInput>([] { return trays_for(kg(3), load(1), m2(0)); }), "tray_area");
    EXPECT_EQ(refused<BadInput>([] { return batches_for(kg(3), kg(0)); }), "per_batch");
    EXPECT_EQ(refused<BadInput>([] { return daily_output(kg(3), h(0), h(1), h(8)); }), "drying_time");
    EXPECT_EQ(refused<BadInput>([] { return daily_output(kg(3), h(8), h(-1), h(8)); }), "turnaround");
    EXPECT_EQ(refused<BadInput>([] { return daily_output(kg(3), h(8), h(1), h(25)); }), "hours_per_day");
    EXPECT_EQ(refused<BadInput>([] { return daily_output(kg(3), h(8), h(1), h(8.5)); }), "hours_per_day");
}

}  // namespace
}  // namespace drysheet
