// SPDX-License-Identifier: MPL-2.0
// The table of several functions: exact where a cubic is, within its stated bound where not, smooth at nodes.
#include <gtest/gtest.h>

#include <cmath>

#include "drysheet/numeric/hermite.hpp"

namespace drysheet {
namespace {

const HermiteTable<2> table(
    [](double x) {
        return std::array{std::sin(x), 2 - x + 3 * x * x * x};
    },
    0, 0.1, 50);

TEST(Hermite, WithinItsBound) {
    for (double x = 0; x <= 5; x += 0.0137) {
        const auto at = table.at(x);
        EXPECT_LE(std::abs(at.value(0) - std::sin(x)), 1e-4 / 384 * 1.01) << x;  // step⁴/384 · max|sin''''|
        EXPECT_NEAR(at.slope(0), std::cos(x), 1e-4) << x;
        EXPECT_NEAR(at.curvature(0), -std::sin(x), 3e-3) << x;
    }
}

TEST(Hermite, ExactForACubicAlsoOutside) {
    for (const double x : {-0.3, 0.0, 0.05, 1.0, 3.33, 5.0, 5.4}) {
        const auto at = table.at(x);
        EXPECT_NEAR(at.value(1), 2 - x + 3 * x * x * x, 1e-9) << x;
        EXPECT_NEAR(at.slope(1), -1 + 9 * x * x, 1e-8) << x;
        EXPECT_NEAR(at.curvature(1), 18 * x, 1e-6) << x;
    }
}

TEST(Hermite, ContinuousAtNodes) {
    for (double node = 0.1; node < 4.95; node += 0.1) {
        const auto before = table.at(node - 1e-12), after = table.at(node + 1e-12);
        EXPECT_NEAR(before.value(0), after.value(0), 1e-11) << node;
        EXPECT_NEAR(before.slope(0), after.slope(0), 1e-9) << node;
    }
}

}  // namespace
}  // namespace drysheet
