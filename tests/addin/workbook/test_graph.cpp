// SPDX-License-Identifier: MPL-2.0
// What rests on what.
#include <gtest/gtest.h>

#include "addin/workbook/formula.hpp"
#include "addin/workbook/graph.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet::workbook {
namespace {

TEST(WorkbookGraph, FollowsCellsRangesNamesAndSheets) {
    const PictureText sheets = read_picture(R"(
        sheet In
        A1 | Fresh | 12
        A2 | Moisture | 86 %
        A3 | Rest | =B1*(1-B2)
        A4:A5 | tray | 3
        A6 | all | =SUM(B4:B5)
        A7 | both | =rest+B6
        sheet Out
        A1 | =$In.B7*2 | =SUM($In.B:B) | 5
        A2 | =A1
        name rest = $In.B3)");
    const Picture& picture = sheets.picture;
    const Graph graph(picture);
    const auto names = [&](const std::vector<Place>& places) {
        std::string made;
        for (const Place& one : places) made += in_words(one, picture) + " ";
        return made;
    };
    EXPECT_EQ(names(graph.refers_to(place(picture, "In.B7"))), "In.B3 In.B6 ");
    EXPECT_EQ(names(graph.inputs_of(place(picture, "Out.A2"))), "In.B1 In.B2 In.B4 In.B5 ");
    EXPECT_EQ(names(graph.inputs_of(place(picture, "In.B1"))), "In.B1 ");
    EXPECT_EQ(names(graph.referred_by(place(picture, "In.B4"))), "In.B6 Out.B1 ");
    EXPECT_EQ(names(graph.dependents(place(picture, "In.B2"))), "In.B3 In.B7 Out.A1 Out.B1 Out.A2 ");
    EXPECT_EQ(names(graph.results_of(place(picture, "In.B2"))), "Out.B1 Out.A2 ");
    EXPECT_EQ(names(graph.dependents(place(picture, "Out.C1"))), "");
}

TEST(WorkbookGraph, EndsInACircleAndLeadsFromAnArrayToItsFormula) {
    const PictureText sheets = read_picture(R"(
        A1 | =B1 | =A1+C1 | 4
        A3 | =DRY.REPLICATES(E3:E5) | 7 {array}
        A4 | 3 {array} | 2 {array}
        E3 | 1
        E4 | 2
        E5 | 3)");
    const Graph graph(sheets.picture);
    EXPECT_EQ(graph.inputs_of(place(sheets.picture, "A1")), std::vector<Place>{place(sheets.picture, "C1")});
    EXPECT_EQ(graph.inputs_of(place(sheets.picture, "B4")).size(), 3U);
}

}  // namespace
}  // namespace drysheet::workbook
