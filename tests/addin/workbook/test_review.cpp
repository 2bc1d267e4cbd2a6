// SPDX-License-Identifier: MPL-2.0
// Reviews of whole workbooks: what is found of planted mistakes, and what is called wrong without being so.
#include <gtest/gtest.h>

#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <random>

#include "addin/workbook/about_cell.hpp"
#include "addin/workbook/formula.hpp"
#include "addin/workbook/review.hpp"
#include "tests/addin/workbook/corpus.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet::workbook {
namespace {

std::vector<Place> cells_of(const Finding& finding) {
    return finding.cells.empty() ? std::vector{finding.cell} : finding.cells;
}

const Finding* finding_at(const Review& review, const Place& place) {
    for (const Finding& finding : review.findings)
        for (const Place& cell : cells_of(finding))
            if (cell == place) return &finding;
    return nullptr;
}

// What the review of these lines says of a cell.
Verdict verdict_at(std::string_view lines, std::string_view cell) {
    const PictureText sheets = read_picture(lines);
    const Review made = review(sheets.picture);
    const Finding* finding = finding_at(made, place(sheets.picture, cell));
    return finding == nullptr ? Verdict::not_judged : finding->verdict;
}

// Those of corpus/ were written by people who had not seen the lexicon: 01 to 20 and 41 to 52 are right.
std::vector<std::string> corpus() {
    std::vector<std::string> texts(std::begin(kCorpus), std::end(kCorpus));
    for (const auto& file : std::filesystem::directory_iterator(DRYSHEET_CORPUS)) {
        std::ifstream stream(file.path());
        texts.emplace_back(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
    }
    EXPECT_GE(texts.size(), std::size(kCorpus) + 64);
    return texts;
}

TEST(WorkbookReview, FindsWhatIsPlantedAndLittleElse) {
    std::map<std::string, std::pair<int, int>> classes;  // found, planted
    int formulas = 0, right = 0, found = 0, planted = 0, falsely = 0, called_wrong = 0;
    for (const std::string& text : corpus()) {
        const PictureText sheets = read_picture(text);
        const Review made = review(sheets.picture);
        std::map<Place, std::string> mistakes;
        for (const std::string& line : sheets.expected) {
            const auto space = line.find(' ');
            mistakes[place(sheets.picture, line.substr(space + 1))] = line.substr(0, space);
        }
        for (const auto& [at, name] : mistakes) {
            const Finding* finding = finding_at(made, at);
            const bool hit = finding != nullptr && finding->verdict <= Verdict::doubtful;
            called_wrong += hit && finding->verdict == Verdict::wrong ? 1 : 0;
            ++planted;
            ++classes[name].second;
            found += hit ? 1 : 0;
            classes[name].first += hit ? 1 : 0;
            if (!hit)
                std::cout << "missed: " << name << " " << in_words(at, sheets.picture)
                          << (finding != nullptr ? " " + finding->evidence : "") << "\n";
            else if (std::getenv("DRYSHEET_TELL"))
                std::cout << "hit: " << name << " " << in_words(at, sheets.picture) << ": " << finding->why
                          << " [" << finding->evidence << "] " << finding->suggested << "\n";
        }
        for (const auto& sheet : sheets.picture.sheets)
            for (const auto& [at, cell] : sheet.cells) formulas += cell.formula ? 1 : 0;
        for (const Finding& finding : made.findings)
            for (const Place& cell : cells_of(finding)) {
                if (mistakes.contains(cell)) continue;
                ++right;
                if (finding.verdict == Verdict::wrong) {
                    ++falsely;
                    std::cout << "falsely wrong: " << in_words(cell, sheets.picture) << " " << finding.why
                              << " [" << finding.evidence << "]\n";
                } else if (finding.verdict == Verdict::doubtful) {
                    std::cout << "doubted: " << in_words(cell, sheets.picture) << " " << finding.why << " ["
                              << finding.evidence << "]\n";
                }
            }
    }
    for (const auto& [name, count] : classes)
        std::cout << name << ": " << count.first << " of " << count.second << "\n";
    std::cout << "found " << found << " of " << planted << " (" << called_wrong
              << " as wrong), falsely wrong " << falsely << " of " << right << " right formulas, " << formulas
              << " in all\n";
    EXPECT_GE(100 * found, 90 * planted);
    EXPECT_LE(2000 * falsely, right);
}

TEST(WorkbookReview, TellsAboutOneCell) {
    const Reviewed reviewed(read_picture(R"(
        sheet In
        A1 | Fresh mass | 12 | kg
        A2 | Start moisture, wet basis | 86 %
        A3 | Final moisture, wet basis | 10 %
        A4 | Dried product (g) | =DRY.DRIEDMASS(B1;B2;B3)
        A5 | | =B1*(1-B2)
        A6 | Refused (kg) | =DRY.DRIEDMASS(B1;B3;B2)
        sheet Out
        A1 | Packs | =$In.B4*1000/250)")
                                .picture);
    const auto about = [&](std::string_view address) {
        return reviewed.about(place(reviewed.picture(), address));
    };
    const About fresh = about("In.B1");
    EXPECT_EQ(fresh.unit, "kg");
    EXPECT_EQ(fresh.evidence, "labelled \"Fresh mass\", the unit beside it is kg");
    EXPECT_FALSE(fresh.finding);
    EXPECT_TRUE(fresh.inputs.empty());
    ASSERT_EQ(fresh.results.size(), 3U);
    EXPECT_EQ(in_words(fresh.results.back(), reviewed.picture()), "Out.B1");
    const About dried = about("In.B4");
    ASSERT_TRUE(dried.finding);
    EXPECT_EQ(dried.finding->verdict, Verdict::wrong);
    EXPECT_EQ(dried.finding->why,
              "by the units of its inputs it is in kg, but its label says g: 1000 times too small");
    ASSERT_EQ(dried.calls.size(), 1U);
    EXPECT_EQ(dried.calls[0].written, "DRY.DRIEDMASS(B1;B2;B3)");
    EXPECT_EQ(dried.calls[0].arguments[1].name, "start");
    EXPECT_EQ(dried.calls[0].arguments[1].label, "Start moisture, wet basis");
    EXPECT_EQ(dried.calls[0].refusal, "");
    EXPECT_EQ(dried.inputs.size(), 3U);
    EXPECT_EQ(about("In.B5").unit, "kg");  // from its inputs
    const About refused = about("In.B6");
    ASSERT_EQ(refused.calls.size(), 1U);
    EXPECT_NE(refused.calls[0].refusal, "");
    ASSERT_TRUE(refused.finding);
    EXPECT_EQ(refused.finding->verdict, Verdict::wrong);
}

TEST(WorkbookReview, TellsAboutOneCellInWords) {
    const Reviewed reviewed(read_picture(R"(
        sheet In
        A1 | Fresh mass (kg) | 12 {note weighed twice}
        A2 | Start moisture, wet basis | 0.86123456 {percent}
        A3 | Final moisture, wet basis | 10 %
        A4 | Dried product (kg) | =DRY.DRIEDMASS(B1;B2;B3)
        A5 | | 7
        B6 | =DRY.DRIEDMASS("2 kg";0.85;0.8)
        B7 | =DRY.STOPMASS("500 g";"1.2 kg";"80 %";"12 %"))")
                                .picture);
    const auto told = [&](std::string_view address) {
        return "\n" + about_cell(reviewed, place(reviewed.picture(), address), {});
    };
    EXPECT_EQ(told("In.B1"), R"~(
In.B1
12 kg
as it is labelled "Fresh mass (kg)"

Results that rest on it: 1: B4

Note: weighed twice
)~");
    EXPECT_EQ(told("In.B2"), R"~(
In.B2
86.1235 %
as it is labelled "Start moisture, wet basis", its format shows %

Results that rest on it: 1: B4
)~");
    EXPECT_EQ(told("In.B4"), R"~(
In.B4
1.850205867 kg
as it is labelled "Dried product (kg)"

=DRY.DRIEDMASS(B1;B2;B3)

DRY.DRIEDMASS: Mass of dried product from a fresh mass and two moistures
  fresh: B1 = 12 kg (Fresh mass (kg))
  start: B2 = 86.1235 % (Start moisture, wet basis)
  final: B3 = 10 % (Final moisture, wet basis)

Working:
  fresh = 12
  start = 0.86123456 fraction wb
  final = 0.1 fraction wb
  dried = fresh × (1 − start) ÷ (1 − final)
     = 12 × (1 − 0.86123456) ÷ (1 − 0.1)
     = 1.85021 (as given)

Source: Balance of dry solids, in = out; Geankoplis (1993) Transport Processes and Unit Operations, 3rd ed., ex. 1.5-1.

The review: fine: its unit, carried through, is the one that its label says
labelled "Dried product (kg)"; B1: labelled "Fresh mass (kg)"

Typed values that it rests on: 3: B1, B2, B3
)~");
    EXPECT_EQ(told("In.B5"), "\nIn.B5\n7\nNo label, format or note says what this number is.\n");
    EXPECT_NE(
        told("In.B6").find("\n  fresh: \"2 kg\"\n  start: 0.85 fraction wb\n  final: 0.8 fraction wb\n"),
        std::string::npos)
        << told("In.B6");
    const std::string stop = told("In.B7"),
                      after = stop.substr(std::min(stop.find("\nSource: "), stop.size()));
    EXPECT_NE(after.find("only a measured water activity and the local food authority decide"),
              std::string::npos)
        << stop;
    EXPECT_EQ(told("In.B6").find("authority"), std::string::npos);
    EXPECT_EQ(told("In.B9"), "\nIn.B9\nA blank cell.\n");
}

TEST(WorkbookReview, AListOfCellsIsCutShortAfterTwelve) {
    const auto told = [](std::string_view last) {
        std::string text = "B1";
        for (int i = 0; i < 13; ++i) text += " | " + std::to_string(i + 1);
        const Reviewed reviewed(read_picture(text + "\nA2 | =SUM(B1:" + std::string(last) + "1)").picture);
        return about_cell(reviewed, place(reviewed.picture(), "A2"), {});
    };
    EXPECT_TRUE(told("M").find("12: B1, C1, D1, E1, F1, G1, H1, I1, J1, K1, L1, M1\n") != std::string::npos)
        << told("M");
    EXPECT_TRUE(told("N").find("13: B1, C1, D1, E1, F1, G1, H1, I1, J1, K1, L1, M1 …\n") != std::string::npos)
        << told("N");
}

TEST(WorkbookReview, NamesThatMeanEachOther) {
    const Reviewed reviewed(read_picture(R"(
        A1 | 5
        A2 | =ratio*A1
        name ratio = yield*2
        name yield = ratio/2)")
                                .picture);
    EXPECT_EQ(reviewed.review().findings.size(), 1u);
}

TEST(WorkbookReview, KnowsAPlainSumForOneOfOurs) {
    const PictureText sheets = read_picture(R"(
        A1 | Fresh mass (kg) | 12
        A2 | Start moisture, wet basis | 86 %
        A3 | Final moisture, wet basis | 10 %
        A4 | Dried product (kg) | =B1*(1-B2)/(1-B3))");
    const Review made = review(sheets.picture);
    const Finding* finding = finding_at(made, place(sheets.picture, "B4"));
    ASSERT_NE(finding, nullptr);
    EXPECT_EQ(finding->suggested, "=DRY.DRIEDMASS(B1;B2;B3)");
}

TEST(WorkbookReview, UnitsThroughPowers) {
    const Reviewed reviewed(
        read_picture("A1 | Tray side (m) | 0.4\nB2 | =POWER(B1;2)\nB3 | =SQRT(B2)\nB4 | =B1^3").picture);
    const auto unit = [&](std::string_view address) {
        return reviewed.about(place(reviewed.picture(), address)).unit;
    };
    EXPECT_EQ(unit("B2"), "m²");
    EXPECT_EQ(unit("B3"), "m");
    EXPECT_EQ(unit("B4"), "m³");
    // of a function of ours: that of its mass, whatever else is a text
    const Reviewed ours(read_picture(R"(
        A1 | Fresh mass (kg) | 12
        B2 | =DRY.DRIEDMASS(B1;B4&" %";0.1)
        A4 | Start moisture (%) | 86)")
                            .picture);
    EXPECT_EQ(ours.about(place(ours.picture(), "B2")).unit, "kg");
}

TEST(WorkbookReview, APointTypedForACommaIsAsked) {
    constexpr std::string_view rows =
        "A1 | Water activity | 614\nA2 | Relative humidity (%) | 65\nA3 | Mass (g) | 614";
    const PictureText german = read_picture("decimal comma\n" + std::string(rows));
    const Review made = review(german.picture);
    ASSERT_EQ(made.findings.size(), 1U);
    EXPECT_EQ(in_words(made.findings[0].cell), "B1");
    EXPECT_EQ(made.findings[0].verdict, Verdict::doubtful);
    EXPECT_EQ(made.findings[0].why,
              "is it 0,614, typed with a point? Here a point parts thousands: 614 was read");
    EXPECT_TRUE(review(read_picture(rows).picture).findings.empty());
}

TEST(WorkbookReview, DoubtsWhatAResultCannotBe) {
    const auto doubt = [](const std::string& sheet, std::string_view cell) {
        const PictureText sheets = read_picture(sheet);
        const Review made = review(sheets.picture);
        const Finding* finding = finding_at(made, place(sheets.picture, cell));
        return finding != nullptr && finding->verdict == Verdict::doubtful ? finding->why : std::string();
    };
    const auto says = [](const std::string& why, std::string_view part) {
        EXPECT_NE(why.find(part), std::string::npos) << part << " in: " << why;
    };
    const std::string masses = "A1 | Fresh (kg) | 12\nA2 | Dried (g) | 2000\nA3 | Dried (kg) | 2\n";
    says(doubt(masses + "A4 | Yield | =B2/B1", "B4"), "two units");
    EXPECT_EQ(doubt(masses + "A4 | Yield | =B3/B1", "B4"), "");
    says(doubt(masses + "A4 | Yield (%) | =B1/B3*100", "B4"), "more than the whole");
    says(doubt("A1 | Fresh (kg) | 1.2345\nA2 | Dried (kg) | 2\nA3 | Yield (%) | =B2/B1*100", "B3"),
         "its value, 162, is more than the whole");
    EXPECT_EQ(doubt(masses + "A4 | Yield (%) | =B3/B1*100", "B4"), "");
    says(doubt(masses + "A4 | Drying ratio | =B3/B1", "B4"), "upside down");
    EXPECT_EQ(doubt(masses + "A4 | Drying ratio | =B1/B3", "B4"), "");
    EXPECT_EQ(doubt(masses + "A4 | Drying ratio | =B3/B1+1", "B4"), "");  // no quotient
    says(doubt(masses + "A4 | Fresh per kg of dried (kg/kg) | =B3/B1*1000", "B4"), "upside down");
    says(doubt(masses + "A4 | Fresh per kg of dried (kg/kg) | =B3/B1/2", "B4"), "upside down");
    for (const char* no_quotient : {"=B3/B1*B2", "=B3/B1+1"})
        EXPECT_EQ(doubt(masses + "A4 | Fresh per kg of dried (kg/kg) | " + no_quotient, "B4"), "");
    says(doubt(masses + "A4 | Fresh per kg of dried (kg/kg) | =B3/B1", "B4"), "upside down");
    EXPECT_EQ(doubt(masses + "A4 | Fresh per kg of dried (kg/kg) | =B1/B3", "B4"), "");
    says(doubt(masses + "A4 | Dry solids (kg) | =B3", "B4"), "whole mass is taken for its dry solids");
    says(doubt("A1 | Solids (kg) | 2\nA2 | Dried product (kg) | =B1", "B2"), "taken for the dried product");
    says(doubt("A1 | Power (kW) | 3\nA2 | Enthalpy in | 40\nA3 | Enthalpy out | 60\nA4 | Heater (kW) | "
               "=B1*(B2-B3)",
               "B4"),
         "below nothing");
}

TEST(WorkbookReview, TotalsThatTakeTheirRowOtherwise) {
    const auto of_total = [](std::string_view total) {
        return verdict_at(
            "A1 | Lot | Fresh (kg) | Dried (kg) | Ratio\n"
            "A2:A4 | x | 12 | 3 | =B2/C2\nB3 | 20 | 8\n"
            "A5 | Total | =SUM(B2:B4) | =SUM(C2:C4) | " +
                std::string(total),
            "D5");
    };
    EXPECT_EQ(of_total("=C5/B5"), Verdict::wrong);
    EXPECT_EQ(of_total("=AVERAGE(D2:D4)"), Verdict::doubtful);
    EXPECT_GT(of_total("=B5/C5"), Verdict::doubtful);
}

TEST(WorkbookReview, WhatWaitsForAnAnswerIsNotRefused) {
    const auto verdict = [](const std::string& answer) {
        const PictureText sheets =
            read_picture("A1 | Answer |" + answer +
                         "| x | =IF(LEN(TRIM(B1))=0;\"\";IFERROR(DRY.DRIEDMASS(B1;86;0.1);\"?\"))");
        return review(sheets.picture).findings.at(0).verdict;
    };
    EXPECT_NE(verdict(""), Verdict::wrong);
    EXPECT_EQ(verdict(" 12 "), Verdict::wrong);
}

TEST(WorkbookReview, ThreeCopiesAroundTellAnOddOne) {
    const auto odd_among = [](std::string_view rows, std::string_view odd) {
        const PictureText sheets =
            read_picture("A1 | Fresh (kg) | Dried (g) | Ratio\n" + std::string(rows) +
                         " | t | 30 | 4800 | =B2/(C2/1000)\n" + std::string(odd) + "\nC3 | 4700\nC5 | 4700");
        const Review made = review(sheets.picture);
        return made.findings[0].verdict == Verdict::wrong ? in_words(made.findings[0].cell) : "none";
    };
    EXPECT_EQ(odd_among("A2:A6", "D4 | =B4/(C3/1000)"), "D4");
    EXPECT_EQ(odd_among("A2:A5", "D4 | =B4/(C3/1000)"), "D4");
    EXPECT_EQ(odd_among("A2:A4", "D3 | =B3/(C2/1000)"), "none");
    EXPECT_EQ(odd_among("A2:A6", "D6 | =B6/(C5/1000)"), "D6");  // the last, by one row
    EXPECT_EQ(odd_among("A2:A6", "D6 | =B6/(C3/1000)"), "none");
}

TEST(WorkbookReview, CopiesAreOneRowAndTheOddOneItsOwn) {
    const PictureText sheets = read_picture(R"(
        A1 | Fresh (kg) | Dried (g) | Ratio
        A2:A200 | t | 30 | 4800 | =B2/(C2/1000)
        D90 | =B90/(C89/1000)
        C89 | 4700)");
    const Review made = review(sheets.picture);
    ASSERT_EQ(made.findings.size(), 2U);
    EXPECT_EQ(in_words(made.findings[0].cell), "D90");
    EXPECT_EQ(made.findings[0].verdict, Verdict::wrong);
    EXPECT_EQ(made.findings[0].why,
              "unlike its neighbours: it takes C89 where its neighbours would take C90");
    EXPECT_EQ(made.findings[0].suggested, "=B90/(C90/1000)");
    EXPECT_DOUBLE_EQ(*made.findings[0].would_show, 6.25);  // 30 ÷ 4.8
    EXPECT_EQ(made.findings[1].cells.size(), 198U);
    EXPECT_EQ(made.count[static_cast<std::size_t>(Verdict::wrong)], 1U);
}

TEST(WorkbookReview, CopiesThatShowTexts) {
    const Review made = review(read_picture(R"(
        A1 | Water activity | Keep
        A2:A9 | 0.5 | =IF(A2<0.6;"close";"dry on")
        B5 | =IF(A4<0.6;"close";"dry on"))")
                                   .picture);
    const Finding* finding = finding_at(made, Place{0, 4, 1});
    ASSERT_NE(finding, nullptr);
    EXPECT_EQ(finding->why, "unlike its neighbours: it takes A4 where its neighbours would take A5");
    // a text among formulas parts them: three and four copies tell less than eight
    const Review parted = review(read_picture(R"(
        A2:A9 | 0.5 | =A2*2
        B5 | to be weighed again
        B4 | =A3*2)")
                                     .picture);
    EXPECT_EQ(parted.count[static_cast<std::size_t>(Verdict::wrong)], 0U);
}

TEST(WorkbookReview, ARangeOfMassesInAnotherUnit) {
    const auto verdict = [](const std::string& unit, const std::string& formula) {
        const Review made =
            review(read_picture("A1 | In (kg) | 12 | 0.1\nA2 | Peel (" + unit + ") | 2 | 0.1\nA3 | Stone (" +
                                unit + ") | 3 | 0.1\nB4 | =" + formula)
                       .picture);
        const Finding* finding = finding_at(made, Place{0, 3, 1});
        return finding == nullptr ? Verdict::not_judged : finding->verdict;
    };
    for (const std::string call :
         {"DRY.CLOSURE(B1;C1;B2:B3;C2:C3)", "DRY.PICK(DRY.CLOSURE(B1;C1;B2:B3;C2:C3);\"gap\")"}) {
        EXPECT_EQ(verdict("g", call), Verdict::wrong) << call;
        EXPECT_EQ(verdict("kg", call), Verdict::fine) << call;
    }
}

TEST(WorkbookReview, ARangeThatBeginsOneTooLate) {
    const Review made =
        review(read_picture("A1 | Loss (g)\nB2 | 3\nB3 | 4\nB4 | 5\nB5 | 6\nB6 | =SUM(B3:B5)").picture);
    const Finding* finding = finding_at(made, Place{0, 5, 1});
    ASSERT_NE(finding, nullptr);
    EXPECT_EQ(finding->verdict, Verdict::doubtful);
    EXPECT_EQ(finding->why, "its range leaves out B2, a number of the same block");
    EXPECT_EQ(finding->suggested, "=SUM(B2:B5)");
    EXPECT_EQ(finding->would_show, 18);
    EXPECT_EQ(
        finding_at(review(read_picture("B2 | 3\nB3 | 4\nB4 | 5\nB5 | =SUM(B2:B4)").picture), Place{0, 3, 1}),
        nullptr);
}

TEST(WorkbookReview, LeavesAloneWhatOnlyLooksOdd) {
    for (const std::string_view text :
         {// a first row, a change that lasts, a total under the block, the same by algebra
          "A1:A9 | =B1*2\nB1:B9 | 3\nA1 | 6", "A1:A6 | =B1*2\nA7:A9 | =B7*3\nB1:B9 | 3",
          "A1:A8 | =B1*2\nB1:B8 | 3\nA9 | =SUM(A1:A8)", "A1:A9 | =B1*2\nB1:B9 | 3\nA5 | =2*B5\nA6 | =B6+B6",
          // a row of its own among copies
          "A1:A9 | 3 | =A1*2 | =B1*2\nB5 | =B4+B3 | =C4+C3",
          // five different formulas
          // a number typed beside a mass in kg: in which unit, nothing says
          "A1 | Whole (kg) | 20\nA2 | Peeling yield | =DRY.TRIMYIELD(B1;2)",
          "A1 | =B1*2 | 3\nA2 | =B1+B2 | 4\nA3 | =B3/7 | 5\nA4 | =B4-1 | 6\nA5 | =B5^2 | 7"}) {
        const Review made = review(read_picture(text).picture);
        EXPECT_EQ(made.count[static_cast<std::size_t>(Verdict::wrong)], 0U) << text;
        EXPECT_EQ(made.count[static_cast<std::size_t>(Verdict::doubtful)], 0U) << text;
    }
}

// A mass whose label and format say two units is no ground to call a sum of it wrong.
TEST(WorkbookReview, AUnitInDoubtClashesWithNone) {
    const auto verdict = [](std::string_view peel) {
        return verdict_at("A1 | Whole (kg) | 20\nA2 | " + std::string(peel) +
                              "\nA3 | Peeling yield | =DRY.TRIMYIELD(B1;B2)",
                          "B3");
    };
    EXPECT_EQ(verdict("Peel (g) | 2"), Verdict::wrong);
    EXPECT_NE(verdict("Peel (kg) | 2 {format 0.00\" g\"}"), Verdict::wrong);
    EXPECT_NE(verdict("Peel (g) | 2 {format 0.00\" kg\"}"), Verdict::wrong);
}

// Formulas with a character changed here and there: whatever they have become, the review ends and counts
// them.
TEST(WorkbookReview, StandsWhateverIsWritten) {
    std::mt19937 chance(7);
    const std::string_view signs = "0123456789ABCD:$;()+-*/^&%<>=.\"'{}|#! ";
    for (int round = 0; round < 12; ++round)
        for (const std::string_view text : kCorpus) {
            std::string changed(text);
            for (auto at = changed.find("| ="); at != std::string::npos; at = changed.find("| =", at + 3)) {
                const auto end = changed.find_first_of("|\n", at + 2);
                if (end - at < 5 || chance() % 3 != 0) continue;
                const char sign = signs[chance() % signs.size()];
                changed[at + 3 + chance() % (end - at - 4)] = sign == '|' ? '+' : sign;
            }
            Picture picture;
            try {
                picture = read_picture(changed).picture;
            } catch (const std::runtime_error&) {
                continue;  // no picture any more
            }
            const Reviewed reviewed(picture);
            std::size_t cells = 0, counted = 0;
            for (const Finding& finding : reviewed.review().findings) {
                cells += cells_of(finding).size();
                (void)reviewed.about(finding.cell);
            }
            for (const std::size_t count : reviewed.review().count) counted += count;
            EXPECT_EQ(cells, counted);
        }
}

// Of the processor, so that what else the machine does is left out.
double seconds_of(const Picture& picture, Review& made) {
    const std::clock_t before = std::clock();
    made = review(picture);
    return static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
}

TEST(WorkbookReview, FinishesSoon) {
    std::string text;
    for (int sheet = 0; sheet < 20; ++sheet)
        text += "sheet S" + std::to_string(sheet) +
                "\nA1 | Tray | Fresh (kg) | Moisture in (%) | Moisture out (%) | Solids (kg) | Dried (kg) | "
                "Water (kg) | Yield (%) | Running (kg)\n"
                "A2:A101 | t | 30 | 85 | 10 | =B2*(1-C2/100) | =E2/(1-D2/100) | =B2-F2 | =F2/B2*100 | "
                "=SUM($F$2:F2)\n";
    Review made;
    const double copies = seconds_of(read_picture(text).picture, made);
    EXPECT_EQ(made.count[static_cast<std::size_t>(Verdict::wrong)], 0U);
    EXPECT_EQ(made.findings.size(), 20U * 5U);
    // 10,000 formulas no two of which are alike, and running sums over one long column
    std::string apart = "A1 | Fresh (kg) | Dried (kg) | Rest\n", running = "A1 | Water (g) | so far (g)\n";
    for (int row = 2; row < 10002; ++row) {
        const std::string at = std::to_string(row);
        apart += "A" + at + " | 30 | 4.8 | =A" + at + "*0." + at + "/(B" + at + "+" + at + ")\n";
        running += "A" + at + " | 5 | =SUM(A$2:A" + at + ") {shows 7}\n";
    }
    const double different = seconds_of(read_picture(apart).picture, made);
    const double long_sums = seconds_of(read_picture(running).picture, made);
    std::cout << "10,000 formulas: copies " << copies << " s, all different " << different
              << " s, running sums " << long_sums << " s\n";
#ifdef NDEBUG
    EXPECT_LT(copies, 2);
    EXPECT_LT(different, 4);
    EXPECT_LT(long_sums, 2);
#endif
}

}  // namespace
}  // namespace drysheet::workbook
