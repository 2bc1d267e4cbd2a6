// SPDX-License-Identifier: MPL-2.0
// An example workbook in another language. What a person reads is translated, in the flat XML itself. What
// one of our functions reads stays as it is, since names are English in every language: texts inside its
// brackets, and in cells it takes, also by way of other formulas.
#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <stdexcept>

#include "addin/generate/described.hpp"

namespace drysheet {
namespace {

std::string plain(std::string_view xml) {
    static constexpr std::pair<std::string_view, char> marks[] = {
        {"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&apos;", '\''}};
    std::string text;
    while (!xml.empty()) {
        const auto* const mark = std::find_if(std::begin(marks), std::end(marks),
                                              [xml](const auto& m) { return xml.starts_with(m.first); });
        text += mark == std::end(marks) ? xml.front() : mark->second;
        xml.remove_prefix(mark == std::end(marks) ? 1 : mark->first.size());
    }
    return text;
}

// The tag with each value as `value_of(name, value)` gives it.
template <class ValueOf>
std::string with_values(std::string_view tag, const ValueOf& value_of) {
    std::string out;
    while (true) {
        const auto open = tag.find_first_of("'\"");
        if (open == std::string_view::npos) return out.append(tag);
        const auto close = tag.find(tag[open], open + 1);
        const auto name = tag.find_last_of(' ', open) + 1;
        const std::string value = plain(tag.substr(open + 1, close - open - 1));
        const std::string other = value_of(tag.substr(name, open - 1 - name), value);
        if (other == value)
            out.append(tag.substr(0, close + 1));
        else
            out.append(tag.substr(0, open)).append("\"").append(escaped_xml(other)).append("\"");
        tag.remove_prefix(close + 1);
    }
}

std::string value_in(std::string_view tag, std::string_view wanted) {
    std::string found;
    (void)with_values(tag, [&](std::string_view name, const std::string& value) {
        if (name == wanted) found = value;
        return value;
    });
    return found;
}

// The tags one after the other, with the text before each and the cell each stands in.
class Walk {
  public:
    explicit Walk(std::string_view xml) : rest_(xml) {}

    std::string_view before, tag;
    std::string sheet;
    int row = 0, column = 0;
    bool in_cell = false;

    bool next() {
        const auto open = rest_.find('<');
        before = rest_.substr(0, open);
        if (open == std::string_view::npos) return false;
        auto close = open;
        for (char quote = 0; quote != 0 || rest_.at(close) != '>'; ++close)
            if (quote == 0 ? rest_[close] == '"' || rest_[close] == '\'' : rest_[close] == quote)
                quote = quote == 0 ? rest_[close] : '\0';
        tag = rest_.substr(open, close + 1 - open);
        rest_.remove_prefix(close + 1);
        place();
        return true;
    }
    bool is(std::string_view name) const {
        return tag.substr(1).starts_with(name) && tag.find_first_of(" />", 1) == name.size() + 1;
    }
    bool closed() const { return tag.ends_with("/>"); }
    /// What stands up to that tag, which is passed.
    std::string_view up_to(std::string_view end) {
        const auto at = rest_.find(end);
        const std::string_view inner = rest_.substr(0, at);
        rest_.remove_prefix(at + end.size());
        return inner;
    }

  private:
    int repeated(std::string_view name) const {
        const std::string count = value_in(tag, name);
        return count.empty() ? 1 : std::stoi(count);
    }
    void place() {
        if (is("table:table")) {
            sheet = value_in(tag, "table:name");
            row = next_row_ = 0;
        } else if (is("table:table-row")) {
            row = next_row_;
            next_row_ += repeated("table:number-rows-repeated");
            next_column_ = 0;
        } else if (is("table:table-cell") || is("table:covered-table-cell")) {
            column = next_column_;
            next_column_ += repeated("table:number-columns-repeated");
            in_cell = !closed();
        } else if (tag.starts_with("</table:table-cell") || tag.starts_with("</table:covered-table-cell")) {
            in_cell = false;
        }
    }

