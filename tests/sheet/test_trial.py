# SPDX-License-Identifier: MPL-2.0
"""The trial sheet, filled in as a person at the bench would, and checked by hand arithmetic."""

import math
import tempfile
import time
import unittest
from pathlib import Path

import uno

from harness import MenuTest
from office import Book, Office, Result, properties

LB = 453.59237  # g, exactly


class TrialSheet(MenuTest):
    def setUp(self):
        super().setUp()
        self.prepare()
        done, said = self.send("trial")
        self.assertTrue(done, said)
        self.document = self.book.document

    def prepare(self):
        """What the office has to be told first."""

    # ---- the sheet

    def named(self, name, row=0, column=0, sheet="Trial", document=None):
        ranges = (document or self.document).Sheets.getByName(sheet).NamedRanges
        return ranges.getByName(name).getReferredCells().getCellByPosition(column, row)

    def type(self, name, text, row=0, column=0, sheet="Trial"):
        """As typed in a window: Calc makes a clock time, a date, a percentage or a number of it."""
        view = self.document.CurrentController
        view.setActiveSheet(self.book.sheet(sheet))
        view.select(self.named(name, row, column, sheet))
        self.office.service("com.sun.star.frame.DispatchHelper").executeDispatch(
            view.Frame, ".uno:EnterString", "", 0, properties(StringName=str(text)))

    def column(self, name, texts, **where):
        for row, text in enumerate(texts):
            if text != "":
                self.type(name, text, row, **where)

    def result(self, name, **where):
        return Result.of(self.named(name, **where))

    def beside(self, name, column):
        """What stands in that column in the row of a result."""
        cell = self.named(name).CellAddress
        return self.book.sheet("Trial").getCellByPosition(column, cell.Row).getString()

    def row_of(self, label, column=6):
        sheet = self.book.sheet("Trial")
        return next(row for row in range(120) if sheet.getCellByPosition(column, row).getString() == label)


