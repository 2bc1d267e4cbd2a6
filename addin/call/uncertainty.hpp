// SPDX-License-Identifier: MPL-2.0
// How sure is a result: the uncertainties typed into a call's arguments, carried through it.
#pragma once

#include <span>

#include "addin/call/call.hpp"

namespace drysheet {

/// Rows value, u, expanded (k = 2), then one an input (name, its contribution to u, its share of u²), then
/// warning: "none", or why first order misleads here. Throws Refusal as the function would, and when no
/// argument has an uncertainty.
Table uncertainty(const Call& call);

/// Its entry.
Function uncertainty_entry();

}  // namespace drysheet
