// One step of the office's undo list, and why a command of the menu did nothing.
#pragma once

#include <com/sun/star/document/XUndoManager.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <stdexcept>

namespace drysheet {

/// The workbook is as it was; `what()` is the sentence to show.
class NotDone : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Everything done while it lives is one step to undo.
class UndoStep {
  public:
    UndoStep(const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& document,
             const rtl::OUString& title)
        : undo_(com::sun::star::uno::Reference<com::sun::star::document::XUndoManagerSupplier>(
                    document, com::sun::star::uno::UNO_QUERY_THROW)
                    ->getUndoManager()) {
        undo_->enterUndoContext(title);
    }
    UndoStep(const UndoStep&) = delete;
    UndoStep& operator=(const UndoStep&) = delete;
    ~UndoStep() { undo_->leaveUndoContext(); }

    com::sun::star::document::XUndoManager& manager() const { return *undo_.get(); }

  private:
    com::sun::star::uno::Reference<com::sun::star::document::XUndoManager> undo_;
};

/// While it lives, nothing is noted for undo.
class UndoPause {
  public:
    explicit UndoPause(com::sun::star::document::XUndoManager& undo) : undo_(undo) { undo_.lock(); }
    UndoPause(const UndoPause&) = delete;
    UndoPause& operator=(const UndoPause&) = delete;
    ~UndoPause() { undo_.unlock(); }

  private:
    com::sun::star::document::XUndoManager& undo_;
};

}  // namespace drysheet
