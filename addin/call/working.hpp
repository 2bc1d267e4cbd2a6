// SPDX-License-Identifier: MPL-2.0
// The working of a call, as a student writes it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "addin/call/call.hpp"

namespace drysheet {

struct Working {
    std::vector<std::string> lines;
    /// What the last formula gives when computed as written; a test holds it against the function's own
    /// value.
    std::optional<double> as_written;
    double value = 0;  ///< the function's own value, where it gives a number
};

/// What is given with its unit, each formula, the numbers put in, and the result. Throws Refusal as the
/// function would.
Working working(const Call& call);

/// A line of an entry's working, taken apart; all but `condition` refers to the line.
struct WorkingLine {
    enum class Form : unsigned char {
        prose,  ///< ": words"
        cells,  ///< "Xm, C, K ← parameters": the cells of a range under names of their own
        step,   ///< "name [unit] = expression"
        each,  ///< "each name [unit] from x = expression": in every row of the ranges; `before` is the result
               ///< of the row before, x in the first one
        found,  ///< "name [unit] ~ expression : words": by the source's equation, which the words tell, or a
                ///< range; a step otherwise
        tried,  ///< "try name: words": the result itself, by which the lines below are worked out
        holds   ///< "holds left = right": the equation that the result satisfies
    };
    Form form = Form::prose;
    std::string_view condition{}, name{}, unit{}, from{}, expression{}, words{};
};
/// Throws std::logic_error: the entry is wrong.
WorkingLine read_working_line(std::string_view line);

/// The unit in which a working takes an argument: that of a plain number, but kg for a mass where the result
/// would differ with its unit.
const Unit& unit_in_working(const Function& function, const Parameter& param);

/// Its entry.
Function working_entry();

}  // namespace drysheet
