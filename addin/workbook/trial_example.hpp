// SPDX-License-Identifier: MPL-2.0
// The bench notebook among the examples: two trials, ginger and pineapple, as they would be typed. All
// figures are invented.
#pragma once

#include <cstddef>
#include <string_view>

namespace drysheet {

/// What is typed into the cell of a name: a number, a text, or a number with its unit.
struct Typed {
    std::string_view name, text;
    std::size_t row = 0;
};

struct TrialExample {
    std::string_view sheet, report;
    const Typed* first;
    std::size_t count;
};

// clang-format off
inline constexpr Typed kGinger[] = {
    {"product", "ginger"}, {"lot", "G-3, second harvest"}, {"date", "14 March 2026"}, {"operator", "Asha"}, {"place", "Hill co-operative; all figures are invented"},
    {"scale_u", "0.5"}, {"whole", "2.5 kg"}, {"parts_off", "225.4"}, {"parts_off", "48.1", 1}, {"parts_names", "peel"}, {"parts_names", "ends", 1},
    {"prepared", "2214.7"},
    {"tray_tare", "612.4"}, {"tray_gross", "1355.9"}, {"tray_tare", "611.8", 1}, {"tray_gross", "1345.0", 1}, {"tray_tare", "613.1", 2}, {"tray_gross", "1349.9", 2},
    {"dried_gross", "2266.0"}, {"tray_area", "0.3"},
    {"dryer_temp", "55"}, {"room_temp", "17"}, {"room_rh", "80"}, {"altitude", "1200"},
    {"start_way", "oven"}, {"start_moisture", "82.2"}, {"final_way", "oven"}, {"final_moisture", "9.0"}, {"target_moisture", "10"},
    {"kept_samples", "12"}, {"milled", "401.9"}, {"activity", "0.46"}, {"run_tare", "612.4"},
    {"run_time", "7:30"}, {"run_gross", "1355.9"}, {"run_time", "8:30", 1}, {"run_gross", "1197.6", 1}, {"run_time", "9:30", 2}, {"run_gross", "1072.8", 2},
    {"run_time", "10:30", 3}, {"run_gross", "980.5", 3}, {"run_time", "11:30", 4}, {"run_gross", "913.7", 4}, {"run_time", "12:30", 5}, {"run_gross", "864.6", 5},
    {"run_time", "13:30", 6}, {"run_gross", "830.3", 6}, {"run_time", "15:30", 7}, {"run_gross", "787.0", 7}, {"run_time", "17:30", 8}, {"run_gross", "766.1", 8},
    {"run_time", "19:30", 9}, {"run_gross", "754.9", 9},
    {"prices", "1.1"}, {"prices", "0.18", 1}, {"prices", "2.5", 2}, {"prices", "0.6", 3}, {"hours", "3.5"}, {"energy", "9.2"}, {"bigger", "60 kg"},
};
inline constexpr Typed kPineapple[] = {
    {"product", "pineapple"}, {"lot", "P-7"}, {"date", "16 March 2026"}, {"operator", "Ravi"}, {"place", "Hill co-operative; all figures are invented"},
    {"scale_u", "0.5"}, {"whole", "4.2 kg"}, {"parts_off", "1068.3"}, {"parts_off", "763.6", 1}, {"parts_names", "peel"}, {"parts_names", "crown and core", 1},
    {"prepared", "2351.4"},
    {"tray_tare", "612.4"}, {"tray_gross", "1194.3"}, {"dried_gross", "702.4"}, {"tray_tare", "611.8", 1}, {"tray_gross", "1200.0", 1}, {"dried_gross", "702.7", 1},
    {"tray_tare", "613.1", 2}, {"tray_gross", "1203.5", 2}, {"dried_gross", "704.2", 2}, {"tray_tare", "610.5", 3}, {"tray_gross", "1190.1", 3}, {"dried_gross", "699.5", 3},
    {"tray_area", "0.3"}, {"dryer_temp", "60"}, {"room_temp", "18"}, {"room_rh", "75"}, {"altitude", "1200"},
    {"start_way", "oven"}, {"start_moisture", "86.3"}, {"final_way", "oven"}, {"final_moisture", "14.1"}, {"target_moisture", "15"},
    {"kept_samples", "15"}, {"milled", "322.8"}, {"run_tare", "612.4"},
    {"run_time", "20:00"}, {"run_gross", "1194.3"}, {"run_time", "21:00", 1}, {"run_gross", "1094.7", 1}, {"run_time", "22:00", 2}, {"run_gross", "1005.7", 2},
    {"run_time", "23:00", 3}, {"run_gross", "932.1", 3}, {"run_time", "0:00", 4}, {"run_gross", "875.1", 4}, {"run_time", "1:00", 5}, {"run_gross", "829.6", 5},
    {"run_time", "2:00", 6}, {"run_gross", "795.9", 6}, {"run_time", "4:00", 7}, {"run_gross", "749.3", 7}, {"run_time", "6:00", 8}, {"run_gross", "723.9", 8},
    {"run_time", "8:00", 9}, {"run_gross", "708.8", 9}, {"run_time", "10:00", 10}, {"run_gross", "701.4", 10},
    {"prices", "0.9"}, {"prices", "0.18", 1}, {"prices", "2.5", 2}, {"prices", "0.6", 3}, {"hours", "3.5"}, {"energy", "11.8"}, {"bigger", "60 kg"},
};
// clang-format on

inline constexpr TrialExample kNotebook[] = {
    {"Ginger", "Ginger report", kGinger, sizeof kGinger / sizeof *kGinger},
    {"Pineapple", "Pineapple report", kPineapple, sizeof kPineapple / sizeof *kPineapple},
};

}  // namespace drysheet
