// SPDX-License-Identifier: MPL-2.0
#include "addin/office/take_picture.hpp"

#include <algorithm>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/ComplexReference.hpp>
#include <com/sun/star/sheet/ExternalReference.hpp>
#include <com/sun/star/sheet/FormulaLanguage.hpp>
#include <com/sun/star/sheet/FormulaMapGroup.hpp>
#include <com/sun/star/sheet/FormulaMapGroupSpecialOffset.hpp>
#include <com/sun/star/sheet/NameToken.hpp>
#include <com/sun/star/sheet/ReferenceFlags.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XDatabaseRange.hpp>
#include <com/sun/star/sheet/XExternalDocLinks.hpp>
#include <com/sun/star/sheet/XFormulaOpCodeMapper.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XSheetAnnotation.hpp>
#include <com/sun/star/sheet/XSheetAnnotationsSupplier.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/text/XSimpleText.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <unordered_map>

#include "addin/office/cells.hpp"
#include "addin/office/locale.hpp"
#include "addin/office/sheets.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet {
namespace {

using workbook::Formula;
using workbook::Picture;
using workbook::Place;
using workbook::Token;

/// Calls `visit` with each object of a container.
template <class Interface, class Visit>
void for_each(const Reference<uno::XInterface>& container, const Visit& visit) {
    const Reference<container::XEnumerationAccess> access(container, UNO_QUERY);
    if (!access.is()) return;
    const Reference<container::XEnumeration> all = access->createEnumeration();
    while (all->hasMoreElements()) visit(Reference<Interface>(all->nextElement(), UNO_QUERY_THROW));
}

Place place_of(const table::CellAddress& address) { return {address.Sheet, address.Row, address.Column}; }

// ---- formulas

/// The office's numbers for functions, operators and names.
class Language {
  public:
    explicit Language(const Reference<uno::XInterface>& document) {
        const Reference<sheet::XFormulaOpCodeMapper> mapper(
            Reference<lang::XMultiServiceFactory>(document, UNO_QUERY_THROW)
                ->createInstance("com.sun.star.sheet.FormulaOpCodeMapper"),
            UNO_QUERY_THROW);
        const auto each = [&mapper](sal_Int32 group, const auto& take) {
            const auto entries = mapper->getAvailableMappings(sheet::FormulaLanguage::ENGLISH, group);
            for (sal_Int32 i = 0; i < entries.getLength(); ++i)
                take(i, utf8_from(entries[i].Name), entries[i].Token);
        };
        using Group = sal_Int32;
        for (const Group group :
             {sheet::FormulaMapGroup::UNARY_OPERATORS, sheet::FormulaMapGroup::BINARY_OPERATORS})
            each(group, [&](sal_Int32, const std::string& name, const sheet::FormulaToken& token) {
                known_[token.OpCode] = {Token::What::operation, name, {}};
            });
        each(sheet::FormulaMapGroup::FUNCTIONS,
             [&](sal_Int32, const std::string& name, const sheet::FormulaToken& token) {
                 OUString internal;
                 if (token.Data >>= internal)
                     added_[utf8_from(internal)] = name;
                 else
                     known_[token.OpCode] = {Token::What::function, name, {}};
             });
        each(sheet::FormulaMapGroup::SEPARATORS,
             [&](sal_Int32, const std::string& name, const sheet::FormulaToken& token) {
                 known_[token.OpCode] = {name == "("   ? Token::What::open
                                         : name == ")" ? Token::What::close
                                                       : Token::What::separator,
                                         name,
                                         {}};
             });
        each(sheet::FormulaMapGroup::SPECIAL,
             [&](sal_Int32 place, const std::string&, const sheet::FormulaToken& token) {
                 special_[token.OpCode] = place;
             });
        take_names(document);
        const Reference<sheet::XExternalDocLinks> links(
            property<Reference<sheet::XExternalDocLinks>>(document, "ExternalDocLinks"));
        for_each<sheet::XExternalDocLink>(links, [this](const Reference<sheet::XExternalDocLink>& link) {
            files_[link->getTokenIndex()] =
                utf8_from(Reference<container::XNamed>(link, UNO_QUERY).is()
                              ? Reference<container::XNamed>(link, UNO_QUERY)->getName()
                              : OUString());
        });
    }

