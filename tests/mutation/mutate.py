#!/usr/bin/python3
# SPDX-License-Identifier: MPL-2.0
"""Which changes to the sources does no test notice?

    tests/mutation/mutate.py --count 100 --seed 1                    # drawn over core and add-in
    tests/mutation/mutate.py --count 20 --only core/drysheet/powder  # over the files whose path holds that
    tests/mutation/mutate.py --again                                 # those in --out that nobody noticed

Makes one change at a time (a sign, a constant, a bound, a condition, swapped arguments, a term or a statement dropped)
in a copy of the sources under --build, builds what that change touches, and runs every test that needs no office, and
the comparison of the committed interface and function reference. The working tree is never touched. A change that does
not compile is drawn again. A change is drawn by file first, so that large files do not crowd out small ones.

What nobody noticed is written to --out, with a line for the reason. A reason written there by hand is kept by the next
run as long as the change is the same; one that begins with "equivalent" says that no input can tell the difference.
"""
import argparse
import collections
import filecmp
import json
import os
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys
import time

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
COPIED = ("core", "addin", "idl", "tests", "cmake", "example-sheets", "CMakeLists.txt")
# An index out of its range, which the gate's sanitizers notice, ends the program here.
OPTIONS = ("-DCMAKE_BUILD_TYPE=Release", "-DCMAKE_CXX_FLAGS=-D_GLIBCXX_ASSERTIONS", "-DDRYSHEET_WERROR=ON",
           "-DDRYSHEET_OFFICE=OFF", "-DDRYSHEET_JOINED=ON",
           *(("-DCMAKE_CXX_COMPILER_LAUNCHER=ccache",) if shutil.which("ccache") else ()))
CHANGED = ("core/drysheet/**/*.cpp", "core/drysheet/**/*.hpp", "addin/text/*.cpp", "addin/functions/*.cpp", "addin/call/*.cpp",
           "addin/workbook/*.cpp", "addin/lesson/*.cpp")
DEAREST = 12  # headers that more objects than this include are left out: they would be a build of all
UNARGUED = "not argued yet"

SIMPLE = r"[A-Za-z_][\w.]*(?:\(\))?"
RULES = [  # name, pattern, replacements to choose from (a string, or a function of the match)
    ("bound", r" (<=|>=|<|>) ", {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}),
    ("condition", r" (==|!=|&&|\|\|) ", {"==": "!=", "!=": "==", "&&": "||", "||": "&&"}),
    ("condition", r"(?<=[(\s])!(?=[(A-Za-z_])", lambda m: ""),
    ("sign", r"(?<=[\w)\]]) ([-+]) (?=[\w(])", {"+": "-", "-": "+"}),
    ("sign", r"(?<=[=(,] )-(?=[\w(])|(?<=return )-(?=[\w(])", lambda m: ""),
    ("factor", r" ([*/]) (?=[\w(])", {"*": "/", "/": "*"}),
    ("step", r" (\+=|-=|\*=|/=) ", {"+=": "-=", "-=": "+=", "*=": "/=", "/=": "*="}),
    ("constant", r"(?<![\w.\"'#])\d+(?:\.\d+)?(?:e[-+]?\d+)?(?![\w.\"'])", lambda m: other_number(m.group(0))),
    ("swapped", rf"(?<=\w\()({SIMPLE}), ({SIMPLE})(?=[,)])", lambda m: f"{m.group(2)}, {m.group(1)}"),
    ("dropped term", rf" [-+] (?:{SIMPLE}|\d[\d.]*)(?: \* (?:{SIMPLE}|\d[\d.]*))*(?=[;)])", lambda m: ""),
    ("dropped factor", rf"(?<=[\w)]) [*/] {SIMPLE}(?=[;)])", lambda m: ""),
    ("dropped statement", r"^ +[\w.\[\]>-]+ (?:\+=|-=|=) [^;{]+;$", lambda m: ""),
    ("dropped statement", r"^ +(?:require|check|refuse)\w*\([^;{]+;$", lambda m: ""),
    ("least and most", r"\bstd::(max|min)\b", {"max": "min", "min": "max"}),
    ("truth", r"\breturn (true|false);", {"true": "false", "false": "true"}),
]

MEMBER = r" +(?:double|int|bool|unsigned|std::\w+|[A-Z]\w+) \w+ = [^(]*;"

Change = collections.namedtuple("Change", "path line kind before after")


