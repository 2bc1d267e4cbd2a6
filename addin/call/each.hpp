// SPDX-License-Identifier: MPL-2.0
// One function over whole columns in one call.
#pragma once

#include <optional>
#include <span>

#include "addin/call/refusal.hpp"
#include "addin/functions/function.hpp"

namespace drysheet {

/// The function row by row: a range among the arguments is gone through, a single value (or the parameters of
/// a model) stays the same. One result a cell of the ranges, lying or standing as the first of them. A row
/// blank in every range stays blank; a row that is refused holds that refusal's error value. Throws Refusal
/// for ranges of different lengths or a function that gives no single number.
struct Rows {
    Table table;
    struct Row {
        std::size_t row;  ///< counted from 1
        Refusal why;
    };
    std::optional<Row> refused;  ///< the first row that is
};
Rows each(const Function& function, std::span<const Input> arguments, const Reading& reading);

/// Its entry.
Function each_entry();

/// The error of a refusal as a cell of an array carries it: not a number, with the code in its lower half.
double error_cell(int code);

/// Err:502, "invalid argument", and Err:523, "calculation does not converge".
inline constexpr int kInvalidArgument = 502;
inline constexpr int kNoConvergence = 523;

}  // namespace drysheet
