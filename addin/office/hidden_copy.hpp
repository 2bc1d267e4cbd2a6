// SPDX-License-Identifier: MPL-2.0
// A copy of a workbook that nobody sees, to move inputs in.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "addin/office/request.hpp"
#include "addin/office/sheets.hpp"
#include "addin/text/cell.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet {

/// Taken as the workbook stands, unsaved changes too; closed when it goes.
class HiddenCopy {
  public:
    HiddenCopy(const Request& request,
               const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& workbook,
               std::span<const workbook::Place> inputs, std::span<const workbook::Place> results);
    ~HiddenCopy();
    HiddenCopy(const HiddenCopy&) = delete;
    HiddenCopy& operator=(const HiddenCopy&) = delete;

    /// What the results show with these contents of the inputs; nothing where that is no number.
    std::vector<std::optional<double>> operator()(std::span<const Input> inputs);

  private:
    Document copy_;
    Range moved_;  ///< cells of a sheet of its own, to which all inputs refer: one change of them is one
                   ///< recalculation
    std::vector<com::sun::star::uno::Reference<com::sun::star::table::XCell>> results_;
};

}  // namespace drysheet
