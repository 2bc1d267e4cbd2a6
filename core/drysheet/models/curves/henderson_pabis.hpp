// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct HendersonPabis {
    static constexpr std::string_view name = "Henderson-Pabis",
                                      source = "Henderson and Pabis 1961, J. Agric. Eng. Res. 6:169",
                                      ratio = "a × exp(−k × time)", time = "ln(a ÷ ratio) ÷ k";
    static constexpr Names<2> parameters{"a", "k"};
    static auto at(const Instant& x, const auto& p) { return p[0] * exp(p[1] * -x.t); }
    static std::optional<double> time_at(double MR, Parameters p) {
        return exponential_time(MR / p[0], p[1]);
    }
    static Starts starts(const CurvePoints& seen) { return {{1, seen.rate}}; }
};

}  // namespace drysheet::models
