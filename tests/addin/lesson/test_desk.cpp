// SPDX-License-Identifier: MPL-2.0
// The class desk: names, seals, marking again, the class table and the workbooks' text; no office.
#include <gtest/gtest.h>

#include <algorithm>

#include "addin/lesson/desk.hpp"
#include "addin/lesson/lesson_book.hpp"
#include "addin/text/csv.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

const Reading kPoint{};

ClassLesson balances() {
    ClassLesson lesson = read_lesson(exercise_rows(), "balances", kPoint);
    lesson.word = "harvest";
    return lesson;
}

double in_asked_unit(const Drawn& drawn, double x) {
    const Exercise& exercise = *drawn.exercise;
    if (exercise.answer_in.empty()) return x;
    return read_unit(exercise.answer_in)->from_si(read_unit(drawn.unit)->to_si(x));
}

AnswerFile blank_file(const Handout& handout) {
    AnswerFile file{.file = handout.name + ".ods", .name = handout.name, .seal = handout.seal};
    for (const Drawn& drawn : handout.exercises)
        file.rows.push_back({key_text(*drawn.exercise), {Input(""), Input(""), Input("")}});
    return file;
}
AnswerFile right_file(const Handout& handout) {
    AnswerFile file = blank_file(handout);
    for (std::size_t i = 0; i < handout.exercises.size(); ++i)
        file.rows[i].answers[0] =
            in_words(in_asked_unit(handout.exercises[i], handout.exercises[i].right), 5);
    return file;
}

std::string text_at(const Table& table, std::size_t row, std::string_view column) {
    for (std::size_t i = 0; i < table.columns; ++i)
        if (std::get<std::string>(table.at(0, i)) == column) return std::get<std::string>(table.at(row, i));
    ADD_FAILURE() << column;
    return {};
}
double number_at(const Table& table, std::size_t row, std::string_view column) {
    for (std::size_t i = 0; i < table.columns; ++i)
        if (std::get<std::string>(table.at(0, i)) == column) return std::get<double>(table.at(row, i));
    ADD_FAILURE() << column;
    return 0;
}

TEST(Desk, LessonsAreChosenByName) {
    EXPECT_EQ(balances().exercises.size(), 9u);
    EXPECT_EQ(read_lesson(exercise_rows(), " Sorption, ENERGY ", kPoint).exercises.size(), 10u);
    EXPECT_EQ(read_lesson(exercise_rows(), "", kPoint).exercises.size(), exercise_rows().size());
}

TEST(Desk, RowsThatAreNoExerciseAreSaidAndLeftOut) {
    std::vector<ExerciseRow> rows(exercise_rows().begin(), exercise_rows().begin() + 2);
    rows.push_back({});
    rows.push_back({"Own", "?", "NOSUCH", "", "", "", "", "", ""});
    rows.push_back(rows[0]);
    const ClassLesson lesson = read_lesson(rows, "", kPoint);
    EXPECT_EQ(lesson.exercises.size(), 2u);
    ASSERT_EQ(lesson.said.size(), 2u);
    EXPECT_EQ(lesson.said[0], "row 5: function: there is no function \"NOSUCH\".");
    EXPECT_EQ(lesson.said[1], "row 6: the same as one above");
}

TEST(Desk, Names) {
    const std::vector<Input> cells{
        "Asha Rawat", "",  "  asha   rawat ", Input(), 20231234.0, "../../etc: a?", "a/b",
        "a:b",        "…", ".hidden",         "\t",    "Ünal Öz"};
    const Students students = read_names(cells, kPoint);
    std::vector<std::string> names, files;
    for (const Student& student : students.all) {
        names.push_back(student.name);
        files.push_back(student.file);
    }
    EXPECT_EQ(names, (std::vector<std::string>{"Asha Rawat", "20231234", "../../etc: a?", "a/b", "a:b", "…",
                                               ".hidden", "Ünal Öz"}));
    EXPECT_EQ(files, (std::vector<std::string>{"Asha Rawat", "20231234", "_.._.._etc_ a_", "a_b", "a_b 2",
                                               "…", "_.hidden", "Ünal Öz"}));
    EXPECT_EQ(students.said, std::vector<std::string>{"asha rawat stands twice in the list"});
    std::string longest;
    for (int i = 0; i < 90; ++i) longest += "ö";
    const Students one = read_names(std::vector<Input>{longest}, kPoint);
    EXPECT_EQ(one.all.at(0).file.size(), 80u);
}

