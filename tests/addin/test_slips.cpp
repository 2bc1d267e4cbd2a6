// SPDX-License-Identifier: MPL-2.0
// The answers of usual slips, and the marks they earn: no slip is right, no right answer is wrong.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <regex>
#include <set>
#include <sstream>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/mark.hpp"
#include "addin/call/slips.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

const Reading kPoint{};

std::string table_of(std::string_view name, const std::vector<Input>& arguments) {
    std::vector<Input> given{Input(std::string(name))};
    given.insert(given.end(), arguments.begin(), arguments.end());
    const Table table = std::get<Table>(evaluate(*find_function("SLIPS"), given, {}));
    std::ostringstream text;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        if (const auto* x = std::get_if<double>(&table.at(row, 0)))
            text << std::round(*x * 1e4) / 1e4;
        else
            text << std::get<std::string>(table.at(row, 0));
        for (const std::size_t column : {1U, 2U})
            text << " | " << std::get<std::string>(table.at(row, column));
        text << '\n';
    }
    return text.str();
}

std::string marked_call(const Input& answer, std::string_view name, const std::vector<Input>& arguments) {
    return written(mark_call(answer, read(*find_function(name), arguments, kPoint)));
}

// "3600 times too large, as with kJ for kWh": by the table of units a kWh is 3600 kJ, and so is the answer of
// the slip.
TEST(Slips, FactorsAreThoseOfTheirUnits) {
    const std::regex words(R"(the answer is ([0-9.]+) times too (large|small), as with (\S+) for (\S+))");
    std::set<std::string> seen;
    for (const Function& function : functions()) {
        if (function.checks.empty() || function.raw || !function.scalar) continue;
        std::vector<Input> given{Input(std::string(function.name))};
        given.insert(given.end(), function.checks[0].given.begin(), function.checks[0].given.end());
        try {
            const Table table = std::get<Table>(evaluate(*find_function("SLIPS"), given, {}));
            const double right = std::get<double>(evaluate(function, function.checks[0].given, {}));
            for (std::size_t row = 1; row < table.rows(); ++row) {
                std::smatch part;
                const std::string slip = std::get<std::string>(table.at(row, 2));
                if (!std::regex_match(slip, part, words)) continue;
                const double times = part[2] == "large" ? std::stod(part[1]) : 1 / std::stod(part[1]);
                EXPECT_NEAR(std::get<double>(table.at(row, 0)) / right, times, 1e-9 * times)
                    << function.name << ": " << slip;
                const auto taken = read_written_unit(part[3].str()), meant = read_written_unit(part[4].str());
                if (taken && meant) {
                    EXPECT_NEAR(meant->to_si(1) / taken->to_si(1), times, 1e-9 * times) << slip;
                }
                seen.insert(slip);
            }
        } catch (const Refusal&) {
        }
    }
    EXPECT_GE(seen.size(), 12U);
}

// By hand, from 100 g at 80 % to 20 % wet basis: 100 × 0.20 ÷ 0.80 = 25.
TEST(Slips, TheWholeTableByHand) {
    EXPECT_EQ(table_of("DRIEDMASS", {"100 g", 0.8, 0.2}),
              "value | unit | slip\n"
              "40 | g | the percentages were subtracted\n"
              "400 | g | the mass was divided by the drying ratio the wrong way round, or the moistures were "
              "put in "
              "for the dry matter, or the start moisture and the final moisture were swapped\n"
              "75 | g | the water to be removed was given\n"
              "69.4444 | g | the start moisture was taken on the dry basis\n"
              "-375 | g | the start moisture was turned to the dry basis first\n"
              "24 | g | the final moisture was taken on the dry basis\n"
              "26.6667 | g | the final moisture was turned to the dry basis first\n"
              "20 | g | the final moisture was left out\n"
              "415.789 | g | percentages were put in as whole numbers, 80 for 0.8\n"
              "25000 | g | the answer is 1000 times too large, as with g for kg\n"
              "0.025 | g | the answer is 1000 times too small, as with kg for g\n"
              "-25 | g | the answer has the wrong sign\n");
}

TEST(Slips, PlainMassesComeBackAsGiven) {
    EXPECT_NE(table_of("DRIEDMASS", {100.0, 0.8, 0.2}).find("40 | as given | "), std::string::npos);
}

