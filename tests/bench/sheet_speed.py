#!/usr/bin/python3
# SPDX-License-Identifier: MPL-2.0
"""How long a column of cells takes, as a ratio to the office's own add-in function SQRTPI in the same run.

    /usr/bin/python3 tests/bench/sheet_speed.py              the functions we promise a speed for
    /usr/bin/python3 tests/bench/sheet_speed.py --all        every function with one number as its result, too
    /usr/bin/python3 tests/bench/sheet_speed.py --cells 5000

Ratios are what to compare: seconds depend on the machine and on what else it does.
"""

import argparse
import pathlib
import sys
import time

import uno  # makes the next import work
from com.sun.star.sheet.FillDirection import TO_BOTTOM

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "sheet"))
from harness import OXT, checks, written  # noqa: E402
from office import Office  # noqa: E402

# name, formula of row 1, the most it may be of SQRTPI's time
PROMISED = [
    ("SQRTPI (the office's add-in)", "=SQRTPI(A1)", None),
    ("DOLLARDE (the same, two arguments)", "=DOLLARDE(A1;A1)", None),
    ("YEARFRAC (the same, three arguments)", "=YEARFRAC(A1;B1;0)", None),
    ("DISC (the same, five arguments)", "=DISC(40000;41000;A1;A1;0)", None),
    ("SERIESSUM (the same, with a range)", "=SERIESSUM(B1;1;1;A1:A3)", None),
    ("formula without any function", "=A1*(1-B1)/(1-C1)", None),
    ("DRY.DRIEDMASS, numbers", "=DRY.DRIEDMASS(A1;B1;C1)", 1.3),
    ("DRY.DRIEDMASS, a text with its unit", "=DRY.DRIEDMASS(D1;B1;C1)", 1.6),
    ("the same sum as a Basic macro function", "=DRIEDBYMACRO(A1;B1;C1)", None),
    ("DRY.WETBULB", "=DRY.WETBULB(A1/4;B1)", 1.6),
    ("DRY.DRIEDMASS, value & unit", '=DRY.DRIEDMASS(A1&" g";B1;C1)', None),
]


MACRO = """Function DriedByMacro(fresh, start, final)
    DriedByMacro = fresh * (1 - start) / (1 - final)
End Function
"""


def one_number_functions(catalogue):
    """(name, formula) of the first check value of each function that gives one number, all arguments written out."""
    found = {}
    for check in catalogue:
        if check["kind"] == "value" and not check["at"] and check["topic"] != "trust":
            found.setdefault(check["function"], f"=DRY.{check['function']}({';'.join(map(written, check['given']))})")
    return [(f"DRY.{name}", formula, None) for name, formula in found.items()]


class Column:
    def __init__(self, book, cells):
        self.book, self.cells = book, cells
        self.fill("A", 100.0)
        self.fill("B", 0.8)
        self.fill("C", 0.2)
        self.fill("D", "100 g")
        self.result = book.sheet().getCellRangeByName(f"F1:F{cells}")

    def fill(self, column, value):
        rows = [(value + 1e-6 * row if column == "A" else value,) for row in range(self.cells)]
        self.book.sheet().getCellRangeByName(f"{column}1:{column}{self.cells}").setDataArray(rows)

    def place(self, formula):
        self.result.clearContents(1023)
        self.book.put("F1", formula)
        if self.book.cell("F1").getError():
            raise SystemExit(f"{formula} shows {self.book.cell('F1').getString()}")
        self.result.fillAuto(TO_BOTTOM, 1)

    def seconds(self):
        start = time.perf_counter()
        self.book.recalculate()
        return time.perf_counter() - start


def measure(column, formulas, rounds):
    """Least seconds of each formula's column. The rounds go over all formulas in turn, so that a slow spell hits all."""
    taken = {name: [] for name, _, _ in formulas}
    for _ in range(rounds):
        for name, formula, _ in formulas:
            column.place(formula)
            taken[name].append(column.seconds())
    return {name: min(times) for name, times in taken.items()}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--cells", type=int, default=50000)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--all", action="store_true")
    given = parser.parse_args()
    formulas = PROMISED + (one_number_functions(checks()) if given.all else [])
    with Office(addin=OXT) as office, office.new(MacroExecutionMode=4) as book:
        book.document.BasicLibraries.createLibrary("Standard").insertByName("Speed", MACRO)
        column = Column(book, given.cells)
        taken = measure(column, formulas, given.rounds)
    base = taken[PROMISED[0][0]]
    print(f"{given.cells} cells, least of {given.rounds} recalculations")
    print(f"{'':40} {'µs a cell':>10} {'ratio':>7}  promised")
    for name, _, most in formulas:
        ratio = taken[name] / base
        word = "" if most is None else f"at most {most}" + ("" if ratio <= most else "  NOT KEPT")
        print(f"{name:40} {taken[name] / given.cells * 1e6:10.2f} {ratio:7.2f}  {word}".rstrip())


if __name__ == "__main__":
    main()
