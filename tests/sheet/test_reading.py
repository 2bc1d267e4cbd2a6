# SPDX-License-Identifier: MPL-2.0
"""How an argument is read, row by row of the interface's table, where the office writes a point and where it writes a
comma. By hand: DRY.DRIEDMASS(fresh; 0.8; 0.2) is a quarter of fresh; the drying rate of DRY.RATES is water over solids
and hours; DRY.UNACCOUNTED is what went in less what came out."""

import os
import re
import unittest
from unittest import mock

from harness import OXT, Placed, SheetTest, checks
from office import Office

POUND, OUNCE = 453.59237, 28.349523125  # g, NIST SP 811
NEED_A_UNIT = ("AIRNEEDED BARRIERFOR CONSTRATETIME DRYEREFFICIENCY ENERGYPERWATER FALLRATETIME HEATDEMAND RATES SCALEPLAN "
               "SHELFDAYS TRAYLOAD TRAYRUN TRAYSFOR UNITCOST").split()
A_MASS = re.compile(r"([\d.]+) k?g")


class Reading(SheetTest):
    comma = False

    def said(self, text):
        """A text as it is typed in this locale."""
        return text.replace(".", ",") if self.comma else text

    def put(self, **cells):
        for address, content in cells.items():
            self.book.put(address, self.said(content) if isinstance(content, str) and content[:1] != "=" else content)

    def fresh(self, content):
        self.put(B1=content)
        return "=DRY.DRIEDMASS(B1;0.8;0.2)"

    def start(self, content):
        self.put(B1=content)
        return "=DRY.DRIEDMASS(100;B1;0.2)"

    def hours(self, content):
        self.put(B1=content)
        return "=DRY.RUNENERGY(1;B1)"  # kWh at 1 kW

    def refused(self, formula, *words):
        """Refused, and the sentence says so in these words."""
        self.refuses(formula)
        function, arguments = re.fullmatch(r"=DRY\.([A-Z]+)\((.*)\)", formula).groups()
        sentence = self.book.show(f'=DRY.WHY("{function}";{arguments})', "A2").text
        for word in words:
            self.assertIn(self.said(word), sentence)

    def column(self, letter, *contents):
        for row, content in enumerate(contents, 1):
            self.put(**{f"{letter}{row}": content})

    def test_a_number_is_in_the_default_unit(self):
        self.shows(self.fresh(100), 25)
        self.shows(self.start(0.8), 25)
        self.shows(self.hours(1.5), 1.5)

    def test_a_text_with_a_unit_is_converted_and_another_dimension_refused(self):
        for content, grams in (("412.5 g", 412.5), ("0.4125 kg", 412.5), ("1.2 lb", 1.2 * POUND)):
            with self.subTest(content):
                self.shows(self.fresh(content), grams / 4)
        self.shows(self.hours("90 min"), 1.5)
        self.put(B1="140 °F", C1="140 degF", D1="6 mm")
        self.shows('=DRY.IN(B1;"°C")', 60)
        self.shows('=DRY.IN(C1;"°C")', 60)
        self.shows('=DRY.IN(D1;"cm")', 0.6)
        self.refused(self.fresh("60 min"), "fresh", "60 min")
        self.refused(self.hours("60 g"), "time", "60 g")

    def test_an_uncertainty_counts_only_for_itself(self):
        for content in ("412.5 ± 0.1 g", "412.5 +/- 0.1 g"):
            with self.subTest(content):
                self.shows(self.fresh(content), 412.5 / 4)
        self.put(B1="412.5 ± 0.1 g")
        self.shows('=DRY.PICK(DRY.UNCERTAINTY("DRIEDMASS";B1;0.8;0.2);"u")', 0.025, 1e-6)

    def test_a_plain_numeric_text(self):
        self.shows(self.start("0.8"), 25)
        self.shows(self.fresh("412.5"), 412.5 / 4)

    def test_parts_of_one_quantity(self):
        self.shows(self.fresh("2 lb 3 oz"), (2 * POUND + 3 * OUNCE) / 4)
        self.shows(self.fresh("1 kg 250 g"), 1250 / 4)
        self.shows(self.hours("10 h 30 min"), 10.5)
        self.refused(self.fresh("3 oz 2 lb"), "fresh")
        self.refused(self.fresh("1 kg 5 min"), "fresh")

    def test_a_clock_text(self):
        self.shows(self.hours("10:30"), 10.5)
        self.shows(self.hours("7:05:30"), 7 + 5 / 60 + 30 / 3600)
        # 23:00, 1:00 and 3:00 are two hours apart each: 100 g of water over 100 g of solids, 0.5 kg/kg/h
        self.column("B", "23:00", "1:00", "3:00")
        self.column("C", 500, 400, 300)
        self.shows("=INDEX(DRY.RATES(B1:B3;C1:C3;100);2)", 0.5, 1e-9)

    def test_a_second_unit_joined_on(self):
        for content, grams in (("8.1 kg kg", 8100), ("8100 g kg", 8100), ("2 lb 3 oz kg", 2 * POUND + 3 * OUNCE)):
            with self.subTest(content):
                self.shows(self.fresh(content), grams / 4)
        self.shows(self.hours("10:30 h"), 10.5)
        self.put(B1="8.1 kg", C1="kg")
        self.shows('=DRY.DRIEDMASS(B1&" "&C1;0.8;0.2)', 8100 / 4)
        self.put(B1=8.1)
        self.shows('=DRY.DRIEDMASS(B1&" "&C1;0.8;0.2)', 8100 / 4)
        self.refused(self.fresh("8.1 kg h"), "fresh")

    def test_unit_words_of_four_languages(self):
        for content in ("10.5 Stunden", "10.5 heures", "10.5 hours", "10.5 horas", "630 Minuten"):
            with self.subTest(content):
                self.shows(self.hours(content), 10.5)
        for content in ("412.5 gramos", "412.5 Gramm", "412.5 grammes", "412.5 grams", "412.5 GRAMS"):
            with self.subTest(content):
                self.shows(self.fresh(content), 412.5 / 4)
        self.put(B1="2 Liter")
        self.shows('=DRY.IN(B1;"mL")', 2000)
        for content, other in (("3 Pfund", "500 g"), ("3 livres", "500 g"), ("3 libras", "460 g")):
            with self.subTest(content):
                self.refused(self.fresh(content), other, "454 g")

    def test_spaces_between_thousands(self):
        for space in (" ", "\u00a0", "\u202f", "\u2009"):
            with self.subTest(repr(space)):
                self.shows(self.fresh(f"1{space}200 g"), 300)
                self.shows(self.fresh(f"12{space}345.5 g"), 12345.5 / 4)
                self.refused(self.fresh(f"1{space}20 g"), "fresh")

    def test_masses_are_all_plain_or_all_have_a_unit(self):
        self.shows("=DRY.UNACCOUNTED(8.1;7.866)", 8.1 - 7.866, 1e-9)
        self.column("B", "8.1 kg", "7866 g", 7.866, 0, None)
        self.shows("=DRY.UNACCOUNTED(B1;B2)", 234, 1e-9)
        self.refused("=DRY.UNACCOUNTED(B1;B3)", "7.866", "8.1 kg")
        self.shows("=DRY.UNACCOUNTED(B1;B2;B4;B5)", 234, 1e-9)  # 0 and blank go with either
        self.shows("=DRY.UNACCOUNTED(8.1;B3;B4;B5)", 0.234, 1e-9)

    def test_a_plain_mass_is_refused_where_the_result_would_differ(self):
        def plain(value):
            if isinstance(value, list):
                return [[plain(cell) for cell in row] for row in value]
            mass = A_MASS.fullmatch(value) if isinstance(value, str) else None
            return float(mass[1]) if mass else value

        seen = set()
        for check in checks():
            name, given = check["function"], [plain(value) for value in check["given"]]
            if check["kind"] == "refusal" or name not in NEED_A_UNIT or name in seen or given == check["given"]:
                continue
            seen.add(name)
            with self.subTest(name):
                placed = Placed(self.book)
                call, calm = placed.call(name, given), placed.call(name, check["given"])
                placed.write()
                self.assertEqual(self.book.show(f"={calm}").error, 0)
                if not self.comma:
                    self.refused(f"={call}", "kg")
                self.refuses(f"={call}")
        self.assertEqual(seen, set(NEED_A_UNIT))

    def test_times_of_day_and_dates_as_numbers_are_refused(self):
        self.column("C", 500, 450, 400)
        for times in ((0.375, 0.4375, 0.5), (45000.375, 45000.4375, 45000.5)):
            with self.subTest(times):
                self.column("B", *times)
                self.refused("=DRY.RATES(B1:B3;C1:C3;100)", "times", "24", "min")
                self.refuses('=DRY.RATES(B1:B3&" h";C1:C3;100)')
        self.column("B", 0, 0.0625, 0.125)  # elapsed from 0: cannot be told
        self.assertEqual(self.book.show("=DRY.RATES(B1:B3;C1:C3;100)").error, 0)

    def test_a_moisture_on_either_basis(self):
        for content in (0.8, "80 %", "80 % wb", "4 db", "400 % db", "4 kg/kg db"):
            with self.subTest(content):
                self.shows(self.start(content), 25)
        self.put(B1="80 % wb", C1="4 db")
        self.shows("=DRY.WETBASIS(B1)", 0.8)
        self.shows("=DRY.DRYBASIS(C1)", 4)
        self.refused(self.start(80), "start", "0.8")

    def test_zero_moisture(self):
        self.refused("=DRY.DRIEDMASS(100;0.8;0)", "final", "0 %")
        self.shows('=DRY.DRIEDMASS(100;0.8;"0 %")', 20)
        self.shows("=DRY.MOISTURERATIO(2;4;0)", 0.5)  # an equilibrium

    def test_a_blank_or_missing_argument_is_refused(self):
        self.refused(self.start(None), "start")
        self.refused(self.fresh(None), "fresh")
        self.refuses("=DRY.DRIEDMASS(;0.8;0.2)")
        self.refuses("=DRY.DRIEDMASS(100;0.8)")

    def test_one_cell_is_its_value_and_more_are_refused(self):
        self.column("B", "100 g", "100 g")
        self.shows("=DRY.DRIEDMASS(B1:B1;0.8;0.2)", 25)
        self.shows('=DRY.DRIEDMASS({"100 g"};0.8;0.2)', 25)
        self.refused("=DRY.DRIEDMASS(B1:B2;0.8;0.2)", "fresh")
        self.refuses('=DRY.DRIEDMASS({"100 g"|"100 g"};0.8;0.2)')
        self.shows("=DRY.UNACCOUNTED(200;100;50)", 50)

    def test_the_other_locales_decimal_sign_is_never_misread(self):
        self.book.put("B1", "412,5 g")
        if self.comma:
            self.shows("=DRY.DRIEDMASS(B1;0.8;0.2)", 412.5 / 4)
            self.book.put("B1", "1.200 g")  # 1200 g to most readers here
        self.refuses("=DRY.DRIEDMASS(B1;0.8;0.2)")

    def test_a_column_at_once(self):
        self.column("B", "2 lb 3 oz", "1 kg 250 g", "412.5 gramos")
        self.shows('=INDEX(DRY.EACH("DRIEDMASS";B1:B3;0.8;0.2);1)', (2 * POUND + 3 * OUNCE) / 4)
        self.shows('=INDEX(DRY.EACH("DRIEDMASS";B1:B3;0.8;0.2);2)', 1250 / 4)
        self.shows('=INDEX(DRY.EACH("DRIEDMASS";B1:B3;0.8;0.2);3)', 412.5 / 4)


class GermanReading(Reading):
    locale, comma = "de-DE", True


class FrenchReading(Reading):
    locale, comma = "fr-FR", True


class SpanishReading(Reading):
    locale, comma = "es-ES", True


class SystemsReading(unittest.TestCase):
    def test_without_a_setting_it_is_the_sign_that_a_cell_shows(self):
        signs = set()
        for system in ({"LC_ALL": "de_DE.UTF-8"}, {"LC_NUMERIC": "de_DE.UTF-8"}, {"LC_CTYPE": "de_DE.UTF-8"}):
            system = {"LC_ALL": "", "LANG": "en_US.UTF-8"} | system
            with self.subTest(system), mock.patch.dict(os.environ, system), Office(addin=OXT, locale="") as office:
                book = office.new()
                sign = book.put("B1", 0.5).String[1]
                signs.add(sign)
                for other in ",.":
                    book.put("B1", f"412{other}5 g")
                    self.assertEqual(book.show("=DRY.DRIEDMASS(B1;0.8;0.2)").kind, "value" if other in f"{sign}." else "error", other)
        self.assertEqual(signs, {",", "."})


if __name__ == "__main__":
    unittest.main()
