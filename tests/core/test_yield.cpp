// SPDX-License-Identifier: MPL-2.0
#include "drysheet/moisture.hpp"
#include "drysheet/yield.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::db;
using test::grams;
using test::kg;
using test::near;
using test::wb;

TEST(Yield, rounding_is_no_mass) {
    // A difference of two masses, each rounded to half a unit of the 52 bits: three units of the largest are
    // rounding, more is a mass; with four terms five units.
    const double unit = 0x1p-52;
    EXPECT_EQ(unless_rounding(kg(-3 * unit), kg(1)).value(), 0);
    EXPECT_EQ(unless_rounding(kg(-3.5 * unit), kg(1)).value(), -3.5 * unit);
    EXPECT_EQ(unless_rounding(kg(5 * unit), kg(1), 4).value(), 0);
    EXPECT_EQ(unless_rounding(kg(5.5 * unit), kg(1), 4).value(), 5.5 * unit);
}

TEST(Yield, solids_balance_of_textbooks) {
    // Geankoplis (1993) ex. 1.5-1, p. 10: 1000 kg/h juice, 7.08 % solids to 58 %: 122.1 kg/h, 877.9 kg/h
    // water.
    EXPECT_TRUE(near(dried_mass(kg(1000), wb(0.9292), wb(0.42)), 122.1, 5e-4));
    EXPECT_TRUE(near(water_removed(kg(1000), wb(0.9292), wb(0.42)), 877.9, 1e-4));
    // By hand: food of 70 % wet basis loses 80 % of its water, 0.56 of 0.70 kg; 0.14 kg stays with 0.30 kg of
    // solids, 14/44.
    EXPECT_TRUE(near(final_moisture(kg(1), wb(0.70), kg(0.44)), 14.0 / 44, 1e-12));
    EXPECT_TRUE(near(water_removed(kg(1), wb(0.70), wb(14.0 / 44)), 0.56, 1e-12));
    // Coulson & Richardson, Chemical Engineering vol. 2, problem 16.4: 100 kg from 30 % to 15.5 % wet
    // basis: 12.8 kg of water left, 17.2 kg removed.
    EXPECT_TRUE(near(water_removed(kg(100), wb(0.30), wb(0.155)), 17.2, 3e-3));
    EXPECT_TRUE(near(water_mass(dried_mass(kg(100), wb(0.30), wb(0.155)), wb(0.155)), 12.8, 4e-3));
    // Narayanan & Lakshmikutty (2006) ex. 3.12-3.14: 0.18 kg of water per kg of feed from 20 % to 2.44 % wet
    // basis.
    EXPECT_TRUE(near(water_removed(kg(1), wb(0.20), wet_basis(db(0.025))), 0.18, 1e-12));
    // Earle (1983), ex. 7.1, 80 % to 10 % wet basis: by hand 0.7/0.9 kg of water per kg.
    EXPECT_TRUE(near(water_removed(kg(1), wb(0.80), wb(0.10)), 0.7 / 0.9, 1e-12));
    // By hand: 10 kg at 320 % dry basis hold 10/4.2 kg of solids, 2 · 10/4.2 kg at 50 % wet basis.
    EXPECT_TRUE(near(water_removed(kg(10), wet_basis(db(3.2)), wb(0.5)), 10 - 20 / 4.2, 1e-12));
    // By hand: 100 g at 80 % lose 85 % of their water, 68 g: 12 g of water in 32 g.
    EXPECT_TRUE(near(final_moisture(grams(100), wb(0.80), grams(32)), 12.0 / 32, 1e-12));
}

TEST(Yield, inverses_return) {
    for (const double w0 : {0.6, 0.85, 0.93})
        for (const double w1 : {0.0, 0.05, 0.2, 0.6}) {
            const Mass fresh = grams(1234.5), dried = dried_mass(fresh, wb(w0), wb(w1));
            EXPECT_TRUE(near(fresh_for(dried, wb(w0), wb(w1)), to_si(fresh), 1e-13));
            EXPECT_TRUE(near(final_moisture(fresh, wb(w0), dried).value() - w1, 0, 1e-13));
            EXPECT_TRUE(near(start_moisture(fresh, dried, wb(w1)), w0, 1e-13));
            EXPECT_TRUE(near(to_si(water_removed(fresh, wb(w0), wb(w1)) + dried), to_si(fresh), 1e-13));
            EXPECT_TRUE(near(drying_ratio(wb(w0), wb(w1)), fresh / dried, 1e-13));
            EXPECT_TRUE(near(stop_mass(grams(310), fresh, wb(w0), wb(w1)), to_si(grams(310) + dried), 1e-13));
            EXPECT_TRUE(near(to_si(dried + rehydration_water(dried, wb(w1), wb(w0))), to_si(fresh), 1e-13));
            EXPECT_TRUE(near(to_si(solids_mass(dried, wb(w1))), to_si(solids_mass(fresh, wb(w0))), 1e-13));
        }
    EXPECT_EQ(to_si(dried_mass(kg(2), wb(0.3), wb(0.3))), 2);
    EXPECT_EQ(to_si(water_removed(kg(2), wb(0.3), wb(0.3))), 0);
    EXPECT_EQ(to_si(dried_mass(kg(0), wb(0.3), wb(0.1))), 0);
}