    /// Every defined name and database range.
    std::vector<workbook::Name> names() const {
        std::vector<workbook::Name> all;
        for (const auto& [key, named] : names_) {
            all.push_back({named.name, key.first, {}});
            try {
                all.back().means = tree(named.tokens->getTokens(), named.at);
            } catch (const uno::Exception&) {  // one that means nothing
                all.back().means.what = Formula::What::unreadable;
            }
        }
        all.insert(all.end(), areas_.begin(), areas_.end());
        return all;
    }

    Formula tree(const Sequence<sheet::FormulaToken>& tokens, const Place& at) const {
        std::vector<Token> plain;
        plain.reserve(static_cast<std::size_t>(tokens.getLength()));
        for (const sheet::FormulaToken* token = tokens.begin(); token != tokens.end(); ++token) {
            const bool called = token + 1 != tokens.end() && is_open(token[1].OpCode);
            if (auto read = plain_token(*token, at, called)) plain.push_back(std::move(*read));
        }
        return workbook::tree_of(plain);
    }

    /// Whether this is the formula of a cell that an array formula in another cell fills.
    bool of_array(const Sequence<sheet::FormulaToken>& tokens) const {
        return tokens.getLength() > 0 && is(tokens[0].OpCode, sheet::FormulaMapGroupSpecialOffset::MAT_REF);
    }

  private:
    struct Named {
        std::string name;
        Reference<sheet::XFormulaTokens> tokens;
        Place at;
    };

    void take_names(const Reference<uno::XInterface>& document) {
        const auto take = [this](int scope, const Reference<uno::XInterface>& owner) {
            for_each<sheet::XNamedRange>(property<Reference<uno::XInterface>>(owner, "NamedRanges"),
                                         [&](const Reference<sheet::XNamedRange>& name) {
                                             names_[{scope, property<sal_Int32>(name, "TokenIndex")}] = {
                                                 utf8_from(name->getName()),
                                                 Reference<sheet::XFormulaTokens>(name, UNO_QUERY_THROW),
                                                 place_of(name->getReferencePosition())};
                                         });
        };
        take(-1, document);
        const Reference<container::XIndexAccess> sheets(
            Reference<sheet::XSpreadsheetDocument>(document, UNO_QUERY_THROW)->getSheets(), UNO_QUERY_THROW);
        sheets_ = sheets->getCount();
        for (sal_Int32 i = 0; i < sheets_; ++i)
            take(i, Reference<uno::XInterface>(sheets->getByIndex(i), UNO_QUERY));
        for_each<sheet::XDatabaseRange>(
            property<Reference<uno::XInterface>>(document, "DatabaseRanges"),
            [this](const Reference<sheet::XDatabaseRange>& range) {
                const table::CellRangeAddress area = range->getDataArea();
                workbook::Name name{
                    utf8_from(Reference<container::XNamed>(range, UNO_QUERY_THROW)->getName()), -1, {}};
                name.means.what = Formula::What::range;
                name.means.from.cell = {area.Sheet, area.StartRow, area.StartColumn};
                name.means.to.cell = {area.Sheet, area.EndRow, area.EndColumn};
                area_names_[property<sal_Int32>(range, "TokenIndex")] = name.name;
                areas_.push_back(std::move(name));
            });
    }

    bool is(sal_Int32 code, sal_Int32 special) const {
        const auto found = special_.find(code);
        return found != special_.end() && found->second == special;
    }
    bool is_open(sal_Int32 code) const {
        const auto found = known_.find(code);
        return found != known_.end() && found->second.what == Token::What::open;
    }

