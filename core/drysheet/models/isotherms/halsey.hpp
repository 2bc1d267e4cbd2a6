// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherm.hpp"

namespace drysheet::models {

struct Halsey : Isotherm {
    static constexpr std::string_view name = "Halsey", source = "Halsey (1948) J. Chem. Phys. 16:931",
                                      moisture = "moisture = (−a ÷ ln(activity))^(1 ÷ b)",
                                      activity = "activity = exp(−a ÷ moisture_db^b)", formula = activity;
    static constexpr Names<2> parameters{"a", "b"};
    template <class T>
    static T at(const auto& aw, double, const auto& p) {
        return aw > 0 ? T(pow(T(p[0] / wetness(aw)), 1.0 / p[1])) : T(0.0);
    }
    static double activity_at(double X, double, Parameters p) { return std::exp(-p[0] * std::pow(X, -p[1])); }
    static Starts starts(const IsothermPoints& d) {
        const auto c = d.line([&](std::size_t i) -> std::vector<double> {
            return {d.ln_X(i), 1, -d.ln_wetness(i)};
        });
        return {{std::exp(c[0] / c[1]), 1 / c[1]}};
    }
};

}  // namespace drysheet::models
