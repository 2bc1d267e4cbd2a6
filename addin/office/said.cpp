#include "addin/office/said.hpp"

#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/implbase1.hxx>

#include "addin/office/cells.hpp"

namespace drysheet {

using namespace com::sun::star;
using uno::Reference;
using uno::UNO_QUERY;

namespace {

class Said final : public cppu::WeakImplHelper1<view::XSelectionChangeListener> {
  public:
    explicit Said(const Reference<task::XStatusIndicator>& indicator) : indicator_(indicator) {}
    void SAL_CALL selectionChanged(const lang::EventObject& event) override {
        indicator_->end();
        const Reference<view::XSelectionSupplier> view(event.Source, UNO_QUERY);
        if (view.is()) view->removeSelectionChangeListener(this);
    }
    void SAL_CALL disposing(const lang::EventObject&) override {}

  private:
    const Reference<task::XStatusIndicator> indicator_;
};

}  // namespace

void say(const Reference<frame::XFrame>& frame, const std::string& words) {
    const Reference<task::XStatusIndicatorFactory> indicators(frame, UNO_QUERY);
    const Reference<view::XSelectionSupplier> view(
        frame.is() ? frame->getController() : Reference<frame::XController>(), UNO_QUERY);
    if (!indicators.is() || !view.is()) return;
    const Reference<task::XStatusIndicator> indicator = indicators->createStatusIndicator();
    indicator->start(ustring_from(words), 0);
    view->addSelectionChangeListener(new Said(indicator));
}

}  // namespace drysheet
