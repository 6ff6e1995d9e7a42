#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Draws the plan-view outlines: one SVG per body shape, next to this file.

The front is at the top, one unit is about a centimetre. The sides are laid open a little so that
glass, doors, sills, wheels and tyres each have an area that can be marked and touched. The id of a
path is the id of a place. Neighbours share their edges exactly, so that one line is seen, not two.
Classes: panel, glass, lamp, wheel, tyre; with "detail" added for what small drawings leave out
and "extra" for what stands below the car (spare wheel, underside). Paths without an id are
"silhouette" (what lies between the panels) and "line" (drawn, never touched).
"""
import pathlib

from curves import Curve, bow, closed, num, oval, rounded, trail, whole, whole_band
from shapes import BASE, SHAPES

ABOUT = """SPDX-License-Identifier: GPL-3.0-or-later
SPDX-FileCopyrightText: The Ramplight contributors"""


class Sheet:
    def __init__(self):
        self.rows = []

    def add(self, place, cls, d):
        self.rows.append((place, cls, d))

    def pair(self, stem, cls, pieces):
        """A left place from its pieces and its mirror image on the right."""
        self.add(f"{stem}-left", cls, closed(pieces))
        self.add(f"{stem}-right", cls, closed(pieces, mirrored=True))

    def line(self, *pieces, both=True, cls="line"):
        self.add(None, cls, trail(list(pieces)))
        if both:
            self.add(None, cls, trail([k.mirror() for k in pieces]))


def draw(name):
    p = dict(BASE, **SHAPES[name])
    sheet = Sheet()
    L, W, arch = p["L"], p["W"], p["arch"]
    yf, yr = p["axle_f"], p["axle_r"]

    # Corners of the plan, left side.
    s1, s2 = (-W + 2.5, yf - arch), (-W, yf + arch)
    s3, s4 = (-W, yr - arch), (-W + 2.5, yr + arch)
    a1, a4 = W - 2.5, L - s4[1]
    nose = Curve(s1, (-a1, s1[1] * (1 - p["nose_side"])), (-a1 * p["nose_flat"], 0), (0, 0))
    tail = Curve(s4, (-a1, L - a4 * (1 - p["tail_side"])), (-a1 * p["tail_flat"], L), (0, L))
    nose_in = Curve(
        s1, (-a1 + 9, s1[1] * (1 - p["nose_side"]) + 7),
        (-a1 * p["nose_flat"] + 4, p["bumper"]), (0, p["bumper"]))
    tail_in = Curve(
        s4, (-a1 + 9, L - a4 * (1 - p["tail_side"]) - 7),
        (-a1 * p["tail_flat"] + 4, L - p["rear_bumper"]), (0, L - p["rear_bumper"]))

    def recess(a, d, y, depth, hold):
        return Curve(a, (-W + depth, y - arch * hold), (-W + depth, y + arch * hold), d)

    lip_f, lip_r = recess(s1, s2, yf, 10.5, 0.86), recess(s3, s4, yr, 10.5, 0.86)
    well_f, well_r = recess(s1, s2, yf, 21, 0.92), recess(s3, s4, yr, 21, 0.92)
    side = bow(s2, s3, -1.5)
    i0, i1 = (-W + 8, s2[1] + 6), (-W + 8, s3[1] - 6)
    sill = bow(i0, i1, -1.2)

    pipe = tail.at(0.62)
    sheet.add("exhaust", "panel detail",
              rounded(pipe[0] - 7, pipe[1] - 6, pipe[0] + 9, pipe[1] + 8, (0, 0, 3, 3)))
    outline = [nose.rev(), lip_f, side, lip_r, tail]
    sheet.add(None, "silhouette", whole(outline))

    # Wheels stand out of their arches: the inner strip is the wheel, the outer one the tyre.
    for end, y in (("front", yf), ("rear", yr)):
        h = p["wheel"]
        for hand, sign in (("left", -1), ("right", 1)):
            rim = sorted((sign * (W + 8.5), sign * (W - 1.5)))
            rub = sorted((sign * (W + 20), sign * (W + 8.5)))
            flip = (lambda r: (r[1], r[0], r[3], r[2])) if sign < 0 else (lambda r: r)
            sheet.add(f"tyre-{end}-{hand}", "tyre",
                      rounded(rub[0], y - h, rub[1], y + h, flip((0, 5.5, 5.5, 0))))
            sheet.add(f"wheel-{end}-{hand}", "wheel",
                      rounded(rim[0], y - h + 4, rim[1], y + h - 4, flip((3, 0, 0, 3))))
            for k in (-0.6, -0.3, 0.0, 0.3, 0.6):
                sheet.add(None, "line detail", trail(
                    [bow((sign * (W + 12.5), y + k * h), (sign * (W + 20), y + k * h))]))

    # Front.
    sheet.add("front-bumper", "panel", whole_band(nose, nose_in))
    ta, tb, deep_out, deep_in = p["lamp"]
    lamp_a, lamp_b = nose_in.at(ta), nose_in.at(tb)
    lamp_c = (lamp_b[0] - 1, lamp_b[1] + deep_in)
    lamp_d = (lamp_a[0] + 2, lamp_a[1] + deep_out)
    lamp_rear, lamp_in, lamp_out = bow(lamp_c, lamp_d, 1.5), bow(lamp_b, lamp_c), bow(lamp_d, lamp_a, -0.8)
    bonnet_front = Curve(
        lamp_c, (lamp_c[0] * 0.66, p["bumper"] + 10.5), (lamp_c[0] * 0.33, p["bumper"] + 9.5),
        (0, p["bumper"] + 9.5))
    sheet.add("grille", "panel", whole([nose_in.sub(tb, 1).rev(), lamp_in, bonnet_front]))
    q = (-p["bonnet_half"], p["cowl"] + p["cowl_bow"] * 1.35)
    bonnet_side = Curve(
        lamp_c, (lamp_c[0] - 8, lamp_c[1] + 18), (q[0] + 0.5, q[1] - 46), q)
    cowl = Curve(q, (q[0] + 6, q[1] - 9), (q[0] * 0.5, p["cowl"]), (0, p["cowl"]))
    sheet.add("bonnet", "panel", whole([bonnet_front.rev(), bonnet_side, cowl]))

    # Doors.
    j = (-p["belt_f"], p["door_a"])
    k_end = (-p["belt_r"], p["door_c"])
    belt = bow(j, k_end, -1)
    ao_t = sill.at_y(p["door_a"] + 8)
    ao = sill.at(ao_t)
    door_front = Curve(ao, (ao[0] + 3, ao[1] - 7), (j[0] - 4, j[1] + 2), j)
    sheet.pair("wing", "panel", [
        well_f, bow(s2, i0), sill.sub(0, ao_t), door_front, bow(j, q, 0), bonnet_side.rev(),
        lamp_rear, lamp_out, nose_in.sub(0, ta).rev()])
    sheet.pair("arch-front", "panel", [lip_f, well_f.rev()])
    sheet.pair("arch-rear", "panel", [lip_r, well_r.rev()])
    sheet.pair("headlamp", "lamp", [nose_in.sub(ta, tb), lamp_in, lamp_rear, lamp_out])

    four = p["doors"] == 4
    if four:
        b_t, b_s = belt.at_y(p["door_b"]), sill.at_y(p["door_b"])
        pillar = bow(sill.at(b_s), belt.at(b_t))
        if p["kind"] == "van":
            rear_t = sill.at_y(p["door_c"])
            door_rear = bow(sill.at(rear_t), k_end)
        else:
            rear_t = 1.0
            door_rear = Curve(i1, (i1[0] + 12, i1[1] + 3), (k_end[0] - 3, k_end[1] - 10), k_end)
        sheet.pair("front-door", "panel", [
            door_front, belt.sub(0, b_t), pillar.rev(), sill.sub(ao_t, b_s).rev()])
        sheet.pair("rear-door", "panel", [
            pillar, belt.sub(b_t, 1), door_rear.rev(), sill.sub(b_s, rear_t).rev()])
    else:
        rear_t = sill.at_y(p["door_b"] - 4)
        door_rear = Curve(
            sill.at(rear_t), (sill.at(rear_t)[0] + 3, p["door_b"] - 2), (k_end[0] - 4, k_end[1]), k_end)
        sheet.pair("front-door", "panel", [
            door_front, belt, door_rear.rev(), sill.sub(ao_t, rear_t).rev()])
    sheet.pair("sill", "panel", [side, bow(s3, i1), sill.rev(), bow(i0, s2)])

    # Roof and glass.
    rf, rr = (-p["roof_half_f"], p["roof_f"]), (-p["roof_half_r"], p["roof_r"])
    roof_front = Curve(rf, (rf[0] * 0.8, rf[1] - p["roof_bow_f"]), (rf[0] * 0.4, rf[1] - p["roof_bow_f"] * 1.2),
                       (0, rf[1] - p["roof_bow_f"] * 1.2))
    roof_side = bow(rf, rr, -2)
    roof_rear = Curve(rr, (rr[0] * 0.8, rr[1] + p["roof_bow_r"]), (rr[0] * 0.4, rr[1] + p["roof_bow_r"] * 1.2),
                      (0, rr[1] + p["roof_bow_r"] * 1.2))
    sheet.add("roof", "panel", whole([roof_front.rev(), roof_side, roof_rear]))

    w = (q[0] + 4.5, q[1] + 2.5)
    base = Curve(w, (w[0] + 6, w[1] - 6.5), (w[0] * 0.5, p["cowl"] + 8), (0, p["cowl"] + 8))
    screen_side = bow(w, rf, -1.2)
    sheet.add("wipers", "panel", whole([cowl.rev(), bow(q, w), base]))
    sheet.add("windscreen", "glass", whole([roof_front.rev(), screen_side.rev(), base]))

    # The glass leaves a pillar of this width beside each screen.
    post = 9.0
    g0, g1 = belt.at(belt.at_y(j[1] + post)), roof_side.at(roof_side.at_y(rf[1] + post))
    t0b, t0r = belt.at_y(g0[1]), roof_side.at_y(g1[1])
    if four:
        bt1, rt1 = belt.at_y(p["door_b"] - 3), roof_side.at_y(p["door_b"] - 3)
        sheet.pair("front-glass", "glass", [
            bow(g0, g1, -1), roof_side.sub(t0r, rt1), bow(roof_side.at(rt1), belt.at(bt1)),
            belt.sub(t0b, bt1).rev()])
        if p["rear_glass_end"]:
            bt2, rt2 = belt.at_y(p["door_b"] + 3), roof_side.at_y(p["door_b"] + 3)
            third = p.get("third_glass")
            if third:
                end = (-p["belt_r"], p["rear_glass_end"])
                rt3 = roof_side.at_y(p["rear_glass_end"] - 12)
                low = bow(k_end, end)
                sheet.pair("rear-glass", "glass", [
                    bow(belt.at(bt2), roof_side.at(rt2)), roof_side.sub(rt2, rt3),
                    bow(roof_side.at(rt3), end, 2), low.rev(), belt.sub(bt2, 1).rev()])
                sheet.line(bow(belt.at(belt.at_y(third - 14)), roof_side.at(roof_side.at_y(third - 18)))
                           if third - 14 < k_end[1] else
                           bow(k_end, roof_side.at(roof_side.at_y(third - 12))))
                glass_tip, glass_top = end, roof_side.at(rt3)
                low_edge = [low]
                glass_back = bow(end, roof_side.at(rt3), -2)
            else:
                bt3 = belt.at_y(min(p["rear_glass_end"], k_end[1] - 3))
                rt3 = roof_side.at_y(min(p["rear_glass_end"] - 20, rr[1] - 9))
                tip = belt.at(bt3)
                sheet.pair("rear-glass", "glass", [
                    bow(belt.at(bt2), roof_side.at(rt2)), roof_side.sub(rt2, rt3),
                    bow(roof_side.at(rt3), tip, 2), belt.sub(bt2, bt3).rev()])
                glass_back = bow(tip, roof_side.at(rt3), -2)
                low_edge = [belt.sub(bt3, 1).rev()]
            quarter_top = low_edge + [glass_back, roof_side.sub(rt3, 1)]
        else:
            # Panelled: the side above the belt is steel.
            bt2, rt2 = belt.at_y(p["door_b"] + 3), roof_side.at_y(p["door_b"] + 3)
            quarter_top = [bow(k_end, roof_side.at(roof_side.at_y(k_end[1]))),
                           roof_side.sub(roof_side.at_y(k_end[1]), 1)]
    else:
        bt1, rt1 = belt.at_y(k_end[1] - 5), roof_side.at_y(min(k_end[1] - 5, rr[1] - 6))
        sheet.pair("front-glass", "glass", [
            bow(g0, g1, -1), roof_side.sub(t0r, rt1), bow(roof_side.at(rt1), belt.at(bt1)),
            belt.sub(t0b, bt1).rev()])
        if p.get("hood"):
            quarter_top = [bow(k_end, rr, -1)]
        else:
            c0 = (k_end[0] + 1.5, k_end[1] + 4)
            tip = (k_end[0] + 5, p["rear_glass_end"])
            top = (rr[0] - 4.5, rr[1] + 4)
            sheet.pair("rear-glass", "glass", [
                bow(c0, top, 0), bow(top, tip, -2.5), bow(tip, c0, -0.5)])
            quarter_top = [bow(k_end, c0), bow(c0, tip, 0.5), bow(tip, top, 2.5), bow(top, rr)]

    # Rear.
    v = (-p["screen_half_r"], p["screen_r"])
    rscreen_side = bow(rr, v, 1 if p["kind"] not in ("saloon", "coupe") else -1)
    rscreen_base = Curve(v, (v[0] * 0.8, v[1] + p["screen_bow_r"]), (v[0] * 0.4, v[1] + p["screen_bow_r"] * 1.25),
                         (0, v[1] + p["screen_bow_r"] * 1.25))
    ra, rb, rdeep_out, rdeep_in = p["rear_lamp"]
    ra_p, rb_p = tail_in.at(ra), tail_in.at(rb)
    rc = (rb_p[0] - 2, rb_p[1] - rdeep_in)
    rd = (ra_p[0] + 2, ra_p[1] - rdeep_out)
    rlamp_in, rlamp_front, rlamp_out = bow(rb_p, rc), bow(rc, rd, -1.2), bow(rd, ra_p, 0.8)

    def tail_end(upper):
        """Quarter: from the arch round its top edge to the lamp and the bumper."""
        return [well_r.rev(), bow(s3, i1)] + ([sill.sub(rear_t, 1).rev()] if rear_t < 1 else []) + [
            door_rear] + upper + [rlamp_front, rlamp_out, tail_in.sub(0, ra).rev()]

    if p["kind"] == "pickup":
        front, inset = v[1] + 10, 15
        gate = L - p["rear_bumper"] - 15
        b0, b1 = (-W + inset, front + 4), (-W + inset, gate)
        bed_side = bow(b0, b1)
        sheet.pair("quarter", "panel", [
            well_r.rev(), bow(s3, i1), door_rear, bow(k_end, b0), bed_side, bow(b1, rc),
            rlamp_front, rlamp_out, tail_in.sub(0, ra).rev()])
        sheet.add("boot-interior", "bed", whole([bow((0, front + 4), b0), bed_side, bow(b1, (0, gate))]))
        sheet.add("tailgate", "panel", whole([
            bow((0, gate), b1), bow(b1, rc), rlamp_in.rev(), tail_in.sub(rb, 1)]))
        sheet.add("rear-screen", "glass", whole([roof_rear.rev(), rscreen_side, rscreen_base]))
        for x in (-54, -36, -18, 0):
            sheet.line(bow((x, front + 10), (x, gate - 6)), both=x != 0, cls="line detail")
    elif p["kind"] == "van":
        sheet.pair("quarter", "panel", tail_end(quarter_top + [bow(rr, rc)]))
        hinge = bow((0, rr[1] + p["roof_bow_r"] * 1.2), (0, L - p["rear_bumper"]))
        sheet.add("tailgate", "panel", whole([
            roof_rear.rev(), bow(rr, rc), rlamp_in.rev(), tail_in.sub(rb, 1)]))
        glass_half, y0 = 48, rr[1] + 3.5
        sheet.add("rear-screen", "glass", rounded(-glass_half, y0, glass_half, y0 + 8, 2.5))
        sheet.line(hinge, both=False)
        for y in (250, 300, 350, 400, 450):
            sheet.line(bow((-52, y), (52, y)), both=False, cls="line detail")
    else:
        lid_side = Curve(v, (v[0] - 3, v[1] + (rc[1] - v[1]) * 0.5), (rc[0] - 3, rc[1] - 6), rc)
        if p.get("hood"):
            # The fabric hood is the roof; its rear screen sits within the deck.
            deck = Curve(k_end, (k_end[0] + 3, k_end[1] + 26), (-44, p["screen_r"] + 22), (0, p["screen_r"] + 22))
            lid_front_t = 0.36
            lid_a = deck.at(lid_front_t)
            lid_side = Curve(lid_a, (lid_a[0] - 2, lid_a[1] + 20), (rc[0] - 3, rc[1] - 10), rc)
            sheet.pair("quarter", "panel", tail_end([deck.sub(0, lid_front_t), lid_side]))
            sheet.add("tailgate", "panel", whole([deck.sub(lid_front_t, 1).rev(), lid_side, rlamp_in.rev(),
                                                  tail_in.sub(rb, 1)]))
            for y in (0.34, 0.68):
                t = roof_side.at_y(rf[1] + (rr[1] - rf[1]) * y)
                x, yy = roof_side.at(t)
                sheet.line(Curve((x, yy), (x * 0.6, yy - 2), (x * 0.3, yy - 2.5), (0, yy - 2.5)))
        else:
            sheet.pair("quarter", "panel", tail_end(quarter_top + [rscreen_side, lid_side]))
            sheet.add("tailgate", "panel", whole([rscreen_base.rev(), lid_side, rlamp_in.rev(), tail_in.sub(rb, 1)]))
        sheet.add("rear-screen", "glass", whole([roof_rear.rev(), rscreen_side, rscreen_base]))
    sheet.pair("rear-lamp", "lamp", [tail_in.sub(ra, rb), rlamp_in, rlamp_front, rlamp_out])
    sheet.add("rear-bumper", "panel", whole_band(tail, tail_in))

    # Mirrors on a short arm from the front corner of the door glass.
    m = (-W + 1, p["door_a"] + 16)
    sheet.pair("mirror", "panel", [
        Curve((m[0], m[1] + 5), (m[0], m[1] + 1), (m[0] - 1, m[1] - 2), (m[0] - 7, m[1] - 1)),
        Curve((m[0] - 7, m[1] - 1), (m[0] - 19, m[1] + 1), (m[0] - 22, m[1] + 4), (m[0] - 22, m[1] + 9)),
        Curve((m[0] - 22, m[1] + 9), (m[0] - 22, m[1] + 13), (m[0] - 19, m[1] + 13), (m[0] - 14, m[1] + 12)),
        Curve((m[0] - 14, m[1] + 12), (m[0] - 9, m[1] + 11), (m[0] - 4, m[1] + 10), (m[0], m[1] + 9))])

    # Small parts.
    if p["sunroof"]:
        y0 = p["roof_f"] + 12
        deep = min(58, (p["roof_r"] - p["roof_f"]) * 0.45)
        half = p["roof_half_f"] - 14
        sheet.add("sunroof", "panel detail", rounded(-half, y0, half, y0 + deep, 6))
    if p.get("rails"):
        x = -p["roof_half_f"] + 5
        sheet.line(bow((x, p["roof_f"] + 22), (x, p["roof_r"] - 22), -1.5), cls="line detail")
    for arm in ((-6, -44), (34, -4)):
        y = p["cowl"] + 8
        a, d = (arm[0], y + 1), (arm[1], y + 12 + abs(arm[1]) * 0.02)
        sheet.line(bow(a, d), both=False, cls="line detail")
    plate = 22
    sheet.add("front-plate", "panel detail", rounded(-plate, 3, plate, 3 + min(8, p["bumper"] - 5), 1.5))
    sheet.add("rear-plate", "panel detail",
              rounded(-plate, L - p["rear_bumper"] + 2.5, plate, L - p["rear_bumper"] + 2.5 + 7.5, 1.5))
    fa, fb = nose.at(0.66), nose_in.at(0.66)
    fx, fy = (fa[0] + fb[0]) / 2, (fa[1] + fb[1]) / 2
    for hand, sign in (("left", 1), ("right", -1)):
        sheet.add(f"fog-lamp-{hand}", "lamp detail", oval(sign * fx, fy + 0.3, 6.5, 3))
    flap, half_w = (W - 17, yr + arch - 4), 5.5
    if p["kind"] == "pickup":
        flap, half_w = (W - 11.5, yr - arch - 12), 3.2
    if p["kind"] == "van":
        flap = (W - 17, yr - arch - 26)
    sheet.add("fuel-flap", "panel detail",
              rounded(flap[0] - half_w, flap[1] - 7, flap[0] + half_w, flap[1] + 7, 2.5))

    # Below the car: what a plan view cannot show.
    y = L + 46
    sheet.add("underside", "panel extra", rounded(-W, y - 25, 18, y + 25, 8))
    for side_y in (y - 8, y + 8):
        sheet.add(None, "line extra", trail([bow((-W + 14, side_y), (-14, side_y))]))
    sheet.add(None, "line extra", oval(-W + 24, y, 6, 14))
    sheet.add(None, "line extra", oval(-6, y, 6, 14))
    x, r = W - 26, 30
    sheet.add("spare-tyre", "tyre extra", oval(x, y, r, r) + " " + oval(x, y, r * 0.62, r * 0.62))
    sheet.add("spare-wheel", "wheel extra", oval(x, y, r * 0.62, r * 0.62))

    left, right, top, bottom = -W - 24, W + 24, -4, L + 9
    body = "\n".join(
        f'  <path {f"""id="{i}" """ if i else ""}class="{c}" d="{d}"/>' for i, c, d in sheet.rows)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<!--\n{ABOUT}\nDrawn by draw.py; change it there.\n-->\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{num(left)} {num(top)} {num(right - left)} {num(bottom - top)}" '
        f'fill="none" stroke="#000" stroke-width="1.2" stroke-linejoin="round">\n'
        f"{body}\n</svg>\n"
    )


if __name__ == "__main__":
    here = pathlib.Path(__file__).parent
    for shape in SHAPES:
        (here / f"{shape}.svg").write_text(draw(shape), encoding="utf-8")
