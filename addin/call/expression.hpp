// The arithmetic of a working: `fresh × (1 − start) ÷ (1 − final)`, computed and shown with the numbers put
// in.
#pragma once

#include <functional>
#include <map>
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
    std::function<double(std::string_view name, std::span<const Input> arguments)> call;
};

struct Computed {
    double value = 0;
    std::string with_numbers;  ///< the expression, every name replaced by its number
};

/// Operators + − × ÷ ^ (also - * /), brackets, exp ln log10 sqrt abs min max ceil, sum product count mean of
/// a range, pi, and functions of the catalogue by name. Throws std::logic_error for an expression that is not
/// one: the entry is wrong.
Computed compute(std::string_view expression, const Names& names);

}  // namespace drysheet
