// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <span>
#include <unordered_map>
#include <utility>

#include "addin/text/quantity_text.hpp"
#include "addin/text/worded_unit.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"

namespace drysheet::workbook {
namespace {

constexpr std::string_view kLexicon =
#include "addin/workbook/words/lexicon.inc"
    ;

#define DRYSHEET_SAY(name) #name,
constexpr std::string_view kSayNames[] = {DRYSHEET_SAYS(DRYSHEET_SAY)};
#undef DRYSHEET_SAY

template <class... Each>
Says these(Each... say) {
    Says made;
    (made.set(static_cast<std::size_t>(say)), ...);
    return made;
}
// What tells a quantity by itself; the rest only says of what, when and how.
const Says kQuantities = [] {
    Says made;
    for (std::size_t i = 0; i <= static_cast<std::size_t>(Say::efficiency); ++i) made.set(i);
    return made;
}();

// ---- words

// In lower case, without accents, each ä and "ae" an a: as words are compared.
std::string folded(std::string_view text) {
    static const std::pair<std::string_view, std::string_view> letters[] = {
        {"ä", "a"}, {"Ä", "a"},      {"à", "a"},      {"À", "a"},   {"â", "a"},  {"Â", "a"}, {"á", "a"},
        {"Á", "a"}, {"ã", "a"},      {"ö", "o"},      {"Ö", "o"},   {"ô", "o"},  {"Ô", "o"}, {"ó", "o"},
        {"Ó", "o"}, {"ò", "o"},      {"ü", "u"},      {"Ü", "u"},   {"û", "u"},  {"Û", "u"}, {"ù", "u"},
        {"ú", "u"}, {"Ú", "u"},      {"é", "e"},      {"É", "e"},   {"è", "e"},  {"È", "e"}, {"ê", "e"},
        {"Ê", "e"}, {"ë", "e"},      {"í", "i"},      {"Í", "i"},   {"î", "i"},  {"Î", "i"}, {"ï", "i"},
        {"ç", "c"}, {"Ç", "c"},      {"ñ", "n"},      {"Ñ", "n"},   {"ß", "ss"}, {"œ", "o"}, {"Œ", "o"},
        {"æ", "a"}, {"φ", "phi"},    {"Δ", "delta "}, {"±", " ± "}, {"₀", "0"},  {"₁", "1"}, {"₂", "2"},
        {"ₑ", "e"}, {"\u00a0", " "}, {"\u202f", " "}, {"’", " "},   {"–", " "}};
    std::string made;
    char before = '\0';  // in the text as written, to part "FreshMass"
    while (!text.empty()) {
        if (static_cast<unsigned char>(text.front()) >= 0x80) {
            const auto found =
                std::ranges::find_if(letters, [&](const auto& pair) { return text.starts_with(pair.first); });
            const std::size_t size = found == std::end(letters) ? 1 : found->first.size();
            made += found == std::end(letters) ? text.substr(0, 1) : found->second;
            text.remove_prefix(size);
            before = 'a';
            continue;
        }
        const char c = text.front();
        const bool capital = c >= 'A' && c <= 'Z';
        if (capital && before >= 'a' && before <= 'z') made += ' ';
        made += capital ? static_cast<char>(c - 'A' + 'a') : c;
        before = c;
        text.remove_prefix(1);
    }
    std::string shorter;
    for (const char c : made) {
        const char last = shorter.empty() ? '\0' : shorter.back();
        if (c == 'e' && (last == 'a' || last == 'o' || last == 'u')) continue;
        shorter += c;
    }
    return shorter;
}

std::vector<std::string> tokens_of(std::string_view text) {
    std::vector<std::string> made;
    std::string word;
    const auto end = [&] {
        if (!word.empty()) made.push_back(std::move(word));
        word.clear();
    };
    for (const char c : folded(text)) {
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80) {
            word += c;
        } else {
            end();
            if (c == '+' || c == '&') made.emplace_back("+");
            if (c == '%') made.emplace_back("%");
        }
    }
    end();
    return made;
}

std::string joined(std::span<const std::string> tokens) {
    std::string made;
    for (const std::string& token : tokens) made.append(made.empty() ? "" : " ").append(token);
    return made;
}

std::vector<std::string_view> parts_of(std::string_view text, char mark) {
    std::vector<std::string_view> parts;
    for (;;) {
        const auto end = std::min(text.find(mark), text.size());
        parts.push_back(trimmed(text.substr(0, end)));
        if (end == text.size()) return parts;
        text.remove_prefix(end + 1);
    }
}

class Lexicon {
  public:
    static const Lexicon& get() {
        static const Lexicon made;
        return made;
    }

    Says read(std::span<const std::string> tokens) const {
        Says says;
        if (const auto found = whole_.find(joined(tokens)); found != whole_.end()) says |= found->second;
        // "wt in", "MC f"
        if (tokens.size() > 1 && (tokens.back().size() > 1 || tokens.back() == "i" || tokens.back() == "f" ||
                                  tokens.back() == "0"))
            if (const auto found = whole_.find(tokens.back()); found != whole_.end()) says |= found->second;
        for (std::size_t i = 0; i < tokens.size();) {
            std::size_t taken = 1;
            for (std::size_t n = std::min(longest_, tokens.size() - i); n > 0; --n)
                if (const auto found = phrases_.find(joined(tokens.subspan(i, n))); found != phrases_.end()) {
                    says |= found->second;
                    taken = n;
                    break;
                }
            if (taken == 1) says |= in_compound(tokens[i]);
            i += taken;
        }
        return says;
    }

