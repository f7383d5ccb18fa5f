"""Three beads in a corner, cut across: pressed hollow, flat and left full, with what each takes."""

from __future__ import annotations

import math
from dataclasses import replace

from generator.drawings.marks import span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown
from generator.figures import Figures
from generator.shown import show

_BASE = 112.0
_REACH = 40.0
_THICK = 14.0
_CELL = (WIDE - 2 * EDGE) / 3
_KEY = "glue.bead_per_metre"


def bead_size(figures: Figures) -> str:
    """All three reach as far along both woods; not to scale."""
    width = shown(figures, "practice.bead_width")
    amount, units = figures.values[_KEY], str(figures.said["units"])
    takes = [show(replace(amount, value=value), units) for value in (amount.low, amount.value, amount.high)]
    sheet = Sheet(
        "bead-size",
        title="What a bead takes by its shape",
        words=f"Three beads in a corner, each {width} wide on both woods. Pressed hollow it takes {takes[0]}, flat "
        f"{takes[1]}, left standing full {takes[2]}.",
    )
    turn = [math.pi / 2 * step / 12 for step in range(13)]
    hollow = [(_REACH * (1 - math.cos(a)), _REACH * (1 - math.sin(a))) for a in turn]
    full = [(_REACH * math.sin(a), _REACH * math.cos(a)) for a in turn]
    shapes: tuple[tuple[str, list[Point]], ...] = (
        ("pressed hollow", hollow), ("flat", [(0.0, _REACH), (_REACH, 0.0)]), ("left full", full),
    )  # fmt: skip
    for at, (name, edge) in enumerate(shapes):
        left = EDGE + at * _CELL
        corner = left + _THICK + 6
        sheet.text(left, 20, name, "d-small d-bold")
        sheet.box(corner - _THICK, _BASE - 74, corner, _BASE, "d-thing")
        sheet.box(left, _BASE, left + _CELL - 14, _BASE + _THICK, "d-wood")
        sheet.shape([(corner, _BASE), *((corner + x, _BASE - y) for x, y in edge)], "d-glue")
        span(sheet, (corner, _BASE + _THICK + 8), (corner + _REACH, _BASE + _THICK + 8))
        sheet.text(corner + _REACH + 6, _BASE + _THICK + 12, width)
        end = sheet.note(left, _BASE + _THICK + 34, takes[at], room=_CELL - 8)
    return sheet.svg(end)
