// SPDX-License-Identifier: MPL-2.0
// The two searches: a known root, bounded steps, and a refusal where there is none.
#include <gtest/gtest.h>

#include <cmath>
#include <utility>

#include "drysheet/numeric/roots.hpp"

namespace drysheet {
namespace {

std::pair<double, double> cubic(double x) { return {x * x * x - 2 * x - 5, 3 * x * x - 2}; }
// Wallis's cubic x³ - 2x - 5 = 0, the example on which Newton's method was first shown.
// Root: Sloane, OEIS A007493.
constexpr double kWallis = 2.0945514815423265;

TEST(Roots, WallisCubic) {
    EXPECT_NEAR(newton_root(cubic, 2, 0.9, 10), kWallis, 1e-14);
    EXPECT_NEAR(newton_root(cubic, 9.9, 0.9, 10), kWallis, 1e-14);
    EXPECT_NEAR(bracketed_root([](double x) { return cubic(x).first; }, 0, 10), kWallis, 1e-11);
}

TEST(Roots, RootAtAnEnd) {
    const auto line = [](double x) { return std::pair(x - 1, 1.0); };
    EXPECT_EQ(bracketed_root([](double x) { return x - 1; }, 1, 2), 1);
    EXPECT_EQ(bracketed_root([](double x) { return 1 - x; }, 0, 1), 1);
    EXPECT_NEAR(newton_root(line, 1.5, 1, 2), 1, 1e-10);
}

TEST(Roots, NoRootIsRefused) {
    EXPECT_THROW(bracketed_root([](double x) { return x * x + 1; }, -1, 1), NoConvergence);
    EXPECT_THROW(bracketed_root([](double) { return std::nan(""); }, -1, 1), NoConvergence);
    EXPECT_THROW(newton_root([](double x) { return std::pair(x * x + 1, 2 * x); }, 0.7, -1, 1),
                 NoConvergence);
    EXPECT_THROW(newton_root([](double x) { return std::pair(std::exp(x), std::exp(x)); }, 1, 0.5, 2),
                 NoConvergence);
    EXPECT_THROW(newton_root([](double) { return std::pair(std::nan(""), 1.0); }, 1, 0.5, 2), NoConvergence);
}

}  // namespace
}  // namespace drysheet
