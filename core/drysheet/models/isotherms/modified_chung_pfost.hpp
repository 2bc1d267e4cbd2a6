// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct ModifiedChungPfost : GrainIsotherm {
    static constexpr std::string_view
        name = "modified Chung-Pfost",
        moisture = "M = −ln(−(temp + C) × ln(activity) ÷ A) ÷ B\nmoisture = M ÷ 100",
        activity = "M = 100 × moisture_db\nactivity = exp(−A ÷ (temp + C) × exp(−B × M))", formula = activity,
        must_be_positive = "makes t + C of this model {}, which must be above 0";
    static constexpr bool may_be_negative(std::size_t k) { return k == 2; }
    static double positive(double t, Parameters p) { return t + p[2]; }
    template <class T>
    static T at(const auto& aw, double t, const auto& p) {
        return T(-log((t + p[2]) * wetness(aw) / p[0]) / p[1] / 100.0);
    }
    static double activity_at(double X, double t, Parameters p) {
        return std::exp(-p[0] / (t + p[2]) * std::exp(-p[1] * 100 * X));
    }
    static Starts starts(const IsothermPoints& d) {
        Starts all;
        for (const double C : {20.0, 60.0, 200.0}) {
            const auto c = d.line([&](std::size_t i) -> std::vector<double> {
                return {100 * d.X[i], 1, -d.ln_wetness(i) - std::log(d.t[i] + C)};
            });
            all.push_back({std::exp(c[0] / c[1]), 1 / c[1], C});
        }
        return all;
    }
};

}  // namespace drysheet::models