class Trial(TrialSheet):
    def fill(self):
        """3 trays of pineapple at 60 °C, a run of the first one through the night; invented."""
        for name, text in (("product", "pineapple"), ("lot", "P-7"), ("date", "2026-03-14"), ("operator", "Asha"),
                           ("place", "the hill house"), ("whole", "4 kg"), ("prepared", "2 kg 980 g"), ("fresh_samples", "30"),
                           ("dryer_temp", "140 °F"), ("room_temp", "68 °F"), ("room_rh", "60 %"), ("start_moisture", "80"),
                           ("start_way", "oven"), ("final_moisture", "0.2"), ("final_way", "meter"), ("target_moisture", "25 %"),
                           ("kept_samples", "0.03 kg"), ("milled", "700"), ("activity", "0.45"), ("run_tare", "600"),
                           ("hours", "2:30"), ("energy", "12"), ("bigger", "50 kg"), ("store_temp", "30"), ("glass_point", "62"), ("glass_k", "5.42")):
            self.type(name, text)
        self.column("parts_off", ("0.6 kg", "400"))
        self.column("tray_tare", ("600", "0.61 kg", "605"))
        self.column("tray_gross", ("1600", "1610 g", "1.555 kg"))
        self.type("dried_gross", "2555")  # all trays together, themselves included
        self.column("run_time", ("22:00", "23:00", "0:00", "1:00", "2:00", "", "4:00", "5:00"))
        self.column("run_gross", (1600, 1400, 1220, 1100, 1000, "", "0.89 kg", 850))
        self.column("prices", ("1.5", "0.3", "5", "2"))

    # ---- by hand

    def by_hand(self):
        """{result: (value, relative tolerance)}, masses in g. One weighing is good to 1 g."""
        start, final, target = 0.80, 0.20, 0.25
        loaded, dried = 1000 + 1000 + 950, 2555 - (600 + 610 + 605)
        u_loaded, u_dried = math.sqrt(6), math.sqrt(1 + 3)
        exact = {
            "loaded": loaded, "loaded_u": u_loaded,
            "yield_prepared": 2980 / 4000, "yield_prepared_u": math.hypot(1 / 4000, 2980 / 4000 ** 2),
            "lost_preparing": 4000 - 600 - 400 - 2980, "lost_preparing_u": math.sqrt(4),
            "dried": dried, "dried_u": u_dried,
            "yield_dried": dried / loaded,
            "lost_milling": dried - 30 - 700, "lost_milling_u": math.sqrt(u_dried ** 2 + 2),
            "yield_overall": 730 / (4000 * loaded / 2980),
            "expected_dried": loaded * 0.2 / 0.8,  # the solids stay
            "expected_dried_u": math.sqrt((0.25 * u_loaded) ** 2 + (loaded / 0.8 * 0.005) ** 2 + (loaded * 0.2 / 0.8 ** 2 * 0.02) ** 2),
            "water": loaded * (start - final) / (1 - final),
            "stop_reading": 600 + 1000 * 0.2 / 0.75,
            "stop_reading_u": math.sqrt(1 + 2 * (0.2 / 0.75) ** 2 + (1000 / 0.75 * 0.005) ** 2),
            # 200 g of solids, so 266.7 g at the target: between 290 g after 6 h and 250 g after 7 h
            "passed_by_readings": 6 + (290 - 200 / (1 - target)) / 40,
            "caking": 32 / (32 + 5.42 * 165),  # Gordon and Taylor, 62 °C and 5.42 in a store of 30 °C
            "cost": (1.5 * 4 * loaded / 2980 + 12 * 0.3 + 2.5 * 5 + 2) / 0.730,
            # the raw material's ± by the load, the whole and the prepared; the product's by two weighings
            "cost_u": math.hypot(1.5 * 4 * loaded / 2980 * math.sqrt((u_loaded / loaded) ** 2 + 1 / 4000 ** 2 + 1 / 2980 ** 2) / 0.730,
                                 (1.5 * 4 * loaded / 2980 + 12 * 0.3 + 2.5 * 5 + 2) / 0.730 * math.sqrt(2) / 730),
            "bigger_dried": 50000 * 0.745 * dried / loaded,
            "bigger_water": 50000 * 0.745 * 0.6 / 0.8,
        }
        # warming by Siebel's specific heat, evaporation by the steam tables' 2357.7 kJ/kg at 60 °C
        heat = (loaded / 1000 * (0.837 + 3.349 * start) * 40 + exact["water"] / 1000 * 2357.7) / 3600
        return {**{name: (value, 1e-9) for name, value in exact.items()},
                "heat": (heat, 2e-3), "air": (air_by_hand(exact["water"] / 1000, exact["passed_by_readings"]), 2e-2)}

    def check(self, unit=1.0, sheet="Trial", document=None):
        masses = ("loaded", "lost", "dried", "expected", "water", "stop", "bigger")
        for name, (value, tolerance) in self.by_hand().items():
            with self.subTest(name):
                shown = self.result(name, sheet=sheet, document=document)
                self.assertEqual(shown.kind, "value", shown.text)
                self.assert_close(shown.value * (unit if name.startswith(masses) else 1), value, tolerance, name)
        agree = self.result("agree", sheet=sheet, document=document).text
        self.assertTrue(agree.startswith("the weights and moistures agree within their uncertainties"), agree)
        likely, fast, slow = page_by_scipy()
        for name, value in (("passed_by_curve", likely), ("passed_fast", fast), ("passed_slow", slow)):
            self.assert_close(self.result(name, sheet=sheet, document=document).value, value, 1e-5, name)

    def test_every_result_is_that_by_hand_and_survives_the_file(self):
        self.fill()
        self.assertEqual(self.book.error_cells(), [])
        self.check()
        with tempfile.TemporaryDirectory() as folder:
            for ending in (".ods", ".xlsx"):
                with self.subTest(ending):
                    path = self.book.save(Path(folder) / f"trial{ending}")
                    with self.office.open(path) as again:
                        again.recalculate()
                        self.assertEqual(again.error_cells(), [])
                        self.check(document=again.document)
                        self.assertEqual(again.cell("A1", "Trial report").getString(), "Drying trial: pineapple")

    def test_the_least_heat_brings_its_own_uncertainty_into_the_cost(self):
        self.fill()
        metered = self.by_hand()["cost_u"][0]
        self.named("energy").setString("")

        def heat(load, start, final):  # as in by_hand
            return load * ((0.837 + 3.349 * start) * 40 + (start - final) / (1 - final) * 2357.7) / 3600

        at, u = (2.950, 0.80, 0.20), (math.sqrt(6) / 1000, 0.005, 0.02)
        parts = [heat(*(x + d * (i == k) for i, x in enumerate(at))) - heat(*at) for k, d in enumerate(u)]
        # all but the product's part, which goes with the cost itself, stays as it was
        product = math.sqrt(2) / 730
        less = (self.by_hand()["cost"][0] * product) ** 2 - (self.result("cost").value * product) ** 2
        self.assert_close(self.result("cost_u").value, math.sqrt(metered ** 2 - less + (0.3 / 0.730 * math.hypot(*parts)) ** 2), 5e-3, "cost_u")
        self.assertIn("prices and hours as exact", self.beside("cost", 10))

    def test_an_office_without_the_addin_shows_no_wrong_number(self):
        self.fill()
        with tempfile.TemporaryDirectory() as folder, Office() as bare:
            for ending in (".ods", ".xlsx"):
                saved = self.book.save(Path(folder) / f"trial{ending}")
                for step in ("opened", "typed into", "recalculated"):
                    with self.subTest(ending, step=step):
                        book = Book(bare.desktop.loadComponentFromURL(saved.as_uri(), "_blank", 0, properties(Hidden=True)))
                        document = book.document
                        if step == "typed into":
                            self.named("whole", document=document).setString("4 kg")
                            self.named("tray_gross", row=1, document=document).setValue(1610)
                        elif step == "recalculated":
                            document.calculateAll()
                        self.assertTrue(self.result("missing", document=document).text.startswith("Drysheet is not installed"))
                        for name, (value, tolerance) in self.by_hand().items():
                            shown = self.result(name, document=document)
                            if shown.kind == "value":
                                self.assert_close(shown.value, value, tolerance, name)
                        if step == "opened":  # what was worked out is still there
                            for name in ("yield_prepared", "dried", "expected_dried", "water"):
                                self.assertEqual(self.result(name, document=document).kind, "value", name)
                        again = book.save(Path(folder) / f"again{ending}")
                        book.close()
                        with self.office.open(again) as here:
                            self.assertEqual(here.error_cells(), [])
                            self.check(document=here.document)

    def test_masses_in_pounds(self):
        self.fill()
        self.type("mass_unit", "lb")
        for name in ("whole", "prepared"):  # they say their own
            self.assertTrue(self.named(name).getString().endswith("g"))
        for name, grams in (("fresh_samples", 30), ("milled", 700), ("run_tare", 600), ("dried_gross", 2555), ("scale_u", 1)):
            self.type(name, repr(grams / LB))
        self.type("parts_off", repr(400 / LB), 1)
        for name, rows in (("tray_tare", {0: 600, 2: 605}), ("tray_gross", {0: 1600})):
            for row, grams in rows.items():
                self.type(name, repr(grams / LB), row)
        for row, grams in ((0, 1600), (1, 1400), (2, 1220), (3, 1100), (4, 1000), (7, 850)):
            self.type("run_gross", repr(grams / LB), row)
        self.check(unit=LB)

    def test_times_in_every_way(self):
        self.fill()
        passed = self.by_hand()["passed_by_readings"][0]
        for times in (("0", "1", "2", "3", "4", "", "6", "7"), ("2026-03-14 22:00", "2026-03-14 23:00", "2026-03-15 00:00", "2026-03-15 01:00",
                      "2026-03-15 02:00", "", "2026-03-15 04:00", "2026-03-15 05:00"),
                      ("0 min", "60 min", "2 h", "180 min", "4 h", "", "6 h 0 min", "7 h"),
                      ("'22:00", "'23:00", "'0:00", "'1:00", "'2:00", "", "'4:00", "'5:00")):
            with self.subTest(times=times):
                cells = self.document.Sheets.getByName("Trial").NamedRanges.getByName("run_time").getReferredCells()
                cells.clearContents(1 | 2 | 4 | 16)
                cells.setPropertyToDefault("NumberFormat")
                self.column("run_time", times)
                self.assert_close(self.result("passed_by_readings").value, passed, 1e-9, times)

    def test_a_slip_among_the_readings_is_named(self):
        self.fill()
        # on a smooth curve, 200 g × (1 + 4 exp(−t/4)) and the tray
        self.column("run_gross", ("1600", "1423", "1285.2", "1177.9", "1094.3", "", "978.5", "939"))
        self.assertEqual(self.result("run_check").text, "none")
        self.type("run_gross", "1480", 3)  # heavier than an hour before
        self.assertTrue(self.result("run_check").text.startswith("reading 4: "), self.result("run_check").text)

    def test_a_run_that_stands_elsewhere(self):
        self.fill()
        passed = self.by_hand()["passed_by_readings"][0]
        for row, (hour, mass) in enumerate(zip((22, 23, 24, 25, 26, "", 28, 29), (1600, 1400, 1220, 1100, 1000, "", 890, 850))):
            if hour != "":
                self.book.put(f"A{row + 1}", float(hour))
                self.book.put(f"B{row + 1}", float(mass))
        self.document.Sheets.getByName("Trial").NamedRanges.getByName("run_time").getReferredCells().setPropertyToDefault("NumberFormat")
        for row in range(12):  # also over rows that are blank there
            self.named("run_time", row).setFormula(f"=$Sheet1.A{row + 1}")
            self.named("run_gross", row).setFormula(f"=$Sheet1.B{row + 1}")
        self.assertEqual(self.book.error_cells(), [])
        self.assert_close(self.result("passed_by_readings").value, passed, 1e-9, "pointed to")
        self.assert_close(self.result("passed_by_curve").value, page_by_scipy()[0], 1e-5, "pointed to")

    def test_dried_weighed_in_three_ways(self):
        self.fill()
        self.column("dried_gross", (850, 870, 835))  # each on its tray: 250, 260, 230
        self.assert_close(self.result("dried").value, 740, 1e-12, "tray by tray")
        self.assert_close(self.result("dried_u").value, math.sqrt(6), 1e-12, "six weighings")
        self.type("dried_tare", "200")
        self.column("dried_gross", (940, "", ""))
        for row in (1, 2):
            self.named("dried_gross", row).setString("")
        self.assert_close(self.result("dried").value, 740, 1e-12, "in a box")
        self.named("dried_tare").setString("")
        self.column("dried_gross", (850, 870))
        self.assertEqual(self.result("dried").text, "")
        self.assertIn("not every loaded tray", self.beside("dried", 10))

    # ---- blank, half filled, wrong

    def test_a_blank_sheet_shows_no_error_and_says_what_is_missing(self):
        self.assertEqual(self.book.error_cells(), [])
        missing = self.result("missing").text
        self.assertTrue(missing.startswith("Still missing: Product; Whole, as bought; Prepared"), missing)
        for word in ("Loaded trays", "Moisture before drying", "Moisture after drying", "Dried weight"):
            self.assertIn(word, missing)
        for name in self.by_hand():
            self.assertEqual(self.result(name).text, "", name)
        self.assertEqual(self.beside("cost", 10)[:7], "Wants: ")
        self.assertIn("Price of the raw material", self.beside("cost", 10))
        for name, text in (("product", "ginger"), ("whole", 2500), ("prepared", 2215)):
            self.type(name, text)
            self.assertEqual(self.book.error_cells(), [])
        self.assertTrue(self.result("missing").text.startswith("Still missing: Loaded trays"), self.result("missing").text)
        self.assert_close(self.result("yield_prepared").value, 0.886, 1e-12, "it comes as soon as it can")

    def test_a_known_product_brings_its_moisture(self):
        self.type("product", "pineapple")
        # (86 + 85.66 + 87.24) % of USDA SR28 and 86.06 % of IFCT 2017, a quarter of their sum, to a tenth
        self.assertEqual(self.named("start_moisture").getString(), "86.2 %")
        self.type("product", "moon dust")
        self.assertEqual(self.named("start_moisture").getString(), "")
        self.type("start_moisture", "85")
        self.assertEqual(self.named("start_u").getValue(), 3)  # a guess, whatever it is called
        self.type("start_way", "oven")
        self.assertEqual(self.named("start_u").getValue(), 0.5)
        self.assertEqual(self.book.error_cells(), [])

    def test_moistures_as_people_write_them(self):
        self.column("tray_tare", (0,))
        self.column("tray_gross", (1000,))
        for text in ("80", "80 %", "0.8", "80 % wb", "4 db", "400 % db"):
            self.type("start_moisture", text)
            self.type("final_moisture", "20 %")
            self.assert_close(self.result("expected_dried").value, 250, 1e-12, text)
        self.type("start_moisture", "1.2")
        row = self.named("start_moisture").CellAddress.Row
        asked = self.book.sheet("Trial").getCellByPosition(4, row).getString()
        self.assertIn("1.2 %", asked)
        self.assertIn("1.2 db", asked)
        self.assertEqual(self.result("expected_dried").kind, "error")

    def test_what_is_not_understood_is_said_beside(self):
        self.type("whole", "4 bags")
        self.type("prepared", "2980")
        row = self.named("whole").CellAddress.Row
        self.assertIn("bags", self.book.sheet("Trial").getCellByPosition(4, row).getString())
        self.assertIn("Cells that are not understood: 1", self.result("missing").text)
        self.type("whole", "2000")
        self.assertEqual(self.result("yield_prepared").kind, "error")  # more out than in
        self.assertIn("out", self.beside("yield_prepared", 10))

    def test_no_film_helps_what_cakes_already(self):
        self.fill()
        for name, text in (("pack_mass", "100"), ("pack_area", "0.05"), ("pack_days", "90"), ("store_rh", "90"), ("isotherm", "GAB")):
            self.type(name, text)
        for column, text in enumerate((0.1, 2, 0.9)):
            self.type("isotherm_parameters", text, 0, column)
        self.assertEqual(self.result("pack").text, "")
        self.assertIn("no film can help", self.beside("pack", 10))
        self.type("glass_point", "150")
        self.type("glass_k", "2")
        self.assertEqual(self.result("pack").kind, "value", self.beside("pack", 10))

    # ---- into the workbook and out of it

    def test_two_trials_in_one_workbook_and_one_step_to_undo(self):
        steps = len(self.undo.getAllUndoActionTitles())
        began = time.monotonic()
        done, said = self.send("trial")
        took = time.monotonic() - began
        self.assertTrue(done, said)
        self.assertEqual(self.document.Sheets.ElementNames, ("Sheet1", "Trial", "Trial report", "Trial 2", "Trial report 2"))
        self.assertLess(took, 10)  # 0.6 s on an idle machine
        self.type("product", "ginger", sheet="Trial 2")
        self.type("product", "pineapple")
        self.assertEqual(self.book.cell("A1", "Trial report 2").getString(), "Drying trial: ginger")
        self.assertEqual(self.book.cell("A1", "Trial report").getString(), "Drying trial: pineapple")
        self.undo.undo()
        self.undo.undo()
        self.assertEqual(len(self.undo.getAllUndoActionTitles()), steps + 1)
        self.undo.undo()
        self.assertEqual(self.document.Sheets.ElementNames, ("Sheet1", "Trial", "Trial report"))

    def test_two_trials_side_by_side(self):
        done, said = self.send("trials")
        self.assertFalse(done, said)
        self.fill()
        self.send("trial")
        for name, text in (("product", "pineapple"), ("mass_unit", "kg"), ("whole", "6"), ("prepared", "4.8"), ("start_moisture", "80"), ("start_way", "oven"),
                           ("final_moisture", "0.2"), ("final_way", "meter"), ("dried_gross", "1.501")):
            self.type(name, text, sheet="Trial 2")
        self.type("tray_tare", "0.5", sheet="Trial 2")
        self.type("tray_gross", "4.5", sheet="Trial 2")
        done, said = self.send("trials")
        self.assertTrue(done, said)
        self.assertEqual(self.book.error_cells(), [])
        sheet = self.book.sheet("Trials")
        table = sheet.NamedRanges.getByName("trials_table").getReferredCells().getDataArray()
        self.assertEqual(table[0], ("", "Trial", "Trial 2", "Against Trial"))
        rows = {row[0]: row[1:] for row in table}
        self.assertEqual(rows["On the trays"][:2], ("2950.0 ± 2.4 g", "4000.0 ± 1.4 g"))  # both in g
        # 4.8 ÷ 6 = 80 % against 74.5 %; one weighing to 1 g makes 0.03 % of it at most
        prepared = rows["Prepared of the whole"]
        self.assertEqual(prepared[0], "74.500 ± 0.031 %")
        self.assertTrue(prepared[2].startswith("Trial 2 differs by +5.500 points"), prepared)
        # 1.001 ÷ 4 = 25.025 % against 740 ÷ 2950 = 25.085 %; u = 2 ÷ 2950 and 1.41 ÷ 4000 at least
        self.assertEqual(rows["Dried of the loaded"][2], "Trial 2: no more than its ± explains")
        self.assertEqual(rows["Passed by the readings"][1:], ("", ""))
        self.assertEqual(sheet.getCellRangeByName("A2").getString(), "More than the ± explains: Prepared of the whole.")
        self.assertEqual(sheet.Charts.Count, 1)
        self.undo.undo()
        self.assertFalse(self.document.Sheets.hasByName("Trials"))

    def test_the_page_is_one_page(self):
        self.fill()
        report = self.book.sheet("Trial report")
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "report.pdf"
            area = report.getPrintAreas()[0]
            selection = report.getCellRangeByPosition(area.StartColumn, area.StartRow, area.EndColumn, area.EndRow)
            self.document.storeToURL(path.as_uri(), properties(FilterName="calc_pdf_Export", FilterData=uno.Any(
                "[]com.sun.star.beans.PropertyValue", properties(Selection=selection))))
            pages = path.read_bytes().count(b"/Type/Page/") + path.read_bytes().count(b"/Type /Page\n")
            self.assertEqual(pages, 1)
        shown = [cell for row in report.getCellRangeByName("A1:D45").getDataArray() for cell in row]
        self.assertIn("737 ± 26 g", shown)
        self.assertIn("866.7 ± 6.8 g", shown)
        self.assertTrue(any(str(cell).startswith("Guessed or typical") for cell in shown))

    def test_how_sure_agrees_with_the_sheet(self):
        self.fill()
        load, u_load, start, final = 2950, math.sqrt(6), 0.80, 0.20
        hand = self.by_hand()
        wanted = {
            "yield_prepared": hand["yield_prepared_u"][0],
            "water": math.hypot((start - final) / (1 - final) * u_load, load / (1 - final) * 0.005, load * (1 - start) / (1 - final) ** 2 * 0.02),
            # the sheet's own, and the meter read to 1 kWh (JCGM 100:2008 F.2.2.1)
            "cost": math.hypot(hand["cost_u"][0], 0.3 / 0.730 / math.sqrt(12)),
        }
        labels = {"yield_prepared": {"Whole, as bought", "Prepared, ready for the trays"},
                  "water": {"Before drying: Moisture", "After drying: Moisture", "Tray 1: Empty", "Tray 3: Loaded"},
                  "cost": {"Energy used, by the meter", "Milled and sieved", "Price of the raw material", "Tray 2: Loaded"}}
        controller = self.document.CurrentController
        trial, report = self.book.sheet("Trial"), self.book.sheet("Trial report")
        for name, u in wanted.items():
            at = self.named(name).CellAddress
            row = next(row for row in range(60) if report.getCellByPosition(0, row).String == "Cost of a kilogram")
            # the number, the text that shows it, and on the report
            for cell in (trial.getCellByPosition(at.Column, at.Row), trial.getCellByPosition(at.Column - 1, at.Row),
                         *((report.getCellByPosition(1, row),) if name == "cost" else ())):
                controller.setActiveSheet(cell.Spreadsheet)
                controller.select(cell)
                began = time.monotonic()
                done, said = self.send("sure")
                took = time.monotonic() - began
                self.assertTrue(done, said)
                sheet = controller.ActiveSheet
                names = sheet.NamedRanges
                with self.subTest(name, cell=cell.AbsoluteName):
                    self.assert_close(names.getByName("sure_u").getReferredCells().getCellByPosition(0, 0).Value, u, 1e-3, name)
                    rows = names.getByName("DRYSHEET_SURE").getReferredCells().getDataArray()[1:]
                    self.assertLessEqual(labels[name], {row[1] for row in rows})
                    self.assertLess(took, 20)  # 1 s on an idle machine
                self.document.Sheets.removeByName(sheet.Name)

    def test_the_review_finds_nothing_wrong_in_it(self):
        self.fill()
        done, said = self.send("review")
        self.assertTrue(done, said)
        self.assertIn("Wrong: 0", said)