TEST(Desk, TheSealFitsOneNameOneWordAndThoseNumbers) {
    ClassLesson lesson = balances();
    const Handout asha = hand_out(lesson, "Asha", kPoint);
    EXPECT_EQ(asha.seal.size(), 9u);
    EXPECT_EQ(hand_out(lesson, "Asha", kPoint).seal, asha.seal);
    EXPECT_NE(hand_out(lesson, "Dorje", kPoint).seal, asha.seal);
    lesson.word = "monsoon";
    EXPECT_NE(hand_out(lesson, "Asha", kPoint).seal, asha.seal);
    EXPECT_NE(hand_out(lesson, "Asha", kPoint).exercises[3].text, asha.exercises[3].text);
}

TEST(Desk, RightAnswersEarnEveryPointAndALaterTryLess) {
    const ClassLesson lesson = balances();
    const Handout asha = hand_out(lesson, "Asha", kPoint);
    AnswerFile file = right_file(asha);
    double of = 0;
    for (const Exercise& exercise : lesson.exercises) of += exercise.points;
    ClassResult result = collect(lesson, std::vector{file}, {}, kPoint);
    EXPECT_EQ(number_at(result.table, 1, "Points"), of);
    EXPECT_EQ(number_at(result.table, 1, "Of"), of);
    EXPECT_EQ(text_at(result.table, 1, "Note"), "");
    EXPECT_EQ(text_at(result.table, 1, "Balances 1"), "right");

    const Input right = file.rows[3].answers[0];  // of 2 points
    file.rows[3].answers = {Input("12345"), right, Input("")};
    result = collect(lesson, std::vector{file}, {}, kPoint);
    EXPECT_EQ(number_at(result.table, 1, "Points"), of - 1);
    EXPECT_EQ(text_at(result.table, 1, "Balances 4"), "right at try 2");
    file.rows[3].answers = {Input("12345"), Input("23456"), right};
    EXPECT_EQ(number_at(collect(lesson, std::vector{file}, {}, kPoint).table, 1, "Points"), of - 1.5);
    file.rows[3].answers = {Input("about a lot"), right, Input("")};  // no try: it could not be read
    result = collect(lesson, std::vector{file}, {}, kPoint);
    EXPECT_EQ(number_at(result.table, 1, "Points"), of);
    EXPECT_EQ(text_at(result.table, 1, "Note"), "exercise 4: \"about a lot\" could not be read");
}

TEST(Desk, SlipsAreNamedAndCounted) {
    const ClassLesson lesson = balances();
    std::vector<AnswerFile> files;
    for (const char* name : {"Asha", "Dorje", "Meera"}) {
        const Handout own = hand_out(lesson, name, kPoint);
        files.push_back(right_file(own));
        const auto& n = own.exercises[3].numbers;
        if (files.size() < 3)  // the percentages subtracted: kg
            files.back().rows[3].answers[0] =
                in_words(n.at("fresh") * (1 - (n.at("start") - n.at("final")) / 100), 5);
    }
    const ClassResult result = collect(lesson, files, {}, kPoint);
    EXPECT_EQ(text_at(result.table, 1, "Balances 4"), "the percentages were subtracted");
    EXPECT_EQ(std::get<std::string>(result.exercises.at(4, 3)), "the percentages were subtracted");
    EXPECT_EQ(std::get<double>(result.exercises.at(4, 1)), 1);
    EXPECT_EQ(std::get<double>(result.exercises.at(4, 2)), 3);
    EXPECT_EQ(std::get<double>(result.exercises.at(4, 4)), 2);
    EXPECT_EQ(std::get<double>(result.histogram.at(10, 1)), 1);  // 90 – 100 %
    EXPECT_EQ(std::get<double>(result.histogram.at(9, 1)), 2);   // 12 of 14 points
}

TEST(Desk, ACopiedFileShows) {
    const ClassLesson lesson = balances();
    const Handout asha = hand_out(lesson, "Asha", kPoint), dorje = hand_out(lesson, "Dorje", kPoint);
    AnswerFile honest = right_file(asha), copied = right_file(asha);
    copied.name = "Dorje";  // her file under his name
    copied.file = "Dorje.ods";
    AnswerFile answers_only = right_file(asha);  // his own file with her answers typed in
    answers_only.name = "Dorje";
    answers_only.seal = dorje.seal;
    answers_only.file = "Dorje too.ods";
    const std::vector<Student> names{{"Asha", "Asha"}, {"Dorje", "Dorje"}};
    const ClassResult result = collect(lesson, std::vector{honest, copied, answers_only}, names, kPoint);
    EXPECT_EQ(text_at(result.table, 1, "Same as"), "Dorje.ods, Dorje too.ods");
    EXPECT_NE(text_at(result.table, 2, "Note").find("the seal is not that of this name"), std::string::npos);
    EXPECT_LT(number_at(result.table, 2, "Points"), 3);
    EXPECT_EQ(text_at(result.table, 3, "Note"), "Dorje.ods has this name too");
    EXPECT_NE(text_at(result.table, 3, "Same as").find("Asha.ods"), std::string::npos);
    const ClassResult alone =
        collect(lesson, std::vector{right_file(asha), right_file(dorje)}, names, kPoint);
    EXPECT_EQ(text_at(alone.table, 1, "Same as"), "");
    EXPECT_EQ(text_at(alone.table, 2, "Same as"), "");
}

