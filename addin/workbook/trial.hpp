// The sheet of one drying trial and its report of one page, from one description.
#pragma once

#include <functional>
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

/// The English words on both, for a translator.
std::vector<std::string> trial_words();

}  // namespace drysheet