  private:
    Lexicon() {
        for (const std::string_view line : parts_of(kLexicon, '\n')) {
            const auto tab = line.find('\t');
            if (tab == std::string_view::npos || line.starts_with('#')) continue;
            Says says;
            for (const std::string_view name : parts_of(line.substr(0, tab), '+')) {
                const auto found = std::ranges::find(kSayNames, name);
                says.set(static_cast<std::size_t>(found - std::begin(kSayNames)));  // throws for none
            }
            for (std::string_view word : parts_of(line.substr(tab + 1), '|')) add(word, says);
        }
    }
    void add(std::string_view word, const Says& says) {
        const bool ends = word.starts_with('*'), begins = word.ends_with('*'), alone = word.starts_with('=');
        if (ends || alone) word.remove_prefix(1);
        if (begins) word.remove_suffix(1);
        const auto tokens = tokens_of(word);
        const std::string key = joined(tokens);
        if (key.empty()) return;
        if (ends || begins) {
            (ends ? endings_ : beginnings_).emplace_back(key, says);
        } else if (alone || key.size() == 1) {
            whole_[key] |= says;
        } else {
            phrases_[key] |= says;
            longest_ = std::max(longest_, tokens.size());
        }
    }
    Says in_compound(const std::string& token) const {
        Says says;
        for (const auto& [start, said] : beginnings_)
            if (token.size() > start.size() + 2 && token.starts_with(start)) says |= said;
        for (const auto& [end, said] : endings_)
            if (token.size() > end.size() + 1 && token.ends_with(end)) says |= said;
        return says;
    }

