// SPDX-License-Identifier: MPL-2.0
// What a formula gives, worked out without an office: the plain functions of a laboratory's sums, and ours.
#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include "addin/text/cell.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// A function of one number, by its English name in capitals: SQRT, LN …; nullptr for any other.
using OfOne = double(double);
OfOne* function_of_one(std::string_view name);

/// What a cell or a formula gives: a number, a text, a grid (a range, a table), nothing (`missing`: a blank
/// cell), or an error of the office.
struct Given {
    Input value;
    bool fault = false;
};

/// The value that a cell shows; blank where it holds nothing.
Given shown(const Picture& picture, const Place& place);

/// What a formula gives as this cell holds it. `cell` says what each cell it refers to gives; where there is
/// none, it is what the picture shows. Nothing where the formula uses what is not known here (a lookup, a
/// macro, another workbook).
std::optional<Given> compute(const Formula& formula, const Place& at, const Picture& picture,
                             const std::function<Given(const Place&)>& cell = nullptr);

/// The same with the whole of a table or a range, of which a cell shows only the first.
std::optional<Given> compute_whole(const Formula& formula, const Place& at, const Picture& picture);

/// The same where it gives a finite number, and nothing otherwise.
std::optional<double> number_of(const Formula& formula, const Place& at, const Picture& picture,
                                const std::function<Given(const Place&)>& cell = nullptr);

/// The number that a cell shows, if it shows one.
std::optional<double> number_in(const Picture& picture, const Place& place);

/// The cells of a range that hold something, row by row; over several sheets, sheet by sheet; of more than
/// `most` the first.
std::vector<Place> filled_cells(const Picture& picture, const Reference& from, const Reference& to,
                                std::size_t most = std::numeric_limits<std::size_t>::max());

/// What a defined name means where it is used; nullptr where there is none of that name.
const Formula* meaning(const Picture& picture, const Formula& name);

}  // namespace drysheet::workbook
