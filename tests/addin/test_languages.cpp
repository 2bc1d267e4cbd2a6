// SPDX-License-Identifier: MPL-2.0
// The sheet in the other languages: the same numbers, and no English left in what is said.
#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/slips.hpp"
#include "addin/call/why.hpp"
#include "addin/call/working.hpp"
#include "addin/text/texts.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/review.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet {
namespace {

const Texts& texts_of(const std::string& language) {
    static const Texts de(DRYSHEET_TEXTS "/de.tsv"), es(DRYSHEET_TEXTS "/es.tsv"),
        fr(DRYSHEET_TEXTS "/fr.tsv");
    return language == "de" ? de : language == "es" ? es : fr;
}

// Words of English sentences that are none of German, outside quotes: what was typed stays as it is.
std::set<std::string> english_words(const std::string& text) {
    static const std::set<std::string> known{
        "the",   "is",   "are",    "of",        "must",  "below", "above", "and",    "or",
        "to",    "from", "with",   "not",       "has",   "have",  "holds", "than",   "that",
        "this",  "by",   "as",     "were",      "it",    "no",    "too",   "wanted", "missing",
        "here",  "for",  "which",  "where",     "there", "cells", "rows",  "range",  "answer",
        "taken", "left", "basis,", "moisture,", "unit"};
    std::set<std::string> found;
    std::string word;
    bool quoted = false;
    for (const char c : text + " ") {
        if (c == '"') quoted = !quoted;
        if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c < 0) {
            word += c;
            continue;
        }
        if (!quoted && known.contains(word)) found.insert(word);
        word.clear();
    }
    return found;
}

void expect_german(const std::string& text, std::string_view of, const std::set<std::string>& names = {}) {
    std::string said;
    for (const std::string& word : english_words(text))
        if (!names.contains(word)) said += " " + word;
    EXPECT_EQ(said, "") << of << ": " << text;
}

// An English argument name is a name in every language.
std::set<std::string> names_of(const Function& function) {
    std::set<std::string> names;
    for (const Parameter& param : function.params) {
        names.emplace(param.name);
        for (const Parameter& row : param.rows) {
            std::istringstream words{std::string(row.name)};
            for (std::string word; words >> word;) names.insert(word);
        }
    }
    return names;
}

class InLanguage : public testing::TestWithParam<const char*> {
  protected:
    const Texts& texts = texts_of(GetParam());
    // the checks are typed with a point; the decimal comma has tests of its own
    Reading reading{.decimal_comma = false, .texts = &texts};
};

TEST_P(InLanguage, GivesTheSameNumbers) {
    for (const Function& function : functions())
        for (const Check& check : function.checks) {
            const Outcome here = evaluate(function, check.given, reading),
                          english = evaluate(function, check.given, {});
            ASSERT_EQ(here.index(), english.index()) << function.name;
            if (std::holds_alternative<double>(here)) {
                EXPECT_EQ(std::get<double>(here), std::get<double>(english));
            }
            const auto* table = std::get_if<Table>(&here);
            if (table == nullptr) continue;
            const Table& other = std::get<Table>(english);
            ASSERT_EQ(table->cells.size(), other.cells.size()) << function.name;
            for (std::size_t i = 0; i < table->cells.size(); ++i) {
                ASSERT_EQ(table->cells[i].index(), other.cells[i].index()) << function.name;
                if (std::holds_alternative<double>(table->cells[i])) {
                    EXPECT_EQ(table->cells[i], other.cells[i]);
                }
                // rows are asked for by name
                if (table->columns > 1 && i % table->columns == 0 && function.topic != "trust") {
                    EXPECT_EQ(table->cells[i], other.cells[i]) << function.name;
                }
            }
        }
}

TEST_P(InLanguage, RefusesTheSame) {
    for (const Function& function : functions())
        for (const auto& must : function.refusals) try {
                (void)evaluate(function, must.given, reading);
                ADD_FAILURE() << function.name;
            } catch (const Refusal& refusal) {
                EXPECT_EQ(refusal.argument(), must.argument);
                EXPECT_NE(refusal.written(reading), refusal.written()) << function.name;
            }
}

TEST_P(InLanguage, HasAnswersForEverySlip) {
    for (const Function& function : functions()) {
        if (!function.scalar || function.raw || function.checks.empty()) continue;
        for (const Slip& slip : slips(read(function, function.checks.front().given, {})))
            EXPECT_NE(written(slip.sentence, reading), written(slip.sentence)) << function.name;
    }
}

INSTANTIATE_TEST_SUITE_P(Languages, InLanguage, testing::Values("de", "es", "fr"),
                         [](const auto& language) { return std::string(language.param); });

