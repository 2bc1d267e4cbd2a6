# SPDX-License-Identifier: MPL-2.0
"""A headless office for the sheet tests and for example-sheets/recalculate.py.

Every Office has a profile of its own in a temporary folder, so no setting of the user's is read or written, and
always ends the process it started. Run with the Python that has `uno` (Debian: python3-uno, /usr/bin/python3).
"""

import os
import pathlib
import shutil
import signal
import subprocess
import tempfile
import time
import zipfile
from dataclasses import dataclass
from xml.etree import ElementTree

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

VALUE_CELLS, TEXT_CELLS, ERROR_CELLS = 1, 2, 4  # com.sun.star.sheet.FormulaResult
BAD_ARGUMENT = 502  # what a refused argument shows
NO_SOLUTION = 523  # what a search without an answer shows
UNKNOWN_NAME = 525  # #NAME?

FILTERS = {".ods": "calc8", ".fods": "OpenDocument Spreadsheet Flat XML", ".xlsx": "Calc MS Excel 2007 XML",
           ".pdf": "calc_pdf_Export"}

SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{locale}</value></prop></item>
<item oor:path="/org.openoffice.Office.Common/Misc"><prop oor:name="FirstRun" oor:op="fuse"><value>false</value></prop></item>
<item oor:path="/org.openoffice.Office.Common/Misc"><prop oor:name="ShowTipOfTheDay" oor:op="fuse"><value>false</value></prop></item>
<item oor:path="/org.openoffice.Setup/Product"><prop oor:name="ooSetupLastVersion" oor:op="fuse"><value>99.9</value></prop></item>
<item oor:path="/org.openoffice.Office.Recovery/AutoSave"><prop oor:name="Enabled" oor:op="fuse"><value>false</value></prop></item>
</oor:items>
"""


class OfficeError(RuntimeError):
    """The office did not start, or an add-in did not install."""


def properties(**values):
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())


def identifier(oxt):
    """The identifier an .oxt gives itself in its description.xml."""
    with zipfile.ZipFile(oxt) as package:
        root = ElementTree.fromstring(package.read("description.xml"))
    return next(node.get("value") for node in root.iter() if node.tag.endswith("}identifier"))


@dataclass
class Result:
    """What a cell shows."""

    kind: str  # "value", "text" or "error"
    value: float
    text: str
    error: int

    @classmethod
    def of(cls, cell):
        error = cell.getError()
        if error:
            return cls("error", float("nan"), cell.getString(), error)
        is_text = cell.FormulaResultType2 == TEXT_CELLS if cell.getFormula().startswith("=") else cell.Type.value == "TEXT"
        return cls("text" if is_text else "value", cell.getValue(), cell.getString(), 0)


class Book:
    """An open workbook."""

    def __init__(self, document):
        self.document = document

    def sheet(self, which=0):
        sheets = self.document.Sheets
        return sheets.getByIndex(which) if isinstance(which, int) else sheets.getByName(which)

    def cell(self, address, which=0):
        return self.sheet(which).getCellRangeByName(address)

    def put(self, address, content, which=0):
        """A number, a formula (text starting with '='), a text as a text, or None for a blank."""
        cell = self.cell(address, which)
        if content is None:
            cell.setFormula("")
        elif isinstance(content, str):
            if content.startswith("="):
                cell.setFormula(content)
            else:
                cell.setString(content)
        else:
            cell.setValue(content)
        return cell

    def show(self, formula, address="A1", which=0):
        """The formula's result in that cell."""
        return Result.of(self.put(address, formula, which))

    def recalculate(self):
        self.document.calculateAll()

    def named(self, name):
        """The cell range a named range means, or None."""
        ranges = self.document.NamedRanges
        return ranges.getByName(name).getReferredCells() if ranges.hasByName(name) else None

    def formulas(self):
        """{(sheet, address): (formula, result)} of every formula cell. Whole areas at once: a call for each cell is slow."""
        found = {}
        for sheet in self.document.Sheets:
            for area in sheet.queryFormulaCells(VALUE_CELLS | TEXT_CELLS):
                start = area.RangeAddress
                for row, line in enumerate(zip(area.getFormulaArray(), area.getDataArray())):
                    for column, (formula, value) in enumerate(zip(*line)):
                        is_text = isinstance(value, str)
                        found[sheet.Name, address_of(start.StartColumn + column, start.StartRow + row)] = (
                            formula, Result("text" if is_text else "value", 0 if is_text else value, str(value), 0))
            for area in sheet.queryFormulaCells(ERROR_CELLS):
                start = area.RangeAddress
                for row, line in enumerate(area.getFormulaArray()):
                    for column, formula in enumerate(line):
                        found[sheet.Name, address_of(start.StartColumn + column, start.StartRow + row)] = (
                            formula, Result.of(area.getCellByPosition(column, row)))
        return found

    def error_cells(self):
        """[(sheet, address, formula, shown)] of every cell that shows an error."""
        return [(sheet, address, formula, result.text)
                for (sheet, address), (formula, result) in self.formulas().items() if result.kind == "error"]

    def save(self, path):
        path = pathlib.Path(path)
        self.document.storeToURL(path.resolve().as_uri(), properties(FilterName=FILTERS[path.suffix], Overwrite=True))
        return path

    def close(self):
        self.document.close(True)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()


