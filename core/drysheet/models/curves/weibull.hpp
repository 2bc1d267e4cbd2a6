// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct Weibull {
    static constexpr std::string_view name = "Weibull", source = "Weibull 1951, J. Appl. Mech. 18:293",
                                      ratio = "exp(−(time ÷ alpha)^beta)",
                                      time = "alpha × (−ln(ratio))^(1 ÷ beta)";
    static constexpr Names<2> parameters{"alpha", "beta"};
    static auto at(const Instant& x, const auto& p) { return exp(-exp(p[1] * (x.ln_t - log(p[0])))); }
    static std::optional<double> time_at(double MR, Parameters p) {
        const auto t_n = exponential_time(MR, 1);
        return t_n ? std::optional(p[0] * std::pow(*t_n, 1 / p[1])) : t_n;
    }
    static Starts starts(const CurvePoints& seen) {
        return {{std::pow(seen.page_k, -1 / seen.page_n), seen.page_n}};
    }
};

}  // namespace drysheet::models
