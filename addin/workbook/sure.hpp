// SPDX-License-Identifier: MPL-2.0
// How sure a cell is: the inputs that it rests on, and what is known of each one's uncertainty.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "addin/text/cell.hpp"
#include "addin/text/texts.hpp"
#include "addin/workbook/graph.hpp"
#include "addin/workbook/labels.hpp"
#include "drysheet/numeric/propagate.hpp"

namespace drysheet::workbook {

/// A value that results rest on.
struct SureInput {
    Place cell;
    std::string label;          ///< "Fresh mass (kg)"; empty: none
    std::string unit;           ///< as written in its cell or label
    numeric::Uncertain number;  ///< as the cell holds it; u 0 where nothing is said of it
    std::string from;           ///< where the u comes from, in words
    std::string after;          ///< what stands behind its number in a text: " kg"

    /// What its cell holds with another number.
    Input with(double x, bool decimal_comma) const;
};

struct Sure {
    std::vector<SureInput> inputs;
    std::vector<Place>
        blanks;  ///< cells that a formula on the way refers to by themselves, and that hold nothing
    std::vector<Place> errors;  ///< on the way, the first of a chain only
};

/// Everything that these cells rest on, over sheets and names. A formula's cell with a stated uncertainty is
/// an input where nothing below it has one.
///
/// An uncertainty is, the first that speaks: the cell's own text ("1200 ± 1 g") · a ± in a text beside it, in
/// its label or its note ("guess ±3 %") · the number in a column or row headed ±, u, sd or the like · the
/// cell named like it with _u · the resolution d of a reading, u = d/√12 (JCGM 100 F.2.2.1), where a label
/// says what was read. A ± in per cent is of the value, and in points where the value is itself a share. All
/// are standard uncertainties, but for "k = 2".
Sure rests_on(const std::vector<Place>& results, const Picture& picture, const Labels& labels,
              const Graph& graph, const Texts& texts);

/// A result with its uncertainty, by first order or, where that misleads, by draws.
struct Assessed {
    bool known = false;  ///< it has a value, and one on either side of each input or at least on one
    bool by_draws = false;
    double value = 0, u = 0, low = 0, high = 0;  ///< the middle 95 %
    std::vector<double> contributions;           ///< of each input, to first order
    numeric::Sampled drawn;  ///< the 2000 draws, or the adaptive ones where those are used
};
/// rows: what a derivative may cost, see numeric::propagate. go_on: asked after each 10 000 draws.
std::vector<Assessed> assess(const numeric::Models& models, std::span<const SureInput> inputs,
                             std::size_t rows, const std::function<bool()>& go_on);

/// The words beside a cell that say what it is; empty where there are none.
std::string label_of(const Place& place, const Picture& picture, const Labels& labels);

}  // namespace drysheet::workbook
