// The menu: what stands behind the commands org.drysheet.menu:… of Addons.xcu.
#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/awt/XWindowPeer.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/deployment/XPackageInformationProvider.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XFrame.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>
#include <com/sun/star/system/XSystemShellExecute.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/implbase4.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <filesystem>
#include <osl/file.hxx>

#include "addin/call/lookup.hpp"
#include "addin/office/audit.hpp"
#include "addin/office/cells.hpp"
#include "addin/office/insert.hpp"
#include "addin/office/locale.hpp"
#include "addin/office/undo.hpp"

namespace drysheet {
namespace {

using namespace com::sun::star;
using rtl::OUString;
using uno::Any;
using uno::Reference;
using uno::Sequence;
using uno::UNO_QUERY_THROW;

constexpr char kProtocol[] = "org.drysheet.menu:";

class Menu final : public cppu::WeakImplHelper4<lang::XInitialization, frame::XDispatchProvider,
                                                frame::XNotifyingDispatch, lang::XServiceInfo> {
  public:
    explicit Menu(const Reference<uno::XComponentContext>& context) : context_(context) {}

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

    /// From the menu: what there is to say is shown.
    void SAL_CALL dispatch(const util::URL& url, const Sequence<beans::PropertyValue>&) override {
        const auto [kind, words] = outcome_of(url);
        if (kind != awt::MessageBoxType_INFOBOX || command_of(url) == "about") show(kind, words);
    }
    /// From a macro or a test: it is handed back instead.
    void SAL_CALL
    dispatchWithNotification(const util::URL& url, const Sequence<beans::PropertyValue>&,
                             const Reference<frame::XDispatchResultListener>& listener) override {
        const auto [kind, words] = outcome_of(url);
        if (listener.is())
            listener->dispatchFinished({static_cast<cppu::OWeakObject*>(this),
                                        kind == awt::MessageBoxType_INFOBOX
                                            ? frame::DispatchResultState::SUCCESS
                                            : frame::DispatchResultState::FAILURE,
                                        Any(ustring_from(words))});
    }
    void SAL_CALL addStatusListener(const Reference<frame::XStatusListener>&, const util::URL&) override {}
    void SAL_CALL removeStatusListener(const Reference<frame::XStatusListener>&, const util::URL&) override {}

    OUString SAL_CALL getImplementationName() override { return "org.drysheet.Menu"; }
    sal_Bool SAL_CALL supportsService(const OUString& name) override {
        return cppu::supportsService(this, name);
    }
    Sequence<OUString> SAL_CALL getSupportedServiceNames() override {
        const OUString service("com.sun.star.frame.ProtocolHandler");
        return {&service, 1};
    }

  private:
    static std::string command_of(const util::URL& url) {
        return utf8_from(url.Complete.copy(static_cast<sal_Int32>(sizeof kProtocol - 1)));
    }

    /// Nothing is thrown: an exception that a dispatch does not declare ends the office.
    std::pair<awt::MessageBoxType, std::string> outcome_of(const util::URL& url) {
        const Texts texts = texts_of_menu();
        const auto fault = [&texts](const std::string& what) {
            return std::pair(awt::MessageBoxType_ERRORBOX, texts.word("This did not work: {}", {what}));
        };
        try {
            return {awt::MessageBoxType_INFOBOX, run(command_of(url), texts)};
        } catch (const NotDone& reason) {
            return {awt::MessageBoxType_WARNINGBOX, reason.what()};
        } catch (const uno::Exception& thrown) {
            return fault(utf8_from(thrown.Message));
        } catch (const std::exception& thrown) {
            return fault(thrown.what());
        }
    }

    /// In the language of the menu; in English where there is no translator's file for it.
    Texts texts_of_menu() const {
        try {
            OUString file;
            if (osl::FileBase::getSystemPathFromFileURL(
                    in_package("texts/" + menu_language(context_) + ".tsv"), file) == osl::FileBase::E_None &&
                std::filesystem::exists(utf8_from(file)))
                return Texts(utf8_from(file));
        } catch (const uno::Exception&) {
        } catch (const std::exception&) {
        }
        return {};
    }

    template <class Interface>
    Reference<Interface> service(const char* name) const {
        return {context_->getServiceManager()->createInstanceWithContext(OUString::createFromAscii(name),
                                                                         context_),
                UNO_QUERY_THROW};
    }

    std::string run(const std::string& command, const Texts& texts) {
        if (command == "check") return check(texts);
        if (command == "reference") return open_reference();
        if (command == "about")
            return texts.word(
                       "Drysheet {}: {} functions for drying fruit, vegetables and herbs, all named DRY.…",
                       {DRYSHEET_VERSION, std::to_string(functions().size())}) +
                   "\n\n" +
                   texts.word(
                       "Free software under the Mozilla Public License 2.0; its text is in the extension.") +
                   "\n" +
                   texts.word(
                       "A calculation is no food safety assessment: only a measured water activity and the "
                       "local food authority decide.");
        if (command.starts_with("example/")) return open_example(command.substr(8), texts);
        if (const Pattern* pattern =
                command.starts_with("pattern/") ? find_pattern(command.substr(8)) : nullptr)
            return insert_pattern(workbook(texts), *pattern, texts);
        throw NotDone("There is no command \"" + command + "\".");
    }

    Reference<frame::XModel> workbook(const Texts& texts) const {
        const Reference<frame::XModel> model(frame_.is() && frame_->getController().is()
                                                 ? frame_->getController()->getModel()
                                                 : Reference<frame::XModel>());
        if (!Reference<sheet::XSpreadsheetDocument>(model, uno::UNO_QUERY).is())
            throw NotDone(texts.word("Open a Calc workbook first."));
        if (Reference<frame::XStorable>(model, UNO_QUERY_THROW)->isReadonly())
            throw NotDone(
                texts.word("This workbook is open for reading only. Save it under another name first."));
        return model;
    }

    std::string check(const Texts& texts) {
        const Reference<frame::XModel> model = workbook(texts);
        const Reference<task::XStatusIndicatorFactory> indicators(frame_, uno::UNO_QUERY);
        return check_workbook(
            Reference<sheet::XSpreadsheetDocument>(model, UNO_QUERY_THROW),
            indicators.is() ? indicators->createStatusIndicator() : Reference<task::XStatusIndicator>(),
            texts);
    }

    OUString in_package(const std::string& path) const {
        const Reference<deployment::XPackageInformationProvider> packages(
            context_->getValueByName("/singletons/com.sun.star.deployment.PackageInformationProvider"),
            UNO_QUERY_THROW);
        return packages->getPackageLocation("org.drysheet.addin") + "/" + ustring_from(path);
    }

    /// As a new workbook without a name, so that the example itself stays as it is.
    std::string open_example(const std::string& name, const Texts& texts) {
        Sequence<beans::PropertyValue> how(1);
        how.getArray()[0] =
            beans::PropertyValue("AsTemplate", 0, Any(true), beans::PropertyState_DIRECT_VALUE);
        const OUString file = in_package("examples/" + name + ".fods");
        const auto loader = service<frame::XComponentLoader>("com.sun.star.frame.Desktop");
        try {
            if (loader->loadComponentFromURL(file, "_default", 0, how).is()) return name;
        } catch (const uno::Exception&) {  // Calc 7.4 throws for a file that is not there
        }
        throw NotDone(texts.word("The example \"{}\" could not be opened.", {name}));
    }

    std::string open_reference() {
        const OUString page = in_package("help/functions.html");
        service<system::XSystemShellExecute>("com.sun.star.system.SystemShellExecute")
            ->execute(page, OUString(), system::SystemShellExecuteFlags::URIS_ONLY);
        return utf8_from(page);
    }

    void show(awt::MessageBoxType type, const std::string& words) const {
        const Reference<awt::XWindowPeer> parent(
            frame_.is() ? frame_->getContainerWindow() : Reference<awt::XWindow>(), uno::UNO_QUERY);
        service<awt::XMessageBoxFactory>("com.sun.star.awt.Toolkit")
            ->createMessageBox(parent, type, awt::MessageBoxButtons::BUTTONS_OK, "Drysheet",
                               ustring_from(words))
            ->execute();
    }

    const Reference<uno::XComponentContext> context_;
    Reference<frame::XFrame> frame_;
};

}  // namespace
}  // namespace drysheet

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* SAL_CALL
drysheet_menu(com::sun::star::uno::XComponentContext* context,
              const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return cppu::acquire(static_cast<cppu::OWeakObject*>(new drysheet::Menu(context)));
}
