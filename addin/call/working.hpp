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

/// Its entry.
Function working_entry();

}  // namespace drysheet
