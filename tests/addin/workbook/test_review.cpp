// Reviews of whole workbooks: what is found of planted mistakes, and what is called wrong without being so.
#include <gtest/gtest.h>

#include <chrono>
#include <iostream>
#include <map>
#include <random>

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

TEST(WorkbookReview, FindsWhatIsPlantedAndLittleElse) {
    std::map<std::string, std::pair<int, int>> classes;  // found, planted
    int formulas = 0, right = 0, found = 0, planted = 0, falsely = 0;
    for (const std::string_view text : kCorpus) {
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
    std::cout << "found " << found << " of " << planted << ", falsely wrong " << falsely << " of " << right
              << " right formulas, " << formulas << " in all\n";
    EXPECT_GE(10 * found, 8 * planted);
    EXPECT_LE(200 * falsely, right);
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

TEST(WorkbookReview, FinishesSoon) {
    std::string text;
    for (int sheet = 0; sheet < 20; ++sheet)
        text += "sheet S" + std::to_string(sheet) +
                "\nA1 | Tray | Fresh (kg) | Moisture in (%) | Moisture out (%) | Solids (kg) | Dried (kg) | "
                "Water (kg) | Yield (%) | Running (kg)\n" +
                "A2:A101 | t | 30 | 85 | 10 | =B2*(1-C2/100) | =E2/(1-D2/100) | =B2-F2 | =F2/B2*100 | "
                "=SUM($F$2:F2)\n";
    const Picture picture = read_picture(text).picture;
    const auto before = std::chrono::steady_clock::now();
    const Review made = review(picture);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
    std::cout << "10,000 formulas: " << seconds << " s\n";
    EXPECT_LT(seconds, 2);
    EXPECT_EQ(made.count[static_cast<std::size_t>(Verdict::wrong)], 0U);
    EXPECT_EQ(made.findings.size(), 20U * 5U);
}

}  // namespace
}  // namespace drysheet::workbook
