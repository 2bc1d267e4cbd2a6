"""What the example workbooks say when something is wrong, and that their tables, units and formats hold."""

import re
import unittest

from harness import ROOT, SheetTest
from office import address_of

EXAMPLES = sorted((ROOT / "example-sheets").glob("*.fods"))
FINE = "Inputs still blank: 0"
LESSON = "mass-balance-lesson"  # an answer may be blank, of course; see test_lesson.py

# Cream cells that may be blank or hold a choice of the user's, as a regular expression over Sheet.Cell
OPTIONAL = {
    "drying-curve": r"Run\.D\d+",  # x leaves a reading out
    "lab-notebook": r"Notebook\.[BC]18",  # a tray that was not needed
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
                    found = book.put("AZ1", f"=ROWS({formula[2:-1]})", sheet).getValue()
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

    def test_a_unit_of_the_notebook_is_changed_in_one_place(self):
        book = self.open("lab-notebook")

        def numbers():
            return {place: result.value for place, (_, result) in book.formulas().items() if result.kind == "value"}

        before = numbers()
        for row in (6, 7, 8, 9, 15, 16, 17, 18, 19, 28, 39, 41, 42, 43):
            for column in "BC":
                if book.cell(f"{column}{row}", "Notebook").Type.value == "VALUE":
                    book.put(f"{column}{row}", book.cell(f"{column}{row}", "Notebook").getValue() / 1000, "Notebook")
            if row not in (16, 17, 18):  # they follow row 15
                book.put(f"D{row}", "kg", "Notebook")
        after = numbers()
        self.assertEqual(set(after), set(before))
        for place in before:
            shown_in_its_unit = place in (("Summary", "B9"), ("Summary", "B20"))
            factor = 1000 if shown_in_its_unit else 1
            self.assert_close(after[place] * factor, before[place], 1e-9, place)
        self.assertEqual(book.cell("C9", "Summary").getString(), "kg")


if __name__ == "__main__":
    unittest.main()