def other_number(text):
    """Zero becomes 1, a whole number its next, another number is 2 % more."""
    if re.fullmatch(r"\d+", text):
        return str(int(text) + 1)
    return repr(float(text) * 1.02) if float(text) else "1.0"


def code_lines(text, header):
    """(number, line) of the lines that may change: no comments, strings, directives, types, nor what a struct's member
    holds before it gets its value; nor the entries' checks and refusals, whose change a test notices by itself; nor
    where a model's search starts, as every start that leads there gives the same."""
    depth, waiting = 0, False  # inside .checks = {...}, .refusals = {...} or Starts starts(...) {...}; before its brace
    for number, line in enumerate(text.splitlines(), 1):
        bare = re.sub(r'R?"(?:\\.|[^"\\])*"', lambda m: '"' * len(m.group(0)), line)
        begins = re.search(r"\.(?:checks|refusals)\s*=|\bStarts starts\(.*\) (?=\{)", bare)
        if begins or waiting or depth:
            inside = bare[begins.end():] if begins else bare
            depth += inside.count("{") - inside.count("}")
            waiting = "{" not in inside and not depth
            depth = max(depth, 0)
            continue
        code = bare.split("//")[0]
        if header and re.match(MEMBER, code):
            continue
        if code.strip() and not re.match(r"\s*(#|template|using |namespace|enum|static_assert|struct |class )", code):
            yield number, line, code


def changes_of(path, text):
    found = []
    for number, line, code in code_lines(text, path.endswith(".hpp")):
        for kind, pattern, replacement in RULES:
            for match in re.finditer(pattern, code):
                if '"' in match.group(0):
                    continue
                if callable(replacement):
                    new = replacement(match)
                    after = line[:match.start()] + new + line[match.end():]
                else:
                    begin, end = match.span(1)
                    after = line[:begin] + replacement[match.group(1)] + line[end:]
                if after != line:
                    found.append(Change(path, number, kind, line, after))
    return found


def run(command, **more):
    return subprocess.run(command, capture_output=True, text=True, preexec_fn=bounded, **more)


def bounded():
    """A loop without end must not take the machine's memory, nor anybody's time."""
    resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
    os.nice(max(0, 10 - os.nice(0)))


class Tree:
    """The copy of the sources and its build."""

    def __init__(self, place):
        self.source, self.build = place, place / "build"
        for part in COPIED:
            self.copy(ROOT / part, self.source / part)
        made = run(["cmake", "-S", self.source, "-B", self.build, "-G", "Ninja", *OPTIONS])
        if made.returncode:
            sys.exit(made.stdout + made.stderr)

    def copy(self, old, new):
        """Only what differs, so that nothing is built twice; what is gone goes."""
        if old.is_file():
            if not new.exists() or not filecmp.cmp(old, new, shallow=False):
                shutil.copy(old, new)
            return
        new.mkdir(parents=True, exist_ok=True)
        names = {path.name for path in old.iterdir()}
        for path in new.iterdir():
            if path.name not in names:
                shutil.rmtree(path) if path.is_dir() else path.unlink()
        for name in names:
            self.copy(old / name, new / name)

    def make(self):
        """Whether it compiles."""
        return run(["ninja", "-C", self.build, "-j1", "all_tests", "drysheet_catalogue"]).returncode == 0

    def test(self, timeout, *options):
        """What fails first, or None."""
        try:
            tests = run([self.build / "tests" / "all_tests", "--gtest_fail_fast", "--gtest_brief=1", *options], timeout=timeout)
        except subprocess.TimeoutExpired:
            return "no end"
        failed = re.search(r"\[  FAILED  \] ([\w./]+)", tests.stdout)
        return (failed.group(1) if failed else "a crash") if tests.returncode else None

    def measure(self):
        """Runs all tests; those that take more than a twentieth of the time come last from now on."""
        times = self.build / "times.json"
        failed = self.test(3600, f"--gtest_output=json:{times}")
        suites = json.loads(times.read_text())["testsuites"]
        took = {f"{suite['name']}.{test['name']}": float(test["time"][:-1]) for suite in suites for test in suite["testsuite"]}
        self.slow = ":".join(name for name, seconds in took.items() if seconds > sum(took.values()) / 20)
        return failed, sum(took.values())

    def notices(self, timeout):
        """What noticed: a test's name, the name of a comparison, or None."""
        for choice in filter(None, (f"-{self.slow}" if self.slow else "*", self.slow)):
            if failed := self.test(timeout, f"--gtest_filter={choice}"):
                return failed
        for what, file in (("idl", "idl/XSheetFunctions.idl"), ("reference", "addin/FUNCTIONS.md")):
            if run([self.build / "addin" / "drysheet_catalogue", what]).stdout != (self.source / file).read_text():
                return f"Written.{what}"
        return None

    def dear_headers(self):
        """Headers that more than DEAREST objects include."""
        count = collections.Counter()
        for line in run(["ninja", "-C", self.build, "-t", "deps"]).stdout.splitlines():
            if line.endswith(".hpp"):
                count[line.strip()] += 1
        return {(self.build / name).resolve() for name, n in count.items() if n > DEAREST}


