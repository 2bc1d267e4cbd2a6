// SPDX-License-Identifier: MPL-2.0
// The sheet of one drying trial and its report of one page, from one description.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "addin/text/texts.hpp"
#include "addin/workbook/sheet_plan.hpp"

namespace drysheet {

/// The blank sheet: inputs on the left, results beside them, what was read and worked out on the right.
SheetPlan trial_plan(const Texts& texts = {});

/// The page for print of the trial on the sheet of this name.
SheetPlan trial_report(const std::string& trial, const Texts& texts = {});

/// The cells of one trial by their names, as they stand on its sheet now.
struct TrialCells {
    std::string sheet;
    std::map<std::string, CellArea, std::less<>> names;
};
TrialCells cells_of_plan(const std::string& sheet, const SheetPlan& plan);

/// Two trials or more in a table and a chart on the sheet of this name, and what differs from the first by
/// more than its ± explains.
SheetPlan trials_side_by_side(const std::string& sheet, const std::vector<TrialCells>& trials,
                              const Texts& texts = {});

/// The English words on all of them, for a translator.
std::vector<std::string> trial_words();

}  // namespace drysheet
