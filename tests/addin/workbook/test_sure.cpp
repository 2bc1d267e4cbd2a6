// SPDX-License-Identifier: MPL-2.0
// What a result rests on, what is known of each input, and the formulas between worked out again.
#include <gtest/gtest.h>

#include <cmath>

#include "addin/workbook/formula.hpp"
#include "addin/workbook/replay.hpp"
#include "addin/workbook/sure.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet::workbook {
namespace {

struct Read {
    PictureText text;
    Labels labels;
    Graph graph;
    Sure sure;
    explicit Read(std::string_view lines, std::string_view result)
        : text(read_picture(lines)),
          labels(text.picture),
          graph(text.picture),
          sure(rests_on({place(text.picture, result)}, text.picture, labels, graph, {})) {}
    SureInput at(std::string_view address) const {
        for (const SureInput& input : sure.inputs)
            if (input.cell == place(text.picture, address)) return input;
        ADD_FAILURE() << "no input " << address;
        return {};
    }
};
void has(const Read& read, std::string_view address, double u, std::string_view from) {
    const SureInput input = read.at(address);
    EXPECT_NEAR(input.number.u, u, 1e-12 + 1e-9 * u) << address;
    EXPECT_EQ(input.from, from) << address;
}
// JCGM 100:2008 F.2.2.1: the resolution δx of an indicating device has u = 0.29 δx, that is δx/√12.
double read_to(double step) { return step / std::sqrt(12.0); }

TEST(WorkbookSure, ReadsTheEvidenceOfEachInput) {
    const Read read(R"(
        A1 | Weighing | Value | Unit | ± | Remark
        A2 | Fresh mass | 1200 | g | 1
        A3 | Moisture at start | 86 % | | 0.5 %
        A4 | Moisture at end | 0.1 {percent} | | 0.5
        A5 | Tray (g) | 310.5
        A6 | Target | 85 % | | | guess ±3 %
        A7 | Trays | 4
        A8 | Other mass (g) | 50 {note ± 0.2 g}
        A9 | Text mass | '1200 ± 2 g'
        A10 | Guessed mass (g) | 700 | | | a guess
        A11 | Factor | 1.5
        A14 | Solids sticking to the trays | 0.05 | kg
        A12 | Third mass (g) | 20 | | 2 %
        A15 | Fourth mass (g) | '0.4 kg'
        B13 | =SUM(B2:B12)*B9+B14+B15)",
                    "B13");
    has(read, "B2", 1, "the column ±");
    has(read, "B3", 0.005, "the column ±");
    has(read, "B4", 0.005, "the column ±");
    has(read, "B5", read_to(0.1), "read to 0.1: u = 0.1/√12");
    EXPECT_EQ(read.at("B5").number.spread, numeric::Spread::rectangular);
    has(read, "B6", 0.03, "guess, ±3 %");
    has(read, "B7", 0, "nothing says how good it is");
    has(read, "B8", 0.2, "±0.2 g");
    has(read, "B9", 2, "typed ±");
    has(read, "B10", 0, "a guess without a ±");
    has(read, "B11", 0, "nothing says how good it is");
    has(read, "B12", 0.4, "the column ±");
    has(read, "B14", read_to(0.01), "read to 0.01: u = 0.01/√12");
    EXPECT_EQ(std::get<0>(std::tuple(read.at("B9").with(1201.5, false).text)), "1201.5 g");
    EXPECT_EQ(read.at("B9").with(1201.5, true).text, "1201,5 g");
    EXPECT_EQ(read.at("B2").label, "Fresh mass");
    EXPECT_EQ(read.at("B2").unit, "g");
    EXPECT_EQ(read.at("B9").unit, "g");  // as typed, whatever the label says
    EXPECT_EQ(read.at("B15").unit, "kg");
}

