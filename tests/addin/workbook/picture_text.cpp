// SPDX-License-Identifier: MPL-2.0
#include "tests/addin/workbook/picture_text.hpp"

#include <algorithm>
#include <charconv>
#include <functional>
#include <optional>
#include <set>
#include <stdexcept>
#include <utility>

#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const auto end = std::min(text.find('\n'), text.size());
        lines.push_back(trimmed(text.substr(0, end)));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

bool take(std::string_view& text, std::string_view start) {
    if (!text.starts_with(start)) return false;
    text = trimmed(text.substr(start.size()));
    return true;
}

[[noreturn]] void fail(std::string_view line) {
    throw std::runtime_error("not a line of a picture: " + std::string(line));
}

std::optional<double> number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return value;
}

// "{format 0.0" kg"}" and the like from the end of a cell's content.
void take_braces(std::string_view& content, Cell& cell, std::optional<double>& shows) {
    while (content.ends_with('}')) {
        const auto open = content.rfind(" {");
        const auto from =
            open == std::string_view::npos ? (content.starts_with('{') ? 0 : content.size()) : open + 1;
        if (from >= content.size()) return;
        std::string_view said = content.substr(from + 1, content.size() - from - 2);
        const std::pair<std::string_view, Format> formats[] = {
            {"percent", Format::percent},   {"clock", Format::clock},   {"date clock", Format::date_clock},
            {"date", Format::date},         {"number", Format::number}, {"scientific", Format::scientific},
            {"currency", Format::currency}, {"text", Format::text}};
        bool known = false;
        for (const auto& [name, format] : formats)
            if (said == name) {
                cell.format = format;
                known = true;
            }
        if (known) {
        } else if (take(said, "format ")) {
            cell.format_code = said;
            cell.format = Format::number;
        } else if (take(said, "note ")) {
            cell.note = said;
        } else if (take(said, "error ")) {
            cell.error = static_cast<int>(number(said).value());
        } else if (take(said, "shows ")) {
            shows = number(said).value();
        } else if (said == "array") {
            cell.of_array = true;
        } else {
            return;
        }
        content = trimmed(content.substr(0, from));
    }
}

Cell cell_of(std::string_view content, const Place& at, const Place& first, const Picture& picture) {
    Cell cell;
    std::optional<double> shows;
    take_braces(content, cell, shows);
    if (content.starts_with('=')) {
        // the formula of the first of several cells, copied
        Formula formula = parse(content, first, picture);
        if (at != first) formula = copied(std::move(formula), first, at);
        cell.formula_text = "=" + written(formula, at, picture);
        cell.formula = std::move(formula);
        if (shows) cell.value = *shows;
    } else if (content.size() > 1 && content.starts_with('\'') && content.ends_with('\'')) {
        cell.value = std::string(content.substr(1, content.size() - 2));
    } else if (const auto plain = number(content)) {
        cell.value = *plain;
    } else if (content.ends_with('%') && number(trimmed(content.substr(0, content.size() - 1)))) {
        cell.value = *number(trimmed(content.substr(0, content.size() - 1))) / 100;
        cell.format = Format::percent;
    } else {
        cell.value = std::string(content);
    }
    return cell;
}

}  // namespace

