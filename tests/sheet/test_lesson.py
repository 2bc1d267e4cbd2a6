# SPDX-License-Identifier: MPL-2.0
"""The lessons and the class desk: a class is handed out, answers, and is collected; no macro anywhere."""

import csv
import pathlib
import re
import shutil
import sys
import tempfile
import time
import unittest
import zipfile

from harness import ROOT, SheetTest
from office import Book, properties

sys.path.insert(0, str(ROOT / "example-sheets"))
import recalculate  # noqa: E402

LESSONS = ROOT / "example-sheets" / "lessons.fods"
SHEETS = ("Balances", "Moist air", "Rate and time", "Sorption", "Energy", "Scale-up")
FIRST = 8  # row of the first exercise


def rows(sheet):
    """The rows of a sheet's exercises."""
    return range(FIRST, FIRST + sheet.NamedRanges.getByName("answers").getReferredCells().Rows.Count)


class ClassTest(SheetTest):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="drysheet-class-"))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)
        self.book = self.shown(LESSONS)

    def shown(self, path):
        """A copy in a window, if only a headless one."""
        document = self.office.desktop.loadComponentFromURL(path.resolve().as_uri(), "_blank", 0, properties(AsTemplate=True))
        book = Book(document)
        self.addCleanup(book.close)
        return book

    def send(self, command, **arguments):
        """(whether it was done, what was said)"""
        helper = self.office.service("com.sun.star.frame.DispatchHelper")
        event = helper.executeDispatch(self.book.document.CurrentController.Frame, f"org.drysheet.menu:{command}", "", 0,
                                       properties(**arguments))
        return event.State == 1, event.Result

    def names(self, *names):
        cells = self.book.document.Sheets.getByIndex(0).NamedRanges.getByName("class_names").getReferredCells()
        cells.setDataArray([[name] for name in names] + [[""]] * (cells.Rows.Count - len(names)))

    def hand_out(self, *names):
        self.names(*names)
        done, said = self.send("hand-out", Folder=self.folder.as_uri())
        self.assertTrue(done, said)
        return said

    def collect(self):
        before = {id for id in self.documents()}
        done, said = self.send("collect", Folder=self.folder.as_uri())
        self.assertTrue(done, said)
        made = next(document for key, document in self.documents().items() if key not in before)
        book = Book(made)
        self.addCleanup(book.close)
        return book, said

    def documents(self):
        found, components = {}, self.office.desktop.Components.createEnumeration()
        while components.hasMoreElements():
            document = components.nextElement()
            if document.supportsService("com.sun.star.sheet.SpreadsheetDocument"):
                found[document.RuntimeUID] = document
        return found

    def answered(self, name, answers):
        """Types answers as a person does, in the file of that name: {(sheet, row): texts of its tries}."""
        path = self.folder / f"{name}.ods"
        document = self.office.desktop.loadComponentFromURL(path.as_uri(), "_blank", 0, ())
        for (sheet, row), tries in answers.items():
            for column, text in zip("CDE", tries):
                self.type_in(document, sheet, f"{column}{row}", text)
        document.store()
        return Book(document)

    def type_in(self, document, sheet, address, text):
        view = document.CurrentController
        view.setActiveSheet(document.Sheets.getByName(sheet))
        view.select(document.Sheets.getByName(sheet).getCellRangeByName(address))
        self.office.service("com.sun.star.frame.DispatchHelper").executeDispatch(
            view.Frame, ".uno:EnterString", "", 0, properties(StringName=text))

    def right_answers(self, name):
        """{(sheet, row): text} worked out by the office from the call in the cell's own formula."""
        document = self.office.desktop.loadComponentFromURL((self.folder / f"{name}.ods").as_uri(), "_blank", 0, properties(Hidden=True))
        scratch, found = self.office.new(), {}
        for sheet in document.Sheets:
            if not sheet.NamedRanges.hasByName("answers"):
                continue
            for row in rows(sheet):
                formula = sheet.getCellRangeByName(f"K{row}").Formula
                joined, function, arguments = re.fullmatch(
                    r'.*DRY\.MARKCALL\(C\d+(&"[^"]*")?;"(\w+)";(.*)\);"\?"\)\)', formula).groups()
                unit = joined[3:-1].strip() if joined else ""
                # kg for g, g/kg for kg/kg, kPa …: the conversion is asked for, and the answer has 6 digits
                call = f"DRY.{function}({arguments})"
                own = {"kg": '"g"', "g/kg": '"kg/kg"', "h": '"h"', "kg/kg": '"kg/kg"'}
                shown = scratch.show(f'=DRY.IN({call};"{unit}";{own[unit]})' if unit else f"={call}")
                self.assertEqual(shown.kind, "value", formula)
                found[sheet.Name, row] = f"{shown.value:.6g}"
        document.close(True)
        scratch.close()
        return found


