#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Checks what no compiler checks about the project's own files: layout.py ROOT.

Each rule prints PASS or FAIL and the run ends with a line of totals, as Qt Test prints them.
`layout.py --self-test` shows every rule a file that breaks it.
"""

import os
import re
import subprocess
import sys
from pathlib import Path

TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "app", "qml", "db", "tests", "assets"}
# Which layers a layer may name besides itself and the domain. The folder app/ itself (main.cpp)
# wires everything.
LOWER = {
    "appraisal", "planning", "storage", "evidence", "phone", "printing", "access", "outlines", "record", "backup", "log",
}
MAY_USE = {
    "domain": set(),
    "log": set(),
    "appraisal": set(),
    "planning": set(),
    "evidence": {"log"},
    "phone": set(),  # bytes come in and words go out; what a photo is, others know
    "printing": set(),  # bytes of a page go out; what stands on it, others know
    "access": {"log"},
    "outlines": set(),
    "storage": {"access", "evidence", "log"},  # keeps what both ask for through ports
    "record": {"evidence", "outlines"},  # prints photos and the car's drawing
    "backup": {"storage", "evidence", "log"},  # keeps both apart from the house
    "demo": {"evidence"},  # its pictures go the way of all photos
    "kiosk": LOWER,
    "desk": LOWER | {"kiosk"},
    "tour": LOWER | {"kiosk", "demo"},
    "cli": LOWER | {"kiosk", "desk", "demo"},
}
LAYERS = set(MAY_USE)
SOURCE = {".cpp", ".h", ".qml", ".js", ".mjs", ".py", ".sh", ".cmake", ".sql"}
CODE = {".cpp", ".h"}
LONGEST = 500
LONG = 400

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.MULTILINE)
LINKED = re.compile(r"\b(?:Ramplight::|ramplight_)(\w+)\b")
# A word that begins a path of somebody's machine.
MACHINE_PATH = re.compile(r"(?<![\w./$}-])/(?:work|home|root|Users|tmp/rl)/[\w.]")
# Statements, not prose: SQL is written in one case, a sentence begins with a capital.
SQL = re.compile(
    r"\s*(?:(?:SELECT|select)\s+(?:\*|[\w.\",()*\s]+?)\s+(?:FROM|from)\s+\w"
    r"|(?:INSERT|insert)\s+(?:OR\s+\w+\s+|or\s+\w+\s+)?(?:INTO|into)\s+\w"
    r"|(?:UPDATE|update)\s+\w+\s+(?:SET|set)\b"
    r"|(?:DELETE\s+FROM|delete\s+from)\s+\w"
    r"|(?:CREATE|create|DROP|drop|ALTER|alter)\s+(?:UNIQUE\s+|unique\s+|TEMP\s+|temp\s+)?"
    r"(?:TABLE|table|INDEX|index|TRIGGER|trigger|VIEW|view|ROLE|role)\s+\w"
    r"|(?:PRAGMA|pragma)\s+\w+|BEGIN\s+IMMEDIATE|begin\s+immediate)"
)
# A raw string, a string, a character, or a comment; group 2 and 3 hold what a string says.
TOKEN = re.compile(
    r'R"([^\s()\\]{0,16})\((.*?)\)\1"|"((?:[^"\\\n]|\\.)*)"|\'(?:[^\'\\\n]|\\.)+\'|//[^\n]*|/\*.*?\*/',
    re.DOTALL,
)
# What the domain must be given instead of asking for it.
OUTSIDE_WORLD = re.compile(
    r"\b(?:currentDateTime\w*|currentDate|currentTime|currentMSecsSinceEpoch|currentSecsSinceEpoch"
    r"|QElapsedTimer|QDeadlineTimer|QFile|QFileInfo|QDir|QSaveFile|QSettings|QStandardPaths"
    r"|QRandomGenerator|createUuid|qgetenv|qEnvironmentVariable|systemTimeZone\w*|fopen|fstream"
    r"|QLocale::system|toLocalTime|(?:system|steady|high_resolution)_clock::now)\b"
    r"|\bstd::time\s*\(|\bQLocale\s*\(\s*\)"
)


def is_script(text):
    return text.startswith("#!")


def is_source(path, text):
    return path.suffix in SOURCE or path.name == "CMakeLists.txt" or is_script(text)


def layer_of(path):
    parts = path.parts
    return parts[1] if len(parts) > 2 and parts[0] == "app" and parts[1] in LAYERS else None


def without_comments(text):
    """The text with comments blanked; strings and line numbers stay."""

    def blank(match):
        token = match.group(0)
        return re.sub(r"[^\n]", " ", token) if token.startswith(("//", "/*")) else token

    return TOKEN.sub(blank, text)


def strings_of(text):
    """Each run of adjoining string literals, joined as the compiler does, with its line."""
    joined, line, end = "", 0, 0
    for match in TOKEN.finditer(text):
        said = match.group(2) if match.group(2) is not None else match.group(3)
        if said is None:
            continue
        if joined and text[end : match.start()].strip():
            yield line, joined
            joined = ""
        if not joined:
            line = text.count("\n", 0, match.start()) + 1
        joined += said
        end = match.end()
    if joined:
        yield line, joined


def line_of(text, position):
    return text.count("\n", 0, position) + 1


def top_level(files):
    for name in sorted({path.parts[0] for path in files}):
        if name not in TOP and not name.startswith("."):
            yield f"{name}: not one of the top level's entries"


def spdx(files):
    for path, text in files.items():
        if is_source(path, text):
            head = "\n".join(text.split("\n")[:6])
            for mark in ("License-Identifier: GPL-3.0-or-later", "FileCopyrightText: "):
                if f"SPDX-{mark}" not in head:
                    yield f"{path}: no SPDX-{mark.split(':')[0]} in the first lines"


def file_length(files):
    for path, text in files.items():
        if is_source(path, text):
            lines = text.count("\n")
            if lines > LONGEST:
                yield f"{path}: {lines} lines, more than {LONGEST}: it has two subjects"
            elif lines > LONG:
                print(f"WARNING: {path}: {lines} lines: has it two subjects?")


def machine_paths(files):
    for path, text in files.items():
        for match in MACHINE_PATH.finditer(text):
            yield f"{path}:{line_of(text, match.start())}: a path of one machine"


def layer_direction(files):
    folders = {path.parts[1] for path in files if path.parts[0] == "app" and len(path.parts) > 2}
    for folder in sorted(folders - LAYERS - {"cmake"}):
        yield f"app/{folder}: a layer that layout.py does not know"
    for path, text in files.items():
        layer = layer_of(path)
        if layer is None:
            continue
        allowed = MAY_USE[layer] | {layer, "domain"}
        if path.suffix in CODE:
            for match in INCLUDE.finditer(text):
                where = f"{path}:{line_of(text, match.start())}"
                named = match.group(2)
                if match.group(1) == '"' and named.split("/")[0] in LAYERS - allowed:
                    yield f"{where}: {layer} must not include {named}"
                if match.group(1) == '"' and named.startswith("../"):
                    yield f"{where}: includes start at app/"
        if path.name == "CMakeLists.txt":
            for match in LINKED.finditer(text):
                if match.group(1) in LAYERS - allowed:
                    yield f"{path}:{line_of(text, match.start())}: {layer} must not link {match.group(1)}"


def sql_in_storage_only(files):
    for path, text in files.items():
        if path.parts[0] not in ("app", "qml") or layer_of(path) == "storage":
            continue
        if path.suffix in CODE | {".qml", ".js"}:
            for line, said in strings_of(text):
                if SQL.match(said):
                    yield f"{path}:{line}: SQL outside app/storage"
        for match in INCLUDE.finditer(text) if path.suffix in CODE else ():
            if re.match(r"(?:QtSql/|QSql|sqlite3|libpq)", match.group(2)):
                yield f"{path}:{line_of(text, match.start())}: SQL outside app/storage"


def qml_in_kiosk_only(files):
    # The tour touches the screens as a visitor does.
    for path, text in files.items():
        if layer_of(path) not in (None, "kiosk", "tour") and path.suffix in CODE:
            for match in INCLUDE.finditer(text):
                if re.match(r"(?:QtQml|QtQuick|QQml|QQuick|QJSEngine)", match.group(2)):
                    yield f"{path}:{line_of(text, match.start())}: QML outside the screens' own layers"


def domain_asks_nobody(files):
    for path, text in files.items():
        if layer_of(path) == "domain" and path.suffix in CODE:
            code = without_comments(text)
            for match in OUTSIDE_WORLD.finditer(code):
                where = f"{path}:{line_of(code, match.start())}"
                yield f"{where}: the domain is given this, it never asks: {match.group(0)}"
            for match in INCLUDE.finditer(text):
                if re.match(r"(?:QtGui|QtNetwork|QtWidgets|QGui|QImage|QNetwork)", match.group(2)):
                    yield f"{path}:{line_of(text, match.start())}: the domain knows QtCore only"


RULES = [
    top_level,
    spdx,
    file_length,
    machine_paths,
    layer_direction,
    sql_in_storage_only,
    qml_in_kiosk_only,
    domain_asks_nobody,
]

OURS = "// SPDX-License-Identifier: GPL-3.0-or-later\n// SPDX-FileCopyrightText: x\n"
# For each rule: files that it must let pass, and files of which each must be found.
SAMPLES = {
    top_level: ({"app/a.cpp": "", ".ci/run": ""}, {"src/a.cpp": "", "Makefile": ""}),
    spdx: ({"app/a.h": OURS, "README.md": ""}, {"app/a.h": "", "tests/run": "#!/bin/sh\n"}),
    file_length: ({"app/a.h": "\n" * LONG, "db/a.json": "\n" * 900}, {"qml/A.qml": "\n" * (LONGEST + 1)}),
    machine_paths: (
        {"a.md": "app/work/x /var/lib/x $root/root/x https://a.example/home/x"},
        {"a.md": "see /wo" + "rk/main", "app/a.cpp": '"/ho' + 'me/me/x"'},
    ),
    layer_direction: (
        {"app/kiosk/a.cpp": '#include "storage/a.h"\n', "app/access/a.h": '#include "domain/a.h"\n',
         "app/main.cpp": '#include "kiosk/a.h"\n'},
        {"app/domain/a.h": '#include "access/a.h"\n', "app/access/a.h": '#include "storage/a.h"\n',
         "app/new/a.h": "", "app/kiosk/a.h": '#include "cli/a.h"\n', "app/record/CMakeLists.txt": "PUBLIC Ramplight::kiosk", "app/cli/a.cpp": '#include "../x.h"\n'},
    ),
    sql_in_storage_only: (
        {"app/storage/a.cpp": 'q("select a from b");', "app/kiosk/a.cpp": 'tr("Select a car from the list")',
         "app/domain/a.h": "// select a from b\n", "tests/storage/a.cpp": '"drop table t"'},
        {"app/cli/a.cpp": '#include <QSqlQuery>\n', "app/kiosk/a.cpp": 'q("select a, b "\n"from c");',
         "qml/A.qml": 'x: "DELETE FROM t"', "app/record/a.cpp": 'R"(\n  update t set a = 1)"'},
    ),
    qml_in_kiosk_only: (
        {"app/kiosk/a.h": "#include <QQmlEngine>\n", "app/main.cpp": "#include <QQmlEngine>\n"},
        {"app/record/a.h": "#include <QtQml/qqmlregistration.h>\n"},
    ),
    domain_asks_nobody: (
        {"app/domain/a.h": "// never QFile\nint currentTimer;\n", "app/access/a.h": "QFile f;\n"},
        {"app/domain/a.h": "auto t = QDateTime::currentDateTimeUtc();\n", "app/domain/b.h": "QLocale()\n",
         "app/domain/c.h": "#include <QImage>\n"},
    ),
}


def self_test():
    """Every rule lets its good files pass and finds each of its bad ones."""
    for rule in RULES:
        good, bad = SAMPLES[rule]
        for name, text in good.items():
            found = list(rule({Path(name): text}))
            if found:
                yield f"{rule.__name__} complains about a good {name}: {found[0]}"
        for name, text in bad.items():
            if not list(rule({Path(name): text})):
                yield f"{rule.__name__} misses a bad {name}"


def project_files(root):
    """The project's text files by their path below the root, without what git ignores."""
    listed = subprocess.run(
        ["git", "-c", f"safe.directory={root}", "-C", str(root), "ls-files", "-z", "--cached", "--others",
         "--exclude-standard"],
        capture_output=True,
        check=False,
    )
    if listed.returncode == 0:
        names = [name for name in listed.stdout.decode().split("\0") if name]
    else:  # an unpacked archive
        names = []
        for folder, below, here in os.walk(root):
            below[:] = [name for name in below if not name.startswith(".") and name != "build"]
            names += [os.path.relpath(os.path.join(folder, name), root) for name in here]
    files = {}
    for name in sorted(names):
        try:
            files[Path(name)] = (root / name).read_text(encoding="utf-8")
        except UnicodeDecodeError:
            files[Path(name)] = ""  # a picture, a font: only its place counts
        except FileNotFoundError:
            pass  # deleted, not yet committed
    return files


def main(arguments):
    if arguments == ["--self-test"]:
        checks = {"selfTest": list(self_test())}
    else:
        files = project_files(Path(arguments[0]).resolve())
        checks = {rule.__name__: list(rule(files)) for rule in RULES}
    for name, found in checks.items():
        if found:
            print(f"FAIL!  : layout::{name}()")
            for line in found:
                print(f"   {line}")
        else:
            print(f"PASS   : layout::{name}()")
    failed = sum(1 for found in checks.values() if found)
    print(f"Totals: {len(checks) - failed} passed, {failed} failed, 0 skipped, 0 blacklisted, 0ms")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        print(__doc__, file=sys.stderr)
        sys.exit(64)
    sys.exit(main(sys.argv[1:]))
