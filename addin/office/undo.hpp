// SPDX-License-Identifier: MPL-2.0
// One step of the office's undo list.
#pragma once

#include <com/sun/star/document/XUndoManager.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>

namespace drysheet {

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

    com::sun::star::document::XUndoManager& list() const { return *undo_; }

  private:
    com::sun::star::uno::Reference<com::sun::star::document::XUndoManager> undo_;
};

/// One change of the workbook that is not noted for undo. Calc takes a lock of its list off again with the
/// first change made under it, so each change needs its own.
template <class Change>
void quietly(com::sun::star::document::XUndoManager& undo, const Change& change) {
    struct Lock {
        com::sun::star::document::XUndoManager& undo;
        explicit Lock(com::sun::star::document::XUndoManager& list) : undo(list) { undo.lock(); }
        Lock(const Lock&) = delete;
        Lock& operator=(const Lock&) = delete;
        ~Lock() { undo.unlock(); }
    };
    const Lock lock(undo);
    change();
}

}  // namespace drysheet
