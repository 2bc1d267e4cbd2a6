# SPDX-License-Identifier: MPL-2.0
"""About This Cell: the deck in the sidebar, what it says of the selected cell, and the working as cells."""

import math
import statistics
import time
import unittest

from harness import MenuTest
from com.sun.star.util import CloseVetoException


class PanelTest(MenuTest):
    def setUp(self):
        super().setUp()
        for row, (label, content) in enumerate((("Fresh ginger (kg)", 12.5), ("Moisture, wet basis", 0.86),
                                                ("Final moisture wb", 0.1), ("Dried (kg)", "=DRY.DRIEDMASS(B1;B2;B3)"),
                                                ("Twice (kg)", "=B4*2"), ("Refused", "=DRY.DRYBASIS(2)")), 1):
            self.book.put(f"A{row}", label)
            self.book.put(f"B{row}", content)

    def dialog(self):
        controller = self.book.document.CurrentController
        sidebar = controller.getSidebar()
        decks = sidebar.getDecks()
        deck = decks.getByName("DrysheetDeck")
        panels = deck.getPanels()
        panel = panels.getByName("DrysheetCell")
        return panel.getDialog()

    def said(self):
        """What the panel shows."""
        return self.dialog().getControl("about").getModel().Text

    def open_at(self, address):
        self.select(address)
        done, said = self.send("cell")
        self.assertTrue(done, said)
        return said

    def test_it_follows_the_selection(self):
        self.assertEqual(self.open_at("B4"), self.said())
        self.assertIn("Sheet1.B4\n", self.said())
        self.select("B1")
        self.assertIn("12.5 kg", self.said())
        self.assertIn('"Fresh ginger (kg)"', self.said())

    def test_a_formula_of_ours_is_told_in_full(self):
        said = self.open_at("B4")
        self.book.sheet().getCellRangeByName("H1:H6").setArrayFormula('=DRY.WORKING("DRIEDMASS";B1;B2;B3)')
        working = [row[0] for row in self.book.sheet().getCellRangeByName("H1:H6").getDataArray()]
        for line in (*working, "fresh: B1 = 12.5 kg", "Geankoplis", "Mass of dried product", "B5"):
            self.assertIn(line, said)

    def test_a_refusal_is_told_as_why_tells_it(self):
        self.assertIn(self.book.show('=DRY.WHY("DRYBASIS";2)', "H1").text, self.open_at("B6"))

    def test_an_input_names_the_results_that_rest_on_it(self):
        said = self.open_at("B1")
        self.assertIn("B5", said)
        self.assertNotIn("B4", said, "B4 goes on into B5")

    def test_it_follows_edits(self):
        self.open_at("B5")
        self.book.put("B1", 25)
        self.select("A1")
        self.select("B1")
        self.assertIn("25 kg", self.said())

    def test_opening_it_twice_does_not_close_it(self):
        self.open_at("B4")
        self.open_at("B1")
        self.assertTrue(self.book.document.CurrentController.getSidebar().isVisible())
        self.assertIn("12.5 kg", self.said())

    def test_a_selection_is_followed_within_50_ms(self):
        sheet = self.book.sheet()
        sheet.getCellRangeByName("D1:D10000").setDataArray([[float(row)] for row in range(10000)])
        sheet.getCellRangeByName("E1:E10000").setFormulaArray([[f"=$D${row}*2"] for row in range(1, 10001)])
        self.open_at("B4")
        times = []
        for row in range(5, 25):
            cell = self.book.cell(f"E{row}")
            start = time.perf_counter()
            self.book.document.CurrentController.select(cell)
            times.append(time.perf_counter() - start)
        self.assertIn("Sheet1.E24", self.said())
        self.assertLess(statistics.median(times), 0.05)

    def test_every_sort_of_selection(self):
        self.open_at("B4")
        sheet = self.book.sheet()
        for area in ("A1:C9", "A1:XFD1", "A1:A1048576", "D1048576", "A7"):
            self.book.document.CurrentController.select(sheet.getCellRangeByName(area))
            self.assertTrue(self.said().startswith("Sheet1."), area)

    def test_the_window_may_close(self):
        self.open_at("B4")
        self.book.document.CurrentController.Frame.close(True)
        self.setUp()
        self.assertIn("Sheet1.B4", self.open_at("B4"))

    def test_a_hidden_workbook_has_an_answer_but_no_deck(self):
        book = self.office.new()
        self.addCleanup(book.close)
        book.put("A1", "=1+1")
        done, said = self.send("cell", book.document)
        self.assertTrue(done)
        self.assertIn("Sheet1.A1\n2", said)

    def test_working_as_cells(self):
        before = self.contents()
        self.select("B4")
        done, said = self.send("working")
        self.assertTrue(done, said)
        sheet = self.book.document.Sheets.getByName("Working")
        self.assertEqual(sheet.getCellRangeByName("A1").String, "Working of Sheet1.B4")
        lines = [row[0] for row in sheet.getCellRangeByName("A3:A8").getDataArray()]
        self.assertIn("dried = fresh × (1 − start) ÷ (1 − final)", lines)
        self.assertTrue(any(line.strip().startswith("= 1.94444") for line in lines), lines)
        self.book.put("B1", 25)
        lines = [row[0] for row in sheet.getCellRangeByName("A3:A8").getDataArray()]
        self.assertTrue(any(line.strip().startswith("= 3.88889") for line in lines), "it follows its inputs")
        self.book.put("B1", 12.5)
        self.assertEqual({where: text for where, text in self.contents().items() if where[0] != "Working"}, before)
        self.undo.undo()
        self.undo.undo()
        self.undo.undo()
        self.assertEqual(self.contents(), before)
        self.select("B5")
        self.assertEqual(self.send("working"), (False, "The selected cell calls no function of Drysheet."))
        self.select("B6")
        self.assertIn("DRY.DRYBASIS", self.send("working")[1])

    def press_sure(self):
        """On the button, which the office passes on by and by."""
        button = self.dialog().getControl("sure")
        self.assertEqual(button.getModel().Label, "How Sure Is This Cell")
        button.getAccessibleContext().doAccessibleAction(0)

    def test_the_window_may_close_while_how_sure_works(self):
        for wait in (0, 0.05, 0.2, 0.4):
            self.setUp()
            self.book.put("C1", "± 0.5 kg")
            self.open_at("B4")
            self.press_sure()
            time.sleep(wait)
            try:
                self.book.document.CurrentController.Frame.close(True)
            except CloseVetoException:
                pass  # it closes when the work has stopped
        self.setUp()
        self.assertIn("Sheet1.B4", self.open_at("B4"))

    def test_a_button_for_how_sure(self):
        self.book.put("C1", "± 0.5 kg")
        self.open_at("B4")
        self.press_sure()
        end = time.monotonic() + 60
        while self.book.document.CurrentController.ActiveSheet.Name != "How sure" and time.monotonic() < end:
            time.sleep(0.1)
        names = self.book.document.CurrentController.ActiveSheet.NamedRanges
        u = names.getByName("sure_u").getReferredCells().getCellByPosition(0, 0).Value
        # 12.5 ± 0.5 kg; the moistures are read to 0.01 and 0.1, each u = d/√12 (JCGM 100:2008 F.2.2.1)
        parts = (0.5 * 0.14 / 0.9, 12.5 / 0.9 * 0.01 / math.sqrt(12), 12.5 * 0.14 / 0.9 ** 2 * 0.1 / math.sqrt(12))
        self.assertAlmostEqual(u, math.hypot(*parts), delta=0.01 * u)


if __name__ == "__main__":
    unittest.main()