// 150 and 50 off 1000: 0.8 stays. Each loss left out: 0.95 and 0.85.
TEST(Slips, EachOfARepeatedArgumentLeftOut) {
    EXPECT_EQ(table_of("TRIMYIELD", {1000.0, 150.0, 50.0}),
              "value | unit | slip\n"
              "0.2 | fraction | the share lost was given, not the yield\n"
              "4 | fraction | the losses were divided by what was left\n"
              "0.95 | fraction | the loss no. 1 was left out\n"
              "0.85 | fraction | the loss no. 2 was left out\n"
              "80 | fraction | a percentage was given where a fraction was asked\n"
              "1.25 | fraction | the answer is upside down\n"
              "-0.8 | fraction | the answer has the wrong sign\n");
}

TEST(Slips, WhatFourDigitsCannotTellIsLeftOut) {
    // a final moisture of 0.4 %: on the dry basis it differs in the fifth digit only
    const std::vector<Input> nearly_dry{100.0, 0.8, "0.4 %"};
    for (const Slip& slip : slips(read(*find_function("DRIEDMASS"), nearly_dry, kPoint)))
        EXPECT_EQ(written(slip.sentence).find("final moisture was taken"), std::string::npos);
}

TEST(MarkCall, SaysWhatWasDone) {
    const std::vector<Input> call{"2 kg", "84 %", "9 %"};  // 2000 × 0.16 ÷ 0.91 = 351.648 g
    EXPECT_EQ(marked_call("351.65 g", "DRIEDMASS", call), "right");
    EXPECT_EQ(marked_call("0.3516 kg", "DRIEDMASS", call), "right");
    EXPECT_EQ(marked_call("3.516 × 10^2 g", "DRIEDMASS", call), "right");
    EXPECT_EQ(marked_call(351.6, "DRIEDMASS", call), "right");
    EXPECT_EQ(marked_call(0.3516, "DRIEDMASS", call), "the answer is 1000 times too small, as with kg for g");
    EXPECT_EQ(marked_call(348.8, "DRIEDMASS", call), "the final moisture was taken on the dry basis");
    EXPECT_EQ(marked_call(320.0, "DRIEDMASS", call), "the final moisture was left out");
    EXPECT_EQ(marked_call(365.0, "DRIEDMASS", call), "close: 365 g is 3.8 % off");
    EXPECT_EQ(marked_call(180.0, "DRIEDMASS", call), "wrong");
    EXPECT_EQ(marked_call("25 min", "DRIEDMASS", call), "wrong unit: it measures something else");
    EXPECT_EQ(marked_call("", "DRIEDMASS", call), "no answer yet");
    EXPECT_EQ(marked_call(0.0, "DRIEDMASS", call), "no answer yet");
    // 2 kg at 84 % to 9 % typed as plain numbers in kg: 0.351648
    EXPECT_EQ(marked_call("0.3516 kg", "DRIEDMASS", {2.0, 0.84, 0.09}),
              "unclear: right if the masses were given in kg; give them with their unit");
    // FINALMOISTURE: 1 − 20 ÷ 25 = 0.2 wet basis, 0.25 dry basis
    EXPECT_EQ(marked_call("20 %", "FINALMOISTURE", {100.0, 0.8, 25.0}), "right");
    EXPECT_EQ(marked_call("25 % db", "FINALMOISTURE", {100.0, 0.8, 25.0}), "right");
    EXPECT_EQ(marked_call("0.25 kg water/kg dry solids", "FINALMOISTURE", {100.0, 0.8, 25.0}), "right");
    EXPECT_EQ(marked_call(0.25, "FINALMOISTURE", {100.0, 0.8, 25.0}), "the answer is on the dry basis");
}

