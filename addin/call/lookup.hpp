// SPDX-License-Identifier: MPL-2.0
// All functions that a sheet can call, found by name.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

/// Every function, topic by topic, built once.
const std::vector<Function>& functions();

/// By its name, with or without the prefix, in any case; nullptr when there is none.
const Function* find_function(std::string_view name);

/// The name with the fewest letters to change, where it is near enough to have been meant: less than half of
/// them.
std::optional<std::string_view> probably_meant(std::string_view name);

/// "DRY.DRIEDMASS(fresh; start; final)": optional arguments in brackets, "…" where the last repeats.
std::string usage(const Function& function);

}  // namespace drysheet
