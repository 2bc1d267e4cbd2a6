# SPDX-License-Identifier: MPL-2.0
"""Offices in other languages and locales: what is said is theirs, the numbers are the same, the wizard's examples work
when typed."""

import pathlib
import re
import sys
import unittest
import zipfile
from xml.etree import ElementTree

from harness import OXT, ROOT, SheetTest
from office import address_of

sys.path.insert(0, str(ROOT / "example-sheets"))
import recalculate  # noqa: E402

EXAMPLES = [path for path in sorted((ROOT / "example-sheets").glob("*.fods")) if path.stem != "lessons"]

LANG = "{http://www.w3.org/XML/1998/namespace}lang"
NAME = "{http://openoffice.org/2001/registry}name"


def wizard_examples(language):
    """Function, and the example at the end of its description in that language."""
    with zipfile.ZipFile(OXT) as package:
        root = ElementTree.fromstring(package.read("CalcAddIns.xcu"))
    for function in next(node for node in root.iter("node") if node.get(NAME) == "AddInFunctions"):
        for prop in function.iter("prop"):
            if prop.get(NAME) != "Description":
                continue
            text = next((value.text for value in prop if value.get(LANG) == language), "")
            at = text.rfind("DRY." + function.get(NAME) + "(")
            if at >= 0:
                yield function.get(NAME), text[at:]
            break


class Typed:
    """Mixed in with a SheetTest: as a person types it, in the locale's own separators."""

    def test_every_example_of_the_wizard_works_when_typed(self):
        examples = list(wizard_examples(self.language))
        self.assertGreater(len(examples), 60)
        for function, call in examples:
            with self.subTest(function):
                cell = self.book.cell("A1")
                cell.FormulaLocal = "=" + call
                self.assertEqual(cell.getError(), 0, call)
                self.assertNotEqual(cell.String, "", call)


class Abroad(Typed):
    """Mixed in with a SheetTest: an office that has another language installed."""

    def names(self):
        """Texts that are English everywhere: rows of table arguments and models, units, and what the translator says."""
        reference = (ROOT / "addin" / "FUNCTIONS.md").read_text()
        lines = (ROOT / "addin" / "extension" / "texts" / f"{self.language}.tsv").read_text().splitlines()
        return ({row for row in re.findall(r"^  - ([a-z ]+):", reference, re.M)}
                | {"Page", "Oswin", "Halsey", "Henderson", "Peleg"}
                | {"day", "days", "fraction", "fraction wb", "money", "money/kg", "money/kWh", "money/h"}
                | {text for key, _, text in (line.partition("\t") for line in lines) if key.split(".")[-1] == text})

    def test_every_example_opens_in_the_language_with_the_same_numbers(self):
        names, line = self.names(), None
        for path in EXAMPLES:
            with self.subTest(path.stem), self.office.open(path) as english, \
                    recalculate.opened(self.office, pathlib.Path(path.stem)) as book:
                book.recalculate()
                english.recalculate()
                self.assertEqual(recalculate.faults(book), [])
                self.assertNotEqual(book.document.DocumentProperties.Title, english.document.DocumentProperties.Title)
                self.assertEqual(book.document.Sheets.Count, english.document.Sheets.Count)
                numbers = texts = 0
                for here, there in zip(book.document.Sheets, english.document.Sheets):
                    area = there.createCursor()
                    area.gotoEndOfUsedArea(True)
                    size = area.RangeAddress.EndColumn, area.RangeAddress.EndRow
                    both = [sheet.getCellRangeByPosition(0, 0, *size) for sheet in (here, there)]
                    cells = zip(*(sum(read(), ()) for cells in both for read in (cells.getDataArray, cells.getFormulaArray)))
                    for at, (value, formula, wanted, original) in enumerate(cells):
                        where = f"{here.Name}.{address_of(at % (size[0] + 1), at // (size[0] + 1))}"
                        self.assertEqual(type(value), type(wanted), where)
                        self.assertEqual(formula.startswith("="), original.startswith("="), where)
                        if isinstance(wanted, float):
                            self.assertEqual(value, wanted, where)
                            numbers += 1
                        elif re.search("[a-z]{3}", original) and not original.startswith("=") and original not in names:
                            self.assertNotEqual(formula, original, where)
                            texts += 1
                self.assertGreater(numbers, 100)
                self.assertGreater(texts, 50)
                line = book.sheet(book.document.Sheets.Count - 1).getCellRangeByName("A2").getString()
                self.assertRegex(line, r": 0$")
                self.assertNotIn("blank", line)

    def test_a_blank_form_says_in_the_language_what_is_missing(self):
        with recalculate.opened(self.office, pathlib.Path("sorption"), "form") as book:
            book.recalculate()
            self.assertRegex(book.cell("A4").getString(), rf"^{self.blank} 32\. ")


class English(Typed, SheetTest):
    language, locale = "en", "en-US"


class German(Abroad, SheetTest):
    language, locale, blank = "de", "de-DE", "Noch leere Eingaben:"

    def test_what_is_said_is_german_and_the_number_is_the_same(self):
        self.shows("=DRY.DRIEDMASS(100;0.8;0.2)", 25)
        for formula, said in {
                '=DRY.WHY("DRIEDMASS";100;80;0.2)':
                    "start: 80 liegt über 1: ein Anteil wird verlangt; 80 % sind 0,8.",
                '=DRY.WHY("DRIEDMASS";100;0.8;0.2)': "in Ordnung: 25 (wie gegeben)",
                "=DRY.MARK(25.6;25)": "nahe: 25,6 liegt um 2,4 % daneben",
                '=DRY.MARKCALL(24;"DRIEDMASS";100;0.8;0.2)': "die Endfeuchte wurde auf Trockenbasis genommen",
        }.items():
            self.assertEqual(self.book.show(formula).text, said)


class French(Abroad, SheetTest):
    language, locale, blank = "fr", "fr-FR", "Saisies encore vides :"


class Spanish(Abroad, SheetTest):
    language, locale, blank = "es", "es-ES", "Entradas aún vacías:"


if __name__ == "__main__":
    unittest.main()
