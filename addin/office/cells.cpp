// SPDX-License-Identifier: MPL-2.0
#include "addin/office/cells.hpp"

#include <algorithm>
#include <com/sun/star/uno/Sequence.hxx>

#include "addin/office/uno.hpp"

namespace drysheet {

using com::sun::star::uno::TypeClass_SEQUENCE;
using com::sun::star::uno::TypeClass_STRING;
using com::sun::star::uno::TypeClass_VOID;

std::string utf8_from(const OUString& text) {
    const rtl::OString bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
}

namespace {

template <class T, class Convert>
Any rows_from(const Table& table, const Convert& convert) {
    Sequence<Sequence<T>> rows(static_cast<sal_Int32>(table.rows()));
    for (std::size_t row = 0; row < table.rows(); ++row) {
        Sequence<T> line(static_cast<sal_Int32>(table.columns));
        for (std::size_t i = 0; i < table.columns; ++i) line.getArray()[i] = convert(table.at(row, i));
        rows.getArray()[row] = line;
    }
    return Any(rows);
}

}  // namespace

OUString ustring_from(std::string_view utf8) {
    return {utf8.data(), static_cast<sal_Int32>(utf8.size()), RTL_TEXTENCODING_UTF8};
}

Input input_from(const Any& value) {
    switch (value.getValueTypeClass()) {
        case TypeClass_VOID:
            return {};
        case TypeClass_STRING:
            return utf8_from(*static_cast<const OUString*>(value.getValue()));
        case TypeClass_SEQUENCE: {
            Sequence<Sequence<Any>> rows;
            if (!(value >>= rows)) break;
            std::vector<Input> cells;
            const std::size_t columns =
                rows.getLength() == 0 ? 0 : static_cast<std::size_t>(rows[0].getLength());
            cells.reserve(static_cast<std::size_t>(rows.getLength()) * columns);
            for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
                const Sequence<Any>& line = rows.getConstArray()[row];
                for (sal_Int32 i = 0; i < line.getLength(); ++i) {
                    Input cell = input_from(line.getConstArray()[i]);
                    // a blank cell of a range, whatever the office sends for it
                    if (cell.form == Input::Form::missing) cell = Input("");
                    cells.push_back(std::move(cell));
                }
            }
            return {std::move(cells), columns};
        }
        default: {
            double number = 0;
            if (value >>= number) return number;
            sal_Bool truth = false;
            if (value >>= truth) return truth ? 1.0 : 0.0;
            break;
        }
    }
    return Input("?");  // something that is no cell value: refused as unreadable
}

Any any_from(const Outcome& outcome) {
    if (const auto* number = std::get_if<double>(&outcome)) return Any(*number);
    if (const auto* text = std::get_if<std::string>(&outcome)) return Any(ustring_from(*text));
    const Table& table = std::get<Table>(outcome);
    // Calc finds the texts of an all-text table by VLOOKUP and "="; in a mixed table it finds them by INDEX
    // and MATCH within the formula only.
    if (std::all_of(table.cells.begin(), table.cells.end(),
                    [](const Cell& cell) { return std::holds_alternative<std::string>(cell); }))
        return rows_from<OUString>(
            table, [](const Cell& cell) { return ustring_from(std::get<std::string>(cell)); });
    return rows_from<Any>(table, [](const Cell& cell) {
        if (const auto* number = std::get_if<double>(&cell)) return Any(*number);
        const auto* text = std::get_if<std::string>(&cell);
        return Any(text != nullptr ? ustring_from(*text) : OUString());
    });
}

}  // namespace drysheet
