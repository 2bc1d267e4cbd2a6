// DRY.MARK over the slips that students make, and DRY.IN round the unit table.
#include <gtest/gtest.h>

#include <cmath>

#include "addin/call/call.hpp"
#include "addin/call/convert.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"

namespace drysheet {
namespace {

std::string marked(const Input& answer, const Input& expected, double tolerance = 0.01) {
    return mark(answer, expected, tolerance, {});
}
bool begins(const std::string& text, std::string_view part) { return text.starts_with(part); }

TEST(Mark, RightWithinTolerance) {
    for (const Input& answer : {Input(25.0), Input(25.2), Input("25"), Input("25 g"), Input("0.025 kg")})
        EXPECT_EQ(marked(answer, 25.0), "right");
    EXPECT_EQ(marked("80 %", 0.8), "right");
    EXPECT_EQ(marked("4 db", "80 % wb"), "right");
    EXPECT_EQ(marked("80 % wb", "4 db"), "right");
    EXPECT_EQ(marked("140 °F", "60 °C"), "right");
    EXPECT_EQ(marked("140 °F", 60.0), "right");
    EXPECT_EQ(marked(140.0, "140 °F"), "right");  // a plain answer is in the unit asked for
    EXPECT_EQ(marked("31.0 kg", "31 kg"), "right");
    EXPECT_EQ(marked(31.0, "31 kg"), "right");
    EXPECT_EQ(marked("31000 g", "31 kg"), "right");
    EXPECT_EQ(marked("0.82", "0.82 fraction"), "right");
    EXPECT_EQ(marked("82 %", "0.82 fraction"), "right");
    EXPECT_EQ(marked("90 min", 1.5), "right");
    EXPECT_EQ(marked("0.225", "22.5 % wb"), "right");
    EXPECT_EQ(marked(0.0, 0.0), "right");
    EXPECT_EQ(marked(25.05, 25.0, 0.001), "right, but rounded early: 25.05 is 0.2 % off");
}

// A plain right answer does not say its unit: every unit that a function gives counts, and the mark says so.
TEST(Mark, RightInTheUnitOfEveryFunction) {
    EXPECT_EQ(marked("1.5 kWh/kg", 1.5),
              "unclear: right if the right answer is in kWh/kg; give it with its unit");
    EXPECT_EQ(marked("46.8 days", 46.8),
              "unclear: right if the right answer is in day; give it with its unit");
    EXPECT_EQ(marked("48 h", 2.0), "unclear: right if the right answer is in day; give it with its unit");
    EXPECT_EQ(marked("1500 m", 1500.0), "unclear: right if the right answer is in m; give it with its unit");
    EXPECT_EQ(marked("48 h", 48.0), "right");
    for (const Function& function : functions()) {
        const std::string said = marked("31 " + std::string(function.result_unit), 31.0);
        EXPECT_TRUE(said == "right" || begins(said, "unclear: right if")) << function.name << ": " << said;
    }
}

TEST(Mark, EachSlipByName) {
    const struct {
        Input answer, expected;
        std::string_view verdict;
    } slips[] = {{24.4, 25.0, "right, but rounded early"},
                 {26.0, 25.0, "wrong"},
                 {4.0, 0.8, "wrong basis: this is the dry basis"},
                 {400.0, 0.8, "wrong basis: this is the dry basis"},  // 400 % db
                 {400.0, 80.0, "wrong basis: this is the dry basis"},
                 {0.8, 4.0, "wrong basis: this is the wet basis"},
                 {80.0, 400.0, "wrong basis: this is the wet basis"},
                 {85.0, 0.85, "percent for fraction"},
                 {0.85, 85.0, "fraction for percent"},
                 {0.15, 0.85, "the other share"},
                 {25000.0, 25.0, "wrong unit: 1000 times too large"},
                 {0.025, 25.0, "wrong unit: 1000 times too small"},
                 {90.0, 1.5, "wrong unit: 60 times too large"},
                 {2500.0, 25.0, "wrong unit: 100 times too large"},
                 {1.0, 150.0, "wrong"},
                 {"25 kg", 25.0, "wrong unit: 1000 times too large"},
                 {"2500 g", "25 g", "wrong"},
                 {55.115566, 25.0, "wrong unit: lb for kg"},
                 {140.0, 60.0, "wrong unit: °F for °C"},
                 {333.15, 60.0, "wrong unit: K for °C"},
                 {0.15, 6.667, "inverted"},
                 {-25.0, 25.0, "wrong sign"},
                 {2.66, "63.84 kg", "wrong"},
                 {3.0, "180 g", "wrong"},
                 {"22.5 g", 0.225, "wrong"},
                 {0.29, "22.5 % wb", "wrong"},
                 {"25 min", "25 g", "wrong unit: it measures something else"},
                 {17.0, 25.0, "wrong"},
                 {1.0, 0.0, "wrong"},
                 {0.0, 25.0, "no answer yet"},
                 {"", 25.0, "no answer yet"},
                 {Input(), 25.0, "no answer yet"},
                 {"0 g", 25.0, "wrong"},
                 {31.0, "31000 g", "wrong unit: 1000 times too small"},
                 {82.0, "0.82 fraction", "percent for fraction"},
                 {"80 % wb", "4 kg/kg", "wrong basis: this is the wet basis"},
                 {"31.5 kg", "30.62 kg", "right, but rounded early: 31.5"}};
    for (const auto& [answer, expected, verdict] : slips) {
        const std::string said = marked(answer, expected);
        EXPECT_TRUE(begins(said, verdict)) << said << " for " << verdict;
    }
}

// A right answer is never called wrong, whatever its size.
TEST(Mark, RightWinsOverEverySlip) {
    for (int power = -26; power < 26; ++power)
        for (const double sign : {1.0, -1.0})
            for (const double off : {-0.009, 0.0, 0.009}) {
                const double e = sign * std::pow(1.7, power);
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
