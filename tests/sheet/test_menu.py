# SPDX-License-Identifier: MPL-2.0
"""The menu's commands, sent as the menu sends them: blocks of formulas, examples, undo."""

import unittest

from harness import ROOT, MenuTest
from office import Result, address_of, properties

PATTERNS = ("yield", "run", "air")


class Menu(MenuTest):
    def widths(self):
        return [self.book.sheet().Columns.getByIndex(column).Width for column in range(12)]

    # ---- blocks of formulas

    def test_every_block_is_put_in_without_an_error_and_taken_out_in_one_step(self):
        for name in PATTERNS:
            with self.subTest(name):
                self.book.put("A1", "mine")
                before, steps = self.contents(), self.undo.getAllUndoActionTitles()
                widths = self.widths()
                self.select("C5")
                done, said = self.send(f"put-{name}")
                self.assertTrue(done, said)
                self.assertTrue(said.startswith("C5:"), said)
                self.assertEqual(self.book.error_cells(), [])
                formulas = [formula for formula in self.contents().values() if "DRY." in formula]
                self.assertGreater(len(formulas), 5)
                self.assertEqual(len(self.undo.getAllUndoActionTitles()), len(steps) + 1)
                filled = self.contents()
                self.assertNotEqual(self.widths(), widths)
                self.undo.undo()
                self.assertEqual(self.contents(), before)
                self.assertEqual(self.widths(), widths)
                self.assertEqual(self.undo.getAllUndoActionTitles(), steps)
                self.undo.redo()
                self.assertEqual(self.contents(), filled)
                self.undo.undo()

    def test_a_unit_typed_over_changes_nothing_but_the_unit(self):
        self.select("A1")
        self.send("put-yield")
        dried = Result.of(self.book.cell("B7")).value
        self.assert_close(dried, 12500 * 0.14 / 0.9, 1e-12, "dried product to expect")  # solids in = solids out
        self.book.put("B3", 12500)
        self.book.put("C3", "g")
        self.assert_close(Result.of(self.book.cell("B7")).value, dried, 1e-12, "the same in grams")

    REASON = {"yield": "B12", "run": "B10", "air": "B14"}

    def reason_is_told(self, name):
        """The cell of the reason tells of a refused result where there is one, and is itself no error."""
        reason = Result.of(self.book.cell(self.REASON[name]))
        self.assertNotEqual(reason.kind, "error", reason.text)
        if self.book.error_cells():
            self.assertNotIn("fine", reason.text)
        else:
            self.assertEqual(reason.text, "every result is fine")
        return reason.text

    def test_whichever_cell_is_spoilt_the_reason_is_told(self):
        shaded = 0xf4edd3
        for name in PATTERNS:
            self.select("A1")
            self.send(f"put-{name}")
            self.assertEqual(self.reason_is_told(name), "every result is fine")
            inputs = [address_of(column, row) for row in range(16) for column in range(4)
                      if self.book.sheet().getCellByPosition(column, row).CellBackColor == shaded]
            self.assertGreaterEqual(len(inputs), 4)
            for address in inputs:
                for spoilt in (None, -1, "much", "=NA()"):
                    with self.subTest(name, cell=address, holds=spoilt):
                        was = self.book.cell(address).getFormula()
                        self.book.put(address, spoilt)
                        self.reason_is_told(name)
                        self.book.cell(address).setFormula(was)
            self.undo.clear()
            self.book.sheet().clearContents(1023)

    def test_the_reason_is_that_of_the_call_at_fault(self):
        self.select("A1")
        self.send("put-yield")
        for address, argument in (("B5", "dried"), ("D5", "u_dried"), ("D6", "u_final"), ("B4", "start")):
            was = self.book.cell(address).getFormula()
            self.book.put(address, None)
            self.assertIn(f"{argument}: ", self.reason_is_told("yield"))
            self.book.cell(address).setFormula(was)
        self.book.sheet().clearContents(1023)
        self.send("put-air")
        for address, content in (("B3", 30), ("B4", 1), ("B6", 31)):
            self.book.put(address, content)
        self.assertEqual([cell[1] for cell in self.book.error_cells()], ["B13"])
        self.assertIn("exit_rh", self.reason_is_told("air"))
        self.book.put("B5", None)
        self.assertIn("altitude", self.reason_is_told("air"))

    def test_a_run_as_long_as_its_masses(self):
        self.select("A1")
        self.send("put-run")
        ten = Result.of(self.book.cell("B9")).value

        def row(number):
            return [Result.of(self.book.cell(f"{column}{12 + number}")).text for column in "DEF"]

        self.assertEqual(row(10)[:2], ["0.010", "0.121"])
        self.assertEqual(row(11), ["", "", ""])
        self.book.put("C22", None)  # the time stays: it was written down beforehand
        self.assertEqual(self.book.error_cells(), [])
        self.assertEqual(row(10), ["", "", ""])
        self.assertEqual(row(9)[:2], ["0.022", "0.193"])
        self.assertEqual(self.reason_is_told("run"), "every result is fine")
        self.book.put("B22", None)
        nine = Result.of(self.book.cell("B9")).value
        self.assertNotEqual(nine, ten)
        self.assert_close(nine, ten, 0.01, "nine readings tell what ten do")
        for number, (time, mass) in enumerate(((9, 157), (10, 152), (12, 148)), 10):
            self.book.put(f"B{12 + number}", time)
            self.book.put(f"C{12 + number}", mass)
        self.assertEqual(self.book.error_cells(), [])
        self.assertEqual(row(12)[1], "0.057")  # 148 g on 140 g of solids
        seventh = row(7)[:2]
        self.book.put("C18", None)  # a reading that was missed
        self.assertEqual(self.book.error_cells(), [])
        self.assertEqual((row(6), row(7)[:2]), (["", "", ""], seventh))
        self.book.put("C18", 100)
        self.assertIn("below the 140 g of dry solids", self.reason_is_told("run"))

    def test_results_are_shown_in_a_few_figures(self):
        self.select("A1")
        self.send("put-yield")
        self.assertEqual([self.book.cell(f"B{row}").getString() for row in range(7, 11)],
                         ["1944.4", "10555.6", "6.43", "10.71 %"])

    def test_below_zero_the_sign_is_shown(self):
        self.select("A1")
        self.send("put-air")
        self.book.put("B3", -5)
        self.assertEqual(self.book.error_cells(), [])
        for row in (9, 10):
            cell = self.book.cell(f"B{row}")
            self.assertLess(cell.getValue(), -5, "dew point and wet bulb of air that is not saturated")
            self.assertEqual(cell.getString(), f"{cell.getValue():.4f}")

    def type_in(self, address, text):
        """As a person types it."""
        self.select(address)
        self.office.service("com.sun.star.frame.DispatchHelper").executeDispatch(
            self.book.document.CurrentController.Frame, ".uno:EnterString", "", 0, properties(StringName=text))
        return self.book.cell(address)

    def test_per_cent_is_typed_as_a_fraction_or_with_its_sign(self):
        self.select("A1")
        self.send("put-yield")
        self.assertEqual([self.book.cell(address).getString() for address in ("B4", "C4", "D4", "B6", "D6", "C10")],
                         ["86 %", "fraction wb", "0.5 %", "10 %", "0.5 %", "fraction wb"])
        # 1750 g of solids in 1960 g
        self.assert_close(Result.of(self.book.cell("B10")).value, 1 - 12500 * 0.14 / 1960, 1e-12, "final moisture")
        verdict = self.book.show('=DRY.PICK(DRY.RECONCILE(12500;20;"86 %";0.005;1960;5;"10 %";0.005);"verdict")', "H1")
        self.assertEqual((verdict.kind, Result.of(self.book.cell("B11")).text), ("text", verdict.text))
        for typed in ("65 %", "65%", "0.65"):
            cell = self.type_in("B4", typed)
            self.assertEqual((cell.getValue(), cell.getString()), (0.65, "65 %"))
            self.assert_close(Result.of(self.book.cell("B7")).value, 12500 * 0.35 / 0.9, 1e-12, typed)
        self.assertEqual(self.type_in("D4", "0.25 %").getString(), "0.25 %")
        self.assertEqual(self.type_in("B4", "65").getString(), "6500 %", "what was meant is not guessed, but refused")
        self.assertIn("a fraction is wanted", self.reason_is_told("yield"))
        self.assertEqual(self.type_in("B4", "-5 %").getString(), "-0.05")
        self.book.sheet().clearContents(1023)
        self.select("A1")
        self.send("put-air")
        self.assertEqual([self.book.cell(address).getString() for address in ("B4", "C4", "C12")],
                         ["65 %", "fraction", "fraction"])
        self.assertEqual(self.type_in("B4", "50 %").getString(), "50 %")
        heated = Result.of(self.book.cell("B12"))
        self.assertEqual(heated.text, f"{100 * heated.value:.2f} %")
        self.assert_close(heated.value, self.book.show('=DRY.HEATEDRH(24;0.5;58;B7)', "H1").value, 1e-12, "heated")

    def test_a_clock_time_is_seen_to_be_no_hours(self):
        self.select("A1")
        self.send("put-run")
        self.assertEqual(self.book.cell("A12").getString(), "Times as numbers: 8.5 h, not 8:30")
        for address in ("B14", "C14"):
            self.assertEqual(self.type_in(address, "8:00").getString(), "0.3333")
        self.assertEqual([self.type_in("B14", typed).getString() for typed in ("8.5", "1200", "0.00002", "-5", "-0.25")],
                         ["8.5", "1200", "0.00002", "-5", "-0.25"])

    def test_nothing_is_overwritten(self):
        self.book.put("D9", "mine")
        self.select("C5")
        before, steps = self.contents(), self.undo.getAllUndoActionTitles()
        done, said = self.send("put-yield")
        self.assertFalse(done)
        self.assertIn("and D9 is not empty", said)
        self.assertEqual((self.contents(), self.undo.getAllUndoActionTitles()), (before, steps))

    def test_blocks_side_by_side(self):
        for address, name in (("A1", "run"), ("I1", "air"), ("N3", "yield")):
            self.select(address)
            done, said = self.send(f"put-{name}")
            self.assertTrue(done, said)
        self.assertEqual(self.book.error_cells(), [])

    def test_no_room_and_no_permission(self):
        self.select("A1048570")
        self.assertFalse(self.send("put-yield")[0])
        self.select("A1")
        self.book.sheet().protect("")
        done, said = self.send("put-yield")
        self.assertFalse(done)
        self.assertIn("protected", said)
        self.assertEqual(self.contents(), {})

    # ---- the rest

    def test_every_example_opens_as_a_new_workbook(self):
        for path in sorted((ROOT / "example-sheets").glob("*.fods")):
            with self.subTest(path.stem):
                done, said = self.send(f"example-{path.stem}")
                self.assertTrue(done, said)
                opened = self.office.desktop.CurrentComponent
                self.addCleanup(opened.close, True)
                self.assertEqual(opened.URL, "")
                self.assertFalse(opened.isReadonly())

    def test_an_example_that_is_not_there(self):
        self.assertEqual(self.send("example-none"), (False, 'The example "none" could not be opened.'))

    def test_about_and_unknown_commands(self):
        done, said = self.send("about")
        self.assertTrue(done)
        self.assertIn("Mozilla Public License", said)
        self.assertFalse(self.send("no such thing")[0])


