// SPDX-License-Identifier: MPL-2.0
#include "addin/functions/foods/foods.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include "addin/functions/foods/tables.hpp"
#include "addin/text/sentence.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

// ---- a .csv file
// ----------------------------------------------------------------------------------------

using Cells = std::vector<std::string_view>;

std::vector<std::string_view> split(std::string_view text, char separator) {
    std::vector<std::string_view> parts;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t end = std::min(text.find(separator, from), text.size());
        parts.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return parts;
}

// A quoted cell may hold commas.
Cells cells_of(std::string_view line) {
    Cells cells;
    for (;;) {
        const bool quoted = line.starts_with('"');
        if (quoted) line.remove_prefix(1);
        const std::size_t end = std::min(line.find(quoted ? '"' : ','), line.size());
        cells.push_back(line.substr(0, end));
        line.remove_prefix(std::min(end + (quoted ? 1 : 0), line.size()));
        if (line.empty()) return cells;
        line.remove_prefix(1);
    }
}

/// The rows of a table, each cell found by its heading.
class Rows {
  public:
    explicit Rows(std::string_view text) {
        for (const std::string_view line : split(text, '\n'))
            if (!line.empty() && line.front() != '#') rows_.push_back(cells_of(line));
    }
    std::size_t size() const { return rows_.size() - 1; }
    /// Empty where there is no such column.
    std::string_view at(std::size_t row, std::string_view heading) const {
        const auto column = static_cast<std::size_t>(std::ranges::find(rows_[0], heading) - rows_[0].begin());
        const Cells& cells = rows_[row + 1];
        return column < cells.size() ? cells[column] : std::string_view{};
    }
    std::optional<double> number(std::size_t row, std::string_view heading) const {
        const std::string_view cell = at(row, heading);
        double x = 0;
        if (std::from_chars(cell.data(), cell.data() + cell.size(), x).ec != std::errc{}) return std::nullopt;
        return x;
    }
    bool has(std::string_view heading) const { return std::ranges::count(rows_[0], heading) > 0; }

  private:
    std::vector<Cells> rows_;
};

// ---- words
// ----------------------------------------------------------------------------------------------

enum class State : unsigned char { unsaid, fresh, dried, powder };

const std::map<std::string_view, State>& state_words() {
    static const std::map<std::string_view, State> all = [] {
        std::map<std::string_view, State> words;
        const std::pair<State, std::string_view> lists[] = {
            {State::fresh,
             "fresh raw uncooked frisch frische frischer roh rohe frais fraiche fraich cru crue fresco "
             "fresca "
             "crudo cruda"},
            {State::dried,
             "dried dry dehydrated desiccated getrocknet getrocknete getrockneter getrocknetes "
             "trocken gedorrt gedorrte sec seche sech sechee deshydrate deshydratee seco seca "
             "deshidratado deshidratada"},
            {State::powder,
             "powder powdered ground flake granule pulver gemahlen gemahlene gemahlener poudre moulu moulue "
             "polvo molido molida"}};
        for (const auto& [state, list] : lists)
            for (const std::string_view word : split(list, ' ')) words.emplace(word, state);
        return words;
    }();
    return all;
}
bool is_one_of(std::string_view word, std::string_view list) {
    return std::ranges::count(split(list, ' '), word) > 0;
}
constexpr std::string_view kEmptyWords =
    "a an and or of the with in to as sun unprepared de la le les du des der die das den und et en y el los "
    "las del con";
/// What makes another food of it, behind a food's own name.
constexpr std::string_view kMadeOf =
    "canned frozen freeze sprouted sweetened salted sugared prepared toasted roasted oil drained juice cream "
    "creamed flour "
    "pasteurized processed parboiled puffed enhanced mashed low flower stem stalk leaf leafy bran";
/// A first segment that only says what kind of food follows.
constexpr std::string_view kKinds = "spice nut seed fish mollusk crustacean seaweed fungi";

std::string singular(std::string word) {
    const auto cut = [&word](std::size_t n, std::string_view put = {}) {
        word.resize(word.size() - n);
        word += put;
    };
    const auto ends = [&word](std::string_view end) { return word.ends_with(end); };
    if (word.size() < 4 || !ends("s") || ends("ss") || ends("us") || ends("is")) return word;
    if (ends("ies"))
        cut(3, "y");
    else if (ends("leaves"))
        cut(3, "f");
    else if (ends("oes") || ends("ches") || ends("shes") || ends("xes") || ends("sses"))
        cut(2);
    else
        cut(1);
    return word;
}