    std::string_view rest_;
    int next_row_ = 0, next_column_ = 0;
};

// A formula with its texts and its references as the two functions give them; each is also told whether it
// stands in the brackets of one of our functions.
template <class Literal, class Reference>
std::string rewritten(std::string_view formula, const Literal& literal, const Reference& reference) {
    std::string out;
    std::vector<bool> ours;
    const auto read = [&ours] { return !ours.empty() && ours.back(); };
    for (std::size_t i = 0; i < formula.size(); ++i) {
        const char c = formula[i];
        if (c == '"') {
            std::string text;
            for (++i; formula.at(i) != '"' || formula.substr(i + 1).starts_with('"'); ++i) {
                if (formula[i] == '"') ++i;
                text += formula[i];
            }
            out += '"';
            for (const char said : literal(text, read())) out.append(said == '"' ? 2 : 1, said);
            out += '"';
        } else if (c == '[') {
            const auto close = formula.find(']', i);
            out.append("[").append(reference(formula.substr(i + 1, close - i - 1), read())).append("]");
            i = close;
        } else {
            if (c == '(') {
                auto name = out.size();
                while (name > 0 &&
                       (std::isalnum(static_cast<unsigned char>(out[name - 1])) != 0 || out[name - 1] == '.'))
                    --name;
                ours.push_back(read() || out.compare(name, 4, "DRY.") == 0);
            } else if (c == ')' && !ours.empty()) {
                ours.pop_back();
            }
            out += c;
        }
    }
    return out;
}

// Addresses with the name of each sheet as `sheet_of` gives it: "$Run.$H$17:.$H$36", "'Next batch'.A3".
template <class SheetOf>
std::string with_sheets(std::string_view addresses, const SheetOf& sheet_of) {
    std::string out;
    while (!addresses.empty()) {
        const std::size_t mark = addresses.front() == '\'' ? 1 : 0;
        const auto end = mark == 1 ? addresses.find('\'', 1) + 1
                                   : std::min(addresses.find_first_of("$.: "), addresses.size());
        if (addresses.substr(end).starts_with('.') && end > 0) {
            const std::string name = sheet_of(std::string(addresses.substr(mark, end - 2 * mark)));
            const bool simple = std::ranges::all_of(
                name, [](unsigned char c) { return c < 128 && std::isalnum(c) != 0; });  // NOLINT
            out.append(simple ? name : "'" + name + "'");
        } else {
            out.append(addresses.substr(0, end));
        }
        addresses.remove_prefix(end);
        if (addresses.empty()) break;
        out += addresses.front();
        addresses.remove_prefix(1);
    }
    return out;
}

struct Cells {
    std::string sheet;
    int left = 0, top = 0, right = 0, bottom = 0;

    Cells(std::string_view reference, std::string_view of_sheet) : sheet(of_sheet) {
        (void)with_sheets(reference, [this](const std::string& name) { return sheet = name; });
        const auto colon = reference.find(':');
        corner(reference.substr(0, colon), left, top);
        right = left, bottom = top;
        if (colon != std::string_view::npos) corner(reference.substr(colon + 1), right, bottom);
    }
    bool holds(const Walk& cell) const {
        return cell.sheet == sheet && left <= cell.column && cell.column <= right && top <= cell.row &&
               cell.row <= bottom;
    }

