// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/sure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

constexpr int kAcross = 6, kUp = 200, kDown = 2;  // how far from a cell its ± is looked for
constexpr double kNormal95 = 1.959964;            // the middle 95 % of a normal distribution
constexpr int kDigits = 2;                        // of u, to which the adaptive draws settle
constexpr double kPoints = 0.05;  // from here on a plain ± of a share below 1 is meant in points

constexpr std::string_view kSigns[] = {"±", "+/-", "+-"};

std::size_t sign_in(std::string_view text, std::size_t& length) {
    for (const std::string_view sign : kSigns)
        if (const auto at = text.find(sign); at != std::string_view::npos) {
            length = sign.size();
            return at;
        }
    return std::string_view::npos;
}

// A word of a text, letters of any language, in lower case.
std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char c : text) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                            static_cast<unsigned char>(c) >= 0x80 || c == '_';
        if (letter)
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    }
    for (std::string& word : words) word = lower(word);
    if (words.back().empty()) words.pop_back();
    return words;
}

template <std::size_t N>
bool says(std::string_view text, const std::array<std::string_view, N>& known) {
    return std::ranges::any_of(words_in(text), [&](const std::string& word) {
        return std::ranges::any_of(known, [&](std::string_view stem) { return word.starts_with(stem); });
    });
}

// Common practice, no source.
constexpr std::array<std::string_view, 17> kGuesses{
    "guess", "estimate", "assum", "rough",   "schätz",    "geschätzt", "geraten", "angenommen", "annahme",
    "estim", "suppos",   "jugé",  "supuest", "conjetura", "adivin",    "aprox",   "devin"};
constexpr std::array<std::string_view, 14> kDeviations{"uncertaint",
                                                       "unsicherheit",
                                                       "standardunsicherheit",
                                                       "messunsicherheit",
                                                       "standardabweichung",
                                                       "incertitude",
                                                       "écart",
                                                       "ecart",
                                                       "incertidumbre",
                                                       "desviación",
                                                       "desviacion",
                                                       "stdev",
                                                       "stddev",
                                                       "streuung"};
// A heading that says nothing of what stands below it.
constexpr std::array<std::string_view, 9> kPlainHeadings{"value",  "number", "wert",   "zahl",  "valeur",
                                                         "nombre", "valor",  "número", "numero"};
constexpr std::array<std::string_view, 3> kPointsWords{"point", "punkt", "punto"};

bool has_digit(std::string_view text) { return text.find_first_of("0123456789") != std::string_view::npos; }

// "±", "u (g)", "sd", "Standard deviation": what stands below or beside is an uncertainty.
bool heads_uncertainty(const std::string& text) {
    std::size_t length = 0;
    if (const auto at = sign_in(text, length); at != std::string_view::npos)
        return !has_digit(trimmed(std::string_view(text).substr(at + length)).substr(0, 1));
    if (says(text, kDeviations)) return true;
    const auto words = words_in(text);
    if (words.empty()) return false;
    if (words[0] == "standard" || words[0] == "std")
        return words.size() > 1 && (words[1].starts_with("dev") || words[1].starts_with("err"));
    const bool small_u = !text.empty() && text.find('U') != 0;
    return words[0] == "sd" || (words[0] == "s" && words.size() > 1 && words[1] == "d") ||
           (words[0] == "u" && small_u && text.find("m/s") == std::string::npos) ||
           words[0].starts_with("u_");
}
// An expanded uncertainty is twice a standard one.
double coverage(const std::string& text) {
    std::string dense;
    for (const char c : text)
        if (c != ' ') dense += c;
    return dense.find("k=2") != std::string::npos ? 2 : 1;
}

// A ± as stated, before it is held against its value.
struct Stated {
    double amount = 0;
    bool per_cent = false;  ///< `amount` is a fraction
    bool points = false;    ///< `amount` is in points of a per cent
    std::optional<Unit> unit;
    std::string how;  ///< "the column ±", in words
};

class Reader {
  public:
    Reader(const Picture& picture, const Labels& labels, const Texts& texts)
        : picture_(picture),
          labels_(labels),
          texts_(texts),
          reading_{.decimal_comma = picture.decimal_comma} {
        const auto key = [](const Name& name) { return std::pair(name.scope, lower(name.name)); };
        std::map<std::pair<int, std::string>, const Name*> known;
        for (const Name& name : picture.names) known.emplace(key(name), &name);
        for (const Name& name : picture.names) {
            auto [scope, called] = key(name);
            const auto other = known.find({scope, called + "_u"});
            if (other == known.end()) continue;
            const auto values = areas_in(name.means, picture), u = areas_in(other->second->means, picture);
            if (values.size() == 1 && u.size() == 1 && u.front().one_cell())
                named_.push_back(
                    {values.front(), {u.front().sheet, u.front().top, u.front().left}, other->second->name});
        }
    }