    std::unordered_map<std::string, Says> phrases_, whole_;
    std::vector<std::pair<std::string, Says>> beginnings_, endings_;
    std::size_t longest_ = 1;
};

// ---- units

bool has_digit(std::string_view text) { return text.find_first_of("0123456789") != std::string_view::npos; }

constexpr std::array<std::string_view, 5> kPer{" per ", " par ", " pro ", " por ", " je "};
bool has_per(std::string_view text) {
    return std::ranges::any_of(kPer, [text](std::string_view per) { return text.find(per) != text.npos; });
}

// F1, K2, T3: numbered things, where m2 is a unit
bool numbered(std::string_view text) {
    return text.size() == 2 && text[1] >= '0' && text[1] <= '9' && text[0] != 'm';
}

std::string as_quotient(std::string text) {
    for (const std::string_view per : kPer)
        for (std::size_t at = 0; (at = text.find(per, at)) != std::string::npos;)
            text.replace(at, per.size(), "/");
    // "kg/m2 h" is said for kg/(m²·h)
    static constexpr std::array<std::string_view, 6> units{"h", "hr", "min", "s", "d", "day"};
    if (const auto bar = text.find('/'); bar != std::string::npos && text.find('(') == std::string::npos) {
        const auto gap = text.find(' ', bar);
        if (gap != std::string::npos && std::ranges::find(units, text.substr(gap + 1)) != units.end() &&
            read_unit(text.substr(0, gap)))
            text[gap] = '/';
    }
    return text;
}

// "kg/kg db", "% wb", "deg C", but not "hours in" (an inch).
bool several_words(std::string_view text) {
    return std::ranges::any_of(
               std::to_array<std::string_view>({"/", "%", "°", "deg ", "mm Hg"}),
               [&](std::string_view sign) { return text.find(sign) != std::string_view::npos; }) ||
           has_per(text);
}

// A unit's word in four languages. A unit in capitals may be another word ("MIN"), and in a label some of the
// words have another sense: a standard deviation, the day that a row is of.
std::optional<Unit> unit_word(std::string_view text) {
    static constexpr std::string_view others[] = {"std", "once", "tag", "jour", "día", "dia", "mn"};
    const std::string word = lower(text);
    if (read_unit(word) || std::ranges::find(others, word) != std::end(others)) return {};
    return read_written_unit(word);
}

// The unit as people write it: "kg w.b.", "g water/g dry matter", "kg/kg DM", "in kg", "% TS".
std::optional<Unit> unit_in(std::string_view text) {
    text = trimmed(text);
    for (const std::string_view word : {"in ", "en ", "as "})
        if (text.starts_with(word)) text = trimmed(text.substr(word.size()));
    if (text.empty() || text.size() > 40 || numbered(text)) return {};
    if (text.find(' ') != std::string_view::npos && !several_words(text)) return {};
    // "db" and "RH" alone are words, no unit
    const auto read = [](std::string_view one) {
        const bool share = one.starts_with("%/");  // "%/h"
        auto unit = read_unit(share ? "1" + std::string(one.substr(1)) : std::string(one));
        if (unit && share) unit->denominator *= 100;
        if (unit && unit->dimension == Dimension{} && unit->form == RatioForm::none) unit.reset();
        return unit;
    };
    if (as_quotient(std::string(text)) == text)
        if (const auto unit = read(text)) return unit;
    // nouns between the units: which water, which solids
    const auto [plain, basis] = without_nouns(as_quotient(std::string(text)), false);
    auto unit = plain == text ? std::nullopt : read(plain);
    if (!unit) {
        // what people write in a label and not in an argument
        static const std::pair<std::string_view, std::string_view> spellings[] = {{"Std", "h"},
                                                                                  {"Hours", "h"},
                                                                                  {"Min", "min"},
                                                                                  {"Min.", "min"},
                                                                                  {"min.", "min"},
                                                                                  {"hrs.", "h"},
                                                                                  {"hr.", "h"},
                                                                                  {"gr", "g"},
                                                                                  {"gr.", "g"},
                                                                                  {"G", "g"},
                                                                                  {"grs", "g"},
                                                                                  {"kg.", "kg"},
                                                                                  {"kilos", "kg"},
                                                                                  {"percent", "%"},
                                                                                  {"Prozente", "%"},
                                                                                  {"€", "money"},
                                                                                  {"EUR", "money"},
                                                                                  {"$", "money"},
                                                                                  {"USD", "money"},
                                                                                  {"Grad C", "°C"},
                                                                                  {"Grad", "°C"},
                                                                                  {"deg", "°C"},
                                                                                  {"€/kg", "money/kg"},
                                                                                  {"$/kg", "money/kg"},
                                                                                  {"€/kWh", "money/kWh"},
                                                                                  {"$/kWh", "money/kWh"},
                                                                                  {"€/h", "money/h"},
                                                                                  {"$/h", "money/h"},
                                                                                  {"EUR/kg", "money/kg"},
                                                                                  {"EUR/kWh", "money/kWh"},
                                                                                  {"USD/kg", "money/kg"},
                                                                                  {"decimal", "fraction"},
                                                                                  {"-", ""},
                                                                                  {"–", ""},
                                                                                  {"kg/Std", "kg/h"}};
        const auto found = std::ranges::find(spellings, plain, [](const auto& pair) { return pair.first; });
        if (found != std::end(spellings))
            unit = found->second.empty() ? std::nullopt : read_unit(found->second);
        else
            unit = unit_word(plain);
    }
    if (unit && unit->basis == Basis::unsaid) unit->basis = basis;
    return unit;
}

// A unit that may end a label without being set apart: what could be a word of it is none.
std::optional<Unit> trailing_unit(std::string_view word) {
    static constexpr std::string_view words[] = {
        "t",       "m",      "l",        "L",      "C",     "F",      "K",    "W",       "J",
        "d",       "in",     "a",        "A",      "s",     "min",    "day",  "days",    "hours",
        "minutes", "pounds", "kilos",    "week",   "weeks", "bar",    "hour", "foot",    "second",
        "seconds", "money",  "fraction", "cc",     "yard",  "inch",   "G",    "Grad",    "deg",
        "-",       "–",      "dias",     "jours",  "horas", "heures", "Tage", "Stunden", "Minuten",
        "rad",     "1",      "RH",       "Stunde", "heure", "hora",   "Tag",  "jour",    "minute",
        "Minute",  "minuto", "sec"};
    if (std::ranges::find(words, word) != std::end(words)) return {};
    return unit_in(word);
}

bool is_per(std::string_view word) {
    return Lexicon::get().read(tokens_of(word))[static_cast<std::size_t>(Say::per)];
}

// Whether the words say a kind that a value in this unit cannot be.
bool at_odds(const Says& says, const Unit& unit) {
    static constexpr Dimension none{};
    const auto has = [&](Say say) { return says[static_cast<std::size_t>(say)]; };
    const bool bare = unit.dimension == none;
    const auto& d = unit.dimension;
    const bool a_mass = d == Dimension{1}, a_time = d == Dimension{0, 0, 1};
    if (has(Say::temperature) && d != Dimension{0, 0, 0, 1}) return true;
    if (has(Say::time) && !a_time && !bare && d[2] == 0) return true;
    if (a_time && (has(Say::mass) || has(Say::moisture) || has(Say::humidity))) return true;
    if (has(Say::mass) && d[0] == 0 && !bare && !has(Say::density) && !has(Say::rate)) return true;
    if (a_mass && (has(Say::activity) || has(Say::humidity) || has(Say::pressure))) return true;
    return false;
}

struct Split {
    std::string words;
    std::optional<Unit> unit;
    std::string unit_text;
    bool brackets = false;
};

Split split(std::string_view text) {
    Split made{.words = std::string(text)};
    const auto take = [&](std::optional<Unit> unit, std::string_view as_written, std::string words,
                          bool brackets) {
        made = {.words = std::move(words),
                .unit = unit,
                .unit_text = std::string(trimmed(as_written)),
                .brackets = brackets};
    };
    const auto bracket = text.find_first_of("([");
    const bool words_before = bracket != std::string_view::npos && bracket > 0 && text[bracket - 1] == ' ';
    // m₂ rather than m²
    static constexpr std::string_view symbols[] = {"m1", "m2", "m3", "t1", "t2", "L1", "W1",
                                                   "W2", "T1", "T2", "h1", "h2", "in"};
    if (!words_before && std::ranges::find(symbols, text) == std::end(symbols) &&
        (text.size() > 1 || text == "%" || text == "g" || text == "h") && lower(text) != "week" &&
        lower(text) != "day")
        if (const auto whole = unit_in(text)) {
            take(whole, text, "", false);
            return made;
        }
    for (const auto& [open, close] : {std::pair{'(', ')'}, {'[', ']'}}) {
        for (auto at = text.rfind(open); at != std::string_view::npos;
             at = at == 0 ? std::string_view::npos : text.rfind(open, at - 1)) {
            int depth = 0;
            std::size_t end = at;
            for (; end < text.size(); ++end) {
                depth += text[end] == open ? 1 : text[end] == close ? -1 : 0;
                if (depth == 0) break;
            }
            if (end >= text.size()) continue;
            const auto inside = text.substr(at + 1, end - at - 1);
            const std::string words =
                std::string(text.substr(0, at)) + " " + std::string(text.substr(end + 1));
            if (const auto unit = unit_in(inside)) {
                take(unit, inside, words, true);
                return made;
            }
            for (const char mark : {',', ';', ' '}) {  // "kg, net"
                bool behind_number = false;
                for (const auto part : parts_of(inside, mark)) {
                    const auto unit = mark == ' ' ? trailing_unit(part) : unit_in(part);
                    if (unit && !part.empty() && !behind_number) {
                        take(unit, part, words + " " + std::string(inside), true);
                        return made;
                    }
                    behind_number = has_digit(part);
                }
            }
        }
    }
    for (const std::string_view mark : {",", " in ", " en ", " / ", ":", ";", " - ", " – "}) {
        const auto at = text.rfind(mark);
        if (at == std::string_view::npos || at == 0) continue;
        const auto behind = trimmed(text.substr(at + mark.size()));
        if (const auto unit = unit_in(behind); unit && !behind.empty() && !behind.starts_with("by ")) {
            take(unit, behind, std::string(text.substr(0, at)), true);
            return made;
        }
    }
    // "Moisture % wb", "RH %", "t min", "% moisture"
    std::vector<std::string_view> words;
    for (const auto word : parts_of(text, ' '))
        if (!word.empty()) words.push_back(word);
    for (std::size_t n = std::min<std::size_t>(3, words.size() - 1); words.size() > 1 && n > 0; --n) {
        const auto from = static_cast<std::size_t>(words[words.size() - n].data() - text.data());
        const auto last = text.substr(from);
        const bool time_symbol =
            words.size() == 2 &&
            (words[0] == "t" || lower(words[0]) == "time" || lower(words[0]) == "zeit" ||
             lower(words[0]) == "temps" || lower(words[0]) == "tiempo" || lower(words[0]) == "dauer");
        auto unit = n == 1 ? trailing_unit(last) : unit_in(last);
        if (!unit && time_symbol && n == 1) unit = unit_in(last);
        // "water per h", "by grams", "% x mid um", "after 4 h"
        const auto parts_it = [](std::string_view word) {
            return is_per(word) || word == "by" || word == "x" || word == "×" || word == "*";
        };
        if (!unit ||
            std::ranges::any_of(words, [](std::string_view word) { return word == "x" || word == "×"; }) ||
            (n < words.size() &&
             (parts_it(words[words.size() - n - 1]) || has_digit(words[words.size() - n - 1]))))
            continue;
        const auto rest = text.substr(0, from);
        if (at_odds(Lexicon::get().read(tokens_of(rest)), *unit)) continue;
        take(unit, last, std::string(rest), false);
        return made;
    }
    for (std::size_t n = std::min<std::size_t>(3, words.size() - 1); words.size() > 1 && n > 0; --n) {
        const auto end = static_cast<std::size_t>(words[n - 1].data() - text.data()) + words[n - 1].size();
        const auto first = text.substr(0, end), rest = text.substr(end);
        const auto unit = n == 1                 ? trailing_unit(first)
                          : several_words(first) ? unit_in(first)
                                                 : std::nullopt;
        if (!unit || at_odds(Lexicon::get().read(tokens_of(rest)), *unit)) continue;
        // "kg per batch", "kg wood per kg dried"; "h ambient", where h is a symbol
        if (std::ranges::any_of(words.begin() + static_cast<std::ptrdiff_t>(n), words.end(), is_per) ||
            words[n] == "x" || (first.size() == 1 && first != "%" && first != "g") ||
            has_digit(words[n]) ||  // "KW 36"
            rest.find('/') != rest.npos)
            break;
        take(unit, first, std::string(rest), false);
        return made;
    }
    if (text.find('%') != std::string_view::npos && !has_digit(text) &&
        text.find(" x ") == std::string_view::npos) {
        std::string rest(text);
        rest.erase(rest.find('%'), 1);
        take(read_unit("%"), "%", rest, false);
    }
    return made;
}

Label labelled(std::string_view text) {
    Label label;
    text = trimmed(text);
    if (text.empty() || text.size() > 90 || text.ends_with('?') || text.ends_with('!'))
        return label;  // a sentence
    while (text.ends_with(':') || text.ends_with('=')) text = trimmed(text.substr(0, text.size() - 1));
    Split parts = split(text);
    label.unit = parts.unit;
    label.unit_text = std::move(parts.unit_text);
    label.in_brackets = parts.brackets;
    const auto tokens = tokens_of(parts.words);
    label.only_unit = label.unit && tokens.empty();
    label.says = Lexicon::get().read(tokens);
    if ((label.says & kQuantities).none() && (label.says & these(Say::tare, Say::gross, Say::net)).any() &&
        (!label.unit || label.unit->dimension == Dimension{1}))
        label.says |= these(Say::mass);
    if (label.unit) {
        // "% DM" alone is a share of dry matter, "moisture (% DM)" one on the dry basis
        if (label.unit->form == RatioForm::percent && label.unit->basis == Basis::dry &&
            (label.says & ~these(Say::solids, Say::dry_matter, Say::share)).none() &&
            label.unit_text.find_first_of("Bb") == std::string::npos) {
            label.unit->basis = Basis::unsaid;
            label.says |= these(Say::solids, Say::dry_matter);
            label.only_unit = false;
        }
        if (label.unit->basis == Basis::wet) label.says |= these(Say::wet_basis);
        if (label.unit->basis == Basis::dry) label.says |= these(Say::dry_basis);
        if (label.unit->humidity) label.says |= these(Say::humidity);
    }
    // of air, "in" and "out" are the dryer's
    if ((label.says & these(Say::temperature, Say::humidity, Say::humidity_ratio, Say::enthalpy, Say::air,
                            Say::speed, Say::flow))
            .any())
        for (const auto& [of_food, of_air] :
             {std::pair(Say::fresh, Say::inlet), std::pair(Say::dried, Say::outlet)})
            if (label.has(of_food)) label.says = (label.says & ~these(of_food)) | these(of_air);
    // the moisture of what goes in or comes out
    if (label.has(Say::moisture) &&
        (label.says & these(Say::start, Say::final, Say::target, Say::equilibrium)).none()) {
        if (label.has(Say::fresh) && !label.has(Say::dried)) label.says |= these(Say::start);
        if (label.has(Say::dried) && !label.has(Say::fresh)) label.says |= these(Say::final);
    }
    return label;
}

}  // namespace

