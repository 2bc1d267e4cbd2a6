// SPDX-License-Identifier: MPL-2.0
// Formulas of a picture: read, written, copied, computed.
#include <gtest/gtest.h>

#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet::workbook {
namespace {

const PictureText& sheets() {
    static const PictureText made = read_picture(R"(
        sheet Run 3
        A1 | Fresh mass (kg) | 12.5 | 86 %
        A2 | Dried           | 1.96 | 0.1
        A3 | Water           | =B1-B2
        A4:A6 | x | =B1*$B$2
        A7 | 'it''s' | =SUM(B1:B2)
        sheet Other
        A1 | 4
        name fresh = $'Run 3'.$B$1)");
    return made;
}

const Place kAt{0, 9, 3};  // D10

std::string again(std::string_view text) {
    return written(parse(text, kAt, sheets().picture), kAt, sheets().picture);
}

TEST(WorkbookFormula, IsWrittenAsItWasRead) {
    for (const std::string_view text : {"B1-B2",
                                        "B1*(1-C1)/(1-C2)",
                                        "-B1^2",
                                        "-(B1^2)",
                                        "2^-1",
                                        "B1-(B2-B3)",
                                        "B1-B2-B3",
                                        "B1/(B2*B3)",
                                        "B1/B2*B3",
                                        "(1+2)%",
                                        "$B$1+B$1+$B1",
                                        "SUM(B1:B9;C1)",
                                        "IF(B1>0;B2;)",
                                        "IF(B1>=0;\"a \"\"b\"\"\";2)",
                                        "$Other.A1",
                                        "SUM($Other.A1:B3)",
                                        "{1;2|3;4}",
                                        "{-1;\"x\"}",
                                        "DRY.DRIEDMASS(B1&\" kg\";C1;C2)",
                                        "SUM(A:A)",
                                        "SUM($A:$B)",
                                        "SUM(3:5)",
                                        "fresh*2",
                                        "TRUE()",
                                        "PI()",
                                        "#N/A",
                                        "B1&\" \"&C1",
                                        "1e-05*B1",
                                        "A1:INDEX(B1:B9;2)",
                                        "(B1=B2)*3",
                                        "(B1=B2)&C1",
                                        "B1=B2&C1"})
        EXPECT_EQ(again(text), text);
    EXPECT_EQ(again("=sum( 'Run 3'.B1 ; $Other.$A$1 )"), "SUM(B1;$Other.$A$1)");
    EXPECT_EQ(again("'Run 3'.B1:B2"), "B1:B2");
    for (const std::string_view text : {"B1+", "SUM(B1", "(", "1 2", "B1)", "{1;", "{"})
        EXPECT_EQ(parse(text, kAt, sheets().picture).what, Formula::What::unreadable) << text;
}

TEST(WorkbookFormula, CopiesHaveOneKey) {
    const Picture& picture = sheets().picture;
    const auto key = [&](std::string_view address) {
        const Place at = place(picture, address);
        return copied_key(*picture.at(at)->formula, at);
    };
    EXPECT_EQ(key("B4"), key("B6"));
    EXPECT_EQ(key("B4"), "*(R[-3]C[0];R1C1;)");
    EXPECT_NE(key("B3"), key("B4"));
}

double value(std::string_view text) {
    return number_of(parse(text, kAt, sheets().picture), kAt, sheets().picture).value();
}

TEST(WorkbookFormula, IsComputed) {
    EXPECT_DOUBLE_EQ(value("B1-B2"), 10.54);
    EXPECT_DOUBLE_EQ(value("-2^2"), 4);  // as the office has it
    EXPECT_DOUBLE_EQ(value("2^3^2"), 64);
    EXPECT_DOUBLE_EQ(value("50%*4"), 2);
    EXPECT_DOUBLE_EQ(value("B1*(1-C1)/(1-C2)"), 12.5 * (1 - 0.86) / 0.9);
    EXPECT_DOUBLE_EQ(value("DRY.DRIEDMASS(B1;C1;C2)"), 12.5 * (1 - 0.86) / 0.9);
    EXPECT_DOUBLE_EQ(value("DRY.DRIEDMASS(B1&\" kg\";C1;C2)"), 12500 * (1 - 0.86) / 0.9);
    EXPECT_DOUBLE_EQ(value("SUM(A1:B3;fresh)"), 12.5 + 1.96 + 10.54 + 12.5);
    EXPECT_DOUBLE_EQ(value("SUM(B:B)"), value("SUM(B1:B9)"));
    EXPECT_DOUBLE_EQ(value("SUM(B1;A1;B9;2)"), 14.5);  // a cell's text and a blank cell count nothing
    EXPECT_DOUBLE_EQ(value("SUM(B1;\"3\")"), 15.5);    // a text among the arguments is a number
    EXPECT_DOUBLE_EQ(value("IF(\"a\"&1=\"a\"&\"1\";1;2)"), 1);  // & binds before =
    EXPECT_DOUBLE_EQ(value("AVERAGE(B1:B2)+MIN(B1:B2)+MAX(B1;B2)"), 7.23 + 1.96 + 12.5);
    EXPECT_DOUBLE_EQ(value("IFERROR(B1/0;7)"), 7);
    EXPECT_DOUBLE_EQ(value("IF(B1>B2;1;2)+IF(A1=\"fresh MASS (kg)\";10;20)"), 11);
    EXPECT_DOUBLE_EQ(value("ROUND(B1/3;2)"), 4.17);
    EXPECT_DOUBLE_EQ(value("ROUND(2.46)+10*ROUNDUP(2.1)+100*ROUNDDOWN(2.9)+1000*TRUNC(-2.9)"), -1768);
    EXPECT_DOUBLE_EQ(value("ROUNDUP(-2.31;1)"), -2.4);
    EXPECT_DOUBLE_EQ(value("CEILING(2.1)+10*FLOOR(2.9)"), 23);
    EXPECT_DOUBLE_EQ(value("CEILING(7;5)+FLOOR(7;5)"), 15);
    EXPECT_DOUBLE_EQ(value("MOD(-7;3)"), 2);
    EXPECT_DOUBLE_EQ(value("LOG(100)+LOG(8;2)"), 5);
    EXPECT_DOUBLE_EQ(value("LEN(TRIM(\"  größe  m \"))"), 7);
    EXPECT_DOUBLE_EQ(value("SIGN(-3)+10*SIGN(3)+SIGN(0)"), 9);
    EXPECT_DOUBLE_EQ(value("SUMPRODUCT(B1:B2;C1:C2)"), 12.5 * 0.86 + 0.196);
    EXPECT_DOUBLE_EQ(value("INDEX(B1:C2;2;1)*$Other.A1"), 7.84);
    EXPECT_TRUE(compute(parse("B1/0", kAt, sheets().picture), kAt, sheets().picture)->fault);
    EXPECT_TRUE(
        compute(parse("DRY.DRIEDMASS(B1;80;C2)", kAt, sheets().picture), kAt, sheets().picture)->fault);
    EXPECT_FALSE(compute(parse("VLOOKUP(1;A1:B2;2)", kAt, sheets().picture), kAt, sheets().picture));
    EXPECT_DOUBLE_EQ(*number_in(sheets().picture, place(sheets().picture, "B7")), 14.46);
}

}  // namespace
}  // namespace drysheet::workbook
