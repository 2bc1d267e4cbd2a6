# SPDX-License-Identifier: MPL-2.0
"""Offices in other languages and locales: what is said is theirs, the numbers are the same, the wizard's examples work
when typed."""

import unittest
import zipfile
from xml.etree import ElementTree

from harness import OXT, SheetTest
from office import properties

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


class English(Typed, SheetTest):
    language, locale = "en", "en-US"


class German(Typed, SheetTest):
    language, locale = "de", "de-DE"

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        # as an office with that language installed has it
        provider = cls.office.service("com.sun.star.configuration.ConfigurationProvider")
        settings = provider.createInstanceWithArguments(
            "com.sun.star.configuration.ConfigurationUpdateAccess", properties(nodepath="/org.openoffice.Setup/L10N"))
        settings.replaceByName("ooLocale", cls.language)
        settings.commitChanges()

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


class French(Typed, SheetTest):
    language, locale = "fr", "fr-FR"


if __name__ == "__main__":
    unittest.main()