class Office:
    """with Office(addin=path_of_oxt) as office: ..."""

    def __init__(self, addin=None, locale="en-US", seconds=90):
        self.addin = addin
        self.locale = locale
        self.seconds = seconds
        self.process = None

    def __enter__(self):
        self.home = pathlib.Path(tempfile.mkdtemp(prefix="drysheet-office-"))
        try:
            self._start()
        except BaseException:
            self.__exit__()
            raise
        return self

    def __exit__(self, *_):
        if self.process and self.process.poll() is None:
            try:
                self.desktop.terminate()
                self.process.wait(10)
            except Exception:  # whatever it is, the office must go
                pass
        if self.process:
            try:  # the office and all it started are one process group
                os.killpg(self.process.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
            self.process.wait()
            self.log.close()
        shutil.rmtree(self.home, ignore_errors=True)

    def _start(self):
        profile = self.home / "profile"
        (profile / "user").mkdir(parents=True)
        (profile / "user" / "registrymodifications.xcu").write_text(SETTINGS.format(locale=self.locale))
        # The shared add-ins move too: root may install only those, and whatever this machine has must not be seen.
        self.where = [f"-env:UserInstallation={profile.as_uri()}",
                      f"-env:UNO_SHARED_PACKAGES={(self.home / 'shared').as_uri()}"]
        if self.addin:
            self._install()
        pipe = f"{self.home.name}-{os.getpid()}"
        self.log = open(self.home / "log", "w+")
        self.process = subprocess.Popen(
            ["soffice", *self.where, "--headless", "--norestore", "--nologo", "--nodefault", "--nofirststartwizard",
             f"--accept=pipe,name={pipe};urp;"],
            stdout=self.log, stderr=self.log, stdin=subprocess.DEVNULL, start_new_session=True)
        self._connect(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")

    def _install(self):
        """unopkg exits 0 even when nothing registered, so ask it what it has."""
        def unopkg(*words):
            done = subprocess.run(["unopkg", *words, "--shared", *self.where], stdout=subprocess.PIPE,
                                  stderr=subprocess.STDOUT, text=True, timeout=self.seconds)
            return done.stdout

        said = unopkg("add", "-f", str(self.addin))
        listed = unopkg("list")
        if f"Identifier: {identifier(self.addin)}" not in listed or "is registered: no" in listed:
            raise OfficeError(f"{self.addin} did not install:\n{said}{listed}")

    def _connect(self, url):
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
        end = time.monotonic() + self.seconds
        while True:
            try:
                self.context = resolver.resolve(url)
                break
            except NoConnectException:
                if self.process.poll() is not None or time.monotonic() > end:
                    self.log.seek(0)
                    raise OfficeError(f"no answer from the office:\n{self.log.read()}") from None
                time.sleep(0.1)
        self.desktop = self.service("com.sun.star.frame.Desktop")

    def service(self, name):
        return self.context.ServiceManager.createInstanceWithContext(name, self.context)

    def new(self, **more):
        return Book(self.desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0,
                                                     properties(Hidden=True, **more)))

    def open(self, path):
        """Read-only, so that a workbook that someone has open can be opened here too; it can be
        recalculated and saved elsewhere all the same."""
        return self._load(path, ReadOnly=True)

    def copy(self, path):
        """A copy without a name, as a template gives it: in a read-only workbook no cell can be made blank."""
        return self._load(path, AsTemplate=True)

    def _load(self, path, **how):
        document = self.desktop.loadComponentFromURL(pathlib.Path(path).resolve().as_uri(), "_blank", 0,
                                                     properties(Hidden=True, **how))
        if document is None:
            raise OfficeError(f"cannot open {path}")
        return Book(document)

    def descriptions(self, prefix="DRY."):
        """{function name: {"Description": ..., "Arguments": (...), ...}} as the Function Wizard has it."""
        functions = self.service("com.sun.star.sheet.FunctionDescriptions")
        found = {}
        for index in range(functions.getCount()):
            entry = {item.Name: item.Value for item in functions.getByIndex(index)}
            if entry["Name"].startswith(prefix):
                found[entry["Name"]] = entry
        return found


def address_of(column, row):
    letters = ""
    column += 1
    while column:
        column, digit = divmod(column - 1, 26)
        letters = chr(65 + digit) + letters
    return f"{letters}{row + 1}"
