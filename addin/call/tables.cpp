// SPDX-License-Identifier: MPL-2.0
#include "addin/call/tables.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include "addin/call/sentences.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
std::string typed_name(const Input& input) {
    std::string storage;
    return lower(input.form == Input::Form::text ? plain_spaces(input.text, storage) : std::string_view{});
}

Input with_unit(const Parameter& param, const Input& value, const Input& unit) {
    if (unit.form != Input::Form::text) refuse(param, {"{} is not a unit", {in_a_sentence(unit)}});
    std::string text = value.text;
    if (value.form == Input::Form::number) {
        std::array<char, 32> buffer{};
        text.assign(buffer.data(),
                    std::to_chars(buffer.data(), buffer.data() + buffer.size(), value.number).ptr);
    }
    return text + " " + unit.text;
}

std::vector<TableRow> table_rows(const Parameter& table, const Input& input) {
    if (input.form == Input::Form::missing) refuse(table, "is missing");
    if (input.form != Input::Form::grid || input.columns < 2)
        refuse(table, {"a table is wanted, names in its first column and values beside them; {} was given",
                       {in_a_sentence(input)}});
    std::vector<TableRow> rows;
    for (std::size_t i = 0; i < input.rows(); ++i) {
        auto cells = std::span(input.cells).subspan(i * input.columns, input.columns);
        while (!cells.empty() && cells.back().blank()) cells = cells.first(cells.size() - 1);
        if (cells.empty()) continue;
        const std::string name = typed_name(cells[0]);
        const Sentence named{"{} (row {} of the table)", {in_a_sentence(cells[0]), i + 1}};
        if (name.empty()) refuse(table, {"{} is not a name", {named}});
        const auto found = std::ranges::find(table.rows, name, &Parameter::name);
        if (found == table.rows.end()) {
            const auto nearest = std::ranges::min_element(
                table.rows, {}, [&](const Parameter& row) { return edits(name, row.name); });
            if (2 * edits(name, nearest->name) < name.size())
                refuse(table, {"{} is not a name known here; perhaps \"{}\"", {named, nearest->name}});
            refuse(table, {"{} is not a name known here", {named}});
        }
        if (std::ranges::find(rows, &*found, &TableRow::param) != rows.end())
            refuse(table, {"{} is there twice", {named}});
        cells = cells.subspan(1);
        if (cells.empty() || (cells[0].blank() && found->shape != Shape::column)) continue;  // not filled in
        rows.push_back({&*found, cells});
    }
    return rows;
}

}  // namespace drysheet
