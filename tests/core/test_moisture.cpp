// SPDX-License-Identifier: MPL-2.0
#include "drysheet/moisture.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::db;
using test::kg;
using test::near;
using test::wb;

TEST(Moisture, worked_examples_of_the_two_bases) {
    // Narayanan & Lakshmikutty, Stoichiometry and Process Calculations (2006), ex. 3.12-3.14: 250 kg wet
    // material with 50 kg of water, 20 % wet basis and 25 % dry basis; 90 % of the water removed: 2.44 %
    // wet, 2.5 % dry.
    EXPECT_TRUE(near(dry_basis(wb(50.0 / 250)), 0.25, 1e-12));
    EXPECT_TRUE(near(wet_basis(db(5.0 / 200)), 0.0244, 2e-3));
    EXPECT_TRUE(near(dry_basis(wb(5.0 / 205)), 0.025, 1e-12));
    // By hand: 85/15, 90/190, 75/25.
    EXPECT_TRUE(near(dry_basis(wb(0.85)), 85.0 / 15, 1e-12));
    EXPECT_TRUE(near(wet_basis(db(0.90)), 90.0 / 190, 1e-12));
    EXPECT_TRUE(near(dry_basis(wb(0.75)), 3.0, 1e-12));
    // Singh & Heldman, Introduction to Food Engineering, ch. 12 (cube of 77 % wet, critical at 30 %
    // wet): 3.35, 0.43.
    EXPECT_TRUE(near(dry_basis(wb(0.77)), 3.35, 2e-3));
    EXPECT_TRUE(near(dry_basis(wb(0.30)), 0.43, 4e-3));
}

TEST(Moisture, oven_test) {
    // Geankoplis (1993) problem 9.6-1, the tray as its own dish: 4.944 kg wet, 3.765 kg dry; at
    // equilibrium 3.955 kg, which is 0.190 kg of water on 3.765 kg, and 0.989 kg free, X = 0.263.
    EXPECT_TRUE(near(oven_moisture(kg(0), kg(4.944), kg(3.765)), (4.944 - 3.765) / 4.944, 1e-12));
    EXPECT_TRUE(near(to_si(dry_basis(oven_moisture(kg(0), kg(4.944), kg(3.765)))) -
                         to_si(dry_basis(oven_moisture(kg(0), kg(3.955), kg(3.765)))),
                     0.263, 2e-3));
    // By hand: dish 20.000 g, 25.000 g wet, 21.200 g dry: 3.8 of 5 g.
    EXPECT_TRUE(near(oven_moisture(test::grams(20), test::grams(25), test::grams(21.2)), 0.76, 1e-12));
    EXPECT_TRUE(near(oven_moisture(kg(1), kg(2), kg(2)), 0, 1e-15));
}

TEST(Moisture, solids_and_water_make_the_mass) {
    // Geankoplis (1993) ex. 1.5-1: 1000 kg juice of 7.08 % solids.
    EXPECT_TRUE(near(solids_mass(kg(1000), wb(0.9292)), 70.8, 1e-12));
    // By hand: 10 kg at 320 % dry basis hold 3.2 parts of 4.2 as water.
    EXPECT_TRUE(near(water_mass(kg(10), wet_basis(db(3.2))), 32 / 4.2, 1e-12));
    for (const double w : {0.0, 0.1, 0.5, 0.93, 0.999})
        EXPECT_TRUE(near(to_si(solids_mass(kg(3), wb(w)) + water_mass(kg(3), wb(w))), 3, 1e-15));
}

TEST(Moisture, bases_are_inverse) {
    for (const double w : {0.0, 1e-9, 0.05, 0.5, 0.85, 0.999999})
        EXPECT_TRUE(near(wet_basis(dry_basis(wb(w))), w, 1e-12)) << w;
    for (const double X : {1e-9, 0.1, 1.0, 19.0, 1e6})
        EXPECT_TRUE(near(dry_basis(wet_basis(db(X))), X, 1e-9)) << X;
}

TEST(Moisture, ratio) {
    EXPECT_TRUE(near(moisture_ratio(db(4), db(4), db(0.1)), 1, 1e-15));
    EXPECT_TRUE(near(moisture_ratio(db(0.1), db(4), db(0.1)), 0, 1e-15));
    EXPECT_TRUE(near(moisture_ratio(db(2.05), db(4), db(0.1)), 0.5, 1e-12));  // halfway, by hand
    EXPECT_TRUE(near(moisture_ratio(db(1), db(4), db(0)), 0.25, 1e-15));
    EXPECT_GT(to_si(moisture_ratio(db(4.1), db(4), db(0))), 1);  // noise is passed on
    EXPECT_LT(to_si(moisture_ratio(db(0.05), db(4), db(0.1))), 0);
}

TEST(Moisture, refusals) {
    EXPECT_EQ(test::refused<OutOfRange>([] { return wet_basis(db(1e17)); }), "moisture_db");
    EXPECT_EQ(bad_input([] { return oven_moisture(kg(1), kg(1), kg(1)); }), "dish_wet");
    EXPECT_EQ(bad_input([] { return oven_moisture(kg(1), kg(2), kg(1)); }), "dish_dry");
    EXPECT_EQ(bad_input([] { return oven_moisture(kg(1), kg(2), kg(2.1)); }), "dish_dry");
    EXPECT_EQ(bad_input([] { return oven_moisture(kg(1), kg(2), kg(0.5)); }), "dish_dry");
    EXPECT_EQ(bad_input([] { return moisture_ratio(db(1), db(2), db(2)); }), "equilibrium_db");
    EXPECT_EQ(bad_input([] { return moisture_ratio(db(1), db(2), db(3)); }), "equilibrium_db");
}

}  // namespace
}  // namespace drysheet
