// SPDX-License-Identifier: MPL-2.0
#include <array>
#include <cmath>
#include <random>

#include "drysheet/balance.hpp"
#include "drysheet/yield.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::grams;
using test::near;
using test::wb;
using test::within;

TEST(Balance, closure_by_hand) {
    // u = sqrt(3² + 4²) = 5 g, gap 8 g = 1.6 u: closes; gap 12 g = 2.4 u: a loss.
    const Closure closes = closure(grams(100), grams(3), std::vector{grams(92)}, std::vector{grams(4)});
    EXPECT_TRUE(near(closes.gap, 0.008, 1e-12));
    EXPECT_TRUE(near(closes.gap_share, 0.08, 1e-12));
    EXPECT_TRUE(near(closes.u, 0.005, 1e-12));
    EXPECT_TRUE(near(*closes.gap_over_u, 1.6, 1e-12));
    EXPECT_EQ(closes.verdict, ClosureVerdict::closes);
    EXPECT_EQ(closure(grams(100), grams(3), std::vector{grams(88)}, std::vector{grams(4)}).verdict,
              ClosureVerdict::loss);
    const Closure gain =
        closure(grams(100), grams(3), std::vector{grams(60), grams(52)}, std::vector{grams(4), grams(0)});
    EXPECT_TRUE(near(*gain.gap_over_u, -2.4, 1e-12));
    EXPECT_EQ(gain.verdict, ClosureVerdict::gain);
    // One uncertainty for all: 4 outs of 1 g each and 0 in make 2 g.
    const std::vector four(4, grams(25));
    EXPECT_TRUE(near(closure(grams(100), grams(0), four, std::vector{grams(1)}).u, 0.002, 1e-12));
    const Closure exact = closure(grams(100), grams(0), std::vector{grams(99)}, std::vector{grams(0)});
    EXPECT_EQ(exact.verdict, ClosureVerdict::unjudged);
    EXPECT_FALSE(exact.gap_over_u.has_value());
}

TEST(Balance, closure_refusals) {
    const std::vector one{grams(1)}, two{grams(1), grams(1)}, three{grams(1), grams(1), grams(1)},
        below{grams(-1)};
    EXPECT_EQ(bad_input([&] { return closure(grams(0), grams(1), one, one); }), "in");
    EXPECT_EQ(bad_input([&] { return closure(grams(9), grams(-1), one, one); }), "u_in");
    EXPECT_EQ(bad_input([&] { return closure(grams(9), grams(1), {}, one); }), "outs");
    EXPECT_EQ(bad_input([&] { return closure(grams(9), grams(1), three, two); }), "u_outs");
    EXPECT_EQ(bad_input([&] { return closure(grams(9), grams(1), one, below); }), "u_outs");
}

TEST(Balance, stages_by_hand) {
    // Peeling 1000 -> 850 g; slicing 850 -> 800 g with a 20 g sample kept; milling 800 -> 780 g.
    const auto run =
        stages(std::vector{grams(1000), grams(850), grams(800)},
               std::vector{grams(850), grams(800), grams(780)}, std::vector{grams(0), grams(20), grams(0)});
    ASSERT_EQ(run.size(), 3u);
    EXPECT_TRUE(near(run[0].loss, 0.150, 1e-12));
    EXPECT_TRUE(near(run[0].yield, 0.85, 1e-12));
    EXPECT_TRUE(near(run[1].loss, 0.030, 1e-12));
    EXPECT_TRUE(near(run[1].loss_share, 30.0 / 830, 1e-12));
    EXPECT_TRUE(near(run[1].yield, 800.0 / 830, 1e-12));
    EXPECT_TRUE(near(run[2].cumulative_yield, 0.85 * (800.0 / 830) * (780.0 / 800), 1e-12));
    for (const Stage& stage : run) EXPECT_TRUE(near(stage.yield + stage.loss_share, 1, 1e-12));
    // A step by itself is the same.
    EXPECT_TRUE(
        near(step_yield(grams(850), grams(800), std::vector{grams(20)}).value(), run[1].yield, 1e-15));
    EXPECT_TRUE(near(step_yield(grams(800), grams(780)).value(), run[2].yield, 1e-15));
    // A gain shows as a negative loss.
    EXPECT_LT(to_si(stages(std::vector{grams(100)}, std::vector{grams(101)}, {})[0].loss), 0);
}

