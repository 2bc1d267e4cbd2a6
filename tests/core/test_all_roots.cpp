// SPDX-License-Identifier: MPL-2.0
// All roots over a range: known roots, none, many, touching ones, edges, jumps and poles; in bounded steps.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "drysheet/numeric/all_roots.hpp"

namespace drysheet {
namespace {

using numeric::all_roots;
using numeric::Roots;
using numeric::search_grid;

constexpr std::size_t kSteps = 60;

struct Found : Roots {
    std::size_t calls = 0;
};
Found found(const numeric::Curve& f, const Limits& limits) {
    Found made;
    const auto counted = [&](double x) {
        ++made.calls;
        return f(x);
    };
    static_cast<Roots&>(made) = all_roots(counted, search_grid(limits), kSteps);
    EXPECT_LE(made.calls, kSteps);
    return made;
}
void one_root(const Found& roots, double x, double tolerance = 1e-11) {
    ASSERT_EQ(roots.at.size(), 1u);
    EXPECT_FALSE(roots.flat);
    EXPECT_LE(std::abs(roots.at[0] - x), tolerance * std::abs(x)) << roots.at[0];
}

TEST(AllRoots, OneRoot) {
    // Wallis's cubic, x³ - 2x - 5 = 0: Sloane, OEIS A007493.
    one_root(found([](double x) { return x * x * x - 2 * x - 5; }, within(0, 10)), 2.0945514815423265);
    one_root(found([](double x) { return x * x * x - 2 * x - 5; }, any_number()), 2.0945514815423265);
    one_root(found([](double x) { return std::log(x); }, positive), 1);
    // cos x = x: Sloane, OEIS A003957.
    one_root(found([](double x) { return std::cos(x) - x; }, within(0, 1)), 0.73908513321516064);
    one_root(found([](double x) { return x - 3e7; }, at_least(0)), 3e7);
    one_root(found([](double x) { return 1 / (1 - x) - 1e4; }, from_to_below(0, 1)), 1 - 1e-4);
    one_root(found([](double x) { return x; }, at_least(0)), 0, 1e-300);
}

TEST(AllRoots, NoneAndWhatWasSeen) {
    const Found none = found([](double x) { return x * x + 1; }, within(-2, 1));
    EXPECT_TRUE(none.at.empty() && none.somewhere && !none.unfinished);
    EXPECT_GE(none.least, 1);
    EXPECT_EQ(none.most, 5);
    const Found nowhere = found([](double) { return std::nullopt; }, within(0, 1));
    EXPECT_TRUE(nowhere.at.empty() && !nowhere.somewhere);
}

TEST(AllRoots, EveryRoot) {
    const Found three = found([](double x) { return (x - 1) * (x - 2) * (x - 4); }, within(0, 5));
    ASSERT_EQ(three.at.size(), 3u);
    const double expected[] = {1, 2, 4};
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(three.at[i], expected[i], 1e-10);
    // Both between two points of the grid.
    const Found close = found([](double x) { return (x - 0.401) * (x - 0.404); }, within(0, 1));
    ASSERT_EQ(close.at.size(), 2u);
    EXPECT_NEAR(close.at[0], 0.401, 1e-10);
    EXPECT_NEAR(close.at[1], 0.404, 1e-10);
}

TEST(AllRoots, OneThatTouches) {
    one_root(found([](double x) { return (x - 0.4) * (x - 0.4); }, within(0, 1)), 0.4, 1e-5);
    EXPECT_TRUE(found([](double x) { return (x - 0.4) * (x - 0.4) + 1e-3; }, within(0, 1)).at.empty());
}

TEST(AllRoots, JumpsAndPolesAreNone) {
    EXPECT_TRUE(found([](double x) { return x < 0.4321 ? -1.0 : 2.0; }, within(0, 1)).at.empty());
    EXPECT_TRUE(found([](double x) { return 1 / (x - 0.4321); }, within(0, 1)).at.empty());
}

TEST(AllRoots, AStretchIsFlat) {
    EXPECT_TRUE(found([](double x) { return std::ceil(10 * x) - 4; }, within(0, 1)).flat);
    EXPECT_TRUE(found([](double) { return 0.0; }, within(0, 1)).flat);
    EXPECT_TRUE(found([](double x) { return std::max(0.0, x - 0.9999); }, within(0, 1)).flat);
}

TEST(AllRoots, UpToAnEdge) {
    // A value above 0.437 only; the root close to it, and at it.
    for (const double root : {0.4371, 0.437})
        one_root(found(
                     [root](double x) {
                         return x < 0.437 ? std::nullopt : std::optional(std::sqrt(x) - std::sqrt(root));
                     },
                     within(0, 1)),
                 root, 1e-7);
    // A value between 0.2201 and 0.2209 of the range only: no point of the grid.
    EXPECT_FALSE(
        found([](double x) { return x < 0.2201 || x > 0.2209 ? std::nullopt : std::optional(x - 0.2205); },
              within(0, 1))
            .somewhere);
}

}  // namespace
}  // namespace drysheet
