"""Pencil lines for rounding one edge of a rail, in two goes, to scale."""

from __future__ import annotations

import math

from generator.drawings.marks import SPOT, spot
from generator.drawings.pen import EDGE, Sheet
from generator.drawings.read import shown, value
from generator.figures import Figures

_TOP = 50.0
_ROOM = 100.0


def round_lines(figures: Figures) -> str:
    """The upper half of the rail half-way along, cut across: the first flat, then the two beside it."""
    key = "shape.round.2"
    names = ("first_in", "first_down", "second_on_flat", "second_in", "second_down")
    texts = dict(zip(names, (shown(figures, f"{key}.{name}") for name in names), strict=True))
    sheet = Sheet(
        "round-lines",
        title="Pencil lines for a round rail",
        words=f"First flat: from {texts['first_in']} on the deck to {texts['first_down']} on the side. Second "
        f"flats: lines {texts['second_on_flat']} from each edge of the first flat, {texts['second_in']} on the deck "
        f"and {texts['second_down']} on the side.",
    )
    sheet.note(EDGE, 18, "Upper half of the rail half-way along, to scale", "d-small d-bold")
    wide, high = value(figures, f"{key}.width"), value(figures, f"{key}.height")
    per_mm = _ROOM / max(wide, high)
    for left, second in ((44.0, False), (206.0, True)):
        _corner(sheet, figures, (left, per_mm), second=second)
    y = _TOP + high * per_mm + 34
    for number, name, words in (
        (1, "first_in", "from the outside, on the deck"),
        (2, "first_down", "from the deck, on the side"),
        (3, "second_on_flat", "from each edge of the first flat"),
        (4, "second_in", "from the outside, on the deck"),
        (5, "second_down", "from the deck, on the side"),
    ):
        spot(sheet, EDGE + SPOT, y - 4, str(number))
        y = max(sheet.note(EDGE + 2 * SPOT + 8, y, f"{texts[name]} {words}"), y + 2 * SPOT + 3)
    return sheet.svg(y - 8)


def _corner(sheet: Sheet, figures: Figures, at: tuple[float, float], *, second: bool) -> None:
    """The rail's upper half: its inside on the left, outermost line on the right."""
    (left, per_mm), key = at, "shape.round.2"
    wide, high = value(figures, f"{key}.width") * per_mm, value(figures, f"{key}.height") * per_mm
    ins = [value(figures, f"{key}.{name}") * per_mm for name in ("first_in", "second_in")]
    downs = [value(figures, f"{key}.{name}") * per_mm for name in ("first_down", "second_down")]
    right, low = left + wide, _TOP + high
    first = ((right - ins[0], _TOP), (right, _TOP + downs[0]))
    if second:
        sheet.shape(((left, _TOP), *first, (right, low), (left, low)), "d-wood")
    else:
        sheet.box(left, _TOP, right, low, "d-wood")
    ellipse = [
        (left + wide * math.sin(a), low - high * math.cos(a)) for a in (math.radians(d) for d in range(0, 91, 5))
    ]
    sheet.line(ellipse, "d-cut")
    if not second:
        sheet.line(first, "d-pencil")
        spot(sheet, right - ins[0], _TOP - SPOT - 4, "1")
        spot(sheet, right + SPOT + 5, _TOP + downs[0], "2")
        return
    (ax, ay), (bx, by) = first
    cut = value(figures, f"{key}.second_on_flat") * per_mm / max(math.hypot(bx - ax, by - ay), 1e-6)
    one = (ax + (bx - ax) * cut, ay + (by - ay) * cut)
    other = (bx - (bx - ax) * cut, by - (by - ay) * cut)
    sheet.line(((right - ins[1], _TOP), one), "d-pencil")
    sheet.line((other, (right, _TOP + downs[1])), "d-pencil")
    spot(sheet, right - ins[1], _TOP - SPOT - 4, "4")
    spot(sheet, right + SPOT + 5, _TOP + downs[1], "5")
    spot(sheet, (ax + bx) / 2 + 16, (ay + by) / 2 - 16, "3")
    for x, y in (one, other):
        sheet.ring(x, y, 2, "d-fill-sea")
