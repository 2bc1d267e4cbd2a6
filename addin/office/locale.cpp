// SPDX-License-Identifier: MPL-2.0
#include "addin/office/locale.hpp"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <com/sun/star/util/XNumberFormatter.hpp>

#include "addin/office/cells.hpp"
#include "addin/office/request.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

template <class Interface>
Reference<Interface> service(const Reference<uno::XComponentContext>& context, const char* name) {
    return {context->getServiceManager()->createInstanceWithContext(OUString::createFromAscii(name), context),
            UNO_QUERY_THROW};
}

}  // namespace

Reading reading_of(const Reference<uno::XComponentContext>& context) {
    const Texts& texts = texts_of_menu(context);
    Reading reading{.texts = texts.language() == "en" ? nullptr : &texts};
    try {
        const auto formatter = service<util::XNumberFormatter>(context, "com.sun.star.util.NumberFormatter");
        formatter->attachNumberFormatsSupplier(
            service<util::XNumberFormatsSupplier>(context, "com.sun.star.util.NumberFormatsSupplier"));
        reading.decimal_comma = formatter->convertNumberToString(0, 0.5).indexOf(',') >= 0;
    } catch (const uno::Exception&) {  // a comma is then refused as ambiguous
    }
    return reading;
}

std::string menu_language(const Reference<uno::XComponentContext>& context) {
    uno::Sequence<Any> arguments(1);
    arguments.getArray()[0] <<= beans::PropertyValue(
        "nodepath", 0, Any(OUString("/org.openoffice.Setup/L10N")), beans::PropertyState_DIRECT_VALUE);
    const Reference<container::XNameAccess> settings(
        service<lang::XMultiServiceFactory>(context, "com.sun.star.configuration.ConfigurationProvider")
            ->createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", arguments),
        UNO_QUERY_THROW);
    OUString language;
    settings->getByName("ooLocale") >>= language;
    return utf8_from(language.getToken(0, '-'));
}

}  // namespace drysheet
