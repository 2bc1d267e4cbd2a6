// SPDX-License-Identifier: MPL-2.0
// What a person types, taken apart: signs of the decimal, uncertainties, what is refused rather than guessed.
#include <gtest/gtest.h>

#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr Reading kPoint{.decimal_comma = false}, kComma{.decimal_comma = true};

double value(std::string_view text, const Reading& reading) {
    const TypedOrFault read = read_typed(text, reading);
    EXPECT_EQ(read.fault, TextFault::none) << text;
    return read.typed.value;
}
TextFault fault(std::string_view text, const Reading& reading) { return read_typed(text, reading).fault; }

TEST(QuantityText, DecimalSigns) {
    EXPECT_EQ(value("123.456 g", kPoint), 123.456);
    EXPECT_EQ(value("123,456 g", kComma), 123.456);
    EXPECT_EQ(fault("123,456 g", kPoint), TextFault::comma);
    // Where a comma is the decimal sign, three digits behind a point are thousands to most readers: refused.
    // One digit more or less, four before it, or a nought in front, and they cannot be.
    for (const auto* text : {"123.456 g", "1.200 g", "12.000", "-1.200 g", "+1.200 g"})
        EXPECT_EQ(fault(text, kComma), TextFault::thousands) << text;
    EXPECT_EQ(value("123.45 g", kComma), 123.45);
    EXPECT_EQ(value("123.4567 g", kComma), 123.4567);
    EXPECT_EQ(value("1234.567 g", kComma), 1234.567);
    EXPECT_EQ(value("0.614", kComma), 0.614);
    EXPECT_EQ(value(".614", kComma), 0.614);
    for (const auto* text : {"1.200.300", "1,200.5", "1.200,5", "1,2,3"})
        EXPECT_EQ(fault(text, kComma), TextFault::thousands) << text;
    EXPECT_EQ(fault("1.2.3", kPoint), TextFault::thousands);
}

TEST(QuantityText, NumbersAndSigns) {
    EXPECT_EQ(value("5. g", kPoint), 5);
    EXPECT_EQ(value(".25 kg", kPoint), 0.25);
    EXPECT_EQ(value("−5 °C", kPoint), -5);
    EXPECT_EQ(value("+5 °C", kPoint), 5);
    EXPECT_EQ(value("1e-3", kPoint), 1e-3);
    EXPECT_EQ(value("1E+3 g", kPoint), 1e3);
    EXPECT_EQ(value("1,5e3 g", kComma), 1500);
    EXPECT_EQ(read_typed("2 e", kPoint).typed.unit, "e");
    for (const auto* text : {"", "g", "-", ".", "- 5 g", "1e999"})
        EXPECT_EQ(fault(text, kPoint), TextFault::no_number) << text;
}

TEST(QuantityText, LowerCaseOfEveryLetter) {
    EXPECT_EQ(lower("ABCDEFGHIJKLMNOPQRSTUVWXYZ @[ É"), "abcdefghijklmnopqrstuvwxyz @[ É");
}

TEST(QuantityText, TheNumbersOfAFormulaInTheReadersSign) {
    EXPECT_EQ(formula_in_words("0.1 + 2.3 × 4.5 ÷ 6.7 − 8.9 × 9.0 [a.b] .5", kComma),
              "0,1 + 2,3 × 4,5 ÷ 6,7 − 8,9 × 9,0 [a.b] .5");
    EXPECT_EQ(formula_in_words("0.9", kPoint), "0.9");
}

TEST(QuantityText, Uncertainties) {
    for (const auto* text :
         {"100 ± 1 g", "100 +/- 1 g", "100 +- 1 g", "(100 ± 1) g", "100 g ± 1 g", "100 g ± 1"}) {
        const TypedOrFault read = read_typed(text, kPoint);
        EXPECT_EQ(read.fault, TextFault::none) << text;
        EXPECT_EQ(read.typed.value, 100) << text;
        EXPECT_EQ(read.typed.uncertainty, 1) << text;
        EXPECT_EQ(read.typed.unit, "g") << text;
    }
    EXPECT_EQ(read_typed("100 ± 0 g", kPoint).fault, TextFault::none);
    for (const auto* text : {"100 ± -1 g", "100 ± −1 g", "100 ± g", "100 ±", "100 g ± 1 kg"})
        EXPECT_EQ(fault(text, kPoint), TextFault::uncertainty) << text;
    EXPECT_EQ(fault("100 ± 0,5 g", kPoint), TextFault::comma);
    EXPECT_EQ(fault("(100 ± 1 g", kPoint), TextFault::no_number);
}

TEST(QuantityText, OddSpaces) {
    std::string kept;
    EXPECT_EQ(plain_spaces("\u00A0412.5\u202Fg\t", kept), "412.5 g");
    EXPECT_EQ(plain_spaces("5\u2009°C", kept), "5 °C");
    EXPECT_EQ(plain_spaces("  ", kept), "");
}

}  // namespace
}  // namespace drysheet