TEST(WorkbookSure, ReadsColumnsAndRowsAndPoints) {
    const Read columns(R"(
        A1 | Mass, g | u, g | Moisture, % | ± points
        A2 | 100 | 0.5 | 82 | 2
        A3 | 200 | 0.7 | 83 | 3
        F1 | =A2*C2+A3*C3)",
                       "F1");
    has(columns, "A2", 0.5, "the column u, g");
    has(columns, "A3", 0.7, "the column u, g");
    has(columns, "C3", 3, "the column ± points");
    const Read rows(R"(
        A1 | | Fresh mass (g) | Dried mass (kg)
        A2 | value | 100 | 20
        A3 | sd | 0.5 | 0.25
        A5 | =B2/C2)",
                    "A5");
    has(rows, "B2", 0.5, "the row sd");
    has(rows, "C2", 0.25, "the row sd");
    const Read other_unit(R"(
        A1 | Mass (kg) | u (g)
        A2 | 1.5 | 20
        A3 | =A2*2)",
                          "A3");
    has(other_unit, "A2", 0.02, "the column u (g)");
    const Read named(R"(
        A1 | 5
        A2 | 0.1
        A3 | =load*2
        name load = $Sheet1.A1
        name load_u = $Sheet1.A2)",
                     "A3");
    has(named, "A1", 0.1, "the cell named load_u");
    // An expanded uncertainty, and a speed that is only called u.
    const Read expanded(R"(
        A1 | Mass (g) | ± (k = 2) | u (m/s)
        A2 | 5 | 0.2 | 3
        A3 | =A2*C2)",
                        "A3");
    has(expanded, "A2", 0.1, "the column ± (k = 2)");
}

TEST(WorkbookSure, NamesAnInputByItsRowAndItsHeading) {
    const Read read(R"(
        A1 | Moisture, of the wet mass | Known by | Moisture | ± points
        A2 | Before drying | oven | 82 % | 0.5
        A3 | After drying | | 10 % | 1
        A5 | Fresh mass (g) | 500
        A6 | Dried | =B5*(1-C2)/(1-C3))",
                    "B6");
    EXPECT_EQ(read.at("C2").label, "Before drying: Moisture");
    EXPECT_EQ(read.at("C3").label, "After drying: Moisture");
    EXPECT_EQ(read.at("B5").label, "Fresh mass (g)");
    const Read several(R"(
        A1 | Trays | Empty | Loaded
        A2 | Tray 1 | 600 | 1600
        A3 | Tray 2 | '0.61 kg' | 1610
        A5 | Quantity | Value | u
        A6 | Fresh mass (g) | 500 | 1
        E1 | =C2-B2+C3-B3+B6)",
                       "E1");
    EXPECT_EQ(several.at("B2").label, "Tray 1: Empty");
    EXPECT_EQ(several.at("C2").label, "Tray 1: Loaded");
    EXPECT_EQ(several.at("C3").label, "Tray 2: Loaded");
    EXPECT_EQ(several.at("B6").label, "Fresh mass (g)");
    const Read low(R"(
        A9 | Trial batch | weighed twice | 700
        C1 | =C9*2)",
                   "C1");
    EXPECT_EQ(low.at("C9").label, "Trial batch");
}

// What every weighing of a sheet is good to, under one name; what a sentence says of a result is no ± of a
// number before it.
TEST(WorkbookSure, TakesOneUncertaintyForTheCellsOfAName) {
    const Read read(R"(
        A1 | Whole | '2 kg 980 g'
        A2 | Tray (kg) | 1.6 | | ="737 ± 26 g"
        A3 | Tray | 1610
        A4 | Good to | '1 g'
        A6 | =B1+B2+B3
        name weighed = $Sheet1.B1:$Sheet1.B3
        name weighed_u = $Sheet1.B4)",
                    "A6");
    has(read, "B1", 0.001, "Good to");
    EXPECT_EQ(read.at("B1").with(2.5, false).text, "2.5 kg");
    has(read, "B2", 0.001, "Good to");
    has(read, "B3", 1, "Good to");
}

