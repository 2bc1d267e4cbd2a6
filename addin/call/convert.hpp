// SPDX-License-Identifier: MPL-2.0
// A quantity in another unit, checked: DRY.IN.
#pragma once

#include <optional>
#include <string>

#include "addin/functions/function.hpp"

namespace drysheet {

/// A number of one unit in another, moisture basis too. Throws Refusal, naming quantity, to_unit or
/// from_unit.
double convert(const Input& quantity, const Input& to_unit, const Input& from_unit, const Reading& reading);

/// Its entry.
Function convert_entry();

}  // namespace drysheet
