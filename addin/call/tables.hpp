// SPDX-License-Identifier: MPL-2.0
// What cells say before their values are read: names, choices, and the rows of a table of names and
// quantities.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

/// A row: which one it is, and the cells behind its name up to the last that is not blank.
struct TableRow {
    const Parameter* param;
    std::span<const Input> cells;
};
/// The rows that give something, in the table's order. Throws Refusal for a name that is unknown or there
/// twice.
std::vector<TableRow> table_rows(const Parameter& table, const Input& input);

/// A name as typed: without outer or odd spaces, in lower case; empty when it is no text.
std::string typed_name(const Input& input);

/// The one value that is wanted: a one-cell range is its cell. Throws Refusal.
const Input& single(const Parameter& param, const Input& input);

/// The place of a choice's name among its choices. Throws Refusal.
int read_choice(const Parameter& param, const Input& input);

/// A number with its unit beside it, as one text; the number as the office holds it. Throws Refusal.
Input with_unit(const Parameter& param, const Input& value, const Input& unit);

}  // namespace drysheet
