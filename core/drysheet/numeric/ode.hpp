// SPDX-License-Identifier: MPL-2.0
// Ordinary differential equations by Boost.Odeint, adaptive and bounded in steps.
#pragma once

#include <functional>
#include <vector>

namespace drysheet::numeric {

using State = std::vector<double>;
/// Writes the slope of every member of the state.
using Slopes = std::function<void(const State& x, State& slope, double t)>;

struct Trace {
    double end = 0;
    std::vector<State> states;  ///< at 0, end/intervals, …, end
};

/// Goes on from t = 0 until `left`, above 0 at the start, falls to 0: by the fifth-order method of Dormand
/// and Prince with dense output, to a relative and absolute error of 1e-6 a step (the members should be of
/// the order of 1), at most 6000 steps; the end to 1e-12 of itself. Whatever is linear in the state and does
/// not change stays as it is to rounding. A step that meets a NoResult is tried shorter. first: the first
/// step tried; latest: when to give up: the trace then has no states. Errors: NoConvergence, naming no
/// argument, when the steps do not suffice; what the slopes refuse, when shorter steps do not avoid it.
/// Source: Dormand and Prince 1980, J. Comput. Appl. Math. 6:19; Boost.Odeint.
Trace run_until(const Slopes& slopes, const State& start, const std::function<double(const State&)>& left,
                double first, double latest, int intervals);

}  // namespace drysheet::numeric
