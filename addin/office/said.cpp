// SPDX-License-Identifier: MPL-2.0
#include "addin/office/said.hpp"

#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/implbase1.hxx>

#include "addin/office/cells.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

// It does not take itself off in a call of the controller's: that goes on through a list that must not
// shrink.
class Said final : public cppu::WeakImplHelper1<view::XSelectionChangeListener> {
  public:
    explicit Said(const Reference<task::XStatusIndicator>& indicator) : indicator_(indicator) {}
    void SAL_CALL selectionChanged(const lang::EventObject&) override { end(); }
    void SAL_CALL disposing(const lang::EventObject&) override { indicator_.clear(); }

  private:
    void end() {
        const Reference<task::XStatusIndicator> indicator = indicator_;
        indicator_.clear();
        try {
            if (indicator.is()) indicator->end();
        } catch (const uno::Exception&) {  // its window is gone
        }
    }
    Reference<task::XStatusIndicator> indicator_;
};

}  // namespace

void say(const Reference<frame::XFrame>& frame, const std::string& words) {
    try {
        const Reference<task::XStatusIndicatorFactory> indicators(frame, UNO_QUERY);
        const Reference<view::XSelectionSupplier> view(
            frame.is() ? frame->getController() : Reference<frame::XController>(), UNO_QUERY);
        if (!indicators.is() || !view.is()) return;
        const Reference<task::XStatusIndicator> indicator = indicators->createStatusIndicator();
        indicator->start(ustring_from(words), 0);
        view->addSelectionChangeListener(new Said(indicator));
    } catch (const uno::Exception&) {  // its window is gone
    }
}

}  // namespace drysheet
