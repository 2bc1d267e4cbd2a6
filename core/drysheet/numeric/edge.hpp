// SPDX-License-Identifier: MPL-2.0
// Where a yes-or-no question changes its answer.
#pragma once

namespace drysheet::numeric {

/// The last `yes` found by 50 halvings between a point where `holds` is false and one where it is true.
template <class Question>
double edge(Question holds, double no, double yes) {
    for (int step = 0; step < 50; ++step) {
        const double middle = no + (yes - no) / 2;
        (holds(middle) ? yes : no) = middle;
    }
    return yes;
}

}  // namespace drysheet::numeric
