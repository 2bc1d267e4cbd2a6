// SPDX-License-Identifier: MPL-2.0
// The answers that usual slips would give: to mark a student, to name what a plain formula did wrong, to draw
// the numbers of a lesson.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "addin/call/call.hpp"

namespace drysheet {

/// What was done wrong, and the answer it gives in the unit of the result.
struct Slip {
    double answer = 0;
    Sentence sentence;  ///< "the final moisture was taken on the dry basis"
};

/// The usual slips of a call: a moisture on the other basis, two arguments of a kind
/// swapped, something left out, a factor of 1000 or 60, the result upside down, and what the entry tells.
/// Worked out by the function itself; where it refuses such values, by its working. A slip that four digits
/// cannot tell from the right answer is left out; slips that they cannot tell apart are one, joined by "or".
/// The function must give one number.
/// Errors: Refusal where the call itself has no value.
std::vector<Slip> slips(const Call& call);

/// What four digits cannot tell apart.
bool same_to_four_digits(double a, double b);

/// The working of a function computed with these arguments, which may be such as the function refuses;
/// nothing where the working is not arithmetic from line to line. Or of another expression over its
/// parameters' names.
std::optional<double> as_written(const Function& function, std::span<const Value> arguments);
std::optional<double> as_written(const Function& function, std::span<const Value> arguments,
                                 std::string_view expression);

/// "the final moisture", "the dish", "the fresh mass".
Sentence in_a_sentence(const Parameter& param);

}  // namespace drysheet
