// SPDX-License-Identifier: MPL-2.0
#pragma once

#include <utility>

#include "drysheet/models/isotherm.hpp"
#include "drysheet/numeric/roots.hpp"

namespace drysheet::models {

struct Peleg : Isotherm {
    static constexpr std::string_view
        name = "Peleg",
        source = "Peleg (1993) J. Food Process Eng. 16:21",
        moisture = "moisture = k1 × activity^n1 + k2 × activity^n2",
        activity =
            "try activity: searched between 0 and 1\nholds k1 × activity^n1 + k2 × "
            "activity^n2 = moisture_db",
        formula = moisture;
    static constexpr Names<4> parameters{"k1", "n1", "k2", "n2"};
    template <class T>
    static T at(const auto& aw, double, const auto& p) {
        return T(p[0] * pow(T(aw), p[1]) + p[2] * pow(T(aw), p[3]));
    }
    /// ln(X(aw)/X) over ln aw rises and is convex, so that Newton's steps from above do not overshoot.
    static double activity_at(double X, double, Parameters p) {
        if (X == 0) return 0;
        if (X >= p[0] + p[2]) return X == p[0] + p[2] ? 1 : kInfinity;
        const auto balance = [&](double u) {
            const double first = p[0] * std::exp(p[1] * u), second = p[2] * std::exp(p[3] * u);
            return std::pair(std::log((first + second) / X),
                             (p[1] * first + p[3] * second) / (first + second));
        };
        // Where one term alone is X, and where each is no more than half of it.
        const double high = std::fmin(std::log(X / p[0]) / p[1], std::log(X / p[2]) / p[3]),
                     low = std::fmin(std::log(X / p[0] / 2) / p[1], std::log(X / p[2] / 2) / p[3]);
        return std::exp(newton_root(balance, high, low, high, 40, "moisture_db"));
    }
    static constexpr double pole(Parameters) { return kInfinity; }
    static constexpr double low(std::size_t k) { return k == 3 ? 1 : 0; }
    static constexpr double high(std::size_t k) { return k == 1 ? 1 : kInfinity; }
    static Starts starts(const IsothermPoints& d) {
        Starts all;
        for (const double n1 : {0.3, 0.8})
            for (const double n2 : {2.0, 6.0, 15.0}) {
                const auto k = d.line([&](std::size_t i) -> std::vector<double> {
                    return {d.X[i], std::pow(d.aw[i], n1), std::pow(d.aw[i], n2)};
                });
                all.push_back({std::fmax(k[0], 1e-3), n1, std::fmax(k[1], 1e-3), n2});
            }
        return all;
    }
};

}  // namespace drysheet::models