    std::string label_of(const Place& place) const { return workbook::label_of(place, picture_, labels_); }

    /// The input of a cell; nothing where it holds no number.
    std::optional<SureInput> input(const Place& place, bool stated_only) const {
        const Cell* cell = picture_.at(place);
        if (cell == nullptr || cell->error != 0) return {};
        SureInput made{.cell = place, .label = label_of(place), .unit = labels_.at(place).unit_text};
        if (const auto* number = std::get_if<double>(&cell->value)) {
            made.number.value = *number;
        } else if (const auto* text = std::get_if<std::string>(&cell->value)) {
            if (!take_text(*text, made)) return {};
            if (made.number.u > 0) {
                made.from = texts_.word("typed ±");
                return made;
            }
        } else {
            return {};
        }
        if (const auto stated = stated_for(place)) {
            made.number.u = in_unit_of(place, made, *stated);
            made.from = stated->how;
            if (guessed(place)) made.from = texts_.word("guess, {}", {made.from});
        } else if (stated_only) {
            return {};
        } else if (guessed(place)) {
            made.from = texts_.word("a guess without a ±");
        } else if (const auto step = resolution(place, *cell, made)) {
            const std::string step_text = drysheet::in_words(*step, 6, reading_);
            made.number.u = *step / std::sqrt(12.0);
            made.number.spread = numeric::Spread::rectangular;
            made.from = texts_.word("read to {}: u = {}/√12", {step_text, step_text});
        } else {
            made.from = texts_.word("nothing says how good it is");
        }
        return made;
    }

  private:
    // A text that was typed; one that is worked out tells of some result.
    const std::string* text_at(int sheet, int row, int column) const {
        if (row < 0 || column < 0) return nullptr;
        const Cell* cell = picture_.at({sheet, row, column});
        const auto* text =
            cell == nullptr || cell->formula ? nullptr : std::get_if<std::string>(&cell->value);
        return text != nullptr && !trimmed(*text).empty() ? text : nullptr;
    }
    bool number_at(const Place& place) const {
        const Cell* cell = picture_.at(place);
        if (cell == nullptr || cell->error != 0) return false;
        if (std::holds_alternative<double>(cell->value)) return true;
        const auto* text = std::get_if<std::string>(&cell->value);
        return text != nullptr && has_digit(*text) && quantity(*text).fault == TextFault::none;
    }
    QuantityText quantity(const std::string& text) const {
        thread_local std::string storage;
        return read_quantity(plain_spaces(text, storage), reading_);
    }

    // "1200 ± 1 g": its number, its u and the characters around.
    bool take_text(const std::string& text, SureInput& made) const {
        std::string storage;
        const std::string plain(plain_spaces(text, storage));
        const QuantityText read = read_quantity(plain, reading_);
        if (read.fault != TextFault::none || read.clock) return false;
        made.number.value = read.value;
        made.number.u = read.uncertainty;
        made.after = read.said.empty() ? "" : " " + std::string(read.said);
        if (!read.said.empty()) made.unit = read.said;
        return true;
    }

    // "± 0.5 g" within a text: behind the sign a number, and perhaps a unit or %.
    std::optional<Stated> within(const std::string& text) const {
        std::size_t length = 0;
        const auto at = sign_in(text, length);
        if (at == std::string_view::npos) return {};
        auto rest = trimmed(std::string_view(text).substr(at + length));
        while (!rest.empty()) {  // as much of it as can be read
            const QuantityText read = quantity(std::string(rest));
            if (read.fault == TextFault::none) {
                Stated stated = stated_as(read, text);
                stated.how = "±" + std::string(rest);
                return stated;
            }
            const auto cut = rest.find_last_of(" (,;)");
            rest = cut == std::string_view::npos ? std::string_view{} : trimmed(rest.substr(0, cut));
        }
        return {};
    }
    static Stated stated_as(const QuantityText& read, const std::string& words) {
        Stated stated{.amount = read.value};
        if (!read.said.empty() && read.unit.form == RatioForm::percent) {
            stated.per_cent = true;
            stated.amount = read.value / 100;
        } else if (!read.said.empty()) {
            stated.unit = read.unit;
        } else {
            stated.points = says(words, kPointsWords);
        }
        return stated;
    }

