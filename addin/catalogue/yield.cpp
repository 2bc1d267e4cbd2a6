#include "addin/catalogue/topics.hpp"
namespace drysheet {
namespace {
Mass dried_mass(Mass fresh, MoistureWet start, MoistureWet final) {
    return fresh * ((1 - start.value()) / (1 - final.value()));
}
}  // namespace
std::vector<Function> yield_entries() {
    return {
        function<dried_mass>({.name = "DRIEDMASS",
                              .topic = "yield",
                              .summary = "Mass of dried product from a fresh mass and two moistures",
                              .params = {{{"fresh", "mass of prepared material put in the dryer", positive},
                                          {"start", "its moisture"},
                                          {"final", "moisture of the dried product"}}},
                              .result = "dried",
                              .source = "Balance of dry solids",
                              .working = "dried = fresh × (1 − start) ÷ (1 − final)",
                              .checks = {{{100.0, 0.8, 0.2}, 25.0, 1e-12, "by hand: 100 × 0.20 ÷ 0.80"}}})};
}
}  // namespace drysheet
