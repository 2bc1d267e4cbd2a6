// SPDX-License-Identifier: MPL-2.0
// The commands that only show something: the page of all functions, the version.
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>
#include <com/sun/star/system/XSystemShellExecute.hpp>

#include "addin/call/lookup.hpp"
#include "addin/office/cells.hpp"
#include "addin/office/commands.hpp"
#include "addin/office/uno.hpp"

namespace drysheet {

std::string about(const Request& request) {
    const Texts& texts = request.texts;
    return texts.word("Drysheet {}: {} functions for drying fruit, vegetables and herbs, all named DRY.…",
                      {DRYSHEET_VERSION, std::to_string(functions().size())}) +
           "\n\n" +
           texts.word("Free software under the Mozilla Public License 2.0; its text is in the extension.") +
           "\n" +
           texts.word(
               "A calculation is no food safety assessment: only a measured water activity and the "
               "local food authority decide.");
}

std::string open_reference(const Request& request) {
    const OUString page = request.in_package("help/functions.html");
    try {
        request.service<system::XSystemShellExecute>("com.sun.star.system.SystemShellExecute")
            ->execute(page, OUString(), system::SystemShellExecuteFlags::URIS_ONLY);
    } catch (const uno::Exception&) {
        throw NotDone(
            request.texts.word("No browser opened. The page of all functions is {}", {utf8_from(page)}));
    }
    return request.texts.word("If no browser opens: the page of all functions is {}", {utf8_from(page)});
}

}  // namespace drysheet