const Reading& german() {
    static const Reading reading{.decimal_comma = false, .texts = &texts_of("de")};
    return reading;
}

TEST(German, RefusalsHoldNoEnglish) {
    for (const Function& function : functions())
        for (const auto& must : function.refusals) try {
                (void)evaluate(function, must.given, german());
            } catch (const Refusal& refusal) {
                expect_german(refusal.written(german()), function.name, names_of(function));
            }
}

TEST(German, WhyAndSlipsAndMarksHoldNoEnglish) {
    for (const Function& function : functions()) {
        if (function.raw || function.checks.empty()) continue;
        const std::vector<Input>& given = function.checks.front().given;
        if (function.name != "TYPICAL")  // names the lines of its tables
            expect_german(why(function, given, german()), function.name, names_of(function));
        if (!function.scalar) continue;
        const Call call = read(function, given, german());
        for (const Slip& slip : slips(call)) {
            expect_german(written(slip.sentence, german()), function.name);
            expect_german(written(mark_call(slip.answer, call), german()), function.name);
        }
    }
}

// What a table says: verdicts, and what a plan rests on. Its first column has the names of its rows.
TEST(German, TablesHoldNoEnglish) {
    for (const Function& function : functions())
        for (const Check& check : function.checks) {
            // of models and foods it names the sources
            if (function.topic == "trust" || function.name == "TYPICAL" || function.name.ends_with("MODELS"))
                continue;
            const Outcome outcome = evaluate(function, check.given, german());
            const auto* table = std::get_if<Table>(&outcome);
            if (table == nullptr) continue;
            for (std::size_t i = 0; i < table->cells.size(); ++i)
                if (const auto* said = std::get_if<std::string>(&table->cells[i]);
                    said != nullptr && i % table->columns != 0 && *said != "as given")
                    expect_german(*said, function.name);
        }
}

TEST(German, WorkingsHoldNoEnglish) {
    for (const Function& function : functions()) {
        if (function.raw || function.checks.empty()) continue;
        for (const std::string& line : working(read(function, function.checks.front().given, german())).lines)
            if (line.find(" = ") == std::string::npos) expect_german(line, function.name, names_of(function));
    }
}

// Every workbook of the corpus, read by a German: labels stand in quotes and stay as they are.
TEST(German, ReviewsHoldNoEnglish) {
    std::size_t told = 0;
    for (const auto& file : std::filesystem::directory_iterator(DRYSHEET_CORPUS)) {
        std::ifstream in(file.path());
        workbook::Picture picture =
            workbook::read_picture(std::string(std::istreambuf_iterator<char>(in), {})).picture;
        picture.texts = &texts_of("de");
        for (const workbook::Finding& finding : workbook::review(picture).findings) {
            ++told;
            expect_german(finding.why, file.path().filename().string());
        }
    }
    EXPECT_GT(told, 100U);
}

// What is sure and what is harmless are one word in German and Spanish.
TEST(Languages, NoneSaysThatAnythingIsSafe) {
    static const std::set<std::string> said{
        "sicher",  "sichere", "sicherer", "sicheres", "sicheren", "unbedenklich", "seguro", "segura",
        "seguros", "seguras", "sûr",      "sûre",     "sûrs",     "sûres",        "safe",   "safely"};
    for (const std::string language : {"de", "es", "fr"})
        for (const auto& [key, text] : texts_of(language).lines()) {
            std::istringstream words(text);
            for (std::string word; words >> word;) {
                while (!word.empty() &&
                       std::string_view(".,:;?!()¿\"").find(word.back()) != std::string_view::npos)
                    word.pop_back();
                EXPECT_FALSE(said.contains(lower(word)) || said.contains(word)) << language << ": " << text;
            }
        }
}

// By the decimal sign of the reader, whatever a translator wrote.
TEST(German, NumbersOfASentenceHaveTheReadersSign) {
    const Reading comma{.decimal_comma = true, .texts = &texts_of("de")};
    const Sentence form = "half past six is written \"6:30\" or \"6.5 h\"";
    EXPECT_EQ(written(form, comma), "halb sieben schreibt man \"6:30\" oder \"6,5 h\"");
    EXPECT_EQ(written(form, german()), "halb sieben schreibt man \"6:30\" oder \"6.5 h\"");
    const std::vector<Input> given{100.0, 80.0, 0.2};
    EXPECT_EQ(why(*find_function("DRIEDMASS"), given, comma),
              "start: 80 liegt über 1: ein Anteil wird verlangt; 80 % sind 0,8.");
}

}  // namespace
}  // namespace drysheet
