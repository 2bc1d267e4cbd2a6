// SPDX-License-Identifier: MPL-2.0
#include "addin/office/long_work.hpp"

#include <com/sun/star/awt/Key.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/util/CloseVetoException.hpp>
#include <com/sun/star/util/XCloseListener.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <cppuhelper/implbase2.hxx>

#include "addin/office/cells.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {

// Esc stops the work, and so does closing the window, which has to wait for it.
class LongWork::Watch final : public cppu::WeakImplHelper2<awt::XKeyHandler, util::XCloseListener> {
  public:
    explicit Watch(std::atomic<bool>& stopped) : stopped_(stopped) {}
    sal_Bool SAL_CALL keyPressed(const awt::KeyEvent& event) override {
        if (event.KeyCode == awt::Key::ESCAPE) stopped_ = true;
        return true;
    }
    sal_Bool SAL_CALL keyReleased(const awt::KeyEvent&) override { return true; }
    void SAL_CALL queryClosing(const lang::EventObject& event, sal_Bool ours_then) override {
        stopped_ = true;
        if (ours_then) to_close_.set(event.Source, UNO_QUERY);
        throw util::CloseVetoException();
    }
    void SAL_CALL notifyClosing(const lang::EventObject&) override {}
    void SAL_CALL disposing(const lang::EventObject&) override {}

    /// What was to be closed and was left to us.
    const Reference<util::XCloseable>& to_close() const { return to_close_; }

  private:
    std::atomic<bool>& stopped_;
    Reference<util::XCloseable> to_close_;
};

LongWork::LongWork(const Request& request, const std::string& title, sal_Int32 steps)
    : texts_(request.texts) {
    const Reference<task::XStatusIndicatorFactory> indicators(request.frame, UNO_QUERY);
    if (!indicators.is() || request.hidden()) return;
    indicator_ = indicators->createStatusIndicator();
    indicator_->start(ustring_from(title), steps);
    const Reference<frame::XController> controller = request.frame->getController();
    if (!controller.is()) return;
    watch_ = new Watch(stopped_);
    keys_.set(controller, UNO_QUERY);
    if (keys_.is()) keys_->addKeyHandler(watch_.get());
    for (const Reference<uno::XInterface>& closes :
         {Reference<uno::XInterface>(request.frame), Reference<uno::XInterface>(controller->getModel())})
        if (const Reference<util::XCloseBroadcaster> one(closes, UNO_QUERY); one.is()) {
            one->addCloseListener(watch_.get());
            closing_.push_back(one);
        }
}

LongWork::~LongWork() {
    try {
        for (const auto& one : closing_) one->removeCloseListener(watch_.get());
        if (keys_.is()) keys_->removeKeyHandler(watch_.get());
        if (indicator_.is()) indicator_->end();
        if (watch_.is() && watch_->to_close().is()) watch_->to_close()->close(true);
    } catch (const uno::Exception&) {  // the window is gone
    }
}

void LongWork::done(sal_Int32 steps) {
    if (indicator_.is()) indicator_->setValue(steps);
    if (stopped_) throw Stopped(texts_.word("Stopped. Nothing was changed."));
}

}  // namespace drysheet
