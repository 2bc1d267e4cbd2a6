// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/isotherms/gab.hpp"

namespace drysheet::models {

struct Bet : Isotherm {
    static constexpr std::string_view
        name = "BET",
        source = "Brunauer, Emmett & Teller (1938) J. Am. Chem. Soc. 60:309",
        moisture = "moisture = Xm × C × activity ÷ ((1 − activity) × (1 − activity + C × activity))",
        activity =
            ": the isotherm is a quadratic in activity\n"
            "b = Xm × C − (C − 2) × moisture_db\n"
            "activity = 2 × moisture_db ÷ (b + sqrt(b^2 + 4 × (C − 1) × moisture_db^2))",
        formula = moisture;
    static constexpr Names<2> parameters{"Xm", "C"};
    template <class T>
    static T at(const auto& aw, double, const auto& p) {
        return Gab::reduced<T>(T(aw), p[0], p[1]);
    }
    static double activity_at(double X, double, Parameters p) { return Gab::reduced_inverse(X, p[0], p[1]); }
    static Starts starts(const IsothermPoints& d) {
        Starts all;
        for (const double C : {2.0, 10.0, 50.0}) {
            const auto Xm = d.line([&](std::size_t i) -> std::vector<double> {
                return {d.X[i], Gab::reduced(d.aw[i], 1.0, C)};
            });
            all.push_back({Xm[0], C});
        }
        return all;
    }
};

}  // namespace drysheet::models
