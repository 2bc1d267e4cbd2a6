// SPDX-License-Identifier: MPL-2.0
#include "addin/lesson/desk.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "addin/call/answer.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/refusal.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/texts.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::size_t kLongestName = 80;
constexpr std::size_t kSame = 2;  // so many answers in common are no chance

// Words of the desk in the reader's language.
std::string word(const Reading& reading, std::string_view english,
                 std::initializer_list<std::string_view> values = {}) {
    static const Texts english_texts;
    return (reading.texts != nullptr ? *reading.texts : english_texts).word(english, values);
}

std::string without_odd_spaces(const std::string& text) {
    std::string storage, tidy;
    for (const char c : plain_spaces(text, storage)) {
        const bool space = c == ' ' || (c >= 0 && c < ' ');
        if (!space)
            tidy += c;
        else if (!tidy.empty() && tidy.back() != ' ')
            tidy += ' ';
    }
    if (tidy.ends_with(' ')) tidy.pop_back();
    return tidy;
}

std::string file_name(const std::string& name) {
    std::string file = name.substr(0, kLongestName);
    while (!file.empty() && file.size() < name.size() &&
           (static_cast<unsigned char>(name[file.size()]) & 0xc0U) == 0x80)
        file.pop_back();  // no letter cut in two
    for (char& c : file)
        if (std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos) c = '_';
    while (file.ends_with('.') || file.ends_with(' ')) file.pop_back();
    if (file.starts_with('.') || file.starts_with('~')) file.insert(file.begin(), '_');
    return file.empty() ? "_" : file;
}

std::string sealed(const ClassLesson& lesson, const Handout& handout) {
    std::uint64_t hash = hash_of(handout.name, hash_of(lesson.word));
    for (const Drawn& drawn : handout.exercises)
        for (const auto& [name, number] : drawn.numbers)
            hash = hash_of(key_text(*drawn.exercise) + name + in_words(number, 12), hash);
    constexpr std::string_view letters = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";  // none that looks like another
    std::string seal;
    for (int i = 0; i < 8; ++i, hash >>= 5U)
        seal += (i == 4 ? "-" : "") + std::string(1, letters[hash & 31U]);
    return seal;
}

// One exercise of one file.
struct Graded {
    std::string said;  ///< for the table
    double points = 0;
    bool tried = false, right = false;
    std::string slip;               ///< of the last try, where it was not right
    std::optional<double> typed{};  ///< the last readable answer, in the unit it is wanted in
};

Graded grade(const ClassLesson& lesson, const Drawn& drawn, const AnswerFile::Row& row, const Reading& marks,
             const Reading& reading, std::vector<std::string>& notes, std::string_view number) {
    Graded graded;
    double share = drawn.exercise->points;
    std::size_t tries = 0;
    const Call call = read(*drawn.exercise->function, drawn.given, Reading{});
    for (const Input& typed : row.answers) {
        if (typed.blank()) continue;
        const Input input = answer_in_unit(*drawn.exercise, typed);
        std::optional<Answer> answer;
        Sentence mark;
        // a file may come from an office with the other decimal sign
        for (const bool comma : {marks.decimal_comma, !marks.decimal_comma}) {
            try {
                const Call asked{.function = call.function,
                                 .typed = call.typed,
                                 .reading = Reading{.decimal_comma = comma},
                                 .values = call.values,
                                 .left_out = call.left_out,
                                 .masses_as_given = call.masses_as_given};
                answer = read_answer("answer", input, asked.reading);
                mark = mark_call(input, asked);
                break;
            } catch (const Refusal&) {
                answer.reset();
            }
        }
        if (!answer) {
            notes.push_back(word(reading, "exercise {}: {} could not be read",
                                 {number, written(in_a_sentence(typed), reading)}));
            continue;
        }
        graded.tried = true;
        ++tries;
        graded.typed = answer->unit && answer->unit->dimension != Dimension{}
                           ? answer->unit->to_si(answer->value)
                           : answer->value;
        if (mark.form == kRight) {
            graded.right = true;
            graded.points = share;
            graded.said = tries == 1 ? word(reading, "right")
                                     : word(reading, "right at try {}", {std::to_string(tries)});
            return graded;
        }
        graded.slip = graded.said = written(mark, reading);
        share *= lesson.later;
    }
    return graded;
}

struct File {
    const AnswerFile* of = nullptr;
    std::map<std::string, Graded> by_key;
    std::vector<std::string> notes, same;
    double points = 0;
};

// Answers that one file has in common with another, where the first one's are not right for its own numbers.
std::size_t in_common(const ClassLesson& lesson, const File& file, const File& other) {
    std::size_t count = 0;
    for (const Exercise& exercise : lesson.exercises) {
        if (exercise.function->count) continue;  // whole numbers meet by chance
        const auto a = file.by_key.find(key_text(exercise)), b = other.by_key.find(key_text(exercise));
        if (a == file.by_key.end() || b == other.by_key.end() || a->second.right || !a->second.typed ||
            !b->second.typed)
            continue;
        if (std::abs(*a->second.typed - *b->second.typed) <= 1e-9 * std::abs(*a->second.typed)) ++count;
    }
    return count;
}

