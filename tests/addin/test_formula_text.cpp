// SPDX-License-Identifier: MPL-2.0
#include <gtest/gtest.h>

#include "addin/workbook/formula_text.hpp"

namespace drysheet {
namespace {

std::vector<std::string> arguments(std::string_view formula, std::size_t call = 0) {
    const auto calls = calls_in(formula);
    if (call >= calls.size()) return {"no such call"};
    return {calls[call].arguments.begin(), calls[call].arguments.end()};
}
using Texts = std::vector<std::string>;

TEST(FormulaText, FindsACallAndItsArguments) {
    const auto calls = calls_in("=DRY.DRIEDMASS(B2; 0.8 ;B4)*2");
    ASSERT_EQ(calls.size(), 1U);
    EXPECT_EQ(calls[0].function->name, "DRIEDMASS");
    EXPECT_EQ(calls[0].whole, "DRY.DRIEDMASS(B2; 0.8 ;B4)");
    EXPECT_EQ(arguments("=DRY.DRIEDMASS(B2; 0.8 ;B4)*2"), (Texts{"B2", "0.8", "B4"}));
}

TEST(FormulaText, FindsNestedCallsOuterFirst) {
    const auto calls = calls_in("=IF(A1>1;DRY.DRYBASIS(DRY.WETBASIS((A2+4)*2));0)");
    ASSERT_EQ(calls.size(), 2U);
    EXPECT_EQ(calls[0].function->name, "DRYBASIS");
    EXPECT_EQ(calls[1].function->name, "WETBASIS");
    EXPECT_EQ(calls[0].arguments.at(0), "DRY.WETBASIS((A2+4)*2)");
    EXPECT_EQ(calls[1].arguments.at(0), "(A2+4)*2");
}

TEST(FormulaText, LeavesTextsAndSheetNamesAlone) {
    EXPECT_TRUE(calls_in("=\"DRY.DRIEDMASS(1;2;3)\"").empty());
    EXPECT_TRUE(calls_in("='DRY.DRIEDMASS('.A1").empty());
    EXPECT_TRUE(calls_in("=MY.DRIEDMASS(1)+DRIEDMASS(2)").empty());
    EXPECT_EQ(arguments("=DRY.DRYBASIS(A1&\" %;)\"\"\")"), (Texts{"A1&\" %;)\"\"\""}));
}

// Calc writes a name that it does not know in lower case.
TEST(FormulaText, FindsAMisspeltName) {
    const auto calls = calls_in("=DRY.DRYBASIS(dry.nosuch(1;\"dry.nosuch(\"))");
    ASSERT_EQ(calls.size(), 2U);
    EXPECT_EQ(calls[0].function->name, "DRYBASIS");
    EXPECT_EQ(calls[1].function, nullptr);
    EXPECT_EQ(calls[1].name, "dry.nosuch");
    EXPECT_EQ(calls[1].arguments.size(), 2U);
}

TEST(FormulaText, KeepsLeftOutArgumentsAndInlineArrays) {
    EXPECT_EQ(arguments("=DRY.DRIEDMASS(1;;3)"), (Texts{"1", "", "3"}));
    EXPECT_EQ(arguments("=DRY.DRIEDMASS(;)"), (Texts{"", ""}));
    EXPECT_EQ(arguments("=DRY.FUNCTIONS()"), Texts{});
    EXPECT_EQ(arguments("=DRY.REPLICATES({1;2|3;4};0.9)"), (Texts{"{1;2|3;4}", "0.9"}));
}

TEST(FormulaText, SeenFromAnotherSheet) {
    const auto seen = [](std::string_view text) { return on_sheet(text, "It's wet"); };
    EXPECT_EQ(seen("B2"), "$'It''s wet'.$B$2");
    EXPECT_EQ(seen("$B$2:C7"), "$'It''s wet'.$B$2:C7");
    EXPECT_EQ(seen("A:A"), "$'It''s wet'.A:A");
    EXPECT_EQ(seen("2:$3"), "$'It''s wet'.2:$3");
    EXPECT_EQ(seen("LOG10(B2)&\" B3\""), "LOG10($'It''s wet'.$B$2)&\" B3\"");
    EXPECT_EQ(seen("Other.A1+$'A ''b'.B2:C3+100000+1E5+rate"), "Other.A1+$'A ''b'.B2:C3+100000+1E5+rate");
    EXPECT_EQ(seen("{1;2}"), "{1;2}");
    EXPECT_EQ(seen("IF(TRUE();A1;B)"), "IF(TRUE();$'It''s wet'.$A$1;B)");
}

TEST(FormulaText, SingleCellsOfAnExpression) {
    const auto cells = cells_in("B2&\" \"&$C$3+SUM(D4:D5)+$'It''s wet'.AA10+LOG10(7)");
    ASSERT_EQ(cells.size(), 3U);
    EXPECT_EQ(cells[0].text, "B2");
    EXPECT_EQ(cells[0].column, 1U);
    EXPECT_EQ(cells[0].row, 1U);
    EXPECT_EQ(cells[1].text, "$C$3");
    EXPECT_EQ(cells[2].sheet, "It's wet");
    EXPECT_EQ(cells[2].column, 26U);
    EXPECT_EQ(cells[2].row, 9U);
}

TEST(FormulaText, ColumnsOfThreeLetters) {
    // The last column of a sheet of 16,384: XFD.
    EXPECT_EQ(address(25, 0), "Z1");
    EXPECT_EQ(address(26, 0), "AA1");
    EXPECT_EQ(address(701, 8), "ZZ9");
    EXPECT_EQ(address(702, 8), "AAA9");
    EXPECT_EQ(address(16383, 1048575), "XFD1048576");
    EXPECT_EQ(on_sheet("AAA1+XFD1048576+SUM(AMJ:AMJ)", "S"),
              "$'S'.$AAA$1+$'S'.$XFD$1048576+SUM($'S'.AMJ:AMJ)");
    const auto cells = cells_in("XFD7*AAA10");
    ASSERT_EQ(cells.size(), 2U);
    EXPECT_EQ(cells[0].column, 16383U);
    EXPECT_EQ(cells[1].column, 702U);
    EXPECT_EQ(on_sheet("ABCD1", "S"), "ABCD1");  // a name
}

// Whatever a cell holds, the reader ends.
TEST(FormulaText, UnfinishedTextIsNoTrouble) {
    for (const auto* text :
         {"", "=", "=DRY.DRIEDMASS(", "=DRY.DRIEDMASS(1;\"a", "=)))", "='", "=\"", "={}})"}) {
        EXPECT_NO_THROW(calls_in(text)) << text;
        EXPECT_NO_THROW(on_sheet(text, "S")) << text;
        EXPECT_NO_THROW(cells_in(text)) << text;
    }
}

}  // namespace
}  // namespace drysheet
