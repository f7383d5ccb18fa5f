"""The panel from above with the stretches of its cut, from the widest place towards the tips."""

from __future__ import annotations

from generator.drawings.marks import SPOT, arrow_head, spot
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import value
from generator.drawings.view import View, at
from generator.figures import Figures, Row

_TOP = 56.0
_GRAIN = 7
_SPOT_UP = 17.0
_FAR_MM = 60.0


def cut_order(figures: Figures) -> str:
    """To scale, tail on the left: the panel, its grain, the line, and the numbered stretches of one side."""
    rows = figures.rows["cut_stretches"]
    sheet = Sheet(
        "cut_order",
        title="The order of the cut",
        words=f"The panel from above, the grain running along it. Each side is cut in {len(rows)} stretches. Every "
        "stretch starts nearer the widest place and runs towards a tip. First one side, then the other.",
    )
    sheet.note(EDGE, 18, "The panel from above, tail on the left", "d-small d-bold")
    line = figures.curves["outline.trace"]
    tips = value(figures, "trace.margin_tips")
    length = value(figures, "board.length") + 2 * tips
    per_mm = (WIDE - 2 * EDGE) / length
    half = max(value(figures, "panel.width") / 2, max(line.y)) * per_mm
    view = View(EDGE + tips * per_mm, _TOP + half, per_mm)
    sheet.box(EDGE, view.base - half, WIDE - EDGE, view.base + half, "d-wood")
    for n in range(1, _GRAIN):
        y = view.base - half + 2 * half * n / _GRAIN
        sheet.line(((EDGE + 3, y), (WIDE - EDGE - 3, y)), "d-grain")
    sheet.line(view.line(line.x_mm, [-y for y in line.y]), "d-pencil")
    for row in rows:
        _stretch(sheet, figures, view, row, half)
    y = view.base + half + 22
    spot(sheet, EDGE + SPOT, y - 4, "1", "d-spot-on")
    y = sheet.note(36, y, "Saw towards the tip, in this order") + 4
    sheet.line(((EDGE, y - 4), (EDGE + 22, y - 4)), "d-pencil")
    y = sheet.note(36, y, "Then the other side, the same way") + 4
    sheet.line(((EDGE, y - 4), (EDGE + 22, y - 4)), "d-grain")
    return sheet.svg(sheet.note(36, y, "Grain: a split runs along it, into the offcut") - 2)


def _stretch(sheet: Sheet, figures: Figures, view: View, row: Row, half: float) -> None:
    """One stretch of the upper side as a line with its arrow, and its number over the panel."""
    line = figures.curves["outline.trace"]
    start, end = (value(figures, f"{row['key']}.{part}") for part in ("from", "to"))
    tips = value(figures, "trace.margin_tips")
    reach = {"tail": -tips, "nose": value(figures, "board.length") + tips}.get(row["tip"], end)
    places = [start + (reach - start) * i / 60 for i in range(61)]
    points: list[Point] = [(view.x(x), view.y(at(line, x))) for x in places]
    sheet.line(points, "d-cut")
    tip, before = (points[-1], points[-5]) if not row["tip"] else (points[36], points[32])
    arrow_head(sheet, tip, (tip[0] - before[0], tip[1] - before[1]), "d-fill-warn")
    first = points[0]
    sheet.line(((first[0], first[1] - 4), (first[0], first[1] + 4)), "d-line")
    middle = points[30][0]
    number = view.base - half - _SPOT_UP
    sheet.line(((middle, number), points[30]), "d-hair")
    spot(
        sheet,
        min(max(middle, EDGE + SPOT), WIDE - EDGE - SPOT),
        number,
        str(row["n"]),
        "d-spot-on" if row["n"] == 1 else "d-spot",
    )
