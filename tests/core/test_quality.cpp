// SPDX-License-Identifier: MPL-2.0
// What drying and soaking do to contents and to quality, against printed tables and worked examples.
#include "drysheet/quality.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::celsius;
using test::grams;
using test::hours;
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

DryingRate per_hour(double k) { return from_si<DryingRate>(k / 3600); }
MolarEnergy kj_per_mol(double E) { return from_si<MolarEnergy>(1000 * E); }

double left_after(std::vector<double> h, std::vector<double> degrees, double k, double at, double E,
                  double order = 1) {
    std::vector<Time> times;
    std::vector<Temperature> temps;
    for (const double x : h) times.push_back(hours(x));
    for (const double x : degrees) temps.push_back(celsius(x));
    return quality_left(times, temps, per_hour(k), celsius(at), kj_per_mol(E), order).value();
}

TEST(Quality, browning_of_whey_powder) {
    // Labuza (1984) J. Chem. Educ. 61:348, browning: ln k = 47.38 - 29 680 cal/mol/(1.987 T), k per day.
    const auto k = [](double t) { return std::exp(47.38 - 29680 / (1.987 * (t + 273.15))); };
    const double E = 29.680 * 8.314462618 / 1.987;
    for (const double t : {25.0, 45.0}) {
        EXPECT_TRUE(near(left_after({0, 24}, {t, t}, k(35) / 24, 35, E), std::exp(-k(t)), 1e-9));
        EXPECT_TRUE(near(left_after({0, 2}, {t, t}, k(35) / 24, 35, E, 0), 1 - k(t) / 12, 1e-9));
    }
    EXPECT_TRUE(near(k(45) / k(35), 4.59, 1e-3));  // its Q10
}

TEST(Quality, along_straight_lines) {
    // SciPy 1.10.1, quad over both lines: see the working for k.
    EXPECT_TRUE(near(left_after({0, 6, 12}, {20, 60, 30}, 0.02, 50, 80), 0.836358284701365, 1e-11));
    EXPECT_EQ(quality_left(std::vector{hours(0), hours(2)}, std::vector{celsius(50), celsius(50)},
                           per_hour(0.1), celsius(50), kj_per_mol(80))
                  .value(),
              std::exp(-0.2));  // of first order where none is said
    // A point more on the line changes nothing; without an activation energy only the time counts.
    EXPECT_TRUE(near(left_after({0, 3, 6, 12}, {20, 40, 60, 30}, 0.02, 50, 80), 0.836358284701365, 1e-11));
    EXPECT_TRUE(near(left_after({0, 6, 12}, {20, 60, 30}, 0.02, 50, 0), std::exp(-0.24), 1e-12));
    EXPECT_EQ(left_after({0, 100}, {50, 50}, 0.02, 50, 80, 0), 0);
}

TEST(Quality, time_and_what_is_left_are_inverse) {
    for (const double q : {0.05, 0.5, 0.95})
        for (const double order : {0.0, 1.0}) {
            const Time t =
                quality_time(Fraction(q), celsius(28), per_hour(0.01), celsius(40), kj_per_mol(90), order);
            EXPECT_TRUE(near(left_after({0, test::in_hours(t)}, {28, 28}, 0.01, 40, 90, order), q, 1e-12));
        }
    EXPECT_EQ(to_si(quality_time(Fraction(1), celsius(28), per_hour(0.01), celsius(40), kj_per_mol(90))), 0);
}

TEST(Quality, refusals_name_the_argument) {
    EXPECT_EQ(bad_input([] { return left_after({0}, {20}, 0.1, 20, 80); }), "times");
    EXPECT_EQ(bad_input([] { return left_after({0, 0}, {20, 20}, 0.1, 20, 80); }), "times");
    EXPECT_EQ(bad_input([] { return left_after({0, 1}, {20}, 0.1, 20, 80); }), "temps");
    EXPECT_EQ(bad_input([] { return left_after({0, 1}, {20, 20}, 0, 20, 80); }), "rate");
    EXPECT_EQ(bad_input([] { return left_after({0, 1}, {20, 20}, 0.1, 20, -1); }), "energy");
    EXPECT_EQ(bad_input([] { return left_after({0, 1}, {20, 20}, 0.1, 20, 80, 2); }), "order");
    EXPECT_EQ(bad_input([] {
                  return quality_time(Fraction(0), celsius(20), per_hour(1), celsius(20), kj_per_mol(80));
              }),
              "left");
}

TEST(ColourDifference, all_pairs_of_sharma) {
    const auto rows = test::read_csv("ciede2000_sharma.csv");
    ASSERT_EQ(rows.size(), 34u);
    for (const auto& row : rows) {
        std::vector<double> x;
        for (const auto& cell : row) x.push_back(std::stod(cell));
        EXPECT_TRUE(within(colour_difference(x[1], x[2], x[3], x[4], x[5], x[6]), x[7], 5e-5)) << row[0];
        EXPECT_TRUE(within(colour_difference(x[4], x[5], x[6], x[1], x[2], x[3]), x[7], 5e-5)) << row[0];
    }
    EXPECT_EQ(colour_difference(60, 5, -3, 60, 5, -3), 0);
    // CIE 142-2001: black and white are 100 apart.
    EXPECT_TRUE(near(colour_difference(0, 0, 0, 100, 0, 0), 100, 1e-12));
}

}  // namespace
}  // namespace drysheet