class InGerman(MenuTest):
    """The language of the menu as the office has it in its settings; numbers with a comma."""

    locale, language = "de-DE", "de"

    def test_numbers_are_shown_as_the_locale_writes_them(self):
        self.select("A1")
        self.send("put-run")
        self.assertEqual([self.book.cell(address).getString() for address in ("B6", "B7", "E14")],
                         ["140,0", "0,4177", "4,064"])

    def test_an_example_that_is_not_there(self):
        self.assertEqual(self.send("example-none"), (False, 'Das Beispiel "none" ließ sich nicht öffnen.'))

    def test_blocks_and_their_names_are_translated(self):
        self.select("A1")
        done, said = self.send("put-yield")
        self.assertTrue(done, said)
        self.assertEqual([self.book.cell(address).getString() for address in ("A1", "A7", "B12", "C7", "D4", "B10")],
                         ["Ausbeute mit Prüfung", "Zu erwartendes getrocknetes Produkt",
                          "alle Ergebnisse sind in Ordnung", "g", "0,5 %", "10,71 %"])
        self.assertEqual(self.undo.getAllUndoActionTitles(), ("Ausbeute mit Prüfung",))
        self.assertEqual(self.send("put-yield")[1],
                         "Der Block braucht die Zellen A1:D12, und A1:A12 ist nicht leer. Nichts wurde geändert; den "
                         "Cursor dorthin setzen, wo Platz ist.")


if __name__ == "__main__":
    unittest.main()
