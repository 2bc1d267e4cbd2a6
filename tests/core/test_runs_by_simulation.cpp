// SPDX-License-Identifier: MPL-2.0
// Weighed runs made up with fixed seeds: what is called a slip, a bend, a slab. The long runs and their
// figures are in tests/simulation.
#include <gtest/gtest.h>

#include "tests/simulation/weighed_runs.hpp"

using namespace drysheet;
using namespace drysheet::simulation;

namespace {

constexpr int kRuns = 30;

TEST(SimulatedRuns, clean_ones_are_hardly_ever_doubted) {
    std::mt19937 random(1);
    int doubted = 0, runs = 0;
    for (const auto& curve : smooth_curves())
        for (int i = 0; i < kRuns; ++i, ++runs) {
            const MadeRun run = weighed(curve, every(0.5, 25), random);
            doubted += !run_check(run.times(), run.masses()).empty();
        }
    EXPECT_LE(doubted, runs / 20);
}

TEST(SimulatedRuns, slips_are_found) {
    std::mt19937 random(2);
    int singles = 0, swaps = 0, spills = 0, runs = 0;
    for (const auto& curve : smooth_curves())
        for (int i = 0; i < kRuns; ++i, ++runs) {
            const MadeRun clean = weighed(curve, every(0.5, 25), random);
            const auto at = static_cast<std::size_t>(3 + i % 18);
            const auto named = [at](const MadeRun& run) {
                const auto found = run_check(run.times(), run.masses());
                return std::ranges::any_of(
                    found, [&](const auto& doubt) { return doubt.reading >= at && doubt.reading <= at + 2; });
            };
            MadeRun run = clean;
            run.grams[at] += i % 2 == 0 ? 15 : -15;
            singles += named(run);
            run = clean;
            std::swap(run.grams[2], run.grams[3]);
            swaps += std::ranges::any_of(run_check(run.times(), run.masses()), [](const auto& doubt) {
                return doubt.reading == 3 && doubt.what == ReadingSlip::swapped_with_next;
            });
            run = clean;
            for (std::size_t k = at; k < run.grams.size(); ++k) run.grams[k] -= 15;
            spills += named(run);
        }
    EXPECT_GE(singles, 0.9 * runs);
    EXPECT_GE(swaps, 0.9 * runs);
    EXPECT_GE(spills, 0.8 * runs);
}

TEST(SimulatedRuns, no_bend_is_found_where_there_is_none) {
    std::mt19937 random(3);
    int found = 0, runs = 0;
    for (const auto& curve : smooth_curves())
        for (int i = 0; i < kRuns / 3; ++i, ++runs)
            found += bend(weighed(curve, every(0.5, 25), random)).has_value();
    EXPECT_LE(found, runs / 20);
}

TEST(SimulatedRuns, intervals_of_a_bend_hold) {
    std::mt19937 random(4);
    int held = 0, found = 0;
    for (const auto& made : bent_curves())
        for (int i = 0; i < kRuns / 3; ++i)
            if (const auto point = bend(weighed(made.curve, every(0.5, 25), random))) {
                ++found;
                held += std::abs(point->moisture.value() - made.moisture()) <= 2 * point->u_moisture.value();
            }
    EXPECT_GE(found, 0.8 * kRuns / 3 * static_cast<int>(bent_curves().size()));
    EXPECT_GE(held, 0.85 * found);
}

TEST(SimulatedRuns, only_a_slab_follows_a_slab) {
    for (const auto& made : slab_runs()) {
        std::mt19937 random(5);
        int doubted = 0;
        for (int i = 0; i < kRuns; ++i)
            doubted += slab_doubted(weighed(made.curve(6), every(0.5, 13), random));
        if (made.clean)
            EXPECT_LE(doubted, kRuns / 10) << made.name;  // 1 in 20 over many: tests/simulation
        else
            EXPECT_GE(doubted, 0.9 * kRuns) << made.name;
    }
}

}  // namespace
