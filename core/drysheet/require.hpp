// Checks that many functions begin with.
#pragma once

#include <string_view>

#include "drysheet/error.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet {

/// Throws BadInput naming the argument unless the quantity is above 0.
template <class T>
void require_positive(const T& value, std::string_view argument) {
    if (!(to_si(value) > 0)) throw BadInput(argument, "must be above 0");
}

}  // namespace drysheet