TEST(Balance, stages_refusals) {
    const std::vector one{grams(1)}, two{grams(1), grams(1)}, zero{grams(0)}, below{grams(-1)};
    EXPECT_EQ(bad_input([&] { return stages({}, {}, {}); }), "in");
    EXPECT_EQ(bad_input([&] { return stages(zero, one, {}); }), "in");
    EXPECT_EQ(bad_input([&] { return stages(one, two, {}); }), "out");
    EXPECT_EQ(bad_input([&] { return stages(one, below, {}); }), "out");
    EXPECT_EQ(bad_input([&] { return stages(one, one, two); }), "kept");
    EXPECT_EQ(bad_input([&] { return stages(one, one, below); }), "kept");
    EXPECT_EQ(bad_input([&] { return stages(one, zero, one); }), "kept");
}

Reconciliation of(const std::vector<double>& v) {
    return reconcile(grams(v[0]), grams(v[1]), wb(v[2]), Fraction(v[3]), grams(v[4]), grams(v[5]), wb(v[6]),
                     Fraction(v[7]));
}

// An independent constrained minimiser: see tests/reference/make_reconcile.py.
TEST(Balance, reconcile_agrees_with_scipy) {
    const auto rows = test::reference("reconcile.csv", ';');
    ASSERT_GE(rows.size(), 9u);
    for (const auto& row : rows) {
        std::vector<double> v;
        for (const auto& cell : row) v.push_back(std::stod(cell));
        const Reconciliation r = of(v);
        EXPECT_TRUE(near(r.fresh.adjusted, v[8] / 1000, 1e-8)) << row[0];
        EXPECT_TRUE(near(r.start.adjusted, v[9], 1e-8)) << row[0];
        EXPECT_TRUE(near(r.dried.adjusted, v[10] / 1000, 1e-8)) << row[0];
        EXPECT_TRUE(near(r.final.adjusted, v[11], 1e-7)) << row[0];
        EXPECT_TRUE(near(r.fresh.u, v[12] / 1000, 1e-5)) << row[0];
        EXPECT_TRUE(near(r.start.u, v[13], 1e-5)) << row[0];
        EXPECT_TRUE(near(r.dried.u, v[14] / 1000, 1e-5)) << row[0];
        EXPECT_TRUE(near(r.final.u, v[15], 1e-5)) << row[0];
        EXPECT_TRUE(near(r.chi2, v[16], 1e-7)) << row[0];
        EXPECT_TRUE(near(r.u_solids, v[17] / 1000, 1e-5)) << row[0];
        EXPECT_TRUE(near(r.u_water, v[18] / 1000, 1e-5)) << row[0];
        EXPECT_TRUE(near(*r.fresh.noticeable, v[19] / 1000, 1e-5)) << row[0];
        EXPECT_TRUE(near(*r.dried.noticeable, v[20] / 1000, 1e-5)) << row[0];
    }
}

// With both moistures the same and exactly known, two weighings of one thing: the weighted mean (Bevington &
// Robinson, Data Reduction and Error Analysis, 3rd ed., sec. 4.1). By hand 25 ± 3 and 29 ± 2 make (25/9 +
// 29/4)/(1/9 + 1/4) = 361/13, u = 6/√13, chi² = 4²/(9 + 4).
TEST(Balance, reconcile_of_two_weighings_is_the_weighted_mean) {
    const Reconciliation r = of({25, 3, 0.5, 0, 29, 2, 0.5, 0});
    EXPECT_TRUE(near(r.fresh.adjusted, 361.0 / 13 / 1000, 1e-12));
    EXPECT_TRUE(near(r.dried.adjusted, 361.0 / 13 / 1000, 1e-12));
    EXPECT_TRUE(near(r.fresh.u, 6 / std::sqrt(13.0) / 1000, 1e-12));
    EXPECT_TRUE(near(r.chi2, 16.0 / 13, 1e-12));
    EXPECT_TRUE(near(r.water, 0, 1e-15));
    EXPECT_FALSE(r.start.correction_over_u.has_value());
    EXPECT_EQ(r.verdict, ReconcileVerdict::agree);
}

