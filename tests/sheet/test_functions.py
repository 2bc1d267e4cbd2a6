# SPDX-License-Identifier: MPL-2.0
"""Every check value and every refusal of every function, through cells of a real Calc."""

import re
import unittest

from harness import REFUSED, ROOT, Placed, SheetTest, can_be_written, checks, looked_up, written


class Functions(SheetTest):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.checks = checks()

    def each(self, refusals):
        """(check, the call with its arguments in the cells of an otherwise empty sheet)"""
        for check in self.checks:
            if (check["kind"] == "refusal") == refusals:
                self.book.sheet().clearContents(1023)
                placed = Placed(self.book)
                call = placed.call(check["function"], check["given"])
                placed.write()
                yield check, call

    def compare(self, check, formula):
        result = self.book.show(formula)
        with self.subTest(formula, given=check["given"]):
            self.assertEqual(result.kind, check["kind"], f"shows {result.text}")
            if check["kind"] == "value":
                self.assert_close(result.value, check["expected"], check["tolerance"], "the cell")
            else:
                (self.assertIn if check["part"] or not check.get("at") else self.assertEqual)(check["expected"], result.text)

    def test_the_calls_that_answer_the_questions(self):
        """What the front of the function reference tells people to type."""
        questions = re.findall(r"^- .*\?.* `(=DRY.*)` \[", (ROOT / "addin" / "FUNCTIONS.md").read_text(), re.MULTILINE)
        self.assertGreater(len(questions), 20)
        for formula in questions:
            with self.subTest(formula):
                self.assertNotEqual(self.book.show(formula).kind, "error")

    def test_every_function_has_a_check(self):
        checked = {f"DRY.{check['function']}" for check in self.checks if check["kind"] != "refusal"}
        self.assertEqual(set(self.office.descriptions()) - checked, set())
        self.assertEqual(checked - set(self.office.descriptions()), set())

    def test_checks_with_arguments_in_cells(self):
        for check, call in self.each(refusals=False):
            self.compare(check, looked_up(call, check))

    def test_checks_with_arguments_in_the_formula(self):
        for check, _ in self.each(refusals=False):
            if all(map(can_be_written, check["given"])):
                call = f"DRY.{check['function']}({';'.join(map(written, check['given']))})"
                self.compare(check, looked_up(call, check))

    def test_refusals_are_errors_that_a_sum_does_not_swallow(self):
        for check, call in self.each(refusals=True):
            result = self.book.show(f"=SUM({call})")
            with self.subTest(call, given=check["given"]):
                self.assertIn(result.error, REFUSED, f"shows {result.text}")

    def test_why_names_the_argument(self):
        for check, call in self.each(refusals=True):
            why = call.replace(f"DRY.{check['function']}(", f'DRY.WHY("{check["function"]}";').replace(";)", ")")
            result = self.book.show(f"={why}")
            with self.subTest(why, given=check["given"]):
                self.assertEqual(result.kind, "text", f"shows {result.text}")
                self.assertIn(check["argument"], result.text)

    def test_an_error_passed_in_stays(self):
        for check, call in self.each(refusals=False):
            if check["given"] and check["given"][0] is not None:
                self.book.put("B1", "=1/0")
                with self.subTest(call):
                    result = self.book.show(f"={call}")
                    self.assertEqual(result.kind, "error")
                    if not isinstance(check["given"][0], list):  # Calc makes one inside a range its own Err:504
                        self.assertEqual(result.text, "#DIV/0!")


if __name__ == "__main__":
    unittest.main()
