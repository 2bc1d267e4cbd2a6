// SPDX-License-Identifier: MPL-2.0
// The entries of each topic, one source file a topic.
#pragma once

#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

std::vector<Function> moisture_entries();
std::vector<Function> yield_entries();
std::vector<Function> air_entries();
std::vector<Function> dryer_air_entries();
std::vector<Function> sorption_entries();
std::vector<Function> curve_entries();
std::vector<Function> kinetics_entries();
std::vector<Function> powder_entries();
std::vector<Function> package_entries();
std::vector<Function> quality_entries();
std::vector<Function> energy_entries();
std::vector<Function> scaleup_entries();
std::vector<Function> trayrun_entries();
std::vector<Function> scaleplan_entries();

}  // namespace drysheet