class InGerman(TrialSheet):
    """Labels, choices and numbers as a German office has them."""

    locale = "de-DE"

    def prepare(self):
        provider = self.office.service("com.sun.star.configuration.ConfigurationProvider")
        settings = provider.createInstanceWithArguments("com.sun.star.configuration.ConfigurationUpdateAccess",
                                                        properties(nodepath="/org.openoffice.Setup/L10N"))
        settings.ooLocale = "de"
        settings.commitChanges()

    def test_a_trial_in_german(self):
        self.assertEqual(self.document.Sheets.ElementNames[1:], ("Versuch", "Versuchsbericht"))
        self.assertEqual(self.book.error_cells(), [])
        where = {"sheet": "Versuch"}
        self.type("product", "Ananas", **where)
        self.assertEqual(self.named("start_moisture", **where).getString(), "86,2 %")
        for name, text in (("whole", "4,2 kg"), ("prepared", "2351,4"), ("final_moisture", "14,1"), ("final_way", "Ofen"), ("target_moisture", "15 %")):
            self.type(name, text, **where)
        self.type("tray_tare", "612,4", **where)
        self.type("tray_gross", "1,1943 kg", **where)
        self.type("dried_gross", "702,4", **where)
        self.assertEqual(self.book.error_cells(), [])
        self.assert_close(self.result("yield_prepared", **where).value, 2351.4 / 4200, 1e-12, "yield")
        self.assert_close(self.result("expected_dried", **where).value, 581.9 * (1 - 0.862) / (1 - 0.141), 1e-12, "expected")
        self.assertEqual(self.named("final_u", **where).getValue(), 0.5)
        self.assertTrue(self.result("sentence_1", **where).text.startswith("581,9 ± 1,4 g Ananas auf den Blechen gaben"),
                        self.result("sentence_1", **where).text)


