// SPDX-License-Identifier: MPL-2.0
// What the functions over a run share: hours, and checks of its columns. Not for users of the core.
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <string_view>

#include "drysheet/quantity.hpp"

namespace drysheet {

constexpr double kHour = 3600;  // s
inline double hours(Time time) { return time.value() / kHour; }
inline Time from_hours(double t) { return Time::from_value(t * kHour); }

inline Amount count(std::size_t n) { return amount(static_cast<double>(n)); }

/// Throws BadInput naming `argument` unless its column is as long as the one beside it.
inline void check_length(std::string_view argument, std::size_t length, std::size_t beside) {
    if (length != beside)
        throw BadInput(argument, "has {} in it, beside {} in the other range",
                       {count(length), count(beside)});
}
/// Throws BadInput unless every time is at or after the start, and a first ratio of 1 is at the start.
inline void check_from_start(std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (!(times[i].value() >= 0))
            throw BadInput(arg::times, "holds {}: drying starts at time 0", {amount(times[i])});
        if (times[i].value() > 0 && ratios[i].value() == 1 && times[i] == *std::ranges::min_element(times))
            throw BadInput(arg::times,
                           "begins at {} with a ratio of 1: count the times from the start of drying",
                           {amount(times[i])});
    }
}

}  // namespace drysheet
