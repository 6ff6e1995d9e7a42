# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Curves of the outlines and the SVG path texts made of them. Points are (x, y) pairs."""
import math


class Curve:
    """A cubic piece from a to d."""

    def __init__(self, a, b, c, d):
        self.a, self.b, self.c, self.d = a, b, c, d

    def at(self, t):
        s = 1 - t
        return tuple(
            s**3 * p + 3 * s * s * t * q + 3 * s * t * t * r + t**3 * e
            for p, q, r, e in zip(self.a, self.b, self.c, self.d)
        )

    def rev(self):
        return Curve(self.d, self.c, self.b, self.a)

    def mirror(self):
        return Curve(*((-x, y) for x, y in (self.a, self.b, self.c, self.d)))

    def sub(self, t0, t1):
        def mix(p, q, t):
            return tuple(u + (v - u) * t for u, v in zip(p, q))

        def left(k, t):
            ab, bc, cd = mix(k.a, k.b, t), mix(k.b, k.c, t), mix(k.c, k.d, t)
            abc, bcd = mix(ab, bc, t), mix(bc, cd, t)
            return Curve(k.a, ab, abc, mix(abc, bcd, t))

        head = left(self, t1)
        return left(head.rev(), 1 - t0 / t1).rev() if t0 > 0 else head

    def at_y(self, y):
        """Parameter where a piece that only goes down (or up) reaches y."""
        lo, hi = 0.0, 1.0
        down = self.d[1] > self.a[1]
        for _ in range(50):
            mid = (lo + hi) / 2
            if (self.at(mid)[1] < y) == down:
                lo = mid
            else:
                hi = mid
        return lo


def bow(a, d, by=0.0):
    """From a to d, the middle pushed by `by` units to the left of the way."""
    dx, dy = d[0] - a[0], d[1] - a[1]
    n = math.hypot(dx, dy) or 1.0
    ox, oy = dy / n * by * 4 / 3, -dx / n * by * 4 / 3
    return Curve(
        a,
        (a[0] + dx / 3 + ox, a[1] + dy / 3 + oy),
        (a[0] + dx * 2 / 3 + ox, a[1] + dy * 2 / 3 + oy),
        d,
    )


def num(v):
    text = f"{v:.1f}"
    text = text[:-2] if text.endswith(".0") else text
    return "0" if text == "-0" else text


def pt(p):
    return f"{num(p[0])} {num(p[1])}"


def closed(pieces, mirrored=False):
    pieces = [k if isinstance(k, Curve) else Curve(k, k, k, k) for k in pieces]
    if mirrored:
        pieces = [k.mirror() for k in pieces]
    return trail(pieces) + " Z"


def trail(pieces):
    out = [f"M {pt(pieces[0].a)}"]
    end = pieces[0].a
    for k in pieces:
        if math.dist(end, k.a) > 0.05:
            out.append(f"L {pt(k.a)}")
        if math.dist(k.a, k.d) > 0.05:
            out.append(f"C {pt(k.b)} {pt(k.c)} {pt(k.d)}")
        end = k.d
    return " ".join(out)


def whole(half):
    """A symmetric outline from its left half, which runs from the middle line to the middle line."""
    return closed(half + [k.rev().mirror() for k in reversed(half)])


def rounded(x0, y0, x1, y1, r):
    """A rectangle; r is one radius, or four from the top left, clockwise."""
    tl, tr, br, bl = (r,) * 4 if not isinstance(r, tuple) else r
    k = 0.45
    out = [f"M {pt((x0 + tl, y0))} L {pt((x1 - tr, y0))}"]
    if tr:
        out.append(f"C {pt((x1 - tr * k, y0))} {pt((x1, y0 + tr * k))} {pt((x1, y0 + tr))}")
    out.append(f"L {pt((x1, y1 - br))}")
    if br:
        out.append(f"C {pt((x1, y1 - br * k))} {pt((x1 - br * k, y1))} {pt((x1 - br, y1))}")
    out.append(f"L {pt((x0 + bl, y1))}")
    if bl:
        out.append(f"C {pt((x0 + bl * k, y1))} {pt((x0, y1 - bl * k))} {pt((x0, y1 - bl))}")
    out.append(f"L {pt((x0, y0 + tl))}")
    if tl:
        out.append(f"C {pt((x0, y0 + tl * k))} {pt((x0 + tl * k, y0))} {pt((x0 + tl, y0))}")
    return " ".join(out) + " Z"


def oval(x, y, rx, ry):
    k = 0.5523
    return (
        f"M {pt((x - rx, y))} C {pt((x - rx, y - ry * k))} {pt((x - rx * k, y - ry))} {pt((x, y - ry))} "
        f"C {pt((x + rx * k, y - ry))} {pt((x + rx, y - ry * k))} {pt((x + rx, y))} "
        f"C {pt((x + rx, y + ry * k))} {pt((x + rx * k, y + ry))} {pt((x, y + ry))} "
        f"C {pt((x - rx * k, y + ry))} {pt((x - rx, y + ry * k))} {pt((x - rx, y))} Z"
    )


def whole_band(outer, inner):
    """The band between two curves that run from the side to the middle, with its mirror image."""
    # Out along the outer curve to the left, back along the inner one, on to the right, and home.
    return closed([outer.rev(), inner, inner.rev().mirror(), outer.mirror()])
