"""Boards that bridge ribs, with the weights that press spine and ribs."""

from __future__ import annotations

from generator.drawings.marks import arrow, right, spot, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View
from generator.figures import Figures

_TOP = 30.0
_BOARD = 11.0
_PANEL = 5.0
_RIB = 26.0
_PAST_MM = 40.0


def bridges(figures: Figures) -> str:
    """From above, to scale, the numbered boards; then from the side where a weight may stand and where not."""
    rows = figures.rows["press_boards"]
    sheet = Sheet(
        "bridges",
        title="Boards that bridge two ribs each",
        words=f"{len(rows)} short boards lie along the spine, each from one rib to the next, with weights on them. A "
        "weight on a board presses ribs and spine. A weight on the bare panel only bends the panel away.",
    )
    sheet.note(EDGE, 18, "From above, tail on the left", "d-small d-bold")
    outline = figures.curves["outline.frame"]
    per_mm = (WIDE - 2 * EDGE) / value(figures, "board.length")
    half = max(outline.y) * per_mm
    view = View(EDGE, _TOP + half, per_mm)
    sheet.shape(view.line(outline.x_mm, outline.y) + view.line(outline.x_mm, [-y for y in outline.y])[::-1], "d-wood")
    sheet.line(view.line((outline.x_mm[0], outline.x_mm[-1]), (0, 0)), "d-frame")
    places = {row["n"]: value(figures, f"{row['key']}.from_tail") for row in figures.rows["ribs"]}
    for row in figures.rows["ribs"]:
        x, reach = places[row["n"]], value(figures, f"{row['key']}.half_width")
        sheet.line(view.line((x, x), (-reach, reach)), "d-frame")
    for row in rows:
        left, end = view.x(places[row["first"]] - _PAST_MM), view.x(places[row["second"]] + _PAST_MM)
        sheet.box(left, view.base - _BOARD, end, view.base + _BOARD, "d-thing", round_by=1)
        spot(sheet, (left + end) / 2, view.base, str(row["n"]), "d-spot-on")
    y = sheet.note(
        EDGE, view.base + half + 22, f"In all about {shown(figures, 'press.need')}, board by board in the list"
    )
    sheet.line(((EDGE, y + 2), (WIDE - EDGE, y + 2)), "d-hair")
    return sheet.svg(_side(sheet, y + 24))


def _side(sheet: Sheet, y: float) -> float:
    """Two ribs from the side: a weight on a board across both, and one on the bare panel."""
    sheet.text(EDGE, y, "From the side", "d-small d-bold")
    base = y + 74
    right(sheet, EDGE + 10, y + 20)
    wrong(sheet, 192, y + 20)
    for left, end in ((EDGE, 164.0), (182.0, WIDE - EDGE)):
        good = left < 100
        dip = 0.0 if good else 9.0
        middle = (left + end) / 2
        ribs = (middle - 42, middle + 42)
        lower = [(left + (end - left) * i / 20, 0.0) for i in range(21)]
        bent = [(x, base + dip * max(0.0, 1 - ((x - middle) / 42) ** 2)) for x, _ in lower]
        sheet.shape([*bent, *((x, h + _PANEL) for x, h in bent[::-1])], "d-wood")
        for x in ribs:
            sheet.box(x - 3, base - _RIB, x + 3, base, "d-thing")
        if good:
            sheet.box(ribs[0] - 12, base - _RIB - 6, ribs[1] + 12, base - _RIB, "d-pad")
        foot = base - _RIB - 6 if good else base + dip
        sheet.box(middle - 17, foot - 24, middle + 17, foot, "d-steel", round_by=5)
    arrow(sheet, (26, base + 24), (41, base - 6))
    sheet.text(EDGE, base + 36, "rib")
    y = sheet.note(60, base + 36, "weight on a board: ribs and spine are pressed", room=116)
    return max(y, sheet.note(182, base + 36, "weight on bare panel: it bends away from the ribs", room=160)) - 4