class HandOut(ClassTest):
    def test_a_workbook_each_with_numbers_of_its_own(self):
        said = self.hand_out("Asha Rawat", "Dorje Lepcha", "", "asha rawat", "a/b: c?", 20231234.0)
        self.assertIn("Workbooks written: 4 of 4", said)
        self.assertIn("asha rawat stands twice", said)
        self.assertEqual(sorted(path.name for path in self.folder.iterdir()),
                         ["20231234.ods", "Asha Rawat.ods", "Dorje Lepcha.ods", "a_b_ c_.ods"])
        texts = set()
        for path in self.folder.iterdir():
            book = self.office.open(path)
            self.assertEqual(book.document.Sheets.ElementNames, (*SHEETS, "Workings"))
            self.assertTrue(book.document.isProtected())
            self.assertEqual(book.error_cells(), [])
            texts.add(book.cell("B8", "Balances").getString())
            for sheet in book.document.Sheets:
                self.assertTrue(sheet.isProtected())
                if sheet.Name == "Workings":
                    continue
                answers = sheet.NamedRanges.getByName("answers").getReferredCells().RangeAddress
                cursor = sheet.createCursor()
                cursor.gotoEndOfUsedArea(True)
                for row in range(cursor.RangeAddress.EndRow + 1):
                    for column in range(cursor.RangeAddress.EndColumn + 1):
                        inside = (answers.StartRow <= row <= answers.EndRow and answers.StartColumn <= column <= answers.EndColumn)
                        self.assertEqual(not sheet.getCellByPosition(column, row).CellProtection.IsLocked, inside,
                                         (sheet.Name, row, column))
                sheet.unprotect("")
                self.assertFalse(sheet.isProtected(), "protected with a password")
                self.assertIn("invented", sheet.getCellRangeByName("A2").String)
            book.close()
            with zipfile.ZipFile(path) as package:
                self.assertFalse([name for name in package.namelist() if "Basic" in name or "Scripts" in name])
                content = package.read("content.xml").decode()
            for teachers in ("harvest", "class_names", "Meera Thapa"):
                self.assertNotIn(teachers, content)
        self.assertEqual(len(texts), 4)
        kept = {path: path.read_bytes() for path in self.folder.iterdir()}
        said = self.hand_out("Asha Rawat")
        self.assertIn("Workbooks written: 0 of 1", said)
        self.assertIn("Asha Rawat.ods is there already", said)
        self.assertEqual({path: path.read_bytes() for path in self.folder.iterdir()}, kept)

    def test_hint_working_tries_and_points_follow_the_tries(self):
        self.hand_out("Asha")
        right = self.right_answers("Asha")["Balances", 11]
        book = self.answered("Asha", {})
        self.addCleanup(book.close)
        sheet = book.sheet("Balances")
        cells = lambda: [sheet.getCellRangeByName(f"{column}11").String for column in "GHI"]
        working = lambda: [line for (line,) in book.sheet("Workings").getCellRangeByName("B1:B60").getDataArray()]
        self.assertEqual(cells(), ["no answer yet", "0", "0"])
        self.assertEqual(sheet.getCellRangeByName("J11").String.count("\n"), 0)
        self.assertFalse([line for line in working() if "÷" in line])
        self.assertTrue([line for line in working() if line == "Balances 4: an answer first, please"])
        self.type_in(book.document, "Balances", "C11", "about a sack")
        self.assertIn('"about a sack kg" is not a number', cells()[0])
        self.assertEqual(cells()[1:], ["0", "0"])
        self.assertFalse([line for line in working() if "÷" in line])
        self.type_in(book.document, "Balances", "C11", "-12345")
        self.assertEqual(sheet.getCellRangeByName("C11").String, "-12345")
        self.assertEqual(cells(), ["wrong", "0", "1"])
        self.assertEqual(sheet.getCellRangeByName("J11").String.count("\n"), 1)
        self.assertTrue([line for line in working() if line.startswith("dried = fresh × (1 − start)")])
        self.type_in(book.document, "Balances", "D11", right)
        self.assertEqual(cells(), ["right", "1", "2"])
        self.assertEqual(sheet.getCellRangeByName("B5").String.split(" / ")[0], "Points: 1")
        for typed in ("1.50", "12 %", "8:00", "1/2", "=1+1", "007"):
            self.type_in(book.document, "Balances", "E11", typed)
            self.assertEqual(sheet.getCellRangeByName("E11").String, typed)

    def test_every_right_answer_is_right_in_the_sheet(self):
        self.hand_out("Asha")
        book = self.answered("Asha", {place: [text] for place, text in self.right_answers("Asha").items()})
        self.addCleanup(book.close)
        count = 0
        for name in SHEETS:
            sheet = book.sheet(name)
            for row in rows(sheet):
                self.assertEqual([sheet.getCellRangeByName(f"{column}{row}").String for column in "GI"], ["right", "1"], (name, row))
                count += 1
            points, of = re.fullmatch(r"Points: (\d+) / (\d+)", sheet.getCellRangeByName("B5").String).groups()
            self.assertEqual(points, of)
        self.assertGreaterEqual(count, 30)
        self.assertEqual(book.error_cells(), [])

    def test_own_exercises_and_chosen_lessons(self):
        sheet = self.book.sheet("Exercises")
        row = next(row for row in range(2, 100) if not sheet.getCellRangeByName(f"B{row}").String)
        for offset, texts in enumerate((("Mango", "{a} kg of mango hold {m} % water. How many kg is that?", "WATERMASS", "{a} kg; {m} %",
                                         "a 20 to 90; m 75 to 86 step 0.5", 3.0, 4.0, "kg", "A share of it. | Multiply."),
                                        ("Mango", "What?", "NOSUCH", "", "", "", "", "", ""))):
            sheet.getCellRangeByName(f"A{row + offset}:I{row + offset}").setDataArray([texts])
        self.book.put("B8", "mango, Energy", "Class")
        said = self.hand_out("Asha")
        self.assertIn("with 6 exercises each", said)
        self.assertIn(f'row {row + 1}: function: there is no function "NOSUCH"', said)
        right = self.right_answers("Asha")
        book = self.answered("Asha", {("Mango", 8): [right["Mango", 8]]})
        self.assertEqual(book.document.Sheets.ElementNames, ("Energy", "Mango", "Workings"))
        self.assertEqual(book.cell("H8", "Mango").getString(), "4")
        book.close()
        collected, _ = self.collect()
        self.assertEqual(collected.cell("C2").getValue(), 4)

    def test_what_cannot_be_is_said(self):
        self.assertEqual(self.send("hand-out"), (False, "No folder was chosen."))
        self.assertEqual(self.send("hand-out", Folder=(self.folder / "none").as_uri())[0], False)
        self.names()
        self.assertEqual(self.send("hand-out", Folder=self.folder.as_uri()), (False, "There is no name in the list."))
        self.assertIn("no workbook", self.send("collect", Folder=self.folder.as_uri())[1])
        self.book = self.shown(ROOT / "example-sheets" / "sorption.fods")
        self.assertIn("no list of names", self.send("hand-out", Folder=self.folder.as_uri())[1])


