// SPDX-License-Identifier: MPL-2.0
// Work that takes long: the progress bar, and what stops it.
#pragma once

#include <atomic>
#include <com/sun/star/awt/XUserInputInterception.hpp>
#include <com/sun/star/task/XStatusIndicator.hpp>
#include <com/sun/star/util/XCloseBroadcaster.hpp>
#include <rtl/ref.hxx>
#include <vector>

#include "addin/office/request.hpp"

namespace drysheet {

/// The user wants it no longer: Esc was pressed, the window closed, no folder chosen. Said without a box.
class Stopped : public NotDone {
  public:
    using NotDone::NotDone;
};

/// Shows a progress bar in the window while it lives. Every key waits so long, but Esc, and so does
/// closing it.
class LongWork {
  public:
    LongWork(const Request& request, const std::string& title, sal_Int32 steps);
    ~LongWork();
    LongWork(const LongWork&) = delete;
    LongWork& operator=(const LongWork&) = delete;

    /// So many steps are done. Throws Stopped where it is to stop.
    void done(sal_Int32 steps);

  private:
    const Texts& texts_;
    com::sun::star::uno::Reference<com::sun::star::task::XStatusIndicator> indicator_;
    com::sun::star::uno::Reference<com::sun::star::awt::XUserInputInterception> keys_;
    class Watch;
    rtl::Reference<Watch> watch_;
    std::vector<com::sun::star::uno::Reference<com::sun::star::util::XCloseBroadcaster>> closing_;
    std::atomic<bool> stopped_ = false;
};

}  // namespace drysheet
