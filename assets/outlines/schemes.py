#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Draws what a plan view of the body does not show: the wheels, the cabin and the systems, one SVG
each, next to this file. Classes and ids are those of draw.py. Every region is at least 22 units
each way: drawn about 240 units high over most of a wall it is as wide as a gloved finger.
"""
import pathlib

from curves import bow, num, oval, rounded, trail

ABOUT = """SPDX-License-Identifier: GPL-3.0-or-later
SPDX-FileCopyrightText: The Ramplight contributors"""
LEFT, TOP, RIGHT, BOTTOM = -124, -2, 124, 240


def svg(rows):
    body = "\n".join(
        f'  <path {f"""id="{i}" """ if i else ""}class="{c}" d="{d}"/>' for i, c, d in rows)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<!--\n{ABOUT}\nDrawn by schemes.py; change it there.\n-->\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{num(LEFT)} {num(TOP)} {num(RIGHT - LEFT)} {num(BOTTOM - TOP)}" '
        f'fill="none" stroke="#000" stroke-width="1.2" stroke-linejoin="round">\n{body}\n</svg>\n')


def seat(x0, y0, x1, y1):
    """Cushion and backrest as one shape, the backrest behind."""
    return rounded(x0, y0, x1, y1, (9, 9, 12, 12))


def wheels():
    """The chassis from above: tyres outside, wheels within, brakes on the axles, the spare between."""
    rows = []
    for y in (46, 186):
        rows.append((None, "line", trail([bow((-36, y), (-30, y))])))
        rows.append((None, "line", trail([bow((30, y), (36, y))])))
    for end, y0 in (("front", 4), ("rear", 144)):
        for hand, sign in (("left", -1), ("right", 1)):
            rub = sorted((sign * 122, sign * 72))
            rim = sorted((sign * 70, sign * 36))
            outer = (15, 4, 4, 15) if sign < 0 else (4, 15, 15, 4)
            rows.append((f"tyre-{end}-{hand}", "tyre", rounded(rub[0], y0, rub[1], y0 + 84, outer)))
            rows.append((f"wheel-{end}-{hand}", "wheel", rounded(rim[0], y0 + 8, rim[1], y0 + 76, 6)))
        rows.append((f"brakes-{end}", "panel", rounded(-30, y0 + 24, 30, y0 + 60, 8)))
    rows.append(("spare-tyre", "tyre", oval(0, 116, 42, 42) + " " + oval(0, 116, 20, 20)))
    rows.append(("spare-wheel", "wheel", oval(0, 116, 20, 20)))
    return rows


def cabin(driver):
    """The inside from above, front at the top; driver is +1 where the wheel is on the right."""
    rows = []
    rows.append(("dashboard", "panel", rounded(-94, 2, 94, 28, (16, 16, 4, 4))))
    carpet = rounded(-94, 31, -15, 66, 4) + " " + rounded(15, 31, 94, 66, 4)
    rows.append(("front-carpet", "panel", carpet))
    rows.append(("centre-console", "panel", rounded(-12, 31, 12, 112, 6)))
    for name, side in (("driver-seat", driver), ("passenger-seat", -driver)):
        x0, x1 = sorted((side * 20, side * 88))
        rows.append((name, "panel", seat(x0, 69, x1, 112)))
        rows.append((None, "line detail", trail([bow((x0 + 6, 100), (x1 - 6, 100), -3)])))
    rows.append(("rear-carpet", "panel", rounded(-94, 115, 94, 138, 4)))
    rows.append(("rear-seats", "panel", seat(-90, 141, 90, 176)))
    for x in (-30, 30):
        rows.append((None, "line detail", trail([bow((x, 144), (x, 173))])))
    rows.append(("boot-interior", "panel", rounded(-90, 180, 90, 206, (4, 4, 14, 14))))
    for hand, sign in (("left", -1), ("right", 1)):
        x0, x1 = sorted((sign * 122, sign * 98))
        rows.append((f"door-card-front-{hand}", "panel", rounded(x0, 36, x1, 108, 5)))
        rows.append((f"door-card-rear-{hand}", "panel", rounded(x0, 112, x1, 176, 5)))
    wheel_x = driver * 54
    rows.append(("steering-wheel", "panel", oval(wheel_x, 44, 17, 17)))
    rows.append((None, "line detail", oval(wheel_x, 44, 6, 6)))
    # What lies above or over the seats and cannot be seen from above.
    for at, name in enumerate(("headlining", "seat-belts", "mats")):
        x0 = -122 + at * 82
        rows.append((name, "panel", rounded(x0, 213, x0 + 80, 238, 5)))
    return rows


def systems():
    """What has no place on a drawing that a finger could find, as fields."""
    fields = (
        ("engine-bay", "engine", "gearbox", "clutch"),
        ("battery", "traction-battery", "steering", "suspension"),
        ("warning-lamps", "horn", "locks", "keys"),
        ("air-conditioning", "infotainment", "windows", None),
        ("camera", "parking-sensors", None, None),
    )
    rows = []
    for row, names in enumerate(fields):
        for column, name in enumerate(names):
            if name:
                x0, y0 = -122 + column * 62, 1 + row * 48
                rows.append((name, "panel", rounded(x0, y0, x0 + 58, y0 + 44, 6)))
    return rows


if __name__ == "__main__":
    here = pathlib.Path(__file__).parent
    for name, rows in (("wheels", wheels()), ("cabin-right", cabin(1)), ("cabin-left", cabin(-1)),
                       ("systems", systems())):
        (here / f"{name}.svg").write_text(svg(rows), encoding="utf-8")
