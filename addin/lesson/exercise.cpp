// SPDX-License-Identifier: MPL-2.0
#include "addin/lesson/exercise.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/refusal.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::array<std::string_view, kExerciseColumns> kHeader{
    "Lesson", "Text", "Function", "Arguments", "Ranges", "Digits", "Points", "Answer in", "Hints"};
constexpr std::array<std::size_t, 5> kDrawnFrom{2, 3, 4, 5, 7};  // Function to Digits, Answer in
constexpr int kDraws = 5000;

std::vector<std::string_view> parted(std::string_view text, char by) {
    std::vector<std::string_view> parts;
    for (std::size_t from = 0; from <= text.size();) {
        const auto end = std::min(text.find(by, from), text.size());
        parts.push_back(trimmed(text.substr(from, end - from)));
        from = end + 1;
    }
    return parts;
}

// The number at the front of a text, taken off it. A comma is a decimal sign where the reader writes it so.
std::optional<double> take_number(std::string_view& text, const Reading& reading) {
    std::size_t end = 0;
    std::string plain;
    if (text.starts_with("−")) {
        plain = "-";
        end = std::string_view("−").size();
    }
    const auto part_of_number = [&](char c) {
        return (c >= '0' && c <= '9') || c == '.' || (c == ',' && reading.decimal_comma) ||
               (c == '-' && plain.empty());
    };
    for (; end < text.size() && part_of_number(text[end]); ++end) plain += text[end] == ',' ? '.' : text[end];
    double value = 0;
    const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    if (read.ec != std::errc() || read.ptr != plain.data() + plain.size()) return std::nullopt;
    text.remove_prefix(end);
    return value;
}

Term read_term(std::string_view text, const Reading& reading) {
    Term term;
    if (text.starts_with("\"") && text.ends_with("\"") && text.size() > 1) {
        term.after = text.substr(1, text.size() - 2);
        return term;
    }
    std::string_view rest = text;
    if (rest.starts_with("-{")) {
        term.sign = "-";
        rest.remove_prefix(1);
    }
    if (const auto close = rest.find('}'); rest.starts_with("{") && close != std::string_view::npos) {
        term.name = rest.substr(1, close - 1);
        term.after = rest.substr(close + 1);
        return term;
    }
    rest = text;
    term.number = take_number(rest, reading);
    term.after = term.number ? rest : text;
    return term;
}

Interval read_range(std::string_view text, int digits, const Reading& reading) {
    const auto wrong = [&text]() {
        refuse("ranges",
               {"{} is no range; write a name and from where to where, such as fresh 8 to 16 step 0.5",
                {in_a_sentence(Input(std::string(text)))}});
    };
    Interval range;
    const auto space = text.find(' ');
    if (space == std::string_view::npos) wrong();
    range.name = text.substr(0, space);
    std::string_view rest = trimmed(text.substr(space));
    const auto low = take_number(rest, reading);
    rest = trimmed(rest);
    if (!low || !rest.starts_with("to ")) wrong();
    rest = trimmed(rest.substr(3));
    const auto high = take_number(rest, reading);
    rest = trimmed(rest);
    if (!high || *high < *low) wrong();
    const double largest = std::max(std::abs(*low), std::abs(*high));
    range.low = *low;
    range.step = largest > 0 ? std::pow(10, std::floor(std::log10(largest)) - digits + 1) : 1;
    if (rest.starts_with("step ")) {
        rest = trimmed(rest.substr(5));
        const auto step = take_number(rest, reading);
        if (!step || *step <= 0) wrong();
        range.step = *step;
    }
    if (!trimmed(rest).empty()) wrong();
    range.steps = static_cast<std::uint64_t>((*high - *low) / range.step + 1e-9);
    return range;
}

double read_amount(std::string_view column, const std::string& cell, double otherwise, double low,
                   double high, const Reading& reading) {
    std::string_view rest = trimmed(cell);
    if (rest.empty()) return otherwise;
    const auto value = take_number(rest, reading);
    if (!value || !trimmed(rest).empty() || *value < low || *value > high)
        refuse(column, {"{} is no number from {} to {}", {in_a_sentence(Input(cell)), low, high}});
    return *value;
}

