// SPDX-License-Identifier: MPL-2.0
// The sentences of refusals: which argument, what was given, what is allowed and what was probably meant.
#pragma once

#include "addin/call/call.hpp"
#include "addin/text/quantity_text.hpp"

namespace drysheet {

[[noreturn]] void refuse(const Parameter& param, Sentence why);

/// A value that cannot be, or lies outside the parameter's range. x: in the parameter's own unit; si: in SI.
[[noreturn]] void refuse_outside(const Parameter& param, const Input& input, double x, double si);

/// What is said of "1,2 kg" where numbers have a point.
inline constexpr std::string_view kCommaUnclear =
    "{} is ambiguous: a comma is not this locale's decimal sign; write a point, and no thousands separators";

/// A text that is no quantity.
[[noreturn]] void refuse_text(const Parameter& param, const Input& input, const QuantityText& text);
/// A unit of another kind.
[[noreturn]] void refuse_unit(const Parameter& param, const Input& input, const Unit& unit);

/// What a parameter's range allows: "above 0 g", "from 0 to 1"; empty where it allows everything.
Sentence allowed(const Parameter& param);

/// A refusal of the core, in words and in the units of the sheet.
Refusal in_sentence(const Call& call, const NoResult& refused);

}  // namespace drysheet
