// SPDX-License-Identifier: MPL-2.0
// The value of one argument for which a function gives what is wanted: DRY.SOLVEFOR.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "addin/call/call.hpp"

namespace drysheet {

/// The function is called so often at most.
inline constexpr std::size_t kSolveSteps = 60;

struct Solved {
    double value = 0;              ///< of the unknown argument
    std::string unit;              ///< as asked for ("? kg"), or of a plain number
    std::size_t argument = 0;      ///< which it is
    std::vector<Input> arguments;  ///< of the call, the unknown one put in
};

/// Looks over the whole range of the one argument that is given as "?" or "? kg", a single number.
/// Errors: Refusal where no argument or more than one is "?", where the call or `wanted` cannot be read, and
/// (no_solution, naming wanted) where no value of the argument gives what is wanted, or more than one.
Solved solve(const Input& wanted, const Function& function, std::span<const Input> arguments,
             const Reading& reading);

/// Its value with its unit: "12.5 g", "12.5 (as given)".
Sentence in_a_sentence(const Solved& solved);

/// solve() from the cells of DRY.SOLVEFOR: wanted, the function's name, its arguments.
Solved solve(std::span<const Input> typed, const Reading& reading);

/// Its entry.
Function solve_entry();

}  // namespace drysheet
