// SPDX-License-Identifier: MPL-2.0
// What curves and isotherms share. Not for users of the core.
#pragma once

#include <array>
#include <limits>
#include <span>
#include <string_view>
#include <vector>

namespace drysheet::models {

template <std::size_t N>
using Names = std::array<std::string_view, N>;
using Parameters = std::span<const double>;
using Starts = std::vector<std::vector<double>>;  ///< of a search for parameters, the best first

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace drysheet::models
