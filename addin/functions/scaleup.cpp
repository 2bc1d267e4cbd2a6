// SPDX-License-Identifier: MPL-2.0
#include "drysheet/scaleup.hpp"

#include "addin/functions/topics.hpp"

namespace drysheet {

std::vector<Function> scaleup_entries() {
    constexpr std::string_view topic = "scaleup";
    return {
        function<tray_load>({.name = "TRAYLOAD",
                             .topic = topic,
                             .summary = "Mass spread on a square metre of tray",
                             .mass_in_a_unit = kAlways,
                             .params = {{{"mass", "prepared material on the trays", at_least(0)},
                                         {arg::area, "area of the trays", positive}}},
                             .result = "load",
                             .source = "Definition: mass over area.",
                             .working = "load = mass ÷ area",
                             .checks = {{{"3000 g", 0.6}, 5.0, 1e-12, "by hand: 3 ÷ 0.6"}},
                             .refusals = {{{"3000 g", 0.0}, "area"}},
                             .see_also = {"TRAYSFOR"}}),
        function<trays_for>(
            {.name = "TRAYSFOR",
             .topic = topic,
             .summary = "Number of trays for a mass, rounded up",
             .mass_in_a_unit = kAlways,
             .params = {{{"mass", "prepared material", at_least(0)},
                         {arg::load, "tray load, as DRY.TRAYLOAD gives it", positive},
                         {arg::tray_area, "area of one tray", positive}}},
             .result = "trays",
             .source = "Definition: mass over what a tray holds, rounded up.",
             .working = "exact = mass ÷ (load × tray_area)\n"
                        "trays = ceil(exact)",
             .checks = {{{"12000 g", 2.5, 0.4}, 12.0, 0, "by hand: 12 ÷ 1"},
                        {{"12001 g", 2.5, 0.4}, 13.0, 0, "by hand: a gram too much"},
                        {{"0.3 kg", 0.1, 1.0},
                         3.0,
                         0,
                         "by hand: 0.3 ÷ 0.1, which is 2.9999999999999996 in floating point"}},
             .refusals = {{{"12000 g", 0.0, 0.4}, "load"}, {{"12000 g", 2.5, 0.0}, "tray_area"}},
             .see_also = {"TRAYLOAD", "BATCHESFOR"},
             .slips = {{"it was not rounded up", "mass ÷ (load × tray_area)"},
                       {"it was rounded down", "ceil(mass ÷ (load × tray_area)) − 1"},
                       {"the area of a tray was left out", "ceil(mass ÷ load)"}},
             .count = true}),
        function<batches_for>(
            {.name = "BATCHESFOR",
             .topic = topic,
             .summary = "Number of batches for a target, rounded up",
             .params = {{{arg::target, "mass wanted", at_least(0)},
                         {arg::per_batch, "mass of one batch", positive}}},
             .result = "batches",
             .source = "Definition: the target over a batch, rounded up.",
             .working = "exact = target ÷ per_batch\n"
                        "batches = ceil(exact)",
             .checks = {{{100.0, 8.0}, 13.0, 0, "by hand: 12.5"},
                        {{0.7, 0.1}, 7.0, 0, "by hand: 7, which is 6.999999999999999 in floating point"}},
             .refusals = {{{100.0, 0.0}, "per_batch"}},
             .see_also = {"DAILYOUTPUT"},
             .slips = {{"it was not rounded up", "target ÷ per_batch"},
                       {"it was rounded down", "ceil(target ÷ per_batch) − 1"}},
             .count = true}),
        function<daily_output>(
            {.name = "DAILYOUTPUT",
             .topic = topic,
             .summary = "Output of a day in whole batches",
             .params = {{{arg::per_batch, "dried mass of one batch", at_least(0)},
                         {arg::drying_time, "time in the dryer", positive},
                         {arg::turnaround, "emptying, cleaning and filling between batches", at_least(0)},
                         {arg::hours_per_day, "working hours of a day, 24 for day and night",
                          above_up_to(0, 24)}}},
             .result = "output",
             .unit = "g/day",
             .range = "A batch begins and ends within the same day.",
             .source = "Definition: whole batches that fit the hours, times a batch.",
             .working = "exact = hours_per_day ÷ (drying_time + turnaround)\n"
                        "batches = floor(exact)\n"
                        "output = batches × per_batch",
             .checks = {{{2000.0, 7.0, 1.0, 24.0}, 6000.0, 1e-12, "by hand: 3 batches"},
                        {{2000.0, 7.5, 1.0, 24.0}, 4000.0, 1e-12, "by hand: 2.8, so 2 batches"},
                        {{2000.0, 0.7, 0.1, 2.4},
                         6000.0,
                         1e-12,
                         "by hand: 3 batches, 2.9999999999999996 in floating point"}},
             .refusals = {{{2000.0, 8.0, 1.0, 8.5}, "hours_per_day"},
                          {{2000.0, 8.0, 1.0, 25.0}, "hours_per_day"},
                          {{2000.0, 0.0, 1.0, 8.0}, "drying_time"}},
             .see_also = {"BATCHESFOR"},
             .slips = {{"it was not rounded down to whole batches",
                        "per_batch × hours_per_day ÷ (drying_time + turnaround)"},
                       {"it was rounded up to whole batches",
                        "per_batch × ceil(hours_per_day ÷ (drying_time + turnaround))"}}}),
    };
}

}  // namespace drysheet
