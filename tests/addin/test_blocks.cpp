// SPDX-License-Identifier: MPL-2.0
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "addin/workbook/blocks.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {
namespace {

constexpr Pattern kSmall{.command = "small",
                         .title = "Small",
                         .lines =
                             "\n"
                             "Fresh | fresh: 12 | kg | fresh_u: 0.1\n"
                             "Twice | =2*<fresh>+[fresh]&[fresh_u] | kg\n"
                             "unit: g | unit_at: h\n"
                             "mass: 1 | at: 4 | {=<mass>*2}\n"
                             "mass: | at: 5 | ^\n"
                             "Note: [fresh] stays | =DRY.WATERREMOVED([at if mass];[mass if mass])"};

const PatternCell* at(const Block& block, std::string_view where) {
    const auto found = std::find_if(block.cells.begin(), block.cells.end(), [&](const PatternCell& cell) {
        return address(cell.column, cell.row) == where;
    });
    return found == block.cells.end() ? nullptr : &*found;
}

TEST(Patterns, NamesBecomeAddresses) {
    const Block block = placed(kSmall, 25, 9);  // Z10
    EXPECT_EQ(block.columns, 4U);
    EXPECT_EQ(block.rows, 7U);
    ASSERT_NE(at(block, "Z10"), nullptr);
    EXPECT_EQ(at(block, "Z10")->content, "Small");
    ASSERT_NE(at(block, "AA12"), nullptr);
    EXPECT_EQ(at(block, "AA12")->content, "=2*AA11+AA11&\" \"&AB11&AC11&\" \"&AB11");
    EXPECT_TRUE(at(block, "AA11")->input);
    EXPECT_TRUE(at(block, "AB11")->input) << "the unit of an input may be another";
    EXPECT_FALSE(at(block, "AA12")->input);
    EXPECT_FALSE(at(block, "AB12")->input);
    EXPECT_EQ(at(block, "AB14")->content, "=Z14:Z15*2");
    EXPECT_EQ(at(block, "AB14")->array_rows, 2U);
    EXPECT_EQ(at(block, "AB15"), nullptr);
    EXPECT_EQ(at(block, "Z16")->content, "Note: [fresh] stays");
}

TEST(Patterns, AColumnIsReadWhereAnotherIsFilled) {
    const Block block = placed(kSmall, 0, 0);
    ASSERT_NE(at(block, "A6"), nullptr);
    EXPECT_TRUE(at(block, "A6")->input) << "a blank cell to type into";
    EXPECT_EQ(at(block, "A6")->content, "");
    EXPECT_EQ(at(block, "B7")->content,
              "=DRY.WATERREMOVED(IF(A5:A6=\"\";\"\";B5:B6&\" \"&B4);IF(A5:A6=\"\";\"\";A5:A6&\" \"&A4))");
}

TEST(Patterns, ATableOverTwoInputsIsPlainCellsThatCanBeCopied) {
    const Block block = placed(*find_pattern("two-inputs"), 1, 2);  // B3
    const auto content = [&](std::string_view where) {
        const PatternCell* cell = at(block, where);
        return cell == nullptr ? std::string() : cell->content;
    };
    EXPECT_EQ(content("C8"), "=C6");
    EXPECT_EQ(content("D8"), "=C8+$D$6");
    EXPECT_EQ(content("G8"), "=F8+$D$6");
    EXPECT_EQ(content("B9"), "=C7");
    EXPECT_EQ(content("B15"), "=B14+$D$7");
    EXPECT_EQ(content("C9"), "=DRY.DRIEDMASS($C$5;$B9;C$8)");
    EXPECT_EQ(content("G15"), "=DRY.DRIEDMASS($C$5;$B15;G$8)");
    ASSERT_TRUE(block.chart);
    EXPECT_EQ(address(block.chart->column, block.chart->row), "B8");
    EXPECT_EQ(block.chart->columns, 6U);
    EXPECT_EQ(block.chart->rows, 8U);
    EXPECT_FALSE(placed(*find_pattern("air"), 0, 0).chart);
}

TEST(Patterns, PerCentIsAFraction) {
    constexpr Pattern pattern{
        .command = "percent",
        .title = "Percent",
        .lines = "\nUp to 80 % | start: 96 % | fraction | start_u: 0.5 %\nHalf | =[start]&[start_u] % | %"};
    const Block block = placed(pattern, 0, 0);
    ASSERT_EQ(block.cells.size(), 8U);
    const auto is = [&](std::string_view where, std::string_view content, bool percent) {
        const PatternCell* cell = at(block, where);
        ASSERT_NE(cell, nullptr) << where;
        EXPECT_EQ(cell->content, content) << where;
        EXPECT_EQ(cell->percent, percent) << where;
    };
    is("A2", "Up to 80 %", false);
    is("B2", "0.96", true);
    is("C2", "fraction", false);
    is("D2", "0.005", true);
    is("B3", "=B2&\" \"&C2&D2&\" \"&C2", true);
    is("C3", "%", false);
}

// What is typed as "65 %" is 0.65 to the sheet, which beside the unit "%" would read 0.65 %.
TEST(Patterns, NoNumberStandsBesideAPercentSign) {
    for (const Pattern& pattern : patterns()) {
        const Block block = placed(pattern, 0, 0);
        if (block.chart) continue;  // a table with headings, no units beside its numbers
        for (const PatternCell& cell : block.cells) {
            EXPECT_FALSE(cell.content.starts_with("%")) << pattern.command;
            if (!cell.percent || cell.column != 1) continue;
            const PatternCell* unit = at(block, address(2, cell.row));
            ASSERT_NE(unit, nullptr) << pattern.command;
            EXPECT_TRUE(unit->content.starts_with("fraction")) << pattern.command << ": " << unit->content;
        }
    }
}

TEST(Patterns, TheReasonOfASmallBlock) {
    constexpr Pattern pattern{
        .command = "reason", .title = "Reason", .lines = "\n=reason | =DRY.PICK(DRY.AIRSTATE(1);\"rh\")*2"};
    EXPECT_EQ(
        at(placed(pattern, 0, 0), "A2")->content,
        "=IFERROR(IF(ISERROR(DRY.AIRSTATE(1));DRY.WHY(\"AIRSTATE\";1);NA());"
        "IFERROR(IF(ISERROR(DRY.PICK(DRY.AIRSTATE(1);\"rh\"));DRY.WHY(\"PICK\";DRY.AIRSTATE(1);\"rh\");NA());"
        "IF(OR(ISERROR(B2));\"a cell that the results come from holds an error itself\";\"every result is "
        "fine\")))");
}

bool is_reason(const PatternCell& cell) {
    return cell.content.find("every result is fine") != std::string::npos;
}

TEST(Patterns, TheReasonAsksAboutEveryCallAndWatchesEveryResult) {
    for (const Pattern& pattern : patterns()) {
        const Block block = placed(pattern, 1, 4);
        if (block.chart) continue;  // copies of one formula: the first is asked about
        const auto reason = std::ranges::find_if(block.cells, is_reason);
        ASSERT_NE(reason, block.cells.end()) << pattern.command;
        EXPECT_EQ(std::ranges::count_if(block.cells, is_reason), 1) << pattern.command;
        for (const PatternCell& cell : block.cells) {
            if (&cell == &*reason || !cell.content.starts_with("=")) continue;
            const std::string from = "ISERROR(" + address(cell.column, cell.row);
            EXPECT_NE(reason->content.find(from), std::string::npos) << pattern.command << ": " << from;
            for (const CallText& call : calls_in(cell.content)) {
                std::string question = "DRY.WHY(\"" + std::string(call.function->name) + "\"";
                for (const auto argument : call.arguments) question.append(";").append(argument);
                EXPECT_NE(reason->content.find(question), std::string::npos)
                    << pattern.command << ": " << question;
            }
        }
    }
}

TEST(Patterns, EveryFormulaIsWhole) {
    std::set<std::string_view> commands;
    for (const Pattern& pattern : patterns()) {
        EXPECT_TRUE(commands.insert(pattern.command).second) << pattern.command;
        EXPECT_EQ(find_pattern(pattern.command), &pattern);
        std::size_t inputs = 0, formulas = 0;
        for (const PatternCell& cell : placed(pattern, 1, 4).cells) {
            inputs += cell.input ? 1 : 0;
            if (!cell.content.starts_with("=")) continue;
            ++formulas;
            EXPECT_EQ(cell.content.find_first_of("<[^"), std::string::npos) << cell.content;
            for (const CallText& call : calls_in(cell.content))
                EXPECT_NE(call.function, nullptr) << call.name << " is not there";
        }
        EXPECT_GE(inputs, 4U) << pattern.command;
        EXPECT_GE(formulas, 6U) << pattern.command;
    }
}

}  // namespace
}  // namespace drysheet
