// What there is to say of one cell.
#pragma once

#include <string>
#include <vector>

#include "addin/text/cell.hpp"
#include "addin/text/texts.hpp"
#include "addin/workbook/findings.hpp"
#include "addin/workbook/graph.hpp"
#include "addin/workbook/labels.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// What a cell is judged by; all of one picture.
struct Known {
    const Picture& picture;
    const Labels& labels;
    const Graph& graph;
    const Review* review = nullptr;  ///< none: not reviewed
    bool outdated = false;           ///< the workbook has changed since that review
};

/// In lines: what it holds, in which unit and by what evidence; of each call of a function of ours the
/// sentence, the inputs, the refusal or the working, source and caution; what the review found; which results
/// rest on it. `reading` is how the office's locale writes numbers.
std::string about_cell(const Known& known, const Place& place, const Reading& reading, const Texts& texts);

/// The first call of a function of ours in a cell's formula; nullptr where there is none.
const Formula* own_call(const Picture& picture, const Place& place);

/// The working of a call as the cell `place` holds it; none where it is refused.
std::vector<std::string> working_lines(const Picture& picture, const Place& place, const Formula& call);

}  // namespace drysheet::workbook