    workbook::Reference reference(const sheet::SingleReference& from, const Place& at) const {
        using namespace sheet::ReferenceFlags;
        const auto has = [&from](sal_Int32 flag) { return (from.Flags & flag) != 0; };
        workbook::Reference to;
        to.column_fixed = !has(COLUMN_RELATIVE);
        to.row_fixed = !has(ROW_RELATIVE);
        to.sheet_named = has(SHEET_3D);
        to.gone = has(COLUMN_DELETED | ROW_DELETED | SHEET_DELETED);
        to.cell.column = to.column_fixed ? from.Column : at.column + from.RelativeColumn;
        to.cell.row = to.row_fixed ? from.Row : at.row + from.RelativeRow;
        to.cell.sheet = has(SHEET_RELATIVE) ? at.sheet + from.RelativeSheet : from.Sheet;
        // a sheet that was never there has no flag of its own
        to.gone =
            to.gone || to.cell.sheet < 0 || to.cell.sheet >= sheets_ || to.cell.row < 0 || to.cell.column < 0;
        return to;
    }

    Formula operand(const Any& data, const Place& at) const {
        Formula read;
        sheet::SingleReference one;
        sheet::ComplexReference two;
        sheet::ExternalReference away;
        Sequence<Sequence<Any>> rows;
        OUString text;
        if (data >>= read.number) {
            read.what = Formula::What::number;
        } else if (data >>= text) {
            read.what = Formula::What::text;
            read.text = utf8_from(text);
        } else if (data >>= one) {
            read.what = Formula::What::cell;
            read.from = reference(one, at);
        } else if (data >>= two) {
            read.what = Formula::What::range;
            read.from = reference(two.Reference1, at);
            read.to = reference(two.Reference2, at);
        } else if (data >>= away) {
            read = operand(away.Reference, at);
            read.from.cell.sheet = read.to.cell.sheet = at.sheet;  // counted in the other file
            read.from.gone = read.to.gone = false;
            const auto file = files_.find(away.Index);
            read.from.file = file == files_.end() ? "?" : file->second;
            if (read.what == Formula::What::text) read.what = Formula::What::name;
        } else if (data >>= rows) {
            read.what = Formula::What::array;
            for (sal_Int32 row = 0; row < rows.getLength(); ++row) {
                read.number = rows[row].getLength();
                for (sal_Int32 i = 0; i < rows[row].getLength(); ++i)
                    read.parts.push_back(operand(rows[row][i], at));
            }
        } else {
            read.what = Formula::What::fault;
            read.text = "#N/A";
        }
        return read;
    }

    static Token named(const std::string& name, int scope) {
        Token token;
        token.operand.what = Formula::What::name;
        token.operand.text = name;
        token.operand.from.cell.sheet = scope;
        return token;
    }

    /// Nothing for a blank between tokens.
    std::optional<Token> plain_token(const sheet::FormulaToken& token, const Place& at, bool called) const {
        namespace special = sheet::FormulaMapGroupSpecialOffset;
        if (const auto known = known_.find(token.OpCode); known != known_.end()) return known->second;
        const auto found = special_.find(token.OpCode);
        sal_Int32 index = 0;
        OUString text;
        switch (found == special_.end() ? sal_Int32{special::BAD} : found->second) {
            case special::PUSH:
                return Token{Token::What::operand, {}, operand(token.Data, at)};
            case special::SPACES:
            case special::WHITESPACE:
                return std::nullopt;
            case special::MISSING:
                return Token{};
            case special::EXTERNAL:
            case special::MACRO:
                if (token.Data >>= text) {
                    const auto added = added_.find(utf8_from(text));
                    return Token{Token::What::function,
                                 added != added_.end() ? added->second : utf8_from(text.toAsciiUpperCase()),
                                 {}};
                }
                break;
            case special::NAME: {
                sheet::NameToken name;
                if (token.Data >>= name) {
                    const auto meant = names_.find({static_cast<int>(name.Sheet), name.Index});
                    if (meant != names_.end()) return named(meant->second.name, meant->first.first);
                }
                break;
            }
            case special::NO_NAME:
                if (token.Data >>= text) {
                    if (called) return Token{Token::What::function, utf8_from(text.toAsciiUpperCase()), {}};
                    return named(utf8_from(text), -1);
                }
                break;
            case special::DB_AREA:
                if (token.Data >>= index)
                    if (const auto area = area_names_.find(index); area != area_names_.end())
                        return named(area->second, -1);
                break;
            default:
                break;
        }
        Token unreadable;
        unreadable.operand.what = Formula::What::unreadable;
        return unreadable;
    }