class Examples(MenuTest):
    """The bench notebook, which is two trials written when it is opened, and the blank forms."""

    def opened(self, command):
        done, said = self.send(command)
        self.assertTrue(done, said)
        book = Book(self.office.desktop.getCurrentComponent())
        self.assertEqual(book.document.UndoManager.getAllUndoActionTitles(), ())
        self.addCleanup(book.close)
        return book

    def test_the_notebook(self):
        book = self.opened("example-lab-notebook")
        self.assertEqual(book.document.Sheets.ElementNames, ("Ginger", "Ginger report", "Pineapple", "Pineapple report", "Trials"))
        self.assertEqual(book.error_cells(), [])
        # ginger: 743.5 + 733.2 + 736.8 g on the trays; 2266.0 g less 612.4 + 611.8 + 613.1 g of trays dried
        named = {sheet: book.sheet(sheet).NamedRanges for sheet in ("Ginger", "Pineapple")}

        def value(sheet, name):
            return Result.of(named[sheet].getByName(name).getReferredCells().getCellByPosition(0, 0))

        for sheet, loaded, start, dried, final in (("Ginger", 2213.5, 0.822, 428.7, 0.09), ("Pineapple", 2340.1, 0.863, 361.0, 0.141)):
            self.assert_close(value(sheet, "loaded").value, loaded, 1e-12, sheet)
            self.assert_close(value(sheet, "dried").value, dried, 1e-12, sheet)
            self.assert_close(value(sheet, "expected_dried").value, loaded * (1 - start) / (1 - final), 1e-12, sheet)
            self.assertEqual(value(sheet, "missing").text, "Nothing that the yields need is missing.")
            self.assertTrue(value(sheet, "passed_by_curve").kind == "value", sheet)
        self.assertIn("invented", book.cell("A2", "Ginger report").getString())

    def test_blank_forms(self):
        book = self.opened("form-lab-notebook")
        self.assertEqual(book.error_cells(), [])
        self.assertEqual(book.cell("A1", "Ginger").getString(), "Drying trial")
        for name in ("dryer-air", "drying-curve", "powder-and-pack", "scale-up", "sorption"):
            with self.subTest(name):
                book = self.opened(f"form-{name}")
                filled = emptied = 0
                for sheet in book.document.Sheets:
                    cursor = sheet.createCursor()
                    cursor.gotoEndOfUsedArea(True)
                    for row, line in enumerate(cursor.getFormulaArray()):
                        for column, content in enumerate(line):
                            if sheet.getCellByPosition(column, row).CellStyle.startswith("Measured"):
                                filled += content != "" and not content.startswith("=")
                                emptied += content == ""
                self.assertEqual(filled, 0)
                self.assertGreater(emptied, 10)