class Collect(ClassTest):
    def row_of(self, book, name):
        header, *rows = book.sheet("Class").NamedRanges.getByName("DRYSHEET_CLASS").getReferredCells().getDataArray()
        return next(dict(zip(header, row)) for row in rows if row[header.index("File")] == f"{name}.ods")

    def test_marked_again_whatever_the_file_claims(self):
        self.hand_out("Asha", "Dorje", "Meera")
        right = {name: self.right_answers(name) for name in ("Asha", "Dorje", "Meera")}
        self.answered("Asha", {place: [text] for place, text in right["Asha"].items()}).close()
        # claims points that it has not, and the numbers of another name
        book = self.answered("Dorje", {("Balances", 11): ["12345", right["Dorje"]["Balances", 11]], ("Energy", 8): ["a lot"]})
        sheet = book.sheet("Balances")
        sheet.unprotect("")
        sheet.getCellRangeByName("H8:H16").setDataArray([[100.0]] * 9)
        sheet.getCellRangeByName("K4").String = "wrong"
        book.document.store()
        book.close()
        shutil.copy(self.folder / "Asha.ods", self.folder / "copied.ods")
        book = self.answered("copied", {})
        for name in SHEETS:
            book.sheet(name).unprotect("")
            book.cell("B4", name).setString("Meera")
        book.document.store()
        book.close()
        (self.folder / "broken.ods").write_bytes(b"PK\x03\x04 not really")
        shutil.copy(ROOT / "example-sheets" / "sorption.fods", self.folder / "holiday.fods")
        shutil.copy(LESSONS, self.folder / "the lecturer's.fods")
        before = {path: path.read_bytes() for path in self.folder.iterdir()}
        book, said = self.collect()
        self.assertEqual({path: path.read_bytes() for path in self.folder.iterdir()}, before)
        asha, dorje, copied = (self.row_of(book, name) for name in ("Asha", "Dorje", "copied"))
        self.assertEqual(asha["Points"], asha["Of"])
        self.assertEqual(asha["Note"], "")
        self.assertEqual({text for column, text in asha.items() if re.search(r"\d$", column)}, {"right"})
        self.assertEqual(dorje["Points"], 1)
        self.assertEqual(dorje["Balances 4"], "right at try 2")
        self.assertIn('"a lot" could not be read', dorje["Note"])
        self.assertEqual(copied["Name"], "Meera")
        self.assertIn("the seal is not that of this name", copied["Note"])
        self.assertIn("Asha.ods", copied["Same as"])
        self.assertLess(copied["Points"], copied["Of"] / 4)
        self.assertIn("could not be opened", self.row_of(book, "broken")["Note"])
        self.assertEqual(self.row_of(book, "Meera")["Points"], 0)
        table = [list(line) for line in book.sheet("Class").NamedRanges.getByName("DRYSHEET_CLASS").getReferredCells().getDataArray()]
        self.assertEqual([line[1] for line in table[1:]], ["Asha.ods", "Dorje.ods", "Meera.ods", "broken.ods", "copied.ods", "holiday.fods"])
        self.assertEqual(table[-1][-1], "it holds no lesson")
        written = self.folder.parent / f"{self.folder.name} class.csv"
        self.addCleanup(written.unlink)
        with open(written, newline="", encoding="utf-8") as file:
            lines = list(csv.reader(file))
        self.assertEqual([[float(cell) if row and i in (2, 3) else cell for i, cell in enumerate(line)] for row, line in enumerate(lines)], table)
        self.assertIn(written.name, said)
        files = [row[1] for row in book.sheet("Points").getCellRangeByName("A2:C11").getDataArray()]
        self.assertEqual((sum(files), files[9]), (6, 1))
        self.assertEqual(book.sheet("Exercises").getCellRangeByName("B2:C2").getDataArray()[0][0], 1)

    def test_thirty_in_twenty_seconds(self):
        names = [f"Student {number}" for number in range(30)]
        start = time.monotonic()
        self.assertIn("Workbooks written: 30 of 30", self.hand_out(*names))
        handed_out = time.monotonic() - start
        start = time.monotonic()
        book, _ = self.collect()
        collected = time.monotonic() - start
        (self.folder.parent / f"{self.folder.name} class.csv").unlink()
        print(f"30 workbooks handed out in {handed_out:.1f} s, collected in {collected:.1f} s")
        self.assertEqual(book.sheet("Class").NamedRanges.getByName("DRYSHEET_CLASS").getReferredCells().Rows.Count, 31)
        self.assertLess(handed_out, 20)
        self.assertLess(collected, 20)


