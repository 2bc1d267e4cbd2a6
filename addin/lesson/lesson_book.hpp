// SPDX-License-Identifier: MPL-2.0
// A lesson as a workbook: flat OpenDocument text, so that what a class gets is written and tested without an
// office.
#pragma once

#include <span>
#include <string>

#include "addin/lesson/desk.hpp"
#include "addin/text/texts.hpp"

namespace drysheet {

/// Names of a sheet's own cells, by which Collect finds them, and those of the lecturer's pages.
namespace lesson_name {
inline constexpr const char *kStudent = "student", *kSeal = "seal", *kAnswers = "answers", *kKeys = "keys",
                            *kDecimal = "decimal", *kNames = "class_names", *kWord = "class_word",
                            *kLessons = "class_lessons", *kLater = "class_later",
                            *kExercises = "class_exercises";
}

/// One student's workbook: a sheet a lesson with the answers as its only open cells, and the workings, which
/// show when an answer has been tried. Nothing of the lecturer's is in it.
std::string student_book(const ClassLesson& lesson, const Handout& handout, const Texts& texts);

/// The lecturer's: the list of names, the table of exercises, and the lessons as the first student has them.
std::string class_book(std::span<const ExerciseRow> rows, std::span<const std::string_view> names,
                       const Texts& texts);

}  // namespace drysheet
