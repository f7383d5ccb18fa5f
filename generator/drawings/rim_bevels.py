"""The bevel at every rib, round the rim from tail to nose."""

from __future__ import annotations

import math

from generator.drawings.lettering import spread, width
from generator.drawings.marks import arrow
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View
from generator.figures import Figures, Row

_ROWS = 2
_ROW = 18.0
_BASE = 34.0


def rim_bevels(figures: Figures) -> str:
    """One half of the frame from above, to scale, with the slope of the deck at each rib; then the angle itself."""
    rows = figures.rows["rail_bevels"]
    listed = ", ".join(f"rib {row['n']}: {_bevel(figures, row)}" for row in rows)
    sheet = Sheet(
        "rim-bevels",
        title="The bevel at every rib",
        words=f"Half of the frame from above, tail on the left. Bevel of the first layer's top edge at {listed}.",
    )
    sheet.note(EDGE, 18, "Half of the frame from above, tail on the left", "d-small d-bold")
    outline = figures.curves["outline.frame"]
    per_mm = (WIDE - 2 * EDGE) / value(figures, "board.length")
    tall = max(outline.y) * per_mm
    view = View(EDGE, _BASE, per_mm, -1.0)
    ends = (view.x(outline.x_mm[0]), _BASE), (view.x(outline.x_mm[-1]), _BASE)
    sheet.shape((ends[0], *view.line(outline.x_mm, outline.y), ends[1]), "d-wood")
    sheet.line(((EDGE, _BASE), (WIDE - EDGE, _BASE)), "d-line")
    labels = _BASE + tall + 22
    for number in range(_ROWS):
        _labels(sheet, figures, view, labels + number * _ROW, number)
    return sheet.svg(_angle(sheet, figures, labels + _ROWS * _ROW + 16))


def _bevel(figures: Figures, row: Row) -> str:
    return shown(figures, f"{row['key']}.bevel")


def _labels(sheet: Sheet, figures: Figures, view: View, y: float, number: int) -> None:
    """Every second rib's angle on one line, joined to its rib's end."""
    rows = figures.rows["rail_bevels"][number::_ROWS]
    places = [view.x(value(figures, f"frame.rib.{row['n']}.from_tail")) for row in rows]
    words = [_bevel(figures, row) for row in rows]
    middles = spread(places, [width(word) + 5 for word in words], low=EDGE, high=WIDE - EDGE)
    for row, x, middle, word in zip(rows, places, middles, words, strict=True):
        end = view.y(value(figures, f"frame.rib.{row['n']}.half_width"))
        sheet.line(((x, _BASE), (x, end)), "d-line")
        sheet.line(((x, end + 2), (middle, y - 11)), "d-hair")
        sheet.text(middle, y, word, anchor="middle")


def _angle(sheet: Sheet, figures: Figures, y: float) -> float:
    """The first layer's top edge, square and bevelled; the angle drawn four times too large."""
    sheet.line(((EDGE, y - 12), (WIDE - EDGE, y - 12)), "d-hair")
    sheet.note(EDGE, y + 4, "The first layer's top edge, cut across", "d-small d-bold")
    left, right, top, low = 40.0, 92.0, y + 26, y + 84
    fall = min(26.0, (right - left) * math.tan(math.radians(min(4 * value(figures, "rail.bevel_most"), 60))))
    sheet.shape(((left, top), (right, top + fall), (right, low), (left, low)), "d-wood")
    sheet.line(((left, top), (right, top), (right, top + fall)), "d-hidden")
    sheet.line(((EDGE, top), (left, top)), "d-heavy")
    arrow(sheet, (126, top + 4), (right + 2, top + fall / 2))
    words = sheet.note(132, top + 8, "plane this corner off, so that the deck's slope runs on; drawn much too steep")
    words = sheet.note(132, words + 4, "lower edge stays square")
    return max(low + 10, words - 2)
