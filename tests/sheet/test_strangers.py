# SPDX-License-Identifier: MPL-2.0
"""Workbooks of odd content, made here: each is reviewed without an end of the office, a hang, or a change to what was there."""

import contextlib
import hashlib
import os
import pathlib
import signal
import subprocess
import tempfile
import time
import unittest

import uno  # noqa: F401  makes com.sun.star
from com.sun.star.awt import Rectangle
from com.sun.star.lang import Locale
from com.sun.star.sheet.DataPilotFieldOrientation import DATA, ROW
from com.sun.star.table import CellAddress, CellRangeAddress

from harness import OXT, MenuTest
from office import FILTERS, Book, Office, properties

FORMATS = {**FILTERS, ".xls": "MS Excel 97"}
del FORMATS[".pdf"], FORMATS[".fods"]


def put(book, cells, which=0):
    for address, content in cells.items():
        book.put(address, content, which)


def hidden_and_merged(book):
    put(book, {f"A{row}": row for row in range(1, 30)} | {f"B{row}": f"=A{row}*2" for row in range(1, 30)})
    sheet = book.sheet()
    sheet.Rows.getByIndex(4).IsVisible = False
    sheet.Columns.getByIndex(0).IsVisible = False
    sheet.getCellRangeByName("C1:E3").merge(True)
    put(book, {"C1": "=SUM(B1:B29)"})
    book.document.Sheets.insertNewByName("unseen", 1)
    put(book, {"A1": "=$Sheet1.C1/0"}, 1)
    book.sheet(1).IsVisible = False


def names(book):
    ranges, at = book.document.NamedRanges, CellAddress(0, 0, 0)
    for name, content in (("mass", "$Sheet1.$A$1"), ("above", "$Sheet1.A1048576"), ("sum_of", "$Sheet1.$A$1+mass*2"),
                          ("gone", "$Sheet1.#REF!"), ("round", "round+1"), ("text", '"kg"'), ("nothing", "nosuch(1)"),
                          ("call", "DRY.DRYBASIS(0.8)"), ("wide", "$Sheet1.$A:$C")):
        ranges.addNewByName(name, content, at, 0)
    book.sheet().NamedRanges.addNewByName("mass", "$Sheet1.$A$2", at, 0)
    put(book, {"A1": 1, "A2": 2} | {f"B{row}": f"={name}" for row, name in enumerate(
        ("mass", "above", "sum_of", "gone", "round", "text", "nothing", "call", "SUM(wide)", "nosuch", "mass mass"), 1)})


def links(book):
    put(book, {"A1": "='file:///nowhere/at all.ods'#$Sheet1.A1", "A2": "=SUM('file:///nowhere/x.xlsx'#$Data.A1:B9)",
               "A3": '=HYPERLINK("https://example.org/";"x")', "A4": "=DDE(\"a\";\"b\";\"c\")", "A5": "=$Gone.A1"})


def pivot(book):
    sheet = book.sheet()
    sheet.getCellRangeByName("A1:C5").setDataArray((("lot", "mass (kg)", "kind"), ("a", 1, "ginger"), ("b", 2, "pineapple"),
                                                    ("c", 3, "ginger"), ("d", 4, "pineapple")))
    tables = sheet.DataPilotTables
    description = tables.createDataPilotDescriptor()
    description.setSourceRange(CellRangeAddress(0, 0, 0, 2, 4))
    fields = description.DataPilotFields
    fields.getByIndex(2).Orientation = ROW
    fields.getByIndex(1).Orientation = DATA
    tables.insertNewByName("totals", CellAddress(0, 5, 0), description)
    put(book, {"E1": '=GETPIVOTDATA("mass (kg)";F1)', "E2": "=F3*2"})


def chart(book):
    put(book, {f"A{row}": row for row in range(1, 9)} | {f"B{row}": f"=A{row}^2" for row in range(1, 9)})
    book.sheet().Charts.addNewByName("curve", Rectangle(9000, 500, 8000, 6000), (CellRangeAddress(0, 0, 0, 1, 7),), False, False)


def arrays(book):
    put(book, {f"A{row}": row for row in range(1, 9)})
    sheet = book.sheet()
    sheet.getCellRangeByName("B1:B8").setArrayFormula("=A1:A8*2")
    sheet.getCellRangeByName("C1:D4").setArrayFormula("=TRANSPOSE(A1:D2)")
    sheet.getCellRangeByName("F1:F20").setArrayFormula('=DRY.WORKING("DRIEDMASS";100;0.8;0.1)')
    put(book, {"H1": "={1;2;\"x\"|3;4;TRUE()}", "H2": "=SUM({1;2;3}*A1:A3)", "H3": "=MULTIPLE.OPERATIONS(B1;A1;A2)",
               "H4": "=INDEX(A1:A8;2):A5", "H5": "=SUM(A1:A3~A5!A5:A6)", "H6": "=SUM(INDIRECT(\"A1:A\"&A3))"})