Label read_label(std::string_view text) {
    std::string storage;
    std::string plain(plain_spaces(text, storage));
    if (plain.find(' ') == std::string::npos) std::ranges::replace(plain, '_', ' ');  // fresh_mass_kg
    return labelled(plain);
}

std::optional<std::pair<Label, Label>> read_quotient(std::string_view text) {
    const auto parted = [text](std::string_view word) -> std::optional<std::pair<Label, Label>> {
        const auto at = text.find(word);
        if (at == std::string_view::npos) return {};
        return std::pair(read_label(text.substr(0, at)), read_label(text.substr(at + word.size())));
    };
    for (const std::string_view per : kPer)
        if (auto labels = parted(per)) return labels;
    return parted(" : ");
}

// ---- the kind

namespace {

bool says_quantity(const Label& label) { return (label.says & kQuantities).any(); }

std::optional<Kind> kind_of_dimension(const Unit& unit, const Label& label) {
    if (unit.dimension == Dimension{0, 0, 0, 1})
        return label.has(Say::difference) ? Kind::temperature_difference : Kind::temperature;
    for (const KindRow& row : kKinds)
        if (row.forms == Forms::with_dimension && default_unit(row.kind).dimension == unit.dimension)
            return row.kind;
    return {};
}

std::optional<Kind> kind_of(const Label& label, Basis& basis) {
    static constexpr Dimension none{};
    if (label.has(Say::wet_basis) != label.has(Say::dry_basis))
        basis = label.has(Say::wet_basis) ? Basis::wet : Basis::dry;
    if (label.unit && label.unit->dimension != none) {
        basis = Basis::unsaid;
        return kind_of_dimension(*label.unit, label);
    }
    const bool ratio_unit = label.unit.has_value();
    const bool mass_ratio = ratio_unit && label.unit->form == RatioForm::mass_ratio;
    if (label.has(Say::deviation)) return {};
    if (label.has(Say::moisture_ratio)) return Kind::moisture_ratio;
    if (label.has(Say::activity)) return Kind::water_activity;
    if (label.has(Say::humidity_ratio)) return Kind::humidity_ratio;
    if (label.has(Say::humidity) || (label.has(Say::moisture) && label.has(Say::air) && !mass_ratio))
        return Kind::relative_humidity;
    if (label.has(Say::moisture) && label.has(Say::air)) return Kind::humidity_ratio;
    if (label.has(Say::loss) || label.has(Say::yield) || label.has(Say::efficiency) ||
        label.has(Say::dry_matter))
        return ratio_unit || !label.has(Say::mass)
                   ? (label.has(Say::loss) && !ratio_unit ? std::optional<Kind>() : Kind::fraction)
                   : Kind::mass;
    if (label.has(Say::moisture) && !label.has(Say::mass) && !label.has(Say::rate))
        return basis == Basis::dry ? Kind::moisture_dry : Kind::moisture_wet;
    if (ratio_unit) {
        if (label.has(Say::water) && !label.has(Say::mass)) {
            if (mass_ratio && basis == Basis::unsaid)
                return std::nullopt;  // of solids, of the whole or of air
            return basis == Basis::dry ? Kind::moisture_dry : Kind::moisture_wet;
        }
        if (basis == Basis::dry && label.says.count() == 1) return Kind::moisture_dry;
        if (basis == Basis::wet && label.says.count() == 1) return Kind::moisture_wet;
        return label.unit->form == RatioForm::percent || label.unit->form == RatioForm::fraction
                   ? std::optional(Kind::fraction)
                   : std::nullopt;
    }
    if (basis != Basis::unsaid && !says_quantity(label))
        return basis == Basis::dry ? Kind::moisture_dry : Kind::moisture_wet;
    if (label.has(Say::price)) return {};
    const std::pair<Say, Kind> plain[] = {{Say::temperature, Kind::temperature},
                                          {Say::pressure, Kind::pressure},
                                          {Say::density, Kind::density},
                                          {Say::enthalpy, Kind::specific_energy},
                                          {Say::latent, Kind::specific_energy},
                                          {Say::specific_heat, Kind::heat_capacity},
                                          {Say::flow, Kind::volume_flow},
                                          {Say::speed, Kind::speed},
                                          {Say::rate, Kind::drying_rate},
                                          {Say::power, Kind::power},
                                          {Say::energy, Kind::energy},
                                          {Say::area, Kind::area},
                                          {Say::length, Kind::length},
                                          {Say::time, Kind::time},
                                          {Say::mass, Kind::mass},
                                          {Say::tare, Kind::mass},
                                          {Say::gross, Kind::mass},
                                          {Say::net, Kind::mass}};
    for (const auto& [say, kind] : plain)
        if (label.has(say)) return kind == Kind::drying_rate ? std::optional<Kind>() : kind;
    return {};
}

// What stands between the quotes of a number format, where it is a unit.
std::optional<Unit> unit_in_format(std::string_view code, std::string& text) {
    for (auto at = code.find('"'); at != std::string_view::npos; at = code.find('"', at)) {
        const auto end = code.find('"', at + 1);
        if (end == std::string_view::npos) return {};
        const auto inside = trimmed(code.substr(at + 1, end - at - 1));
        if (const auto unit = unit_in(inside)) {
            text = inside;
            return unit;
        }
        at = end + 1;
        if (at >= code.size()) break;
    }
    return {};
}

bool same_scale(const Unit& a, const Unit& b) {
    return a.dimension == b.dimension && std::abs(a.to_si(1) - b.to_si(1)) <= 1e-9 * std::abs(b.to_si(1)) &&
           std::abs(a.offset - b.offset) < 1e-9;
}

int weight(const Label& label) {
    return (label.unit ? 2 : 0) + (says_quantity(label) ? 2 : 0) +
           ((label.says & ~kQuantities).any() ? 1 : 0);
}

// A second label adds what the first leaves open and does not contradict.
Label together(const Label& first, const Label& second) {
    static const Says whichs[] = {
        these(Say::fresh, Say::dried, Say::start, Say::final, Say::target, Say::equilibrium, Say::whole,
              Say::tare, Say::gross, Say::net, Say::parts_off, Say::solids, Say::water, Say::kept),
        these(Say::wet_basis, Say::dry_basis), these(Say::inlet, Say::outlet, Say::ambient),
        these(Say::wet_bulb, Say::dry_bulb, Say::dew_point)};
    Label made = first;
    if (!says_quantity(first)) made.says |= second.says & kQuantities;
    for (const Says& group : whichs)
        if ((first.says & group).none()) made.says |= second.says & group;
    if (!first.unit && second.unit && !at_odds(first.says, *second.unit) &&
        (!says_quantity(first) || second.only_unit || says_quantity(second) == false ||
         (first.says & second.says & kQuantities).any())) {
        made.unit = second.unit;
        made.unit_text = second.unit_text;
        made.in_brackets = second.in_brackets;
    }
    return made;
}

std::string in_marks(std::string_view text) { return "\"" + std::string(text) + "\""; }

}  // namespace

