// SPDX-License-Identifier: MPL-2.0
// The exercises of every lesson: for 120 names no slip earns right, and no right answer is called anything
// else.
#include <gtest/gtest.h>

#include <array>
#include <charconv>
#include <cmath>
#include <set>

#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/refusal.hpp"
#include "addin/call/working.hpp"
#include "addin/lesson/desk.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr int kStudents = 120;
std::string student(int number) { return "student " + std::to_string(number); }

// As a student writes it: so many digits, in the unit that is asked for.
std::string number(double x, int digits) { return in_words(x, digits); }
double in_asked_unit(const Drawn& drawn, double x) {
    const Exercise& exercise = *drawn.exercise;
    if (exercise.answer_in.empty()) return x;
    return read_unit(exercise.answer_in)->from_si(read_unit(drawn.unit)->to_si(x));
}
std::string marked(const Drawn& drawn, const std::string& typed) {
    return drysheet::written(mark_call(answer_in_unit(*drawn.exercise, typed),
                                       read(*drawn.exercise->function, drawn.given, Reading{})));
}

TEST(Lessons, NoSlipOfAnyStudentIsRightAndNoRightAnswerIsNot) {
    int slips_marked = 0, right_marked = 0, slips_right = 0, right_wrong = 0, not_named = 0;
    for (const ExerciseRow& row : exercise_rows()) {
        const Exercise exercise = read_exercise(row);
        for (int i = 0; i < kStudents; ++i) {
            const Drawn drawn = draw(exercise, hash_of(student(i)));
            const Call call = read(*exercise.function, drawn.given, Reading{});
            const std::vector<Slip> usual = slips(call);
            EXPECT_GE(usual.size(), 3u) << drawn.text;
            EXPECT_TRUE(well_apart(*exercise.function, drawn.right, usual)) << drawn.text;
            for (const int digits : {3, 4, 6, 15}) {
                if (exercise.function->gives == Kind::temperature && digits == 3) continue;
                ++right_marked;
                const std::string mark = marked(drawn, number(in_asked_unit(drawn, drawn.right), digits));
                if (mark != "right") {
                    ++right_wrong;
                    ADD_FAILURE() << drawn.text << " " << mark;
                }
            }
            for (const Slip& slip : usual) {
                ++slips_marked;
                const std::string mark = marked(drawn, number(in_asked_unit(drawn, slip.answer), 4));
                if (mark == "right") ++slips_right;
                if (mark != drysheet::written(slip.sentence)) {
                    ++not_named;
                    ADD_FAILURE() << drawn.text << "\n"
                                  << mark << " for " << drysheet::written(slip.sentence);
                }
            }
        }
    }
    EXPECT_EQ(slips_right, 0);
    EXPECT_EQ(right_wrong, 0);
    EXPECT_EQ(not_named, 0);
    RecordProperty("slips", slips_marked);
    std::cout << slips_marked << " slips, " << slips_right << " called right; " << right_marked
              << " right answers, " << right_wrong << " called wrong\n";
}

TEST(Lessons, ThereAreSixOfAtLeastFiveWithAStoryAndHintsInSteps) {
    std::map<std::string, int> count;
    std::set<std::uint64_t> keys;
    std::set<std::string> stories;
    for (const ExerciseRow& row : exercise_rows()) {
        const Exercise exercise = read_exercise(row);
        ++count[exercise.lesson];
        stories.insert(story_of(exercise.lesson, {}));
        EXPECT_TRUE(keys.insert(exercise.key).second) << exercise.text;
        EXPECT_GE(exercise.hints.size(), 2u) << exercise.text;
        EXPECT_FALSE(story_of(exercise.lesson, {}).empty()) << exercise.lesson;
        EXPECT_GE(exercise.ranges.size(), 1u);
    }
    EXPECT_EQ(count.size(), 6u);
    EXPECT_EQ(stories.size(), 6u) << "each its own";
    EXPECT_EQ(story_of("A lecturer's own", {}), "");
    EXPECT_GE(exercise_rows().size(), 30u);
    for (const auto& [lesson, exercises] : count) EXPECT_GE(exercises, 5) << lesson;
}

TEST(Lessons, EveryStudentHasNumbersOfTheirOwnAndKeepsThem) {
    for (const ExerciseRow& row : exercise_rows()) {
        const Exercise exercise = read_exercise(row);
        std::set<std::string> texts;
        for (int i = 0; i < 30; ++i) {
            const Drawn drawn = draw(exercise, hash_of(student(i)));
            EXPECT_EQ(draw(exercise, hash_of(student(i))).text, drawn.text);
            EXPECT_EQ(drawn.text.find('{'), std::string::npos) << drawn.text;
            texts.insert(drawn.text);
        }
        EXPECT_GE(texts.size(), 25u) << row.text;
    }
}

