"""The frame from above with the two diagonals that a tape measures."""

from __future__ import annotations

from generator.drawings.marks import arrow_head
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View
from generator.figures import Figures

_TOP = 44.0


def diagonals(figures: Figures) -> str:
    """To scale, tail on the left: outline, ribs, and the tape from corner to opposite corner both ways."""
    first, second = figures.said["diagonal_first"], figures.said["diagonal_second"]
    sheet = Sheet(
        "diagonals",
        title="Two diagonals show whether the frame is square",
        words=f"The frame from above. A tape runs from the left end of rib {first} to the right end of rib {second}, "
        f"and another from the right end of rib {first} to the left end of rib {second}. Both are about "
        f"{shown(figures, 'frame.diagonal')} long and may differ by {shown(figures, 'frame.diagonal_limit')}.",
    )
    sheet.note(EDGE, 18, "The frame from above, tail on the left", "d-small d-bold")
    outline = figures.curves["outline.frame"]
    per_mm = (WIDE - 2 * EDGE) / value(figures, "board.length")
    half = max(outline.y) * per_mm
    view = View(EDGE, _TOP + half, per_mm)
    upper = view.line(outline.x_mm, outline.y)
    sheet.shape(upper + view.line(outline.x_mm, [-y for y in outline.y])[::-1], "d-wood")
    sheet.line(view.line((outline.x_mm[0], outline.x_mm[-1]), (0, 0)), "d-frame")
    ends: dict[int, tuple[Point, Point]] = {}
    for row in figures.rows["ribs"]:
        x, reach = value(figures, f"{row['key']}.from_tail"), value(figures, f"{row['key']}.half_width")
        left, right = view.line((x, x), (reach, -reach))
        sheet.line((left, right), "d-frame")
        ends[row["n"]] = (left, right)
    for one, other in ((ends[first][0], ends[second][1]), (ends[first][1], ends[second][0])):
        sheet.line((one, other), "d-mark-under")
        sheet.line((one, other), "d-heavy d-stroke-sea")
        arrow_head(sheet, one, (one[0] - other[0], one[1] - other[1]))
        arrow_head(sheet, other, (other[0] - one[0], other[1] - one[1]))
    base = view.base + half
    for number in (first, second):
        x = ends[number][1][0]
        sheet.line(((x, ends[number][1][1] + 3), (x, base + 6)), "d-hair")
        sheet.text(
            min(max(x, EDGE + 24), WIDE - EDGE - 24), base + 18, f"rib {number}", "d-small d-bold", anchor="middle"
        )
    y = sheet.note(EDGE, base + 40, f"Both about {shown(figures, 'frame.diagonal')}, from corner to corner")
    y = sheet.note(EDGE, y, f"They may differ by {shown(figures, 'frame.diagonal_limit')}, no more", "d-small d-bold")
    return sheet.svg(y - 4)