struct Labels::Reader {
    struct Line {
        int row = 0;
        const std::string* text = nullptr;
        const Label* label = nullptr;
    };
    // The texts that head a column, as far as the rows have been read.
    struct Heading {
        std::vector<Line> lines;
        int last_row = -10;  // of a text or a number of its column
        bool numbers = false;
        bool stale = false;     // below a gap, a label to the left may begin something else
        bool of_table = false;  // other headings stand in its row
    };

    const Picture& picture;
    std::map<Place, Meaning>& meanings;
    std::unordered_map<std::string, Label> known;
    std::map<Place, std::string> names;

    const Label& label_of(const std::string& text) {
        const auto found = known.find(text);
        return found != known.end() ? found->second : known.emplace(text, read_label(text)).first->second;
    }

    // Not "Total" or "Mean" below a column.
    static bool begins_anew(const Label& label) {
        return label.unit || (label.says & ~these(Say::total, Say::mean, Say::deviation, Say::count)).any();
    }

    static const std::string* text_of(const Cell& cell) { return std::get_if<std::string>(&cell.value); }

    // "8.1 kg" is no label.
    std::optional<Unit> own_unit(const std::string& text, std::string& as_written) const {
        if (text.empty() || text.size() > 60 || text.find_first_of("0123456789") == std::string::npos ||
            text.find_first_of("0123456789.,+-") != 0)
            return {};
        std::string storage;
        const auto read = read_typed(plain_spaces(text, storage), picture.reading());
        if (read.fault != TextFault::none || read.typed.unit.empty()) return {};
        as_written = read.typed.unit;
        return unit_in(read.typed.unit);
    }

