// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct Page {
    static constexpr std::string_view name = "Page", source = "Page 1949, M.Sc. thesis, Purdue University",
                                      ratio = "exp(−k × time^n)", time = "(−ln(ratio) ÷ k)^(1 ÷ n)";
    static constexpr Names<2> parameters{"k", "n"};
    static auto at(const Instant& x, const auto& p) { return exp(-p[0] * exp(p[1] * x.ln_t)); }
    static std::optional<double> time_at(double MR, Parameters p) {
        const auto t_n = exponential_time(MR, p[0]);
        return t_n ? std::optional(std::pow(*t_n, 1 / p[1])) : t_n;
    }
    static Starts starts(const CurvePoints& seen) { return {{seen.page_k, seen.page_n}}; }
};

}  // namespace drysheet::models
