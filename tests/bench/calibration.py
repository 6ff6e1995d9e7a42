#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""How often the walk-round reader is right when it says how sure it is.

    calibration.py FOLDER... --reader 'ramplight read --json'

A folder holds NAME.vtt, NAME.srt or NAME.txt, each with NAME.gold.json. For each step of
confidence: how many findings, and the share of them that a label agrees with (place and condition).
"""

import argparse
import json
import pathlib
import shlex
import subprocess


def readings(folder, reader):
    for path in sorted(pathlib.Path(folder).glob("*.gold.json")):
        stem = path.name[: -len(".gold.json")]
        source = next(p for e in ("vtt", "srt", "txt") if (p := path.with_name(f"{stem}.{e}")).exists())
        gold = json.loads(path.read_text())
        command = shlex.split(reader) + gold.get("args", []) + [str(source)]
        run = subprocess.run(command, capture_output=True, text=True, check=True)
        yield gold["findings"], json.loads(run.stdout)["findings"]


def judged(labels, findings):
    """Each finding with whether a label that is still free agrees with it."""
    free = list(labels)
    for finding in findings:
        hit = next((one for one in free if one["place"] == finding["place"]
                    and finding["condition"] in (one["condition"] if isinstance(one["condition"], list)
                                                 else [one["condition"]])), None)
        if hit is not None:
            free.remove(hit)
        yield finding["confidence"], hit is not None


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("folders", nargs="+")
    parser.add_argument("--reader", required=True)
    options = parser.parse_args()
    steps = [(0, 0.6), (0.6, 0.75), (0.75, 0.85), (0.85, 0.9), (0.9, 0.95), (0.95, 1.01)]
    rows = [pair for folder in options.folders for labels, findings in readings(folder, options.reader)
            for pair in judged(labels, findings)]
    print("confidence    findings   said   right")
    for low, high in steps:
        inside = [pair for pair in rows if low <= pair[0] < high]
        if inside:
            said = sum(pair[0] for pair in inside) / len(inside)
            right = sum(pair[1] for pair in inside) / len(inside)
            print(f"{low:.2f} to {min(high, 1):.2f} {len(inside):10d}   {said:.2f}    {right:.2f}")


if __name__ == "__main__":
    main()
