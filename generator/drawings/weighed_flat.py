"""Why a thin panel is weighed flat: pressed at its edges it springs up; under battens and weights it can't."""

from __future__ import annotations

import math

from generator.drawings.marks import arrow, right, wrong
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_LEFT, _RIGHT = 62.0, WIDE - 62.0
_THICK = 9.0
_PLANKS = 6
_RISE = 26.0


def weighed_flat(figures: Figures) -> str:
    """The panel's end twice: squeezed and sprung up, then weighed down and flat."""
    limit, joint = shown(figures, "panel.press.buckles"), shown(figures, "panel.press.joint")
    sheet = Sheet(
        "weighed_flat",
        title="Weighed flat, not squeezed",
        words="The end of a panel on a table. Squeezed from both edges with nothing on it, the thin panel springs up "
        "in the middle and the joints open. With parting sheet, a batten across it and weights on the batten, it stays "
        "flat while the edges are drawn together gently.",
    )
    sheet.note(EDGE, 18, "The panel's end, thickness not to scale", "d-small d-bold")
    wrong(sheet, EDGE + 10, 44)
    table = 96.0
    _table(sheet, table)
    _bar(sheet, table, _RISE)
    for side, edge in ((1, _LEFT), (-1, _RIGHT)):
        arrow(sheet, (edge - side * 44, table - 4.5), (edge - side * 5, table - 4.5), colour="warn")
    y = sheet.note(EDGE, table + 26, f"Squeezed with nothing on it: springs up at about {limit} of edge at the latest.")
    table = y + 70
    right(sheet, EDGE + 10, y + 12)
    _table(sheet, table)
    _bar(sheet, table, 0.0)
    over = table - _THICK
    sheet.line(((_LEFT - 4, over - 2), (_RIGHT + 4, over - 2)), "d-pencil")
    sheet.box(_LEFT - 4, over - 17, _RIGHT + 4, over - 4, "d-thing")
    for x in (_LEFT + 40, WIDE / 2, _RIGHT - 40):
        sheet.box(x - 20, over - 43, x + 20, over - 17, "d-thing", round_by=4)
    for side, edge in ((1, _LEFT), (-1, _RIGHT)):
        arrow(sheet, (edge - side * 30, table - 4.5), (edge - side * 9, table - 4.5))
    y = sheet.note(EDGE, table + 26, f"Sheet, batten, weights: {joint} of joint. Edges drawn together gently.")
    return sheet.svg(y - 4)


def _table(sheet: Sheet, y: float) -> None:
    sheet.line(((EDGE + 12, y), (WIDE - EDGE - 12, y)), "d-heavy")


def _bar(sheet: Sheet, base: float, rise: float) -> None:
    """The panel on its table, plank by plank, bowed up by `rise` in the middle."""

    def at(share: float, up: float) -> Point:
        return (_LEFT + share * (_RIGHT - _LEFT), base - rise * math.sin(math.pi * share) - up)

    for n in range(_PLANKS):
        shares = [(n + k / 6) / _PLANKS for k in range(7)]
        under = [at(share, 0) for share in shares]
        over = [at(share, _THICK) for share in reversed(shares)]
        sheet.shape([*under, *over], "d-wood")
