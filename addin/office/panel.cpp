// SPDX-License-Identifier: MPL-2.0
#include "addin/office/panel.hpp"

#include <algorithm>
#include <com/sun/star/awt/PosSize.hpp>
#include <com/sun/star/awt/XActionListener.hpp>
#include <com/sun/star/awt/XButton.hpp>
#include <com/sun/star/awt/XControl.hpp>
#include <com/sun/star/awt/XControlContainer.hpp>
#include <com/sun/star/awt/XToolkit.hpp>
#include <com/sun/star/awt/XWindow2.hpp>
#include <com/sun/star/awt/XWindowPeer.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XFrame.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/ui/UIElementType.hpp>
#include <com/sun/star/ui/XSidebarPanel.hpp>
#include <com/sun/star/ui/XToolPanel.hpp>
#include <com/sun/star/ui/XUIElement.hpp>
#include <com/sun/star/ui/XUIElementFactory.hpp>
#include <com/sun/star/util/URL.hpp>
#include <com/sun/star/util/XModifyBroadcaster.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/basemutex.hxx>
#include <cppuhelper/compbase7.hxx>
#include <cppuhelper/implbase2.hxx>
#include <rtl/ref.hxx>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/known_workbook.hpp"
#include "addin/office/service.hpp"
#include "addin/office/sheets.hpp"

namespace drysheet {
namespace {

/// Runs what an entry of the office calls; nothing that it throws leaves.
template <class Run>
void guarded(const Run& run) noexcept {
    try {
        run();
    } catch (const uno::Exception&) {
    } catch (const std::exception&) {
    }
}

struct Button {
    const char* command;
    const char* key;
    const char* label;
};
constexpr Button kButtons[] = {{"working", "menu.working", "Working as Cells"},
                               {"sure", "menu.sure", "How Sure Is This Cell"}};

using PanelBase = cppu::WeakComponentImplHelper7<ui::XUIElement, ui::XToolPanel, ui::XSidebarPanel,
                                                 view::XSelectionChangeListener, util::XModifyListener,
                                                 awt::XWindowListener, awt::XActionListener>;

class Panel final : private cppu::BaseMutex, public PanelBase {
  public:
    Panel(const Reference<uno::XComponentContext>& context, const Reference<frame::XFrame>& frame,
          const OUString& url)
        : PanelBase(m_aMutex), request_{context, frame, {}, {}, texts_of_menu(context)}, url_(url) {}

    /// After it is made: it hands itself to others.
    void build(const Reference<awt::XWindow>& parent) {
        parent_ = parent;
        const auto toolkit = request_.service<awt::XToolkit>("com.sun.star.awt.Toolkit");
        container_ = control("com.sun.star.awt.UnoControlContainer", {});
        container_->createPeer(toolkit, Reference<awt::XWindowPeer>(parent, UNO_QUERY_THROW));
        Reference<awt::XWindow>(container_, UNO_QUERY_THROW)->setVisible(true);
        text_ = add(kAboutControl, "com.sun.star.awt.UnoControlEdit",
                    {{"MultiLine", Any(true)},
                     {"ReadOnly", Any(true)},
                     {"VScroll", Any(true)},
                     {"Border", Any(sal_Int16{0})}});
        for (const Button& button : kButtons) {
            if (find_command(button.command) == nullptr) continue;
            const auto made =
                add(button.command, "com.sun.star.awt.UnoControlButton",
                    {{"Label", Any(ustring_from(request_.texts.text(button.key, button.label)))}});
            const Reference<awt::XButton> push(made, UNO_QUERY_THROW);
            push->setActionCommand(OUString::createFromAscii(button.command));
            push->addActionListener(this);
            buttons_.push_back(made);
        }
        parent_->addWindowListener(this);
        lay_out();
        follow();
    }

    // ---- the office asks

    Reference<frame::XFrame> SAL_CALL getFrame() override { return request_.frame; }
    OUString SAL_CALL getResourceURL() override { return url_; }
    sal_Int16 SAL_CALL getType() override { return ui::UIElementType::TOOLPANEL; }
    Reference<uno::XInterface> SAL_CALL getRealInterface() override {
        return static_cast<cppu::OWeakObject*>(this);
    }
    Reference<accessibility::XAccessible> SAL_CALL
    createAccessible(const Reference<accessibility::XAccessible>&) override {
        return {Reference<uno::XInterface>(container_, UNO_QUERY), UNO_QUERY};
    }
    Reference<awt::XWindow> SAL_CALL getWindow() override { return {container_, UNO_QUERY}; }
    ui::LayoutSize SAL_CALL getHeightForWidth(sal_Int32) override { return {200, -1, 400}; }
    sal_Int32 SAL_CALL getMinimalWidth() override { return 160; }

    // ---- the office tells

    void SAL_CALL selectionChanged(const lang::EventObject&) override {
        guarded([this] { tell(); });
    }
    void SAL_CALL modified(const lang::EventObject&) override {
        guarded([this] {
            if (known_) known_->changed();
        });
    }
    void SAL_CALL windowResized(const awt::WindowEvent&) override {
        guarded([this] { lay_out(); });
    }
    void SAL_CALL windowMoved(const awt::WindowEvent&) override {}
    void SAL_CALL windowShown(const lang::EventObject&) override {
        hidden_ = false;
        guarded([this] { tell(); });
    }
    void SAL_CALL windowHidden(const lang::EventObject&) override { hidden_ = true; }
    void SAL_CALL actionPerformed(const awt::ActionEvent& event) override {
        guarded([&] {
            // as from the menu, which says in a box why it did nothing
            util::URL url;
            url.Complete = "org.drysheet.menu:" + event.ActionCommand;
            const auto command = Reference<frame::XDispatchProvider>(request_.frame, UNO_QUERY_THROW)
                                     ->queryDispatch(url, "_self", 0);
            if (command.is()) command->dispatch(url, {});
        });
    }
    void SAL_CALL disposing(const lang::EventObject& event) override {
        if (event.Source == view_) view_.clear();
        if (event.Source == model_) model_.clear();
        if (event.Source == parent_) parent_.clear();
    }