// A number as its range has it: no digit that was not drawn.
std::string as_drawn(double x, double step, const Reading& reading) {
    int decimals = 0;
    while (decimals < 9) {
        const double whole = step * std::pow(10, decimals);
        if (std::abs(whole - std::round(whole)) <= 1e-9 * whole) break;
        ++decimals;
    }
    std::array<char, 64> buffer{};
    const auto end =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), x, std::chars_format::fixed, decimals)
            .ptr;
    if (reading.decimal_comma) std::replace(buffer.data(), end, '.', ',');
    return {buffer.data(), end};
}

// SplitMix64 (Steele, Lea & Flood 2014): the same numbers from the same seed everywhere.
struct Numbers {
    std::uint64_t state;
    std::uint64_t next() {
        std::uint64_t z = (state += 0x9e3779b97f4a7c15);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111eb;
        return z ^ (z >> 31U);
    }
};

double tolerance_around(const Function& function, double x) {
    return function.gives == Kind::temperature ? kRightKelvins : kRightRelative * std::abs(x);
}

Input input_of(const Term& term) {
    if (!term.number) return Input(term.after);
    if (trimmed(term.after).empty()) return Input(*term.number);
    return Input(in_words(*term.number, 12) + term.after);
}

// An exercise that comes with Drysheet has the key of its English row, whatever the language and the words.
std::uint64_t key_of(const ExerciseRow& row) {
    const auto known = std::ranges::find_if(exercise_rows(), [&row](const ExerciseRow& own) {
        return std::ranges::all_of(
            kDrawnFrom, [&](std::size_t i) { return cell_of(own, i) == trimmed(cell_of(row, i)); });
    });
    const ExerciseRow& english = known == exercise_rows().end() ? row : *known;
    std::uint64_t key = 0;
    for (std::size_t i = 0; i < kExerciseColumns; ++i) {
        if (kHeader.at(i) == "Points" || kHeader.at(i) == "Hints")
            continue;  // the numbers do not hang on them
        key = hash_of(trimmed(cell_of(english, i)), key + i);
    }
    return key;
}

// The names of a text, each passed with its place.
template <class Found>
void names_in(std::string_view text, const Found& found) {
    for (auto at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1)) {
        const auto close = text.find('}', at);
        if (close == std::string_view::npos) refuse("text", "a { has no }");
        found(text.substr(at + 1, close - at - 1));
    }
}

}  // namespace

std::span<const std::string_view> exercise_header() { return kHeader; }

std::string& cell_of(ExerciseRow& row, std::size_t column) {
    static constexpr std::array kCells{
        &ExerciseRow::lesson,    &ExerciseRow::text,      &ExerciseRow::function,
        &ExerciseRow::arguments, &ExerciseRow::ranges,    &ExerciseRow::digits,
        &ExerciseRow::points,    &ExerciseRow::answer_in, &ExerciseRow::hints};
    return row.*kCells.at(column);
}

std::string words_of_row(std::string_view words, const Reading& reading) {
    const std::string_view own = trimmed(words);
    if (reading.texts == nullptr || reading.texts->language() == "en") return std::string(own);
    const std::optional<std::string> translated = reading.texts->of(own, own);
    return translated ? formula_in_words(*translated, reading) : std::string(own);
}

std::uint64_t hash_of(std::string_view text, std::uint64_t start) {
    std::uint64_t hash = start;  // FNV-1a
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3;
    return Numbers{hash}.next();  // every bit from every byte
}