  private:
    static void corner(std::string_view address, int& column, int& row) {
        address.remove_prefix(address.rfind('.') + 1);
        column = row = 0;
        for (const char c : address)
            if (c >= 'A' && c <= 'Z')
                column = 26 * column + (c - 'A' + 1);
            else if (c >= '0' && c <= '9')
                row = 10 * row + (c - '0');
        --column, --row;
    }
};

bool holds(const std::vector<Cells>& all, const Walk& cell) {
    return std::ranges::any_of(all, [&cell](const Cells& cells) { return cells.holds(cell); });
}

// The cells that functions of ours read, and the cells that formulas in those take from.
std::vector<Cells> read_by_functions(std::string_view xml) {
    struct Formula {
        Walk at;
        std::string text;
        bool followed = false;
    };
    std::vector<Formula> formulas;
    for (Walk walk(xml); walk.next();)
        if (std::string text = value_in(walk.tag, "table:formula"); !text.empty())
            formulas.push_back({walk, std::move(text)});
    std::vector<Cells> read;
    const auto add = [&read](const Formula& formula, bool all) {
        (void)rewritten(
            formula.text, [](const std::string& text, bool) { return text; },
            [&](std::string_view reference, bool ours) {
                if (ours || all) read.emplace_back(reference, formula.at.sheet);
                return reference;
            });
    };
    for (const Formula& formula : formulas) add(formula, false);
    for (bool more = true; more;) {
        more = false;
        for (Formula& formula : formulas) {
            if (formula.followed || !holds(read, formula.at)) continue;
            formula.followed = more = true;
            add(formula, true);
        }
    }
    return read;
}

}  // namespace

std::string in_language(const std::string& workbook, const Texts& texts, const Heard& heard) {
    std::ifstream in(workbook);
    if (!in) throw std::runtime_error(workbook + " cannot be read");
    const std::string xml(std::istreambuf_iterator<char>(in), {});
    const std::string name = std::filesystem::path(workbook).stem().string();
    const auto say = [&](const std::string& key, const std::string& english) {
        if (heard) heard(key, english);
        return formula_in_words(texts.text(key, english), {.decimal_comma = texts.decimal_comma()});
    };
    // without the spaces at its ends, which stay
    const auto said = [&](const std::string& text) {
        const std::string english(trimmed(text));
        if (english.empty()) return text;
        const auto at = text.find(english);
        return text.substr(0, at) + say(name + "." + english, english) + text.substr(at + english.size());
    };

    std::set<std::string> sheets;
    for (Walk walk(xml); walk.next();)
        if (walk.is("table:table")) sheets.insert(walk.sheet);
    const auto sheet = [&](const std::string& english) {
        return sheets.contains(english) ? said(english) : english;
    };
    const auto formula = [&](const std::string& text) {
        return rewritten(
            text, [&](const std::string& literal, bool ours) { return ours ? literal : said(literal); },
            [&](std::string_view reference, bool) { return with_sheets(reference, sheet); });
    };
    // The elements of a paragraph, such as a page's number, are the {} of its text.
    const auto paragraph = [&](std::string_view inner) {
        std::string text;
        std::vector<std::string_view> elements;
        while (!inner.empty()) {
            const auto open = std::min(inner.find('<'), inner.size());
            text += plain(inner.substr(0, open));
            inner.remove_prefix(open);
            if (inner.empty()) break;
            auto end = inner.find('>') + 1;
            if (inner[end - 2] != '/') end = inner.find('>', inner.find("</")) + 1;
            elements.push_back(inner.substr(0, end));
            text += "{}";
            inner.remove_prefix(end);
        }
        std::string out = escaped_xml(said(text));
        std::size_t at = 0;
        for (const std::string_view element : elements) {
            at = out.find("{}", at);
            out.replace(at, 2, element);
            at += element.size();
        }
        return out;
    };
    Walk walk(xml);
    const auto value = [&](std::string_view of, const std::string& text) {
        if (of.ends_with("formula") || of.ends_with("expression") || of == "calcext:value")
            return formula(text);
        if (of.ends_with("address") || of.ends_with("ranges")) return with_sheets(text, sheet);
        if ((of == "table:name" && walk.is("table:table")) ||
            (of == "config:name" && walk.is("config:config-item-map-entry")))
            return sheet(text);
        std::string language(texts.language());
        if (of == "fo:language" && text == "en") return language;
        if (of == "fo:country" && text == "GB" && language != "en") {
            for (char& c : language) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
            return language;
        }
        return text;
    };

    const std::vector<Cells> read = read_by_functions(xml);
    std::string out;
    while (walk.next()) {
        out.append(walk.before).append(with_values(walk.tag, value));
        if (walk.is("text:p") && !walk.closed()) {
            const std::string_view inner = walk.up_to("</text:p>");
            out.append(walk.in_cell && holds(read, walk) ? inner : paragraph(inner)).append("</text:p>");
        } else if (walk.is("dc:title")) {
            const std::string title = plain(walk.up_to("</dc:title>"));
            out.append(escaped_xml(say("example." + name, title))).append("</dc:title>");
        } else if (value_in(walk.tag, "config:name") == "ActiveTable") {
            const std::string_view end = "</config:config-item>";
            out.append(escaped_xml(sheet(plain(walk.up_to(end))))).append(end);
        }
    }
    return out.append(walk.before);
}

}  // namespace drysheet