    // The ± that this cell holds, below or beside this heading.
    std::optional<Stated> held(const Place& place, const std::string& heading) const {
        const Cell* cell = picture_.at(place);
        if (cell == nullptr || cell->error != 0) return {};
        Stated stated;
        if (const auto* number = std::get_if<double>(&cell->value)) {
            stated.amount = *number;
            stated.per_cent = cell->format == Format::percent;
            stated.points = says(heading, kPointsWords);
            if (!stated.per_cent && !stated.points && heading.find('%') != std::string::npos) {
                stated.per_cent = true;
                stated.amount /= 100;
            }
            if (!stated.per_cent && !stated.points)
                if (const Label label = read_label(heading);
                    label.unit && label.unit->dimension != Dimension{})
                    stated.unit = label.unit;
        } else if (const auto* text = std::get_if<std::string>(&cell->value)) {
            std::size_t length = 0;
            if (sign_in(*text, length) != std::string_view::npos) return within(*text);
            const QuantityText read = quantity(*text);
            if (read.fault != TextFault::none) return {};
            stated = stated_as(read, heading);
        } else {
            return {};
        }
        if (!(stated.amount >= 0)) return {};
        stated.amount /= coverage(heading);
        stated.how = heading;
        return stated;
    }

    const std::string* heading_above(int sheet, int row, int column) const {
        for (int up = row - 1; up >= std::max(0, row - kUp); --up)
            if (const std::string* text = text_at(sheet, up, column);
                text != nullptr && !number_at({sheet, up, column}))
                return text;
        return nullptr;
    }
    const std::string* label_left(int sheet, int row, int column) const {
        for (int left = column - 1; left >= std::max(0, column - 8); --left)
            if (const std::string* text = text_at(sheet, row, left);
                text != nullptr && !number_at({sheet, row, left}))
                return text;
        return nullptr;
    }

    std::optional<Stated> stated_for(const Place& place) const {
        // beside it: a text with a ±, or a number in a column that is headed so
        for (int i = 1; i <= kAcross; ++i) {
            const Place beside{place.sheet, place.row, place.column + i};
            if (number_at(beside) || heads_nothing(beside)) {
                const std::string* heading = heading_above(place.sheet, place.row, beside.column);
                if (heading != nullptr && heads_uncertainty(*heading)) {
                    if (auto stated = held(beside, *heading)) {
                        stated->how = texts_.word("the column {}", {trimmed(*heading)});
                        return stated;
                    }
                    continue;  // left blank
                }
                if (number_at(beside)) break;
            }
            if (const std::string* text = text_at(place.sheet, place.row, beside.column)) {
                if (auto stated = within(*text)) return stated;
                if (heads_uncertainty(*text)) {  // "±" between the two numbers of one row
                    if (auto stated = held({place.sheet, place.row, beside.column + 1}, *text)) {
                        stated->how = texts_.word("the cell beside it, {}", {trimmed(*text)});
                        return stated;
                    }
                }
            }
        }
        // below it, in a row that is headed so
        for (int i = 1; i <= kDown; ++i) {
            const Place below{place.sheet, place.row + i, place.column};
            const std::string* label = label_left(below.sheet, below.row, below.column);
            if (label != nullptr && heads_uncertainty(*label) && number_at(below))
                if (auto stated = held(below, *label)) {
                    stated->how = texts_.word("the row {}", {trimmed(*label)});
                    return stated;
                }
            if (number_at(below)) break;
        }
        const Cell* cell = picture_.at(place);
        for (const std::string& text : {label_of(place), cell->note})
            if (auto stated = within(text)) return stated;
        return by_name(place);
    }
    // A blank cell may be the place of a ± that was left blank.
    bool heads_nothing(const Place& place) const {
        const Cell* cell = picture_.at(place);
        return cell == nullptr || std::holds_alternative<std::monostate>(cell->value);
    }

    std::optional<Stated> by_name(const Place& place) const {
        for (const Named& named : named_) {
            if (!named.values.holds(place)) continue;
            if (auto stated = held(named.u, "")) {
                const std::string label = label_of(named.u);
                stated->how = label.empty() ? texts_.word("the cell named {}", {named.name}) : label;
                return stated;
            }
        }
        return {};
    }

