"""Two ways to see a bump: a low lamp, and a batten that rocks or shows a gap."""

from __future__ import annotations

import math

from generator.drawings.marks import arrow, span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown
from generator.figures import Figures


def raking_light(figures: Figures) -> str:
    """A lamp low beside the board; below, a batten along it. Not to scale."""
    gap, batten = shown(figures, "shape.gap"), shown(figures, "shape.batten")
    sheet = Sheet(
        "raking-light",
        title="Two ways to see a bump",
        words="A lamp held low beside the board lets every bump throw a shadow. A bendy batten laid along the board "
        f"shows a gap on both sides of a bump; {gap} under {batten} is the limit.",
    )
    sheet.note(EDGE, 18, "A low lamp in a dark room", "d-small d-bold")
    y = _lamp(sheet, 34)
    sheet.line(((EDGE, y - 12), (WIDE - EDGE, y - 12)), "d-hair")
    sheet.note(EDGE, y + 6, f"A bendy batten, {batten} long", "d-small d-bold")
    y = _batten(sheet, y + 20)
    y = sheet.note(EDGE, y, f"No gap wider than {gap}. Push down lightly at both ends: it must not rock.")
    return sheet.svg(y - 4)


def _surface(base: float, *, bump: float, at: float = 190.0, wide: float = 34.0) -> list[Point]:
    """A gentle arc with a bump in it, from left to right."""
    out = []
    for i in range(81):
        x = 30 + i * (WIDE - 60) / 80
        swell = bump * math.exp(-(((x - at) / wide) ** 2))
        out.append((x, base + 10 * ((x - WIDE / 2) / 150) ** 2 - swell))
    return out


def _lamp(sheet: Sheet, top: float) -> float:
    base = top + 62
    line = _surface(base, bump=9)
    sheet.shape([*line, (WIDE - 30, base + 34), (30, base + 34)], "d-wood")
    shadow = [point for point in line if 120 < point[0] < 186]
    sheet.line(shadow, "d-heavy")
    lamp = (WIDE - 22, top + 46)
    sheet.ring(*lamp, 8, "d-spot-on")
    for end in ((198, base - 10), (240, base - 1), (130, base - 2)):
        arrow(sheet, (lamp[0] - 12, lamp[1]), end)
    sheet.text(WIDE - EDGE, top + 26, "lamp", anchor="end")
    sheet.note(30, top + 30, "the shadow lies on the far side of the bump", room=150)
    return base + 60


def _batten(sheet: Sheet, top: float) -> float:
    base = top + 34
    line = _surface(base, bump=7)
    sheet.shape([*line, (WIDE - 30, base + 30), (30, base + 30)], "d-wood")
    fair = [(x, base - 7.5 + 10 * ((x - WIDE / 2) / 150) ** 2) for x in (60 + i * 5.5 for i in range(41))]
    sheet.shape([*fair, *[(x, y - 6) for x, y in fair[::-1]]], "d-pad")
    left = 112.0
    span(sheet, (left, base - 7.5 + 10 * ((left - WIDE / 2) / 150) ** 2), (left, base + 10 * ((left - 175) / 150) ** 2))
    sheet.text(96, top + 10, "gap", anchor="end")
    sheet.text(190, base + 14, "bump", anchor="middle")
    return base + 50
