#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Runs clang-tidy over layers, headers too.

    tidy.py --build DIR [--since COMMIT] [--seconds N] [--jobs N] [LAYER...]

DIR is a build folder configured with app/cmake/lint.cmake. A layer is a folder of app/ and the
folder of the same name in tests/. Named layers are read; without names, those changed since
COMMIT; without COMMIT, all. After N seconds no further file is begun, and those left out are
named. Ends with 1 if clang-tidy found something, with 2 if it could not be run.
"""

import argparse
import concurrent.futures
import json
import os
import re
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
# A change of these changes what is found anywhere.
COMMON = (".clang-tidy", "tests/.clang-tidy", "app/cmake/lint.cmake", "app/cmake/layer.cmake", "tests/lint/tidy.py")

FINDING = re.compile(r"(?m)^(?=\S+:\d+:\d+: (?:error|warning):)")
# Lines shown of one finding: a template's error can go on for hundreds.
LONGEST_FINDING = 12


def layer_of(path):
    """domain for app/domain/car.cpp and tests/domain/tst_car.cpp; app for app/main.cpp."""
    parts = Path(path).parts
    if len(parts) < 2 or parts[0] not in ("app", "tests"):
        return None
    return parts[1] if len(parts) > 2 else parts[0]


def changed_since(commit):
    """Files changed since the commit, committed or not; None where all are to be read."""
    git = ["git", "-c", f"safe.directory={ROOT}", "-C", str(ROOT)]
    changed = set()
    for command in (["diff", "--name-only", commit, "--"], ["ls-files", "--others", "--exclude-standard"]):
        done = subprocess.run(git + command, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            print(f"tidy: nothing is known of {commit}: reading every layer")
            return None
        changed.update(done.stdout.splitlines())
    if any(name in COMMON for name in changed):
        print("tidy: the checks themselves changed: reading every layer")
        return None
    return {name for name in changed if name.endswith((".cpp", ".h", "CMakeLists.txt"))}


def units_of(build):
    """(layer, order, file, target) of each unit of ours, from the compile commands."""
    units = []
    for entry in json.loads((build / "compile_commands.json").read_text(encoding="utf-8")):
        file = Path(entry["file"])
        target = re.search(r" -o (?:\S*/)?CMakeFiles/([^/\s]+)\.dir/", entry["command"])
        if file.is_relative_to(build):
            # Of what was generated only the units that include a layer's headers.
            if not file.name.endswith("_headers.cpp") or not target:
                continue
            below = file.relative_to(build)
        elif file.is_relative_to(ROOT):
            below = file.relative_to(ROOT)
        else:
            continue
        layer = layer_of(below)
        if layer is not None:
            order = (below.parts[0] != "app", not file.name.endswith("_headers.cpp"))
            units.append((layer, order, file, target.group(1) if target else ""))
    return units


def run_moc(build, units, pool):
    """Tests include what moc writes: each unit's own, and what CMake's automoc writes for a target.
    Asked for either, ninja would compile what the tests link: it is asked for the commands only."""
    stems = {unit[2].stem for unit in units}
    known = subprocess.run(["ninja", "-C", str(build), "-t", "targets", "all"], capture_output=True, text=True, check=True)
    own = [name for name, stem in re.findall(r"^([^/\s]\S*_moc/(\w+)\.moc): ", known.stdout, re.MULTILINE) if stem in stems]
    for name in own:
        (build / name).parent.mkdir(parents=True, exist_ok=True)
    asked = subprocess.run(["ninja", "-C", str(build), "-t", "commands", "-s", *own],
                           capture_output=True, text=True, check=True) if own else None
    for done in pool.map(
        lambda command: subprocess.run(command, shell=True, cwd=build, capture_output=True, text=True, check=False),
        asked.stdout.splitlines() if asked else []):
        if done.returncode != 0:
            print(done.stdout + done.stderr)
    targets = {unit[3] for unit in units}
    infos = [info for name in sorted(targets) for info in build.rglob(f"CMakeFiles/{name}_autogen.dir/AutogenInfo.json")]
    for done in pool.map(
        lambda info: subprocess.run(["cmake", "-E", "cmake_autogen", str(info), "Debug"],
                                    capture_output=True, text=True, check=False), infos):
        if done.returncode != 0:
            print(done.stdout + done.stderr)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--build", type=Path, required=True)
    parser.add_argument("--since")
    parser.add_argument("--seconds", type=float, default=float("inf"))
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("layers", nargs="*")
    options = parser.parse_args()
    build = options.build.resolve()
    deadline = time.monotonic() + options.seconds

    layers = set(options.layers) or None
    changed = changed_since(options.since) if options.since and not layers else None
    if changed is not None:
        layers = {layer_of(name) for name in changed}
    units = [unit for unit in units_of(build) if layers is None or unit[0] in layers]
    if not units:
        print(f"tidy: no unit in {', '.join(sorted(layers or [])) or 'any changed layer'}")
        return 0
    # Headers and what changed first, in case the time is short; tests after the program.
    fresh = {ROOT / name for name in changed or ()}
    units.sort(key=lambda unit: (unit[1] > (False, False) and unit[2] not in fresh, unit[1], unit[0], unit[2]))
    print(f"tidy: {len(units)} units of {', '.join(sorted({unit[0] for unit in units}))}")

    def check(unit):
        if time.monotonic() > deadline:
            return unit, None
        # The analyzer's shallow mode finds nearly what the deep one does, in a tenth of the time.
        shallow = [f"--extra-arg={word}" for word in ("-Xclang", "-analyzer-config", "-Xclang", "mode=shallow")]
        command = ["clang-tidy-22", "--quiet", "-p", str(build), *shallow,
                   f"--header-filter=^{re.escape(str(ROOT))}/(app|tests)/", str(unit[2])]
        return unit, subprocess.run(command, capture_output=True, text=True, check=False)

    found, skipped, said = 0, [], set()
    with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
        run_moc(build, units, pool)
        for unit, done in pool.map(check, units):
            if done is None:
                skipped.append(unit[2].name)
                continue
            if done.returncode == 0:
                continue
            # Somebody else's header may be beyond this clang; what it says of ours still counts.
            blocks = [block for block in FINDING.split(done.stdout) if FINDING.match(block)]
            ours = [block for block in blocks if block.startswith(str(ROOT))]
            if not ours and blocks:
                continue
            found += 1
            # A header's finding is told once, not for each unit that includes it.
            for block in ours:
                if block not in said:
                    said.add(block)
                    lines = block.rstrip().replace(f"{ROOT}/", "").splitlines()
                    print("\n".join(lines[:LONGEST_FINDING]), flush=True)
            if not blocks:
                print(f"{unit[2].name}: {done.stdout}{done.stderr}".rstrip())
    if skipped:
        print(f"tidy: {options.seconds:.0f} s were over; not read: {' '.join(skipped)}")
    print(f"tidy: {len(units) - len(skipped)} units read, findings in {found}")
    return 1 if found else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, subprocess.CalledProcessError) as error:
        print(f"tidy: {error}", file=sys.stderr)
        sys.exit(2)