TEST(Yield, trimming_and_chains) {
    // By hand: 1000 g, 120 g peel and 80 g core: 0.8.
    EXPECT_TRUE(near(trim_yield(grams(1000), std::vector{grams(120), grams(80)}), 0.8, 1e-14));
    EXPECT_EQ(trim_yield(grams(1000), {}).value(), 1);
    EXPECT_EQ(trim_yield(grams(1000), std::vector{grams(1000)}).value(), 0);
    EXPECT_TRUE(near(chain_yield(std::vector{Fraction(0.8), Fraction(0.5), Fraction(0.25)}), 0.1, 1e-14));
    // By hand: 10 kg dried at a drying ratio of 6 from a trim yield of 0.8 and a sorting yield of 0.75: 100
    // kg.
    EXPECT_TRUE(near(raw_for(kg(10), 6, std::vector{Fraction(0.8), Fraction(0.75)}), 100, 1e-14));
    EXPECT_TRUE(near(raw_for(kg(10), 1, {}), 10, 1e-15));
    EXPECT_TRUE(near(prorate(grams(400), grams(60), kg(20)), 3, 1e-14));  // by hand: 60 · 20000/400 g
}

// Whole percents and whole grams are no binary fractions; bone dry is still bone dry.
TEST(Yield, exact_ends_are_no_mistakes) {
    for (int percent = 1; percent < 100; ++percent)
        for (const double fresh : {100.0, 250.0, 1000.0}) {
            const Mass solids = grams(fresh * (100 - percent) / 100);
            EXPECT_EQ(final_moisture(grams(fresh), wb(percent / 100.0), solids).value(), 0) << percent;
        }
    for (int peel = 1; peel < 20; ++peel)
        for (int core = 1; core < 20; ++core)
            EXPECT_EQ(
                trim_yield(grams((peel + core) / 10.0), std::vector{grams(peel / 10.0), grams(core / 10.0)})
                    .value(),
                0)
                << peel << ' ' << core;
    EXPECT_EQ(bad_input([] { return final_moisture(grams(100), wb(0.7), grams(29.999999)); }), "dried");
}

TEST(Yield, a_step_and_its_samples) {
    // By hand: 800 of 1000 g; 720 g of what 100 g of samples leave of 1000 g; all of it.
    EXPECT_TRUE(near(step_yield(grams(1000), grams(800)), 0.8, 1e-14));
    EXPECT_TRUE(near(step_yield(grams(1000), grams(720), std::vector{grams(60), grams(40)}), 0.8, 1e-14));
    for (int out = 1; out < 40; ++out)
        for (int sample = 1; sample < 40; ++sample)
            EXPECT_EQ(
                step_yield(grams((out + sample) / 10.0), grams(out / 10.0), std::vector{grams(sample / 10.0)})
                    .value(),
                1)
                << out << ' ' << sample;
    EXPECT_EQ(bad_input([] { return step_yield(kg(0), kg(1), {}); }), "in");
    EXPECT_EQ(bad_input([] { return step_yield(kg(1), kg(0), {}); }), "out");
    EXPECT_EQ(bad_input([] { return step_yield(kg(1), kg(1.001), {}); }), "out");
    EXPECT_EQ(bad_input([] { return step_yield(kg(1), kg(0.95), std::vector{kg(0.1)}); }), "out");
    EXPECT_EQ(bad_input([] { return step_yield(kg(1), kg(0.1), std::vector{kg(1)}); }), "kept");
}

TEST(Yield, a_purchase_there_and_back) {
    // By hand: 100 kg, trimmed to 0.8, sorted to 0.75, dried 6 : 1: 10 kg.
    const std::vector chain{Fraction(0.8), Fraction(0.75)};
    EXPECT_TRUE(near(dried_from(kg(100), 6, chain), 10, 1e-14));
    EXPECT_TRUE(near(raw_for(dried_from(kg(37), 4.2, chain), 4.2, chain), 37, 1e-14));
    EXPECT_EQ(bad_input([] { return dried_from(kg(1), 0.5, {}); }), "drying_ratio");
    EXPECT_EQ(bad_input([] { return dried_from(kg(1), 5, std::vector{Fraction(0)}); }), "yield");
}

TEST(Yield, unaccounted_is_signed) {
    EXPECT_TRUE(near(unaccounted(grams(500), std::vector{grams(450), grams(30)}), 0.020, 1e-12));
    EXPECT_TRUE(near(unaccounted(grams(500), std::vector{grams(450), grams(70)}), -0.020, 1e-12));
    EXPECT_EQ(to_si(unaccounted(grams(500), {})), 0.5);
}