  protected:
    void SAL_CALL disposing() override {
        guarded([this] {
            if (parent_.is()) parent_->removeWindowListener(this);
        });
        guarded([this] {
            if (view_.is()) view_->removeSelectionChangeListener(this);
        });
        guarded([this] {
            if (model_.is())
                Reference<util::XModifyBroadcaster>(model_, UNO_QUERY_THROW)->removeModifyListener(this);
        });
        guarded([this] {
            if (container_.is()) container_->dispose();
        });
        known_.reset();
        parent_.clear();
        view_.clear();
        model_.clear();
        buttons_.clear();
        text_.clear();
        container_.clear();
    }

  private:
    using Properties = std::vector<std::pair<const char*, Any>>;

    Reference<awt::XControl> control(const char* service, const Properties& properties) const {
        const std::string model = std::string(service) + "Model";
        const auto look = request_.service<awt::XControlModel>(model.c_str());
        for (const auto& [name, value] : properties) set_any(look, name, value);
        const auto made = request_.service<awt::XControl>(service);
        made->setModel(look);
        return made;
    }
    static void set_any(const Reference<uno::XInterface>& object, const char* name, const Any& value) {
        Reference<beans::XPropertySet>(object, UNO_QUERY_THROW)
            ->setPropertyValue(OUString::createFromAscii(name), value);
    }
    Reference<awt::XControl> add(const char* name, const char* service, const Properties& properties) const {
        const auto made = control(service, properties);
        Reference<awt::XControlContainer>(container_, UNO_QUERY_THROW)
            ->addControl(OUString::createFromAscii(name), made);
        return made;
    }

    /// Listens to the workbook in the window.
    void follow() {
        const Reference<frame::XController> controller = request_.frame->getController();
        if (!controller.is()) return;
        model_ = controller->getModel();
        if (!Reference<sheet::XSpreadsheetDocument>(model_, UNO_QUERY).is()) {
            model_.clear();
            return;
        }
        view_.set(controller, UNO_QUERY_THROW);
        view_->addSelectionChangeListener(this);
        Reference<util::XModifyBroadcaster>(model_, UNO_QUERY_THROW)->addModifyListener(this);
        known_ = std::make_unique<KnownWorkbook>(model_, request_.context,
                                                 [this] { guarded([this] { tell(); }); });
        tell();
    }

    void tell() {
        if (hidden_ || !known_ || !text_.is()) return;
        const auto place = selected_cell(model_);
        const OUString words = place ? ustring_from(known_->about(*place, request_.texts)) : OUString();
        if (words == told_) return;
        told_ = words;
        set_any(text_->getModel(), "Text", Any(words));
    }

    void lay_out() {
        if (!container_.is() || !parent_.is()) return;
        constexpr sal_Int32 margin = 6, height = 28;
        const awt::Rectangle room = parent_->getPosSize();
        const auto place = [](const Reference<awt::XControl>& what, sal_Int32 x, sal_Int32 y, sal_Int32 width,
                              sal_Int32 tall) {
            Reference<awt::XWindow>(what, UNO_QUERY_THROW)
                ->setPosSize(x, y, std::max<sal_Int32>(width, 1), std::max<sal_Int32>(tall, 1),
                             awt::PosSize::POSSIZE);
        };
        place(container_, 0, 0, room.Width, room.Height);
        sal_Int32 bottom = room.Height - margin;
        for (auto button = buttons_.rbegin(); button != buttons_.rend(); ++button) {
            bottom -= height;
            place(*button, margin, bottom, room.Width - 2 * margin, height - 2);
        }
        place(text_, margin, margin, room.Width - 2 * margin, bottom - 2 * margin);
    }

    const Request request_;
    const OUString url_;
    Reference<awt::XWindow> parent_;
    Reference<awt::XControl> container_, text_;
    std::vector<Reference<awt::XControl>> buttons_;
    Reference<view::XSelectionSupplier> view_;
    Reference<frame::XModel> model_;
    std::unique_ptr<KnownWorkbook> known_;
    OUString told_;
    bool hidden_ = false;
};

class PanelFactory final : public Service<cppu::WeakImplHelper2<ui::XUIElementFactory, lang::XServiceInfo>> {
  public:
    explicit PanelFactory(const Reference<uno::XComponentContext>& context)
        : Service("org.drysheet.PanelFactory", "com.sun.star.ui.UIElementFactory"), context_(context) {}

    Reference<ui::XUIElement> SAL_CALL
    createUIElement(const OUString& url, const Sequence<beans::PropertyValue>& arguments) override {
        Reference<frame::XFrame> frame;
        Reference<awt::XWindow> parent;
        for (const beans::PropertyValue& argument : arguments) {
            if (argument.Name == "Frame") argument.Value >>= frame;
            if (argument.Name == "ParentWindow") argument.Value >>= parent;
        }
        if (!frame.is() || !parent.is()) return {};
        rtl::Reference<Panel> panel;
        guarded([&] {
            panel = new Panel(context_, frame, url);
            panel->build(parent);
        });
        return panel.get();
    }

  private:
    const Reference<uno::XComponentContext> context_;
};

}  // namespace
}  // namespace drysheet

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* SAL_CALL
drysheet_panels(com::sun::star::uno::XComponentContext* context,
                const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return drysheet::made<drysheet::PanelFactory>(context);
}
