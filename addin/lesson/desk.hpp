// SPDX-License-Identifier: MPL-2.0
// The class desk: a lesson for each of a list of names, its numbers sealed by the name; the answers that come
// back, marked again, as one table. No office here.
#pragma once

#include <deque>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "addin/lesson/exercise.hpp"

namespace drysheet {

/// Answers to one exercise: the first counts in full, each later one for less.
inline constexpr std::size_t kTries = 3;

/// What a class is given. The exercises stay where they are, as what is drawn refers to them.
struct ClassLesson {
    std::deque<Exercise> exercises;
    std::string word;               ///< of the class; other words, other numbers
    double later = 0.5;             ///< what is left of the points at each later try
    std::vector<std::string> said;  ///< of the rows that are no exercise, and are left out
};
/// Blank rows are no exercises; a row that cannot be one is said and left out. `only`: names of lessons
/// parted by commas, blank for all.
ClassLesson read_lesson(std::span<const ExerciseRow> rows, std::string_view only, const Reading& reading);

struct Student {
    std::string name, file;  ///< the file's name without an ending, fit for every system
};
struct Students {
    std::vector<Student> all;
    std::vector<std::string> said;  ///< of names that are left out
};
/// Names as they stand in cells; blank ones, repeated ones and what is none are left out.
Students read_names(std::span<const Input> cells, const Reading& reading);

/// One student's exercises.
struct Handout {
    std::string name, seal;
    std::vector<Drawn> exercises;
    std::vector<std::string> said;  ///< of exercises for which no numbers could be drawn
};
/// `seal` follows from the word, the name and every number, so that it fits no other name and no other
/// numbers. It shows a copied file; it is no lock.
Handout hand_out(const ClassLesson& lesson, const std::string& name, const Reading& reading);

/// What a plain answer is read as: with the exercise's unit, where it has one.
Input answer_in_unit(const Exercise& exercise, const Input& typed);

/// What came back, as its cells stand.
struct AnswerFile {
    std::string file, name, seal;
    bool decimal_comma = false;  ///< how the student's office writes numbers
    struct Row {
        std::string key;             ///< of the exercise, as key_text writes it
        std::vector<Input> answers;  ///< up to kTries
    };
    std::vector<Row> rows;
    std::vector<std::string> notes;
};
std::string key_text(const Exercise& exercise);

struct ClassResult {
    Table
        table;  ///< a header row, then a row a file: Name, File, Points, Of, an exercise each, Same as, Note
    Table histogram;  ///< Points (share of all), Files, a bar
    Table exercises;  ///< Exercise, Right, Tried, most usual slip, how often
    std::size_t files = 0, noted = 0;
};
/// Every answer marked anew with numbers drawn from the name in the file; what the file says of marks and
/// points is not looked at. `names`: the list that was handed out to; empty: not known.
ClassResult collect(const ClassLesson& lesson, std::span<const AnswerFile> files,
                    std::span<const Student> names, const Reading& reading);

}  // namespace drysheet
