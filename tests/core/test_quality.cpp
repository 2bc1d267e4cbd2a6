// What drying and soaking do to contents and to quality, against printed tables and worked examples.
#include "drysheet/quality.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::grams;
using test::kg;
using test::near;
using test::wb;
using test::within;

TEST(ContentAfter, freeze_dried_shallots) {
    // USDA National Nutrient Database SR28 (2015), shallots raw (79.8 % water) and freeze-dried (2 %):
    // protein 2.5 and 12.3, carbohydrate 16.8 and 80.7 g per 100 g.
    EXPECT_TRUE(near(content_after(2.5, wb(0.798), wb(0.02)), 12.3, 0.02));
    EXPECT_TRUE(near(content_after(16.8, wb(0.798), wb(0.02)), 80.7, 0.02));
    EXPECT_TRUE(near(content_after(20, wb(0.8), wb(0.2), Fraction(0.5)), 40, 1e-14));  // 20 · 4 / 2
    EXPECT_EQ(content_after(0, wb(0.8), wb(0.2)), 0);
    EXPECT_EQ(bad_input([] { return content_after(1, wb(0.2), wb(0.8)); }), "final");
    EXPECT_EQ(bad_input([] { return content_after(-1, wb(0.8), wb(0.2)); }), "content");
}

TEST(Osmotic, balances) {
    // By hand: 100 g at 80 % become 60 g at 60 %: water 80 to 36 g, solids 20 to 24 g.
    const OsmoticSoak soak = osmotic_soak(grams(100), wb(0.8), grams(60), wb(0.6));
    EXPECT_TRUE(near(soak.water_loss, 0.44, 1e-14));
    EXPECT_TRUE(near(soak.solids_gain, 0.04, 1e-13));
    EXPECT_TRUE(near(soak.weight_reduction, 0.40, 1e-14));
    EXPECT_TRUE(near(soak.ratio.value(), 11, 1e-13));
    for (const double after : {40.0, 70.0, 120.0})
        for (const double w : {0.3, 0.6, 0.9}) {
            const OsmoticSoak x = osmotic_soak(grams(100), wb(0.85), grams(after), wb(w));
            EXPECT_TRUE(within(x.water_loss - x.solids_gain, x.weight_reduction, 1e-14));
        }
    // Water alone leaves, or solids leach out: no ratio.
    EXPECT_FALSE(osmotic_soak(grams(100), wb(0.7), grams(60), wb(0.5)).ratio);
    EXPECT_FALSE(osmotic_soak(grams(100), wb(0.8), grams(60), wb(0.7)).ratio);
    EXPECT_EQ(bad_input([] { return osmotic_soak(kg(0), wb(0.8), kg(1), wb(0.5)); }), "mass");
    EXPECT_EQ(bad_input([] { return osmotic_soak(kg(1), wb(0.8), kg(0), wb(0.5)); }), "mass_after");
}

}  // namespace
}  // namespace drysheet
