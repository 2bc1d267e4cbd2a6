// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct Verma {
    static constexpr std::string_view name = "Verma", source = "Verma et al. 1985, Trans. ASAE 28:296",
                                      ratio = "a × exp(−k × time) + (1 − a) × exp(−g × time)", time{};
    static constexpr Names<3> parameters{"a", "k", "g"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(p[1] * -x.t) + (1.0 - p[0]) * exp(p[2] * -x.t);
    }
    static std::optional<double> time_at(double MR, Parameters p) {
        return searched_between<Verma>(MR, p, p[1], p[2]);
    }
    static Starts starts(const CurvePoints& seen) {
        Starts made;
        for (const auto& [a, k0, b, k1, sum] : seen.pairs(true)) made.push_back({a, k0, k1});
        return made;
    }
    /// The terms can change places.
    static std::vector<double> faster_first(Parameters p) {
        if (p[1] < p[2]) return {1 - p[0], p[2], p[1]};
        return {p.begin(), p.end()};
    }
};

}  // namespace drysheet::models
