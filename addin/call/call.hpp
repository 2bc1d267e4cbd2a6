// SPDX-License-Identifier: MPL-2.0
// A call read once: the one thing that value, refusal, working, uncertainty and marks are made from.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "addin/call/refusal.hpp"
#include "addin/functions/function.hpp"

namespace drysheet {

struct Call {
    const Function& function;
    std::span<const Input> typed;  ///< as the cells stand; they outlive the call
    const Reading& reading;
    std::vector<Value> values{};   ///< as the function gets them; none for a function about functions
    std::vector<bool> left_out{};  ///< rows of the ranges that are blank throughout, or without a reading
    bool masses_as_given = false;  ///< masses are plain numbers, in a unit that only the sheet knows

    /// The unit of the number that comes out: "g", or "as given".
    std::string result_unit() const;
};
/// What stands for a mass unit that only the sheet knows.
inline constexpr std::string_view kAsGiven = "as given";

/// Reads the arguments. Throws Refusal.
Call read(const Function& function, std::span<const Input> typed, const Reading& reading);

/// What the function gives. Throws Refusal, and nothing else of ours.
Outcome value(const Call& call);
/// Both at once.
Outcome evaluate(const Function& function, std::span<const Input> typed, const Reading& reading);

/// A scalar as read, in the unit in which a plain number is read.
struct Measured {
    double value = 0;
    double uncertainty = 0;  ///< standard
    bool given = false;      ///< false: left out, and `value` is the usual value, if there is one
    bool unit = false;       ///< a unit was written with it
    bool clock = false;      ///< it was a clock text
};
/// Reads a single value by the rules of a parameter. Throws Refusal.
Measured read_measured(const Parameter& param, const Input& input, const Reading& reading);

/// The parameter that an argument falls on; the last one may repeat.
const Parameter& parameter_at(const Function& function, std::size_t argument);

/// The outcome in words: "25 g", "25 (as given)", a text in itself, "a table of 5 rows, 3 columns".
Sentence in_a_sentence(const Call& call, const Outcome& outcome);

}  // namespace drysheet
