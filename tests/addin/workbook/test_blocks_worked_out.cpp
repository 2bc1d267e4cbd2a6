// SPDX-License-Identifier: MPL-2.0
// What the blocks give as they are put in, worked out without an office.
#include <gtest/gtest.h>

#include <charconv>

#include "addin/workbook/blocks.hpp"
#include "addin/workbook/formula.hpp"
#include "tests/addin/workbook/picture_text.hpp"
#include "tests/core/shared.hpp"

namespace drysheet::workbook {
namespace {

using test::near;

// The block at the top left of an empty sheet, its plain formulas worked out.
Picture worked_out(std::string_view command) {
    Picture picture{.sheets = {{.name = "Sheet1"}}};
    for (const PatternCell& from : placed(*find_pattern(command), 0, 0).cells) {
        const Place at{0, static_cast<int>(from.row), static_cast<int>(from.column)};
        Cell& cell = picture.sheets[0].cells[{at.row, at.column}];
        double number = 0;
        const char* const end = from.content.data() + from.content.size();
        if (from.content.starts_with("="))
            cell.formula = parse(from.content, at, picture);
        else if (std::from_chars(from.content.data(), end, number).ptr == end && !from.content.empty())
            cell.value = number;
        else
            cell.value = from.content;
    }
    calculate(picture);
    return picture;
}

double number(const Picture& picture, std::string_view address) {
    const Cell* cell = picture.at(place(picture, address));
    const double* value = cell == nullptr ? nullptr : std::get_if<double>(&cell->value);
    return value == nullptr ? std::numeric_limits<double>::quiet_NaN() : *value;
}
std::string text(const Picture& picture, std::string_view address) {
    const Cell* cell = picture.at(place(picture, address));
    const std::string* value = cell == nullptr ? nullptr : std::get_if<std::string>(&cell->value);
    return value == nullptr ? "no text" : *value;
}

// By hand: the solids in 12.5 kg of 86 % are 1.75 kg.
TEST(BlocksWorkedOut, Yield) {
    const Picture sheet = worked_out("yield");
    EXPECT_TRUE(near(number(sheet, "B7"), 1750 / 0.9, 1e-12));
    EXPECT_TRUE(near(number(sheet, "B8"), 12500 - 1750 / 0.9, 1e-12));
    EXPECT_TRUE(near(number(sheet, "B9"), 0.9 / 0.14, 1e-12));
    EXPECT_TRUE(near(number(sheet, "B10"), 1 - 1750. / 1960, 1e-12));
    // The solids differ by 1750 - 1960 · 0.9 = -14 g; their uncertainty is mostly 0.5 % of 12.5 kg, 62.5 g.
    EXPECT_TRUE(text(sheet, "B11").starts_with("the weights and moistures agree within"))
        << text(sheet, "B11");
    EXPECT_EQ(text(sheet, "B12"), "every result is fine");
}

// Ideal gas and the psychrometric equation of the ASHRAE Handbook Fundamentals 2017, ch. 1, eqs. 3, 20, 26,
// 33 (their numbers and constants from memory) by scipy, saturation by python3-iapws; real air differs from
// it by less than 0.6 %.
TEST(BlocksWorkedOut, Air) {
    const Picture sheet = worked_out("air");
    EXPECT_TRUE(near(number(sheet, "B7"), 87.7155, 1e-5));
    EXPECT_TRUE(near(number(sheet, "B8"), 14.0715, 6e-3));
    EXPECT_NEAR(number(sheet, "B9"), 17.019, 0.01);
    EXPECT_NEAR(number(sheet, "B10"), 19.128, 0.05);
    EXPECT_TRUE(near(number(sheet, "B11"), 1.01978, 1e-3));
    EXPECT_TRUE(near(number(sheet, "B12"), 0.106801, 6e-3));
    EXPECT_TRUE(near(number(sheet, "B13"), 11.6467, 1e-2));
    EXPECT_EQ(text(sheet, "B14"), "every result is fine");
}

// By hand: what is dried of 1000 with moisture `down` to moisture `across` is 1000 (1 - down)/(1 - across).
TEST(BlocksWorkedOut, OneResultOverTwoInputs) {
    const Picture sheet = worked_out("two-inputs");
    int cells = 0;
    for (int row = 0; row < 7; ++row)
        for (int column = 0; column < 5; ++column) {
            const double down = 0.78 + 0.02 * row, across = 0.06 + 0.02 * column;
            const std::string address =
                std::string(1, static_cast<char>('B' + column)) + std::to_string(7 + row);
            EXPECT_TRUE(near(number(sheet, address), 1000 * (1 - down) / (1 - across), 1e-12)) << address;
            ++cells;
        }
    EXPECT_EQ(cells, 35);
}

// Twenty rows for readings, numbered, of which ten are filled; their columns are worked out in a Calc.
TEST(BlocksWorkedOut, RowsOfADryingRun) {
    const Picture sheet = worked_out("run");
    for (int row = 1; row <= 20; ++row) {
        const std::string at = std::to_string(row + 12);
        EXPECT_EQ(number(sheet, "A" + at), row);
        const double time = number(sheet, "B" + at);
        EXPECT_TRUE(row <= 10 ? time == row - 1 : std::isnan(time)) << at;
        EXPECT_EQ(std::isnan(number(sheet, "C" + at)), row > 10);
    }
    EXPECT_EQ(sheet.sheets[0].cells.rbegin()->first.first, 31);
}

}  // namespace
}  // namespace drysheet::workbook
