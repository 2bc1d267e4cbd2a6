// SPDX-License-Identifier: MPL-2.0
#include "addin/office/folder.hpp"

#include <algorithm>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/ui/dialogs/ExecutableDialogResults.hpp>
#include <com/sun/star/ui/dialogs/XFolderPicker.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <fstream>
#include <osl/file.hxx>
#include <rtl/uri.hxx>
#include <stdexcept>

#include "addin/office/cells.hpp"
#include "addin/office/long_work.hpp"
#include "addin/office/uno.hpp"
#include "addin/text/utf8_path.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

OUString without_slash(const OUString& url) {
    return url.endsWith("/") ? url.copy(0, url.getLength() - 1) : url;
}

}  // namespace

std::string name_in(const OUString& url) {
    const OUString name = url.copy(url.lastIndexOf('/') + 1);
    return utf8_from(rtl::Uri::decode(name, rtl_UriDecodeWithCharset, RTL_TEXTENCODING_UTF8));
}

OUString asked_folder(const Request& request, const std::string& title) {
    const OUString given = request.argument("Folder");
    if (!given.isEmpty()) return without_slash(given);
    if (request.hidden())
        throw NotDone(request.texts.word("Say which folder: the argument Folder, a URL, is missing."));
    const auto picker = request.service<ui::dialogs::XFolderPicker>("com.sun.star.ui.dialogs.FolderPicker");
    picker->setTitle(ustring_from(title));
    const OUString beside = request.workbook()->getURL();
    if (!beside.isEmpty()) picker->setDisplayDirectory(beside.copy(0, beside.lastIndexOf('/')));
    if (picker->execute() != ui::dialogs::ExecutableDialogResults::OK)
        throw Stopped(request.texts.word("No folder was chosen."));
    return without_slash(picker->getDirectory());
}

std::vector<OUString> workbooks_in(const Reference<ucb::XSimpleFileAccess>& files, const OUString& folder,
                                   const Texts& texts) {
    if (!files->exists(folder) || !files->isFolder(folder))
        throw NotDone(texts.word("There is no folder {}.", {utf8_from(folder)}));
    std::vector<OUString> found;
    const Sequence<OUString> all = files->getFolderContents(folder, false);
    for (const OUString& file : all) {
        const std::string name = lower(name_in(file));
        if (name.starts_with(".") || name.starts_with("~")) continue;
        const auto dot = name.rfind('.');
        static constexpr std::string_view endings[] = {"ods",  "fods", "ots", "xlsx",
                                                       "xlsm", "xltx", "xls", "xlt"};
        if (dot != std::string::npos &&
            std::ranges::find(endings, std::string_view(name).substr(dot + 1)) != std::end(endings))
            found.push_back(file);
    }
    if (found.empty()) throw NotDone(texts.word("There is no workbook in {}.", {utf8_from(folder)}));
    std::ranges::sort(found, [](const OUString& a, const OUString& b) { return a.compareTo(b) < 0; });
    return found;
}

OUString free_beside(const Reference<ucb::XSimpleFileAccess>& files, const OUString& folder, const char* what,
                     std::initializer_list<const char*> endings) {
    const OUString wanted = folder + "%20" + OUString::createFromAscii(what);
    OUString base = wanted;
    const auto taken = [&](const char* ending) {
        return files->exists(base + OUString::createFromAscii(ending));
    };
    for (sal_Int32 i = 2; std::ranges::any_of(endings, taken); ++i)
        base = wanted + "%20" + OUString::number(i);
    return base;
}

void write_file(const OUString& url, const std::string& text) {
    OUString path;
    if (osl::FileBase::getSystemPathFromFileURL(url, path) != osl::FileBase::E_None)
        throw std::runtime_error(utf8_from(url));
    std::ofstream out(utf8_path(utf8_from(path)), std::ios::binary);
    if (!(out << text).flush()) throw std::runtime_error(utf8_from(path));
}

Opened::Opened(const Request& request, const OUString& file) {
    const auto value = [](const char* name, const Any& any) {
        return beans::PropertyValue(OUString::createFromAscii(name), 0, any,
                                    beans::PropertyState_DIRECT_VALUE);
    };
    model_ = request.load(file,
                          {value("ReadOnly", Any(true)), value("PickListEntry", Any(false)),
                           value("MacroExecutionMode", Any(document::MacroExecMode::NEVER_EXECUTE)),
                           value("UpdateDocMode", Any(document::UpdateDocMode::NO_UPDATE))},
                          true);
}

Opened::~Opened() {
    try {
        Reference<util::XCloseable>(model_, UNO_QUERY_THROW)->close(true);
    } catch (const uno::Exception&) {  // it is gone already
    }
}

}  // namespace drysheet
