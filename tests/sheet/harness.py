# SPDX-License-Identifier: MPL-2.0
"""What the sheet tests share. ctest tells where the build's products are by DRYSHEET_OXT and DRYSHEET_CATALOGUE."""

import json
import math
import os
import pathlib
import subprocess
import unittest

from office import BAD_ARGUMENT, NO_SOLUTION, Book, Office, address_of, properties

ROOT = pathlib.Path(__file__).resolve().parents[2]
OXT = os.environ.get("DRYSHEET_OXT", str(ROOT / "build" / "drysheet.oxt"))
CATALOGUE = os.environ.get("DRYSHEET_CATALOGUE", str(ROOT / "build" / "addin" / "drysheet_catalogue"))
REFUSED = (BAD_ARGUMENT, NO_SOLUTION)


def checks():
    """Every check value and every refusal of the catalogue, as its entries have them."""
    lines = subprocess.run([CATALOGUE, "checks"], capture_output=True, text=True, check=True).stdout.splitlines()
    return [json.loads(line) for line in lines]


def written(value):
    """A value as it is written inside a formula; None is left out."""
    if value is None:
        return ""
    if isinstance(value, str):
        return '"' + value.replace('"', '""') + '"'
    if isinstance(value, list):
        return "{" + "|".join(";".join(written(cell) for cell in row) for row in value) + "}"
    return repr(value)


def can_be_written(value):
    """An inline array has no blanks."""
    return not isinstance(value, list) or all(cell is not None for row in value for cell in row)


class Placed:
    """Arguments in cells from B1 on, one below the other. They are there after write(): a call for each cell is slow."""

    def __init__(self, book):
        self.book = book
        self.rows = []

    def reference(self, value):
        if value is None:
            return ""
        first = len(self.rows) + 1
        self.rows += [["" if cell is None else cell for cell in row] for row in value] if isinstance(value, list) else [[value]]
        last = f":{chr(65 + len(self.rows[-1]))}{len(self.rows)}" if isinstance(value, list) else ""
        return f"B{first}{last}"

    def call(self, function, given):
        return f"DRY.{function}({';'.join(self.reference(value) for value in given)})"

    def write(self):
        if self.rows:
            width = max(map(len, self.rows))
            cells = self.book.sheet().getCellRangeByPosition(1, 0, width, len(self.rows) - 1)
            cells.setDataArray([row + [""] * (width - len(row)) for row in self.rows])  # "" leaves a cell blank


def looked_up(call, check):
    """The formula that shows what a check expects: the call, every text of its outcome, or a column of a row of
    its table (Calc 7.4 finds a name in an add-in's mixed table by MATCH on INDEX, not by VLOOKUP)."""
    if check.get("at"):
        return f'=INDEX({call};MATCH("{check["at"]}";INDEX({call};0;1);0);{check["column"]})'
    return f'=TEXTJOIN(" ";1;{call})' if check["kind"] == "text" else f"={call}"


class SheetTest(unittest.TestCase):
    """One office with the add-in for all tests of a class, and an empty workbook for each."""

    locale = "en-US"
    language = "en"

    @classmethod
    def setUpClass(cls):
        cls.office = Office(addin=OXT, locale=cls.locale)
        cls.office.__enter__()
        cls.addClassCleanup(cls.office.__exit__)
        if cls.language != "en":  # as an office with that language installed has it
            provider = cls.office.service("com.sun.star.configuration.ConfigurationProvider")
            settings = provider.createInstanceWithArguments("com.sun.star.configuration.ConfigurationUpdateAccess",
                                                            properties(nodepath="/org.openoffice.Setup/L10N"))
            settings.replaceByName("ooLocale", cls.language)
            settings.commitChanges()

    def setUp(self):
        self.book = self.office.new()
        self.addCleanup(self.book.close)

    def shows(self, formula, expected, tolerance=1e-12):
        """The formula gives that number, within a relative tolerance (absolute where 0 is expected)."""
        result = self.book.show(formula)
        self.assertEqual(result.kind, "value", f"{formula} shows {result.text}")
        self.assert_close(result.value, expected, tolerance, formula)

    def assert_close(self, value, expected, tolerance, what):
        allowed = tolerance * (abs(expected) if expected else 1)
        self.assertTrue(abs(value - expected) <= allowed and not math.isnan(value),
                        f"{what} shows {value!r}, not {expected!r} within {allowed:.3g}")

    def refuses(self, formula, error=BAD_ARGUMENT):
        result = self.book.show(formula)
        self.assertEqual(result.error, error, f"{formula} shows {result.text}")


class MenuTest(SheetTest):
    """A workbook in a window, if only a headless one, and the commands sent to it."""

    def setUp(self):
        # undo and cursor want a window
        self.book = Book(self.office.desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0, ()))
        self.addCleanup(self.book.close)
        self.undo = self.book.document.UndoManager

    def send(self, command, document=None, **arguments):
        """(whether it was done, what was said)"""
        frame = (document or self.book.document).CurrentController.Frame
        helper = self.office.service("com.sun.star.frame.DispatchHelper")
        event = helper.executeDispatch(frame, f"org.drysheet.menu:{command}", "", 0, properties(**arguments))
        return event.State == 1, event.Result

    def select(self, address, sheet=0):
        controller = self.book.document.CurrentController
        controller.setActiveSheet(self.book.sheet(sheet))
        controller.select(self.book.cell(address, sheet))

    def contents(self):
        """{(sheet, address): formula} of every cell that is not empty."""
        found = {}
        for sheet in self.book.document.Sheets:
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(True)
            for row, cells in enumerate(cursor.getFormulaArray()):
                for column, formula in enumerate(cells):
                    if formula:
                        found[sheet.Name, address_of(column, row)] = formula
        return found
