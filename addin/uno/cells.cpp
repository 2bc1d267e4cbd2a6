#include "addin/uno/cells.hpp"

#include <com/sun/star/uno/Sequence.hxx>

namespace drysheet {

using com::sun::star::uno::Any;
using com::sun::star::uno::Sequence;
using com::sun::star::uno::TypeClass_SEQUENCE;
using com::sun::star::uno::TypeClass_STRING;
using com::sun::star::uno::TypeClass_VOID;
using rtl::OUString;

namespace {

std::string utf8_from(const OUString& text) {
    const rtl::OString bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
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
    Sequence<Sequence<Any>> rows(static_cast<sal_Int32>(table.rows()));
    for (std::size_t row = 0; row < table.rows(); ++row) {
        Sequence<Any> line(static_cast<sal_Int32>(table.columns));
        for (std::size_t i = 0; i < table.columns; ++i) {
            const Cell& cell = table.at(row, i);
            Any& place = line.getArray()[i];
            if (const auto* number = std::get_if<double>(&cell))
                place <<= *number;
            else if (const auto* text = std::get_if<std::string>(&cell))
                place <<= ustring_from(*text);
            else
                place <<= OUString();
        }
        rows.getArray()[row] = line;
    }
    return Any(rows);
}

}  // namespace drysheet
