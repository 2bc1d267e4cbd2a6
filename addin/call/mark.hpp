// SPDX-License-Identifier: MPL-2.0
// What a student's answer is worth: DRY.MARK where only the number is known, DRY.MARKCALL where the sum is.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "addin/call/call.hpp"

namespace drysheet {

/// How far off still counts as right: of itself, and of a temperature.
inline constexpr std::string_view kRight = "right";
inline constexpr double kRightRelative = 0.01, kRightKelvins = 0.5;

/// A text that begins with one of: no answer yet · right · close · unclear · unit missing · wrong basis ·
/// wrong unit · wrong. It tells what the numbers are to each other and claims no cause. tolerance: relative,
/// or an amount such as "0.3 K"; left out, 0.01, or 0.5 K for temperatures.
/// Errors: Refusal where answer, expected or tolerance cannot be read.
std::string mark(const Input& answer, const Input& expected, const Input& tolerance, const Reading& reading);

/// The answer to a call: no answer yet, right, what was done wrong in words (see slips), close (within five
/// tolerances of 1 %, or 0.5 K for temperatures), unclear, wrong. A slip is never right for being near: of
/// the right answer and the slips the nearest is taken. Counts are exact.
/// Errors: Refusal where the call has no value or the answer cannot be read.
Sentence mark_call(const Input& answer, const Call& call);

/// The entries of a class: MARK, MARKCALL, SLIPS.
std::vector<Function> class_entries();

}  // namespace drysheet
