// SPDX-License-Identifier: MPL-2.0
#include <limits>

#include "drysheet/statistics.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::bad_input;
using test::near;

// NIST StRD, univariate summary statistics, certified values.
TEST(Statistics, NIST_StRD_univariate) {
    const Replicates one = replicates(std::vector{10000001.0, 10000003.0, 10000002.0});  // NumAcc1
    EXPECT_EQ(one.mean, 10000002);
    EXPECT_EQ(one.sd, 1);
    const struct {
        double base;
        double tolerance;  // of sd: what the rounding of the readings themselves leaves
    } sets[] = {{0, 1e-14}, {1e6, 1e-9}, {1e7, 1e-8}};  // NumAcc2, NumAcc3, NumAcc4
    for (const auto& [base, tolerance] : sets) {
        std::vector<double> x{base + (base == 0 ? 1.2 : 0.2)};
        for (int i = 0; i < 500; ++i) {
            x.push_back(base + (base == 0 ? 1.1 : 0.1));
            x.push_back(base + (base == 0 ? 1.3 : 0.3));
        }
        const Replicates r = replicates(x);
        EXPECT_EQ(r.n, 1001u);
        EXPECT_TRUE(near(r.mean, base + (base == 0 ? 1.2 : 0.2), 1e-15)) << base;
        EXPECT_TRUE(near(r.sd, 0.1, tolerance)) << base;
    }
}

// Two-sided Student t, printed in every table of it; here GUM (JCGM 100:2008) table G.2.
TEST(Statistics, student_t_of_printed_tables) {
    const struct {
        int degrees;
        double confidence;
        double t;
    } table[] = {{1, 0.95, 12.71}, {2, 0.95, 4.30}, {4, 0.95, 2.78},  {9, 0.95, 2.26}, {20, 0.95, 2.09},
                 {2, 0.99, 9.92},  {4, 0.99, 4.60}, {16, 0.99, 2.92}, {1, 0.90, 6.31}, {30, 0.90, 1.70}};
    for (const auto& [degrees, confidence, t] : table) {
        std::vector<double> x(static_cast<std::size_t>(degrees) + 1, 1.0);
        x[0] = 2;
        const Replicates r = replicates(x, Fraction(confidence));
        EXPECT_LE(std::abs(r.half_width / r.se - t), 0.0051) << degrees;
    }
}

// Harvey, Analytical Chemistry (LibreTexts), appendix "Critical values for Grubbs's test", alpha 0.05 and
// 0.01 two-sided. Its rows n = 7 at 0.05 and n = 15 at 0.01 are misprints (2.202 for 2.020; the row of n = 14
// repeated) and left out.
TEST(Statistics, grubbs_critical_values_of_a_printed_table) {
    const struct {
        std::size_t n;
        double five, one;
    } table[] = {{3, 1.155, 1.155},  {4, 1.481, 1.496},  {5, 1.715, 1.764},  {6, 1.887, 1.973},
                 {8, 2.126, 2.274},  {9, 2.215, 2.387},  {10, 2.290, 2.482}, {11, 2.355, 2.564},
                 {12, 2.412, 2.636}, {13, 2.462, 2.699}, {14, 2.507, 2.755}};
    for (const auto& [n, five, one] : table) {
        std::vector<double> x(n, 1.0);
        x[0] = 2;
        EXPECT_LE(std::abs(*replicates(x, Fraction(0.95)).grubbs_limit - five), 0.0021) << n;
        EXPECT_LE(std::abs(*replicates(x, Fraction(0.99)).grubbs_limit - one), 0.0021) << n;
    }
    std::vector<double> seven(7,
                              1.0);  // by the formula with t(1 − 0.05/14; 5) = 4.38175 of scipy.stats.t.ppf
    seven[0] = 2;
    EXPECT_LE(std::abs(*replicates(seven).grubbs_limit - 2.0200), 0.0001);
}

// NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17.1: mass spectrometer readings, G = 2.4687,
// critical value 2.032 at alpha 0.05, the largest value an outlier. The example there is two-sided in words;
// its critical value is that of n = 8 one-sided, so only G is held against it, and by hand: (245.57 −
// 206.43375)/15.8527.
TEST(Statistics, grubbs_statistic_of_the_NIST_handbook) {
    const Replicates r =
        replicates(std::vector{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57});
    EXPECT_TRUE(near(*r.grubbs, 2.4687, 3e-5));
    EXPECT_EQ(r.suspect, 245.57);
    EXPECT_TRUE(r.outlier);
}

TEST(Statistics, mean_and_interval_by_hand) {
    // 3, 4, 5: mean 4, s 1, se 1/√3, t(0.975; 2) = 4.302653 (scipy.stats.t.ppf; printed as 4.303 in
    // Biometrika Tables for Statisticians, 1966).
    const Replicates r = replicates(std::vector{3.0, 4.0, 5.0});
    EXPECT_EQ(r.n, 3u);
    EXPECT_EQ(r.mean, 4);
    EXPECT_EQ(r.sd, 1);
    EXPECT_TRUE(near(r.se, 0.5773502691896258, 1e-14));
    EXPECT_TRUE(near(r.half_width, 4.302653 * 0.5773502691896258, 1e-6));
    EXPECT_TRUE(near(r.high - r.low, 2 * r.half_width, 1e-14));
    EXPECT_FALSE(r.outlier);
    EXPECT_EQ(r.suspect, 3);  // the first of the two as far out
}

TEST(Statistics, edges) {
    const Replicates two = replicates(std::vector{1.0, 2.0});
    EXPECT_FALSE(two.grubbs_limit.has_value());
    EXPECT_FALSE(two.outlier);
    const Replicates same = replicates(std::vector{0.1, 0.1, 0.1, 0.1});
    EXPECT_EQ(same.mean, 0.1);
    EXPECT_EQ(same.sd, 0);
    EXPECT_FALSE(same.grubbs.has_value());
    EXPECT_FALSE(same.outlier);
}

TEST(Statistics, refusals) {
    EXPECT_EQ(bad_input([] { return replicates({}); }), "range");
    // One reading has no spread, and is told so: not that it is too large.
    try {
        (void)replicates(std::vector{1.0});
        FAIL();
    } catch (const BadInput& refusal) {
        EXPECT_EQ(refusal.argument(), "range");
        EXPECT_EQ(refusal.reason(), "must hold two readings or more to have a spread");
    }
    EXPECT_EQ(bad_input([] {
                  return replicates(std::vector{1.0, std::numeric_limits<double>::quiet_NaN()});
              }),
              "range");
    EXPECT_EQ(bad_input([] { return replicates(std::vector{-1e300, 1e300}); }), "range");
    EXPECT_EQ(bad_input([] { return replicates(std::vector{1.0, 2.0}, Fraction(0)); }), "confidence");
    EXPECT_EQ(bad_input([] { return replicates(std::vector{1.0, 2.0}, Fraction(1)); }), "confidence");
}

}  // namespace
}  // namespace drysheet