PictureText read_picture(std::string_view text) {
    PictureText made;
    Picture& picture = made.picture;
    const auto lines = lines_of(text);
    const auto first = std::ranges::find_if(
        lines, [](std::string_view line) { return !line.empty() && !line.starts_with("//"); });
    if (first == lines.end() || !first->starts_with("sheet ")) picture.sheets.push_back({.name = "Sheet1"});
    for (std::string_view line : lines)
        if (take(line, "sheet ")) picture.sheets.push_back({.name = std::string(line)});
    for (std::string_view line : lines) {  // names first: a formula looks its scope up
        if (!take(line, "name ")) continue;
        const auto equals = line.find('=');
        if (equals == std::string_view::npos) fail(line);
        std::string_view name = trimmed(line.substr(0, equals));
        Name known{.name = std::string(name)};
        if (const auto mark = name.find("'!"); name.starts_with('\'') && mark != std::string_view::npos) {
            known.name = name.substr(mark + 2);
            for (std::size_t i = 0; i < picture.sheets.size(); ++i)
                if (picture.sheets[i].name == name.substr(1, mark - 1)) known.scope = static_cast<int>(i);
        }
        known.means = parse(line.substr(equals + 1), {.sheet = std::max(known.scope, 0)}, picture);
        picture.names.push_back(std::move(known));
    }
    int sheet = first != lines.end() && first->starts_with("sheet ") ? -1 : 0;
    for (std::string_view line : lines) {
        if (line.empty() || line.starts_with("//") || line.starts_with("name ")) continue;
        if (take(line, "!")) {
            made.expected.emplace_back(line);
            continue;
        }
        if (line.starts_with("sheet ")) {
            ++sheet;
            continue;
        }
        if (line == "decimal comma") {
            picture.decimal_comma = true;
            continue;
        }
        Sheet& here = picture.sheets[static_cast<std::size_t>(sheet)];
        const auto reference = [&](std::string_view address) {
            Formula f = parse(address, {.sheet = sheet}, picture);
            if (f.what == Formula::What::cell) f.to = f.from;
            if (f.what != Formula::What::cell && f.what != Formula::What::range) fail(line);
            return std::pair(f.from.cell, f.to.cell);
        };
        if (take(line, "merged ")) {
            const auto [from, to] = reference(line);
            here.merged.push_back({from.row, from.column, to.row, to.column});
        } else if (take(line, "hidden row ")) {
            here.hidden_rows.push_back(static_cast<int>(number(line).value()) - 1);
        } else if (take(line, "hidden column ")) {
            here.hidden_columns.push_back(reference(std::string(line) + "1").first.column);
        } else if (line == "hidden sheet") {
            here.hidden = true;
        } else if (line == "guarded") {
            here.guarded = true;
        } else {
            const auto bar = line.find('|');
            if (bar == std::string_view::npos) fail(line);
            const auto [from, to] = reference(trimmed(line.substr(0, bar)));
            std::string_view rest = line.substr(bar + 1);
            for (int column = from.column;; ++column) {
                const auto end = std::min(rest.find('|'), rest.size());
                const auto content = trimmed(rest.substr(0, end));
                for (int row = from.row; row <= to.row && !content.empty(); ++row)
                    here.cells[{row, column}] =
                        cell_of(content, {sheet, row, column}, {sheet, from.row, column}, picture);
                if (end == rest.size()) break;
                rest.remove_prefix(end + 1);
            }
        }
    }
    calculate(picture);
    return made;
}

void calculate(Picture& picture) {
    std::set<Place> done, under_way;
    const std::function<Given(const Place&)> value = [&](const Place& at) -> Given {
        auto& cells = picture.sheets.at(static_cast<std::size_t>(at.sheet)).cells;
        const auto found = cells.find({at.row, at.column});
        if (found == cells.end()) return {};
        Cell& cell = found->second;
        const bool open = cell.formula && cell.error == 0 &&
                          std::holds_alternative<std::monostate>(cell.value) && !done.contains(at);
        if (open) {
            if (!under_way.insert(at).second) {
                cell.error = 522;  // a circle
            } else if (const auto given = compute(*cell.formula, at, picture, value)) {
                if (given->fault)
                    cell.error = 502;
                else if (given->value.form == Input::Form::text)
                    cell.value = given->value.text;
                else
                    cell.value = given->value.number;
            }
            done.insert(at);
        }
        return shown(picture, at);
    };
    for (std::size_t sheet = 0; sheet < picture.sheets.size(); ++sheet)
        for (auto& [at, cell] : picture.sheets[sheet].cells)
            (void)value({static_cast<int>(sheet), at.first, at.second});
}

Place place(const Picture& picture, std::string_view address) {
    const Formula f = parse(address, {}, picture);
    if (f.what != Formula::What::cell) throw std::runtime_error("not a cell: " + std::string(address));
    return f.from.cell;
}

}  // namespace drysheet::workbook