    void read_names() {
        for (const Name& name : picture.names)
            if (name.means.what == Formula::What::cell && !name.means.from.gone &&
                name.means.from.file.empty())
                names.emplace(name.means.from.cell, name.name);
    }

    void read_sheet(int number) {
        const Sheet& sheet = picture.sheets[static_cast<std::size_t>(number)];
        std::map<int, Heading> headings;
        int row = -1, label_column = -1, last_column = -1;
        const std::string* left = nullptr;
        const std::string* left_unit = nullptr;
        int texts_in_row = 0;
        std::set<int> heads_of_row;
        const auto end_row = [&] {
            if (texts_in_row >= 2)
                for (const int column : heads_of_row) headings[column].of_table = true;
            heads_of_row.clear();
            texts_in_row = 0;
        };
        for (const auto& [at, cell] : sheet.cells) {
            const auto& [this_row, column] = at;
            if (this_row != row || column - last_column > 2) {  // far to the right something else begins
                if (this_row != row) end_row();
                row = this_row;
                left = left_unit = nullptr;
                label_column = -1;
            }
            last_column = column;
            std::string as_written;
            const std::string* text = text_of(cell);
            const auto own = text != nullptr ? own_unit(*text, as_written) : std::nullopt;
            Heading& heading = headings[column];
            if (text != nullptr && !own) {
                if (trimmed(*text).empty()) continue;
                const Label& label = label_of(*text);
                const auto below = sheet.cells.find({row + 1, column});
                const bool heads = below != sheet.cells.end() && text_of(below->second) == nullptr;
                if (label.only_unit && (left != nullptr || heads)) {  // no label, as "Hours" may be one
                    left_unit = text;
                } else {
                    left = text;
                    label_column = column;
                    ++texts_in_row;
                }
                const bool speaks = !label.empty();
                const bool headed =
                    std::ranges::any_of(heading.lines, [](const Line& line) { return !line.label->empty(); });
                if (!speaks && headed && row - heading.last_row <= 1) {
                    heading.last_row = row;  // "n/a" among the numbers
                } else {
                    if (heading.numbers || row - heading.last_row > 2) heading = {};
                    heading.lines.push_back({row, text, &label});
                    heading.last_row = row;
                    heads_of_row.insert(column);
                }
                continue;
            }
            heading.stale = heading.stale || (heading.numbers && row - heading.last_row > 1);
            if (row - heading.last_row > 3 || (heading.stale && left != nullptr &&
                                               label_column == column - 1 && begins_anew(label_of(*left))))
                heading = {};
            heading.numbers = true;
            heading.last_row = row;
            const Place place{number, row, column};
            Meaning meaning = read_cell(place, cell, own, as_written, left, label_column,
                                        row_unit(sheet, row, column, left_unit, label_column), heading);
            if (!meaning.empty() || meaning.percent_format || meaning.clock_format)
                meanings.emplace(place, std::move(meaning));
        }
    }

