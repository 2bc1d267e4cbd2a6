// SPDX-License-Identifier: MPL-2.0
#include "addin/text/texts.hpp"

#include <algorithm>
#include <fstream>
#include <stdexcept>

#include "addin/text/utf8_path.hpp"

namespace drysheet {
namespace {

// clang-format off
constexpr std::string_view kWords[] = {
    "{} to {}",
    "above {} to {}",
    "{} to below {}",
    "above {} to below {}",
    "above {}",
    "at least {}",
    "below {}",
    "at most {}",
    "left out: {}",
    "may be left out",
    "must be given: {}",
    "Example: {}",
    ", in {}",
    "with its unit, as in \"1.2 kg\"",
    "any one unit, the same throughout the call",
    "fraction, wet basis",
    "kg/kg, dry basis",
    "fraction 0 to 1",
    "0 to 1",
    "kg/kg dry air",
    "A table: enter it over a range; where its rows have names, DRY.PICK reads one.",

    // the menu: why it did nothing
    "Open a Calc workbook first.",
    "This workbook is open for reading only. Save it under another name first.",
    "Put the cursor on one cell, where the block is to begin.",
    "The sheet ends before the block does. Put the cursor further up and to the left.",
    "This sheet is protected. Nothing was changed.",
    "The block needs the cells {}, and {} is not empty. Nothing was changed; put the cursor where there is room.",
    "The example \"{}\" could not be opened.",
    "{} could not be opened.",
    "This did not work: {}",

    "Stopped. Nothing was changed.",

    // the review
    "Review",
    "Cells read: {}. Wrong: {}, doubtful: {}, could be checked: {}, fine: {}, not judged: {}. Rows settled before: {}. This list does not follow later changes.",
    // about a cell
    "Put the cursor on a cell first.",
    "The selected cell calls no function of Drysheet.",
    "The workbook takes no new sheet.",
    "There is no working of {} here: it is refused, or has none.",
    "Working",
    "Working of {}",
    "A blank cell.",
    "Note: {}",
    "as it is {}",
    "No label, format or note says what this number is.",
    "Source: {}",
    "Working:",
    "The review: {}",
    "Suggested: {}",
    "Suggested in {}: {}",
    "The workbook has changed; it is being read again.",
    "The workbook is being read.",
    "Typed values that it rests on: {}: {}",
    "Results that rest on it: {}: {}",

    // the review of a folder
    "Say which folder: the argument Folder, a URL, is missing.",
    "No folder was chosen.",
    "There is no folder {}.",
    "This is no workbook.",
    "There is no workbook in {}.",
    "Stopped by Esc.",
    "Workbooks read: {} of {}, not readable: {}. Wrong: {}, doubtful: {}, could be checked: {}, fine: {}, not judged: {}.",
    "Also written: {}.",
    "{} could not be written.",
    "Findings",
    "Files",

    // lessons and the class desk
    "fraction or %",
    "no answer yet",
    "All data of this lesson are invented.",
    "Type your answer in the cream cells, the first one first: a number in the unit shown, or with a unit of your own, such as \"1.25 kg\" or \"12 %\". A later try counts for less. The working stands on the last sheet once you have tried.",
    "Name",
    "Seal",
    "Points: ",
    "an answer first, please",
    "Workings",
    "Lessons of drying, for a class",
    "Class",
    "Exercises",
    "Names",
    "exercise {}: {} could not be read",
    "right",
    "right at try {}",
    "row {}: the same as one above",
    "row {}: {}",
    "{} stands twice in the list",
    "the seal is not that of this name and these exercises: a copied file, or the lesson was changed",
    "the name is not in the list",
    "{} has this name too",
    "exercises that this lesson does not have: {}",
    "No.",
    "Exercise",
    "Try 1",
    "Try 2",
    "Try 3",
    "in",
    "Mark",
    "Points",
    "Tries",
    "First step",
    "All data of these lessons are invented; the exercises are a lecturer's to change.",
    "Write the names below. Drying ▸ Class ▸ Hand Out then writes a workbook for each into a folder, with numbers of its own, sealed by the name; the pages Class and Exercises are not in it.",
    "Put what comes back into one folder. Drying ▸ Class ▸ Collect marks every answer again, whatever the files say, and opens a table of points and slips.",
    "An exercise is a row of the page Exercises: change, delete or add rows. Keep them and the word of the class until you have collected.",
    "Word of the class (another word, other numbers)",
    "Lessons to hand out, parted by commas (blank: all)",
    "What a later try leaves of the points",
    "Lesson",
    "Text",
    "Function",
    "Arguments",
    "Ranges",
    "Digits",
    "Answer in",
    "Hints",
    "This workbook has no list of names and no exercises. Open the example of lessons first: Drying ▸ Open an Example.",
    "what a later try leaves is a number from 0 to 1: 0.5 was taken",
    "No exercise can be handed out. {}",
    "Not done: {}.",
    "its sheets have different names or seals",
    "formulas for answers: {}",
    "it holds no lesson",
    "There is no name in the list.",
    "{} is there already",
    "Workbooks written: {} of {}, with {} exercises each, into {}.",
    "There is no answered lesson in {}.",
    "Workbooks read: {}, with a note: {}.",

    // using its suggestions
    "Before: {}",
    "Go to the sheet of a review first, and select the rows to use.",
    "{} is on a protected sheet. Nothing was changed.",
    "Those cells no longer hold what the review read. Review the workbook again.",
    "None of the selected rows suggests a formula.",
    "Suggestions used: {}, in cells: {}; what stood there is in a note. Left alone, as the cell has changed since: {}.",
    "The workbook takes no new sheet, so the review is in a new workbook.",

    // a trial
    "Trial",
    "Trial report",
    "Trials",
    "There are not two trial sheets in this workbook yet.",
    "New sheet: {}. Trials in it: {}.",
    "New sheets: {} and {}. Fill in the shaded cells.",

    // the reason in a block of formulas
    "every result is fine",
    "a cell that the results come from holds an error itself",

    // how sure a cell is
    "typed ±",
    "guess, {}",
    "a guess without a ±",
    "read to {}: u = {}/√12",
    "nothing says how good it is",
    "the column {}",
    "the cell beside it, {}",
    "the row {}",
    "the cell named {}",
    "How sure is {}?",
    "How sure are these {} cells?",
    "This list does not follow later changes.",
    "No input has a ±. Write one beside it, in a column headed ±, or as a text like \"1200 ± 1 g\".",
    "First order: each input moved up and down by its u in a hidden copy of this workbook (JCGM 100); 2000 draws of all inputs together agree with it.",
    "First order misleads here: u and the interval are those of {} draws of all inputs together (JCGM 101). Contributions are to first order.",
    "The draws were ended before they had settled to two figures of u.",
    "Within these uncertainties there is no result for {} % of the draws; the rest is counted.",
    "{} to {} instead of {}",
    "For half the u, know one input better: {}.",
    "For half the u, know these inputs better together: {}.",
    "Blank cells that formulas on the way refer to: {}.",
    "Taken as exact, since nothing says how good they are: {}.",
    "Result",
    "What it is",
    "Value",
    "Mostly from",
    "95 % from",
    "95 % to",
    "By",
    "without a value beside some input's own",
    "draws",
    "first order",
    "Contribution and share are those in the result where the share is largest.",
    "How sure: {} results, each in a row of the new sheet.",
    "{} has no value beside some input's own, so nothing can be said.",
    "{}: u = {}, 95 % from {} to {}.",
    "Select one result, or one range of them, first.",
    "{} shows {} when it is worked out anew, not {}: it may hang on the clock or on chance (NOW, RAND), or was not recalculated.",
    "{} shows an error, which begins in {}.",
    "{} rests on no number that was typed.",
    "How sure",

    // about
    "No browser opened. The page of all functions is {}",
    "If no browser opens: the page of all functions is {}",
    "Drysheet {}: {} functions for drying fruit, vegetables and herbs, all named DRY.…",
    "Free software under the Mozilla Public License 2.0; its text is in the extension.",
    "A calculation is no food safety assessment: only a measured water activity and the local food authority decide.",
};
// clang-format on

}  // namespace

std::span<const std::string_view> words() { return kWords; }

Texts::Texts(const std::string& file) : language_(utf8_path(file).stem().string()) {
    std::ifstream in(utf8_path(file));
    if (!in) throw std::runtime_error(file + " cannot be read");
    const auto wrong = [&file](std::string_view what, std::string_view where) {
        return std::runtime_error(std::string(file).append(what).append(where));
    };
    for (std::string line; std::getline(in, line);) {
        if (line.empty() || line.front() == '#') continue;
        const auto tab = line.find('\t');
        if (tab == std::string::npos) throw wrong(": no tab in the line: ", line);
        lines_.emplace_back(line.substr(0, tab), line.substr(tab + 1));
        if (!by_key_.insert(lines_.back()).second) throw wrong(": twice: ", lines_.back().first);
    }
}

std::optional<std::string> Texts::of(std::string_view key, std::string_view english) const {
    if (language_ == "en") return std::string(english);
    auto found = by_key_.find(key);
    if (found == by_key_.end()) found = by_key_.find(english);
    return found == by_key_.end() || found->second.empty() ? std::nullopt : std::optional(found->second);
}

std::string Texts::word(std::string_view english, std::initializer_list<std::string_view> values) const {
    if (std::find(std::begin(kWords), std::end(kWords), english) == std::end(kWords))
        throw std::logic_error("not among the words to translate: " + std::string(english));
    std::string text = this->text(english);
    std::size_t from = 0;
    for (const std::string_view value : values) {
        const auto place = text.find("{}", from);
        if (place == std::string::npos) throw std::runtime_error("no place for a value in: " + text);
        text.replace(place, 2, value);
        from = place + value.size();
    }
    return text;
}

}  // namespace drysheet
