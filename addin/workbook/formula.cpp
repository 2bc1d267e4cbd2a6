// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/formula.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <optional>
#include <utility>

#include "addin/workbook/formula_text.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;

constexpr int kLastRow = 1048575, kLastColumn = 16383;

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
bool in_word(char c) {
    return digit(c) || letter(c) || c == '_' || c == '.' || c == '$' || c == '\\' || c == '?' ||
           static_cast<unsigned char>(c) >= 0x80;
}

std::string in_capitals(std::string_view text) {
    std::string made(text);
    for (char& c : made)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return made;
}

// ---- the order of operators

constexpr int kSign = 6, kPercent = 7, kReferences = 8;

int strength(std::string_view operation) {
    if (operation == "&") return 2;
    if (operation == "+" || operation == "-") return 3;
    if (operation == "*" || operation == "/") return 4;
    if (operation == "^") return 5;
    if (operation == ":" || operation == "~" || operation == "!") return kReferences;
    return operation == "%" ? 0 : 1;  // a comparison
}

struct Unreadable {};

class Tree {
  public:
    explicit Tree(std::span<const Token> tokens) : rest_(tokens) {}

    Formula whole() {
        Formula made = operations(1);
        if (!rest_.empty()) throw Unreadable();
        return made;
    }

  private:
    bool next_is(Token::What what) const { return !rest_.empty() && rest_.front().what == what; }
    const Token& take() {
        if (rest_.empty()) throw Unreadable();
        const Token& token = rest_.front();
        rest_ = rest_.subspan(1);
        return token;
    }
    static Formula operation(std::string text, std::vector<Formula> parts) {
        return {.what = What::operation, .text = std::move(text), .parts = std::move(parts)};
    }

    Formula operations(int weakest) {
        if (++depth_ > 400) throw Unreadable();
        Formula left = signed_one();
        while (next_is(Token::What::operation)) {
            const std::string& text = rest_.front().text;
            if (text == "%") {
                left = operation(take().text, {std::move(left)});
                continue;
            }
            const int strong = strength(text);
            if (strong < weakest) break;
            const Token& token = take();
            Formula right = operations(strong + 1);
            left = operation(token.text, {std::move(left), std::move(right)});
        }
        --depth_;
        return left;
    }

    Formula signed_one() {
        if (next_is(Token::What::operation) && (rest_.front().text == "-" || rest_.front().text == "+")) {
            const Token& token = take();
            return operation(token.text, {operations(kReferences - 1)});
        }
        const Token& token = take();
        switch (token.what) {
            case Token::What::operand:
                return token.operand;
            case Token::What::open: {
                Formula inside = operations(1);
                while (next_is(Token::What::separator)) {  // (A1;B1) is a union
                    take();
                    inside = operation("~", {std::move(inside), operations(1)});
                }
                if (take().what != Token::What::close) throw Unreadable();
                return inside;
            }
            case Token::What::function:
                return call(in_capitals(token.text));
            default:
                throw Unreadable();
        }
    }

    Formula call(std::string name) {
        Formula made{.what = What::call, .text = std::move(name)};
        if (take().what != Token::What::open) throw Unreadable();
        if (next_is(Token::What::close)) {
            take();
        } else {
            for (;;) {
                const bool empty = next_is(Token::What::separator) || next_is(Token::What::close);
                made.parts.push_back(empty ? Formula{} : operations(1));
                const Token::What ends = take().what;
                if (ends == Token::What::close) break;
                if (ends != Token::What::separator) throw Unreadable();
            }
        }
        if (made.parts.empty() && (made.text == "TRUE" || made.text == "FALSE"))
            return {.what = What::truth, .number = made.text == "TRUE" ? 1.0 : 0.0};
        return made;
    }

    std::span<const Token> rest_;
    int depth_ = 0;
};

// ---- text to tokens

// A cell, a column or a row as written, "$B$12".
struct Written {
    std::optional<int> column, row;
    bool column_fixed = false, row_fixed = false;
};

