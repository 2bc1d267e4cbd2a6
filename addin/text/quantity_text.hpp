// "412.5 ± 0.1 g": a number, perhaps an uncertainty, perhaps a unit, as people type it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "addin/text/cell.hpp"

namespace drysheet {

/// A text taken apart, not yet converted.
struct Typed {
    double value = 0;
    double uncertainty = 0;  ///< standard uncertainty in the same unit; 0 when none was given
    std::string_view unit;   ///< refers to the text that was read
};

/// Why a text is not a quantity.
enum class TextFault : unsigned char { none, no_number, comma, thousands, uncertainty };

struct TypedOrFault {
    Typed typed;
    TextFault fault = TextFault::none;
};

/// Reads value, uncertainty and unit. `text` must be free of odd spaces: see plain_spaces.
TypedOrFault read_typed(std::string_view text, const Reading& reading);

/// Non-breaking and thin spaces become plain ones, outer spaces go. Returns the text itself when there is
/// nothing to do.
std::string_view plain_spaces(std::string_view text, std::string& storage);

}  // namespace drysheet
