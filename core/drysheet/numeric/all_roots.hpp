// SPDX-License-Identifier: MPL-2.0
// All roots of one equation in one unknown over a whole range, in a stated number of steps.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "drysheet/kinds.hpp"

namespace drysheet::numeric {

/// A function of one unknown; nothing where it has no value.
using Curve = std::function<std::optional<double>(double)>;

struct Roots {
    std::vector<double> at;      ///< ascending
    bool flat = false;           ///< f is 0 over a stretch, not at points
    bool unfinished = false;     ///< a root was enclosed and the steps did not suffice
    bool somewhere = false;      ///< f has a value anywhere
    double least = 0, most = 0;  ///< of the values of f that were seen, if it has any
};

/// The roots of f: changes of sign between the points of `grid`, minima that touch 0, and roots between the
/// last point with a value and the edge beyond which f has none. A jump over 0 and a pole are no roots. Two
/// roots closer to each other than the grid are found where |f| has its least value between them. grid:
/// ascending. steps: f is called so often at most. Source: TOMS 748 (Alefeld, Potra & Shi 1995) within a
/// change of sign; bisection towards an edge.
Roots all_roots(const Curve& f, std::span<const double> grid, std::size_t steps);

/// Ascending points over an interval, denser towards its ends; where it is unbounded over many powers of ten.
std::vector<double> search_grid(const Limits& limits);

}  // namespace drysheet::numeric
