# SPDX-License-Identifier: MPL-2.0
"""Workbooks keep their formulas and values from format to format, and without the add-in."""

import pathlib
import re
import tempfile
import unittest
import zipfile

from harness import OXT, Placed, SheetTest, checks, looked_up
from office import UNKNOWN_NAME, Office


def content(path):
    """The text in which a file holds its formulas."""
    if path.suffix == ".fods":
        return path.read_text()
    with zipfile.ZipFile(path) as package:
        return package.read("content.xml" if path.suffix == ".ods" else "xl/worksheets/sheet1.xml").decode()


def rounded(text):
    """Numbers within a text to 6 digits: a file keeps 15 digits of an input, and a fit magnifies the last one."""
    return re.sub(r"\d+\.\d+(E[-+]?\d+)?", lambda number: f"{float(number.group()):.6g}", text)


def by_meaning(formula):
    """A range of one cell as that cell: newer offices read the one from .xlsx where the other was written."""
    return re.sub(r"\b([A-Z]+[0-9]+):\1\b", r"\1", formula)


class Files(SheetTest):
    def setUp(self):
        super().setUp()
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        placed, formulas = Placed(self.book), []  # a workbook with every check and every refusal
        for check in checks():
            formulas.append(looked_up(placed.call(check["function"], check["given"]), check))
        placed.write()
        column = self.book.sheet().getCellRangeByPosition(0, 0, 0, len(formulas) - 1)
        column.setFormulaArray([(formula,) for formula in formulas])
        self.first = self.book.formulas()
        self.assertTrue(self.first)

    def assert_same(self, book, what):
        book.recalculate()
        now = book.formulas()
        self.assertEqual(set(now), set(self.first), what)
        for place, (formula, result) in self.first.items():
            with self.subTest(what, cell=place[1]):
                self.assertEqual(by_meaning(now[place][0]), by_meaning(formula))
                if result.kind != "value":
                    self.assertEqual(rounded(now[place][1].text), rounded(result.text), formula)
                else:
                    self.assert_close(now[place][1].value, result.value, 1e-7, formula)

    def functions_in(self, path):
        return set(re.findall(r"\b[A-Za-z.]*DRY\.[A-Z]+(?=\()", content(path), re.IGNORECASE))

    def test_round_trip(self):
        used = {f"DRY.{check['function']}" for check in checks()}
        book = self.book
        for number, suffix in enumerate((".fods", ".ods", ".xlsx", ".fods")):
            path = book.save(self.folder / f"{number}{suffix}")
            self.assertEqual(self.functions_in(path), used, f"names stored in {suffix}")
            book = self.office.open(path)
            self.addCleanup(book.close)
            self.assert_same(book, suffix)

    def test_without_the_addin_nothing_is_lost(self):
        for suffix in (".fods", ".ods", ".xlsx"):
            path = self.book.save(self.folder / f"made{suffix}")
            with Office() as bare:
                with bare.open(path) as book:
                    book.recalculate()
                    self.assertEqual({result.error for _, result in book.formulas().values()}, {UNKNOWN_NAME})
                    saved = book.save(self.folder / f"saved{suffix}")
            with self.office.open(saved) as book:
                self.assert_same(book, f"{suffix} saved without the add-in")


if __name__ == "__main__":
    unittest.main()