    // The unit beside a cell: right of it, else left.
    const std::string* row_unit(const Sheet& sheet, int row, int column, const std::string* left_unit,
                                int label_column) {
        const auto unit_at = [&](int beside) -> const std::string* {
            const auto cell = sheet.cells.find({row, beside});
            const std::string* text = cell == sheet.cells.end() ? nullptr : text_of(cell->second);
            if (text == nullptr || !label_of(*text).only_unit) return nullptr;
            const auto below = sheet.cells.find({row + 1, beside});  // of a heading: it is that column's unit
            return below != sheet.cells.end() && text_of(below->second) == nullptr ? nullptr : text;
        };
        // right of it, over numbers of the same row: one column of units for several of values
        for (int beside = column + 1; beside <= column + 4; ++beside) {
            if (const std::string* text = unit_at(beside)) return text;
            const auto cell = sheet.cells.find({row, beside});
            if (label_column < 0 || cell == sheet.cells.end() || text_of(cell->second) != nullptr) break;
        }
        if (left_unit == nullptr) return nullptr;
        // between the label and its values; behind a value it is that value's
        for (int beside = column - 1; beside > label_column; --beside) {
            const std::string* text = unit_at(beside);
            if (text == nullptr) continue;
            const auto label = sheet.cells.find({row, label_column});  // "lb | 12 | kg | 5.4"
            const bool units = label != sheet.cells.end() && text_of(label->second) != nullptr &&
                               label_of(*text_of(label->second)).only_unit;
            for (int between = label_column + 1; !units && between < beside; ++between)
                if (const auto cell = sheet.cells.find({row, between});
                    cell != sheet.cells.end() && text_of(cell->second) == nullptr)
                    return nullptr;
            if (beside == column - 1) return text;
            const auto is_unit = [&](int other) {
                const auto cell = sheet.cells.find({other, beside});
                const std::string* words = cell == sheet.cells.end() ? nullptr : text_of(cell->second);
                return words != nullptr && label_of(*words).only_unit;
            };
            return is_unit(row - 1) || is_unit(row + 1) ? text : nullptr;
        }
        return nullptr;
    }

    // The heading of a column, from its lines: the last one, with the unit below and the group above.
    Label headed(const Heading& heading, std::string& words) {
        Label made;
        int above = -1;
        for (auto line = heading.lines.rbegin(); line != heading.lines.rend(); ++line) {
            if (above >= 0 && above - line->row > 1) break;
            above = line->row;
            const bool only_unit = line->label->only_unit;
            if (made.empty()) {
                made = *line->label;
                words = *line->text;
                made.only_unit = false;
                if (!only_unit && says_quantity(made) && made.unit) break;
                continue;
            }
            if (line->label->empty()) continue;
            if (made.unit && line->label->unit && line->label->only_unit) break;
            Label more = together(says_quantity(made) ? made : *line->label,
                                  says_quantity(made) ? *line->label : made);
            if (made.unit) {
                more.unit = made.unit;
                more.unit_text = made.unit_text;
            }
            made = more;
            made.only_unit = false;
            words.insert(0, *line->text + " / ");
            if (says_quantity(made) && made.unit) break;
        }
        return made;
    }

