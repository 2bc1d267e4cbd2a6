// Weighed runs made up with a fixed seed: a curve, a clock, the balance's noise and steps, and slips.
#pragma once

#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

#include "drysheet/kinetics.hpp"

namespace drysheet::simulation {

inline constexpr double kSolids = 75, kWater = 425;  // g

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

struct Run {
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
inline Run weighed(const Curve& curve, std::vector<double> hours, std::mt19937& random, double noise = 1,
                   double step = 1) {
    std::normal_distribution<double> normal(0, 1);
    Run run{std::move(hours), {}};
    for (const double t : run.hours) {
        const double mass = kSolids + kWater * curve.left(t / run.hours.back()) + noise * normal(random);
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

}  // namespace drysheet::simulation
