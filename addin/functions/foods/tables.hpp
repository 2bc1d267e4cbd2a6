// SPDX-License-Identifier: MPL-2.0
// The .csv files of this folder, compiled in: lines that begin with # say where they come from, then a header
// row.
#pragma once

#include <string_view>

namespace drysheet::food_tables {

extern const std::string_view usda_sr28, usda_sr26, ifct2017, isotherms, names;

}  // namespace drysheet::food_tables
