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
                for argument in entry["Arguments"] or ():
                    self.assertTrue(argument.Name)
                    self.assertGreater(len(argument.Description), 3, argument.Name)

    def test_every_function_is_there(self):
        self.assertEqual({f"DRY.{check['function']}" for check in checks()} - set(self.office.descriptions()), set())


if __name__ == "__main__":
    unittest.main()