std::optional<Written> read_written(std::string_view text) {
    Written made;
    std::size_t i = 0;
    const auto dollar = [&] { return i < text.size() && text[i] == '$' ? ++i, true : false; };
    bool fixed = dollar();
    int column = 0, letters = 0;
    for (; i < text.size() && letter(text[i]) && letters < 4; ++i, ++letters)
        column = column * 26 + (text[i] & 0x1f);
    if (letters > 3 || column > kLastColumn + 1) return {};
    if (letters > 0) {
        made.column = column - 1;
        made.column_fixed = fixed;
        fixed = dollar();
    }
    int row = 0, digits = 0;
    for (; i < text.size() && digit(text[i]) && digits < 8; ++i, ++digits) row = row * 10 + (text[i] - '0');
    if (digits > 0) {
        if (row < 1 || row > kLastRow + 1) return {};
        made.row = row - 1;
        made.row_fixed = fixed;
    }
    if (i != text.size() || (letters == 0 && digits == 0)) return {};
    return made;
}

class Lexer {
  public:
    Lexer(std::string_view text, const Place& at, const Picture& picture)
        : rest_(text), at_(at), picture_(picture) {}

    std::vector<Token> tokens() {
        std::vector<Token> made;
        for (skip(); !rest_.empty(); skip()) made.push_back(token());
        return made;
    }