// Lower case, without accents (a to z only), each word in the singular.
std::vector<std::string> plain_words(std::string_view text) {
    // from à, in the order of Unicode; their capitals stand 32 before
    constexpr std::string_view kBase = "aaaaaaaceeeeiiiidnooooo ouuuuypy";
    std::vector<std::string> words(1);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c >= 'A' && c <= 'Z') {
            words.back() += static_cast<char>(c - 'A' + 'a');
        } else if (c >= 'a' && c <= 'z') {
            words.back() += c;
        } else if (c == '\xC3' && i + 1 < text.size()) {
            const char next = text[++i];
            words.back() += next == '\x9F' ? std::string("ss")
                                           : std::string(1, kBase[static_cast<unsigned char>(next) % 32]);
        } else if (!words.back().empty()) {
            words.emplace_back();
        }
    }
    std::erase_if(words, [](const std::string& word) { return word.size() < 2; });
    for (std::string& word : words) word = singular(std::move(word));
    return words;
}

/// What a name says: its words, sorted, and the state it asks for.
struct Said {
    std::vector<std::string> words;
    State state = State::unsaid;
};

void sort_out(std::vector<std::string>& words) {
    std::ranges::sort(words);
    words.erase(std::unique(words.begin(), words.end()), words.end());
}

// `first`: whether its first word may be one of state ("ground ginger", but "ground nut" of a table).
Said said_by(std::string_view text, bool first = true) {
    Said said;
    const auto note = [&said](State state) {
        if (state != State::fresh || said.state == State::unsaid) said.state = std::max(said.state, state);
    };
    std::string before;
    for (std::string& word : plain_words(text)) {
        const bool leading = std::exchange(first, true) == false;
        const auto state = state_words().find(word);
        if (before == "without" || before == "not" || before == "non") {
            before = word;
            continue;
        }
        before = word;
        if (!leading && state != state_words().end()) {
            note(state->second);
        } else if (word.size() > 8 && word.ends_with("pulver")) {
            note(State::powder);
            said.words.push_back(word.substr(0, word.size() - 6));
        } else if (word.size() > 10 && word.starts_with("trocken")) {
            note(State::dried);
            said.words.push_back(word.substr(7));
        } else if (word.size() > 7 && word.starts_with("dorr")) {
            note(State::dried);
            said.words.push_back(word.substr(4));
        } else if (!is_one_of(word, kEmptyWords)) {
            said.words.push_back(std::move(word));
        }
    }
    sort_out(said.words);
    return said;
}

std::string joined(const std::vector<std::string>& words) {
    std::string all;
    for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
    return all;
}
bool holds(const std::vector<std::string>& words, const std::vector<std::string>& some) {
    return std::ranges::includes(words, some);
}

// ---- the tables
// ------------------------------------------------------------------------------------------

struct Line {
    Food food;
    std::vector<std::string> words;  ///< all of its name
    std::vector<std::string> head;   ///< of the part that names the food itself
    std::vector<std::string> made;   ///< that make another food of it
    bool dried = false, powder = false;
    bool ripe_seeds = false;  ///< a pulse, dry by itself: where it is not sold fresh too, nobody says "dried"
};

std::string without_brackets(std::string_view text) {
    std::string rest;
    int depth = 0;
    for (const char c : text) {
        depth += c == '(' ? 1 : 0;
        if (depth == 0) rest += c;
        depth -= c == ')' ? 1 : 0;
    }
    return rest;
}

Line line_of(Food food) {
    Line line{.food = food};
    const Said said = said_by(food.name, false);
    line.words = said.words;
    const std::string plain = without_brackets(food.name);
    auto parts = split(plain, ',');
    if (parts.size() > 1 && is_one_of(joined(plain_words(parts[0])), kKinds)) parts.erase(parts.begin());
    line.head = said_by(parts[0], false).words;
    for (const std::string& word : said_by(plain, false).words)
        if (is_one_of(word, kMadeOf) && !holds(line.head, {word})) line.made.push_back(word);
    for (const std::string& word : plain_words(food.name)) {
        const auto state = state_words().find(word);
        if (state == state_words().end() || word == plain_words(food.name).front()) continue;
        line.dried |= state->second == State::dried;
        line.powder |= state->second == State::powder;
    }
    line.ripe_seeds = holds(line.words, {"mature", "seed"}) && !holds(line.words, {"sprouted"});
    line.dried |= line.ripe_seeds;
    return line;
}