    sal_Int32 sheets_ = 0;
    std::unordered_map<sal_Int32, Token> known_;
    std::unordered_map<sal_Int32, sal_Int32> special_;
    std::unordered_map<std::string, std::string> added_;  // an add-in's function by its inner name
    std::map<std::pair<int, sal_Int32>, Named> names_;    // by scope and index
    std::unordered_map<sal_Int32, std::string> area_names_, files_;
    std::vector<workbook::Name> areas_;
};

// ---- formats

workbook::Format format_of(sal_Int16 type, bool standard) {
    using namespace util::NumberFormat;
    using workbook::Format;
    switch (type & ~DEFINED) {
        case DATE:
            return Format::date;
        case TIME:
            return Format::clock;
        case DATETIME:
            return Format::date_clock;
        case CURRENCY:
            return Format::currency;
        case SCIENTIFIC:
            return Format::scientific;
        case PERCENT:
            return Format::percent;
        case TEXT:
            return Format::text;
        case LOGICAL:
            return Format::truth;
        default:
            return standard ? Format::general : Format::number;
    }
}

class Formats {
  public:
    explicit Formats(const Reference<uno::XInterface>& document)
        : all_(Reference<util::XNumberFormatsSupplier>(document, UNO_QUERY_THROW)->getNumberFormats()) {}

    const std::pair<workbook::Format, std::string>& of(sal_Int32 key) {
        const auto known = known_.find(key);
        if (known != known_.end()) return known->second;
        std::pair<workbook::Format, std::string> format{workbook::Format::general, "General"};
        try {
            const Reference<beans::XPropertySet> found = all_->getByKey(key);
            format = {format_of(property<sal_Int16>(found, "Type"), property(found, "StandardFormat", false)),
                      utf8_from(property<OUString>(found, "FormatString"))};
        } catch (const uno::Exception&) {  // a key that the workbook does not know
        }
        return known_.emplace(key, std::move(format)).first->second;
    }

  private:
    const Reference<util::XNumberFormats> all_;
    std::unordered_map<sal_Int32, std::pair<workbook::Format, std::string>> known_;
};

// ---- a sheet

class SheetPicture {
  public:
    SheetPicture(const Reference<sheet::XSpreadsheet>& sheet, int index, const Language& language,
                 Formats& formats)
        : sheet_(sheet), index_(index), language_(language), formats_(formats) {}

    workbook::Sheet taken() {
        picture_.name = utf8_from(Reference<container::XNamed>(sheet_, UNO_QUERY_THROW)->getName());
        picture_.hidden = !property(sheet_, "IsVisible", true);
        picture_.guarded = Reference<util::XProtectable>(sheet_, UNO_QUERY_THROW)->isProtected();
        take_contents();
        take_notes();
        take_formats();
        take_hidden();
        return std::move(picture_);
    }

