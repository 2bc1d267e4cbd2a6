#!/usr/bin/python3
# SPDX-License-Identifier: MPL-2.0
"""Recalculates workbooks in a headless Calc, prints their key results, leaves a PDF each and fails on any error cell.

What a workbook says by named ranges:
  KEY_RESULTS       three columns: label, value, unit. Printed as a table.
  INTENDED_ERRORS   cells that show a refusal on purpose; further ranges as INTENDED_ERRORS_2 and so on. Every formula in
                    such a range must show an error, and no cell outside one may.
"""

import argparse
import hashlib
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "tests" / "sheet"))
import office  # noqa: E402

MOST_SHOWN = 30


def key_results(book):
    """The lines of the KEY_RESULTS table: numbers right, texts left."""
    cells = book.named("KEY_RESULTS")
    area = cells.RangeAddress
    rows = [[cells.getCellByPosition(column, row) for column in range(3)]
            for row in range(area.EndRow - area.StartRow + 1)]
    rows = [(*(cell.getString() for cell in row), office.Result.of(row[1]).kind == "value") for row in rows]
    rows = [row for row in rows if any(row[:3])]
    label_width = max(len(label) for label, _, _, _ in rows)
    value_width = max((len(value) for _, value, _, number in rows if number), default=0)
    return [f"  {label:{label_width}}  {value.rjust(value_width) if number else value}  {unit}".rstrip()
            for label, value, unit, number in rows]


def opened(calc, path, how="example"):
    """A workbook; one that has no file is an example, or a blank form, as the add-in's menu opens it."""
    if path.suffix:
        return calc.open(path)
    empty = calc.desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0, ())
    calc.service("com.sun.star.frame.DispatchHelper").executeDispatch(
        empty.CurrentController.Frame, f"org.drysheet.menu:{how}-{path}", "", 0, ())
    book = office.Book(calc.desktop.getCurrentComponent())
    empty.close(True)
    return book


def trial_results(book):
    """The ten numbers of every trial's report."""
    lines = []
    for sheet in book.document.Sheets:
        if sheet.getCellByPosition(0, 7).getString() == "Ten numbers":
            lines += [f"  {sheet.Name}"] + [f"    {label:30}  {value}" for label, value, *_ in sheet.getCellRangeByName("A9:B18").getDataArray()]
    return lines


def intended(book):
    """{(sheet, address)} of the formula cells that are to show an error."""
    found = set()
    for name in book.document.NamedRanges.ElementNames:
        if name.startswith("INTENDED_ERRORS"):
            cells = book.named(name)
            area, sheet = cells.RangeAddress, cells.Spreadsheet.Name
            found |= {(sheet, office.address_of(column, row))
                      for column in range(area.StartColumn, area.EndColumn + 1)
                      for row in range(area.StartRow, area.EndRow + 1)}
    return found & set(book.formulas())


def faults(book):
    """One line for each cell that shows an error and should not, or should and does not, and for missing results."""
    shown = {(sheet, address): f"{sheet}.{address} shows {text}: {formula}"
             for sheet, address, formula, text in book.error_cells()}
    wanted = intended(book)
    return ([line for place, line in shown.items() if place not in wanted] +
            [f"{sheet}.{address} is declared to show an error and does not"
             for sheet, address in sorted(wanted - set(shown))] +
            (["there is no named range KEY_RESULTS"] if book.named("KEY_RESULTS") is None and not trial_results(book) else []))


def digest(*paths):
    whole = hashlib.sha256()
    for path in paths:
        whole.update(pathlib.Path(path).read_bytes())
    return whole.hexdigest()


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--addin", required=True, help="the .oxt to recalculate with")
    parser.add_argument("--out", required=True, type=pathlib.Path, help="folder for the PDFs")
    parser.add_argument("workbooks", nargs="+", type=pathlib.Path, help="files, or names of examples that have none")
    given = parser.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)

    def products(path):
        return given.out / f"{path.stem}.pdf", given.out / f"{path.stem}.txt"

    # A workbook's table is kept beside its PDF, under a first line that says what both were made from.
    made_from = {path: digest(*([path] if path.suffix else []), given.addin, __file__) for path in given.workbooks}
    stale = [path for path in given.workbooks
             if not all(product.exists() for product in products(path))
             or not products(path)[1].read_text().startswith(made_from[path])]
    bad = []
    if stale:
        with office.Office(addin=given.addin) as calc:
            for path in stale:
                pdf, table = products(path)
                table.unlink(missing_ok=True)
                with opened(calc, path) as book:
                    book.recalculate()
                    book.save(pdf)  # of a faulty one too: it shows where
                    found = faults(book)
                    bad += [f"{path.name}: {line}" for line in found]
                    if not found:
                        table.write_text("\n".join([made_from[path], *(key_results(book) if book.named("KEY_RESULTS") else trial_results(book))]) + "\n")
    for path in given.workbooks:
        pdf, table = products(path)
        if table.exists():
            print(f"\n{path.name}" + ("" if path in stale else " (up to date)"))
            print(table.read_text().split("\n", 1)[1], end="")
            print(f"  -> {pdf}")
    for line in bad[:MOST_SHOWN]:
        print(line, file=sys.stderr)
    if bad:
        print(f"\nFAILED: {len(bad)} faults in the example workbooks", file=sys.stderr)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
