// SPDX-License-Identifier: MPL-2.0
// The functions about functions: why a call fails, where an equation comes from, what there is.
#pragma once

#include <string>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

std::vector<Function> trust_entries();

/// Where the equation comes from, its range and its caution.
std::string source_of(const Function& function, const Reading& reading = {});

}  // namespace drysheet
