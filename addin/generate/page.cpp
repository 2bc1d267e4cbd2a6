// SPDX-License-Identifier: MPL-2.0
// The function reference as a page for a browser: just as much Markdown as the reference uses.
#include <sstream>

#include "addin/generate/described.hpp"

namespace drysheet {
namespace {

// `code`, **bold** and [text](#place) inside a line.
std::string inline_html(std::string_view line) {
    std::string html;
    bool code = false, bold = false;
    const std::string text = escaped_xml(line);
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '`') {
            html += (code = !code) ? "<code>" : "</code>";
        } else if (!code && text.compare(i, 2, "**") == 0) {
            html += (bold = !bold) ? "<b>" : "</b>";
            ++i;
        } else if (const auto middle = text.find("](#", i);
                   !code && text[i] == '[' && middle != std::string::npos && text.find(']', i) == middle) {
            const auto end = text.find(')', middle);
            html += "<a href=\"" + text.substr(middle + 2, end - middle - 2) + "\">" +
                    text.substr(i + 1, middle - i - 1) + "</a>";
            i = end;
        } else {
            html += text[i];
        }
    }
    return html;
}

// As the links of the reference name a heading: small letters and digits only.
std::string anchor(std::string_view heading) {
    std::string name;
    for (const char c : heading)
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            name += c;
        else if (c >= 'A' && c <= 'Z')
            name += static_cast<char>(c - 'A' + 'a');
    return name;
}

}  // namespace

std::string html_page(const std::string& markdown) {
    std::string html = R"(<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Drysheet functions</title>
<style>body{max-width:48em;margin:2em auto;padding:0 1em;font:16px/1.45 sans-serif}h3{margin-top:2em;border-top:1px solid #ccc;padding-top:.6em}
pre,code{background:#f3f3f0}pre{padding:.6em}a{text-decoration:none}</style></head><body>
)";
    std::istringstream lines(markdown);
    const char* open = nullptr;  // the element that the lines stand in
    const auto into = [&](const char* element) {
        if (open == element) return;
        if (open != nullptr) html.append("</").append(open).append(">\n");
        if (element != nullptr) html.append("<").append(element).append(">\n");
        open = element;
    };
    static constexpr const char *list = "ul", *code = "pre", *paragraph = "p";
    for (std::string line; std::getline(lines, line);) {
        const auto marks = std::min(line.find_first_not_of('#'), line.size());
        if (marks > 0 && line.substr(marks).starts_with(" ")) {
            into(nullptr);
            const std::string level = "h" + std::to_string(marks), heading = line.substr(marks + 1);
            html.append("<").append(level).append(" id=\"").append(anchor(heading)).append("\">");
            html.append(inline_html(heading)).append("</").append(level).append(">\n");
        } else if (line.starts_with("- ")) {
            into(list);
            html += "<li>" + inline_html(line.substr(2)) + "</li>\n";
        } else if (line.starts_with("    ")) {
            into(code);
            html += escaped_xml(line.substr(4)) + "\n";
        } else if (line.empty()) {
            into(nullptr);
        } else {
            into(paragraph);
            html += inline_html(line) + "\n";
        }
    }
    into(nullptr);
    return html + "</body></html>\n";
}

}  // namespace drysheet
