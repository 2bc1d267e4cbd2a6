// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct ModifiedHalsey : GrainIsotherm {
    static constexpr std::string_view
        name = "modified Halsey",
        moisture = "M = (−exp(A + B × temp) ÷ ln(activity))^(1 ÷ C)\nmoisture = M ÷ 100",
        activity = "M = 100 × moisture_db\nactivity = exp(−exp(A + B × temp) ÷ M^C)", formula = activity;
    static constexpr bool may_be_negative(std::size_t k) { return k < 2; }
    template <class T>
    static T at(const auto& aw, double t, const auto& p) {
        return aw > 0 ? T(pow(exp(p[0] + p[1] * t) / wetness(aw), 1.0 / p[2]) / 100.0) : T(0.0);
    }
    static double activity_at(double X, double t, Parameters p) {
        return std::exp(-std::exp(p[0] + p[1] * t) * std::pow(100 * X, -p[2]));
    }
    static Starts starts(const IsothermPoints& d) {
        const auto c = d.line([&](std::size_t i) -> std::vector<double> {
            return {d.ln_M(i), 1, d.t[i], -d.ln_wetness(i)};
        });
        return {{c[0] / c[2], c[1] / c[2], 1 / c[2]}};
    }
};

}  // namespace drysheet::models
