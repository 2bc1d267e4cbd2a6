// SPDX-License-Identifier: MPL-2.0
// DRY.SOLVEFOR: against each inverse there is, over every argument of every function, and its steps.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <sstream>

#include "addin/call/lookup.hpp"
#include "addin/call/solve.hpp"
#include "addin/call/why.hpp"
#include "addin/call/working.hpp"

namespace drysheet {
namespace {

double given(std::string_view name, const std::vector<Input>& arguments) {
    return std::get<double>(evaluate(*find_function(name), arguments, {}));
}
double solved(const Input& wanted, std::string_view name, const std::vector<Input>& arguments) {
    return solve(wanted, *find_function(name), arguments, {}).value;
}
std::string refused(const Input& wanted, std::string_view name, const std::vector<Input>& arguments) {
    try {
        solve(wanted, *find_function(name), arguments, {});
    } catch (const Refusal& refusal) {
        return refusal.what();
    }
    return "not refused";
}

TEST(Solve, AgreesWithEachInverse) {
    const Input gab = column(0.1, 10.0, 0.9), page = column(0.4, 1.1);
    const struct {
        const char *function, *inverse;
        std::vector<Input> arguments;  // of the function; the one that the inverse gives is "?"
        Input wanted;
        std::vector<Input> of_inverse;
    } cases[] = {
        {"DRYBASIS", "WETBASIS", {"?"}, 4.0, {4.0}},
        {"DRIEDMASS", "FINALMOISTURE", {412.5, 0.865, "?"}, 61.2, {412.5, 0.865, 61.2}},
        {"FINALMOISTURE", "DRIEDMASS", {412.5, 0.865, "?"}, 0.08, {412.5, 0.865, 0.08}},
        {"DRIEDMASS", "FRESHFOR", {"?", 0.865, 0.08}, 61.2, {61.2, 0.865, 0.08}},
        {"DRIEDMASS", "STARTMOISTURE", {412.5, "?", 0.08}, 61.2, {412.5, 61.2, 0.08}},
        {"RAWFOR", "DRIEDFROM", {"?", 7.0, 0.8, 0.95}, 9000.0, {9000.0, 7.0, 0.8, 0.95}},
        {"WETBULB", "RHFROMWETBULB", {60.0, "?"}, 30.0, {60.0, 30.0}},
        {"RHFROMWETBULB", "WETBULB", {60.0, "?"}, 0.2, {60.0, 0.2}},
        {"RHFROMWETBULB", "WETBULB", {5.0, "?"}, 0.9, {5.0, 0.9}},
        {"DEWPOINT", "RHFROMDEWPOINT", {60.0, "?"}, 30.0, {60.0, 30.0}},
        {"RHFROMDEWPOINT", "DEWPOINT", {60.0, "?"}, 0.2, {60.0, 0.2}},
        {"HUMIDITYRATIO", "RELHUMIDITY", {60.0, "?"}, 0.02, {60.0, 0.02}},
        {"RELHUMIDITY", "HUMIDITYRATIO", {60.0, "?"}, 0.3, {60.0, 0.3}},
        {"SORPTION", "WATERACTIVITY", {"GAB", "?", gab}, 0.2, {"GAB", 0.2, gab}},
        {"WATERACTIVITY", "SORPTION", {"GAB", "?", gab}, 0.5, {"GAB", 0.5, gab}},
        {"CURVE", "CURVETIME", {"Page", "?", page}, 0.1, {"Page", 0.1, page}},
        {"CURVETIME", "CURVE", {"Page", "?", page}, 5.0, {"Page", 5.0, page}},
        {"SHELFDAYS",
         "BARRIERFOR",
         {"100 g", 0.05, 0.09, "GAB", gab, 0.05, "?", 30.0, 0.75},
         180.0,
         {180.0, "100 g", 0.05, 0.09, "GAB", gab, 0.05, 30.0, 0.75}},
        {"GLASSPOINT", "CAKINGMOISTURE", {"?", 60.0, 5.0}, 25.0, {25.0, 60.0, 5.0}},
        {"BLENDSHARE", "BLENDMOISTURE", {0.05, 0.2, "?"}, 0.25, {column(1.0, 3.0), column(0.05, 0.2)}},
    };
    for (const auto& [function, inverse, arguments, wanted, of_inverse] : cases) {
        const double expected = given(inverse, of_inverse), got = solved(wanted, function, arguments);
        EXPECT_LE(std::abs(got - expected), 1e-7 * std::abs(expected))
            << function << " " << got << " " << expected;
    }
    // The moisture that a drying time reaches, by the curve and the basis.
    const double target = solved(6.0, "DRYINGTIME", {0.86, "?", 0.05, "Page", page});
    const double ratio = given("CURVE", {"Page", 6.0, page});
    EXPECT_NEAR(given("DRYBASIS", {target}),
                ratio * (given("DRYBASIS", {0.86}) - given("DRYBASIS", {0.05})) + given("DRYBASIS", {0.05}),
                1e-9);
}

TEST(Solve, UnitsAndBases) {
    EXPECT_NEAR(solved("1 kg", "DRIEDMASS", {"? lb", 0.8, 0.2}), 4 / 0.45359237,
                1e-10);                                                         // by hand: 1 × 0.8 ÷ 0.2
    EXPECT_NEAR(solved(25.0, "DRIEDMASS", {100.0, "? % db", 0.2}), 400, 1e-8);  // 80 % wb is 4 db
    EXPECT_NEAR(solved("1 bar", "SATPRESSURE", {"? °F"}), 32 + 1.8 * 99.606,
                0.002);  // IAPWS-IF97: 99.606 °C at 1 bar
    EXPECT_EQ(why(*find_function("SOLVEFOR"), std::vector<Input>{"25 g", "DRIEDMASS", "? kg", 0.8, 0.2}, {}),
              "fine: 0.1 kg");
    EXPECT_EQ(why(*find_function("SOLVEFOR"), std::vector<Input>{25.0, "DRIEDMASS", "?", 0.8, 0.2}, {}),
              "fine: 100 (as given)");
}

TEST(Solve, SaysWhyThereIsNone) {
    EXPECT_EQ(
        refused(200.0, "DRIEDMASS", {100.0, "?", 0.2}),
        "wanted: 200 comes out for no start from 0 to 1; the results found there lie from 1.25e-07 to 100.");
    EXPECT_EQ(refused(5.0, "COLOURCHANGE", {"?", 0.0, 0.0, 50.0, 0.0, 0.0}).substr(0, 40),
              "wanted: 5 comes out for more than one L1");
}

TEST(Solve, ItsWorkingIsTheProof) {
    const std::vector<Input> cells{"25 g", "DRIEDMASS", "? kg", 0.8, 0.2};
    const auto lines = working(read(*find_function("SOLVEFOR"), cells, {})).lines;
    ASSERT_GE(lines.size(), 4u);
    EXPECT_EQ(lines[0], "wanted: DRY.DRIEDMASS = \"25 g\"");
    EXPECT_EQ(lines[1], "found by search: fresh = 0.1 kg; with it:");
    EXPECT_EQ(lines[2], "fresh = 0.1 kg");
    EXPECT_EQ(lines.back(), "   = 0.025 kg = 25 g");
}

// Every number among the arguments of every first check is found again from the value there, or refused for a
// reason; and the function is called 60 times at most.
TEST(Solve, EveryArgumentOfEveryFunction) {
    std::map<std::string, std::string> why;
    int found = 0;
    for (const Function& function : functions()) {
        if (!function.scalar || function.raw || function.count) continue;
        const Check& check = function.checks.front();
        Function counted = function;
        int calls = 0;
        counted.call = [&calls, &function](std::span<const Value> values) {
            ++calls;
            return function.call(values);
        };
        const Call call = read(function, check.given, {});
        for (std::size_t i = 0; i < check.given.size(); ++i) {
            const Parameter& param = parameter_at(function, i);
            if (param.shape != Shape::scalar || check.given[i].form == Input::Form::missing) continue;
            std::vector<Input> arguments = check.given;
            arguments[i] = "?";
            const std::string key = std::string(function.name) + "." + std::string(param.name);
            const double truth = param.read_in.from_si(call.values[i].si);
            double result = std::get<double>(value(call));
            Input wanted(result);
            // of a call with units a mass has one
            if (function.gives == Kind::mass && !call.masses_as_given) {
                std::ostringstream text;
                text.precision(17);
                text << result << " " << function.result_unit;
                wanted = Input(text.str());
            }
            calls = 0;
            try {
                const double got = solve(wanted, counted, arguments, {}).value;
                EXPECT_LE(std::abs(got - truth), 1e-6 * std::max(std::abs(truth), 1e-3))
                    << key << ": " << got << " for " << truth;
                ++found;
            } catch (const Refusal& refusal) {
                why[key] = refusal.what();
            }
            EXPECT_LE(calls, static_cast<int>(kSolveSteps)) << key;
        }
    }
    EXPECT_GE(found, 200);
    for (const auto& [key, words] : why) {
        const bool two = key.starts_with("COLOURCHANGE");  // a distance: on either side
        const bool flat =
            key.starts_with("DAILYOUTPUT") || key.starts_with("QUALITY");  // whole batches; at rate_temp
        EXPECT_TRUE(two || flat) << key << ": " << words;
        EXPECT_NE(words.find(two ? "more than one" : "whole range"), std::string::npos) << words;
    }
}

}  // namespace
}  // namespace drysheet