void add(std::vector<Line>& lines, std::string_view text, std::string_view source) {
    const Rows rows(text);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto share = [&](std::string_view heading) {
            return rows.number(i, heading).value_or(0) / 100;
        };
        Food food{.name = rows.at(i, "name"),
                  .source = source,
                  .moisture = share("water"),
                  .protein = share("protein"),
                  .fat = share("fat"),
                  .carbohydrate = share("carbohydrate"),
                  .fibre = share("fibre"),
                  .ash = share("ash")};
        if (!rows.has("ash")) {  // by difference, over a carbohydrate that holds the fibre
            food.ash = std::max(0.0, 1 - food.moisture - food.protein - food.fat - food.carbohydrate);
            food.carbohydrate -= food.fibre;
        }
        if (rows.number(i, "free_sugars")) food.sugars = share("free_sugars");
        if (rows.number(i, "water_sd").value_or(0) > 0) food.moisture_sd = share("water_sd");
        lines.push_back(line_of(food));
    }
}

struct Tables {
    std::vector<Line> lines;
    std::unordered_map<std::string, std::vector<std::uint32_t>> lines_with;  ///< a word
    std::unordered_map<std::string, std::vector<Said>> meant_by;             ///< a name of names.csv
    std::unordered_map<std::string, PrintedIsotherm> isotherms;              ///< by words
    std::string with_isotherm;                                               ///< the foods, to list them
    std::set<std::string> names;                                             ///< to list what is near
};

Tables read_tables() {
    Tables all;
    add(all.lines, food_tables::usda_sr28, "USDA SR28");
    add(all.lines, food_tables::usda_sr26, "USDA SR26");
    add(all.lines, food_tables::ifct2017, "IFCT 2017");
    for (std::uint32_t i = 0; i < all.lines.size(); ++i) {
        for (const std::string& word : all.lines[i].words) all.lines_with[word].push_back(i);
        all.names.insert(joined(all.lines[i].head));
    }
    const Rows names(food_tables::names);
    for (std::size_t i = 0; i < names.size(); ++i) {
        std::vector<Said> meant;
        const std::string_view lines = names.at(i, "lines");
        for (const std::string_view one : split(lines.empty() ? names.at(i, "english") : lines, '/'))
            meant.push_back(said_by(one, false));
        for (const char* language : {"english", "german", "french", "spanish"})
            for (const std::string_view name : split(names.at(i, language), '/')) {
                all.meant_by.try_emplace(joined(said_by(name, false).words), meant);
                all.names.insert(std::string(name));
            }
    }
    const Rows isotherms(food_tables::isotherms);
    for (std::size_t i = 0; i < isotherms.size(); ++i) {
        PrintedIsotherm isotherm{.model = isotherms.at(i, "model"),
                                 .source = isotherms.at(i, "source"),
                                 .celsius = isotherms.number(i, "temp").value()};
        for (const char* heading : {"p1", "p2", "p3", "p4"})
            if (const auto x = isotherms.number(i, heading)) isotherm.parameters.push_back(*x);
        const auto foods = split(isotherms.at(i, "food"), '/');
        all.with_isotherm.append(i == 0 ? "" : ", ").append(foods.front());
        for (const std::string_view food : foods)
            all.isotherms.try_emplace(joined(said_by(food, false).words), isotherm);
    }
    return all;
}
const Tables& tables() {
    static const Tables all = read_tables();
    return all;
}

// ---- from a name to its lines
// ----------------------------------------------------------------------------

using Found = std::vector<const Line*>;

// All lines whose names hold these words.
Found lines_with(const std::vector<std::string>& words) {
    Found found;
    if (words.empty()) return found;
    const auto first = tables().lines_with.find(words.front());
    if (first == tables().lines_with.end()) return found;
    for (const std::uint32_t i : first->second)
        if (holds(tables().lines[i].words, words)) found.push_back(&tables().lines[i]);
    return found;
}

void keep(Found& found, auto condition) {
    std::erase_if(found, [&](const Line* line) { return !condition(*line); });
}
// Keeps those for which it holds, if there is any.
void prefer(Found& found, auto condition) {
    if (std::ranges::any_of(found, [&](const Line* line) { return condition(*line); }))
        keep(found, condition);
}

constexpr double kDry = 0.25;  ///< a line that says no state, but is as dry as dried food

