// What is known of an open workbook, kept while it stays the same.
#pragma once

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <memory>
#include <optional>

#include "addin/workbook/about_cell.hpp"

namespace drysheet {

class KnownWorkbook {
  public:
    KnownWorkbook(com::sun::star::uno::Reference<com::sun::star::frame::XModel> document,
                  com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context);

    /// Something was changed: the next question reads the workbook anew.
    void changed() { read_.reset(); }

    /// What there is to say of the cell, in lines.
    std::string about(const workbook::Place& place, const Texts& texts);

  private:
    struct Read {
        explicit Read(workbook::Picture taken);
        workbook::Picture picture;
        workbook::Labels labels;
        workbook::Graph graph;
    };
    const Read& read();

    const com::sun::star::uno::Reference<com::sun::star::frame::XModel> document_;
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context_;
    std::unique_ptr<Read> read_;
};

/// The cell at the cursor of a workbook's window; nothing where it is on a drawing or a chart.
std::optional<workbook::Place> selected_cell(
    const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& document);

}  // namespace drysheet