TEST(Desk, HonestWrongAnswersOfAWholeClassAreNotTakenForTheSame) {
    const ClassLesson lesson = balances();
    std::vector<AnswerFile> files;
    for (int i = 0; i < 30; ++i) {
        const Handout own = hand_out(lesson, "student " + std::to_string(i), kPoint);
        files.push_back(blank_file(own));
        for (std::size_t k = 0; k < own.exercises.size(); ++k) {  // each makes slips with numbers of its own
            const Call call = read(*own.exercises[k].exercise->function, own.exercises[k].given, Reading{});
            const std::vector<Slip> usual = slips(call);
            files.back().rows[k].answers[0] = in_words(
                in_asked_unit(own.exercises[k], usual[static_cast<std::size_t>(i) % usual.size()].answer), 4);
        }
    }
    const ClassResult result = collect(lesson, files, {}, kPoint);
    int same = 0;
    for (std::size_t row = 1; row <= files.size(); ++row) {
        EXPECT_EQ(number_at(result.table, row, "Points"), 0);
        same += text_at(result.table, row, "Same as").empty() ? 0 : 1;
    }
    EXPECT_LE(same, 2);
}

TEST(Desk, RubbishIsSaidAndNothingIsLost) {
    const ClassLesson lesson = balances();
    const Handout asha = hand_out(lesson, "Asha", kPoint);
    AnswerFile rubbish = right_file(asha);
    rubbish.rows[0].answers[0] = "=1+1";
    rubbish.rows[1].answers[0] = "12 %% of it";
    rubbish.rows[2].answers[0] = std::string("\x01\x02");
    rubbish.rows.push_back({"no such exercise", {Input(1.0)}});
    AnswerFile nothing{.file = "holiday.ods", .notes = {"it holds no lesson"}};
    const ClassResult result =
        collect(lesson, std::vector{rubbish, nothing}, std::vector<Student>{{"Meera", "Meera"}}, kPoint);
    const std::string note = text_at(result.table, 1, "Note");
    for (const char* said : {"exercise 1: \"=1+1\" could not be read", "exercise 2: ", "exercise 3: ",
                             "exercises that this lesson does not have: 1", "the name is not in the list"})
        EXPECT_NE(note.find(said), std::string::npos) << note;
    EXPECT_EQ(number_at(result.table, 1, "Points"), 11);
    EXPECT_EQ(text_at(result.table, 2, "Note"), "it holds no lesson");
    EXPECT_EQ(result.noted, 2u);
}

TEST(Desk, ANumberWithTheFilesOwnDecimalSignIsRead) {
    const ClassLesson lesson = balances();
    const Handout asha = hand_out(lesson, "Asha", kPoint);
    for (const bool comma : {true, false}) {
        AnswerFile file = right_file(asha);
        file.decimal_comma = comma;
        for (AnswerFile::Row& row : file.rows) std::ranges::replace(row.answers[0].text, '.', ',');
        EXPECT_EQ(number_at(collect(lesson, std::vector{file}, {}, kPoint).table, 1, "Points"), 14) << comma;
    }
}

TEST(Desk, Csv) {
    const Table table{.columns = 2, .cells = {"a, b", 1.5, std::string("said \"no\""), std::monostate{}}};
    EXPECT_EQ(csv(table), "\"a, b\",1.5\r\n\"said \"\"no\"\"\",\r\n");  // RFC 4180, 2.6 and 2.7
}

TEST(Desk, AStudentsWorkbookHoldsNothingOfTheLecturers) {
    const ClassLesson lesson = balances();
    const Handout asha = hand_out(lesson, "Asha <&> Rawat", kPoint);
    const std::string xml = student_book(lesson, asha, Texts{});
    EXPECT_NE(xml.find("table:structure-protected=\"true\""), std::string::npos);
    EXPECT_NE(xml.find("Asha &lt;&amp;&gt; Rawat"), std::string::npos);
    EXPECT_NE(xml.find(asha.seal), std::string::npos);
    EXPECT_NE(xml.find("invented"), std::string::npos);
    for (const char* other : {"harvest", "class_names", "class_exercises", "Ranges", "{fresh}"})
        EXPECT_EQ(xml.find(other), std::string::npos) << other;
    for (const Drawn& drawn : asha.exercises)  // the right answer stands nowhere, rounded or not
        for (const int digits : {6, 12})
            EXPECT_EQ(xml.find("\"" + in_words(drawn.right, digits) + "\""), std::string::npos);
}

}  // namespace
}  // namespace drysheet
