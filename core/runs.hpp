// What the functions over a run share: hours, and checks of its columns. Not for users of the core.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "core/quantity.hpp"

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
/// Throws BadInput unless every time is at or after the start.
inline void check_from_start(std::span<const Time> times) {
    for (const Time& time : times) {
        if (!(time.value() >= 0))
            throw BadInput("times", "holds {}: drying starts at time 0", {amount(time)});
    }
}

}  // namespace drysheet