std::string joined(const std::vector<std::string>& all, std::string_view by) {
    std::string text;
    for (const std::string& one : all) text.append(text.empty() ? std::string_view{} : by).append(one);
    return text;
}

Table table_of(const ClassLesson& lesson, const std::vector<File>& files) {
    Table table{.columns = lesson.exercises.size() + 6, .cells = {"Name", "File", "Points", "Of"}};
    double of = 0;
    for (std::size_t i = 0; i < lesson.exercises.size(); ++i) {
        of += lesson.exercises[i].points;
        table.cells.emplace_back(lesson.exercises[i].lesson + " " + std::to_string(i + 1));
    }
    for (const char* last : {"Same as", "Note"}) table.cells.emplace_back(std::string(last));
    for (const File& file : files) {
        for (const Cell& cell : {Cell(file.of->name), Cell(file.of->file), Cell(file.points), Cell(of)})
            table.cells.push_back(cell);
        for (const Exercise& exercise : lesson.exercises) {
            const auto found = file.by_key.find(key_text(exercise));
            table.cells.emplace_back(found == file.by_key.end() ? std::string() : found->second.said);
        }
        table.cells.emplace_back(joined(file.same, ", "));
        table.cells.emplace_back(joined(file.notes, "; "));
    }
    return table;
}

Table histogram_of(const ClassLesson& lesson, const std::vector<File>& files) {
    constexpr std::size_t bins = 10;
    double of = 0;
    for (const Exercise& exercise : lesson.exercises) of += exercise.points;
    std::array<std::size_t, bins> count{};
    for (const File& file : files)
        if (of > 0)
            ++count.at(
                std::min(bins - 1, static_cast<std::size_t>(std::max(0.0, bins * file.points / of + 1e-9))));
    Table table{.columns = 3, .cells = {"Points", "Files", ""}};
    for (std::size_t i = 0; i < bins; ++i) {
        std::string bar;
        for (std::size_t k = 0; k < count.at(i); ++k) bar += "█";
        table.cells.emplace_back(std::to_string(10 * i) + " – " + std::to_string(10 * (i + 1)) + " %");
        table.cells.emplace_back(static_cast<double>(count.at(i)));
        table.cells.emplace_back(bar);
    }
    return table;
}

Table exercises_of(const ClassLesson& lesson, const std::vector<File>& files) {
    Table table{.columns = 5, .cells = {"Exercise", "Right", "Tried", "Most often", "Times"}};
    for (std::size_t i = 0; i < lesson.exercises.size(); ++i) {
        double right = 0, tried = 0;
        std::map<std::string, std::size_t> slips;
        for (const File& file : files) {
            const auto found = file.by_key.find(key_text(lesson.exercises[i]));
            if (found == file.by_key.end()) continue;
            right += found->second.right ? 1 : 0;
            tried += found->second.tried ? 1 : 0;
            // "close: 25.6 is 2.4 % off" is the same for all
            const std::string& slip = found->second.slip;
            if (!slip.empty() && !found->second.right) ++slips[slip.substr(0, slip.find(':'))];
        }
        const auto most = std::ranges::max_element(slips, {}, [](const auto& slip) { return slip.second; });
        for (const Cell& cell : {Cell(lesson.exercises[i].lesson + " " + std::to_string(i + 1)), Cell(right),
                                 Cell(tried), Cell(most == slips.end() ? std::string() : most->first),
                                 Cell(most == slips.end() ? 0.0 : static_cast<double>(most->second))})
            table.cells.push_back(cell);
    }
    return table;
}

}  // namespace

ClassLesson read_lesson(std::span<const ExerciseRow> rows, std::string_view only, const Reading& reading) {
    ClassLesson lesson;
    std::vector<std::string> wanted;
    for (std::size_t from = 0; from <= only.size();) {
        const auto comma = std::min(only.find(',', from), only.size());
        if (const auto name = trimmed(only.substr(from, comma - from)); !name.empty())
            wanted.push_back(lower(name));
        from = comma + 1;
    }
    std::size_t number = 1;
    for (const ExerciseRow& row : rows) {
        ++number;
        bool blank = true;
        for (std::size_t i = 0; i < kExerciseColumns; ++i) blank = blank && trimmed(cell_of(row, i)).empty();
        if (blank || (!wanted.empty() && std::ranges::none_of(wanted, [&](const std::string& name) {
                return name == lower(trimmed(row.lesson)) || name == lower(words_of_row(row.lesson, reading));
            })))
            continue;
        try {
            Exercise exercise = read_exercise(row, reading);
            if (std::ranges::find(lesson.exercises, exercise.key, &Exercise::key) != lesson.exercises.end())
                lesson.said.push_back(
                    word(reading, "row {}: the same as one above", {std::to_string(number)}));
            else
                lesson.exercises.push_back(std::move(exercise));
        } catch (const Refusal& refusal) {
            lesson.said.push_back(
                word(reading, "row {}: {}", {std::to_string(number), refusal.written(reading)}));
        }
    }
    return lesson;
}

