// SPDX-License-Identifier: MPL-2.0
// A table of names and quantities as an argument: how its rows are read, and the sentences of refusals.
#include <gtest/gtest.h>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/why.hpp"
#include "addin/call/working.hpp"

namespace drysheet {
namespace {

using Rows = std::vector<Input>;

const Rows kTest{"raw",   "5 kg", "",   "prepared",  4000.0, "g", "start moisture", "80 %", "",
                 "dried", 1.0,    "kg", "tray area", 1.0,    "",  "thickness",      "5 mm", "",
                 "temp",  140.0,  "°F", "rh",        "10 %", "",  "drying time",    360.0,  "min"};
const Rows kTarget{"wanted",      "100 kg", "days",      25.0, "tray size", 0.5, "turnaround",        2.0,
                   "hours a day", 16.0,     "room temp", 25.0, "room rh",   0.6, "raw price",         2.0,
                   "tariff",      0.2,      "wage",      4.0,  "labour",    3.0, "activation energy", 30.0};

Input three(Rows rows, const Rows& more = {}) {
    rows.insert(rows.end(), more.begin(), more.end());
    return {std::move(rows), 3};
}
double row(const Outcome& outcome, std::string_view name) {
    const Table& table = std::get<Table>(outcome);
    for (std::size_t i = 0; i < table.rows(); ++i)
        if (std::get<std::string>(table.at(i, 0)) == name) return std::get<double>(table.at(i, 1));
    ADD_FAILURE() << "no row " << name;
    return 0;
}
Outcome plan(const Input& test, Reading reading = {}) {
    return evaluate(*find_function("SCALEPLAN"), std::vector<Input>{test, Input(kTarget, 2)}, reading);
}
std::string why_of(const Input& test) {
    return why(*find_function("SCALEPLAN"), std::vector<Input>{test, Input(kTarget, 2)}, {});
}
bool says(const std::string& sentence, std::string_view part) {
    return sentence.find(part) != std::string::npos;
}

TEST(Tables, UnitsBesideOrInTheValue) {
    const Outcome outcome = plan(three(kTest));
    EXPECT_NEAR(row(outcome, "prepared"), 400, 1e-9);
    EXPECT_NEAR(row(outcome, "dryer temp"), 60, 1e-9);
    EXPECT_NEAR(row(outcome, "test time"), 6, 1e-12);
}
TEST(Tables, AnyOrderAnyCaseBlankRowsAndUnfilledOnes) {
    Rows turned;
    for (std::size_t i = kTest.size(); i >= 3; i -= 3)
        for (std::size_t k = i - 3; k < i; ++k) turned.push_back(kTest[k]);
    turned[0] = Input(" Drying Time ");
    const Outcome outcome = plan(three(turned, {"", "", "", "final moisture", "", "", "model", "", ""}));
    EXPECT_NEAR(row(outcome, "raw"), 500, 1e-9);
    EXPECT_NEAR(row(outcome, "end moisture"), 0.2, 1e-12);
}
TEST(Tables, ANumberWithAUnitBesideItIsExactInEveryLocale) {
    Rows rows = kTest;
    rows[3 * 4 + 1] = 1.125;  // 1.125 m²: in a comma locale the text 1.125 would be ambiguous
    rows[3 * 4 + 2] = "m²";
    EXPECT_NEAR(row(plan(three(rows), {.decimal_comma = true}), "load"), 4 / 1.125, 1e-12);
}
TEST(Tables, SentencesNameTableRowAndWhatWasMeant) {
    EXPECT_TRUE(says(why_of(three(kTest, {"tray aera", 1.0, ""})), "perhaps \"tray area\""))
        << why_of(three(kTest, {"tray aera", 1.0, ""}));
    EXPECT_TRUE(says(why_of(three(kTest, {"raw", 1.0, ""})), "there twice"));
    EXPECT_TRUE(says(why_of(three(kTest, {"", 1.0, ""})), "is not a name"));
    Rows rows = kTest;
    rows[1] = Input("");
    EXPECT_TRUE(says(why_of(three(rows)), "test table, raw: is missing")) << why_of(three(rows));
    rows = kTest;
    rows[2] = Input("m²");
    rows[1] = 5.0;
    EXPECT_TRUE(says(why_of(three(rows)), "test table, raw: \"5 m²\" is not a mass")) << why_of(three(rows));
    rows = kTest;
    rows[4] = 6000.0;  // refused by the core, in the sheet's words
    EXPECT_TRUE(says(why_of(three(rows)), "test table, prepared: 6000 g is above the 5000 g"))
        << why_of(three(rows));
    rows[1] = Input(Rows{1.0});
    EXPECT_TRUE(says(why_of(5.0), "test: a table is wanted"));
}
TEST(Tables, WorkingListsWhatWasGiven) {
    const std::vector<Input> typed{three(kTest), Input(kTarget, 2)};
    const Working made = working(read(*find_function("SCALEPLAN"), typed, {}));
    EXPECT_NE(std::ranges::find(made.lines, "temp = 140, °F"), made.lines.end());
    EXPECT_TRUE(std::ranges::any_of(made.lines,
                                    [](const std::string& line) { return says(line, "authority decide"); }));
    EXPECT_TRUE(std::ranges::any_of(
        made.lines, [](const std::string& line) { return line.starts_with("raw = 500, kg, DRY.RAWFOR"); }));
}

TEST(TableArgument, NamesANearNameAndNoFarOne) {
    EXPECT_TRUE(says(why_of(three({"thicknes", "5 mm", ""}, kTest)), "perhaps \"thickness\""));
    EXPECT_TRUE(says(why_of(three({"thicknxy", "5 mm", ""}, kTest)), "perhaps \"thickness\""));
    EXPECT_FALSE(says(why_of(three({"thickxyz", "5 mm", ""}, kTest)), "perhaps"));  // half of it is another
    const std::string far = why_of(three({"zzzzzzzz", "5 mm", ""}, kTest));
    EXPECT_TRUE(says(far, "is not a name known here")) << far;
    EXPECT_FALSE(says(far, "perhaps")) << far;
}

TEST(Pick, SaysWhatIsMissing) {
    const auto refused = [](const std::vector<Input>& given) {
        try {
            evaluate(*find_function("PICK"), given, {});
        } catch (const Refusal& refusal) {
            return std::string(refusal.argument());
        }
        return std::string("not refused");
    };
    const Input table(Rows{"mean", 1.0, "sd", 2.0}, 2);
    EXPECT_EQ(refused({table, "mean"}), "not refused");
    EXPECT_EQ(refused({table, ""}), "row");
    EXPECT_EQ(refused({table}), "row");
    EXPECT_EQ(refused({table, "median"}), "row");
    EXPECT_EQ(refused({table, "mean", 3.0}), "column");
    EXPECT_EQ(refused({table, "mean", 1.5}), "column");
    EXPECT_EQ(refused({"mean", "mean"}), "table");
}

}  // namespace
}  // namespace drysheet