Exercise read_exercise(const ExerciseRow& row, const Reading& reading) {
    Exercise made;
    made.lesson = words_of_row(row.lesson, reading);
    made.text = words_of_row(row.text, reading);
    if (made.text.empty()) refuse("text", "is missing");
    made.function = find_function(trimmed(row.function));
    if (made.function == nullptr)
        refuse("function", {"there is no function {}", {in_a_sentence(Input(row.function))}});
    if (made.function->raw || !made.function->scalar)
        refuse("function", {"DRY.{} gives no single number", {made.function->name}});
    const int digits = static_cast<int>(read_amount("digits", row.digits, 3, 1, 9, reading));
    made.points = read_amount("points", row.points, 1, 0, 1000, reading);
    made.answer_in = trimmed(row.answer_in);
    if (!made.answer_in.empty()) {
        const auto unit = read_unit(made.answer_in);
        const auto own = read_unit(made.function->result_unit);
        if (!unit || !own || unit->dimension != own->dimension)
            refuse("answer in", {"{} is no unit of what DRY.{} gives",
                                 {in_a_sentence(Input(made.answer_in)), made.function->name}});
    }
    const std::string hints = words_of_row(row.hints, reading);
    for (const std::string_view hint : parted(hints, '|'))
        if (!hint.empty()) made.hints.emplace_back(hint);
    if (!trimmed(row.ranges).empty())
        for (const std::string_view range : parted(row.ranges, ';'))
            if (!range.empty()) made.ranges.push_back(read_range(range, digits, reading));
    const auto known = [&made](std::string_view column, std::string_view name) {
        if (std::ranges::find(made.ranges, name, &Interval::name) == made.ranges.end())
            refuse(column, {"{} has no range", {in_a_sentence(Input(std::string(name)))}});
    };
    names_in(made.text, [&](std::string_view name) { known("text", name); });
    for (const std::string_view argument : parted(row.arguments, ';')) {
        std::vector<Term>& terms = made.arguments.emplace_back();
        for (const std::string_view term : parted(argument, '|')) {
            terms.push_back(read_term(term, reading));
            if (!terms.back().name.empty()) known("arguments", terms.back().name);
        }
        if (terms.size() > 1 && std::ranges::any_of(terms, [](const Term& term) {
                return (term.number || !term.name.empty()) && !term.after.empty();
            }))
            refuse("arguments", "a range takes plain numbers, without units");
    }
    made.key = key_of(row);
    return made;
}

bool well_apart(const Function& function, double right, std::span<const Slip> slips) {
    const auto apart = [&](double a, double b) {
        return std::abs(a - b) > 3 * std::max(tolerance_around(function, a), tolerance_around(function, b));
    };
    for (std::size_t i = 0; i < slips.size(); ++i) {
        if (!apart(slips[i].answer, right)) return false;
        for (std::size_t j = 0; j < i; ++j)
            if (!apart(slips[i].answer, slips[j].answer)) return false;
    }
    return true;
}

Drawn draw(const Exercise& exercise, std::uint64_t seed, const Reading& reading) {
    const Function& function = *exercise.function;
    Numbers random{seed ^ exercise.key};
    std::optional<Refusal> last;
    for (int tries = exercise.ranges.empty() ? 1 : kDraws; tries > 0; --tries) {
        Drawn made;
        made.exercise = &exercise;
        for (const Interval& range : exercise.ranges) {
            const double drawn =
                range.low + range.step * static_cast<double>(random.next() % (range.steps + 1));
            const std::string shown = in_words(drawn, 12);  // no digit that is not shown
            std::from_chars(shown.data(), shown.data() + shown.size(), made.numbers[range.name]);
        }
        made.arguments = exercise.arguments;
        for (std::vector<Term>& argument : made.arguments) {
            for (Term& term : argument)
                if (!term.name.empty())
                    term.number = (term.sign.empty() ? 1 : -1) * made.numbers.at(term.name);
            std::vector<Input> cells(argument.size());
            std::ranges::transform(argument, cells.begin(), input_of);
            made.given.push_back(cells.size() == 1 ? cells.front() : Input(std::move(cells)));
        }
        try {
            const Call call = read(function, made.given, Reading{});
            made.right = std::get<double>(value(call));
            made.unit = call.result_unit();
            if (made.right == 0 || !well_apart(function, made.right, slips(call))) continue;
        } catch (const Refusal& refusal) {
            last = refusal;
            continue;
        }
        made.text = exercise.text;
        for (const Interval& range : exercise.ranges) {
            const std::string name = "{" + range.name + "}";
            for (auto at = made.text.find(name); at != std::string::npos; at = made.text.find(name, at))
                made.text.replace(at, name.size(),
                                  as_drawn(made.numbers.at(range.name), range.step, reading));
        }
        return made;
    }
    if (last)
        refuse("ranges",
               {"no numbers from them could be drawn; {}", {Sentence::Part(last->written(reading))}});
    refuse("ranges",
           "no numbers from them leave every usual slip more than three tolerances from the right answer and "
           "from the others");
}

}  // namespace drysheet