    Meaning read_cell(const Place& place, const Cell& cell, const std::optional<Unit>& own,
                      const std::string& own_text, const std::string* left, int left_column,
                      const std::string* beside, const Heading& heading) {
        Meaning made;
        std::string above_words;
        const Label above = headed(heading, above_words);
        const Label none;
        const Label& before = left != nullptr ? label_of(*left) : none;
        const int above_weight = weight(above), before_weight = weight(before);
        // "Item | Qty | Rate | Amount": the unit in the row's label is that of its first number
        const bool another = left_column < place.column - 1 && before.unit && !before.only_unit &&
                             says_quantity(above) && (above.says & before.says & kQuantities).none();
        const bool from_above =
            another ||
            ((above_weight > before_weight || (above_weight == before_weight && heading.of_table)) &&
             !(beside != nullptr && before_weight > 0) && !(before.unit && above.unit));
        if (above_weight > 0 || before_weight > 0) {
            static_cast<Label&>(made) = another      ? above
                                        : from_above ? together(above, before)
                                                     : together(before, above);
            made.label = from_above ? above_words : *left;
            made.evidence = picture.say({from_above ? "headed {}" : "labelled {}", {in_marks(made.label)}});
            const Label& second = from_above ? before : above;
            if (const Label& first = from_above ? above : before;
                made.says != first.says || made.unit.has_value() != first.unit.has_value())
                if (!second.empty())
                    made.evidence +=
                        ", " + picture.say(from_above ? Sentence("in the row {}", {in_marks(*left)})
                                                      : Sentence("under {}", {in_marks(above_words)}));
        }
        made.only_unit = false;
        const auto read_more = [&](const std::string& text, std::string_view where) {
            const Label& more = label_of(text);
            if (more.empty()) return;
            const bool adds = (!made.unit && more.unit) || (!says_quantity(made) && says_quantity(more));
            if (!adds) return;
            const Label both = together(made, more);
            static_cast<Label&>(made) = both;
            made.only_unit = false;
            if (made.label.empty()) made.label = text;
            made.evidence += (made.evidence.empty() ? "" : ", ") + picture.say({where, {in_marks(text)}});
        };
        if (!cell.note.empty() && cell.note.size() < 80) read_more(cell.note, "its note says {}");
        if (const auto name = names.find(place); name != names.end()) {
            std::string words = name->second;
            std::ranges::replace(words, '_', ' ');
            read_more(words, "named {}");
        }
        // "lb" before a number and "kg" behind it: one becomes the other; a row of its own under a table
        const bool units_only =
            from_above ? !before.empty()
                       : before.only_unit || (beside != nullptr && left != nullptr && unit_in(*left));
        firm_unit(made, cell, own, own_text, beside, !from_above, units_only);
        made.kind = kind_of(made, made.basis);
        by_value(made, cell);
        return made;
    }

    static constexpr std::string_view kBeside = "the unit beside it is {}";

    // The unit of the number itself: its own text, its format, the cell beside it.
    void firm_unit(Meaning& made, const Cell& cell, const std::optional<Unit>& own,
                   const std::string& own_text, const std::string* beside, bool labelled_left,
                   bool units_only) {
        std::string text;
        std::optional<Unit> unit;
        std::string_view where;
        if (own) {
            unit = own;
            text = own_text;
            where = "its own text says {}";
        } else if (cell.format == Format::percent) {
            made.percent_format = true;
            unit = read_unit("fraction");
            text = "%";
            where = "its format shows {}";
        } else if (cell.format == Format::clock || cell.format == Format::date_clock) {
            made.clock_format = true;
            unit = read_unit("d");
            text = picture.say("a clock time");
            where = "its format shows {}";
        } else if (const auto in_format = unit_in_format(cell.format_code, text)) {
            unit = in_format;
            where = "its format shows {}";
        } else if (beside != nullptr) {
            unit = label_of(*beside).unit;
            text = *beside;
            where = kBeside;
            made.says |= label_of(*beside).says;
        }
        if (!unit) return;
        const bool clash = made.unit && !units_only && (labelled_left || where != kBeside) &&
                           !made.clock_format && !same_scale(*unit, *made.unit) &&
                           !(made.percent_format && made.unit->form != RatioForm::none &&
                             made.unit->form != RatioForm::mass_ratio) &&
                           !(made.percent_format && made.unit->dimension == Dimension{});
        const std::string said = picture.say({where, {text}});
        if (clash) made.contradiction = picture.say({"{}, but {}", {made.evidence, said}});
        if (unit->basis == Basis::unsaid && made.unit) unit->basis = made.unit->basis;
        made.unit = unit;
        made.unit_text = text;
        made.evidence += (made.evidence.empty() ? "" : ", ") + said;
    }

    // A share whose size alone says whether it is in per cent.
    static void by_value(Meaning& made, const Cell& cell) {
        static const std::set<Kind> shares{Kind::moisture_wet, Kind::relative_humidity, Kind::fraction,
                                           Kind::water_activity};
        const auto* number = std::get_if<double>(&cell.value);
        if (number == nullptr || !made.kind || !shares.contains(*made.kind) || made.percent_format) return;
        const double size = std::abs(*number);
        if (!made.unit && size > 0 && (size <= 1 || (size > 1.5 && size <= 100))) {
            made.unit = read_unit(size <= 1 ? "fraction" : "%");
            made.unit->basis = made.basis;
            made.unit_by_value = true;
        } else if (made.unit && made.unit->form == RatioForm::percent && size <= 1) {
            made.unit_by_value = true;
        }
    }
};

Labels::Labels(const Picture& picture) {
    Reader reader{.picture = picture, .meanings = meanings_, .known = {}, .names = {}};
    reader.read_names();
    for (std::size_t sheet = 0; sheet < picture.sheets.size(); ++sheet)
        reader.read_sheet(static_cast<int>(sheet));
}
Labels::~Labels() = default;
Labels::Labels(Labels&&) noexcept = default;

const Meaning& Labels::at(const Place& place) const {
    static const Meaning none;
    const auto found = meanings_.find(place);
    return found == meanings_.end() ? none : found->second;
}

}  // namespace drysheet::workbook
