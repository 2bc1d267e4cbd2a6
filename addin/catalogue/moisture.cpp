#include "addin/catalogue/topics.hpp"
namespace drysheet {
std::vector<Function> moisture_entries() { return {}; }
}  // namespace drysheet
