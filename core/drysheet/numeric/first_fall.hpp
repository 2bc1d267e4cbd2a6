// SPDX-License-Identifier: MPL-2.0
// Where a curve first falls to a level.
#pragma once

#include <optional>

#include "drysheet/numeric/roots.hpp"

namespace drysheet::numeric {

/// The least x from 0 at which `f` falls to `level`: steps of 3 % from `from` to `to`, then bracketed_root to
/// 1e-14. 0 when f(0) equals the level; nothing when f starts below the level or does not fall to it by `to`.
template <class F>
std::optional<double> first_fall(F f, double level, double from, double to) {
    const auto above = [&](double x) { return f(x) - level; };
    if (above(0) == 0) return 0.0;
    if (!(above(0) > 0)) return std::nullopt;
    double left = 0, right = from;
    while (right <= to) {
        if (above(right) <= 0) return bracketed_root(above, left, right, 1e-14);
        left = right;
        right *= 1.03;
    }
    return std::nullopt;
}

}  // namespace drysheet::numeric
