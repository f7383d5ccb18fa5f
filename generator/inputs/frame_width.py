"""About how wide a board's frame is at one place, from what is typed: enough to tell what lies well outside it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

RUN_OUT_MM = 400.0  # as the rail runs out before a round or pointed tip
BULGE = 0.4  # a round tip has 0.5, a pointed one 1
STEP_MM = 5.0


def frame_half_width_mm(board: Any, from_tail_mm: float) -> float:
    """Half the frame's width if its outline bulged, more than a round tip does, from each half-width to the next.

    The fair outline itself is hardly ever wider. Finished sizes hold the rail, which the frame has not.
    """
    wide = 0.0
    for (a, one), (b, other) in pairwise(_with_tips(board)):
        if a <= from_tail_mm <= b:
            from_narrow = (from_tail_mm - a if one <= other else b - from_tail_mm) / (b - a)
            wide = max(wide, min(one, other) + abs(one - other) * from_narrow**BULGE)
    return max(0.0, wide - (_rail_mm(board, from_tail_mm) if board.sizes_of == "finished" else 0.0))


def nearest_room_mm(board: Any, from_tail_mm: float, half_mm: float) -> float:
    """The place nearest to `from_tail_mm`, towards the middle, where the frame is `half_mm` wide on each side."""
    middle, place = board.length_mm / 2, from_tail_mm
    way = STEP_MM if place < middle else -STEP_MM
    while frame_half_width_mm(board, place) < half_mm and (place - middle) * way < 0:
        place = (math.floor(place / STEP_MM) if way > 0 else math.ceil(place / STEP_MM)) * STEP_MM + way
    return place


def _with_tips(board: Any) -> Iterator[tuple[float, float]]:
    given = [(one.from_tail_mm, one.half_width_mm) for one in board.half_widths]
    if given[0][0] > 0:
        yield 0.0, 0.0
    yield from given
    if given[-1][0] < board.length_mm:
        yield board.length_mm, 0.0


def _rail_mm(board: Any, from_tail_mm: float) -> float:
    """Width of the rail, which runs out towards a round or pointed tip."""
    wide = float(board.rail_mm)
    for tip, way in ((board.tail, from_tail_mm), (board.nose, board.length_mm - from_tail_mm)):
        if tip != "square":
            wide *= 1 - (1 - min(max(way, 0.0) / RUN_OUT_MM, 1.0)) ** 3
    return wide
