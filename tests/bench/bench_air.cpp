// SPDX-License-Identifier: MPL-2.0
// What a cell's arithmetic costs: each function over a spread of states, with its time as a multiple of one
// std::exp timed in the same run.
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <ctime>

#include "drysheet/air.hpp"
#include "drysheet/water.hpp"

namespace drysheet {
namespace {

constexpr std::size_t kStates = 1024;  // a power of two
struct State {
    Temperature temp;
    RelativeHumidity rh;
};
// 5 to 85 °C and 5 to 95 %, in no order that a branch predictor could learn.
const std::array<State, kStates>& states() {
    static const auto made = [] {
        std::array<State, kStates> all;
        for (std::size_t i = 0; i < kStates; ++i) {
            const double a = std::fmod(0.618033988749895 * static_cast<double>(i), 1.0),
                         b = std::fmod(0.754877666246693 * static_cast<double>(i), 1.0);
            all[i] = {from_si<Temperature>(278.15 + 80 * a), RelativeHumidity(0.05 + 0.9 * b)};
        }
        return all;
    }();
    return made;
}
const Pressure kSea = from_si<Pressure>(101325);

double exponential(const State& s) { return std::exp(-s.rh.value()); }

// Seconds of the processor's time, so that other work on the machine does not count.
double now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double one_exp() {
    static const double seconds = [] {
        constexpr int passes = 20000;
        const double start = now();
        for (int pass = 0; pass < passes; ++pass)
            for (const State& s : states()) benchmark::DoNotOptimize(exponential(s));
        return (now() - start) / passes / static_cast<double>(kStates);
    }();
    return seconds;
}

template <auto F>
void over_states(benchmark::State& run) {
    const double exp = one_exp();
    std::size_t i = 0;
    const double start = now();
    for (auto _ : run) benchmark::DoNotOptimize(F(states()[i++ % kStates]));
    run.counters["exps"] = (now() - start) / static_cast<double>(run.iterations()) / exp;
}

double saturation(const State& s) { return saturation_pressure(s.temp).value(); }
double ratio(const State& s) { return humidity_ratio(s.temp, s.rh, kSea).value(); }
double enthalpy(const State& s) { return air_enthalpy(s.temp, s.rh, kSea).value(); }
double wet(const State& s) { return wet_bulb(s.temp, s.rh, kSea).value(); }
double dew(const State& s) { return dew_point(s.temp, s.rh, kSea).value(); }
double pickup(const State& s) { return air_pickup(s.temp, s.rh, RelativeHumidity(0.96), kSea).value(); }

BENCHMARK(over_states<exponential>)->Name("std::exp");
BENCHMARK(over_states<saturation>)->Name("saturation pressure");
BENCHMARK(over_states<ratio>)->Name("humidity ratio");
BENCHMARK(over_states<enthalpy>)->Name("enthalpy");
BENCHMARK(over_states<wet>)->Name("wet bulb");
BENCHMARK(over_states<dew>)->Name("dew point");
BENCHMARK(over_states<pickup>)->Name("pick-up");

}  // namespace
}  // namespace drysheet

BENCHMARK_MAIN();
