// SPDX-License-Identifier: MPL-2.0
// About This Cell: opens the deck, and its entry in the menu of a cell.
#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/container/XIndexContainer.hpp>
#include <com/sun/star/frame/XController2.hpp>
#include <com/sun/star/frame/XDispatchHelper.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XModel2.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/task/XJob.hpp>
#include <com/sun/star/ui/XContextMenuInterception.hpp>
#include <com/sun/star/ui/XContextMenuInterceptor.hpp>
#include <com/sun/star/ui/XDeck.hpp>
#include <com/sun/star/ui/XDecks.hpp>
#include <com/sun/star/ui/XSidebarProvider.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cppuhelper/implbase2.hxx>
#include <mutex>
#include <rtl/ref.hxx>
#include <set>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/known_workbook.hpp"
#include "addin/office/panel.hpp"
#include "addin/office/service.hpp"
#include "addin/office/sheets.hpp"

namespace drysheet {
namespace {

/// Whether the deck is the one that is seen. Each step in a variable of its own: the office hands out empty
/// lists in a chain of calls.
bool deck_is_open(const Reference<frame::XFrame>& frame) {
    const Reference<frame::XController2> controller(frame->getController(), UNO_QUERY);
    if (!controller.is()) return false;
    const Reference<ui::XSidebarProvider> sidebar = controller->getSidebar();
    if (!sidebar.is() || !sidebar->isVisible()) return false;
    const Reference<ui::XDecks> decks = sidebar->getDecks();
    const OUString name = OUString::createFromAscii(kDeck);
    if (!decks.is() || !decks->hasByName(name)) return false;
    const Reference<ui::XDeck> deck(decks->getByName(name), UNO_QUERY);
    return deck.is() && deck->isActive();
}

class CellMenu final : public cppu::WeakImplHelper1<ui::XContextMenuInterceptor> {
  public:
    explicit CellMenu(const OUString& label) : label_(label) {}

    ui::ContextMenuInterceptorAction SAL_CALL
    notifyContextMenuExecute(const ui::ContextMenuExecuteEvent& event) override {
        try {
            const Reference<container::XIndexContainer> menu = event.ActionTriggerContainer;
            if (!is_of_cells(menu)) return ui::ContextMenuInterceptorAction_IGNORED;
            const Reference<lang::XMultiServiceFactory> factory(menu, UNO_QUERY_THROW);
            const Reference<beans::XPropertySet> entry(
                factory->createInstance("com.sun.star.ui.ActionTrigger"), UNO_QUERY_THROW);
            entry->setPropertyValue("Text", Any(label_));
            entry->setPropertyValue("CommandURL", Any(OUString("org.drysheet.menu:cell")));
            menu->insertByIndex(menu->getCount(),
                                Any(factory->createInstance("com.sun.star.ui.ActionTriggerSeparator")));
            menu->insertByIndex(menu->getCount(), Any(entry));
            return ui::ContextMenuInterceptorAction_EXECUTE_MODIFIED;
        } catch (const uno::Exception&) {
            return ui::ContextMenuInterceptorAction_IGNORED;
        }
    }

  private:
    // the menus of row and column headings have no such entry
    static bool is_of_cells(const Reference<container::XIndexContainer>& menu) {
        for (sal_Int32 i = 0; i < menu->getCount(); ++i) {
            const Reference<beans::XPropertySet> entry(menu->getByIndex(i), UNO_QUERY);
            OUString command;
            if (entry.is() && entry->getPropertySetInfo()->hasPropertyByName("CommandURL") &&
                (entry->getPropertyValue("CommandURL") >>= command) && command == ".uno:InsertCell")
                return true;
        }
        return false;
    }
    const OUString label_;
};

/// The windows that have the entry already.
class Windows final : public cppu::WeakImplHelper1<lang::XEventListener> {
  public:
    bool is_new(const Reference<frame::XController>& controller) {
        const std::lock_guard lock(mutex_);
        return known_.insert(Reference<uno::XInterface>(controller, UNO_QUERY).get()).second;
    }
    void SAL_CALL disposing(const lang::EventObject& event) override {
        const std::lock_guard lock(mutex_);
        known_.erase(Reference<uno::XInterface>(event.Source, UNO_QUERY).get());
    }

  private:
    std::mutex mutex_;
    std::set<uno::XInterface*> known_;
};

/// Runs whenever a window of a document is made.
class WindowMade final : public Service<cppu::WeakImplHelper2<task::XJob, lang::XServiceInfo>> {
  public:
    explicit WindowMade(const Reference<uno::XComponentContext>& context)
        : Service("org.drysheet.WindowMade", "com.sun.star.task.Job"), context_(context) {}

    Any SAL_CALL execute(const Sequence<beans::NamedValue>& arguments) override {
        try {
            Reference<frame::XModel2> model;
            for (const beans::NamedValue& argument : arguments) {
                Sequence<beans::NamedValue> environment;
                if (argument.Name != "Environment" || !(argument.Value >>= environment)) continue;
                for (const beans::NamedValue& part : environment)
                    if (part.Name == "Model")
                        model.set(Reference<uno::XInterface>(part.Value, UNO_QUERY), UNO_QUERY);
            }
            if (Reference<sheet::XSpreadsheetDocument>(model, UNO_QUERY).is()) add_entries(model);
        } catch (const uno::Exception&) {
        } catch (const std::exception&) {
        }
        return {};
    }

  private:
    void add_entries(const Reference<frame::XModel2>& model) {
        static const rtl::Reference<Windows> windows(new Windows);
        const Reference<container::XEnumeration> controllers = model->getControllers();
        while (controllers->hasMoreElements()) {
            const Reference<frame::XController> controller(controllers->nextElement(), UNO_QUERY);
            const Reference<ui::XContextMenuInterception> menus(controller, UNO_QUERY);
            if (!menus.is() || !windows->is_new(controller)) continue;
            controller->addEventListener(windows.get());
            menus->registerContextMenuInterceptor(
                new CellMenu(ustring_from(texts_of_menu(context_).text("menu.cell", "About This Cell"))));
        }
    }
    const Reference<uno::XComponentContext> context_;
};

}  // namespace

std::string about_cell(const Request& request) {
    const Reference<frame::XModel> model = request.workbook();
    const auto place = selected_cell(model);
    if (!place) throw NotDone(request.texts.word("Put the cursor on a cell first."));
    if (!request.hidden() && !deck_is_open(request.frame)) {
        // this command closes a deck that is open
        request.service<frame::XDispatchHelper>("com.sun.star.frame.DispatchHelper")
            ->executeDispatch(Reference<frame::XDispatchProvider>(request.frame, UNO_QUERY_THROW),
                              ".uno:SidebarDeck." + OUString::createFromAscii(kDeck), "_self", 0, {});
        request.frame->getComponentWindow()->setFocus();  // the deck took the keyboard
    }
    return KnownWorkbook(model, request.context, nullptr).about(*place, request.texts);
}

}  // namespace drysheet

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* SAL_CALL
drysheet_window_made(com::sun::star::uno::XComponentContext* context,
                     const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return drysheet::made<drysheet::WindowMade>(context);
}
