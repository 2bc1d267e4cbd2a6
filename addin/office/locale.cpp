// SPDX-License-Identifier: MPL-2.0
#include "addin/office/locale.hpp"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/i18n/XLocaleData.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <cstdlib>
#include <string>

#include "addin/office/request.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {
namespace {

OUString setting(const Reference<uno::XComponentContext>& context, const char* name) {
    const Reference<lang::XMultiServiceFactory> provider(
        context->getServiceManager()->createInstanceWithContext(
            "com.sun.star.configuration.ConfigurationProvider", context),
        uno::UNO_QUERY_THROW);
    uno::Sequence<Any> arguments(1);
    arguments.getArray()[0] <<= beans::PropertyValue(
        "nodepath", 0, Any(OUString("/org.openoffice.Setup/L10N")), beans::PropertyState_DIRECT_VALUE);
    const Reference<container::XNameAccess> access(
        provider->createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", arguments),
        uno::UNO_QUERY_THROW);
    OUString value;
    access->getByName(OUString::createFromAscii(name)) >>= value;
    return value;
}

// "de-DE", "de_DE.UTF-8" → language and country
lang::Locale parsed(const std::string& tag) {
    const auto end = tag.find_first_of(".@");
    const std::string name = tag.substr(0, end);
    const auto cut = name.find_first_of("-_");
    return {OUString::createFromAscii(name.substr(0, cut).c_str()),
            cut == std::string::npos ? OUString() : OUString::createFromAscii(name.substr(cut + 1).c_str()),
            OUString()};
}

std::string environment_locale() {
    for (const char* name : {"LC_ALL", "LC_NUMERIC", "LANG"})
        if (const char* value = std::getenv(name); value != nullptr && *value != '\0') return value;
    return "en-US";
}

}  // namespace

Reading reading_of(const Reference<uno::XComponentContext>& context) {
    const Texts& texts = texts_of_menu(context);
    Reading reading{.texts = texts.language() == "en" ? nullptr : &texts};
    try {
        const OUString chosen = setting(context, "ooSetupSystemLocale");
        std::string tag = chosen.isEmpty()
                              ? environment_locale()
                              : std::string(rtl::OUStringToOString(chosen, RTL_TEXTENCODING_UTF8).getStr());
        if (tag.starts_with("C.") || tag == "C" || tag == "POSIX") tag = "en-US";
        const Reference<i18n::XLocaleData> data(
            context->getServiceManager()->createInstanceWithContext("com.sun.star.i18n.LocaleData", context),
            uno::UNO_QUERY_THROW);
        reading.decimal_comma = data->getLocaleItem(parsed(tag)).decimalSeparator == ",";
    } catch (const uno::Exception&) {  // no settings to be had: a comma is then refused as ambiguous
    }
    return reading;
}

std::string menu_language(const Reference<uno::XComponentContext>& context) {
    const OUString language = setting(context, "ooLocale").getToken(0, '-');
    return rtl::OUStringToOString(language, RTL_TEXTENCODING_UTF8).getStr();
}

}  // namespace drysheet