def errors(book):
    put(book, {"A1": "=A2", "A2": "=A1", "A3": "=1/0", "A4": "=#REF!+#N/A", "A5": "=nosuch(1;;2)", "A6": "=DRY.NOSUCH(A1)",
               "A7": "=DRY.DRYBASIS(2)", "A8": "=DRY.DRYBASIS()", "A9": "=SQRT(-1)", "A10": "=10^400", "A11": "=\"a\"+1",
               "A12": "=((1+2)", "A13": "=VLOOKUP(1;A:B;9)", "A14": "=" + "(" * 60 + "1" + ")" * 60,
               "A15": "=" + "+".join(["1"] * 900), "A16": "=DRY.WHY(\"DRYBASIS\";A7)", "A17": "=-(-(-2))^-2%%"})


def odd_names_and_notes(book):
    for number, name in enumerate(("It's, wet", "a.b.c", "2 %", "größe → Ü", "x;y|z"), 1):
        book.document.Sheets.insertNewByName(name, number)
        put(book, {"A1": 3, "A2": "=A1*$Sheet1.A1", "A3": "'=not a formula", "A4": "=SUM($'It''s, wet'.A1:$'a.b.c'.A1)"}, number)
        book.sheet(number).Annotations.insertNew(CellAddress(number, 0, 0), "kg\n\"±\" 0.1 <b>&\u00a0\u2009µ")
    put(book, {"A1": "Masse [kg]\nnetto", "A2": "x" * 30000, "A3": '="' + "y" * 200 + '"', "B1": "12,5 kg ± 0,1"})


def wide(book):
    put(book, {"AMJ1048576": 1, "A1": "=SUM(A2:AMJ1048576)", "A2": "=SUM(B:B)+SUM(5:5)", "AMJ1": "=A1"})
    book.sheet().getCellRangeByName("A1:AMJ1048576").NumberFormat = 10


def databases(book):
    sheet = book.sheet()
    sheet.getCellRangeByName("A1:B4").setDataArray((("lot", "mass"), ("a", 1), ("b", 2), ("c", 3)))
    ranges = book.document.DatabaseRanges
    ranges.addNewByName("runs", CellRangeAddress(0, 0, 0, 1, 3))
    ranges.getByName("runs").AutoFilter = True
    put(book, {"D1": "=SUM(runs)", "D2": "=SUM(runs[mass])", "D3": "=SUBTOTAL(9;B2:B4)", "D4": '=DSUM(runs;"mass";A1:A2)'})


def formats(book):
    numbers, locale = book.document.NumberFormats, Locale("en", "US", "")
    for row, code in enumerate(('0.0" kg"', "0 %", "HH:MM", "[HH]:MM", "YYYY-MM-DD", "YYYY-MM-DD HH:MM", "0.00E+00", "@",
                                "# ?/?", "[<1]0.000;[<10]0.00;0", '"x"'), 1):
        key = numbers.addNewConverted(code, locale, locale)
        put(book, {f"A{row}": 0.5 + row, f"B{row}": f"=A{row}*2"})
        for column in "AB":
            book.cell(f"{column}{row}").NumberFormat = key


def protected_sheet(book):
    put(book, {"A1": "=1+1"})
    book.sheet().protect("secret")


def protected_structure(book):
    put(book, {"A1": "=1+1"})
    book.document.protect("secret")


def nothing(_):
    pass


MAKERS = (hidden_and_merged, names, links, pivot, chart, arrays, errors, odd_names_and_notes, wide, databases, formats,
          protected_sheet, protected_structure, nothing)


