// SPDX-License-Identifier: MPL-2.0
// What a result cannot be, whatever its formula: by its label, its value and the labels of what goes in.
#pragma once

#include <optional>

#include "addin/workbook/carry.hpp"
#include "addin/workbook/findings.hpp"
#include "addin/workbook/labels.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// A doubt about a cell with a formula: a share above the whole, an amount below nothing, dry solids that are
/// a whole mass or the other way round, "x per y" that divides y by x, a drying ratio below 1, a yield in
/// grams per kilogram. None where nothing speaks against it.
std::optional<Finding> implausible(const Picture& picture, const Labels& labels, Carrier& carrier,
                                   const Place& place);

}  // namespace drysheet::workbook
