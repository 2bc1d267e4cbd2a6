// SPDX-License-Identifier: MPL-2.0
#include "drysheet/moisture.hpp"

#include "addin/functions/topics.hpp"
#include "drysheet/statistics.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kBasis =
    "Definition of the wet and the dry basis: Geankoplis (1993) Transport Processes and Unit Operations, 3rd "
    "ed., sec. 9.4.";

Outcome replicates_table(const Replicates& r) {
    const auto number = [](const std::optional<double>& x) {
        return x ? std::variant<Amount, Told>(amount(*x)) : Told(Sentence("none"));
    };
    return quantities({{"n", amount(static_cast<double>(r.n))},
                       {"mean", amount(r.mean)},
                       {"sd", amount(r.sd)},
                       {"se", amount(r.se)},
                       {"half-width", amount(r.half_width)},
                       {"low", amount(r.low)},
                       {"high", amount(r.high)},
                       {"grubbs", number(r.grubbs)},
                       {"grubbs limit", number(r.grubbs_limit)},
                       {"suspect", number(r.outlier ? std::optional(r.suspect) : std::nullopt)}});
}

}  // namespace

std::vector<Function> moisture_entries() {
    constexpr std::string_view topic = "moisture";
    return {
        function<dry_basis>(
            {.name = "DRYBASIS",
             .topic = topic,
             .summary = "Moisture on the dry basis (water per dry solids) from the wet basis",
             .params = {{{"moisture", "water per wet material, such as 0.8 or \"80 %\""}}},
             .result = "moisture_db",
             .source = kBasis,
             .working = "moisture_db = moisture ÷ (1 − moisture)",
             .checks =
                 {{{0.8}, 4.0, 1e-12, "by hand: 0.8 ÷ 0.2"},
                  {{"20 %"}, 0.25, 1e-12, "Narayanan & Lakshmikutty (2006) ex. 3.12: 20 % wb is 25 % db"}},
             .refusals = {{{80.0}, "moisture"}, {{0.0}, "moisture"}, {{1.0}, "moisture"}},
             .see_also = {"WETBASIS", "IN"}}),
        function<wet_basis>(
            {.name = "WETBASIS",
             .topic = topic,
             .summary = "Moisture on the wet basis (water per wet material) from the dry basis",
             .params =
                 {{{arg::moisture_db, "water per dry solids, such as 4 or \"400 % db\"", {.high = 50}}}},
             .result = "moisture",
             .source = kBasis,
             .working = "moisture = moisture_db ÷ (1 + moisture_db)",
             .checks = {{{4.0}, 0.8, 1e-12, "by hand: 4 ÷ 5"},
                        {{"2.5 % db"},
                         0.0244,
                         2e-3,
                         "Narayanan & Lakshmikutty (2006) ex. 3.14: 2.5 % db is 2.44 % wb"}},
             .refusals = {{{-1.0}, "moisture_db"}, {{0.0}, "moisture_db"}},
             .see_also = {"DRYBASIS"}}),
        function<oven_moisture>(
            {.name = "OVENMOISTURE",
             .topic = topic,
             .summary =
                 "Moisture on the wet basis from an oven test: what the dish lost over what was put in it",
             .params = {{{"dish", "the empty dish", at_least(0)},
                         {arg::dish_wet, "dish and sample before the oven", positive},
                         {arg::dish_dry, "dish and sample at constant mass", positive}}},
             .result = "moisture",
             .source =
                 "Loss on drying: definition; common practice at 70 °C in a vacuum oven for dried fruit.",
             .working = "moisture = (dish_wet − dish_dry) ÷ (dish_wet − dish)",
             .checks = {{{20.0, 25.0, 21.0}, 0.8, 1e-12, "by hand: 4 ÷ 5"},
                        {{0.0, "4.944 kg", "3.765 kg"},
                         0.23847,
                         1e-4,
                         "Geankoplis (1993) problem 9.6-1, masses; 1.179 ÷ 4.944 by hand"}},
             .refusals = {{{20.0, 25.0, 26.0}, "dish_dry"}, {{20.0, 25.0, 19.0}, "dish_dry"}},
             .see_also = {"REPLICATES"},
             .slips = {{"the loss was divided by the dry sample",
                        "(dish_wet − dish_dry) ÷ (dish_dry − dish)"},
                       {"the dish was left in below the line", "(dish_wet − dish_dry) ÷ dish_wet"},
                       {"the dry sample was taken for the loss", "(dish_dry − dish) ÷ (dish_wet − dish)"}}}),
        function<solids_mass>(
            {.name = "SOLIDSMASS",
             .topic = topic,
             .summary = "Dry solids in a mass of material",
             .params = {{{"mass", "wet material", at_least(0)}, {"moisture", "its moisture"}}},
             .result = "solids",
             .source = kBasis,
             .working = "solids = mass × (1 − moisture)",
             .checks =
                 {{{1000.0, 0.9292}, 70.8, 1e-12, "Geankoplis (1993) ex. 1.5-1: juice of 7.08 % solids"}},
             .refusals = {{{-5.0, 0.8}, "mass"}, {{100.0, 80.0}, "moisture"}},
             .see_also = {"WATERMASS"},
             .slips = {{"the water was taken for the dry solids", "mass × moisture"}}}),
        function<water_mass>(
            {.name = "WATERMASS",
             .topic = topic,
             .summary = "Water in a mass of material",
             .params = {{{"mass", "wet material", at_least(0)}, {"moisture", "its moisture"}}},
             .result = "water",
             .source = kBasis,
             .working = "water = mass × moisture",
             .checks = {{{"250 kg", 0.2},
                         50000.0,
                         1e-12,
                         "Narayanan & Lakshmikutty (2006) ex. 3.12: 50 kg in 250 kg"}},
             .refusals = {{{-5.0, 0.8}, "mass"}},
             .see_also = {"SOLIDSMASS", "WATERREMOVED"},
             .slips = {{"the dry solids were taken for the water", "mass × (1 − moisture)"}}}),
        function<moisture_ratio>(
            {.name = "MOISTURERATIO",
             .topic = topic,
             .summary = "How much of the removable moisture is still there: 1 at the start, 0 at equilibrium",
             .params = {{{.name = arg::moisture_db, .text = "moisture now"},
                         {.name = "start_db", .text = "moisture at time zero"},
                         {.name = arg::equilibrium_db,
                          .text = "moisture to which this air would dry it; 0 is a common assumption",
                          .zero = true}}},
             .result = "ratio",
             .range = "Above 1 and below 0 are possible: noise, or take-up of water.",
             .source = "Definition; Crank (1975) The Mathematics of Diffusion, 2nd ed., sec. 4.3.",
             .working = "ratio = (moisture_db − equilibrium_db) ÷ (start_db − equilibrium_db)",
             .checks = {{{1.0, 4.0, 0.0}, 0.25, 1e-12, "by hand: 1 ÷ 4"},
                        {{0.2, 0.3, 0.1}, 0.5, 1e-12, "by hand: 0.1 ÷ 0.2"}},
             .refusals = {{{1.0, 0.2, 0.3}, "equilibrium_db"}, {{1.0, 0.0, 0.0}, "start_db"}},
             .see_also = {"RATIOS", "CURVEFIT"},
             .slips = {{"the equilibrium moisture was taken off above the line only",
                        "(moisture_db − equilibrium_db) ÷ start_db"}}}),
        function<replicates>(
            {.name = "REPLICATES",
             .topic = topic,
             .summary = "Mean, spread, confidence limits and outlier test of repeated readings",
             .params = {{{.name = arg::range,
                          .text = "two or more readings, plain numbers in any one unit, or all shares such "
                                  "as \"81.2 %\"",
                          .shares = true},
                         {.name = arg::confidence,
                          .text = "of the limits and of the test",
                          .range = between(0, 1),
                          .otherwise = 0.95}}},
             .result = "replicates",
             .source = "JCGM 100:2008 (GUM) 4.2 and G.3, Student's t; Grubbs (1969) Technometrics 11:1-21, "
                       "two-sided.",
             .working =
                 "n = count(range)\n"
                 "mean = sum(range) ÷ n\n"
                 "sd = sqrt(squares(range; mean) ÷ (n − 1))\n"
                 "se = sd ÷ sqrt(n)\n"
                 ": half-width = t × se, Student's t for n − 1 degrees of freedom\n"
                 ": grubbs = largest |reading − mean| ÷ sd; suspect is named when it is above the limit",
             .checks =
                 {{{column(10000001.0, 10000003.0, 10000002.0)},
                   10000002.0,
                   1e-14,
                   "NIST StRD NumAcc1, certified mean",
                   "mean"},
                  {{column(10000001.0, 10000003.0, 10000002.0)},
                   1.0,
                   1e-9,
                   "NIST StRD NumAcc1, certified standard deviation",
                   "sd"},
                  {{column(1.0, 2.0, 3.0)},
                   2.4842,
                   1e-4,
                   "Biometrika Tables for Statisticians (1966): t 4.303 for 2 degrees of freedom, 95 %; ÷ √3",
                   "half-width"},
                  {{column("80 %", "82 %", "81 %")}, 0.81, 1e-12, "by hand: 243 % ÷ 3", "mean"},
                  {{column("80 %", "82 %", "81 %")}, 0.01, 1e-12, "by hand: √(2 ÷ 2) %", "sd"},
                  {{column(1.0, 2.0, 3.0)}, 3.0, 1e-12, "counted", "n"},
                  {{column(1.0, 2.0, 3.0)}, 0.577350269, 1e-9, "by hand: 1 ÷ √3", "se"},
                  {{column(1.0, 2.0, 3.0)}, -0.4842, 1e-3, "by hand: 2 − 4.303 ÷ √3", "low"},
                  {{column(1.0, 2.0, 3.0)}, 4.4842, 1e-4, "by hand: 2 + 4.303 ÷ √3", "high"},
                  {{column(1.0, 2.0, 3.0)}, 1.0, 1e-12, "by hand: (3 − 2) ÷ 1", "grubbs"},
                  {{column(1.0, 2.0, 3.0)},
                   1.1543,
                   1e-4,
                   "2 ÷ √3 × √(t² ÷ (1 + t²)), t = 38.19 by scipy.stats.t.ppf(1 − 0.05 ÷ 6, 1)",
                   "grubbs limit"},
                  {{column(1.0, 2.0, 3.0)}, "none", 0, "1 is below 1.1543", "suspect"},
                  {{column(199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)},
                   245.57,
                   1e-12,
                   "NIST/SEMATECH e-Handbook 1.3.5.17.1: the largest is an outlier",
                   "suspect"}},
             .refusals = {{{column(1.0)}, "range"},
                          {{column("81 %", 0.82, "80 %")}, "range"},
                          {{column("81 g", "82 g")}, "range"},
                          {{column(1.0, 2.0), 1.5}, "confidence"}},
             .see_also = {"OVENMOISTURE", "UNCERTAINTY"},
             .show = replicates_table}),
    };
}

}  // namespace drysheet
