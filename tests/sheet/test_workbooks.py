# SPDX-License-Identifier: MPL-2.0
"""What the example workbooks say when something is wrong, and that their tables, units and formats hold."""

import re
import unittest

from harness import ROOT, SheetTest
from office import address_of, properties

EXAMPLES = sorted((ROOT / "example-sheets").glob("*.fods"))
FINE = "Inputs still blank: 0"
LESSON = "lessons"  # an answer may be blank, of course; see test_lesson.py

# Cream cells that may be blank or hold a choice of the user's, as a regular expression over Sheet.Cell
OPTIONAL = {
    "drying-curve": r"Run\.D\d+",  # x leaves a reading out
    "scale-up": r"Ginger\.D(?!46)\d+",  # what if
}


class Workbooks(SheetTest):
    def open(self, name):
        book = self.office.copy(ROOT / "example-sheets" / f"{name}.fods")
        self.addCleanup(book.close)
        book.recalculate()
        return book

    def line(self, book, sheet):
        """The line at the top of a sheet that tells what is blank or refused; None where the sheet has none."""
        cells = book.sheet(sheet).getCellRangeByName("A1:A4").getDataArray()
        formulas = book.sheet(sheet).getCellRangeByName("A1:A4").getFormulaArray()
        return next((text for (text,), (formula,) in zip(cells, formulas) if FINE[:-1] in formula), None)

    def cream(self, book, name):
        """(sheet, address) of the cream cells that hold something."""
        optional = re.compile(OPTIONAL.get(name, "$^"))
        for sheet in book.document.Sheets.ElementNames:
            cursor = book.sheet(sheet).createCursor()
            cursor.gotoEndOfUsedArea(True)
            for row in range(cursor.RangeAddress.EndRow + 1):
                for column in range(cursor.RangeAddress.EndColumn + 1):
                    address = address_of(column, row)
                    cell = book.sheet(sheet).getCellByPosition(column, row)
                    if (cell.CellStyle.startswith("Measured") and cell.getString()
                            and not optional.fullmatch(f"{sheet}.{address}")):
                        yield sheet, address

    def type_in(self, book, sheet, address, text):
        """As a person types it: Calc makes of the text what it would in a window."""
        view = book.document.CurrentController
        view.setActiveSheet(book.sheet(sheet))
        view.select(book.cell(address, sheet))
        self.office.service("com.sun.star.frame.DispatchHelper").executeDispatch(
            view.Frame, ".uno:EnterString", "", 0, properties(StringName=text))

    def test_every_blank_input_is_said(self):
        for path in EXAMPLES:
            if path.stem == LESSON:
                continue
            with self.subTest(path.stem):
                book = self.open(path.stem)
                self.assertEqual(self.line(book, "Summary"), FINE)
                tried = list(self.cream(book, path.stem))
                self.assertGreater(len(tried), 10)
                for sheet, address in tried:
                    cell = book.cell(address, sheet)
                    before = cell.getFormula()
                    book.put(address, None, sheet)
                    self.assertIn("Inputs still blank: 1", self.line(book, sheet) or "", f"{sheet}.{address}")
                    self.assertIn("Inputs still blank: 1", self.line(book, "Summary"), f"{sheet}.{address}")
                    cell.setFormula(before)
                self.assertEqual(self.line(book, "Summary"), FINE)

    def says(self, book, sheet, **wanted):
        """With those cells changed, the sheet's own line and the one of the summary hold these words."""
        words = wanted.pop("words")
        before = {address: book.cell(address, sheet).getFormula() for address in wanted}
        for address, content in wanted.items():
            book.put(address, content, sheet)
        for where in (sheet, "Summary"):
            self.assertIn(words, self.line(book, where) or "", (sheet, wanted))
        for address, content in before.items():
            book.cell(address, sheet).setFormula(content)

    def test_the_dryer_says_what_cannot_be(self):
        book = self.open("dryer-air")
        self.says(book, "Dryer", B12=60000, words="saturated")
        self.says(book, "Dryer", B10=20, words="saturated air at 20 °C")
        self.says(book, "Dryer", B14=1, words="below 1 is allowed")
        self.says(book, "Dryer", B7=72, words="72 % is 0.72")
        self.says(book, "Dryer", B13=0, words="above 0")
        self.says(book, "Recirculation", A16=1, words="below 1 is allowed")
        self.says(book, "Recirculation", A16=0.99, words="saturated")
        self.assertEqual(self.line(book, "Summary"), FINE)

    def test_the_chart_of_the_dryer_follows(self):
        book = self.open("dryer-air")
        book.put("B10", 95, "Dryer")
        book.put("B14", 0.9, "Dryer")
        points = book.sheet("Dryer").getCellRangeByName("B18:D22").getDataArray()
        lines = book.sheet("Dryer").getCellRangeByName("I7:O39").getDataArray()
        self.assertGreater(lines[-1][0], max(point[0] for point in points))
        self.assertLess(lines[0][0], min(point[0] for point in points))
        highest = max(value for line in lines for value in line[1:] if isinstance(value, float))
        self.assertTrue(1 < highest / max(point[2] for point in points) < 1.5)
        path = (ROOT / "example-sheets" / "dryer-air.fods").read_text().partition('draw:name="Path"')[2].partition("</draw:frame>")[0]
        self.assertTrue(path)
        self.assertFalse(re.search("chart:maximum", path), "an axis of the path has a fixed end")

    def test_the_curve_says_what_is_refused_and_blanks_nothing(self):
        book = self.open("drying-curve")
        self.says(book, "Run", C20=None, words="DRY.RATIOS: masses")
        self.says(book, "Run", B8=85, words="85 % is 0.85")
        self.says(book, "Run", B20=0.2, words="times must rise")
        self.says(book, "Next batch", B6=0.02, words="no time would be enough")
        book.put("C20", None, "Run")
        self.assertEqual(self.line(book, "Fit"), f"On the sheet Run: {self.line(book, 'Run')}")
        shown = [book.cell(f"{column}{row}", "Fit").getError() for column in "ABC" for row in range(16, 21)]
        self.assertNotIn(0, shown)

    def test_the_plan_says_what_cannot_be(self):
        book = self.open("scale-up")
        for column, case in (("D", "What if"), ("B", "As planned")):
            before = book.cell(f"{column}27", "Ginger").getFormula()
            book.put(f"{column}27", 3, "Ginger")
            for sheet in ("Plan", "Summary"):
                self.assertIn(f"{case}: target table, target moisture", self.line(book, sheet))
            book.cell(f"{column}27", "Ginger").setFormula(before)
        self.assertEqual(self.line(book, "Summary"), FINE)

    def test_a_share_is_typed_as_a_fraction_or_with_its_sign(self):
        """Calc stores 65 % as 0.65 wherever it is typed, so no input may have the unit %. Nor may one have a percent
        format: in a window Calc then adds a sign of its own, 65 % becomes the text 65 %% and 0.65 becomes 0.65 %."""
        shares = 0
        for path in EXAMPLES:
            book = self.open(path.stem)
            for sheet, address in self.cream(book, path.stem):
                column, row = re.fullmatch(r"([A-Z])(\d+)", address).groups()
                beside = [book.cell(f"{chr(ord(column) + step)}{row}", sheet).getString() for step in (1, 2)]
                self.assertFalse([unit for unit in beside if unit.startswith("%")], f"{path.stem} {sheet}.{address}")
                before, shown = book.cell(address, sheet).getValue(), book.cell(address, sheet).getString()
                self.assertNotIn("%", shown, f"{path.stem} {sheet}.{address}")
                if [unit for unit in beside if unit.startswith("fraction") or unit == "wb"]:
                    shares += 1
                    self.type_in(book, sheet, address, f"{100 * before:.6g} %")
                    self.assert_close(book.cell(address, sheet).getValue(), before, 1e-12, f"{path.stem} {sheet}.{address}")
                    self.assertEqual(book.cell(address, sheet).getString(), shown, f"{path.stem} {sheet}.{address}")
        self.assertGreater(shares, 20)

    def test_a_percent_of_the_plan(self):
        book = self.open("scale-up")
        dry = book.cell("C9", "Tray run").getValue()
        self.assertGreater(dry, 0.05)
        for typed in ("80 %", "80%", "0.8"):
            self.type_in(book, "Ginger", "B31", typed)
            self.assert_close(book.cell("C9", "Tray run").getValue(), dry, 1e-12, typed)
        cost = book.cell("B9", "Summary").getValue()
        self.type_in(book, "Ginger", "D31", "40 %")
        self.assertEqual(book.cell("G15", "Cases").getString(), "0.400")
        self.assertEqual(book.cell("B9", "Summary").getValue(), cost)
        self.assertEqual(self.line(book, "Summary"), FINE)
        self.type_in(book, "Ginger", "D27", "9 %")
        self.assertEqual(self.line(book, "Summary"), FINE)
        for address, sheet in (("B31", "Ginger"), ("D27", "Ginger"), ("B23", "Pineapple")):
            self.assertEqual(book.cell(address, sheet).Validation.Type.value, "DECIMAL")
        book.put("B31", 65, "Ginger")
        self.assertIn("room rh", self.line(book, "Summary"))

    def test_a_clock_time_looks_like_the_number_it_is(self):
        tried = 0
        for name, sheet, *addresses in (
                ("scale-up", "Ginger", "B15", "B28", "B29", "B39", "D28", "D29", "D39"),
                ("scale-up", "Pineapple", "B14", "B20", "B21", "B28"), ("scale-up", "Batch size", "C5", "C6"),
                ("dryer-air", "Dryer", "B13"), ("drying-curve", "Run", *(f"B{row}" for row in range(17, 37)))):
            book = self.open(name)
            for address in addresses:
                self.type_in(book, sheet, address, "7:36")
                self.assertEqual(book.cell(address, sheet).getString(), "0.32", f"{name} {sheet}.{address}")
                self.type_in(book, sheet, address, "7.6")
                self.assertEqual(book.cell(address, sheet).getString(), "7.60", f"{name} {sheet}.{address}")
                tried += 1
            words = " ".join(cell for row in book.sheet(sheet).getCellRangeByName("A1:G40").getDataArray()
                             for cell in row if isinstance(cell, str))
            self.assertRegex(words, r"as a number: \d\.\d, not \d:\d\d", f"{name} {sheet}")
        self.assertEqual(tried, 34)

    def test_impossible_shares_are_refused_in_their_row(self):
        book = self.open("dryer-air")
        for share in (-0.5, 1, 20):
            book.put("A8", share, "Recirculation")
            self.assertEqual([book.cell(f"{column}8", "Recirculation").getString() for column in "BCDEFGH"], ["#N/A"] * 7)
            self.assertEqual(book.cell("B9", "Recirculation").getError(), 0)
        book.put("A8", 0.2, "Recirculation")
        for address in ("B11", "B13"):
            before = book.cell(address, "Dryer").getValue()
            book.put(address, None, "Dryer")
            self.assertEqual(book.cell("D26", "Dryer").getString(), "air and time must be numbers above 0")
            book.put(address, before, "Dryer")
        self.assertTrue(book.cell("D26", "Dryer").getString().startswith("=B12"))

    def test_the_tray_run_tells_why_it_has_no_time(self):
        book = self.open("scale-up")
        book.put("B7", None, "Ginger")
        self.assertEqual(book.cell("C54", "Tray run").getError(), book.cell("C51", "Tray run").getError())
        for address in ("G51", "G54"):
            self.assertIn("prepared: is missing", book.cell(address, "Tray run").getString())
        book.put("B7", 9.6, "Ginger")
        book.put("B19", 1, "Tray run")  # the first tray is the last one
        self.assert_close(book.cell("C54", "Tray run").getValue(), book.cell("C51", "Tray run").getValue(), 1e-9, "one tray")

    def test_no_film_helps_a_powder_above_its_limit(self):
        book = self.open("powder-and-pack")
        self.assertFalse(book.cell("B32", "Film").getString().startswith("no film"))
        book.put("B8", 0.30, "Caking")  # far above any caking limit of it
        self.assertTrue(book.cell("B32", "Film").getString().startswith("no film can help"), book.cell("B32", "Film").getString())
        self.assertEqual(book.cell("B33", "Film").getString(), "–")

    def test_formulas_are_shown_with_semicolons(self):
        for path in EXAMPLES:
            book = self.open(path.stem)
            for (sheet, address), (formula, result) in book.formulas().items():
                if "FORMULA(" in formula:
                    self.assertTrue(result.text.lstrip("{").startswith("="), f"{path.stem} {sheet}.{address}: {result.text}")
                    self.assertNotIn(",", result.text, f"{path.stem} {sheet}.{address}")

    def test_no_table_is_cut(self):
        """An array formula is entered over as many rows as its table has, but for a last one told in a cell of its own."""
        for path in EXAMPLES:
            book = self.open(path.stem)
            rows = {}
            for (sheet, address), (formula, _) in book.formulas().items():
                if formula.startswith("{="):
                    column, row = re.fullmatch(r"([A-Z]+)(\d+)", address).groups()
                    rows.setdefault((sheet, formula), {}).setdefault(int(row), column)
            for (sheet, formula), spanned in rows.items():
                with self.subTest(f"{path.stem} {sheet} {formula}"):
                    last = max(spanned)
                    told = book.cell(f"{spanned[last]}{last + 1}", sheet).getString() == "verdict"
                    shown = re.fullmatch(r'IF\([^;]*;(DRY\.WORKING.*);""\)', formula[2:-1])  # after a first try only
                    found = book.put("AZ1", f"=ROWS({shown[1] if shown else formula[2:-1]})", sheet).getValue()
                    self.assertEqual(found, len(spanned) + told)

    def test_numbers_are_formatted(self):
        for path in EXAMPLES:
            book = self.open(path.stem)
            for (sheet, address), (formula, result) in book.formulas().items():
                if result.kind == "value" and book.sheet(sheet).IsVisible:
                    shown = book.cell(address, sheet).getString()
                    self.assertNotRegex(shown, r"\.\d{6}", f"{path.stem} {sheet}.{address} {formula}")

    def test_words_for_the_user(self):
        for path in EXAMPLES:
            for text in re.findall(r"<text:p>(.*?)</text:p>", path.read_text()):
                self.assertNotIn("INTENDED_ERRORS", text, path.stem)
                self.assertNotRegex(text.lower(), r"\bsafe\b", path.stem)


if __name__ == "__main__":
    unittest.main()