class Strangers(MenuTest):
    @contextlib.contextmanager
    def loaded(self, path, **how):
        document = self.office.desktop.loadComponentFromURL(path.as_uri(), "_blank", 0, properties(UpdateDocMode=0, **how))
        self.assertIsNotNone(document, path)
        try:
            yield document
        finally:
            document.close(True)

    def picture(self, document):
        """What a person would see of every cell that was there, its format and its notes."""
        seen = []
        for sheet in document.Sheets:
            if sheet.NamedRanges.hasByName("DRYSHEET_REVIEW"):
                continue
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(True)
            area = cursor.RangeAddress
            cells = sheet.getCellRangeByPosition(0, 0, min(area.EndColumn, 30), min(area.EndRow, 99))
            seen.append((sheet.Name, sheet.IsVisible, cells.getFormulaArray(), cells.getDataArray(),
                         tuple(sheet.Rows.getByIndex(row).IsVisible for row in range(8)),
                         tuple((note.Position.Row, note.String) for note in sheet.Annotations),
                         [(ranges.NumberFormat, ranges.CellStyle, ranges.RangeAddressesAsString)
                          for ranges in sheet.UniqueCellFormatRanges],
                         sheet.Charts.ElementNames, sheet.DataPilotTables.ElementNames, sheet.NamedRanges.ElementNames))
        return seen, document.NamedRanges.ElementNames, document.DatabaseRanges.ElementNames

    def test_every_stranger_is_reviewed_and_stays_as_it_is(self):
        with tempfile.TemporaryDirectory() as folder:
            for maker in MAKERS:
                book = self.office.new()
                maker(book)
                paths = [pathlib.Path(folder) / f"{maker.__name__}{ending}" for ending in FORMATS]
                for path in paths:
                    book.document.storeToURL(path.as_uri(), properties(FilterName=FORMATS[path.suffix]))
                book.close()
                for path in paths:
                    with self.subTest(path.name):
                        file = hashlib.sha256(path.read_bytes()).hexdigest()
                        with self.loaded(path) as document:
                            document.calculateAll()
                            document.NamedRanges.addNewByName("moment", "$A$1", CellAddress(0, 0, 0), 0)
                            document.NamedRanges.removeByName("moment")  # the office reads unknown names again with any new one
                            before, count = self.picture(document), document.Sheets.Count
                            start = time.monotonic()
                            done, said = self.send("review", document)
                            self.assertTrue(done, said)
                            self.assertLess(time.monotonic() - start, 20)
                            self.assertEqual(self.picture(document), before)
                            structure = document.isProtected()
                            self.assertEqual(document.Sheets.Count, count + (0 if structure else 1))
                            self.assertTrue(self.send("cell", document)[0])
                            if structure:
                                self.office.desktop.CurrentComponent.close(True)
                        with self.loaded(path, ReadOnly=True, Hidden=True) as document:
                            done, said = self.send("review", document)
                            self.assertTrue(done, said)
                            self.assertIn("in a new workbook", said)
                        self.assertEqual(hashlib.sha256(path.read_bytes()).hexdigest(), file)
            # all of them at once
            folder = pathlib.Path(folder)
            (folder / "torn.ods").write_bytes(b"PK\x03\x04 no more")
            (folder / "notes.txt").write_text("no workbook")
            before = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.iterdir()}
            done, said = self.send("review-folder", Folder=folder.as_uri(), Summary=(folder.parent / f"{folder.name}-out.ods").as_uri())
            self.addCleanup(lambda: [(folder.parent / f"{folder.name}-out{ending}").unlink() for ending in (".ods", ".csv")])
            self.assertTrue(done, said)
            self.assertIn(f"Workbooks read: {len(MAKERS) * len(FORMATS)} of {len(MAKERS) * len(FORMATS) + 1}, not readable: 1.", said)
            self.assertEqual({path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.iterdir()}, before)
            lines = (folder.parent / f"{folder.name}-out.csv").read_text().splitlines()
            self.assertEqual(lines[0], "File,Cell,Finding,Why,Shows,Formula,Suggested,Would show,Evidence")
            self.assertTrue(any(line.startswith("torn.ods,,not read,") for line in lines))
            summary = self.office.desktop.CurrentComponent
            self.assertEqual(len(summary.Sheets.getByIndex(1).NamedRanges.getByName("DRYSHEET_FOLDER").getReferredCells().getDataArray()),
                             1 + len(MAKERS) * len(FORMATS))
            summary.close(True)

    def test_a_folder_that_cannot_be_reviewed(self):
        self.assertIn("There is no folder", self.send("review-folder", Folder="file:///nowhere/at/all")[1])
        with tempfile.TemporaryDirectory() as folder:
            done, said = self.send("review-folder", Folder=pathlib.Path(folder).as_uri())
            self.assertFalse(done)
            self.assertIn("There is no workbook in", said)
        book = self.office.new()
        self.addCleanup(book.close)
        self.assertIn("the argument Folder, a URL, is missing", self.send("review-folder", book.document)[1])


class Headless(unittest.TestCase):
    def test_one_command_reviews_a_folder(self):
        with tempfile.TemporaryDirectory() as home, Office(addin=OXT) as office:
            folder = pathlib.Path(home) / "my trials"
            folder.mkdir()
            book = office.new()
            put(book, {"A1": "Fresh (kg)", "B1": 12.5, "B2": "=B1*2", "B3": "=DRY.DRYBASIS(2)"})
            book.save(folder / "ginger.ods")
            book.save(folder / "pineapple.xlsx")
            book.close()
            office.desktop.terminate()
            office.process.wait(30)
            process = subprocess.Popen(["soffice", *office.where, "--headless", "--norestore",
                                        f"service:org.drysheet.ReviewFolder?{folder.as_uri()}"],
                                       stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, start_new_session=True)
            try:
                said, _ = process.communicate(timeout=90)
            finally:  # the office and all it started are one process group
                with contextlib.suppress(ProcessLookupError):
                    os.killpg(process.pid, signal.SIGKILL)
            self.assertEqual(process.returncode, 0)
            self.assertIn("Workbooks read: 2 of 2, not readable: 0.", said)
            self.assertEqual(sorted(path.name for path in folder.parent.iterdir()),
                             ["my trials", "my trials review.csv", "my trials review.ods"])
            self.assertIn("DRY.DRYBASIS(2)", (folder.parent / "my trials review.csv").read_text())


if __name__ == "__main__":
    unittest.main()