TEST(Balance, reconcile_p_of_the_chi_squared_table) {
    // Chi² with one degree of freedom: 3.841 is exceeded with probability 0.05, 6.635 with 0.01 (every
    // printed table). Two weighings of 100 g, each with u such that the difference is sqrt(3.841) combined u.
    const auto at = [](double chi2) { return of({100, 1, 0.5, 0, 100 + std::sqrt(2 * chi2), 1, 0.5, 0}); };
    EXPECT_TRUE(near(at(3.841).p, 0.05, 3e-4));
    EXPECT_TRUE(near(at(6.635).p, 0.01, 1e-3));
    EXPECT_EQ(at(3.841).verdict, ReconcileVerdict::agree);
    EXPECT_EQ(at(3.842).verdict, ReconcileVerdict::doubtful);
    EXPECT_EQ(at(6.634).verdict, ReconcileVerdict::doubtful);
    EXPECT_EQ(at(6.635).verdict, ReconcileVerdict::disagree);
}

TEST(Balance, reconcile_identities) {
    for (const auto& v : std::vector<std::vector<double>>{{1000, 1, 0.85, 0.005, 170, 0.5, 0.10, 0.005},
                                                          {500, 20, 0.9, 0.03, 90, 8, 0.2, 0.05},
                                                          {1000, 1, 0.8, 0.05, 260, 2, 0.1, 1e-9}}) {
        const Reconciliation r = of(v);
        // The balance closes.
        EXPECT_TRUE(near(r.fresh.adjusted * (1 - r.start.adjusted.value()) /
                             (r.dried.adjusted * (1 - r.final.adjusted.value())),
                         1, 1e-13));
        EXPECT_TRUE(near(r.solids, to_si(r.fresh.adjusted) * (1 - r.start.adjusted.value()), 1e-14));
        // Stationary: correction/u² is one multiplier times the gradient.
        const double F = to_si(r.fresh.adjusted), a = 1 - r.start.adjusted.value(),
                     D = to_si(r.dried.adjusted), b = 1 - r.final.adjusted.value();
        const double l = *r.fresh.correction_over_u / (v[1] / 1000) / a;
        EXPECT_TRUE(near(*r.start.correction_over_u / v[3] / -F, l, 1e-9));
        EXPECT_TRUE(near(*r.dried.correction_over_u / (v[5] / 1000) / -b, l, 1e-9));
        EXPECT_TRUE(near(*r.final.correction_over_u / v[7] / D, l, 1e-6));
        // No value is less certain after.
        EXPECT_LE(to_si(r.fresh.u), v[1] / 1000 * (1 + 1e-12));
        EXPECT_LE(to_si(r.start.u), v[3]);
        EXPECT_LE(to_si(r.dried.u), v[5] / 1000 * (1 + 1e-12));
        EXPECT_LE(to_si(r.final.u), v[7] * (1 + 1e-12));
        EXPECT_TRUE(near(r.p, std::erfc(std::sqrt(r.chi2 / 2)), 1e-14));
        // With the lost product back the values as given balance.
        EXPECT_TRUE(near(v[0] / 1000 * (1 - v[2]), (v[4] / 1000 + to_si(r.lost)) * (1 - v[6]), 1e-12));
    }
    // Values that agree stay as they are.
    const Reconciliation same = of({1000, 1, 0.8, 0.01, 250, 1, 0.2, 0.01});
    EXPECT_TRUE(near(same.fresh.adjusted, 1, 1e-12));
    EXPECT_TRUE(near(same.final.adjusted, 0.2, 1e-12));
    EXPECT_TRUE(near(same.chi2, 0, 1e-20));
    EXPECT_TRUE(near(same.p, 1, 1e-9));
}

