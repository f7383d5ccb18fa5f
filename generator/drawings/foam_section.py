"""Foam between two ribs, cut along the board: level with the ribs, with room for glue and air."""

from __future__ import annotations

from generator.drawings.marks import arrow, right, span, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_RIB = 10.0
_DEEP, _PANEL = 54.0, 11.0


def foam_section(figures: Figures) -> str:
    """Not to scale: the foam as it should stand, too high, too low."""
    gap = shown(figures, "foam.at_rib")
    sheet = Sheet(
        "foam-section",
        title="Foam in a bay",
        words=f"Cut along the board through two ribs. The foam is level with the ribs under a straight stick and keeps "
        f"{gap} clear of each rib. Foam higher than the ribs lifts the deck off; foam that lies low holds nothing up.",
    )
    sheet.note(EDGE, 18, "Cut along the board", "d-small d-bold")
    base = 62 + _DEEP
    _bay(sheet, 40, WIDE - 40, base, 0.0)
    span(sheet, (40 + _RIB, base + _PANEL + 12), (66, base + _PANEL + 12))
    sheet.text(74, base + _PANEL + 16, f"{gap} clear of the rib")
    arrow(sheet, (WIDE - 70, 36), (WIDE - 90, base - _DEEP - 9))
    sheet.text(WIDE - EDGE, 31, "straight stick over the ribs", anchor="end")
    sheet.text(WIDE / 2, base - 22, "foam", anchor="middle")
    sheet.text(WIDE / 2, base + _PANEL + 34, "bottom panel under it, glue between", anchor="middle")
    top = base + 84
    for left, over, words in ((24, 7.0, "too high"), (196, -10.0, "too low")):
        _bay(sheet, left, left + 130, top + _DEEP, over)
        wrong(sheet, left + 10, top + _DEEP + _PANEL + 20)
        sheet.text(left + 26, top + _DEEP + _PANEL + 24, words)
    right(sheet, 16, base - _DEEP + 6)
    return sheet.svg(top + _DEEP + _PANEL + 40)


def _bay(sheet: Sheet, left: float, right_end: float, base: float, over: float) -> None:
    """Two ribs on the bottom panel, foam between them `over` their tops, and the stick."""
    stick = base - _DEEP - max(over, 0.0)
    sheet.box(left - 12, base, right_end + 12, base + _PANEL, "d-wood")
    for x in (left, right_end - _RIB):
        sheet.box(x, base - _DEEP, x + _RIB, base, "d-fill-wood-deep")
    sheet.box(left + 26, base - _DEEP - over, right_end - 26, base - 2, "d-thing")
    sheet.box(left + 26, base - 2, right_end - 26, base, "d-glue")
    sheet.box(left - 14, stick - 8, right_end + 14, stick, "d-paper")
