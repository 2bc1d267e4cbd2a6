// SPDX-License-Identifier: MPL-2.0
// A command of the menu as it was sent, and what each of them needs of the office.
#pragma once

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/frame/XFrame.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "addin/text/texts.hpp"

namespace drysheet {

/// Nothing was changed; `what()` is the sentence to show.
class NotDone : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

struct Request {
    com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context;
    com::sun::star::uno::Reference<com::sun::star::frame::XFrame> frame;  ///< none: sent without a window
    com::sun::star::uno::Sequence<com::sun::star::beans::PropertyValue> arguments;
    std::string name;  ///< "example-lesson"
    Texts texts;       ///< in the language of the menu

    /// What stands behind a family's name: "lesson" of "example-lesson".
    std::string behind(std::string_view family) const { return name.substr(family.size()); }

    /// An argument of the dispatch; empty where it was not given.
    rtl::OUString argument(const char* wanted) const;

    /// Whether there is no window in which a dialog could be seen.
    bool hidden() const;

    /// The workbook in the window. Throws NotDone where there is none.
    com::sun::star::uno::Reference<com::sun::star::frame::XModel> workbook() const;
    /// The same, which may be written to. Throws NotDone.
    com::sun::star::uno::Reference<com::sun::star::frame::XModel> writable_workbook() const;

    /// The URL of a file of the extension.
    rtl::OUString in_package(const std::string& path) const;

    template <class Interface>
    com::sun::star::uno::Reference<Interface> service(const char* of) const {
        return {context->getServiceManager()->createInstanceWithContext(rtl::OUString::createFromAscii(of),
                                                                        context),
                com::sun::star::uno::UNO_QUERY_THROW};
    }

    /// A document opened or made as the present one is shown: "private:factory/scalc" is a new workbook;
    /// `always_hidden`: without a window whatever the present one has.
    /// Throws NotDone where it cannot be.
    com::sun::star::uno::Reference<com::sun::star::frame::XModel> load(
        const rtl::OUString& url, std::vector<com::sun::star::beans::PropertyValue> how = {},
        bool always_hidden = false) const;
};

/// The folder of the installed extension's file; used where there is no request.
rtl::OUString in_package(
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context,
    const std::string& path);

/// The texts in the language of the menu; English where there is no translator's file for it.
const Texts& texts_of_menu(
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

}  // namespace drysheet
