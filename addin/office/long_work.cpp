// SPDX-License-Identifier: MPL-2.0
#include "addin/office/long_work.hpp"

#include <com/sun/star/awt/Key.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <cppuhelper/implbase1.hxx>

#include "addin/office/cells.hpp"

namespace drysheet {

using namespace com::sun::star;
using uno::Reference;
using uno::UNO_QUERY;

namespace {

class Keys final : public cppu::WeakImplHelper1<awt::XKeyHandler> {
  public:
    explicit Keys(bool& stopped) : stopped_(stopped) {}
    sal_Bool SAL_CALL keyPressed(const awt::KeyEvent& event) override {
        if (event.KeyCode == awt::Key::ESCAPE) stopped_ = true;
        return true;
    }
    sal_Bool SAL_CALL keyReleased(const awt::KeyEvent&) override { return true; }
    void SAL_CALL disposing(const lang::EventObject&) override {}

  private:
    bool& stopped_;
};

}  // namespace

LongWork::LongWork(const Request& request, const std::string& title, sal_Int32 steps)
    : texts_(request.texts) {
    const Reference<task::XStatusIndicatorFactory> indicators(request.frame, UNO_QUERY);
    if (!indicators.is() || request.hidden()) return;
    indicator_ = indicators->createStatusIndicator();
    indicator_->start(ustring_from(title), steps);
    keys_.set(request.frame->getController(), UNO_QUERY);
    if (!keys_.is()) return;
    handler_ = new Keys(stopped_);
    keys_->addKeyHandler(handler_);
}

LongWork::~LongWork() {
    try {
        if (keys_.is()) keys_->removeKeyHandler(handler_);
        if (indicator_.is()) indicator_->end();
    } catch (const uno::Exception&) {  // the window is gone
    }
}

void LongWork::done(sal_Int32 steps) {
    if (indicator_.is()) indicator_->setValue(steps);
    if (stopped_) throw Stopped(texts_.word("Stopped. Nothing was changed."));
}

}  // namespace drysheet