TEST(Balance, reconcile_what_could_be_noticed) {
    // By hand, u of the gap: √((0.2·10)² + (1000·0.01)² + (0.8·5)² + (250·0.02)²) = √145 g of solids; 10.507
    // is the noncentrality that a chi² test of one degree of freedom at 5 % finds with power 0.9
    // (scipy.stats.ncx2).
    const Reconciliation r = of({1000, 10, 0.8, 0.01, 250, 5, 0.2, 0.02});
    const double solids = std::sqrt(10.507 * 145);
    EXPECT_TRUE(near(*r.fresh.noticeable, solids / 0.2 / 1000, 1e-4));
    EXPECT_TRUE(near(*r.start.noticeable, solids / 1000, 1e-4));
    EXPECT_TRUE(near(*r.dried.noticeable, solids / 0.8 / 1000, 1e-4));
    EXPECT_TRUE(near(*r.final.noticeable, solids / 250, 1e-4));
    EXPECT_TRUE(near(r.lost, 0, 1e-15));
    EXPECT_TRUE(near(r.u_lost, std::sqrt(145) / 0.8 / 1000, 1e-12));
    // No moisture can be wrong by more than what lies between it and 0 or 1: here 3.24·√2·200 g on 900 g of
    // solids would have to be seen in a moisture of 0.1.
    const Reconciliation vague = of({1000, 200, 0.1, 0, 1000, 200, 0.1, 0});
    EXPECT_TRUE(near(*vague.start.noticeable, 3.2415 * std::sqrt(2) * 0.18, 1e-4));
    EXPECT_FALSE(of({1000, 250, 0.1, 0, 1000, 250, 0.1, 0}).start.noticeable.has_value());
    // Nothing but the fresh mass is uncertain: 980 g are 5 g of dried product short of the others' 250 g.
    const Reconciliation short_of = of({980, 20, 0.8, 0, 250, 0, 0.2, 0});
    EXPECT_TRUE(near(short_of.lost, -0.005, 1e-12));
    EXPECT_TRUE(near(short_of.u_lost, 0.005, 1e-12));
}

TEST(Balance, reconcile_notices_nine_in_ten_such_errors) {
    // Weighings and moistures with their own noise, and one error more in one of them, either way: the check
    // speaks up in 9 of 10. Without one in 1 of 20. 4000 runs: the standard error of a share is at most 0.5
    // %.
    const std::vector<double> truth{1000, 8, 0.8, 0.008, 250, 3, 0.2, 0.01};
    const Reconciliation at_truth = of(truth);
    const std::array errors{0.0, 1000 * to_si(*at_truth.fresh.noticeable), at_truth.start.noticeable->value(),
                            1000 * to_si(*at_truth.dried.noticeable), at_truth.final.noticeable->value()};
    std::mt19937_64 engine(1961);
    std::normal_distribution<double> normal;
    constexpr int kRuns = 4000;
    for (std::size_t wrong = 0; wrong < errors.size(); ++wrong) {
        int noticed = 0;
        for (int run = 0; run < kRuns; ++run) {
            std::vector<double> v = truth;
            for (std::size_t i = 0; i < 8; i += 2) v[i] += v[i + 1] * normal(engine);
            if (wrong > 0) v[2 * wrong - 2] += (run % 2 == 0 ? 1 : -1) * errors[wrong];
            noticed += of(v).verdict == ReconcileVerdict::agree ? 0 : 1;
        }
        EXPECT_TRUE(within(noticed / double{kRuns}, wrong > 0 ? 0.9 : 0.05, 0.02)) << wrong;
    }
}

TEST(Balance, reconcile_refusals) {
    EXPECT_EQ(bad_input([] { return of({0, 1, 0.8, 0.1, 1, 1, 0.1, 0.1}); }), "fresh");
    EXPECT_EQ(bad_input([] { return of({1, 1, 0.8, 0.1, 0, 1, 0.1, 0.1}); }), "dried");
    EXPECT_EQ(bad_input([] { return of({1, -1, 0.8, 0.1, 1, 1, 0.1, 0.1}); }), "u_fresh");
    EXPECT_EQ(bad_input([] { return of({1, 0, 0.8, 0, 1, 0, 0.1, 0}); }), "u_fresh");
    // Only the final moisture may move, and it would have to go below 0.
    EXPECT_EQ(bad_input([] { return of({1000, 0, 0.8, 0, 190, 0, 0.1, 0.1}); }), "final");
}

TEST(Balance, reconcile_far_apart_ends) {
    // Absurd data end in an answer or a refusal, never in a hang or a plausible clamp.
    for (const double u : {1e-300, 1e-9, 0.01, 0.3, 1.0})
        for (const double dried : {1e-300, 1.0, 250.0, 5000.0, 1e9, 1e300}) try {
                const Reconciliation r = of({1000, 1000 * u, 0.8, 0.2 * u, dried, dried * u, 0.2, 0.8 * u});
                EXPECT_TRUE(near(to_si(r.fresh.adjusted) * (1 - r.start.adjusted.value()),
                                 to_si(r.dried.adjusted) * (1 - r.final.adjusted.value()), 1e-9));
            } catch (const NoResult&) {
            }
}

}  // namespace
}  // namespace drysheet
