// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct Logarithmic {
    static constexpr std::string_view
        name = "logarithmic",
        source = "Chandra and Singh 1995, Applied numerical methods for food and agricultural engineers",
        ratio = "a × exp(−k × time) + c", time = "ln(a ÷ (ratio − c)) ÷ k";
    static constexpr Names<3> parameters{"a", "k", "c"};
    static auto at(const Instant& x, const auto& p) { return p[0] * exp(p[1] * -x.t) + p[2]; }
    static std::optional<double> time_at(double MR, Parameters p) {
        return exponential_time((MR - p[2]) / p[0], p[1]);
    }
    /// The second rate is 0: a constant. A slow start for curves that are nearly straight.
    static Starts starts(const CurvePoints& seen) {
        Starts made;
        for (const double rate : {seen.rate, seen.rate / 4})
            for (const auto& pair : seen.pairs(std::array{rate, 0.0}, false))
                made.push_back({pair.a, pair.k0, pair.b});
        return made;
    }
};

}  // namespace drysheet::models
