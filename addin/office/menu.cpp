// SPDX-License-Identifier: MPL-2.0
// The menu: what stands behind the commands org.drysheet.menu:… of Addons.xcu.
#include <algorithm>
#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/awt/XWindowPeer.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <cppuhelper/implbase4.hxx>

#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/long_work.hpp"
#include "addin/office/said.hpp"
#include "addin/office/service.hpp"

namespace drysheet {
namespace {

constexpr Command kCommands[] = {
    {"trial", add_trial},
    {"trials", put_trials_side_by_side},
    {"put-", put_formulas},
    {"cell", about_cell, Command::Says::nothing},
    {"working", working_as_cells},
    {"sure", how_sure},
    {"review", review},
    {"review-folder", review_folder},
    {"adopt", adopt},
    {"hand-out", hand_out_workbooks},
    {"collect", collect_answers},
    {"example-", open_example, Command::Says::nothing},
    {"form-", open_form, Command::Says::nothing},
    {"reference", open_reference},
    {"about", about, Command::Says::in_box},
};

constexpr char kProtocol[] = "org.drysheet.menu:";

class Menu final : public Service<cppu::WeakImplHelper4<lang::XInitialization, frame::XDispatchProvider,
                                                        frame::XNotifyingDispatch, lang::XServiceInfo>> {
  public:
    explicit Menu(const Reference<uno::XComponentContext>& context)
        : Service("org.drysheet.Menu", "com.sun.star.frame.ProtocolHandler"), context_(context) {}

    void SAL_CALL initialize(const Sequence<Any>& arguments) override {
        if (arguments.getLength() > 0) arguments[0] >>= frame_;
    }

    Reference<frame::XDispatch> SAL_CALL queryDispatch(const util::URL& url, const OUString&,
                                                       sal_Int32) override {
        return url.Complete.startsWith(kProtocol) ? this : nullptr;
    }
    Sequence<Reference<frame::XDispatch>> SAL_CALL
    queryDispatches(const Sequence<frame::DispatchDescriptor>& wanted) override {
        Sequence<Reference<frame::XDispatch>> found(wanted.getLength());
        for (sal_Int32 i = 0; i < wanted.getLength(); ++i)
            found.getArray()[i] =
                queryDispatch(wanted[i].FeatureURL, wanted[i].FrameName, wanted[i].SearchFlags);
        return found;
    }

    /// From the menu: what went wrong is shown in a box, what was done where the command wants it.
    void SAL_CALL dispatch(const util::URL& url, const Sequence<beans::PropertyValue>& arguments) override {
        const Outcome outcome = outcome_of(url, arguments);
        if (outcome.says == Command::Says::in_box) show(outcome);
    }
    /// From a macro or a test: it is handed back instead.
    void SAL_CALL
    dispatchWithNotification(const util::URL& url, const Sequence<beans::PropertyValue>& arguments,
                             const Reference<frame::XDispatchResultListener>& listener) override {
        const Outcome outcome = outcome_of(url, arguments);
        if (listener.is())
            listener->dispatchFinished({static_cast<cppu::OWeakObject*>(this),
                                        outcome.kind == awt::MessageBoxType_INFOBOX
                                            ? frame::DispatchResultState::SUCCESS
                                            : frame::DispatchResultState::FAILURE,
                                        Any(ustring_from(outcome.words))});
    }
    void SAL_CALL addStatusListener(const Reference<frame::XStatusListener>&, const util::URL&) override {}
    void SAL_CALL removeStatusListener(const Reference<frame::XStatusListener>&, const util::URL&) override {}

  private:
    struct Outcome {
        awt::MessageBoxType kind = awt::MessageBoxType_INFOBOX;
        std::string words;
        Command::Says says = Command::Says::nothing;
    };

    /// Nothing is thrown: an exception that a dispatch does not declare ends the office.
    Outcome outcome_of(const util::URL& url, const Sequence<beans::PropertyValue>& arguments) {
        Request request{context_, frame_, arguments, {}, texts_of_menu(context_)};
        const auto fault = [&request](const std::string& what) {
            return Outcome{awt::MessageBoxType_ERRORBOX, request.texts.word("This did not work: {}", {what}),
                           Command::Says::in_box};
        };
        try {
            request.name = utf8_from(url.Complete.copy(static_cast<sal_Int32>(sizeof kProtocol - 1)));
            const Command* command = find_command(request.name);
            if (command == nullptr) throw NotDone("There is no command \"" + request.name + "\".");
            Outcome done{awt::MessageBoxType_INFOBOX, command->run(request), command->says};
            if (command->says == Command::Says::in_status_bar) say(frame_, done.words);
            return done;
        } catch (const Stopped& reason) {
            say(frame_, reason.what());
            return {awt::MessageBoxType_WARNINGBOX, reason.what(), Command::Says::in_status_bar};
        } catch (const NotDone& reason) {
            return {awt::MessageBoxType_WARNINGBOX, reason.what(), Command::Says::in_box};
        } catch (const uno::Exception& thrown) {
            return fault(utf8_from(thrown.Message));
        } catch (const std::exception& thrown) {
            return fault(thrown.what());
        } catch (...) {
            return fault("?");
        }
    }

    void show(const Outcome& outcome) const {
        try {
            const Request request{context_, frame_, {}, {}, {}};
            if (request.hidden()) return;
            request.service<awt::XMessageBoxFactory>("com.sun.star.awt.Toolkit")
                ->createMessageBox(Reference<awt::XWindowPeer>(frame_->getContainerWindow(), uno::UNO_QUERY),
                                   outcome.kind, awt::MessageBoxButtons::BUTTONS_OK, "Drysheet",
                                   ustring_from(outcome.words))
                ->execute();
        } catch (const uno::Exception&) {  // no window to show it in
        }
    }

    const Reference<uno::XComponentContext> context_;
    Reference<frame::XFrame> frame_;
};

}  // namespace

const Command* find_command(std::string_view name) {
    const auto* const found = std::ranges::find_if(kCommands, [name](const Command& command) {
        return command.name == name || (command.name.ends_with('-') && name.starts_with(command.name));
    });
    return found == std::end(kCommands) ? nullptr : found;
}

}  // namespace drysheet

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* SAL_CALL
drysheet_menu(com::sun::star::uno::XComponentContext* context,
              const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return drysheet::made<drysheet::Menu>(context);
}