// A mean with its own ± stands for its readings; one whose inputs have a ± does not.
TEST(WorkbookSure, AMeanWithItsOwnUncertaintyIsAnInput) {
    const Read mean(R"(
        A1 | Reading (g) | 10.1
        A2 | Reading (g) | 10.3
        A3 | Mean (g) | =AVERAGE(B1:B2) | ± | =STDEV(B1:B2)/SQRT(2)
        A4 | Twice | =2*B3)",
                    "B4");
    ASSERT_EQ(mean.sure.inputs.size(), 1u);
    has(mean, "B3", 0.1, "the cell beside it, ±");
    const Read deeper(R"(
        A1 | Mass (g) | 10 | ± | 0.1
        A2 | Double (g) | =2*B1 | ± | =2*D1
        A3 | Both | =B1+B2)",
                      "B3");
    ASSERT_EQ(deeper.sure.inputs.size(), 1u);
    has(deeper, "B1", 0.1, "the cell beside it, ±");
}

TEST(WorkbookSure, NamesBlanksAndErrors) {
    const Read read(R"(
        A1 | 5
        B1 | =A1*A2+A3
        A3 | =A4/0 {error 532}
        A4 | 3)",
                    "B1");
    EXPECT_EQ(read.sure.blanks, std::vector<Place>{place(read.text.picture, "A2")});
    EXPECT_EQ(read.sure.errors, std::vector<Place>{place(read.text.picture, "A3")});
}

TEST(WorkbookReplay, GivesWhatTheFormulasGive) {
    const PictureText sheets = read_picture(R"(
        sheet In
        A1 | 2 | 3 | text
        A2 | 10 % | 4
        A3 | =A1*B1+SUM(A1:C2)^2/B2-A2%
        A4 | =IF(A1>5;A3;-A3)+ROUND(B2;0)
        A5 | =half*MAX(A1:B2)+AVERAGE(A1;B1)+PRODUCT(A1:B1)-MIN(A1:B1)
        A7 | =SUM(A1)*3
        A6 | =MAX(A1:B2)+2*AVERAGE(A1;B1)+PRODUCT(A1:B1)*3-MIN(A1:B1)+SUM(A1:B1)+ABS(-B1)+SUM(A1)
        sheet Out
        A1 | =$In.A4+SQRT($In.A3)*EXP(-$In.A2)+$In.A5
        A2 | =DRY.DRIEDMASS($In.A1;0.8;$In.A2)
        A3 | =LN($In.B1-3)
        A4 | =$In.B2*2
        A5 | =$Out.A4+$In.A1
        A6 | =$In.A6+$In.A7
        name half = $In.A1/2)");
    const Picture& picture = sheets.picture;
    const Graph graph(picture);
    const std::vector<Place> inputs{place(picture, "In.A1"), place(picture, "In.B1"),
                                    place(picture, "In.A2")},
        results{place(picture, "Out.A1"), place(picture, "Out.A2"), place(picture, "Out.A3"),
                place(picture, "Out.A4"), place(picture, "Out.A5"), place(picture, "Out.A6")};
    Replay replay(picture, graph, inputs, results);
    EXPECT_EQ(replay.formulas(), 10u);  // one rests on no input
    for (const auto& [a, b, c] : {std::tuple{2.0, 3.0, 0.1}, {6.0, 5.0, 0.2}, {0.5, 4.0, 0.05}}) {
        const double sum = a + b + c + 4, a3 = a * b + sum * sum / 4 - c / 100, a4 = (a > 5 ? a3 : -a3) + 4,
                     a5 = a / 2 * std::max({a, b, 4.0}) + (a + b) / 2 + a * b - std::min(a, b);
        const auto got = replay(std::vector<Input>{a, b, c});
        ASSERT_TRUE(got[0] && got[1]);
        EXPECT_NEAR(*got[0], a4 + std::sqrt(a3) * std::exp(-c) + a5, 1e-12 * std::abs(*got[0]));
        EXPECT_NEAR(*got[1], a * 0.2 / (1 - c), 1e-12);
        EXPECT_EQ(got[2].has_value(), b > 3);
        EXPECT_EQ(got[3], 8);
        EXPECT_EQ(got[4], 8 + a);
        ASSERT_TRUE(got[5]);
        EXPECT_NEAR(*got[5],
                    std::max({a, b, 4.0}) + a + b + 3 * a * b - std::min(a, b) + a + b + b + a + 3 * a,
                    1e-12);
    }
}

}  // namespace
}  // namespace drysheet::workbook
