// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct TwoTerm {
    static constexpr std::string_view name = "two-term", source = "Henderson 1974, Trans. ASAE 17:1167",
                                      ratio = "a × exp(−k0 × time) + b × exp(−k1 × time)", time{};
    static constexpr Names<4> parameters{"a", "k0", "b", "k1"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(p[1] * -x.t) + p[2] * exp(p[3] * -x.t);
    }
    static std::optional<double> time_at(double MR, Parameters p) {
        return searched_between<TwoTerm>(MR, p, p[1], p[3]);
    }
    static Starts starts(const CurvePoints& seen) {
        Starts made;
        for (const auto& [a, k0, b, k1, sum] : seen.pairs(false)) made.push_back({a, k0, b, k1});
        return made;
    }
    /// The terms can change places.
    static std::vector<double> faster_first(Parameters p) {
        if (p[1] < p[3]) return {p[2], p[3], p[0], p[1]};
        return {p.begin(), p.end()};
    }
};

}  // namespace drysheet::models