  private:
    void skip() {
        while (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '\n' || rest_.front() == '\t'))
            rest_.remove_prefix(1);
    }
    bool take(std::string_view text) {
        if (!rest_.starts_with(text)) return false;
        rest_.remove_prefix(text.size());
        return true;
    }
    static Token operand(Formula formula) {
        return {.what = Token::What::operand, .text = {}, .operand = std::move(formula)};
    }

    Token token() {
        if (rest_.empty()) throw Unreadable();
        if (rest_.front() == '"') return operand({.what = What::text, .text = quoted('"')});
        if (digit(rest_.front()) || rest_.front() == '.')
            if (auto made = number()) return *made;
        if (take("(")) return {.what = Token::What::open, .text = "(", .operand = {}};
        if (take(")")) return {.what = Token::What::close, .text = ")", .operand = {}};
        if (take(";")) return {.what = Token::What::separator, .text = ";", .operand = {}};
        if (take("{")) return operand(array());
        if (rest_.front() == '#') return operand(fault());
        for (const std::string_view sign :
             {"<>", "<=", ">=", "+", "-", "*", "/", "^", "&", "=", "<", ">", "%", "~", "!", ":"})
            if (take(sign)) return {.what = Token::What::operation, .text = std::string(sign), .operand = {}};
        return word_token();
    }

    std::string quoted(char mark) {
        std::string made;
        rest_.remove_prefix(1);
        for (;;) {
            if (rest_.empty()) throw Unreadable();
            const char c = rest_.front();
            rest_.remove_prefix(1);
            if (c == mark && !take(std::string_view(&mark, 1))) return made;
            made += c;
        }
    }

    std::optional<Token> number() {
        double value = 0;
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        const auto size = static_cast<std::size_t>(end - rest_.data());
        if (error != std::errc() || size == 0) return {};
        if (size < rest_.size() && (in_word(rest_[size]) || rest_[size] == ':')) return {};  // 3:3
        rest_.remove_prefix(size);
        return operand({.what = What::number, .number = value});
    }

    Formula fault() {
        for (const std::string_view name :
             {"#REF!", "#N/A", "#VALUE!", "#DIV/0!", "#NAME?", "#NUM!", "#NULL!"})
            if (take(name)) {
                if (name == "#REF!") return {.what = What::cell, .from = {.cell = at_, .gone = true}};
                return {.what = What::fault, .text = std::string(name)};
            }
        throw Unreadable();
    }

    Formula array() {
        Formula made{.what = What::array};
        std::size_t columns = 0, row = 1;
        for (;;) {
            skip();
            const bool minus = take("-");
            skip();
            Token value = token();
            if (value.what != Token::What::operand) throw Unreadable();
            if (minus) value.operand.number = -value.operand.number;
            made.parts.push_back(std::move(value.operand));
            if (row == 1) ++columns;
            skip();
            if (take("}")) break;
            if (take("|"))
                ++row;
            else if (!take(";"))
                throw Unreadable();
        }
        if (made.parts.size() != columns * row) throw Unreadable();
        made.number = static_cast<double>(columns);
        return made;
    }

    // A word with the sheet before it, if one is written there: 'My sheet'.B3, 'file'#$Sheet.B3.
    struct Word {
        std::string text, file;
        std::optional<std::string> sheet;
    };
    Word word() {
        Word made;
        const auto plain = [this] {
            std::size_t size = 0;
            while (size < rest_.size() && in_word(rest_[size])) ++size;
            const auto text = rest_.substr(0, size);
            rest_.remove_prefix(size);
            return text;
        };
        if (rest_.front() == '\'' || rest_.starts_with("$'")) {
            (void)take("$");
            std::string name = quoted('\'');
            if (take("#")) {
                made.file = std::move(name);
                (void)take("$");
                name = rest_.starts_with("'") ? quoted('\'') : std::string();
            }
            if (!name.empty() && take(".")) made.sheet = std::move(name);
        }
        made.text = plain();
        if (const auto dot = made.text.rfind('.');
            !made.sheet && dot != std::string::npos && !rest_.starts_with("(") &&
            read_written(std::string_view(made.text).substr(dot + 1))) {
            const std::size_t from = made.text.starts_with('$') ? 1 : 0;
            made.sheet = made.text.substr(from, dot - from);
            made.text.erase(0, dot + 1);
        }
        return made;
    }

    int sheet_of(const Word& word) const {
        if (!word.sheet || !word.file.empty()) return at_.sheet;
        for (std::size_t i = 0; i < picture_.sheets.size(); ++i)
            if (in_capitals(picture_.sheets[i].name) == in_capitals(*word.sheet)) return static_cast<int>(i);
        return -1;
    }

    Reference reference(const Word& word, const Written& written, bool last) const {
        Reference made{.cell = {.sheet = sheet_of(word),
                                .row = written.row.value_or(last ? kLastRow : 0),
                                .column = written.column.value_or(last ? kLastColumn : 0)},
                       .sheet_named = word.sheet.has_value(),
                       .row_fixed = written.row_fixed || !written.row,
                       .column_fixed = written.column_fixed || !written.column,
                       .gone = false,
                       .file = word.file};
        if (made.cell.sheet < 0) {
            made.gone = true;
            made.cell.sheet = at_.sheet;
        }
        return made;
    }

    Token word_token() {
        const Word first = word();
        if (first.text.empty()) throw Unreadable();
        if (!first.sheet && rest_.starts_with("("))
            return {.what = Token::What::function, .text = first.text, .operand = {}};
        if (const auto from = read_written(first.text)) {
            if (rest_.starts_with(":")) {
                const auto before = rest_;
                rest_.remove_prefix(1);
                skip();
                Word second = rest_.empty() ? Word{} : word();
                const auto to = rest_.starts_with("(") ? std::nullopt : read_written(second.text);
                if (to && from->column.has_value() == to->column.has_value() &&
                    from->row.has_value() == to->row.has_value()) {
                    if (!second.sheet) {
                        second.sheet = first.sheet;
                        second.file = first.file;
                    }
                    return operand({.what = What::range,
                                    .from = reference(first, *from, false),
                                    .to = reference(second, *to, true)});
                }
                rest_ = before;
            }
            if (from->column && from->row)
                return operand({.what = What::cell, .from = reference(first, *from, false)});
        }
        const std::string upper = in_capitals(first.text);
        if (upper == "TRUE" || upper == "FALSE")
            return operand({.what = What::truth, .number = upper == "TRUE" ? 1.0 : 0.0});
        if (digit(first.text.front())) throw Unreadable();
        Formula name{.what = What::name, .text = first.text};
        name.from.cell = {.sheet = -1, .row = 0, .column = 0};
        for (const Name& known : picture_.names)
            if (known.scope == at_.sheet && in_capitals(known.name) == upper)
                name.from.cell.sheet = known.scope;
        return operand(std::move(name));
    }

    std::string_view rest_;
    Place at_;
    const Picture& picture_;
};

// ---- trees to text

int strength(const Formula& formula) {
    if (formula.what != What::operation) return kReferences + 1;
    if (formula.parts.size() > 1) return strength(formula.text);
    return formula.text == "%" ? kPercent : kSign;
}