Students read_names(std::span<const Input> cells, const Reading& reading) {
    Students students;
    std::vector<std::string> taken, files;
    for (const Input& cell : cells) {
        if (cell.blank()) continue;
        const std::string name =
            without_odd_spaces(cell.form == Input::Form::number ? in_words(cell.number, 15) : cell.text);
        if (name.empty()) continue;
        if (std::ranges::find(taken, lower(name)) != taken.end()) {
            students.said.push_back(word(reading, "{} stands twice in the list", {name}));
            continue;
        }
        taken.push_back(lower(name));
        const std::string wanted = file_name(name);
        std::string file = wanted;
        for (int i = 2; std::ranges::find(files, lower(file)) != files.end(); ++i)
            file = wanted + " " + std::to_string(i);
        files.push_back(lower(file));
        students.all.push_back({name, file});
    }
    return students;
}

Handout hand_out(const ClassLesson& lesson, const std::string& name, const Reading& reading) {
    Handout made;
    made.name = name;
    const std::uint64_t seed = hash_of(name, hash_of(lesson.word));
    for (const Exercise& exercise : lesson.exercises) {
        try {
            made.exercises.push_back(draw(exercise, seed, reading));
        } catch (const Refusal& refusal) {
            made.said.push_back(exercise.text.substr(0, 40) + " …: " + refusal.written(reading));
        }
    }
    made.seal = sealed(lesson, made);
    return made;
}

Input answer_in_unit(const Exercise& exercise, const Input& typed) {
    if (exercise.answer_in.empty() || typed.blank()) return typed;
    return (typed.form == Input::Form::number ? in_words(typed.number, 15) : typed.text) + " " +
           exercise.answer_in;
}

std::string key_text(const Exercise& exercise) {
    std::string text;
    for (std::uint64_t key = exercise.key; text.size() < 16; key >>= 4U)
        text += "0123456789abcdef"[key & 15U];
    return text;
}

ClassResult collect(const ClassLesson& lesson, std::span<const AnswerFile> files,
                    std::span<const Student> names, const Reading& reading) {
    std::vector<File> read;
    std::map<std::string, std::string> first_with;  // of each name, the file
    for (const AnswerFile& answers : files) {
        File& file = read.emplace_back();
        file.of = &answers;
        file.notes = answers.notes;
        if (answers.rows.empty()) continue;
        const Handout own = hand_out(lesson, answers.name, reading);
        if (own.seal != answers.seal)
            file.notes.push_back(word(reading,
                                      "the seal is not that of this name and these exercises: a copied file, "
                                      "or the lesson was changed"));
        if (!names.empty() && std::ranges::find(names, answers.name, &Student::name) == names.end())
            file.notes.push_back(word(reading, "the name is not in the list"));
        if (const auto [first, is_new] = first_with.emplace(answers.name, answers.file); !is_new)
            file.notes.push_back(word(reading, "{} has this name too", {first->second}));
        const Reading marks{.decimal_comma = answers.decimal_comma};
        std::size_t strange = 0;
        for (const AnswerFile::Row& row : answers.rows) {
            const auto drawn = std::ranges::find(own.exercises, row.key,
                                                 [](const Drawn& one) { return key_text(*one.exercise); });
            if (drawn == own.exercises.end()) {
                ++strange;
                continue;
            }
            std::size_t number = 1;
            while (&lesson.exercises[number - 1] != drawn->exercise) ++number;
            Graded graded = grade(lesson, *drawn, row, marks, reading, file.notes, std::to_string(number));
            file.points += graded.points;
            file.by_key.insert_or_assign(row.key, std::move(graded));
        }
        if (strange > 0)
            file.notes.push_back(
                word(reading, "exercises that this lesson does not have: {}", {std::to_string(strange)}));
    }
    ClassResult made;
    for (File& file : read) {
        for (const File& other : read)
            if (&file != &other &&
                std::max(in_common(lesson, file, other), in_common(lesson, other, file)) >= kSame)
                file.same.push_back(other.of->file);
        made.noted += file.notes.empty() ? 0 : 1;
    }
    made.files = read.size();
    made.table = table_of(lesson, read);
    made.histogram = histogram_of(lesson, read);
    made.exercises = exercises_of(lesson, read);
    return made;
}

}  // namespace drysheet
