// SPDX-License-Identifier: MPL-2.0
// A table as comma-separated values.
#pragma once

#include <string>

#include "addin/text/cell.hpp"

namespace drysheet {

/// As RFC 4180 has it; numbers with a point.
std::string csv(const Table& table);

}  // namespace drysheet