TEST(Yield, blends) {
    // The Pearson square of Earle (1983) ex. 2.7, 23 % and 5 % make 15 % (fat there; any share blends so): by
    // hand 10 and 8 parts of 18.
    EXPECT_TRUE(near(blend_share(wb(0.23), wb(0.05), wb(0.15)), 10.0 / 18, 1e-12));
    EXPECT_TRUE(near(blend_share(wb(0.05), wb(0.23), wb(0.15)), 8.0 / 18, 1e-12));
    // By hand: 3.5 % and 20 % to 10 %, 10 parts of 16.5.
    const double s = blend_share(wb(0.035), wb(0.20), wb(0.10)).value();
    EXPECT_TRUE(near(s, 10.0 / 16.5, 1e-12));
    EXPECT_TRUE(
        near(blend_moisture(std::vector{kg(s), kg(1 - s)}, std::vector{wb(0.035), wb(0.20)}), 0.10, 1e-12));
    EXPECT_EQ(blend_share(wb(0.1), wb(0.2), wb(0.1)).value(), 1);
    EXPECT_EQ(blend_share(wb(0.1), wb(0.2), wb(0.2)).value(), 0);
    EXPECT_TRUE(near(blend_moisture(std::vector{kg(0), kg(2)}, std::vector{wb(0.9), wb(0.2)}), 0.2, 1e-15));
}

TEST(Yield, rehydration_by_hand) {
    EXPECT_TRUE(near(rehydration(grams(10), grams(56)), 5.6, 1e-14));
    EXPECT_EQ(rehydration(grams(10), grams(10)), 1);
    // 100 g at 10 % has 90 g of solids; at 55 % it weighs 200 g.
    EXPECT_TRUE(near(rehydration_water(grams(100), wb(0.10), wb(0.55)), 0.100, 1e-13));
}

TEST(Yield, refusals_name_the_argument) {
    EXPECT_EQ(bad_input([] { return trim_yield(kg(0), {}); }), "whole");
    EXPECT_EQ(bad_input([] { return trim_yield(kg(1), std::vector{kg(0.6), kg(0.5)}); }), "loss");
    EXPECT_EQ(bad_input([] { return water_removed(kg(1), wb(0.2), wb(0.3)); }), "final");
    EXPECT_EQ(bad_input([] { return dried_mass(kg(1), wb(0.2), wb(0.3)); }), "final");
    EXPECT_EQ(bad_input([] { return fresh_for(kg(1), wb(0.2), wb(0.3)); }), "final");
    EXPECT_EQ(bad_input([] { return drying_ratio(wb(0.2), wb(0.3)); }), "final");
    EXPECT_EQ(bad_input([] { return stop_mass(kg(1), kg(1), wb(0.2), wb(0.3)); }), "target");
    EXPECT_EQ(bad_input([] { return final_moisture(kg(1), wb(0.8), kg(0.19)); }), "dried");
    EXPECT_EQ(bad_input([] { return final_moisture(kg(1), wb(0.8), kg(1.1)); }), "dried");
    EXPECT_EQ(bad_input([] { return final_moisture(kg(0), wb(0.8), kg(0)); }), "dried");
    EXPECT_EQ(bad_input([] { return start_moisture(kg(1), kg(1.1), wb(0.1)); }), "dried");
    EXPECT_EQ(bad_input([] { return start_moisture(kg(1), kg(0), wb(0.1)); }), "dried");
    EXPECT_EQ(bad_input([] { return start_moisture(kg(0), kg(1), wb(0.1)); }), "fresh");
    EXPECT_EQ(bad_input([] { return prorate(kg(0), kg(0), kg(1)); }), "test_fresh");
    EXPECT_EQ(bad_input([] { return prorate(kg(1), kg(2), kg(1)); }), "test_dried");
    EXPECT_EQ(bad_input([] { return chain_yield({}); }), "yield");
    EXPECT_EQ(bad_input([] { return raw_for(kg(1), 0.5, {}); }), "drying_ratio");
    EXPECT_EQ(bad_input([] { return raw_for(kg(1), 5, std::vector{Fraction(0)}); }), "yield");
    EXPECT_EQ(bad_input([] { return blend_moisture(std::vector{kg(1)}, {}); }), "moistures");
    EXPECT_EQ(bad_input([] { return blend_moisture({}, {}); }), "masses");
    EXPECT_EQ(bad_input([] { return blend_share(wb(0.1), wb(0.1), wb(0.1)); }), "moisture_b");
    EXPECT_EQ(bad_input([] { return blend_share(wb(0.1), wb(0.2), wb(0.3)); }), "target");
    EXPECT_EQ(bad_input([] { return rehydration(kg(0), kg(1)); }), "dried");
    EXPECT_EQ(bad_input([] { return rehydration(kg(1), kg(0.9)); }), "rehydrated");
    EXPECT_EQ(bad_input([] { return rehydration_water(kg(1), wb(0.5), wb(0.4)); }), "target");
}

}  // namespace
}  // namespace drysheet
