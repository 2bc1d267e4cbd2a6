# SPDX-License-Identifier: MPL-2.0
"""How a cell's content is read: DRY.DRIEDMASS(100 g; 80 %; 20 %) is 25 g by hand, 100 × 0.20 ÷ 0.80."""

import unittest

from harness import SheetTest


class Arguments(SheetTest):
    def with_fresh(self, content):
        self.book.put("B1", content)
        return "=DRY.DRIEDMASS(B1;0.8;0.2)"

    def with_start(self, content):
        self.book.put("B1", content)
        return "=DRY.DRIEDMASS(100;B1;0.2)"

    def test_numbers_and_texts(self):
        for fresh in (100, "100", "100 g", "100g", "0.1 kg", "100 ± 0.1 g", "100 +/- 0.1 g", "  100   g "):
            with self.subTest(fresh):
                self.shows(self.with_fresh(fresh), 25)

    def test_moistures(self):
        for start in (0.8, "0.8", "80 %", "80%", "80 % wb", "0.8 wb", "4 db", "400 % db", "4 kg/kg db"):
            with self.subTest(start):
                self.shows(self.with_start(start), 25)

    def test_pounds_stay_exact(self):
        self.shows(self.with_fresh("1 lb"), 453.59237 / 4)  # NIST SP 811: 1 lb = 453.59237 g

    def test_plain_kilograms_give_kilograms(self):
        self.shows("=DRY.DRIEDMASS(48;0.8;0.2)", 12)

    def test_value_joined_with_its_unit(self):
        self.book.put("B1", 0.1)
        self.book.put("C1", "kg")
        self.shows('=DRY.DRIEDMASS(B1&" "&C1;0.8;0.2)', 25)

    def test_blank_is_refused(self):
        self.refuses(self.with_fresh(None))
        self.refuses(self.with_start(None))
        self.refuses("=DRY.DRIEDMASS(;0.8;0.2)")
        self.refuses("=DRY.DRIEDMASS(100;0.8)")
        self.refuses("=DRY.DRIEDMASS()")

    def test_zero_moisture_is_refused_and_bone_dry_said_in_words(self):
        self.refuses("=DRY.DRIEDMASS(100;0.8;0)")
        self.shows('=DRY.DRIEDMASS(100;0.8;"0 %")', 20)

    def test_nonsense_is_refused(self):
        for fresh in ("heavy", "", " ", "100 °C", "100 furlongs", "100 g m", "g", "1e999", "100 g 5", -5):
            with self.subTest(fresh):
                self.refuses(self.with_fresh(fresh))
        for start in (80, 1, -0.1, "80", "101 %", "80 °C", "80 % xb"):
            with self.subTest(start):
                self.refuses(self.with_start(start))

    def test_one_cell_range_and_array_are_their_value(self):
        self.book.put("B1", 100)
        self.shows("=DRY.DRIEDMASS(B1:B1;0.8;0.2)", 25)
        self.shows("=DRY.DRIEDMASS({100};0.8;0.2)", 25)
        self.shows('=DRY.DRIEDMASS({"0.1 kg"};0.8;0.2)', 25)

    def test_more_than_one_value_is_refused_where_one_is_wanted(self):
        self.book.put("B1", 100)
        self.book.put("B2", 100)
        self.refuses("=DRY.DRIEDMASS(B1:B2;0.8;0.2)")
        self.refuses("=DRY.DRIEDMASS(100;{0.8;0.8};0.2)")

    def test_an_error_stays_the_same_error(self):
        for formula, shown in (("=1/0", "#DIV/0!"), ("=NA()", "#N/A"), ("=NOSUCHNAME", "#NAME?"), ("=SQRT(-1)", "Err:502")):
            with self.subTest(formula):
                self.assertEqual(self.book.show(self.with_fresh(formula)).text, shown)

    def test_error_inside_a_sum_is_not_skipped(self):
        self.book.put("D1", "=DRY.DRIEDMASS(100;80;0.2)")
        self.book.put("D2", 1)
        self.refuses("=SUM(D1:D2)")

    def test_comma_decimal_is_refused_where_a_point_is_written(self):
        self.refuses(self.with_fresh("412,5 g"))

    def test_why(self):
        refused = self.book.show('=DRY.WHY("DRIEDMASS";100;80;0.2)')
        self.assertIn("start", refused.text)
        self.assertIn("80", refused.text)
        self.assertIn("fine", self.book.show('=DRY.WHY("DRIEDMASS";100;0.8;0.2)').text)
        self.assertIn("fresh", self.book.show('=DRY.WHY("DRIEDMASS";B9;0.8;0.2)').text)

    def test_a_formula_is_found_in_any_case(self):
        self.shows("=dry.driedmass(100;0.8;0.2)", 25)


class GermanArguments(SheetTest):
    locale = "de-DE"

    def test_comma_decimal_is_read(self):
        self.book.put("B1", "412,5 g")
        self.shows("=DRY.DRIEDMASS(B1;0.8;0.2)", 412.5 / 4)

    def test_a_number_joined_with_its_unit(self):
        self.book.put("B1", 412.5)
        self.assertEqual(self.book.show('=B1&" g"').text, "412,5 g")
        self.shows('=DRY.DRIEDMASS(B1&" g";0.8;0.2)', 412.5 / 4)


if __name__ == "__main__":
    unittest.main()