TEST(Lessons, ByHand) {
    const Exercise exercise = read_exercise(exercise_rows()[3]);
    ASSERT_EQ(exercise.function->name, "DRIEDMASS");
    const Drawn drawn = draw(exercise, 7);
    const double fresh = drawn.numbers.at("fresh"), start = drawn.numbers.at("start"),
                 final = drawn.numbers.at("final");
    // solids in = solids out, in kg
    EXPECT_NEAR(in_asked_unit(drawn, drawn.right), fresh * (100 - start) / (100 - final), 1e-9);
    EXPECT_NE(drawn.text.find(in_words(start, 3)), std::string::npos) << drawn.text;
}

TEST(Lessons, ARowOfALecturersOwnIsAnExerciseLikeTheOthers) {
    const ExerciseRow row{"Own",
                          "{a} g of mango hold {m} % water. How many grams of water?",
                          "watermass",
                          "{a} g; {m} %",
                          "a 200 to 900; m 75 to 86 step 0.5",
                          "2",
                          "3",
                          "",
                          "Water is a share of it."};
    const Exercise exercise = read_exercise(row);
    const Drawn drawn = draw(exercise, hash_of("Asha"));
    EXPECT_NEAR(drawn.right, drawn.numbers.at("a") * drawn.numbers.at("m") / 100, 1e-9);
    EXPECT_EQ(std::fmod(drawn.numbers.at("a"), 10), 0) << "two digits of some hundreds";
    EXPECT_EQ(exercise.points, 3);
    EXPECT_EQ(marked(drawn, number(drawn.right, 5)), "right");
    EXPECT_EQ(marked(drawn, number(drawn.numbers.at("a") - drawn.right, 5)),
              "the dry solids were taken for the water");
}

TEST(Lessons, WithADecimalComma) {
    ExerciseRow row{"",    "{a} g", "WATERMASS", "{a} g; {m} %", "a 2,5 to 9,5 step 0,5; m 75 to 86", "",
                    "0,5", "",      ""};
    const Reading comma{.decimal_comma = true};
    const Exercise exercise = read_exercise(row, comma);
    EXPECT_EQ(exercise.points, 0.5);
    const Drawn drawn = draw(exercise, 1, comma);
    EXPECT_NE(drawn.text.find(','), std::string::npos) << drawn.text;
    EXPECT_THROW(read_exercise(row), Refusal);
}

TEST(Lessons, ARowThatIsNoneIsRefusedNamingItsColumn) {
    const ExerciseRow good{"", "{a} g", "WATERMASS", "{a} g; 80 %", "a 2 to 9", "", "", "", ""};
    EXPECT_NO_THROW(read_exercise(good));
    const auto refused = [&](std::string ExerciseRow::*cell, const char* content) {
        ExerciseRow row = good;
        row.*cell = content;
        try {
            read_exercise(row);
        } catch (const Refusal& refusal) {
            return refusal.argument();
        }
        return std::string("none");
    };
    EXPECT_EQ(refused(&ExerciseRow::text, " "), "text");
    EXPECT_EQ(refused(&ExerciseRow::text, "{b} g"), "text");
    EXPECT_EQ(refused(&ExerciseRow::text, "{a g"), "text");
    EXPECT_EQ(refused(&ExerciseRow::function, "NOSUCH"), "function");
    EXPECT_EQ(refused(&ExerciseRow::function, "STAGES"), "function");
    EXPECT_EQ(refused(&ExerciseRow::function, "MARK"), "function");
    EXPECT_EQ(refused(&ExerciseRow::arguments, "{b} g; 80 %"), "arguments");
    EXPECT_EQ(refused(&ExerciseRow::arguments, "1 g | 2 g"), "arguments");
    for (const char* range :
         {"a", "a 2", "a 2 to", "a 9 to 2", "a 2 to 9 step 0", "a 2 to 9 or so", "a x to y"})
        EXPECT_EQ(refused(&ExerciseRow::ranges, range), "ranges") << range;
    EXPECT_EQ(refused(&ExerciseRow::digits, "many"), "digits");
    EXPECT_EQ(refused(&ExerciseRow::points, "-1"), "points");
    EXPECT_EQ(refused(&ExerciseRow::answer_in, "spoons"), "answer in");
    EXPECT_EQ(refused(&ExerciseRow::answer_in, "h"), "answer in");
}

TEST(Lessons, RangesThatLeaveNoNumbersAreSaid) {
    // a moisture of 1 % is the same to 1 % on both bases
    const Exercise close = read_exercise({"", "{m}", "DRYBASIS", "{m} %", "m 1 to 2", "", "", "", ""});
    EXPECT_THROW(draw(close, 1), Refusal);
    const Exercise impossible =
        read_exercise({"", "{m}", "DRYBASIS", "{m} %", "m 120 to 130", "", "", "", ""});
    try {
        draw(impossible, 1);
        ADD_FAILURE();
    } catch (const Refusal& refusal) {
        EXPECT_EQ(refusal.argument(), "ranges");
        EXPECT_NE(std::string(refusal.what()).find("moisture: "), std::string::npos) << refusal.what();
    }
}

}  // namespace
}  // namespace drysheet