bool plain_name(std::string_view name) {
    return !name.empty() && !digit(name.front()) && std::ranges::all_of(name, [](char c) {
        return digit(c) || letter(c) || c == '_' || static_cast<unsigned char>(c) >= 0x80;
    });
}

std::string number_text(double value) {
    std::array<char, 32> text{};
    return {text.data(), std::to_chars(text.data(), text.data() + text.size(), value).ptr};
}

class Writer {
  public:
    Writer(const Place& at, const Picture& picture) : at_(at), picture_(picture) {}

    std::string operator()(const Formula& formula) const {
        switch (formula.what) {
            case What::number:
                return number_text(formula.number);
            case What::text:
                return in_quotes(formula.text);
            case What::truth:
                return formula.number != 0 ? "TRUE()" : "FALSE()";
            case What::fault:
                return formula.text;
            case What::blank:
                return {};
            case What::cell:
                return sheet(formula.from) + place(formula.from, true, true);
            case What::range: {
                const bool columns = formula.from.cell.row == 0 && formula.to.cell.row == kLastRow;
                const bool rows = formula.from.cell.column == 0 && formula.to.cell.column == kLastColumn;
                Reference to = formula.to;
                const std::string last_sheet =
                    to.cell.sheet != formula.from.cell.sheet ? sheet(to) : std::string();
                return sheet(formula.from) + place(formula.from, !rows || columns, !columns) + ":" +
                       last_sheet + place(to, !rows || columns, !columns);
            }
            case What::name:
                return formula.text;
            case What::call:
                return formula.text + "(" + joined(formula.parts, ";") + ")";
            case What::array:
                return array(formula);
            case What::operation:
                return operation(formula);
            case What::unreadable:
                break;
        }
        return formula.text;
    }

  private:
    std::string joined(std::span<const Formula> parts, std::string_view between) const {
        std::string made;
        for (std::size_t i = 0; i < parts.size(); ++i)
            made.append(i > 0 ? between : "").append((*this)(parts[i]));
        return made;
    }
    std::string sheet(const Reference& to) const {
        std::string made = to.file.empty() ? std::string() : in_quotes(to.file, '\'') + "#";
        if (to.file.empty() && to.cell.sheet == at_.sheet) return made;
        const auto number = static_cast<std::size_t>(to.cell.sheet);
        const std::string name =
            number < picture_.sheets.size() ? picture_.sheets[number].name : std::string();
        return made + "$" + (plain_name(name) ? name : quoted_sheet(name)) + ".";
    }
    static std::string place(const Reference& to, bool column, bool row) {
        if (to.gone) return "#REF!";
        std::string made;
        if (column)
            made += (to.column_fixed ? "$" : "") + column_letters(static_cast<std::size_t>(to.cell.column));
        if (row) made += (to.row_fixed ? "$" : "") + std::to_string(to.cell.row + 1);
        return made;
    }
    std::string array(const Formula& formula) const {
        const auto columns = static_cast<std::size_t>(formula.number);
        std::string made = "{";
        for (std::size_t i = 0; i < formula.parts.size(); ++i)
            made.append(i == 0                            ? ""
                        : columns > 0 && i % columns == 0 ? "|"
                                                          : ";")
                .append((*this)(formula.parts[i]));
        return made + "}";
    }
    std::string bracketed(const Formula& part, int least) const {
        const std::string text = (*this)(part);
        return strength(part) < least ? "(" + text + ")" : text;
    }
    std::string operation(const Formula& formula) const {
        const int own = strength(formula);
        if (formula.parts.size() == 1)
            return formula.text == "%" ? bracketed(formula.parts[0], own) + "%"
                                       : formula.text + bracketed(formula.parts[0], own);
        return bracketed(formula.parts[0], own) + formula.text + bracketed(formula.parts[1], own + 1);
    }

    Place at_;
    const Picture& picture_;
};

// ---- trees to keys

void add_key(const Formula& formula, const Place& at, std::string& key);

