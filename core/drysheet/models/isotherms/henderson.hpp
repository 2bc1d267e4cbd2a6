// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct Henderson : Isotherm {
    static constexpr std::string_view name = "Henderson", source = "Henderson (1952) Agric. Eng. 33:29",
                                      moisture = "moisture = (−ln(1 − activity) ÷ a)^(1 ÷ b)",
                                      activity = "activity = 1 − exp(−a × moisture_db^b)", formula = activity;
    static constexpr Names<2> parameters{"a", "b"};
    template <class T>
    static T at(const auto& aw, double, const auto& p) {
        return T(pow(T(dryness(aw) / p[0]), 1.0 / p[1]));
    }
    static double activity_at(double X, double, Parameters p) {
        return -std::expm1(-p[0] * std::pow(X, p[1]));
    }
    static Starts starts(const IsothermPoints& d) {
        const auto c = d.line([&](std::size_t i) -> std::vector<double> {
            return {d.ln_X(i), 1, d.ln_dryness(i)};
        });
        return {{std::exp(-c[0] / c[1]), 1 / c[1]}};
    }
};

}  // namespace drysheet::models