    // A ± as a difference of the number that the cell holds.
    double in_unit_of(const Place& place, const SureInput& input, const Stated& stated) const {
        const double value = input.number.value;
        const Meaning& meaning = labels_.at(place);
        const Cell& cell = *picture_.at(place);
        const bool percent_format = cell.format == Format::percent;
        const std::optional<Unit> unit =
            input.after.empty() ? meaning.unit : read_written_unit(trimmed(input.after));
        const bool in_percent =
            !percent_format && unit && unit->form == RatioForm::percent && std::abs(value) > 1;
        const bool share = percent_format || (std::abs(value) <= 1 && meaning.kind &&
                                              row_of(*meaning.kind).forms != Forms::with_dimension &&
                                              row_of(*meaning.kind).limits.high <= 1);
        if (stated.per_cent)
            return in_percent ? 100 * stated.amount : share ? stated.amount : stated.amount * std::abs(value);
        if (stated.points) return share ? stated.amount / 100 : stated.amount;
        if (stated.unit && unit && stated.unit->dimension == unit->dimension)
            return unit->step_from_si(stated.unit->step_to_si(stated.amount));
        if (percent_format && stated.amount >= kPoints) return stated.amount / 100;
        return stated.amount;
    }

    bool guessed(const Place& place) const {
        const Cell* cell = picture_.at(place);
        if (says(cell->note, kGuesses) || says(label_of(place), kGuesses) || says(cell->style, kGuesses))
            return true;
        for (int i = -1; i <= kAcross; ++i) {
            const std::string* text = text_at(place.sheet, place.row, place.column + i);
            if (i != 0 && text != nullptr && says(*text, kGuesses)) return true;
        }
        return false;
    }

    // The last digit of a reading; nothing for what is no reading: counts, prices, dates, numbers without a
    // label.
    std::optional<double> resolution(const Place& place, const Cell& cell, const SureInput& input) const {
        const Meaning& meaning = labels_.at(place);
        const bool measured = meaning.unit && meaning.unit->dimension != Dimension{};
        const bool read = meaning.kind || measured;
        const bool counted =
            (meaning.has(Say::count) && !measured) || meaning.has(Say::price) || meaning.has(Say::date);
        if (!read || counted || cell.formula || meaning.kind == Kind::money || meaning.kind == Kind::number)
            return {};
        if (cell.format == Format::date || cell.format == Format::clock || cell.format == Format::date_clock)
            return {};
        const double scale = cell.format == Format::percent ? 100 : 1;
        const std::string digits = drysheet::in_words(input.number.value * scale, 12);
        if (digits.find_first_of("eE×") != std::string::npos) return {};
        const auto point = digits.find('.');
        std::size_t decimals = point == std::string::npos ? 0 : digits.size() - point - 1;
        decimals = std::max(decimals, decimals_shown(cell.format_code));
        return std::pow(10.0, -static_cast<double>(decimals)) / scale;
    }
    // The decimals that a format always shows: 2 of `0.00" kg"`.
    static std::size_t decimals_shown(const std::string& code) {
        const auto point = code.find_first_of(".,");
        if (point == std::string::npos || code.find('[') != std::string::npos) return 0;
        const auto end = code.find_first_not_of('0', point + 1);
        return (end == std::string::npos ? code.size() : end) - point - 1;
    }

    /// Cells of a name, and the one of the same name with _u.
    struct Named {
        Area values;
        Place u;
        std::string name;
    };

    const Picture& picture_;
    const Labels& labels_;
    const Texts& texts_;
    const Reading reading_;
    std::vector<Named> named_;
};

}  // namespace

Input SureInput::with(double x, bool decimal_comma) const {
    if (after.empty()) return x;
    return drysheet::in_words(x, 17, Reading{.decimal_comma = decimal_comma}) + after;
}

std::string label_of(const Place& place, const Picture& picture, const Labels& labels) {
    const auto at = [&](int row, int column) { return picture.at({place.sheet, row, column}); };
    const auto text_at = [&](int row, int column) -> std::string {
        const Cell* cell = column < 0 ? nullptr : at(row, column);
        const auto* text = cell == nullptr ? nullptr : std::get_if<std::string>(&cell->value);
        return text == nullptr ? std::string() : std::string(trimmed(*text));
    };
    const auto number_at = [&](int column) {
        const Cell* cell = column < 0 ? nullptr : at(place.row, column);
        return cell != nullptr && (std::holds_alternative<double>(cell->value) ||
                                   has_digit(text_at(place.row, column).substr(0, 1)));
    };
    const std::string& read_from = labels.at(place).label;
    // the row's own words before it, the first of those that stand side by side
    int left = place.column - 1;
    while (left >= 0 && text_at(place.row, left).empty()) --left;
    if (left < 0) return read_from;
    const std::string nearest = text_at(place.row, left);
    int first = left;
    for (; left >= 0 && at(place.row, left) != nullptr; --left)
        if (!text_at(place.row, left).empty()) first = left;
    const std::string row = text_at(place.row, first);
    std::string heading = read_from == nearest || read_from == row ? std::string() : read_from;
    // one of several in its row is told apart by its heading
    if (heading.empty() && (number_at(place.column - 1) || number_at(place.column + 1)))
        for (int up = place.row - 1; up >= 0 && heading.empty(); --up) {
            const std::string above = text_at(up, place.column);
            if (!has_digit(above.substr(0, 1))) heading = above;
            if (text_at(up, first).empty()) break;  // where the rows begin
        }
    const bool plain = std::ranges::find(kPlainHeadings, lower(heading)) != kPlainHeadings.end();
    return heading.empty() || plain ? row : row + ": " + heading;
}

