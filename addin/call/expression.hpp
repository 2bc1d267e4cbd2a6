// SPDX-License-Identifier: MPL-2.0
// The arithmetic of a working: `fresh × (1 − start) ÷ (1 − final)`, computed and shown with the numbers put
// in.
#pragma once

#include <functional>
#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>

#include "addin/text/cell.hpp"

namespace drysheet {

/// What the names of an expression stand for.
struct Names {
    std::map<std::string, Input, std::less<>> values;
    Reading reading{};  ///< how numbers are written
    /// Calls a function of the catalogue that an expression names.
    struct Called {
        double value = 0;
        std::string unit{};
    };
    std::function<Called(std::string_view name, std::span<const Input> arguments, const std::string& shown)>
        call;
    std::map<std::string, std::string, std::less<>> units{};  ///< of those that have one to show
    std::set<std::string, std::less<>>
        computed{};  ///< shown to six digits; what was given stands as it was given
};

struct Computed {
    double value = 0;
    std::string
        with_numbers;  ///< every name replaced by its number, every call by its value, with their units
};

/// Operators + − × ÷ ^ (also - * /), brackets, exp ln log10 sqrt abs min max, ceil and floor (of what is
/// whole but for rounding the whole), sin cos atan2 in degrees, erfc, sum product count mean first of a
/// range, squares(range; x) for the sum of (cell − x)², products(a; b) for the sum of the cells' products,
/// water_enthalpy(temp; pressure), pi, and functions of the catalogue by name. Throws std::logic_error for an
/// expression that is not one: the entry is wrong.
Computed compute(std::string_view expression, const Names& names);

/// A number of a working: powers of ten as people write them.
std::string number_in_working(double x, std::string_view unit, const Reading& reading, int digits = 6);

}  // namespace drysheet
