"""Marks that several drawings share: dimensions, leaders, numbered spots, right and wrong."""

from __future__ import annotations

import math

from generator.drawings.lettering import SMALL, width
from generator.drawings.pen import Point, Sheet

HEAD_LENGTH = 6.0
HEAD_HALF = 2.4
SPOT = 9.5
"""Radius of a numbered spot."""


def arrow_head(sheet: Sheet, tip: Point, towards: Point, classes: str = "d-fill-sea") -> None:
    """A filled head at `tip`, pointing in the direction `towards`."""
    length = math.hypot(*towards)
    ux, uy = towards[0] / length, towards[1] / length
    x, y = tip[0] - HEAD_LENGTH * ux, tip[1] - HEAD_LENGTH * uy
    aside = (HEAD_HALF * uy, HEAD_HALF * ux)
    sheet.shape((tip, (x - aside[0], y + aside[1]), (x + aside[0], y - aside[1])), classes)


def arrow(sheet: Sheet, start: Point, tip: Point, *, colour: str = "sea") -> None:
    """A thin arrow from `start` to `tip`."""
    sheet.line((start, tip), f"d-dim d-stroke-{colour}")
    arrow_head(sheet, tip, (tip[0] - start[0], tip[1] - start[1]), f"d-fill-{colour}")


def span(sheet: Sheet, one: Point, other: Point) -> None:
    """A dimension line with a head at each end; from outside, if there is no room for heads between."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    length = math.hypot(dx, dy)
    if length >= 2.2 * HEAD_LENGTH:
        sheet.line((one, other), "d-dim d-stroke-sea")
        arrow_head(sheet, one, (-dx, -dy))
        arrow_head(sheet, other, (dx, dy))
        return
    if length < 1e-6:
        return
    ux, uy = dx / length * 2 * HEAD_LENGTH, dy / length * 2 * HEAD_LENGTH
    sheet.line(((one[0] - ux, one[1] - uy), (other[0] + ux, other[1] + uy)), "d-dim d-stroke-sea")
    arrow_head(sheet, one, (dx, dy))
    arrow_head(sheet, other, (-dx, -dy))


def spot(sheet: Sheet, x: float, y: float, words: str, classes: str = "d-spot") -> None:
    """A number in a ring."""
    sheet.ring(x, y, max(SPOT, width(words) / 2 + 2), classes)
    sheet.text(x, y + 0.36 * SMALL, words, f"d-small d-bold {classes}-text", anchor="middle")


def right(sheet: Sheet, x: float, y: float) -> None:
    """A tick in a ring: done this way."""
    sheet.ring(x, y, SPOT, "d-right")
    sheet.line(((x - 4.5, y + 0.5), (x - 1, y + 4), (x + 5, y - 4)), "d-right-sign")


def wrong(sheet: Sheet, x: float, y: float) -> None:
    """A cross in a ring: not this way."""
    sheet.ring(x, y, SPOT, "d-wrong")
    sheet.line(((x - 4, y - 4), (x + 4, y + 4)), "d-wrong-sign")
    sheet.line(((x - 4, y + 4), (x + 4, y - 4)), "d-wrong-sign")


def line_up_mark(sheet: Sheet, x: float, y: float, reach: float = 5.0) -> None:
    """The centre cross that is on every rib."""
    strokes = (((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach)))
    for classes in ("d-mark-under", "d-mark"):
        for stroke in strokes:
            sheet.line(stroke, classes)
