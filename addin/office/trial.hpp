// SPDX-License-Identifier: MPL-2.0
// The bench notebook among the examples, which is two trials.
#pragma once

#include "addin/office/request.hpp"

namespace drysheet {

/// Puts the notebook's trials into a new workbook in place of its sheets.
void write_notebook(const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& model,
                    const Request& request, bool blank);

}  // namespace drysheet
