// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/formula_text.hpp"

#include <optional>

#include "addin/call/lookup.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
bool in_word(char c) {
    return digit(c) || letter(c) || c == '_' || c == '.' || c == '$' || c == '#' || c == '\\' || c == '?' ||
           static_cast<unsigned char>(c) >= 0x80;
}

// Where a text in these marks ends that begins at `from`; a doubled mark belongs to it.
std::size_t end_of_text(std::string_view all, std::size_t from) {
    const char mark = all[from];
    for (std::size_t i = from + 1; i < all.size(); ++i) {
        if (all[i] != mark) continue;
        if (i + 1 < all.size() && all[i + 1] == mark)
            ++i;
        else
            return i + 1;
    }
    return all.size();
}

// A piece of a formula: a text, a word (number, name, reference with or without a sheet), or one sign.
struct Piece {
    std::string_view text;
    bool word = false;
};

Piece piece_at(std::string_view all, std::size_t from) {
    if (all[from] == '"') return {all.substr(from, end_of_text(all, from) - from)};
    std::size_t end = from;
    while (end < all.size() && (in_word(all[end]) || all[end] == '\''))
        end = all[end] == '\'' ? end_of_text(all, end) : end + 1;
    if (end == from) return {all.substr(from, 1)};
    return {all.substr(from, end - from), true};
}

template <class Visit>
void for_each_piece(std::string_view all, Visit visit) {
    for (std::size_t at = 0; at < all.size();) {
        const Piece piece = piece_at(all, at);
        at += piece.text.size();
        visit(piece, at < all.size() ? all[at] : '\0');
    }
}

// "$B$12" as column and row, each counted from 0; a whole column or row ("B", "12") lacks the other.
struct Place {
    std::optional<std::size_t> column, row;
};

std::optional<Place> place_of(std::string_view text) {
    Place place;
    std::size_t i = 0;
    const auto dollar = [&] { i += i < text.size() && text[i] == '$' ? 1 : 0; };
    dollar();
    std::size_t column = 0, letters = 0;
    for (; i < text.size() && letter(text[i]) && letters < 4; ++i, ++letters)
        column = column * 26 + static_cast<std::size_t>((text[i] & 0x1f));
    if (letters > 3) return {};
    if (letters > 0) {
        place.column = column - 1;
        dollar();
    }
    std::size_t row = 0, digits = 0;
    for (; i < text.size() && digit(text[i]) && digits < 8; ++i, ++digits)
        row = row * 10 + static_cast<std::size_t>(text[i] - '0');
    if (digits > 0 && row > 0) place.row = row - 1;
    if (i != text.size() || (letters == 0 && digits == 0)) return {};
    return place;
}

// "$'It''s wet'" → It's wet
std::string bare_sheet(std::string_view sheet) {
    if (sheet.starts_with("$")) sheet.remove_prefix(1);
    if (!sheet.starts_with("'")) return std::string(sheet);
    std::string name;
    for (std::size_t i = 1; i + 1 < sheet.size(); ++i) {
        name += sheet[i];
        if (sheet[i] == '\'') ++i;
    }
    return name;
}

}  // namespace

std::vector<CallText> calls_in(std::string_view formula) {
    struct Open {
        std::optional<std::size_t> call;  // none: a bracket that is not one of our calls
        std::size_t argument = 0;         // where the argument that is being read begins
    };
    std::vector<CallText> calls;
    std::vector<Open> open;
    std::string_view before;  // the word that a bracket follows
    const auto offset = [&](std::string_view part) {
        return static_cast<std::size_t>(part.data() - formula.data());
    };
    const auto end_argument = [&](std::size_t at, bool last) {
        Open& innermost = open.back();
        if (!innermost.call) return;
        CallText& call = calls[*innermost.call];
        const auto text = trimmed(formula.substr(innermost.argument, at - innermost.argument));
        if (!(last && call.arguments.empty() && text.empty())) call.arguments.push_back(text);
        innermost.argument = at + 1;
    };
    for_each_piece(formula, [&](const Piece& piece, char) {
        const std::size_t at = offset(piece.text);
        const char sign = piece.word ? '\0' : piece.text.front();
        if (sign == '(' || sign == '{') {
            Open opened{.call = {}, .argument = at + 1};
            if (sign == '(' && before.size() > 4 && lower(before.substr(0, 4)) == "dry.") {
                opened.call = calls.size();
                calls.push_back({.function = find_function(before),
                                 .name = before,
                                 .whole = formula.substr(offset(before)),
                                 .arguments = {}});
            }
            open.push_back(opened);
        } else if (sign == ';' && !open.empty()) {
            end_argument(at, false);
        } else if ((sign == ')' || sign == '}') && !open.empty()) {
            end_argument(at, true);
            if (open.back().call) {
                CallText& call = calls[*open.back().call];
                call.whole = call.whole.substr(0, at + 1 - offset(call.whole));
            }
            open.pop_back();
        }
        before = piece.word ? piece.text : std::string_view{};
    });
    return calls;
}

std::string on_sheet(std::string_view expression, std::string_view sheet) {
    std::string text;
    char previous = '\0';
    for_each_piece(expression, [&](const Piece& piece, char next) {
        const auto place = piece.word && next != '(' && previous != ':' ? place_of(piece.text) : std::nullopt;
        const bool cell = place && place->column && place->row;
        if (cell || (place && next == ':')) text += "$" + quoted_sheet(sheet) + ".";
        if (cell)
            text += "$" + column_letters(*place->column) + "$" + std::to_string(*place->row + 1);
        else
            text += piece.text;
        previous = piece.text.back();
    });
    return text;
}

std::string in_quotes(std::string_view text, char mark) {
    std::string made(1, mark);
    for (const char c : text) made.append(c == mark ? 2 : 1, c);
    return made + mark;
}

std::string quoted_sheet(std::string_view name) { return in_quotes(name, '\''); }

std::string column_letters(std::size_t column) {
    std::string letters;
    for (std::size_t rest = column + 1; rest > 0; rest = (rest - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return letters;
}

std::string address(std::size_t column, std::size_t row) {
    return column_letters(column) + std::to_string(row + 1);
}

std::vector<CellText> cells_in(std::string_view expression) {
    std::vector<CellText> cells;
    char previous = '\0';
    for_each_piece(expression, [&](const Piece& piece, char next) {
        if (piece.word && next != '(' && next != ':' && previous != ':') {
            const auto dot = piece.text.rfind('.');
            const bool named = dot != std::string_view::npos;
            if (const auto place = place_of(named ? piece.text.substr(dot + 1) : piece.text);
                place && place->column && place->row)
                cells.push_back({.text = piece.text,
                                 .sheet = named ? bare_sheet(piece.text.substr(0, dot)) : std::string(),
                                 .column = *place->column,
                                 .row = *place->row});
        }
        previous = piece.text.back();
    });
    return cells;
}

}  // namespace drysheet
