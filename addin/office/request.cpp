// SPDX-License-Identifier: MPL-2.0
#include "addin/office/request.hpp"

#include <com/sun/star/awt/XWindow2.hpp>
#include <com/sun/star/deployment/XPackageInformationProvider.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <map>
#include <mutex>
#include <osl/file.hxx>

#include "addin/office/cells.hpp"
#include "addin/office/locale.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {

OUString Request::argument(const char* wanted) const {
    OUString value;
    for (sal_Int32 i = 0; i < arguments.getLength(); ++i)
        if (arguments[i].Name.equalsAscii(wanted)) arguments[i].Value >>= value;
    return value;
}

bool Request::hidden() const {
    const Reference<awt::XWindow2> window(
        frame.is() ? frame->getContainerWindow() : Reference<awt::XWindow>(), UNO_QUERY);
    return !window.is() || !window->isVisible();
}

Reference<frame::XModel> Request::workbook() const {
    const Reference<frame::XController> controller =
        frame.is() ? frame->getController() : Reference<frame::XController>();
    const Reference<frame::XModel> model =
        controller.is() ? controller->getModel() : Reference<frame::XModel>();
    if (!Reference<sheet::XSpreadsheetDocument>(model, UNO_QUERY).is())
        throw NotDone(texts.word("Open a Calc workbook first."));
    return model;
}

Reference<frame::XModel> Request::writable_workbook() const {
    Reference<frame::XModel> model = workbook();
    if (Reference<frame::XStorable>(model, UNO_QUERY_THROW)->isReadonly())
        throw NotDone(
            texts.word("This workbook is open for reading only. Save it under another name first."));
    return model;
}

OUString Request::in_package(const std::string& path) const { return drysheet::in_package(context, path); }

Reference<frame::XModel> Request::load(const OUString& url, std::vector<beans::PropertyValue> how,
                                       bool always_hidden) const {
    const bool unseen = always_hidden || hidden();
    how.emplace_back("Hidden", 0, Any(unseen), beans::PropertyState_DIRECT_VALUE);
    Reference<frame::XModel> model;
    try {
        model.set(service<frame::XComponentLoader>("com.sun.star.frame.Desktop")
                      ->loadComponentFromURL(url, unseen ? OUString("_blank") : OUString("_default"), 0,
                                             {how.data(), static_cast<sal_Int32>(how.size())}),
                  UNO_QUERY);
    } catch (const uno::Exception&) {  // Calc 7.4 throws for a file that is not there
    }
    if (!model.is()) throw NotDone(texts.word("{} could not be opened.", {utf8_from(url)}));
    return model;
}

OUString in_package(const Reference<uno::XComponentContext>& context, const std::string& path) {
    const Reference<deployment::XPackageInformationProvider> packages(
        context->getValueByName("/singletons/com.sun.star.deployment.PackageInformationProvider"),
        UNO_QUERY_THROW);
    return packages->getPackageLocation("org.drysheet.addin") + "/" + ustring_from(path);
}

namespace {

Texts read_texts(const Reference<uno::XComponentContext>& context, const std::string& language) {
    try {
        OUString file;
        if (osl::FileBase::getSystemPathFromFileURL(in_package(context, "texts/" + language + ".tsv"),
                                                    file) == osl::FileBase::E_None)
            return Texts(utf8_from(file));
    } catch (const uno::Exception&) {
    } catch (const std::exception&) {  // no such language
    }
    return {};
}

}  // namespace

const Texts& texts_of_menu(const Reference<uno::XComponentContext>& context) {
    static std::mutex one_at_a_time;
    static std::map<std::string, Texts> read;
    const std::string language = menu_language(context);
    const std::scoped_lock lock(one_at_a_time);
    auto found = read.find(language);
    if (found == read.end()) found = read.emplace(language, read_texts(context, language)).first;
    return found->second;
}

}  // namespace drysheet