void add_reference(const Reference& to, const Place& at, std::string& key) {
    if (to.gone) {
        key += "#REF!";
        return;
    }
    if (!to.file.empty()) key.append("'").append(to.file).append("'");
    if (to.sheet_named || to.cell.sheet != at.sheet) key.append(std::to_string(to.cell.sheet)).append("!");
    const auto part = [&key](char name, bool fixed, int to_one, int from) {
        key += name;
        key += fixed ? std::to_string(to_one) : "[" + std::to_string(to_one - from) + "]";
    };
    part('R', to.row_fixed, to.cell.row, at.row);
    part('C', to.column_fixed, to.cell.column, at.column);
}

void add_parts(const Formula& formula, const Place& at, std::string& key) {
    key += '(';
    for (const Formula& part : formula.parts) {
        add_key(part, at, key);
        key += ';';
    }
    key += ')';
}

void add_key(const Formula& formula, const Place& at, std::string& key) {
    switch (formula.what) {
        case What::cell:
            add_reference(formula.from, at, key);
            break;
        case What::range:
            add_reference(formula.from, at, key);
            key += ':';
            add_reference(formula.to, at, key);
            break;
        case What::number:
            key += number_text(formula.number);
            break;
        case What::truth:
            key += formula.number != 0 ? "TRUE" : "FALSE";
            break;
        case What::text:
            key += in_quotes(formula.text);
            break;
        case What::array:
            key += '{' + number_text(formula.number);
            add_parts(formula, at, key);
            break;
        default:
            key += formula.text;
            if (!formula.parts.empty() || formula.what == What::call) add_parts(formula, at, key);
    }
}

bool same(const Reference& a, const Reference& b) {
    return a.cell == b.cell && a.gone == b.gone && a.file == b.file;
}

}  // namespace

Formula tree_of(std::span<const Token> tokens) {
    try {
        return Tree(tokens).whole();
    } catch (const Unreadable&) {
        return {.what = What::unreadable};
    }
}

Formula parse(std::string_view text, const Place& at, const Picture& picture) {
    if (text.starts_with('=')) text.remove_prefix(1);
    try {
        Formula made = tree_of(Lexer(text, at, picture).tokens());
        if (made.what == What::unreadable) made.text = text;
        return made;
    } catch (const Unreadable&) {
        return {.what = What::unreadable, .text = std::string(text)};
    }
}

std::string written(const Formula& formula, const Place& at, const Picture& picture) {
    return Writer(at, picture)(formula);
}

std::string copied_key(const Formula& formula, const Place& at) {
    std::string key;
    add_key(formula, at, key);
    return key;
}

Formula copied(Formula formula, const Place& from, const Place& to) {
    for (Reference* one : {&formula.from, &formula.to}) {
        if (!one->row_fixed) one->cell.row += to.row - from.row;
        if (!one->column_fixed) one->cell.column += to.column - from.column;
        if (!one->sheet_named && one->cell.sheet == from.sheet) one->cell.sheet = to.sheet;
        if (formula.what == What::cell || formula.what == What::range)
            one->gone = one->gone || one->cell.row < 0 || one->cell.column < 0;
    }
    for (Formula& part : formula.parts) part = copied(std::move(part), from, to);
    return formula;
}

std::string in_words(const Place& place) {
    return address(static_cast<std::size_t>(place.column), static_cast<std::size_t>(place.row));
}

std::string in_words(const Place& place, const Picture& picture) {
    return picture.sheets.at(static_cast<std::size_t>(place.sheet)).name + "." + in_words(place);
}

void for_each_part(const Formula& formula, const std::function<void(const Formula&)>& visit) {
    visit(formula);
    for (const Formula& part : formula.parts) for_each_part(part, visit);
}

bool same(const Formula& a, const Formula& b) {
    if (a.what != b.what || a.text != b.text || a.parts.size() != b.parts.size()) return false;
    if ((a.what == What::number || a.what == What::truth || a.what == What::array) &&
        (a.number < b.number || a.number > b.number))
        return false;
    if ((a.what == What::cell || a.what == What::range) && !same(a.from, b.from)) return false;
    if (a.what == What::range && !same(a.to, b.to)) return false;
    return std::ranges::equal(a.parts, b.parts,
                              [](const Formula& x, const Formula& y) { return same(x, y); });
}

}  // namespace drysheet::workbook
