// SPDX-License-Identifier: MPL-2.0
// Copied formulas, and the odd one among them.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "addin/workbook/findings.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// The formulas of a sheet that are copies of one another have one key.
class Copies {
  public:
    explicit Copies(const Picture& picture);

    /// Empty where the cell holds no formula.
    const std::string& key(const Place& place) const;

  private:
    std::map<Place, std::string> keys_;
};

/// The odd ones: among at least five formulas side by side, at least four and two thirds of which are copies,
/// or between copies of three, one that is none and gives another value, and a number typed over one. No
/// finding: the first of the block, a change that lasts to its end, a sum over the block, one that comes to
/// the same in algebra.
std::vector<Finding> odd_ones(const Picture& picture, const Copies& copies);

/// Sums and means whose range ends one short of the numbers, or copies, it stands over, or of the range that
/// the sum or mean beside it has.
std::vector<Finding> short_ranges(const Picture& picture, const Copies& copies);

/// Below a column of copies, under sums: what takes the sums otherwise than the copies take their rows
/// (upside down, another sign), and a mean of ratios where the copies of the ratio would give that of the
/// sums.
std::vector<Finding> odd_totals(const Picture& picture, const Copies& copies);

}  // namespace drysheet::workbook
