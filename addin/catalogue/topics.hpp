// The entries of each topic, one source file a topic.
#pragma once

#include <vector>

#include "addin/catalogue/entry.hpp"

namespace drysheet {

std::vector<Function> moisture_entries();
std::vector<Function> yield_entries();

}  // namespace drysheet
