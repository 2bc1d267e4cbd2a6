"""The menu's commands, sent as the menu sends them: blocks of formulas, the check of the workbook, examples, undo."""

import pathlib
import unittest

from harness import ROOT, SheetTest
from office import Book, Result, address_of, properties

PATTERNS = ("yield", "run", "air")


class MenuTest(SheetTest):
    """A workbook in a window, if only a headless one, and the commands sent to it."""

    def setUp(self):
        # undo and cursor want a window
        self.book = Book(self.office.desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0, ()))
        self.addCleanup(self.book.close)
        self.undo = self.book.document.UndoManager

    def send(self, command, document=None):
        """(whether it was done, what was said)"""
        frame = (document or self.book.document).CurrentController.Frame
        helper = self.office.service("com.sun.star.frame.DispatchHelper")
        event = helper.executeDispatch(frame, f"org.drysheet.menu:{command}", "", 0, ())
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
        shaded = 0xfff5ce
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

    # ---- the check of the workbook

    def list_of(self, name="Formula check"):
        cursor = self.book.document.Sheets.getByName(name).createCursor()
        cursor.gotoEndOfUsedArea(True)
        rows = cursor.getDataArray()
        return rows[0][0], [dict(zip(rows[2], row)) for row in rows[3:]]

    def fill(self):
        sheets = self.book.document.Sheets
        sheets.insertNewByName("It's wet", 1)
        for address, content in (("A1", 100), ("A2", 0.8), ("A3", 0.2), ("A4", 80), ("A5", "kg")):
            self.book.put(address, content)
        self.book.put("B1", "=DRY.DRIEDMASS(A1;A2;A3)")
        self.book.put("B2", "=DRY.DRIEDMASS($A$1;A4;A3)")
        self.book.put("B3", '=IF(A1>1;DRY.DRYINGRATIO(DRY.WETBASIS(-1);A3)+SUM(A1:A3);"DRY.DRIEDMASS(1;2;3)")')
        self.book.put("B4", '=DRY.DRIEDMASS(A1&" "&A5;A2;A3)')
        self.book.put("B5", "=SUM(A1:A3)")
        self.book.put("A1", "=DRY.TRIMYIELD($Sheet1.A1;10;;10)", 1)
        self.book.put("A2", "=DRY.WATERREMOVED($Sheet1.A1;$Sheet1.A2;$Sheet1.A3)", 1)
        self.book.sheet(1).getCellRangeByName("C1:E10").setArrayFormula("=DRY.REPLICATES($Sheet1.A2:A4)")

    def test_the_list_says_what_why_says(self):
        self.fill()
        done, said = self.send("check")
        self.assertTrue(done, said)
        summary, rows = self.list_of()
        self.assertEqual(summary, said)
        by_call = {(row["Cell"], row["Call"]): row for row in rows}
        self.assertEqual(len(rows), 8)
        self.assertEqual(len(by_call), 8)

        def row(cell, call):
            return by_call[cell, call]

        fine = row("Sheet1.B1", "DRY.DRIEDMASS(A1;A2;A3)")
        self.assertEqual(fine["What DRY.WHY says"], "fine: 25 g")
        self.assert_close(fine["The cell shows"], 25, 1e-12, "the value")
        self.assertEqual(fine["Inputs"], "fresh: A1 = 100; start: A2 = 0.8; final: A3 = 0.2")
        self.assertEqual(fine["Function"], "DRY.DRIEDMASS")
        self.assertIn("solids", fine["Source"])
        refused = row("Sheet1.B2", "DRY.DRIEDMASS($A$1;A4;A3)")
        self.assertEqual(refused["What DRY.WHY says"],
                         Result.of(self.book.put("H1", '=DRY.WHY("DRIEDMASS";100;80;0.2)')).text)
        self.assertEqual(refused["The cell shows"], "Err:502")
        self.assertIn("not asked", row("Sheet1.B3", "DRY.DRYINGRATIO(DRY.WETBASIS(-1);A3)")["What DRY.WHY says"])
        self.assertIn("moisture_db: -1", row("Sheet1.B3", "DRY.WETBASIS(-1)")["What DRY.WHY says"])
        with_unit = row("Sheet1.B4", 'DRY.DRIEDMASS(A1&" "&A5;A2;A3)')
        self.assertEqual(with_unit["What DRY.WHY says"], "fine: 25000 g")
        self.assertIn('fresh: A1&" "&A5 (A1 = 100, A5 = "kg")', with_unit["Inputs"])
        elsewhere = row("It's wet.A2", "DRY.WATERREMOVED($Sheet1.A1;$Sheet1.A2;$Sheet1.A3)")
        self.assertEqual(elsewhere["What DRY.WHY says"], "fine: 75 g")
        self.assertIn("fresh: $Sheet1.A1 = 100", elsewhere["Inputs"])
        self.assertIn("table of 10", row("It's wet.C1", "DRY.REPLICATES($Sheet1.A2:A4)")["What DRY.WHY says"])
        says = [entry["What DRY.WHY says"] for entry in rows]
        states = [(said.startswith("fine"), said.startswith("not asked")) for said in says]
        self.assertEqual(states, sorted(states), "the refused ones come first, those with a reason before all")

    def test_a_name_that_is_none_of_ours_is_listed(self):
        for address, content in (("A1", "=DRY.DRIEDMAS(1;2;3)"), ("A2", '=DRY.DRYBASIS(DRY.ZZZZ("DRY.NONE(1)"))'),
                                 ("A3", '="DRY.DRIEDMAS(1)"')):
            self.book.put(address, content)
        self.book.sheet().getCellRangeByName("C1:C2").setArrayFormula("=DRY.RATIO(A1:A2;1)")
        self.assertTrue(self.send("check")[0])
        says = {row["Function"]: row["What DRY.WHY says"] for row in self.list_of()[1]}
        self.assertEqual(says.pop("DRY.DRIEDMAS"), "there is no function DRY.DRIEDMAS; perhaps DRY.DRIEDMASS")
        self.assertEqual(says.pop("DRY.RATIO"), "there is no function DRY.RATIO; perhaps DRY.RATIOS")
        self.assertEqual(says.pop("DRY.ZZZZ"), "there is no function DRY.ZZZZ")
        self.assertIn("not asked", says.pop("DRY.DRYBASIS"))
        self.assertEqual(says, {})

    def test_a_function_about_functions_is_listed_under_the_name_it_cannot_find(self):
        for row, call in enumerate(('WHY("NOSUCH";1)', 'SOURCE("dry.driedmas")', 'EACH("WETBASI";1)',
                                    'UNCERTAINTY("DRYBASES";"0.8 ± 0.1")', 'WHY("DRY"&"BASIS";0.5)'), 1):
            self.book.put(f"A{row}", f"=DRY.{call}")
        self.book.sheet().getCellRangeByName("C1:C9").setArrayFormula('=DRY.WORKING("DRYINGRATI";0.8;0.1)')
        self.assertTrue(self.send("check")[0])
        rows = {row["Cell"]: row for row in self.list_of()[1]}
        self.assertEqual({cell: row["Function"] for cell, row in rows.items()},
                         {"Sheet1.A1": "DRY.NOSUCH", "Sheet1.A2": "DRY.DRIEDMAS", "Sheet1.A3": "DRY.WETBASI",
                          "Sheet1.A4": "DRY.DRYBASES", "Sheet1.A5": "DRY.WHY", "Sheet1.C1": "DRY.DRYINGRATI"})
        self.assertEqual({cell: row["What DRY.WHY says"] for cell, row in rows.items() if cell != "Sheet1.A5"},
                         {"Sheet1.A1": "there is no function DRY.NOSUCH",
                          "Sheet1.A2": "there is no function DRY.DRIEDMAS; perhaps DRY.DRIEDMASS",
                          "Sheet1.A3": "there is no function DRY.WETBASI; perhaps DRY.WETBASIS",
                          "Sheet1.A4": "there is no function DRY.DRYBASES; perhaps DRY.DRYBASIS",
                          "Sheet1.C1": "there is no function DRY.DRYINGRATI; perhaps DRY.DRYINGRATIO"})
        self.assertEqual(rows["Sheet1.A1"]["Call"], 'DRY.WHY("NOSUCH";1)')

    def test_a_question_is_not_listed_but_what_it_asks_about_is(self):
        self.book.put("A1", "=DRY.DRYBASIS(2)")
        self.book.put("A2", '=IF(ISERROR(DRY.DRYBASIS(2));DRY.WHY("DRYBASIS";2);"")')
        self.book.put("A3", '=IFERROR(DRY.WETBASIS(-1);DRY.WHY("WETBASIS";-1))')
        self.book.put("A4", '=DRY.WHY("NONE";1)')
        self.assertTrue(self.send("check")[0])
        self.assertEqual([(row["Cell"], row["Call"]) for row in self.list_of()[1]],
                         [("Sheet1.A1", "DRY.DRYBASIS(2)"), ("Sheet1.A3", "DRY.WETBASIS(-1)"),
                          ("Sheet1.A4", 'DRY.WHY("NONE";1)')])

    def test_a_block_is_checked_without_its_reason(self):
        self.select("A1")
        self.send("put-yield")
        self.book.put("B5", None)
        self.assertTrue(self.send("check")[0])
        self.assertEqual([row["Cell"] for row in self.list_of()[1]],
                         [f"Sheet1.B{row}" for row in (10, 11, 11, 7, 8, 9)])

    def test_one_step_back_and_nothing_else_changed(self):
        self.fill()
        before, steps = self.contents(), self.undo.getAllUndoActionTitles()
        self.send("check")
        with_list = self.contents()
        self.assertEqual({where: text for where, text in with_list.items() if where[0] != "Formula check"}, before)
        self.assertEqual(self.undo.getAllUndoActionTitles(), ("Check Drying Formulas", *steps))
        self.undo.undo()
        self.assertEqual(self.contents(), before)
        self.assertEqual(self.undo.getAllUndoActionTitles(), steps)
        self.undo.redo()
        self.assertEqual(self.contents(), with_list)
        self.undo.undo()
        self.undo.undo()
        self.assertEqual(self.undo.getAllUndoActionTitles(), steps[1:])

    def test_a_second_check_gets_a_sheet_of_its_own(self):
        self.book.put("A1", "=DRY.DRYBASIS(0.5)")
        self.send("check")
        self.send("check")
        self.assertEqual(self.book.document.Sheets.ElementNames, ("Sheet1", "Formula check", "Formula check 2"))
        self.assertEqual(len(self.list_of("Formula check 2")[1]), 1)

    def test_nothing_to_check(self):
        self.book.put("A1", '="DRY.DRIEDMASS(1;2;3)"')
        done, said = self.send("check")
        self.assertFalse(done)
        self.assertIn("no call", said)
        self.assertEqual(self.book.document.Sheets.ElementNames, ("Sheet1",))

    def test_a_workbook_that_takes_no_new_sheet(self):
        self.book.put("A1", "=DRY.DRYBASIS(0.5)")
        self.book.document.protect("")
        done, said = self.send("check")
        self.assertFalse(done)
        self.assertIn("protected", said)
        self.book.document.unprotect("")
        self.book.document.enableAutomaticCalculation(False)
        done, said = self.send("check")
        self.assertFalse(done)
        self.assertIn("AutoCalculate", said)
        self.assertEqual(self.book.document.Sheets.ElementNames, ("Sheet1",))

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

    locale = "de-DE"

    def setUp(self):
        super().setUp()
        provider = self.office.service("com.sun.star.configuration.ConfigurationProvider")
        settings = provider.createInstanceWithArguments("com.sun.star.configuration.ConfigurationUpdateAccess",
                                                        properties(nodepath="/org.openoffice.Setup/L10N"))
        settings.ooLocale = "de"
        settings.commitChanges()

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

    def test_the_check_is_translated(self):
        self.book.put("A1", "=DRY.DRYBASES(0.5)")
        done, said = self.send("check")
        self.assertTrue(said.startswith("Aufrufe von DRY-Funktionen: 1"), said)
        self.assertEqual(self.undo.getAllUndoActionTitles()[0], "Trocknungsformeln prüfen")
        cells = self.book.document.Sheets.getByName("Formelprüfung").getCellRangeByName("A3:B4").getDataArray()
        self.assertEqual(cells, (("Zelle", "Was DRY.WHY sagt"),
                                 ("Sheet1.A1", "eine Funktion DRY.DRYBASES gibt es nicht; vielleicht DRY.DRYBASIS")))


if __name__ == "__main__":
    unittest.main()
