// SPDX-License-Identifier: MPL-2.0
// What there is to say of one cell, in lines.
#pragma once

#include <string>
#include <vector>

#include "addin/text/texts.hpp"
#include "addin/workbook/review.hpp"

namespace drysheet::workbook {

/// What it holds, in which unit and by what evidence; of each call of a function of ours the sentence, the
/// inputs, the refusal or the working, source and caution; what the review found; which results rest on it.
std::string about_cell(const Reviewed& reviewed, const Place& place, const Texts& texts);

/// The first call of a function of ours in a formula; nullptr where there is none.
const Formula* own_call(const Formula& formula);

/// The working of a call; none where it is refused or has none.
std::vector<std::string> working_lines(const AboutCall& call, const Reading& reading);

}  // namespace drysheet::workbook
