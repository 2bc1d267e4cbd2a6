// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct ModifiedHenderson : GrainIsotherm {
    static constexpr std::string_view
        name = "modified Henderson",
        moisture = "M = (−ln(1 − activity) ÷ (A × (temp + C)))^(1 ÷ B)\nmoisture = M ÷ 100",
        activity = "M = 100 × moisture_db\nactivity = 1 − exp(−A × (temp + C) × M^B)", formula = activity,
        must_be_positive = "makes t + C of this model {}, which must be above 0";
    static constexpr bool may_be_negative(std::size_t k) { return k == 2; }
    static double positive(double t, Parameters p) { return t + p[2]; }
    template <class T>
    static T at(const auto& aw, double t, const auto& p) {
        return T(pow(dryness(aw) / (p[0] * (t + p[2])), 1.0 / p[1]) / 100.0);
    }
    static double activity_at(double X, double t, Parameters p) {
        return -std::expm1(-p[0] * (t + p[2]) * std::pow(100 * X, p[1]));
    }
    static Starts starts(const IsothermPoints& d) {
        Starts all;
        for (const double C : {20.0, 60.0, 200.0}) {
            const auto c = d.line([&](std::size_t i) -> std::vector<double> {
                return {d.ln_M(i), 1, d.ln_dryness(i) - std::log(d.t[i] + C)};
            });
            all.push_back({std::exp(-c[0] / c[1]), 1 / c[1], C});
        }
        return all;
    }
};

}  // namespace drysheet::models
