// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct Gab : Isotherm {
    static constexpr std::string_view
        name = "GAB",
        source = "van den Berg & Bruin (1981) in Water Activity: Influences on Food Quality",
        moisture = "u = K × activity\nmoisture = Xm × C × u ÷ ((1 − u) × (1 − u + C × u))",
        activity =
            ": the isotherm is a quadratic in u = K × activity\n"
            "b = Xm × C − (C − 2) × moisture_db\n"
            "u = 2 × moisture_db ÷ (b + sqrt(b^2 + 4 × (C − 1) × moisture_db^2))\n"
            "activity = u ÷ K",
        formula = moisture;
    static constexpr Names<3> parameters{"Xm", "C", "K"};
    /// In the reduced activity u = K aw; BET is K = 1.
    template <class T>
    static T reduced(const T& u, const T& Xm, const T& C) {
        return Xm * C * u / ((1.0 - u) * (1.0 - u + C * u));
    }
    /// The root 0 ≤ u < 1 of (C − 1) u² + b u − 1 = 0, with b = Xm C / X − (C − 2), by the form without
    /// cancellation.
    static double reduced_inverse(double X, double Xm, double C) {
        if (X == 0) return 0;
        const double b = Xm * C / X - (C - 2);
        const double root = std::sqrt(b * b + 4 * (C - 1));
        return b >= 0 ? 2 / (b + root) : (root - b) / (2 * (C - 1));
    }
    template <class T>
    static T at(const auto& aw, double, const auto& p) {
        return reduced<T>(p[2] * aw, p[0], p[1]);
    }
    static double activity_at(double X, double, Parameters p) {
        return reduced_inverse(X, p[0], p[1]) / p[2];
    }
    static double pole(Parameters p) { return 1 / p[2]; }
    static Starts starts(const IsothermPoints& d) {
        Starts all;
        for (const double K : {0.6, 0.8, 0.95})
            for (const double C : {2.0, 10.0, 50.0}) {
                const auto Xm = d.line([&](std::size_t i) -> std::vector<double> {
                    return {d.X[i], reduced(K * d.aw[i], 1.0, C)};
                });
                all.push_back({Xm[0], C, K});
            }
        return all;
    }
};

}  // namespace drysheet::models
