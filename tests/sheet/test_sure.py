# SPDX-License-Identifier: MPL-2.0
"""How Sure Is This Cell: against published examples built as plain cells and against python's uncertainties, in a real Calc."""

import math
import os
import pathlib
import random
import time
import unittest

import uncertainties
import uncertainties.umath as umath

from harness import MenuTest

HEADER = ("Cell", "Label", "Value", "u", "From", "Contribution", "Share")


class SureTest(MenuTest):
    def fill(self, rows, first=1, sheet=0):
        """Rows of cells from column A on; None is a blank."""
        width = max(map(len, rows))
        lines = [["" if cell is None else cell if isinstance(cell, str) else repr(cell) for cell in row] + [""] * (width - len(row))
                 for row in rows]
        cells = self.book.sheet(sheet).getCellRangeByPosition(0, first - 1, width - 1, first + len(rows) - 2)
        cells.setFormulaArray(tuple(map(tuple, lines)))

    def sure(self, address, sheet=0):
        """(the new sheet's name, what was said)"""
        self.select(address, sheet)
        before = self.book.document.Sheets.ElementNames
        done, said = self.send("sure")
        self.assertTrue(done, said)
        new = [name for name in self.book.document.Sheets.ElementNames if name not in before]
        self.assertEqual(len(new), 1)
        return new[0], said

    def named(self, sheet, name):
        return self.book.document.Sheets.getByName(sheet).NamedRanges.getByName(name).getReferredCells()

    def number(self, sheet, name, row=0):
        return self.named(sheet, name).getCellByPosition(0, row).Value

    def inputs(self, sheet):
        rows = self.named(sheet, "DRYSHEET_SURE").getDataArray()
        self.assertEqual(rows[0], HEADER)
        return {row[0].removeprefix("Sheet1."): dict(zip(HEADER, row)) for row in rows[1:]}

    def sentences(self, sheet):
        cells = self.book.document.Sheets.getByName(sheet).getCellRangeByName("A1:A8").getDataArray()
        return " ".join(str(row[0]) for row in cells)

    def office_seconds(self):
        """The time that the office's processes have worked, which does not hang on what else the machine does."""
        total = 0
        for stat in pathlib.Path("/proc").glob("[0-9]*/stat"):
            try:
                fields = stat.read_text().rpartition(")")[2].split()
            except OSError:  # it has ended
                continue
            if int(fields[2]) == self.office.process.pid:  # its process group
                total += int(fields[11]) + int(fields[12])
        return total / os.sysconf("SC_CLK_TCK")

    def near(self, got, wanted, tolerance):
        self.assertLessEqual(abs(got - wanted), tolerance * abs(wanted), f"{got} against {wanted}")

    # ---- published examples

    def test_end_gauge(self):
        # JCGM 100:2008 H.1: l = 50.000838 mm, u = 32 nm to first order, 34 nm with the second-order terms (H.1.7);
        # contributions 25, 9.7, 2.9, 16.6 nm of table H.1. Lengths in nm.
        self.fill([("Quantity", "Value", "u"), ("Standard", 50000623, 25), ("Difference", 215, 9.7), ("da", 0, 0.58e-6),
                   ("theta", -0.1, 0.41), ("aS", 11.5e-6, 1.2e-6), ("dtheta", 0, 0.029),
                   ("Length", "=B2+B3-B2*(B4*B5+B6*B7)")])
        sheet, said = self.sure("B8")
        self.near(self.number(sheet, "sure_value"), 50000838, 1e-9)
        self.near(self.number(sheet, "sure_u"), 34, 0.02)
        self.assertIn("First order misleads", self.sentences(sheet))
        inputs = self.inputs(sheet)
        for cell, part in (("B2", 25), ("B3", 9.7), ("B4", 2.9), ("B7", 16.6)):
            self.near(inputs[cell]["Contribution"], part, 0.01)
        self.assertEqual(next(iter(inputs)), "B2")  # ranked
        self.near(math.sqrt(sum(row["Contribution"] ** 2 for row in inputs.values())), 32, 0.015)

    def test_resistance_and_reactance(self):
        # JCGM 100:2008 H.2, table H.4; the correlated readings as sums of independent parts, each of which feeds several.
        vi, vp, ip = -0.36, 0.86, -0.65
        l22 = math.sqrt(1 - vi * vi)
        l32 = (ip - vi * vp) / l22
        l33 = math.sqrt(1 - vp * vp - l32 * l32)
        self.fill([("Part", "Value", "u"), ("e1", 0, 1), ("e2", 0, 1), ("e3", 0, 1),
                   ("V", "=4.999+0.0032*B2"), ("I", f"=0.019661+0.0000095*({vi}*B2+{l22}*B3)"),
                   ("phi", f"=1.04446+0.00075*({vp}*B2+{l32}*B3+{l33}*B4)"),
                   ("R", "=B5/B6*COS(B7)"), ("X", "=B5/B6*SIN(B7)"), ("Z", "=B5/B6")])
        sheet, _ = self.sure("B8:B10")
        for row, (value, u) in enumerate(((127.732, 0.071), (219.847, 0.295), (254.260, 0.236))):
            self.near(self.number(sheet, "sure_value", row), value, 5e-6)
            self.near(self.number(sheet, "sure_u", row), u, 0.02)  # the printed correlations have two digits

    def test_examples_of_analytical_chemistry(self):
        # EURACHEM/CITAC Guide CG 4, Quantifying Uncertainty in Analytical Measurement. A1 (2nd ed., table A1.1):
        # 1002.7 mg/l, u 0.9 there from rounded parts. A2 and A3 (3rd ed.): 0.10214 mol/l, u 0.00010, and 0.10139, 0.00018.
        self.fill([("Cadmium standard", "Value", "Unit", "Standard uncertainty"),
                   ("Purity", 0.9999, None, 0.000058), ("Mass", 100.28, "mg", 0.05), ("Volume", 100.0, "ml", 0.07),
                   ("Concentration", "=1000*B3*B2/B4", "mg/l")])
        sheet, _ = self.sure("B5")
        self.near(self.number(sheet, "sure_value"), 1002.7, 5e-5)
        self.near(self.number(sheet, "sure_u"), 0.86, 0.05)
        # the parts of volumes, masses and of the molar mass as the guide combines them (rectangular /√3, triangular /√6)
        self.fill([("Titrations", "Value", "u"), ("gross", 0, "=0.00015/SQRT(3)"), ("tare", 0, "=0.00015/SQRT(3)"),
                   ("purity", 1, "=0.0005/SQRT(3)"), ("C", 12.0107, "=0.0008/SQRT(3)"), ("H", 1.00794, "=0.00007/SQRT(3)"),
                   ("O", 15.9994, "=0.0003/SQRT(3)"), ("K", 39.0983, "=0.0001/SQRT(3)"),
                   ("T1 calibration", 0, "=0.03/SQRT(6)"), ("T1 temperature", 0, "=19*0.00021*4/SQRT(3)"),
                   ("T2 calibration", 0, "=0.03/SQRT(6)"), ("T2 temperature", 0, "=15*0.00021*4/SQRT(3)"),
                   ("pipette calibration", 0, "=0.02/SQRT(6)"), ("pipette temperature", 0, "=15*0.00021*4/SQRT(3)"),
                   ("repeatability A2", 1, 0.0005), ("repeatability A3", 1, 0.001), ("temperature A2", 0, 0.006),
                   ("M", "=8*B14+5*B15+4*B16+B17"), ("m", "=0.3888+B11-B12"),
                   ("NaOH", "=B24*1000*B28*B13/(B27*(18.64+B18+B26))"),
                   ("HCl", "=B25*1000*B28*B13*(14.89+B20+B21)/(B27*(18.64+B18+B19)*(15+B22+B23))")], first=10)
        sheet, _ = self.sure("B29:B30")
        self.near(self.number(sheet, "sure_value", 0), 0.10214, 5e-5)
        self.near(self.number(sheet, "sure_u", 0), 0.0001005, 0.005)
        self.near(self.number(sheet, "sure_value", 1), 0.10139, 5e-5)
        self.near(self.number(sheet, "sure_u", 1), 0.0001843, 0.005)

    def test_fifty_random_workbooks_against_uncertainties(self):
        draw = random.Random(7)
        for _ in range(50):
            sheet = self.book.document.Sheets.getByIndex(0)
            sheet.clearContents(1023)
            count = draw.randint(3, 8)
            rows, values = [("Input", "Value", "u")], []
            for i in range(count):
                value = round(draw.uniform(1, 20), 3)
                u = round(value * draw.choice((0.001, 0.003, 0.01)), 6)
                rows.append((f"x{i}", value, u))
                values.append(uncertainties.ufloat(value, u))
            cells = [f"B{i + 2}" for i in range(count)]
            for k in range(draw.randint(3, 10)):  # formulas that use anything above them
                a, b = draw.sample(range(len(values)), 2)
                x, y = values[a], values[b]
                kinds = {"{0}+{1}": x + y, "{0}*{1}/10": x * y / 10, "{0}/{1}": x / y, "SQRT(ABS({0}))+{1}": umath.sqrt(abs(x)) + y,
                         "{0}*EXP(-{1}/50)": x * umath.exp(-y / 50), "LN(1+ABS({0}))*{1}": umath.log(1 + abs(x)) * y,
                         "2*{0}-{1}/3": 2 * x - y / 3, "{0}^2/{1}": x ** 2 / y}
                formula = draw.choice(sorted(kinds))
                result = kinds[formula]
                rows.append((f"f{k}", "=" + formula.format(cells[a], cells[b])))
                values.append(result)
                cells.append(f"B{len(rows)}")
            self.fill(rows)
            last = values[-1]
            new, said = self.sure(cells[-1])
            with self.subTest(rows=rows):
                self.near(self.number(new, "sure_value"), last.nominal_value, 1e-9)
                parts = [row["Contribution"] or 0 for row in self.inputs(new).values()]
                self.near(math.sqrt(sum(part * part for part in parts)), last.std_dev, 0.001)
                if "First order misleads" not in self.sentences(new):
                    self.near(self.number(new, "sure_u"), last.std_dev, 0.01)
                for variable, derivative in last.derivatives.items():
                    part = abs(derivative) * variable.std_dev
                    self.assertTrue(any(abs(part - one) <= 0.01 * part + 1e-6 * last.std_dev for one in parts), (part, parts))
            self.book.document.Sheets.removeByName(new)

    # ---- where first order does not do

    def test_a_square_at_its_minimum(self):
        # By hand: y = x² of x = 0 ± 1 is chi² with one degree of freedom: u = √2, 95 % from 0.00098 to 5.02.
        self.fill([("x", "0 ± 1"), (None, None), ("Value", "u"), (0, 1), ("=A4^2",)])
        sheet, _ = self.sure("A5")
        self.near(self.number(sheet, "sure_u"), math.sqrt(2), 0.01)
        self.near(self.number(sheet, "sure_high"), 5.024, 0.01)
        self.assertLess(self.number(sheet, "sure_low"), 0.002)
        self.assertIn("JCGM 101", self.sentences(sheet))

    def test_formulas_that_only_the_office_knows(self):
        # NORMSINV is worked out by the office alone: slope 1/φ(z) at p = 0.5 is √(2π).
        self.fill([("Value", "u"), (0.5, 0.001), ("=NORMSINV(A2)*3",)])
        sheet, _ = self.sure("A3")
        self.near(self.number(sheet, "sure_u"), 3 * math.sqrt(2 * math.pi) * 0.001, 1e-3)

    # ---- inputs

    def test_functions_of_ours_names_other_sheets_and_texts(self):
        self.book.document.Sheets.insertNewByName("It's wet", 1)
        self.fill([("Fresh mass", "1000 ± 1 g"), ("Moisture at the end", 0.1, "guess ±4 %")])
        self.fill([("Moisture at start", 0.85, "±", 0.005)], sheet=1)
        self.book.document.NamedRanges.addNewByName("start", "$'It''s wet'.$B$1", self.book.cell("A1").CellAddress, 0)
        self.book.put("B4", "=DRY.DRIEDMASS(B1;start;B2)")
        sheet, _ = self.sure("B4")
        # u of the final moisture: 4 % read as 4 points, a moisture being a share; python3-uncertainties:
        # f(1-s)/(1-w) of 1000 ± 1, 0.85 ± 0.005, 0.1 ± 0.04
        f, s, w = (uncertainties.ufloat(*pair) for pair in ((1000, 1), (0.85, 0.005), (0.1, 0.04)))
        self.near(self.number(sheet, "sure_u"), (f * (1 - s) / (1 - w)).std_dev, 0.01)
        inputs = self.inputs(sheet)
        self.assertEqual({row["Cell"]: row["From"] for row in inputs.values()},
                         {"Sheet1.B1": "typed ±", "It's wet.B1": "the cell beside it, ±", "Sheet1.B2": "guess, ±4 %"})

    def test_what_is_blank_or_wrong_is_said_and_nothing_else_changes(self):
        self.fill([("Mass (g)", 12.5), ("Other mass (g)", 3), ("Sum", "=B1+B2+D9"), ("Wrong", "=B1/0"), ("On", "=B4*2")])
        before = self.contents()
        sheet, said = self.sure("B3")
        self.assertIn("Sheet1.D9", self.sentences(sheet))
        # read to 0.1 g and to 1 g: JCGM 100 F.2.2.1
        self.near(self.number(sheet, "sure_u"), math.hypot(0.1, 1) / math.sqrt(12), 1e-6)
        self.select("B5")
        done, said = self.send("sure")
        self.assertFalse(done)
        self.assertIn("begins in Sheet1.B4", said)
        after = {key: formula for key, formula in self.contents().items() if key[0] != sheet}
        self.assertEqual(after, before)
        self.book.document.UndoManager.undo()
        self.assertEqual(self.book.document.Sheets.ElementNames, ("Sheet1",))
        self.assertEqual(self.contents(), before)

    def test_nothing_is_invented(self):
        self.fill([("Factor", 2), ("Result", "=B1*3")])
        sheet, _ = self.sure("B2")
        self.assertIn("No input has a ±", self.sentences(sheet))
        self.assertEqual(self.named(sheet, "sure_u").getCellByPosition(0, 0).Type.value, "EMPTY")
        self.select("B1")
        self.assertFalse(self.send("sure")[0])

    def test_thirty_inputs_and_two_thousand_formulas(self):
        sheet = self.book.sheet()
        for i in range(30):
            self.fill([(f"x{i}", 10 + i, 0.1)], first=i + 2)
        self.fill([("Input", "Value", "u")])
        rows = []
        for k in range(2000):
            a, b = k % 30 + 2, k * 7 % 30 + 2
            rows.append((f"=B{a}*1.01+B{b}/3" + (f"+E{k}*0.001+SQRT(ABS(E{k}))" if k else ""),))
        sheet.getCellRangeByName("E1:E2000").setFormulaArray(tuple(rows))
        self.book.put("F1", "=SUM(E1:E2000)")
        start, worked = time.monotonic(), self.office_seconds()
        new, _ = self.sure("F1")
        worked = self.office_seconds() - worked
        print(f"\n30 inputs, 2000 formulas: {worked:.1f} s of work, {time.monotonic() - start:.1f} s by the clock")
        self.assertEqual(len(self.inputs(new)), 30)
        self.assertLess(worked, 5)


if __name__ == "__main__":
    unittest.main()