def recorded(path):
    """The changes in a report and the reasons written by hand there."""
    if not path.exists():
        return {}
    parts = re.findall(r"^## (\S+?):(\d+) \((.*?)\)\n```diff\n-(.*?)\n\+(.*?)\n```\n\n(.*?)\n(?=\n##|\Z)", path.read_text(),
                       re.S | re.M)
    return {Change(name, int(line), kind, before, after): reason for name, line, kind, before, after, reason in parts}


def report(path, survivors, known, counts, seed, minutes):
    argued = {c: known.get(c._replace(line=0), UNARGUED) for c in survivors}
    equivalent = sum(reason.lower().startswith("equivalent") for reason in argued.values())
    tried = counts["noticed"] + len(survivors)
    lines = [
        "# Changes that no test noticed", "",
        f"Seed {seed}: {tried} changes, {counts['noticed']} noticed ({counts['written']} of them only by the committed "
        f"interface or reference text), {len(survivors)} not, of which {equivalent} are argued to be equivalent: "
        f"{100 * counts['noticed'] / max(1, tried - equivalent):.0f} % of those that could be noticed. {minutes:.0f} minutes.", ""]
    for change, reason in argued.items():
        lines += [f"## {change.path}:{change.line} ({change.kind})", "```diff", f"-{change.before}", f"+{change.after}", "```",
                  "", reason, ""]
    path.write_text("\n".join(lines), encoding="utf-8")


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--count", type=int, default=100)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--only", default="", help="only files whose path holds this")
    options.add_argument("--again", action="store_true", help="only what --out says nobody noticed")
    options.add_argument("--build", type=pathlib.Path, default=ROOT / "build-mutation")
    options.add_argument("--out", type=pathlib.Path, default=HERE / "survivors.md")
    given = options.parse_args()

    tree = Tree(given.build.resolve())
    if not tree.make():
        sys.exit("the sources do not build as they are")
    failed, seconds = tree.measure()
    if failed or (failed := tree.notices(3600)):
        sys.exit(f"{failed} fails without any change")
    timeout = 60 + 10 * seconds

    dear = tree.dear_headers()
    pool = {}
    for pattern in CHANGED:
        for path in sorted(tree.source.glob(pattern)):
            name = str(path.relative_to(tree.source))
            if path not in dear and given.only in name and (found := changes_of(name, path.read_text())):
                pool[name] = found
    known = {change._replace(line=0): reason for change, reason in recorded(given.out).items()}
    if given.again:
        pool = {name: kept for name, found in pool.items() if (kept := [c for c in found if c._replace(line=0) in known])}
    print(f"{sum(map(len, pool.values()))} changes possible in {len(pool)} files", flush=True)

    draw, counts, survivors = random.Random(given.seed), collections.Counter(), []
    start = time.monotonic()
    while counts["noticed"] + len(survivors) < given.count and any(pool.values()):
        name = draw.choice(sorted(name for name in pool if pool[name]))
        change = pool[name].pop(draw.randrange(len(pool[name])))
        path = tree.source / name
        text = path.read_text()
        lines = text.split("\n")
        lines[change.line - 1] = change.after
        path.write_text("\n".join(lines))
        try:
            noticed = tree.notices(timeout) if tree.make() else "the compiler"
        finally:
            path.write_text(text)
        if noticed is None:
            survivors.append(change)
        elif noticed != "the compiler":
            counts["noticed"] += 1
            counts["written"] += noticed.startswith("Written")
        print(f"{name}:{change.line} {change.kind}: {noticed or 'NOT NOTICED'}", flush=True)
        if noticed is None:
            print(f"  -{change.before}\n  +{change.after}", flush=True)
            report(given.out, survivors, known, counts, given.seed, (time.monotonic() - start) / 60)
    report(given.out, survivors, known, counts, given.seed, (time.monotonic() - start) / 60)


if __name__ == "__main__":
    main()
