// SPDX-License-Identifier: MPL-2.0
#pragma once

#include "drysheet/models/curve.hpp"

namespace drysheet::models {

struct Lewis {
    static constexpr std::string_view name = "Lewis", source = "Lewis 1921, J. Ind. Eng. Chem. 13:427",
                                      ratio = "exp(−k × time)", time = "−ln(ratio) ÷ k";
    static constexpr Names<1> parameters{"k"};
    static auto at(const Instant& x, const auto& p) { return exp(p[0] * -x.t); }
    static std::optional<double> time_at(double MR, Parameters p) { return exponential_time(MR, p[0]); }
    static Starts starts(const CurvePoints& seen) { return {{seen.rate}}; }
};

}  // namespace drysheet::models
