"""Why a finish goes on while the room cools: what the air inside the board does to it."""

from __future__ import annotations

from generator.drawings.marks import arrow, right, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.figures import Figures

_LEFT = (EDGE, 168.0)
_RIGHT = (182.0, WIDE - EDGE)
_FINISH, _WOOD, _AIR, _END = 66.0, 74.0, 104.0, 160.0


def sealing_air(figures: Figures) -> str:
    """The deck cut across, twice: warming with bubbles in the wet finish, cooling with the finish drawn in."""
    sheet = Sheet(
        "sealing-air",
        title="Put the finish on while the room cools",
        words="The deck cut across, twice. On the left the air inside grows warmer, pushes out through the wood and "
        "leaves bubbles in the wet finish. On the right it grows cooler and draws the finish into the wood.",
    )
    wrong(sheet, _LEFT[0] + 10, 20)
    sheet.text(_LEFT[0] + 28, 24, "growing warmer", "d-small d-bold")
    right(sheet, _RIGHT[0] + 10, 20)
    sheet.text(_RIGHT[0] + 28, 24, "growing cooler", "d-small d-bold")
    for left, end in (_LEFT, _RIGHT):
        sheet.box(left, _WOOD, end, _AIR, "d-wood")
        sheet.box(left, _FINISH, end, _WOOD, "d-glue")
        sheet.box(left, _AIR, end, _END, "d-table")
        sheet.text((left + end) / 2, _END - 8, "air inside", anchor="middle")
    for share in (0.2, 0.5, 0.8):
        x = _LEFT[0] + share * (_LEFT[1] - _LEFT[0])
        arrow(sheet, (x, _AIR + 26), (x, _WOOD + 6), colour="warn")
        sheet.ring(x, _FINISH, 6, "d-paper")
        x = _RIGHT[0] + share * (_RIGHT[1] - _RIGHT[0])
        sheet.shape([(x - 5, _WOOD), (x + 5, _WOOD), (x, _WOOD + 16)], "d-glue")
        arrow(sheet, (x, _AIR - 6), (x, _AIR + 26))
    sheet.text(_LEFT[0], _FINISH - 14, "bubbles in the wet finish")
    sheet.text(_RIGHT[0], _FINISH - 14, "finish goes into the wood")
    return sheet.svg(_END + 8)
