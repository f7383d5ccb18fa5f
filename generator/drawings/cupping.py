"""A panel with one damp face: it bends into a dish, hollow on the drier side."""

from __future__ import annotations

from generator.drawings.marks import arrow, span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_HALF = 138.0
_THICK = 9.0
_RISE = 30.0


def cupping(figures: Figures) -> str:
    """The panel's end, its lower face damp; the height of the dish for 1 % of difference."""
    known = "panel.cup" in figures.values
    dish = (
        f"{shown(figures, 'panel.cup')} high for {shown(figures, 'panel.cup_for')} of moisture between the faces"
        if known
        else "The damper the one face is than the other, the higher the dish"
    )
    sheet = Sheet(
        "cupping",
        title="What one damp face does",
        words="The end of a loose panel. Its lower face has taken up water and grown, its upper face has not. The "
        f"panel bends into a dish, hollow on the drier side. {dish}.",
    )
    sheet.note(EDGE, 18, "The panel's end, bend not to scale", "d-small d-bold")
    x, base = WIDE / 2, 96.0

    def along(up: float) -> list[Point]:
        return [(x + _HALF * t, base - _RISE * t * t - up) for t in (k / 20 for k in range(-20, 21))]

    sheet.shape([*along(0), *along(_THICK)[::-1]], "d-wood")
    sheet.line(along(-2), "d-pencil")
    sheet.line(((EDGE + 4, base), (WIDE - EDGE - 4, base)), "d-hair")
    span(sheet, (x + _HALF + 12, base - _RISE), (x + _HALF + 12, base))
    sheet.text(x, base - 40, "drier face: shorter", anchor="middle")
    sheet.text(x, base + 34, "damper face: longer", anchor="middle")
    arrow(sheet, (x, base + 20), (x, base + 5))
    return sheet.svg(sheet.note(EDGE, base + 58, dish) - 4)
