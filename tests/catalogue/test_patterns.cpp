#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "addin/boundary/formula_text.hpp"
#include "addin/boundary/patterns.hpp"

namespace drysheet {
namespace {

constexpr Pattern kSmall{.command = "small",
                         .title = "Small",
                         .lines =
                             "Small\n"
                             "Fresh | fresh: 12 | kg | fresh_u: 0.1\n"
                             "Twice | =2*<fresh>+[fresh]&[fresh_u] | kg\n"
                             "at: 1 | {=<at>*2}\n"
                             "at: 2 | ^\n"
                             "Note: [fresh] stays"};

const PatternCell* at(const Block& block, std::string_view where) {
    const auto found = std::find_if(block.cells.begin(), block.cells.end(), [&](const PatternCell& cell) {
        return address(cell.column, cell.row) == where;
    });
    return found == block.cells.end() ? nullptr : &*found;
}

TEST(Patterns, NamesBecomeAddresses) {
    const Block block = placed(kSmall, 25, 9);  // Z10
    EXPECT_EQ(block.columns, 4U);
    EXPECT_EQ(block.rows, 6U);
    ASSERT_NE(at(block, "AA12"), nullptr);
    EXPECT_EQ(at(block, "AA12")->content, "=2*AA11+AA11&\" \"&AB11&AC11&\" \"&AB11");
    EXPECT_TRUE(at(block, "AA11")->input);
    EXPECT_FALSE(at(block, "AA12")->input);
    EXPECT_EQ(at(block, "AA13")->content, "=Z13:Z14*2");
    EXPECT_EQ(at(block, "AA13")->array_rows, 2U);
    EXPECT_EQ(at(block, "AA14"), nullptr);
    EXPECT_EQ(at(block, "Z15")->content, "Note: [fresh] stays");
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
            std::size_t named = 0;
            for (auto i = cell.content.find("DRY."); i != std::string::npos;
                 i = cell.content.find("DRY.", i + 1))
                ++named;
            EXPECT_EQ(calls_in(cell.content).size(), named)
                << cell.content << ": a function that is not there";
        }
        EXPECT_GE(inputs, 4U) << pattern.command;
        EXPECT_GE(formulas, 6U) << pattern.command;
    }
}

}  // namespace
}  // namespace drysheet
