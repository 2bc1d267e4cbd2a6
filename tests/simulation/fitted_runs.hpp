// SPDX-License-Identifier: MPL-2.0
// Weighed runs and isotherms made up with a fixed seed, fitted, and what becomes of their 95 % intervals and
// verdicts.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <vector>

#include "drysheet/kinetics.hpp"
#include "drysheet/numeric/chances.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet::simulation {

using Numbers = std::vector<double>;

/// A run of 425 g of water in 75 g of solids, as a bench weighs it.
struct Bench {
    CurveModel model{};
    Numbers parameters;
    Numbers hours;      ///< on the clock
    double noise = 1;   ///< g, of every weighing, the first as well
    double step = 1;    ///< g, of the balance's display
    double jitter = 0;  ///< h, standard deviation of each time noted but the first
    double late = 0;   ///< h, by which the clock was started late, the first weighing being at the true start
    double spill = 0;  ///< g, lost half-way
};
struct Weighings {
    std::vector<Time> times;
    std::vector<Mass> masses;
    std::vector<MoistureRatio> ratios;
};
inline constexpr double kSolidGrams = 75, kWaterGrams = 425;
inline Mass grams_of(double x) { return Mass::from_value(x / 1000); }

inline Weighings weigh(const Bench& bench, std::mt19937_64& random) {
    std::normal_distribution<double> normal(0, 1);
    Weighings made;
    for (std::size_t i = 0; i < bench.hours.size(); ++i) {
        const double clock = bench.hours[i];
        const double t = i == 0 ? clock : std::max(0.0, clock + bench.late + bench.jitter * normal(random));
        double m = kSolidGrams +
                   kWaterGrams * curve(bench.model, Time::from_value(3600 * t), bench.parameters).value();
        if (2 * i >= bench.hours.size()) m -= bench.spill;
        m += bench.noise * normal(random);
        if (bench.step > 0) m = bench.step * std::round(m / bench.step);
        made.times.push_back(Time::from_value(3600 * clock));
        made.masses.push_back(grams_of(std::max(m, kSolidGrams)));
    }
    made.ratios = moisture_ratios(made.masses, grams_of(kSolidGrams), MoistureDry(0));
    return made;
}

/// Shares over many runs.
struct Shares {
    Numbers held;        ///< of the 95 % intervals of each parameter
    Numbers held_equal;  ///< the same by the errors of equal noise
    double doubted = 0;  ///< of runs whose verdict is not "follows"
    double refused = 0;
};
/// fit: one made-up case fitted, with the true parameters in the order of the fit's.
template <class Fit>
Shares shares(int runs, const Numbers& truth, const std::function<Fit()>& fit) {
    Shares s{Numbers(truth.size()), Numbers(truth.size())};
    int fitted = 0;
    for (int run = 0; run < runs; ++run) {
        try {
            const Fit found = fit();
            ++fitted;
            const double t =
                numeric::upper_t(0.025, static_cast<double>(found.points - found.parameters.size()));
            for (std::size_t k = 0; k < truth.size(); ++k) {
                const double off = std::abs(found.parameters[k] - truth[k]);
                s.held[k] += off <= t * found.robust_errors[k];
                s.held_equal[k] += off <= t * found.standard_errors[k];
            }
            s.doubted += found.misfit.kind != numeric::Misfit::Kind::none;
        } catch (const NoResult&) {
            s.refused += 1.0 / runs;
        }
    }
    for (auto* all : {&s.held, &s.held_equal})
        for (double& x : *all) x /= fitted;
    s.doubted /= fitted;
    return s;
}

inline Shares run_fits(int runs, const Bench& bench, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    Numbers truth = bench.parameters;
    truth.push_back(kWaterGrams / kSolidGrams);
    return shares<CurveFit>(runs, truth, [&] {
        const Weighings made = weigh(bench, random);
        return run_fit(bench.model, made.times, made.masses, grams_of(kSolidGrams), MoistureDry(0));
    });
}
inline Shares curve_fits(int runs, const Bench& bench, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    return shares<CurveFit>(runs, bench.parameters, [&] {
        const Weighings made = weigh(bench, random);
        return curve_fit(bench.model, made.times, made.ratios);
    });
}

/// Points of an isotherm over saturated salts.
struct Salts {
    IsothermModel model{};
    Numbers parameters;
    Numbers activities{0.113, 0.225, 0.328, 0.432, 0.529, 0.708, 0.753, 0.843, 0.902};
    double relative = 0;  ///< noise of the moistures, as a share of each
    double equal = 0;     ///< the same in kg/kg
    double jar = 0;       ///< standard deviation of each activity
    double probe = 0;     ///< by which all activities are too high
};
inline Shares isotherm_fits(int runs, const Salts& salts, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal(0, 1);
    return shares<IsothermFit>(runs, salts.parameters, [&] {
        std::vector<WaterActivity> activities;
        std::vector<MoistureDry> moistures;
        for (const double aw : salts.activities) {
            const double X = equilibrium_moisture(salts.model, WaterActivity(aw), salts.parameters).value();
            activities.emplace_back(aw + salts.probe + salts.jar * normal(random));
            moistures.emplace_back(X * (1 + salts.relative * normal(random)) + salts.equal * normal(random));
        }
        return fit_isotherm(salts.model, activities, moistures);
    });
}

inline Numbers every(double step, int readings) {
    Numbers hours;
    for (int i = 0; i < readings; ++i) hours.push_back(step * i);
    return hours;
}
/// Often at first, seldom later.
inline Numbers thinning() { return {0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12}; }

}  // namespace drysheet::simulation
