// SPDX-License-Identifier: MPL-2.0
// Checks that many functions begin with.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "drysheet/error.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet {

/// Throws BadInput naming the argument unless the quantity is above 0.
template <class T>
void require_positive(const T& value, std::string_view argument) {
    if (!(to_si(value) > 0)) throw BadInput(argument, "must be above 0");
}

/// Throws BadInput(arg::times) unless each time is after the one before.
inline void require_rising(std::span<const Time> times) {
    for (std::size_t i = 1; i < times.size(); ++i)
        if (!(times[i] > times[i - 1]))
            throw BadInput(arg::times, "holds {} after {}: times must rise from reading to reading",
                           {amount(times[i]), amount(times[i - 1])});
}

}  // namespace drysheet