class WithAComma(ClassTest):
    locale = "de-DE"

    def test_answers_with_a_comma(self):
        self.hand_out("Asha")
        right = {place: text.replace(".", ",") for place, text in self.right_answers("Asha").items()}
        book = self.answered("Asha", {place: [text] for place, text in right.items()})
        for name in SHEETS:
            for row in rows(book.sheet(name)):
                self.assertEqual(book.cell(f"G{row}", name).getString(), "right", (name, row))
        self.assertRegex(book.cell("B8", "Balances").getString(), r"\d,\d")
        book.close()
        collected, _ = self.collect()
        self.addCleanup((self.folder.parent / f"{self.folder.name} class.csv").unlink)
        self.assertEqual(collected.cell("C2").getValue(), collected.cell("D2").getValue())


class InGerman(ClassTest):
    locale, language = "de-DE", "de"

    def test_a_mark_is_shaded_by_what_it_says(self):
        self.hand_out("Asha")
        right = self.right_answers("Asha")["Bilanzen", FIRST]
        for factor, said, style in ((1, "richtig", "Mark right"), (1.02, "nahe: ", "Mark near"), (7.7, "falsch", "Mark wrong")):
            answer = f"{factor * float(right):.6g}".replace(".", ",")
            book = self.answered("Asha", {("Bilanzen", FIRST): [answer]})
            sheet = book.sheet("Bilanzen")
            self.assertTrue(book.cell(f"G{FIRST}", "Bilanzen").getString().startswith(said), answer)
            sheet.unprotect("")
            rules = sheet.ConditionalFormats.getConditionalFormats()[0]
            rules = [rules.getByIndex(index) for index in range(rules.getCount())]
            applied = next(rule.StyleName for rule in rules if book.show("=" + rule.Formula1, f"P{FIRST}", "Bilanzen").value)
            self.assertEqual(applied, style)
            book.close()

    def test_the_lessons_of_the_menu_are_german_and_collected(self):
        with recalculate.opened(self.office, pathlib.Path("lessons")) as self.book:
            self.assertEqual(self.book.document.Sheets.ElementNames[:4], ("Klasse", "Aufgaben", "Bilanzen", "Feuchte Luft"))
            self.hand_out("Asha")
            right = self.right_answers("Asha")
            book = self.answered("Asha", {place: [text.replace(".", ",")] for place, text in right.items()})
            self.assertRegex(book.cell(f"B{FIRST}", "Bilanzen").getString(), r"Ingwer enthält \d\d,\d % Wasser")
            for sheet in book.document.Sheets.ElementNames[:-1]:
                for row in rows(book.sheet(sheet)):
                    self.assertEqual(book.cell(f"G{row}", sheet).getString(), "richtig", (sheet, row))
            book.close()
            collected, _ = self.collect()
            self.addCleanup((self.folder.parent / f"{self.folder.name} class.csv").unlink)
            self.assertEqual(collected.cell("C2").getValue(), collected.cell("D2").getValue())
            self.assertIn("Bilanzen 1", collected.sheet("Klasse").getCellRangeByName("A1:Z1").getDataArray()[0])


if __name__ == "__main__":
    unittest.main()
