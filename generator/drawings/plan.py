"""The board from above, standing on its tail: outline, ribs, line-up marks."""

from __future__ import annotations

from generator.drawings.lettering import SMALL, spread
from generator.drawings.marks import SPOT, line_up_mark, spot
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.figures import Curve, Figures

_TALL = 520.0
_HALF = 68.0
_TOP = 62.0
_MIDDLE = WIDE / 2


def plan(figures: Figures) -> str:
    """To scale; every rib with its place from the tail tip and the frame's half width there."""
    length_mm = value(figures, "board.length")
    outline = figures.curves["outline.finished"]
    per_mm = min(_TALL / length_mm, _HALF / max(outline.y))
    tail_y = _TOP + length_mm * per_mm
    sheet = Sheet(
        "plan",
        title="The board from above",
        words=f"Outline, nose up, {shown(figures, 'board.length')} long and {shown(figures, 'board.width')} wide, with "
        f"{len(figures.rows['ribs'])} numbered ribs, each with its distance from the tail tip and its half width. "
        "A cross on the centre line of every rib is the line-up mark.",
    )

    def across(curve: Curve, side: int) -> tuple[Point, ...]:
        pairs = zip(curve.x_mm, curve.y, strict=True)
        return tuple((_MIDDLE + side * y * per_mm, tail_y - x * per_mm) for x, y in pairs)

    sheet.shape(across(outline, -1) + across(outline, 1)[::-1], "d-wood")
    frame = figures.curves["outline.frame"]
    if value(figures, "board.rail") > 0:
        sheet.shape(across(frame, -1) + across(frame, 1)[::-1], "d-open d-hidden")
    sheet.line(((_MIDDLE, _TOP + 3), (_MIDDLE, tail_y - 3)), "d-line")
    _ribs(sheet, figures, per_mm, tail_y)
    sheet.text(_MIDDLE, _TOP - 7, "nose", "d-small d-bold", anchor="middle")
    sheet.text(_MIDDLE, tail_y + 17, "tail", "d-small d-bold", anchor="middle")
    sheet.note(EDGE, 16, "Ribs, measured from the tail tip", room=110)
    sheet.note(WIDE - EDGE, 16, "Half width of the frame", anchor="end", room=100)
    y = _legend(sheet, figures, tail_y + 42)
    return sheet.svg(y)


def _ribs(sheet: Sheet, figures: Figures, per_mm: float, tail_y: float) -> None:
    rows = figures.rows["ribs"]
    places = [tail_y - value(figures, f"{row['key']}.from_tail") * per_mm for row in rows][::-1]
    height = 2 * SPOT + 3
    labels = spread(places, [height] * len(places), low=_TOP - 12, high=tail_y + 14)
    for row, y, label_y in zip(rows[::-1], places, labels, strict=True):
        half = value(figures, f"{row['key']}.half_width") * per_mm
        base = label_y + 0.36 * SMALL
        sheet.line(((102, label_y), (_MIDDLE - half - 4, y)), "d-hair")
        sheet.line(((_MIDDLE + half + 4, y), (262, label_y)), "d-hair")
        sheet.line(((_MIDDLE - half, y), (_MIDDLE + half, y)), "d-heavy")
        line_up_mark(sheet, _MIDDLE, y)
        spot(sheet, EDGE + SPOT, label_y, str(row["n"]))
        sheet.text(EDGE + 2 * SPOT + 5, base, shown(figures, f"{row['key']}.from_tail"))
        sheet.text(WIDE - EDGE, base, shown(figures, f"{row['key']}.half_width"), anchor="end")


def _legend(sheet: Sheet, figures: Figures, y: float) -> float:
    line_up_mark(sheet, EDGE + 12, y - 4)
    y = sheet.note(38, y, "Line-up mark: the centre cross on every rib")
    if value(figures, "board.rail") > 0:
        sheet.line(((EDGE, y - 4), (EDGE + 24, y - 4)), "d-hidden")
        y = sheet.note(38, y, "Edge of the frame; the rails go on outside it")
    size = f"{shown(figures, 'board.length')} long, {shown(figures, 'board.width')} wide. Drawn to scale."
    return sheet.note(EDGE, y, size, "d-small d-bold") - 4
