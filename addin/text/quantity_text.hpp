// SPDX-License-Identifier: MPL-2.0
// "412.5 ± 0.1 g": a number, perhaps an uncertainty, perhaps a unit, as people type it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "addin/text/cell.hpp"
#include "drysheet/units.hpp"

namespace drysheet {

/// A text taken apart, not yet converted.
struct Typed {
    double value = 0;
    double uncertainty = 0;  ///< standard uncertainty in the same unit; 0 when none was given
    std::string_view unit;   ///< refers to the text that was read
};

/// Why a text is not a quantity.
enum class TextFault : unsigned char {
    none,
    no_number,
    comma,
    thousands,
    uncertainty,
    unknown_unit,
    two_values,  ///< a unit word that stands for more than one unit
    parts        ///< "3 oz 2 lb": parts that are not of one dimension, larger unit first
};

struct TypedOrFault {
    Typed typed;
    TextFault fault = TextFault::none;
};

/// Reads value, uncertainty and unit. `text` must be free of odd spaces: see plain_spaces.
TypedOrFault read_typed(std::string_view text, const Reading& reading);

/// A text as a quantity: one number with its unit, parts of one quantity ("2 lb 3 oz", "10 h 30 min"), or a
/// clock
/// ("10:30", 10.5 h), each perhaps with the unit of its column joined on ("8.1 kg kg", "10:30 h"), which does
/// not count where it has the same dimension.
struct QuantityText {
    double value = 0;        ///< in `unit`
    double uncertainty = 0;  ///< standard, as a difference in the same unit
    std::string_view said;   ///< the unit as written, or what should have been one; empty: none
    Unit unit{};
    bool clock = false;
    TextFault fault = TextFault::none;
};
QuantityText read_quantity(std::string_view text, const Reading& reading);

/// A unit as people write it: one of the vocabulary, or a word in English, German, French or Spanish in any
/// case
/// ("Stunden", "gramos", "GRAMS").
std::optional<Unit> read_written_unit(std::string_view text);

/// What an ambiguous unit word may mean, for its refusal: "500 g, or 454 g: write g, or lb for the latter";
/// empty for any other word.
std::string_view two_values_of(std::string_view unit);

/// Non-breaking and thin spaces become plain ones, outer spaces go. Returns the text itself when there is
/// nothing to do.
std::string_view plain_spaces(std::string_view text, std::string& storage);

}  // namespace drysheet
