#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Sums up a run of CTest by test function.

    totals.py REPORT.xml    reads CTest's JUnit report; prints "N passed, N failed[, N skipped]"
                            and, on standard error, what failed. Ends with 0 only if something
                            passed and nothing failed.
    totals.py --list        reads `ctest --show-only=json-v1`; prints names, labels, time limits.

A Qt Test program counts by the functions and data rows of its own totals, less the set-up and
tear-down that Qt counts along. A program without totals counts as one. One that CTest calls
failed though it reported no failed function (it crashed, hung, printed what it must not) adds
one failure.
"""

import json
import re
import sys
import xml.etree.ElementTree as ElementTree

TOTALS = re.compile(r"^Totals: (\d+) passed, (\d+) failed, (\d+) skipped", re.MULTILINE)
FRAME = re.compile(r"^PASS\s+: .*::(?:init|cleanup)TestCase\(\)\s*$", re.MULTILINE)
FAILED = re.compile(r"^(?:FAIL!|XPASS)\s+: (.*)$", re.MULTILINE)


def count(case):
    """Passed, failed, skipped and the lines that say what failed, of one test program."""
    name = case.get("name")
    status = case.get("status")
    output = case.findtext("system-out") or ""
    skipped = case.find("skipped")
    if status == "disabled":
        return 0, 0, 1, []
    if status == "notrun":
        reason = skipped.get("message", "") if skipped is not None else ""
        if reason.startswith("SKIP_"):
            return 0, 0, 1, []
        return 0, 1, 0, [f"{name}: did not run ({reason or 'no reason given'})"]

    ok = status == "run"
    totals = [tuple(map(int, found)) for found in TOTALS.findall(output)]
    if not totals:
        return (1, 0, 0, []) if ok else (0, 1, 0, [f"{name}: {reason_of(case)}"])
    passed = sum(row[0] for row in totals) - len(FRAME.findall(output))
    failed = sum(row[1] for row in totals)
    left_out = sum(row[2] for row in totals)
    lines = [f"{name}: {line}" for line in FAILED.findall(output)]
    if not ok and failed == 0:
        failed = 1
        lines.append(f"{name}: {reason_of(case)}")
    return passed, failed, left_out, lines


def reason_of(case):
    failure = case.find("failure")
    text = failure.get("message") if failure is not None else None
    return text or "ended without a verdict: crashed, hung or left with an error code"


def sum_up(path):
    try:
        cases = ElementTree.parse(path).getroot().findall("testcase")
    except (OSError, ElementTree.ParseError) as error:
        print(f"No report of the tests: {error}", file=sys.stderr)
        print("0 passed, 1 failed")
        return 1
    passed = failed = skipped = 0
    failures = []
    for case in cases:
        one = count(case)
        passed += one[0]
        failed += one[1]
        skipped += one[2]
        failures += one[3]
    if failures:
        print("\nFailed:", file=sys.stderr)
        for line in failures:
            print(f"    {line}", file=sys.stderr)
    if passed + failed == 0:
        print("No test ran.", file=sys.stderr)
    print(f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else ""))
    return 0 if passed > 0 and failed == 0 else 1


def list_tests():
    for test in json.load(sys.stdin)["tests"]:
        about = {entry["name"]: entry["value"] for entry in test.get("properties", [])}
        print(f"{test['name']:32} {' '.join(about.get('LABELS', [])):24} {about.get('TIMEOUT', 0):.0f} s")
    return 0


if __name__ == "__main__":
    sys.exit(list_tests() if sys.argv[1:] == ["--list"] else sum_up(sys.argv[1]))
