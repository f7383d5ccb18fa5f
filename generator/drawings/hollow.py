"""What a straight edge shows under a fair bottom and under one that is hollow, and which shim cures that."""

from __future__ import annotations

from collections.abc import Callable

from generator.drawings.marks import right, span, wrong
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_HALF = 150.0
_THICK = 9.0
_STICK = 11.0
_FAIR, _HOLLOW = 18.0, 13.0
"""How far the sketched bottoms curve over half the stick; far more than a real one, and not to scale."""


def hollow(figures: Figures) -> str:
    """A straight edge held against the underside, twice."""
    edge, limit = shown(figures, "bench.straight_edge"), shown(figures, "bench.pass_hollow")
    sheet = Sheet(
        "hollow",
        title="A straight edge under the bottom",
        words=f"A straight edge of {edge} is held lengthwise against the underside. Under a fair bottom it touches in "
        "its middle and rocks. Under a hollow it touches with both ends, and a gap shows in the middle. The support "
        f"under the hollow is too high. Up to {limit} passes.",
    )
    sheet.note(EDGE, 18, "The straight edge from below, not to scale", "d-small d-bold")
    y = _picture(sheet, 30, lambda t: _FAIR * t * t, good=True)
    y = sheet.note(EDGE, y, "Touches in the middle and rocks: fair.")
    y = _picture(sheet, y + 2, lambda t: _HOLLOW * (1 - t * t) ** 2, good=False)
    y = sheet.note(
        EDGE,
        y,
        f"Touches at both ends: hollow. More than {limit} is inverted. Take card out of the support under the "
        "hollow, or lay weight over it if none stands there.",
    )
    return sheet.svg(y - 4)


def _picture(sheet: Sheet, top: float, gap: Callable[[float], float], *, good: bool) -> float:
    """The bottom above a straight edge, `gap` apart at −1 to 1 along it; gives the baseline below."""
    x, stick = WIDE / 2, top + 54
    places = [t / 20 for t in range(-20, 21)]
    under: list[Point] = [(x + _HALF * t, stick - gap(t)) for t in places]
    over = [(a, b - _THICK) for a, b in under]
    sheet.shape([*under, *over[::-1]], "d-wood")
    sheet.box(x - _HALF, stick, x + _HALF, stick + _STICK, "d-thing")
    if good:
        for side in (-1, 1):
            end = x + side * (_HALF - 8)
            span(sheet, (end, stick - 7), (end, stick + _STICK + 7))
    else:
        span(sheet, (x, stick - gap(0)), (x, stick))
    (right if good else wrong)(sheet, EDGE + 10, top + 12)
    return stick + 36
