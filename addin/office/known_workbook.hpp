// SPDX-License-Identifier: MPL-2.0
// What is known of an open workbook, kept while it stays the same.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <functional>
#include <memory>
#include <optional>

#include "addin/office/request.hpp"
#include "addin/workbook/review.hpp"

namespace drysheet {

/// A large workbook is judged in a thread of its own, which knows no office; until then what was read before
/// is told.
class KnownWorkbook {
  public:
    /// `judged` is called in the office's own turn when there is more to tell.
    KnownWorkbook(com::sun::star::uno::Reference<com::sun::star::frame::XModel> document,
                  com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context,
                  std::function<void()> judged);
    ~KnownWorkbook();
    KnownWorkbook(const KnownWorkbook&) = delete;
    KnownWorkbook& operator=(const KnownWorkbook&) = delete;

    /// Something was changed.
    void changed() { outdated_ = true; }

    /// What there is to say of the cell, in lines.
    std::string about(const workbook::Place& place, const Texts& texts);

  private:
    class Work;
    void read_again();

    const com::sun::star::uno::Reference<com::sun::star::frame::XModel> document_;
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context_;
    const std::function<void()> judged_;
    bool outdated_ = true;
    std::shared_ptr<const workbook::Reviewed> known_;
    std::unique_ptr<Work> work_;
};

/// The cell at the cursor of a workbook's window; nothing where it is on a drawing or a chart.
std::optional<workbook::Place> selected_cell(
    const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& document);

}  // namespace drysheet
