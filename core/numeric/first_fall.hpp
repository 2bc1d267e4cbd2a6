// Where a curve first falls to a level.
#pragma once

#include <functional>
#include <optional>

namespace drysheet::numeric {

/// The least x from 0 at which `f` falls to `level`, found by steps of 3 % from `from` to `to`, then refined
/// to 1e-14 of x. 0 when f(0) equals the level; nothing when f starts below the level or never falls to it by
/// `to`. Source: Alefeld, Potra and Shi 1995, Algorithm 748, ACM Trans. Math. Softw. 21:327 (Boost.Math).
std::optional<double> first_fall(const std::function<double(double)>& f, double level, double from,
                                 double to);

}  // namespace drysheet::numeric
