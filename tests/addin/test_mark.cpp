// SPDX-License-Identifier: MPL-2.0
// DRY.MARK over the slips that students make, and DRY.IN round the unit table.
#include <gtest/gtest.h>

#include <cmath>

#include "addin/call/call.hpp"
#include "addin/call/convert.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"

namespace drysheet {
namespace {

std::string marked(const Input& answer, const Input& expected, const Input& tolerance = {}) {
    return mark(answer, expected, tolerance, {});
}

TEST(Mark, RightInEverySpelling) {
    const struct {
        Input answer, expected;
    } pairs[] = {{25.2, 25.01},
                 {"25.01", 25.01},
                 {25.0, 25.0},
                 {"0.025 kg", "25 g"},
                 {"80 %", 0.8},
                 {"84 %", 84.0},
                 {0.84, "84 %"},
                 {83.9, "83.9 %"},
                 {"0.82", "0.82 fraction"},
                 {"82 %", "0.82 fraction"},
                 {"0.225", "22.5 % wb"},
                 {"4 db", "80 % wb"},
                 {"80 % wb", "4 db"},
                 {"5.2 kg water/kg dry solids", 5.2},
                 {"5.2 kg water/kg dry solids", "5.2 db"},
                 {"5.2 kg Wasser/kg TS", "5.2 db"},
                 {"5.2 kg of water/kg dry matter", "5.2 kg/kg db"},
                 {"0.0147 kg water/kg dry air", 0.0147},
                 {"140 °F", "60 °C"},
                 {"333.15 K", "60 °C"},
                 {"60.4 °C", "60 °C"},
                 {"0.3 °C", "0 °C"},
                 {"31.0 kg", "31 kg"},
                 {"31000 g", "31 kg"},
                 {"90 min", "1.5 h"},
                 {"19 h 54 min", "19.9 h"},
                 {"19:54", "19.9 h"},
                 {"19:54:00 h", "19.9 h"},
                 {"2 lb 3 oz", "992.2 g"},
                 {"1.35 × 10^-3", 0.001351},
                 {"1.35·10⁻³ kg", "1.35 g"},
                 {"1.35 x 10-3", 0.001351},
                 {"1.35e-3", 0.001351},
                 {"1.35 kg/m²h", "1.35 kg/(m²·h)"},
                 {"1.35 kg/m2 h", "1.35 kg/(m²·h)"},
                 {"1.35 kg m-2 h-1", "1.35 kg/(m²·h)"},
                 {"64 trays", 64.0},
                 {64.0, "64 trays"},
                 {0.0, 0.0}};
    for (const auto& [answer, expected] : pairs)
        EXPECT_EQ(marked(answer, expected), "right")
            << answer.text << " " << answer.number << " " << expected.text;
    EXPECT_EQ(mark("1,35 × 10^-3", 0.001351, {}, {.decimal_comma = true}), "right");
    EXPECT_EQ(marked(25.05, 25.01, 0.002), "right");
    EXPECT_EQ(marked("61 °C", "60 °C", "1.5 K"), "right");
    EXPECT_EQ(marked("61.9 °C", "60 °C", "2 °F"), "close: 61.9 °C is 1.9 K off");
}

// A plain right answer does not say its unit: every unit that a function gives counts, and the mark says so.
TEST(Mark, UnclearWhereTheRightAnswerHasNoUnit) {
    EXPECT_EQ(marked("1.962 kg", 1.962),
              "unclear: right if the right answer is in kg; give it with its unit");
    EXPECT_EQ(marked("15 min", 15.0), "unclear: right if the right answer is in min; give it with its unit");
    EXPECT_EQ(marked("0.025 kg", 25.0), "unclear: right if the right answer is in g; give it with its unit");
    EXPECT_EQ(marked("48 h", 2.0), "unclear: right if the right answer is in day; give it with its unit");
    EXPECT_EQ(marked("140 °F", 60.0), "unclear: right if the right answer is in °C; give it with its unit");
    EXPECT_EQ(marked("4 db", 0.8),
              "unclear: right if the right answer is on the wet basis; give it with its basis");
    EXPECT_EQ(marked(0.4375, "10.5 h"),
              "unclear: right if the cell holds a clock time; give it with its unit");
    for (const Function& function : functions()) {
        const auto unit = read_unit(function.result_unit);
        const std::string said = marked("31 " + std::string(function.result_unit), 31.0);
        EXPECT_EQ(said, !unit || unit->dimension == Dimension{}
                            ? "right"
                            : "unclear: right if the right answer is in " +
                                  std::string(function.result_unit) + "; give it with its unit")
            << function.name;
    }
    EXPECT_EQ(marked(31.0, "31 kg"), "unit missing: the number is right in kg");
}

TEST(Mark, SaysWhatTheNumbersAreToEachOther) {
    const struct {
        Input answer, expected;
        std::string_view verdict;
    } marks[] = {{24.4, 25.0, "close: 24.4 is 2.4 % off"},
                 {25.2, 25.0, "close: 25.2 is 0.8 % off"},
                 {63.49, 64.0, "close: 63.49 is 0.797 % off"},
                 {169.0, 170.0, "close: 169 is 0.588 % off"},
                 {26.0, 25.0, "close: 26 is 4 % off"},
                 {27.0, 25.0, "wrong"},
                 {"31.5 kg", "30.62 kg", "close: 31.5 kg is 2.87 % off"},
                 {"62 °C", "60 °C", "close: 62 °C is 2 K off"},
                 {"335.15 K", "60 °C", "close: 62 °C is 2 K off"},
                 {"63 °C", "60 °C", "wrong"},
                 {"63.49 trays", 64.0, "wrong: not rounded up"},
                 {169.0, "170 batches", "wrong: a count is exact"},
                 {4.0, 0.8, "wrong basis: this would be right on the dry basis"},
                 {400.0, 80.0, "wrong basis: this would be right on the dry basis"},
                 {0.8, 4.0, "wrong basis: this would be right on the wet basis"},
                 {80.0, 400.0, "wrong basis: this would be right on the wet basis"},
                 {6.0, "5.666667 kg/kg", "wrong"},
                 {8.39, 0.839, "wrong"},
                 {85.0, 0.85, "wrong unit: 100 times too large, as is a percentage for a fraction"},
                 {0.85, 85.0, "wrong unit: 100 times too small, as is a fraction for a percentage"},
                 {0.15, 0.85, "wrong: this and the right answer make a whole"},
                 {25000.0, 25.0, "wrong unit: 1000 times too large, as with g for kg"},
                 {0.025, 25.0, "wrong unit: 1000 times too small, as with kg for g"},
                 {"25 kg", "25 g", "wrong unit: 1000 times too large, as with g for kg"},
                 {31.0, "31000 g", "wrong unit: 1000 times too small, as with kg for g"},
                 {"150 g", "1.5 g", "wrong"},
                 {"1.5 g", "150 g", "wrong"},
                 {"90 h", "1.5 h", "wrong unit: 60 times too large, as with minutes for hours"},
                 {"140 °C", "60 °C", "wrong unit: this is the right temperature in °F"},
                 {"333.15 °C", "60 °C", "wrong unit: this is the right temperature in K"},
                 {0.15, 6.667, "wrong: this is 1 over the right answer"},
                 {-25.0, 25.0, "wrong: the sign is the other way round"},
                 {"25 min", "25 g", "wrong unit: it measures something else"},
                 {"22.5 g", "0.225 fraction", "wrong unit: it measures something else"},
                 {17.0, 25.0, "wrong"},
                 {1.0, 0.0, "wrong"},
                 {0.0, 25.0, "no answer yet"},
                 {"", 25.0, "no answer yet"},
                 {Input(), 25.0, "no answer yet"},
                 {"0 g", "25 g", "wrong"},
                 {"80 % wb", "4.2 kg/kg db", "close: 4 is 4.76 % off"}};
    for (const auto& [answer, expected, verdict] : marks)
        EXPECT_EQ(marked(answer, expected), verdict)
            << answer.text << " " << answer.number << " for " << expected.text << " " << expected.number;
}

TEST(Mark, RefusesWhatIsNoAnswer) {
    for (const Input& rubbish :
         {Input("about 25"), Input("25 zorkmid"), Input("1:2:3:4"), Input("19 h 54 kg")})
        EXPECT_THROW((void)marked(rubbish, 25.0), Refusal) << rubbish.text;
    EXPECT_THROW((void)marked(25.0, 25.0, "0.3 K"), Refusal);
    EXPECT_THROW((void)marked(25.0, 25.0, -0.1), Refusal);
}

// A right answer is never called wrong, whatever its size.
TEST(Mark, RightWinsOverEverySlip) {
    for (int power = -26; power < 26; ++power)
        for (const double sign : {1.0, -1.0})
            for (const double off : {-0.009, 0.0, 0.009}) {
                const double e = sign * 1.01 * std::pow(1.7, power);
                EXPECT_EQ(marked(e * (1 + off), e), "right") << e;
            }
}

TEST(Convert, ThereAndBackForEveryUnit) {
    for (const NamedUnit& named : vocabulary()) {
        const std::string name(named.spellings.substr(0, named.spellings.find(' ')));
        for (const NamedUnit& other : vocabulary()) {
            if (other.dimension != named.dimension) continue;
            const std::string to(other.spellings.substr(0, other.spellings.find(' ')));
            const double there = convert(12.5, to.c_str(), name.c_str(), {});
            const double back = convert(there, name.c_str(), to.c_str(), {});
            EXPECT_LE(std::abs(back - 12.5), 1e-9) << name << " " << to;
        }
    }
}

}  // namespace
}  // namespace drysheet
