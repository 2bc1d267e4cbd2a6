// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct Midilli {
    static constexpr std::string_view name = "Midilli",
                                      source = "Midilli, Kucuk and Yapar 2002, Drying Technology 20:1503",
                                      ratio = "a × exp(−k × time^n) + b × time", time{};
    static constexpr Names<4> parameters{"a", "k", "n", "b"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(-p[1] * exp(p[2] * x.ln_t)) + p[3] * x.t;
    }
    static std::optional<double> time_at(double MR, Parameters p) {
        const double scale = std::pow(p[1], -1 / p[2]);
        return searched_time<Midilli>(MR, p, 1e-6 * scale, 1e6 * scale);
    }
    static Starts starts(const CurvePoints& seen) {
        return {{1, seen.page_k, seen.page_n, 0}, {1, seen.rate, 1, 0}};
    }
};

}  // namespace drysheet::models