Found of_state(Found found, const Said& said) {
    keep(found, [&](const Line& line) { return holds(said.words, line.made); });
    if (said.state == State::dried || said.state == State::powder) {
        keep(found, [](const Line& line) { return line.dried || line.powder || line.food.moisture < kDry; });
        prefer(found, [&](const Line& line) { return line.powder == (said.state == State::powder); });
    } else {
        prefer(found, [](const Line& line) { return !line.dried && !line.powder; });
        keep(found, [&](const Line& line) {
            return (!line.dried && !line.powder) || (line.ripe_seeds && said.state == State::unsaid);
        });
    }
    prefer(found, [&](const Line& line) { return holds(said.words, line.head); });
    return found;
}

std::string listed(const std::vector<std::string>& names) {
    constexpr std::size_t kShown = 6;
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), kShown); ++i) text += (i == 0 ? "" : "; ") + names[i];
    if (names.size() > kShown) text += "; … (" + std::to_string(names.size()) + ")";
    return text;
}
std::string listed(const Found& found) {
    std::vector<std::string> names;
    for (const Line* line : found) names.emplace_back(line->food.name);
    return listed(names);
}

// Names that hold one of the words, or are a few letters off.
std::string near_names(const Said& said) {
    const std::string wanted = joined(said.words);
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const std::string& name : tables().names) {
        const auto words = said_by(name, false).words;
        const bool shares =
            std::ranges::any_of(said.words, [&](const std::string& word) { return holds(words, {word}); });
        const std::size_t off = edits(wanted, joined(words));
        if (shares || 2 * off < wanted.size()) near.emplace_back(off, name);
    }
    std::ranges::sort(near);
    std::vector<std::string> names;
    for (auto& [off, name] : near)
        if (names.size() < 6) names.push_back(std::move(name));
    return listed(names);
}

const std::vector<Said>* meant_by(const std::vector<std::string>& words) {
    // a word of the four languages, perhaps in a plural that English does not form: Aprikosen, champiñones,
    // Pilze, pruneaux
    for (const std::string_view ending : {"", "n", "en", "e", "x"}) {
        std::vector<std::string> stems = words;
        for (std::string& word : stems)
            if (word.size() > ending.size() + 2 && word.ends_with(ending))
                word.resize(word.size() - ending.size());
        sort_out(stems);
        const auto found = tables().meant_by.find(joined(stems));
        if (found != tables().meant_by.end()) return &found->second;
    }
    return nullptr;
}

}  // namespace

std::string_view foods_with_isotherm() { return tables().with_isotherm; }

FoundFoods find_foods(std::string_view name) {
    const Said said = said_by(name);
    const auto* meant = meant_by(said.words);
    std::vector<Said> wanted = meant ? *meant : std::vector<Said>{said};
    Found all, found;
    FoundFoods result;
    for (Said& one : wanted) {
        if (said.state != State::unsaid) one.state = said.state;
        Found matching = lines_with(one.words);
        for (const Line* line : of_state(matching, one))
            if (std::ranges::count(found, line) == 0) found.push_back(line);
        prefer(matching, [&](const Line& line) { return holds(one.words, line.head); });
        all.insert(all.end(), matching.begin(), matching.end());
        const auto isotherm = tables().isotherms.find(joined(one.words));
        if (isotherm != tables().isotherms.end()) result.isotherm = &isotherm->second;
    }
    if (found.empty() && !all.empty())
        throw NoResultInWords(arg::food, {"is not in the tables as it stands; there is: {}", {listed(all)}});
    if (found.empty()) {
        const std::string near = near_names(said);
        if (near.empty()) throw NoResultInWords(arg::food, "is no food of the tables");
        throw NoResultInWords(arg::food, {"is no food of the tables; near it: {}", {near}});
    }
    const auto [driest, wettest] =
        std::ranges::minmax(found, {}, [](const Line* line) { return line->food.moisture; });
    constexpr double kOneFood = 0.25;  ///< lines farther apart are seeds and leaves, not varieties
    if (wettest->food.moisture - driest->food.moisture > kOneFood)
        throw NoResultInWords(
            arg::food,
            {"is more than one food, from {} to {} moisture; say which: {}",
             {{100 * driest->food.moisture, "%", 3}, {100 * wettest->food.moisture, "%", 3}, listed(found)}});
    for (const Line* line : found) result.lines.push_back(&line->food);
    return result;
}

}  // namespace drysheet
