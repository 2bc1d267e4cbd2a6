// SPDX-License-Identifier: MPL-2.0
// An exercise as a row of a table tells it, and its numbers for one student: drawn so that no usual slip can
// be taken for right.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "addin/call/call.hpp"
#include "addin/call/slips.hpp"
#include "addin/text/texts.hpp"

namespace drysheet {

/// A row of the table of exercises, as its cells stand. A lecturer's own are rows like these.
struct ExerciseRow {
    std::string lesson;    ///< rows of one lesson stand on one sheet
    std::string text;      ///< with {name} where a number stands
    std::string function;  ///< a function that gives one number
    std::string
        arguments;  ///< parted by ;  a number, {name}, either with its unit, "GAB", or a range: 1 | 2 | {c}
    std::string ranges;     ///< "fresh 8 to 16; start 78 to 88 step 1"
    std::string digits;     ///< significant digits of the numbers drawn, where no step says it; blank: 3
    std::string points;     ///< blank: 1
    std::string answer_in;  ///< the unit of a plain answer; blank: the function's own
    std::string hints;      ///< one after another, parted by |
};
/// The cells of a row, in the order of its header.
inline constexpr std::size_t kExerciseColumns = 9;
std::span<const std::string_view> exercise_header();
std::string& cell_of(ExerciseRow& row, std::size_t column);
inline const std::string& cell_of(const ExerciseRow& row, std::size_t column) {
    return cell_of(const_cast<ExerciseRow&>(row), column);  // NOLINT: read only
}

/// The exercises that come with Drysheet: lessons on balances, moist air, drying rate and time, sorption,
/// energy and scale-up. The story is invented.
std::span<const ExerciseRow> exercise_rows();
/// What a lesson begins with, named in English or in the texts' language: its story in a sentence or two.
std::string story_of(std::string_view lesson, const Texts& texts);
/// Words of a row in the reader's language, where they are those that come with Drysheet.
std::string words_of_row(std::string_view words, const Reading& reading);

/// A number, perhaps the name of one that is drawn, and what follows it; or a text alone.
struct Term {
    std::optional<double> number;
    std::string name;  ///< of a number that is drawn
    std::string after;
    std::string_view sign;  ///< of a name: "-" or nothing
};
struct Interval {
    std::string name;
    double low = 0, step = 0;
    std::uint64_t steps = 0;  ///< above low
};
struct Exercise {
    std::string lesson, text;
    const Function* function = nullptr;
    std::vector<std::vector<Term>> arguments;  ///< more than one term: a range
    std::vector<Interval> ranges;
    double points = 1;
    std::string answer_in;
    std::vector<std::string> hints;
    std::uint64_t key = 0;  ///< the same for the same row wherever it stands, in whatever language
};
/// Errors: Refusal, its argument the column of the row, for a row that is no exercise.
Exercise read_exercise(const ExerciseRow& row, const Reading& reading = {});

/// An exercise with a student's own numbers.
struct Drawn {
    const Exercise* exercise = nullptr;
    std::map<std::string, double, std::less<>> numbers;
    std::vector<std::vector<Term>> arguments;  ///< every name replaced by its number
    std::vector<Input> given;                  ///< the same as arguments of the function
    std::string text;                          ///< the numbers put in
    double right = 0;
    std::string unit;  ///< of `right`
};
/// The numbers follow from the seed. Every slip lies more than three tolerances from the right answer and
/// from the other slips; a draw where one does not is drawn anew. Errors: Refusal naming "ranges" where no
/// draw is so.
Drawn draw(const Exercise& exercise, std::uint64_t seed, const Reading& reading = {});

/// Whether all lie more than three tolerances apart.
bool well_apart(const Function& function, double right, std::span<const Slip> slips);

/// A text in 64 bits; the same on every machine.
std::uint64_t hash_of(std::string_view text, std::uint64_t start = 0xcbf29ce484222325);

}  // namespace drysheet
