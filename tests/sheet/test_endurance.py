# SPDX-License-Identifier: MPL-2.0
"""A large workbook: nothing of ours is lost when the office dies after saving, and recalculating takes no memory."""

import os
import pathlib
import signal
import tempfile
import unittest

from harness import OXT
from office import Office

from com.sun.star.sheet.FillDirection import TO_BOTTOM  # importable once uno is, which office imports

ROWS = 100_000
FORMULA = '=DRY.DRIEDMASS(A1&" g";0.8;"20 %")'  # texts too: they are what could pile up
MOST_GROWTH = 4096  # KiB; one byte lost a call would be 1500


def column_of_formulas(book):
    book.sheet().getCellRangeByName(f"A1:A{ROWS}").setDataArray([(float(row),) for row in range(1, ROWS + 1)])
    book.put("B1", FORMULA)
    column = book.sheet().getCellRangeByName(f"B1:B{ROWS}")
    column.fillAuto(TO_BOTTOM, 1)
    return column


def resident_memory(office):
    """KiB of the office and what it started."""
    total = 0
    for status in pathlib.Path("/proc").glob("[0-9]*/status"):
        try:
            if os.getpgid(int(status.parent.name)) == office.process.pid:
                lines = dict(line.split(":", 1) for line in status.read_text().splitlines() if ":" in line)
                total += int(lines.get("VmRSS", "0 kB").split()[0])
        except (FileNotFoundError, ProcessLookupError):
            pass
    return total


class Endurance(unittest.TestCase):
    def test_saved_killed_and_opened_again(self):
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / "large.ods"
            with Office(addin=OXT) as office:
                book = office.new()
                column_of_formulas(book)
                book.save(path)
                os.killpg(office.process.pid, signal.SIGKILL)
                office.process.wait()
            with Office(addin=OXT) as office, office.open(path) as book:
                book.recalculate()
                column = book.sheet().getCellRangeByName(f"B1:B{ROWS}")
                formulas = [line[0] for line in column.getFormulaArray()]
                self.assertEqual(formulas, [FORMULA.replace("A1", f"A{row}") for row in range(1, ROWS + 1)])
                values = [line[0] for line in column.getDataArray()]
                for row, value in enumerate(values, 1):
                    self.assertAlmostEqual(value, row / 4, delta=1e-9 * row)

    def test_recalculating_takes_no_memory(self):
        with Office(addin=OXT) as office, office.new() as book:
            column_of_formulas(book)
            for _ in range(5):
                book.recalculate()
            before = resident_memory(office)
            for _ in range(15):
                book.recalculate()
            self.assertLess(resident_memory(office) - before, MOST_GROWTH)


if __name__ == "__main__":
    unittest.main()
