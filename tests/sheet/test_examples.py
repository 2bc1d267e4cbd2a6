# SPDX-License-Identifier: MPL-2.0
"""The example workbooks recalculate without an error cell, as example-sheets/run.sh does it; broken ones are found."""

import pathlib
import subprocess
import sys
import tempfile
import unittest

from harness import OXT, ROOT

EXAMPLES = [pathlib.Path("lab-notebook"), *sorted((ROOT / "example-sheets").glob("*.fods"))]

BROKEN = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="Sheet">
<table:table-row><table:table-cell table:formula="of:={formula}"/></table:table-row>
</table:table><table:named-expressions>
<table:named-range table:name="{name}" table:base-cell-address="$Sheet.$A$1" table:cell-range-address="$Sheet.$A$1:.$C$1"/>
</table:named-expressions></office:spreadsheet></office:body></office:document>
"""


class Examples(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def recalculate(self, *workbooks):
        return subprocess.run([sys.executable, "-B", ROOT / "example-sheets" / "recalculate.py", "--addin", OXT,
                               "--out", self.folder / "out", *workbooks], capture_output=True, text=True, timeout=280)

    def broken(self, formula, name):
        path = self.folder / "broken.fods"
        path.write_text(BROKEN.format(formula=formula, name=name))
        return self.recalculate(path)

    def test_examples(self):
        self.assertTrue(EXAMPLES)
        done = self.recalculate(*EXAMPLES)
        self.assertEqual(done.returncode, 0, done.stderr)
        for path in EXAMPLES:
            self.assertIn(path.name, done.stdout)
            self.assertGreater((self.folder / "out" / f"{path.stem}.pdf").stat().st_size, 10000)
        again = self.recalculate(*EXAMPLES)
        self.assertEqual(again.stdout.count("(up to date)"), len(EXAMPLES))

    def test_an_error_cell_fails(self):
        done = self.broken("DRY.DRIEDMASS(100;80;0.2)", "KEY_RESULTS")
        self.assertEqual(done.returncode, 1)
        self.assertIn("Sheet.A1 shows Err:502", done.stderr)

    def test_an_intended_error_that_is_none_fails(self):
        done = self.broken("1+1", "INTENDED_ERRORS")
        self.assertEqual(done.returncode, 1)
        self.assertIn("does not", done.stderr)

    def test_missing_key_results_fail(self):
        done = self.broken("1/0", "INTENDED_ERRORS")
        self.assertEqual(done.returncode, 1)
        self.assertIn("KEY_RESULTS", done.stderr)


if __name__ == "__main__":
    unittest.main()