def air_by_hand(water, hours):
    """m³/h of ideal air heated from 20 °C and 60 % to 60 °C that leaves at 40 % with the same thermodynamic wet
    bulb (enthalpy 1.006 t + x (2501 + 1.86 t), water 4.186 t, kJ/kg; saturation by Magnus' formula)."""
    def saturated(temp):
        return 0.61094 * math.exp(17.625 * temp / (temp + 243.04))

    def ratio(pressure):
        return 0.622 * pressure / (101.325 - pressure)

    def root(function, low, high):
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if function(middle) < 0 else (low, middle)
        return low

    def enthalpy(temp, x):
        return 1.006 * temp + x * (2501 + 1.86 * temp)

    entering = ratio(0.6 * saturated(20))
    bulb = root(lambda t: enthalpy(t, ratio(saturated(t))) - enthalpy(60, entering) - (ratio(saturated(t)) - entering) * 4.186 * t, 0, 60)
    leaving = root(lambda t: enthalpy(t, ratio(0.4 * saturated(t))) - enthalpy(60, entering) - (ratio(0.4 * saturated(t)) - entering) * 4.186 * bulb, 0, 60)
    volume = 0.287042 * 333.15 * (1 + 1.6078 * entering) / 101.325
    return water / hours / (ratio(0.4 * saturated(leaving)) - entering) * volume


def page_by_scipy():
    """When the Page curve fitted to the run passes 25 %, the moisture before drying being 80, 79 and 81 %."""
    import numpy
    from scipy.optimize import curve_fit
    hours = numpy.array([0, 1, 2, 3, 4, 6, 7.0])
    masses = numpy.array([1000, 800, 620, 500, 400, 290, 250.0])
    times = []
    for start in (0.80, 0.79, 0.81):
        solids = 1000 * (1 - start)
        (first, k, n), _ = curve_fit(lambda t, x, k, n: x * numpy.exp(-k * t ** n), hours, masses / solids - 1,
                                     p0=(masses[0] / solids - 1, 0.3, 1.0), xtol=1e-14, ftol=1e-14)
        times.append((-math.log(0.25 / 0.75 / first) / k) ** (1 / n))
    return times[0], min(times), max(times)


if __name__ == "__main__":
    unittest.main()
