// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct ModifiedOswin : GrainIsotherm {
    static constexpr std::string_view
        name = "modified Oswin",
        moisture = "M = (A + B × temp) × (activity ÷ (1 − activity))^(1 ÷ C)\nmoisture = M ÷ 100",
        activity = "M = 100 × moisture_db\nactivity = 1 ÷ (((A + B × temp) ÷ M)^C + 1)", formula = activity,
        must_be_positive = "makes A + B t of this model {}, which must be above 0";
    static constexpr bool may_be_negative(std::size_t k) { return k < 2; }
    static double positive(double t, Parameters p) { return p[0] + p[1] * t; }
    template <class T>
    static T at(const auto& aw, double t, const auto& p) {
        return T((p[0] + p[1] * t) * pow(T(odds(aw)), 1.0 / p[2]) / 100.0);
    }
    static double activity_at(double X, double t, Parameters p) {
        return 1 / (std::pow((p[0] + p[1] * t) / (100 * X), p[2]) + 1);
    }
    static Starts starts(const IsothermPoints& d) {
        Starts all;
        for (const double C : {1.5, 2.5, 4.0}) {
            const auto c = d.line([&](std::size_t i) -> std::vector<double> {
                const double f = std::exp(d.ln_odds(i) / C);
                return {100 * d.X[i], f, f * d.t[i]};
            });
            all.push_back({c[0], c[1], C});
        }
        return all;
    }
};

}  // namespace drysheet::models
