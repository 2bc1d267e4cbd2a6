// SPDX-License-Identifier: MPL-2.0
// What the wizard and the reference say of a function and its arguments: the catalogue's words with unit and
// range.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "addin/call/lookup.hpp"
#include "addin/text/texts.hpp"
#include "addin/text/words.hpp"

namespace drysheet {

/// Nothing where the language has no text for it.
std::optional<std::string> described(const Function& function, const Texts& texts);
std::optional<std::string> described(const Function& function, const Parameter& param, const Texts& texts);

/// In English.
std::string described(const Function& function);
std::string described(const Function& function, const Parameter& param);

/// A call that works when typed in the language's locale: the function's first check.
std::string example(const Function& function, const Texts& texts = {});

/// A text of the office's configuration in every language that has it:
/// <prop oor:name="Title"><value xml:lang="de">…</value>…</prop>
template <class TextIn>
std::string property(std::string_view name, const std::vector<Texts>& languages, const TextIn& text_in) {
    std::string xml = "<prop oor:name=\"" + std::string(name) + "\">";
    for (const Texts& texts : languages)
        if (const std::optional<std::string> text = text_in(texts))
            xml += "<value xml:lang=\"" + std::string(texts.language()) + "\">" + escaped_xml(*text) +
                   "</value>";
    return xml + "</prop>\n";
}

/// A string literal of a source.
struct Literal {
    std::string text;
    bool form = false;  ///< surely one to translate: the reason of a refusal, or a sentence with a {}
};
std::vector<Literal> literals_of(const std::string& source);

/// The key of an argument's text: "DRIEDMASS.fresh".
std::string key_of(const Function& function, const Parameter& param);

/// The menu, from its labels and the example workbooks' titles.
std::string menu_xcu(const std::vector<Texts>& languages, const std::vector<std::string>& examples);
/// Its keys, with the English texts.
std::vector<std::pair<std::string, std::string>> menu_keys(const std::vector<std::string>& examples);

/// An example workbook's flat XML with all that a person reads in the language of the texts: labels, texts in
/// formulas, names of sheets, titles. A key of its own is the workbook's name before the English:
/// "sorption.In". `heard` is told every text.
using Heard = std::function<void(const std::string& key, const std::string& english)>;
std::string in_language(const std::string& workbook, const Texts& texts, const Heard& heard = {});

/// The function reference as a page for a browser, from its Markdown.
std::string html_page(const std::string& markdown);

}  // namespace drysheet
