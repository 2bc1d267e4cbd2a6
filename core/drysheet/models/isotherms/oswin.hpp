// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct Oswin : Isotherm {
    static constexpr std::string_view name = "Oswin", source = "Oswin (1946) J. Soc. Chem. Ind. 65:419",
                                      moisture = "moisture = a × (activity ÷ (1 − activity))^b",
                                      activity = "activity = 1 ÷ (1 + (a ÷ moisture_db)^(1 ÷ b))",
                                      formula = moisture;
    static constexpr Names<2> parameters{"a", "b"};
    template <class T>
    static T at(const auto& aw, double, const auto& p) {
        return T(p[0] * pow(T(odds(aw)), p[1]));
    }
    static double activity_at(double X, double, Parameters p) {
        return X == 0 ? 0 : 1 / (1 + std::pow(p[0] / X, 1 / p[1]));
    }
    static Starts starts(const IsothermPoints& d) {
        const auto c = d.line([&](std::size_t i) -> std::vector<double> {
            return {d.ln_X(i), 1, d.ln_odds(i)};
        });
        return {{std::exp(c[0]), c[1]}};
    }
};

}  // namespace drysheet::models
