# SPDX-License-Identifier: MPL-2.0
"""The .oxt itself: what is in it, and how it installs, updates and refuses."""

import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest
import zipfile

from harness import OXT, ROOT
from office import Office


class Package(unittest.TestCase):
    def setUp(self):
        self.home = pathlib.Path(tempfile.mkdtemp(prefix="drysheet-package-"))
        self.addCleanup(shutil.rmtree, self.home, ignore_errors=True)

    def unopkg(self, *words):
        done = subprocess.run(
            ["unopkg", *words, "--shared", f"-env:UserInstallation={(self.home / 'profile').as_uri()}",
             f"-env:UNO_SHARED_PACKAGES={(self.home / 'shared').as_uri()}"],
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, timeout=120)
        return done.returncode, done.stdout

    def listed(self):
        """[version] of every installed Drysheet."""
        said = self.unopkg("list")[1]
        return re.findall(r"Identifier: org\.drysheet\.addin\s+Version: (\S+)", said)

    def changed(self, name, **replaced):
        """A copy of the .oxt whose description says something else."""
        path = self.home / name
        with zipfile.ZipFile(OXT) as old, zipfile.ZipFile(path, "w") as new:
            for item in old.namelist():
                content = old.read(item)
                if item == "description.xml":
                    text = content.decode()
                    for what, value in replaced.items():
                        text, count = re.subn(rf'(<(?:\w+:)?{what.replace("_", "-")} value=")[^"]*', rf"\g<1>{value}", text)
                        self.assertEqual(count, 1, what)
                    content = text.encode()
                new.writestr(item, content)
        return path

    def test_a_newer_one_replaces_an_older_one(self):
        self.assertEqual(self.unopkg("add", str(self.changed("old.oxt", version="0.0.1")))[0], 0)
        self.assertEqual(self.listed(), ["0.0.1"])
        code, said = self.unopkg("add", "-f", OXT)
        self.assertEqual(code, 0, said)
        with zipfile.ZipFile(OXT) as package:
            version = re.search(r'<version value="([^"]+)"', package.read("description.xml").decode())[1]
        self.assertEqual(self.listed(), [version])

    def test_a_damaged_file_is_refused(self):
        whole = pathlib.Path(OXT).read_bytes()
        for name, content in (("cut.oxt", whole[:len(whole) // 2]), ("noise.oxt", b"no zip" * 999)):
            with self.subTest(name):
                path = self.home / name
                path.write_bytes(content)
                code, said = self.unopkg("add", str(path))
                self.assertNotEqual(code, 0)
                self.assertIn("ERROR", said)
                self.assertEqual(self.listed(), [])

    def test_an_older_office_refuses(self):
        code, said = self.unopkg("add", str(self.changed("new.oxt", LibreOffice_minimal_version="99.1")))
        self.assertNotEqual(code, 0)
        self.assertIn("unsatisfied dependencies", said)
        self.assertEqual(self.listed(), [])

    def test_another_systems_library_lies_beside_this_ones(self):
        staged, both = self.home / "staged", self.home / "both.oxt"
        with zipfile.ZipFile(OXT) as package:
            package.extractall(staged)
            packed = [name for name in package.namelist() if "/drysheet." not in name]
            libraries = [name for name in package.namelist() if "/drysheet.uno." in name] + ["windows_x86/drysheet.uno.dll"]
        (staged / "windows_x86").mkdir()
        (staged / "windows_x86" / "drysheet.uno.dll").write_bytes(b"no library")
        subprocess.run(["cmake", f"-DSTAGED={staged}", f"-DPACKED={';'.join(packed)}", f"-DLIBRARIES={';'.join(libraries)}",
                        "-DVERSION=9.9", f"-DOXT={both}", "-P", ROOT / "cmake" / "pack.cmake"], check=True)
        with zipfile.ZipFile(both) as package, zipfile.ZipFile(OXT) as alone:
            self.assertEqual(set(package.namelist()) - set(alone.namelist()),
                             {"windows_x86/drysheet.uno.dll", "windows_x86/drysheet.components"})
            self.assertIn('environment="mscx" uri="drysheet.uno.dll"', package.read("windows_x86/drysheet.components").decode())
        with Office(addin=both) as office:
            self.assertAlmostEqual(office.new().show("=DRY.DRIEDMASS(100;0.8;0.2)").value, 25)  # 100 × 0.2 ÷ 0.8
        others = self.changed("others.oxt", platform="windows_x86")
        self.assertIn("does not work on this computer", self.unopkg("add", str(others))[1])
        self.assertEqual(self.listed(), [])

    def test_what_is_packed(self):
        with zipfile.ZipFile(OXT) as package:
            names = set(package.namelist())
            for path in (ROOT / "example-sheets").glob("*.fods"):
                self.assertIn(f"examples/{path.name}", names)
            self.assertEqual(package.read("LICENSE"), (ROOT / "LICENSE").read_bytes())
            description = package.read("description.xml").decode()
            for wanted in re.findall(r'xlink:href="([^"]+)"', description):
                self.assertIn(wanted, names)
            for manifest in re.findall(r'full-path="([^"]+)"', package.read("META-INF/manifest.xml").decode()):
                self.assertIn(manifest, names)
            version = re.search(r'<version value="([^"]+)"', description)[1]
            self.assertIn(f"## {version}", package.read("CHANGELOG.md").decode())
            page = package.read("help/functions.html").decode()
            targets = set(re.findall(r'id="([^"]+)"', page))
            self.assertGreater(len(targets), 20)
            self.assertEqual(set(re.findall(r'href="#([^"]+)"', page)) - targets, set())


if __name__ == "__main__":
    unittest.main()
