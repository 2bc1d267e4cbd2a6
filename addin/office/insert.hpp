// A pattern of formulas, put into the user's sheet.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <string>

#include "addin/workbook/blocks.hpp"

namespace drysheet {

/// Puts the pattern at the cursor of the workbook's window, as one step to undo, in the language of the
/// texts. Throws NotDone, and changes nothing, where a cell is in the way. Gives the address of what was
/// filled.
std::string insert_pattern(const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& workbook,
                           const Pattern& pattern, const Texts& texts);

}  // namespace drysheet
