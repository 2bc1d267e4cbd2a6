// SPDX-License-Identifier: MPL-2.0
// What RUNCHECK, CRITICALPOINT and DIFFUSIVITY make of runs made up: shares over many. FIGURES.md has them.
#include <iomanip>
#include <iostream>

#include "tests/simulation/weighed_runs.hpp"

using namespace drysheet;
using namespace drysheet::simulation;

namespace {

constexpr int kRuns = 100;

double percent(int part, int whole) { return whole == 0 ? 0 : std::round(1000.0 * part / whole) / 10; }
double in_hours(Time t) { return t.value() / 3600; }

void slips(const std::vector<double>& hours, std::mt19937& random) {
    for (const auto& curve : smooth_curves()) {
        int clean = 0, single = 0, swapped = 0, spill = 0;
        for (int i = 0; i < kRuns; ++i) {
            const MadeRun made = weighed(curve, hours, random);
            const auto n = static_cast<int>(hours.size());
            const auto at = static_cast<std::size_t>(std::uniform_int_distribution<>(2, n - 3)(random));
            const auto named = [at](const MadeRun& run) {
                return std::ranges::any_of(run_check(run.times(), run.masses()), [at](const auto& doubt) {
                    return doubt.reading >= at && doubt.reading <= at + 2;
                });
            };
            clean += !run_check(made.times(), made.masses()).empty();
            MadeRun run = made;
            run.grams[at] += i % 2 == 0 ? 15 : -15;
            single += named(run);
            run = made;
            std::swap(run.grams[2], run.grams[3]);
            swapped += std::ranges::any_of(run_check(run.times(), run.masses()), [](const auto& doubt) {
                return doubt.reading == 3 && doubt.what == ReadingSlip::swapped_with_next;
            });
            run = made;
            for (std::size_t k = at; k < run.grams.size(); ++k) run.grams[k] -= 15;
            spill += named(run);
        }
        std::cout << "  " << std::setw(18) << curve.name << "  doubted clean " << percent(clean, kRuns)
                  << " %, found: single 15 g " << percent(single, kRuns) << ", swapped "
                  << percent(swapped, kRuns) << ", spill 15 g " << percent(spill, kRuns) << '\n';
    }
}

void bends(const std::vector<double>& hours, std::mt19937& random) {
    for (const auto& curve : smooth_curves()) {
        int found = 0;
        for (int i = 0; i < kRuns; ++i) found += bend(weighed(curve, hours, random)).has_value();
        std::cout << "  " << std::setw(18) << curve.name << "  found falsely " << percent(found, kRuns)
                  << " %\n";
    }
    for (const auto& made : bent_curves()) {
        int found = 0, moisture = 0, time = 0, rate = 0;
        for (int i = 0; i < kRuns; ++i) {
            const auto point = bend(weighed(made.curve, hours, random));
            if (!point) continue;
            ++found;
            const auto holds = [](double got, double truth, double u) {
                return std::abs(got - truth) <= 2 * u;
            };
            const double end = hours.back(), water = kWater / kSolids;
            moisture += holds(point->moisture.value(), made.moisture(), point->u_moisture.value());
            time += holds(in_hours(point->time), (1 - made.share) / made.rate * end, in_hours(point->u_time));
            rate += holds(point->rate.value() * 3600, made.rate * water / end, point->u_rate.value() * 3600);
        }
        std::cout << "  " << std::setw(18) << made.curve.name << "  found " << percent(found, kRuns)
                  << " %, then hold: moisture " << percent(moisture, found) << ", time "
                  << percent(time, found) << ", rate " << percent(rate, found) << '\n';
    }
}

void slabs(const std::vector<double>& hours, std::mt19937& random) {
    for (const auto& made : slab_runs()) {
        int doubted = 0;
        for (int i = 0; i < kRuns; ++i)
            doubted += slab_doubted(weighed(made.curve(hours.back()), hours, random));
        std::cout << "  " << std::setw(18) << made.name << "  does not follow " << percent(doubted, kRuns)
                  << " %\n";
    }
}

}  // namespace

int main() {
    struct Clock {
        const char* name;
        std::vector<double> hours;
    };
    for (const Clock& clock : {Clock{"13 hourly", every(1, 13)}, Clock{"25 half-hourly", every(0.5, 25)},
                               Clock{"16, often at first", thinning()}}) {
        std::mt19937 random(11);
        std::cout << clock.name << "\n slips\n";
        slips(clock.hours, random);
        std::cout << " bends\n";
        bends(clock.hours, random);
        std::cout << " slabs\n";
        slabs(clock.hours, random);
    }
}
