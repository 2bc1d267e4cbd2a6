// SPDX-License-Identifier: MPL-2.0
// Readings that are probably slips: one that is out of line, a swapped pair, a step.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace drysheet::numeric {

enum class SlipKind : std::uint8_t {
    out_of_line,  ///< this reading alone
    swapped,      ///< this reading and the next have changed places
    step,         ///< this reading and all after it lie off by one amount
};

struct Slip {
    SlipKind kind{};
    std::size_t at = 0;
    double expected = 0;  ///< what the other readings let expect there
};

/// Readings of a smooth y(x) that are probably slips, in the order of x.
/// The curve is a straight line over x, √x or log x plus an integrated Wiener process of unknown strength (a
/// cubic smoothing spline); with each possible slip in turn its likelihood is compared with that without. The
/// likeliest is taken and the rest asked again; at most one in ten readings (one in a shorter run). A first
/// reading is also asked against the line of those behind it. None is taken that lies less than `doubt` off.
/// x must rise; fewer than 6 readings are not doubted. Long runs are asked in overlapping windows.
///
/// Source: Wahba 1990, Spline models for observational data, ch. 1 (smoothing spline and process); de Jong
/// and Penzer 1998, J. Am. Stat. Assoc. 93:796 (outliers and steps from one pass).
std::vector<Slip> find_slips(std::span<const double> x, std::span<const double> y, double doubt);

/// The same readings with the slips put right: what is out of line is left out (`kept` false), a pair changed
/// back, what lies behind a step moved by it.
struct Mended {
    std::vector<double> y;
    std::vector<bool> kept;
};
Mended mended(std::span<const double> y, std::span<const Slip> slips);

}  // namespace drysheet::numeric
