# SPDX-License-Identifier: MPL-2.0
"""Review This Workbook: the sheet, what it carries over, and that nothing else changes."""

import pathlib
import time
import unittest

from harness import MenuTest

HEADER = ("Cell", "Finding", "Why", "Shows", "Formula", "Suggested", "Would show", "Evidence", "Settled", "By")


class ReviewTest(MenuTest):
    def table(self, name="Review", document=None):
        """(the line above, the rows under the sheet's own name DRYSHEET_REVIEW)"""
        sheet = (document or self.book.document).Sheets.getByName(name)
        rows = sheet.NamedRanges.getByName("DRYSHEET_REVIEW").getReferredCells().getDataArray()
        self.assertEqual(rows[0], HEADER)
        return sheet.getCellRangeByName("A1").String, [dict(zip(HEADER, row)) for row in rows[1:]]

    def by_cell(self, name="Review"):
        return {row["Cell"].split(":")[0].split(",")[0]: row for row in self.table(name)[1]}

    def settle(self, cell, words, who, name="Review"):
        sheet = self.book.document.Sheets.getByName(name)
        top = sheet.NamedRanges.getByName("DRYSHEET_REVIEW").getReferredCells().RangeAddress.StartRow
        at = [row["Cell"] for row in self.table(name)[1]].index(cell) + top + 1
        sheet.getCellByPosition(8, at).String = words
        sheet.getCellByPosition(9, at).String = who

    def fill(self):
        for address, content in (("A1", 12.5), ("A2", 0.86), ("A3", 0.1), ("B1", "=A1*2"), ("B2", "=1/0"),
                                 ("B3", '="a"&A1'), ("C1", "=DRY.DRIEDMASS(A1;A2;A3)")):
            self.book.put(address, content)
        self.book.document.Sheets.insertNewByName("It's, wet", 1)
        self.book.put("A1", "=$Sheet1.A1", 1)

    def test_every_formula_is_counted_and_has_a_row(self):
        self.fill()
        done, said = self.send("review")
        self.assertTrue(done, said)
        line, rows = self.table()
        self.assertEqual(line, said)
        self.assertTrue(said.startswith("Cells read: 5. "), said)
        by_cell = self.by_cell()
        self.assertEqual(by_cell["Sheet1.B1"]["Shows"], 25)
        self.assertEqual(by_cell["Sheet1.B1"]["Formula"], "=A1*2")
        self.assertEqual(by_cell["Sheet1.B2"]["Shows"], "#DIV/0!")
        self.assertEqual(by_cell["Sheet1.B3"]["Shows"], "a12.5")
        self.assertEqual(len(rows), 5)
        self.assertEqual({row["Finding"] for row in rows}
                         - {"wrong", "doubtful", "could be checked", "fine", "not judged"}, set())

    def test_a_link_leads_to_the_cell_and_no_word_is_spelled(self):
        self.fill()
        self.send("review")
        sheet = self.book.document.Sheets.getByName("Review")
        area = sheet.NamedRanges.getByName("DRYSHEET_REVIEW").getReferredCells()
        links = [row[0] for row in area.getFormulaArray()]
        self.assertIn("""=HYPERLINK("#$'It''s, wet'.A1";"'It''s, wet'.A1")""", links)
        self.assertEqual(area.CharLocale.Language, "zxx")

    def test_settled_rows_are_carried_over_while_the_formula_stays(self):
        self.fill()
        self.send("review")
        self.settle("Sheet1.B1", "as it should be", "M. K.")
        self.settle("Sheet1.B3", "a label", "M. K.")
        self.book.put("B3", '="b"&A1')
        self.send("review")
        line, rows = self.table("Review 2")
        self.assertEqual((rows[-1]["Cell"], rows[-1]["Settled"], rows[-1]["By"]),
                         ("Sheet1.B1", "as it should be", "M. K."))
        self.assertIn("Rows settled before: 1.", line)
        self.assertEqual([row["Settled"] for row in rows[:-1]], [""] * (len(rows) - 1))
        self.assertTrue(all(row["Cell"].startswith(("Sheet1.", "'It''s, wet'.")) for row in rows),
                        "a review is not reviewed")
        self.settle("Sheet1.B1", "", "", "Review 2")  # no longer
        self.send("review")
        self.assertEqual([row["Settled"] for row in self.table("Review 3")[1]], [""] * len(rows))

    def test_one_step_back_and_nothing_else_changed(self):
        self.fill()
        before, steps = self.contents(), self.undo.getAllUndoActionTitles()
        self.send("review")
        after = self.contents()
        self.assertEqual({where: text for where, text in after.items() if where[0] != "Review"}, before)
        self.assertEqual(self.undo.getAllUndoActionTitles(), ("Review This Workbook", *steps))
        self.undo.undo()
        self.assertEqual(self.contents(), before)
        self.assertEqual(self.undo.getAllUndoActionTitles(), steps)
        self.undo.redo()
        self.assertEqual(self.contents(), after)
        self.assertEqual(len(self.table()[1]), 5)
        self.undo.undo()

    # ---- use the suggestions

    def suggest(self, name, **cells):
        """Writes a suggestion into the row of each cell, as an engine or a person would."""
        sheet = self.book.document.Sheets.getByName(name)
        table = sheet.NamedRanges.getByName("DRYSHEET_REVIEW").getReferredCells()
        labels = [row[0].split(".")[1] for row in table.getDataArray()[1:]]
        top = table.RangeAddress.StartRow + 1
        for cell, formula in cells.items():
            sheet.getCellByPosition(5, top + labels.index(cell)).String = formula
        return sheet

    def note(self, address):
        return self.book.cell(address).Annotation.String

    def test_the_suggestion_of_the_selected_row_is_used_and_what_was_there_is_kept(self):
        self.fill()
        self.book.put("B4", "=A1*3")
        notes = self.book.sheet().Annotations
        notes.insertNew(self.book.cell("B1").CellAddress, "mine")
        self.send("review")
        sheet = self.suggest("Review", B1="=A1+A1", B4="=A1+2*A1")
        before = self.contents()
        rows = [row["Cell"] for row in self.table()[1]]
        controller = self.book.document.CurrentController
        controller.select(sheet.getCellByPosition(2, 3 + rows.index("Sheet1.B1")))
        done, said = self.send("adopt")
        self.assertTrue(done, said)
        self.assertEqual(self.book.cell("B1").Formula, "=A1+A1")
        self.assertEqual(self.book.cell("B4").Formula, "=A1*3", "not selected")
        self.assertEqual(self.note("B1"), "mine\nBefore: =A1*2")
        self.assertEqual(self.undo.getAllUndoActionTitles()[0], "Use the Suggestions")
        self.undo.undo()
        self.assertEqual(self.contents(), before)
        self.assertEqual(self.note("B1"), "mine")
        self.book.put("B4", "=A1*4")
        controller.select(sheet.getCellRangeByName("A1:J20"))
        done, said = self.send("adopt")
        self.assertTrue(done, said)
        self.assertEqual([self.book.cell(at).Formula for at in ("B1", "B4")], ["=A1+A1", "=A1*4"])
        self.assertIn("changed since: 1", said)

    def test_a_copied_group_follows_and_has_its_note_at_the_first_cell(self):
        for row in range(1, 6):
            self.book.put(f"A{row}", row)
            self.book.put(f"B{row}", f"=A{row}*2")
        self.send("review")
        sheet = self.book.document.Sheets.getByName("Review")
        sheet.getCellRangeByName("A4").String = "Sheet1.B1:B3, B5, 4 cells"
        sheet.getCellRangeByName("F4").String = "=A1+A1"
        self.book.document.CurrentController.select(sheet.getCellRangeByName("A4"))
        done, said = self.send("adopt")
        self.assertTrue(done, said)
        self.assertEqual([self.book.cell(f"B{row}").Formula for row in range(1, 6)],
                         ["=A1+A1", "=A2+A2", "=A3+A3", "=A4*2", "=A5+A5"])
        self.assertEqual([self.note(f"B{row}") for row in range(1, 6)], ["Before: =A1*2", "", "", "", ""])

    def test_nothing_is_used_where_it_cannot_be(self):
        self.fill()
        self.assertIn("Go to the sheet of a review", self.send("adopt")[1])
        self.send("review")
        before = self.contents()
        self.assertEqual(self.send("adopt"), (False, "None of the selected rows suggests a formula."))
        sheet = self.suggest("Review", B1="=A1+A1")
        self.book.document.CurrentController.select(sheet.getCellRangeByName("A1:A20"))
        self.book.sheet().protect("")
        done, said = self.send("adopt")
        self.assertFalse(done)
        self.assertIn("Sheet1.B1 is on a protected sheet", said)
        self.assertEqual({where: text for where, text in self.contents().items() if where[0] != "Review"},
                         {where: text for where, text in before.items() if where[0] != "Review"})

    def opened(self, count):
        components = self.office.desktop.Components.createEnumeration()
        documents = []
        while components.hasMoreElements():
            documents.append(components.nextElement())
        self.assertEqual(len(documents), count)
        return documents

    def test_a_protected_workbook_gets_its_review_in_a_new_one(self):
        self.fill()
        self.book.document.protect("")
        names = self.book.document.Sheets.ElementNames
        done, said = self.send("review")
        self.assertTrue(done, said)
        self.assertIn("in a new workbook", said)
        self.assertEqual(self.book.document.Sheets.ElementNames, names)
        new = next(document for document in self.opened(2) if document != self.book.document)
        self.addCleanup(new.close, True)
        line, rows = self.table(new.Sheets.ElementNames[0], new)
        self.assertEqual(len(rows), 5)

    def test_a_hidden_workbook_too(self):
        book = self.office.new()
        self.addCleanup(book.close)
        book.put("A1", "=1+1")
        done, said = self.send("review", book.document)
        self.assertTrue(done, said)
        self.assertEqual(len(self.table(document=book.document)[1]), 1)
        book.document.protect("")
        self.assertTrue(self.send("review", book.document)[0])
        for document in self.opened(3):
            frame = document.CurrentController.Frame
            self.assertEqual(frame.ContainerWindow.isVisible(), document == self.book.document)
            if document not in (self.book.document, book.document):
                document.close(True)

    def test_nothing_to_read(self):
        done, said = self.send("review")
        self.assertTrue(done, said)
        self.assertTrue(said.startswith("Cells read: 0. "), said)
        self.assertEqual(self.table()[1], [])

    def test_ten_thousand_formulas_on_twenty_sheets(self):
        sheets = self.book.document.Sheets
        for number in range(20):
            name = f"Lot {number}"
            sheets.insertNewByName(name, sheets.Count)
            sheet = sheets.getByName(name)
            sheet.getCellRangeByName("A1:D1").setDataArray((("mass (g)", "tare (g)", "net (g)", "net share"),))
            sheet.getCellRangeByName("A2:B251").setDataArray([[100.0 + row, 10.0] for row in range(250)])
            sheet.getCellRangeByName("C2:D251").setFormulaArray(
                [[f"=A{row}-B{row}", f"=C{row}/A{row}"] for row in range(2, 252)])
        start = time.monotonic()
        done, said = self.send("review")
        self.assertTrue(done, said)
        self.assertIn("Cells read: 10000.", said)
        self.assertLess(time.monotonic() - start, 10, "5 s on a machine of its own")

    def test_nothing_in_the_examples_is_called_wrong(self):
        for path in sorted(pathlib.Path(__file__).parents[2].glob("example-sheets/*.fods")):
            with self.subTest(path.name):
                document = self.office.desktop.loadComponentFromURL(path.as_uri(), "_blank", 0, ())
                self.addCleanup(document.close, True)
                done, said = self.send("review", document)
                self.assertTrue(done, said)
                if document.isProtected():  # its review stands in a new workbook, the one in front
                    document = self.office.desktop.CurrentComponent
                    self.addCleanup(document.close, True)
                rows = self.table(document.Sheets.ElementNames[0] if path.stem == "lessons" else "Review", document)[1]
                self.assertEqual([row for row in rows if row["Finding"] == "wrong"], [])


if __name__ == "__main__":
    unittest.main()
