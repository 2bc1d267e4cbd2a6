// SPDX-License-Identifier: MPL-2.0
// One plain sentence about a call: DRY.WHY.
#pragma once

#include <span>
#include <string>

#include "addin/functions/function.hpp"

namespace drysheet {

/// Why this call is refused, or "fine: " and the value with its unit.
std::string why(const Function& function, std::span<const Input> typed, const Reading& reading);

/// Its entry.
Function why_entry();

}  // namespace drysheet