  private:
    void take_contents() {
        using namespace sheet::CellFlags;
        const auto areas = Reference<sheet::XCellRangesQuery>(sheet_, UNO_QUERY_THROW)
                               ->queryContentCells(VALUE | DATETIME | STRING | FORMULA)
                               ->getRangeAddresses();
        for (sal_Int32 i = 0; i < areas.getLength(); ++i) {
            const table::CellRangeAddress& area = areas[i];
            const auto values = Reference<sheet::XCellRangeData>(
                                    sheet_->getCellRangeByPosition(area.StartColumn, area.StartRow,
                                                                   area.EndColumn, area.EndRow),
                                    UNO_QUERY_THROW)
                                    ->getDataArray();
            for (sal_Int32 row = 0; row < values.getLength(); ++row)
                for (sal_Int32 column = 0; column < values[row].getLength(); ++column) {
                    workbook::Cell& cell = picture_.cells[{area.StartRow + row, area.StartColumn + column}];
                    const Any& value = values[row][column];
                    double number = 0;
                    OUString text;
                    if (value >>= number)
                        cell.value = number;
                    else if (value >>= text)
                        cell.value = utf8_from(text);
                }
        }
        const auto formulas = Reference<sheet::XCellRangesQuery>(sheet_, UNO_QUERY_THROW)
                                  ->queryContentCells(FORMULA)
                                  ->getRangeAddresses();
        for (sal_Int32 i = 0; i < formulas.getLength(); ++i)
            for (sal_Int32 row = formulas[i].StartRow; row <= formulas[i].EndRow; ++row)
                for (sal_Int32 column = formulas[i].StartColumn; column <= formulas[i].EndColumn; ++column)
                    take_formula(row, column);
    }

    void take_formula(sal_Int32 row, sal_Int32 column) {
        workbook::Cell& cell = picture_.cells[{row, column}];
        const Reference<table::XCell> from = sheet_->getCellByPosition(column, row);
        const auto tokens = Reference<sheet::XFormulaTokens>(from, UNO_QUERY_THROW)->getTokens();
        cell.error = from->getError();
        cell.of_array = language_.of_array(tokens);
        if (!cell.of_array) cell.formula = language_.tree(tokens, {index_, row, column});
        cell.formula_text = utf8_from(property<OUString>(from, "FormulaLocal"));
    }

    void take_notes() {
        for_each<sheet::XSheetAnnotation>(
            Reference<sheet::XSheetAnnotationsSupplier>(sheet_, UNO_QUERY_THROW)->getAnnotations(),
            [this](const Reference<sheet::XSheetAnnotation>& note) {
                const table::CellAddress at = note->getPosition();
                picture_.cells[{at.Row, at.Column}].note =
                    utf8_from(Reference<text::XSimpleText>(note, UNO_QUERY_THROW)->getString());
            });
    }

    // Formats cover far more than what is filled, so the cells are looked for in them and not they in the
    // cells.
    void take_formats() {
        const Reference<container::XIndexAccess> all(
            Reference<sheet::XUniqueCellFormatRangesSupplier>(sheet_, UNO_QUERY_THROW)
                ->getUniqueCellFormatRanges());
        const bool merged = is_merged(address_of(Range(sheet_, UNO_QUERY_THROW)));
        for (sal_Int32 i = 0; i < all->getCount(); ++i) {
            const Reference<sheet::XSheetCellRanges> ranges(all->getByIndex(i), UNO_QUERY_THROW);
            const auto& [format, code] = formats_.of(property<sal_Int32>(ranges, "NumberFormat"));
            const std::string style = utf8_from(property<OUString>(ranges, "CellStyle"));
            const auto areas = ranges->getRangeAddresses();
            for (sal_Int32 j = 0; j < areas.getLength(); ++j) {
                const table::CellRangeAddress& area = areas[j];
                auto at = picture_.cells.lower_bound({area.StartRow, area.StartColumn});
                while (at != picture_.cells.end() && at->first.first <= area.EndRow) {
                    const auto [row, column] = at->first;
                    if (column < area.StartColumn) {
                        at = picture_.cells.lower_bound({row, area.StartColumn});
                    } else if (column > area.EndColumn) {
                        at = picture_.cells.lower_bound({row + 1, area.StartColumn});
                    } else {
                        at->second.format = format;
                        at->second.format_code = code;
                        at->second.style = style;
                        at->second.percent_typed = format == workbook::Format::percent && !at->second.formula;
                        ++at;
                    }
                }
                if (merged && is_merged(area)) take_merged(area);
            }
        }
    }