TEST(MarkCall, CountsAreExactAndTemperaturesHaveKelvins) {
    const std::vector<Input> trays{"63.49 kg", 1.0, 1.0};  // 63.49, so 64 trays
    EXPECT_EQ(marked_call(64.0, "TRAYSFOR", trays), "right");
    EXPECT_EQ(marked_call("64 trays", "TRAYSFOR", trays), "right");
    EXPECT_EQ(marked_call(63.49, "TRAYSFOR", trays), "it was not rounded up");
    EXPECT_EQ(marked_call(63.0, "TRAYSFOR", trays), "it was rounded down");
    EXPECT_EQ(marked_call("65 trays", "TRAYSFOR", trays), "wrong: a count is exact");
    // 0 °C saturated: the dew point is 0 °C, and 0.4 K off is right where a relative tolerance would never be
    EXPECT_EQ(marked_call("0.4 °C", "DEWPOINT", {"0.01 °C", 1.0}), "right");
    EXPECT_EQ(marked_call("273.5 K", "DEWPOINT", {"0.01 °C", 1.0}), "right");
    EXPECT_EQ(marked_call("275.2 K", "DEWPOINT", {"0.01 °C", 1.0}), "close: 2.05 °C is 2.04 K off");
}

// As 120 students get them: the arguments of a function's first check drawn anew within ±30 %.
std::vector<Input> drawn(const Function& function, std::mt19937& random) {
    std::uniform_real_distribution<double> factor(0.7, 1.3);
    std::vector<Input> given = function.checks.front().given;
    double shares = 0;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const Parameter& param = parameter_at(function, i);
        if (param.kind == Kind::mass && param.shape == Shape::column && given[i].form == Input::Form::grid)
            for (Input& cell : given[i].cells)
                if (cell.form == Input::Form::number) cell = in_words(cell.number, 15) + " g";
        if (given[i].form == Input::Form::grid || param.shape == Shape::choice) continue;
        const double value = read_measured(param, given[i], {}).value;
        if (value == 0) continue;
        given[i] = value * factor(random);
        if (param.kind == Kind::fraction) shares += given[i].number;
        if (param.kind == Kind::mass) given[i] = in_words(given[i].number, 15) + " g";
    }
    if (function.name == "FOODHEAT")  // the parts of a food are a whole
        for (std::size_t i = 0; i < 6; ++i)
            if (given[i].form == Input::Form::number) given[i].number /= shares;
    return given;
}

// Every slip of every scalar function for 120 students: none is right; and every right answer is, to the
// digits that the slips leave.
TEST(MarkCall, NoSlipIsRightAndNoRightAnswerWrong) {
    std::mt19937 random(20);
    std::size_t calls = 0, asked = 0, called_right = 0, unnamed = 0, wrong = 0, rounded_wrong = 0,
                functions_seen = 0;
    for (const Function& function : functions()) {
        if (!function.scalar || function.raw) continue;
        const std::size_t before = calls;
        for (int student = 0; student < 120; ++student) {
            const std::vector<Input> given = drawn(function, random);
            std::optional<Call> call;
            double right = 0;
            try {
                call.emplace(read(function, given, kPoint));
                right = std::get<double>(value(*call));
            } catch (const Refusal&) {
                continue;  // numbers that do not go together
            }
            if (right == 0) continue;
            ++calls;
            wrong += mark_call(right, *call).form == kRight ? 0 : 1;
            const std::vector<Slip> all = slips(*call);
            for (const Slip& slip : all) {
                ++asked;
                const std::string said = written(mark_call(slip.answer, *call));
                called_right += said == "right" ? 1 : 0;
                unnamed += said == written(slip.sentence) ? 0 : 1;
            }
            // a lesson draws numbers whose slips lie three tolerances off: there three digits are right too
            const bool apart = std::ranges::all_of(all, [&](const Slip& slip) {
                return std::abs(slip.answer - right) > 0.03 * std::abs(right);
            });
            std::ostringstream three;
            three.precision(function.count ? 9 : 3);
            three << right;
            if (apart && function.gives != Kind::temperature)
                rounded_wrong += mark_call(three.str(), *call).form == kRight ? 0 : 1;
        }
        functions_seen += calls > before ? 1 : 0;
        EXPECT_GT(calls, before) << function.name;
    }
    RecordProperty("asked", static_cast<int>(asked));
    std::cout << functions_seen << " functions, " << calls << " calls, " << asked
              << " slips: " << called_right << " called right, " << unnamed
              << " not named; right answers wrong: " << wrong << ", to three digits " << rounded_wrong
              << "\n";
    EXPECT_EQ(called_right, 0U);
    EXPECT_EQ(unnamed, 0U);
    EXPECT_EQ(wrong, 0U);
    EXPECT_EQ(rounded_wrong, 0U);
}

}  // namespace
}  // namespace drysheet
