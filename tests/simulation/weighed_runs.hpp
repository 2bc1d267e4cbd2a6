// SPDX-License-Identifier: MPL-2.0
// Weighed runs made up with a fixed seed: a curve, a clock, the balance's noise and steps, and slips.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <optional>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

#include "drysheet/kinetics.hpp"

namespace drysheet::simulation {

inline constexpr double kSolids = 75, kWater = 425, kBound = 8;  // g: what leaves, and what the air lets stay

/// The share of the water still there after u, the share of the run's time; nearly 0 at u = 1.
struct Curve {
    std::string_view name;
    std::function<double(double u)> left;
};

/// A constant rate R till `bend` of the water is left, then R g(f), f the share of the bend's water.
inline Curve two_periods(std::string_view name, double bend, double R, std::function<double(double)> g) {
    constexpr int kSteps = 4000;
    std::vector<double> left{1.0};
    for (int i = 0; i < kSteps; ++i) {  // midpoint rule
        const auto rate = [&](double x) { return x >= bend ? R : x <= 0 ? 0 : R * g(x / bend); };
        const double h = 1.0 / kSteps;
        left.push_back(left.back() - h * rate(left.back() - h / 2 * rate(left.back())));
    }
    return {name, [left](double u) {
                const double at = u * kSteps;
                const auto i = std::min(static_cast<std::size_t>(at), left.size() - 2);
                const double part = at - static_cast<double>(i);
                return left[i] * (1 - part) + left[i + 1] * part;
            }};
}

/// Diffusion in a slab with a surface film: MR = Σ 2 Bi² exp(−β² Fo)/(β² (β² + Bi² + Bi)), β tan β = Bi.
/// Crank 1975, The mathematics of diffusion, 2nd ed, eq. 4.53.
inline double film_slab(double Fo, double Bi) {
    double sum = 0;
    for (int n = 0; n < 60; ++n) {
        double low = n * std::numbers::pi, high = low + std::numbers::pi / 2;
        for (int k = 0; k < 60; ++k) {
            const double b = (low + high) / 2;
            (b * std::sin(b) < Bi * std::cos(b) ? low : high) = b;
            if (n % 2 == 1) (b * std::sin(b) > Bi * std::cos(b) ? low : high) = b;
        }
        const double b = (low + high) / 2;
        sum += 2 * Bi * Bi * std::exp(-b * b * Fo) / (b * b * (b * b + Bi * Bi + Bi));
    }
    return sum;
}

struct MadeRun {
    std::vector<double> hours, grams;  ///< grams of material, without tray

    std::vector<Time> times() const {
        std::vector<Time> all;
        for (const double t : hours) all.push_back(Time::from_value(3600 * t));
        return all;
    }
    std::vector<Mass> masses() const {
        std::vector<Mass> all;
        for (const double m : grams) all.push_back(Mass::from_value(m / 1000));
        return all;
    }
};
inline Mass solids() { return Mass::from_value(kSolids / 1000); }

/// Readings at these hours of a run whose curve ends at the last: noise of the balance, then its steps.
inline MadeRun weighed(const Curve& curve, std::vector<double> hours, std::mt19937& random, double noise = 1,
                       double step = 1) {
    std::normal_distribution<double> normal(0, 1);
    MadeRun run{std::move(hours), {}};
    for (const double t : run.hours) {
        const double mass =
            kSolids + kBound + kWater * curve.left(t / run.hours.back()) + noise * normal(random);
        run.grams.push_back(step > 0 ? step * std::round(mass / step) : mass);
    }
    return run;
}

inline std::vector<double> every(double step, int readings) {
    std::vector<double> hours;
    for (int i = 0; i < readings; ++i) hours.push_back(step * i);
    return hours;
}
/// How people weigh: often at first, seldom later.
inline std::vector<double> thinning() {
    return {0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12};
}

/// Runs without a constant-rate period.
inline std::vector<Curve> smooth_curves() {
    const auto page = [](double n) { return [n](double u) { return std::exp(-4 * std::pow(u, n)); }; };
    return {{"Page 1.15", page(1.15)},
            {"Page 1.3", page(1.3)},
            {"Lewis", page(1)},
            {"tanh", [](double u) { return 0.3 * std::asinh(std::sinh(1 / 0.3) * std::exp(-2 * u / 0.3)); }},
            {"slab", [](double u) { return slab_ratio(1.5 * u).value(); }}};
}

/// Runs with one, down to `share` of the water.
struct Bent {
    Curve curve;
    double share, rate;  ///< of the water; of the water in the whole time
    double moisture() const { return (kBound + share * kWater) / kSolids; }
};
inline std::vector<Bent> bent_curves() {
    const auto made = [](std::string_view name, double share, double rate,
                         std::function<double(double)> fall) {
        return Bent{two_periods(name, share, rate, std::move(fall)), share, rate};
    };
    const auto kinked = [](double at, double height) {
        return
            [=](double f) { return f > at ? height + (1 - height) * (f - at) / (1 - at) : height * f / at; };
    };
    return {made("linear fall", 0.5, 2, [](double f) { return f; }),
            made("quadratic fall", 0.5, 2.5, [](double f) { return f * f; }),
            made("square-root fall", 0.5, 1.6, [](double f) { return std::sqrt(f); }),
            made("fall kinked down", 0.5, 2, kinked(0.4, 0.3)),
            made("fall kinked up", 0.5, 1.8, kinked(0.6, 0.8))};
}
/// The bend, where it is found.
inline std::optional<CriticalPoint> bend(const MadeRun& run) {
    try {
        const auto point = critical_point(run.times(), run.masses(), solids());
        if (point.finding == BendFinding::found) return point;
    } catch (const NoResult&) {
        return std::nullopt;
    }
    return std::nullopt;
}

/// Slabs, and what is none, over the hours of a run.
struct SlabRun {
    std::string_view name;
    std::function<double(double t, double end)> left;
    bool clean = false;
    Curve curve(double end) const {
        return {name, [*this, end](double u) { return left(u * end, end); }};
    }
};
inline std::vector<SlabRun> slab_runs() {
    const auto slab = [](double t, double end) { return slab_ratio(1.5 * t / end).value(); };
    return {{"slab", slab, true},
            {"short slab", [](double t, double end) { return slab_ratio(0.5 * t / end).value(); }, true},
            {"film, Bi 10", [](double t, double end) { return film_slab(1.5 * t / end, 10); }},
            {"clock 6 min late", [=](double t, double end) { return slab(t > 0 ? t + 0.1 : 0, end); }},
            {"first mass late, too", [=](double t, double end) { return slab(t + 0.1, end); }},
            {"stops at 0.5 h", [=](double t, double end) { return slab(std::min(t, 0.5), end); }},
            {"stops half-way", [=](double t, double end) { return slab(std::min(t, 0.3 * end), end); }},
            {"straight line", [](double t, double end) { return 1 - 0.9 * t / end; }}};
}
inline bool slab_doubted(const MadeRun& run) {
    const auto ratios = moisture_ratios(run.masses(), solids(), MoistureDry(kBound / kSolids));
    return diffusivity(run.times(), ratios, Length::from_value(0.006), 2).misfit.kind !=
           numeric::Misfit::Kind::none;
}

}  // namespace drysheet::simulation
