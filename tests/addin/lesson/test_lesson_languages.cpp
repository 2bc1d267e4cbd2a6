// SPDX-License-Identifier: MPL-2.0
// The lessons in the other languages: no English left in them, and the same numbers, seals and marks.
#include <gtest/gtest.h>

#include <array>
#include <regex>
#include <set>

#include "addin/call/mark.hpp"
#include "addin/lesson/desk.hpp"
#include "addin/lesson/lesson_book.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

class LessonsIn : public testing::TestWithParam<const char*> {
  protected:
    const Texts texts{std::string(DRYSHEET_TEXTS "/") + GetParam() + ".tsv"};
    const Reading reading{.decimal_comma = true, .texts = &texts};

    // As the workbook of lessons in this language has them.
    std::vector<ExerciseRow> rows() const {
        std::vector<ExerciseRow> all(exercise_rows().begin(), exercise_rows().end());
        for (ExerciseRow& row : all)
            for (std::string* words : {&row.lesson, &row.text, &row.hints})
                *words = words_of_row(*words, reading);
        return all;
    }
};
INSTANTIATE_TEST_SUITE_P(Languages, LessonsIn, testing::Values("de", "fr", "es"),
                         [](const auto& language) { return std::string(language.param); });

// What stands between the numbers and between the hints, where it has words.
std::vector<std::string> wordings(const std::string& english) {
    static const std::regex apart(R"(\{\w+\}| \| )"), words("[A-Za-z]{3,} [A-Za-z]{2,}");
    std::vector<std::string> all;
    for (std::sregex_token_iterator piece(english.begin(), english.end(), apart, -1), end; piece != end;
         ++piece)
        if (std::regex_search(piece->str(), words)) all.push_back(escaped_xml(piece->str()));
    return all;
}

std::multiset<std::string> names_in(const std::string& text) {
    static const std::regex name(R"(\{\w+\})");
    return {std::sregex_token_iterator(text.begin(), text.end(), name), std::sregex_token_iterator()};
}

std::string right_answer(const Drawn& drawn, const Reading& reading) {
    const std::string& unit = drawn.exercise->answer_in;
    return in_words(
        unit.empty() ? drawn.right : read_unit(unit)->from_si(read_unit(drawn.unit)->to_si(drawn.right)), 5,
        reading);
}

TEST_P(LessonsIn, TheClassBookHoldsNoEnglishQuestionHintOrStory) {
    constexpr std::array<std::string_view, 1> names{"Asha Rawat"};
    const std::string english = class_book(exercise_rows(), names, {}),
                      book = class_book(exercise_rows(), names, texts);
    for (const ExerciseRow& row : exercise_rows())
        for (const std::string& text : {row.text, row.hints, story_of(row.lesson, {})})
            for (const std::string& wording : wordings(text)) {
                EXPECT_NE(english.find(wording), std::string::npos) << wording;
                EXPECT_EQ(book.find(wording), std::string::npos) << wording;
            }
    for (const ExerciseRow& row : exercise_rows()) {  // what a program reads is the same in every language
        EXPECT_NE(book.find(escaped_xml(row.ranges)), std::string::npos) << row.ranges;
        EXPECT_NE(book.find(escaped_xml(row.arguments)), std::string::npos) << row.arguments;
        EXPECT_EQ(story_of(row.lesson, texts), story_of(texts.text(row.lesson), texts));
        EXPECT_FALSE(story_of(row.lesson, texts).empty());
    }
    EXPECT_NE(book.find("\"class_names\" table:base-cell-address=\"$'" + texts.text("Class") +
                        "'.$A$1\" table:cell-range-address=\"$'" + texts.text("Class") + "'.$A$13:$A$72\""),
              std::string::npos);
    for (const ExerciseRow& row : rows()) {
        EXPECT_NE(book.find("table:name=\"" + row.lesson + "\""), std::string::npos) << row.lesson;
        const auto first = book.find("<text:p>" + row.lesson + "</text:p>");  // in the list of exercises,
        EXPECT_LT(first, book.find("table:name=\"" + row.lesson + "\""));  // which stands before the lesson
        EXPECT_NE(book.find(escaped_xml(row.text)), std::string::npos) << row.text;
        EXPECT_NE(book.find(escaped_xml(story_of(row.lesson, texts))), std::string::npos) << row.lesson;
    }
}

TEST_P(LessonsIn, TheSameNumbersTheSameAnswersAreRight) {
    const std::vector<ExerciseRow> translated = rows();
    for (std::size_t i = 0; i < translated.size(); ++i) {
        const ExerciseRow& row = exercise_rows()[i];
        EXPECT_NE(translated[i].text, row.text);
        EXPECT_EQ(names_in(translated[i].text), names_in(row.text)) << translated[i].text;
        const Exercise english = read_exercise(row);
        // an English workbook in this office, one of this language here and in an English office
        for (const Exercise& exercise : {read_exercise(row, reading), read_exercise(translated[i], reading),
                                         read_exercise(translated[i])}) {
            EXPECT_EQ(exercise.text, translated[i].text);
            EXPECT_EQ(exercise.key, english.key) << row.text;
            EXPECT_EQ(exercise.hints.size(), english.hints.size()) << row.hints;
            for (const std::uint64_t seed : {1U, 2U, 3U}) {
                const Drawn one = draw(english, seed), other = draw(exercise, seed, reading);
                EXPECT_EQ(other.numbers, one.numbers);
                EXPECT_EQ(other.right, one.right);
                EXPECT_FALSE(std::regex_search(other.text, std::regex(R"(\d\.\d|[{}])"))) << other.text;
                const Input typed = answer_in_unit(exercise, Input(right_answer(one, reading)));
                EXPECT_EQ(mark_call(typed, read(*exercise.function, other.given, reading)).form, kRight)
                    << other.text;
            }
        }
    }
}

TEST_P(LessonsIn, AFileOfAnyLanguageIsCollectedInAnyOther) {
    const Reading point{};
    ClassLesson english = read_lesson(exercise_rows(), {}, point), own = read_lesson(rows(), {}, reading),
                moved = read_lesson(rows(), {}, point);
    for (ClassLesson* lesson : {&english, &own, &moved}) {
        EXPECT_TRUE(lesson->said.empty());
        lesson->word = "harvest";
    }
    const Handout handed = hand_out(own, "Asha", reading);
    EXPECT_EQ(handed.seal, hand_out(english, "Asha", point).seal);
    AnswerFile file{.file = "Asha.ods", .name = "Asha", .seal = handed.seal, .decimal_comma = true};
    for (const Drawn& drawn : handed.exercises)
        file.rows.push_back({key_text(*drawn.exercise), {Input(right_answer(drawn, reading))}});
    for (const auto& [lesson, office] : {std::pair(&english, &point), std::pair(&own, &reading),
                                         std::pair(&moved, &point), std::pair(&english, &reading)}) {
        const ClassResult result = collect(*lesson, std::vector{file}, {}, *office);
        EXPECT_EQ(result.noted, 0U);
        EXPECT_EQ(std::get<double>(result.table.at(1, 2)), std::get<double>(result.table.at(1, 3)));
    }
}

TEST_P(LessonsIn, LessonsAreChosenByTheirNameInEitherLanguage) {
    const std::string energy = texts.text("Energy");
    EXPECT_EQ(read_lesson(exercise_rows(), "energy, " + texts.text("Balances"), reading).exercises.size(),
              14U);
    EXPECT_EQ(read_lesson(rows(), energy, reading).exercises.size(), 5U);
}

}  // namespace
}  // namespace drysheet
