// SPDX-License-Identifier: MPL-2.0
// Work that takes long: the progress bar, and Esc.
#pragma once

#include <com/sun/star/awt/XKeyHandler.hpp>
#include <com/sun/star/awt/XUserInputInterception.hpp>
#include <com/sun/star/task/XStatusIndicator.hpp>

#include "addin/office/request.hpp"

namespace drysheet {

/// Esc was pressed.
class Stopped : public NotDone {
  public:
    using NotDone::NotDone;
};

/// Shows a progress bar in the window while it lives. Every key waits so long, but Esc.
class LongWork {
  public:
    LongWork(const Request& request, const std::string& title, sal_Int32 steps);
    ~LongWork();
    LongWork(const LongWork&) = delete;
    LongWork& operator=(const LongWork&) = delete;

    /// So many steps are done. Throws Stopped where Esc was pressed.
    void done(sal_Int32 steps);

  private:
    const Texts& texts_;
    com::sun::star::uno::Reference<com::sun::star::task::XStatusIndicator> indicator_;
    com::sun::star::uno::Reference<com::sun::star::awt::XUserInputInterception> keys_;
    com::sun::star::uno::Reference<com::sun::star::awt::XKeyHandler> handler_;
    bool stopped_ = false;
};

}  // namespace drysheet
