# SPDX-License-Identifier: MPL-2.0
"""What the Function Wizard shows of every function."""

import unittest

from harness import SheetTest, checks


class Wizard(SheetTest):
    def test_every_function_and_argument_is_described(self):
        described = self.office.descriptions()
        self.assertTrue(described)
        for name, entry in described.items():
            with self.subTest(name):
                self.assertGreater(len(entry["Description"]), 20)
                # the longest that were seen whole in the wizard's window (531 and 269 characters, the German ones)
                self.assertLess(len(entry["Description"]), 550)
                for argument in entry["Arguments"] or ():
                    self.assertTrue(argument.Name)
                    self.assertGreater(len(argument.Description), 3, argument.Name)
                    self.assertLess(len(argument.Description), 280, argument.Name)

    def test_what_must_be_given_says_so_first(self):
        """The office calls every argument of an add-in optional."""
        described = self.office.descriptions()
        text = {argument.Name: argument.Description for argument in described["DRY.CAKINGMOISTURE"]["Arguments"]}
        for name in ("store_temp", "tg_solids", "k"):
            self.assertTrue(text[name].startswith("must be given: "), text[name])
        self.assertIn("left out: 0", text["margin"])
        self.assertNotIn("must be given", text["margin"])

    def test_every_function_is_there(self):
        self.assertEqual({f"DRY.{check['function']}" for check in checks()} - set(self.office.descriptions()), set())


if __name__ == "__main__":
    unittest.main()