    // whether anything in it is
    bool is_merged(const table::CellRangeAddress& area) const {
        return Reference<util::XMergeable>(sheet_->getCellRangeByPosition(area.StartColumn, area.StartRow,
                                                                          area.EndColumn, area.EndRow),
                                           UNO_QUERY_THROW)
            ->getIsMerged();
    }

    void take_merged(const table::CellRangeAddress& area) {
        for (sal_Int32 row = area.StartRow; row <= area.EndRow; ++row)
            for (sal_Int32 column = area.StartColumn; column <= area.EndColumn; ++column) {
                const Reference<sheet::XSheetCellCursor> cursor =
                    sheet_->createCursorByRange(Reference<sheet::XSheetCellRange>(
                        sheet_->getCellRangeByPosition(column, row, column, row), UNO_QUERY_THROW));
                cursor->collapseToMergedArea();
                const table::CellRangeAddress whole =
                    Reference<sheet::XCellRangeAddressable>(cursor, UNO_QUERY_THROW)->getRangeAddress();
                picture_.merged.push_back({whole.StartRow, whole.StartColumn, whole.EndRow, whole.EndColumn});
            }
    }

    // Asking for what is seen is one call; asking every row is one a row.
    void take_hidden() {
        if (picture_.cells.empty()) return;
        sal_Int32 last_row = 0, last_column = 0;
        for (const auto& [at, cell] : picture_.cells) {
            last_row = std::max<sal_Int32>(last_row, at.first);
            last_column = std::max<sal_Int32>(last_column, at.second);
        }
        std::vector<bool> rows(static_cast<std::size_t>(last_row) + 1),
            columns(static_cast<std::size_t>(last_column) + 1);
        const auto seen = Reference<sheet::XCellRangesQuery>(
                              sheet_->getCellRangeByPosition(0, 0, last_column, last_row), UNO_QUERY_THROW)
                              ->queryVisibleCells()
                              ->getRangeAddresses();
        const auto mark = [](std::vector<bool>& among, sal_Int32 from, sal_Int32 to) {
            for (auto i = static_cast<std::size_t>(from);
                 i <= static_cast<std::size_t>(to) && i < among.size(); ++i)
                among[i] = true;
        };
        for (sal_Int32 i = 0; i < seen.getLength(); ++i) {
            mark(rows, seen[i].StartRow, seen[i].EndRow);
            mark(columns, seen[i].StartColumn, seen[i].EndColumn);
        }
        const auto gather = [](const std::vector<bool>& among, std::vector<int>& hidden) {
            for (std::size_t i = 0; i < among.size(); ++i)
                if (!among[i]) hidden.push_back(static_cast<int>(i));
        };
        gather(rows, picture_.hidden_rows);
        gather(columns, picture_.hidden_columns);
    }

    const Reference<sheet::XSpreadsheet> sheet_;
    const int index_;
    const Language& language_;
    Formats& formats_;
    workbook::Sheet picture_;
};

}  // namespace

Picture take_picture(const Reference<frame::XModel>& document,
                     const Reference<uno::XComponentContext>& context) {
    Picture picture;
    const Language language(document);
    Formats formats(document);
    picture.names = language.names();
    const Reading reading = reading_of(context);
    picture.decimal_comma = reading.decimal_comma;
    picture.texts = reading.texts;
    const Reference<container::XIndexAccess> sheets(
        Reference<sheet::XSpreadsheetDocument>(document, UNO_QUERY_THROW)->getSheets(), UNO_QUERY_THROW);
    for (sal_Int32 i = 0; i < sheets->getCount(); ++i)
        picture.sheets.push_back(
            SheetPicture(Reference<sheet::XSpreadsheet>(sheets->getByIndex(i), UNO_QUERY_THROW), i, language,
                         formats)
                .taken());
    return picture;
}

}  // namespace drysheet
