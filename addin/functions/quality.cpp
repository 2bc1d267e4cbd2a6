#include "drysheet/quality.hpp"

#include "addin/functions/topics.hpp"

namespace drysheet {
namespace {

Outcome soak_table(const OsmoticSoak& soak) {
    using Shown = std::variant<Amount, std::string>;
    const auto share = [](double x) { return Amount{x, Kind::fraction}; };
    return quantities({{"water loss", share(soak.water_loss)},
                       {"solids gain", share(soak.solids_gain)},
                       {"weight reduction", share(soak.weight_reduction)},
                       {"ratio", soak.ratio ? Shown(amount(*soak.ratio)) : Shown("none")}});
}

}  // namespace

std::vector<Function> quality_entries() {
    constexpr std::string_view topic = "quality";
    return {
        function<content_after>(
            {.name = "CONTENTAFTER",
             .topic = topic,
             .summary = "Content of a vitamin, sugar or acid per mass after drying, from that before",
             .params = {{{arg::content, "content per wet mass before drying, in any unit", at_least(0)},
                         {arg::start, "moisture before drying"},
                         {arg::final, "moisture after drying"},
                         {.name = arg::kept,
                          .text = "share of the substance that survives; 1 where nothing is destroyed",
                          .otherwise = 1}}},
             .result = "after",
             .range = "A plain number; the result is in the same unit.",
             .source =
                 "Balance of the substance over the solids balance; Geankoplis (1993) Transport Processes "
                 "and Unit Operations, 3rd ed., sec. 1.5.",
             .working = "after = content × (1 − final) ÷ (1 − start) × kept",
             .checks =
                 {{{20.0, 0.8, 0.2, 0.5}, 40.0, 1e-12, "by hand: 20 × 0.8 ÷ 0.2 × 0.5"},
                  {{2.5, "79.8 %", "2 %"},
                   12.3,
                   0.02,
                   "USDA SR28: protein of shallots, 2.5 % raw at 79.8 % water, 12.3 % freeze-dried at 2 %"},
                  {{16.8, 0.798, 0.02},
                   80.7,
                   0.02,
                   "USDA SR28: carbohydrate of the same shallots, 16.8 % raw, 80.7 % freeze-dried"}},
             .refusals = {{{10.0, 0.2, 0.8}, "final"},
                          {{-1.0, 0.8, 0.2}, "content"},
                          {{10.0, 80.0, 0.2}, "start"},
                          {{10.0, 0.8, 0.2, 1.2}, "kept"}},
             .see_also = {"DRYINGRATIO"}}),
        function<osmotic_soak>(
            {.name = "OSMOTIC",
             .topic = topic,
             .summary = "What a soak in sugar or salt did: water lost, solids gained, each per initial mass",
             .params = {{{arg::mass, "mass before the soak", positive},
                         {"moisture", "moisture before the soak"},
                         {arg::mass_after, "mass after it, drained and blotted", positive},
                         {"moisture_after", "moisture after it"}}},
             .result = "soak",
             .range = "Below 0 where water was taken up or solids were leached out; the ratio is then none.",
             .source = "Balances of water and solids: Lazarides, Katsanidis & Nickolaidis (1995) J. Food "
                       "Eng. 25:151.",
             .working = ": water loss = (mass × moisture − mass_after × moisture_after) ÷ mass\n"
                        ": solids gain = (mass_after × (1 − moisture_after) − mass × (1 − moisture)) ÷ mass\n"
                        ": weight reduction = (mass − mass_after) ÷ mass = water loss − solids gain\n"
                        ": ratio = water loss ÷ solids gain",
             .checks =
                 {{{100.0, 0.8, 60.0, 0.6}, 0.44, 1e-12, "by hand: (80 − 36) ÷ 100", "water loss"},
                  {{100.0, 0.8, 60.0, 0.6}, 0.04, 1e-12, "by hand: (24 − 20) ÷ 100", "solids gain"},
                  {{100.0, 0.8, 60.0, 0.6}, 0.4, 1e-12, "by hand: 40 ÷ 100", "weight reduction"},
                  {{100.0, 0.8, 60.0, 0.6}, 11.0, 1e-12, "by hand: 0.44 ÷ 0.04", "ratio"},
                  {{100.0, 0.8, 40.0, 0.5}, "none", 0, "by hand: 20 g of solids before and after", "ratio"}},
             .refusals = {{{0.0, 0.8, 50.0, 0.6}, "mass"}, {{100.0, 0.8, 0.0, 0.6}, "mass_after"}},
             .see_also = {"WATERREMOVED", "BLENDMOISTURE", "CONTENTAFTER"},
             .show = soak_table}),
    };
}

}  // namespace drysheet
