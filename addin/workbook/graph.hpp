// SPDX-License-Identifier: MPL-2.0
// Which cells a formula rests on, and which results rest on a cell: by the formulas, over names and sheets.
#pragma once

#include <map>
#include <vector>

#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// A block of cells of one sheet, first and last row and column included.
struct Area {
    int sheet = 0;
    int top = 0, left = 0, bottom = 0, right = 0;
    bool holds(const Place& place) const {
        return place.sheet == sheet && place.row >= top && place.row <= bottom && place.column >= left &&
               place.column <= right;
    }
    bool one_cell() const { return top == bottom && left == right; }
    friend auto operator<=>(const Area&, const Area&) = default;
};

/// What a formula refers to, names taken as what they mean; deleted cells and other workbooks left out.
std::vector<Area> areas_in(const Formula& formula, const Picture& picture);

/// The references of all formulas of a picture, which it must outlive.
class Graph {
  public:
    explicit Graph(const Picture& picture);

    /// The filled cells that this cell's formula refers to, in order; a cell that an array formula fills
    /// refers to that formula's cell.
    std::vector<Place> refers_to(const Place& place) const;
    /// The cells whose formulas refer to this cell.
    std::vector<Place> referred_by(const Place& place) const;

    /// The typed values that a cell rests on, over all formulas between, in order. Of a typed value: itself.
    std::vector<Place> inputs_of(const Place& place) const;
    /// All formulas that rest on a cell, over all formulas between, in order.
    std::vector<Place> dependents(const Place& place) const;
    /// Those of them that no other formula refers to.
    std::vector<Place> results_of(const Place& place) const;

  private:
    template <class Next>
    std::vector<Place> reached(const Place& from, Next next) const;

    const Picture& picture_;
    std::map<Place, std::vector<Area>> refers_;
    std::map<Place, std::vector<Place>> by_cell_;               ///< references to one cell
    std::vector<std::map<Area, std::vector<Place>>> by_range_;  ///< by sheet
};

}  // namespace drysheet::workbook