Sure rests_on(const std::vector<Place>& results, const Picture& picture, const Labels& labels,
              const Graph& graph, const Texts& texts) {
    const Reader reader(picture, labels, texts);
    const std::set<Place> wanted(results.begin(), results.end());
    // Whether a typed value below a cell has a stated ±.
    std::map<Place, std::optional<SureInput>> stated;
    const auto stated_at = [&](const Place& place) -> const std::optional<SureInput>& {
        const auto [known, added] = stated.try_emplace(place);
        if (added) known->second = reader.input(place, true);
        return known->second;
    };
    std::map<Place, bool> below;
    const auto stated_below = [&](const Place& place) {
        const auto [known, added] = below.try_emplace(place);
        if (added)
            for (const Place& input : graph.inputs_of(place))
                if (input != place && stated_at(input)) known->second = true;
        return known->second;
    };

    Sure sure;
    std::set<Place> seen, inputs;
    std::vector<Place> open(results.begin(), results.end());
    while (!open.empty()) {
        const Place place = open.back();
        open.pop_back();
        if (!seen.insert(place).second) continue;
        const Cell* cell = picture.at(place);
        if (cell == nullptr) continue;
        const std::vector<Place> next = graph.refers_to(place);
        const bool faulty = cell->error != 0;
        if (faulty && std::ranges::none_of(next, [&](const Place& at) {
                const Cell* one = picture.at(at);
                return one != nullptr && one->error != 0;
            }))
            sure.errors.push_back(place);
        if (cell->formula)
            for (const Area& area : areas_in(*cell->formula, picture))
                if (area.one_cell() && picture.at({area.sheet, area.top, area.left}) == nullptr)
                    sure.blanks.push_back({area.sheet, area.top, area.left});
        const bool typed = next.empty() && !cell->of_array;
        const bool stands_for_itself =
            !typed && !wanted.contains(place) && stated_at(place) && !stated_below(place);
        if (typed || stands_for_itself)
            inputs.insert(place);
        else
            open.insert(open.end(), next.begin(), next.end());
    }
    for (const Place& place : inputs)
        if (auto input = reader.input(place, false)) sure.inputs.push_back(*std::move(input));
    for (auto* places : {&sure.blanks, &sure.errors}) {
        std::ranges::sort(*places);
        places->erase(std::unique(places->begin(), places->end()), places->end());
    }
    return sure;
}

std::vector<Assessed> assess(const numeric::Models& models, std::span<const SureInput> inputs,
                             std::size_t rows, const std::function<bool()>& go_on) {
    std::vector<numeric::Uncertain> numbers;
    for (const SureInput& input : inputs) numbers.push_back(input.number);
    const auto first = numeric::propagate(models, numbers, rows);
    const auto drawn = numeric::sample(models, numbers);
    std::vector<Assessed> all(first.size());
    bool mislead = false;
    for (std::size_t r = 0; r < all.size(); ++r) {
        Assessed& one = all[r];
        if (!first[r] || !drawn[r]) continue;
        one = {.known = true,
               .by_draws = numeric::misleads(*first[r], *drawn[r]),
               .value = first[r]->value,
               .u = first[r]->u,
               .low = first[r]->value - kNormal95 * first[r]->u,
               .high = first[r]->value + kNormal95 * first[r]->u,
               .contributions = first[r]->contributions,
               .drawn = *drawn[r]};
        mislead = mislead || one.by_draws;
    }
    if (!mislead) return all;
    const auto adaptive = numeric::sample_adaptively(models, numbers, kDigits, go_on);
    for (std::size_t r = 0; r < all.size(); ++r) {
        if (!all[r].by_draws || !adaptive[r]) continue;
        all[r].drawn = *adaptive[r];
        all[r].u = adaptive[r]->u;
        all[r].low = adaptive[r]->low;
        all[r].high = adaptive[r]->high;
    }
    return all;
}

}  // namespace drysheet::workbook
