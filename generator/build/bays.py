"""The bays inside the board: between two ribs, and between the spine and an edge strip; how much of each is free."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from generator.board.body import Body

Side = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "right")
LEAST_MM = 75.0
"""A free piece narrower than this is hardly wider than a heel, and takes no foam beside the air's way."""


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle inside the board: ends from the tail tip, sides from the centre line (both at or above 0), mm."""

    tail_mm: float
    nose_mm: float
    inner_mm: float
    outer_mm: float

    @property
    def length_mm(self) -> float:
        return self.nose_mm - self.tail_mm

    @property
    def width_mm(self) -> float:
        return self.outer_mm - self.inner_mm

    @property
    def middle_mm(self) -> tuple[float, float]:
        """Its middle: from the tail, from the centre line."""
        return (self.tail_mm + self.nose_mm) / 2, (self.inner_mm + self.outer_mm) / 2

    @property
    def area_mm2(self) -> float:
        return max(self.length_mm, 0.0) * max(self.width_mm, 0.0)


@dataclass(frozen=True, slots=True)
class Bay:
    """One bay on one side. `after_rib` and `before_rib` are 0 where the board's tip stands instead of a rib.

    `whole` is the rectangle between the parts of the frame, as wide as the bay is in the middle of its length; `free`
    the largest rectangle that the solid blocks leave of it, None if that is narrower than `LEAST_MM`.
    """

    number: int
    side: Side
    after_rib: int
    before_rib: int
    whole: Area
    free: Area | None


def bays(body: Body) -> tuple[Bay, ...]:
    """All bays from the tail, left before right."""
    ribs, half = body.board.ribs.from_tail_mm, body.board.ribs.thickness_mm / 2
    starts = [0.0, *(rib + half for rib in ribs)]
    ends = [*(rib - half for rib in ribs), body.length_mm]
    found = []
    for number, (start, end) in enumerate(zip(starts, ends, strict=True), 1):
        whole = _outward(body, Area(start, end, body.board.spine.thickness_mm / 2, 0.0))
        for side in SIDES:
            found.append(Bay(number, side, number - 1, number % len(starts), whole, _free(body, whole, side)))
    return tuple(found)


def block_area(body: Body, at: int, side: Side) -> Area | None:
    """What the board's block number `at` covers on one side of the spine, within the frame; None if nothing."""
    block = body.board.blocks[at]
    sign = 1.0 if side == "right" else -1.0
    inner, outer = sign * block.from_centre_mm - block.width_mm / 2, sign * block.from_centre_mm + block.width_mm / 2
    nose = min(block.from_tail_mm + block.length_mm, body.length_mm)
    along = np.linspace(block.from_tail_mm, nose, 21)
    rim = float(np.max(body.frame.half_width_mm(along))) - body.board.edge_strip.thickness_mm
    area = Area(block.from_tail_mm, nose, max(inner, body.board.spine.thickness_mm / 2), min(outer, rim))
    return area if area.width_mm > 0 else None


def _outward(body: Body, area: Area) -> Area:
    """The same rectangle out to the edge strip, as far as that is in the middle of its length."""
    rim = float(body.frame.half_width_mm((area.tail_mm + area.nose_mm) / 2)) - body.board.edge_strip.thickness_mm
    return Area(area.tail_mm, area.nose_mm, area.inner_mm, max(rim, area.inner_mm))


def _free(body: Body, whole: Area, side: Side) -> Area | None:
    """The largest rectangle beside, before or behind the blocks that stand in a bay."""
    left = whole
    for at in range(len(body.board.blocks)):
        block = block_area(body, at, side)
        if block is None or block.nose_mm <= left.tail_mm or block.tail_mm >= left.nose_mm:
            continue
        if block.outer_mm <= left.inner_mm or block.inner_mm >= left.outer_mm:
            continue
        pieces = (
            _outward(body, Area(left.tail_mm, block.tail_mm, left.inner_mm, 0.0)),
            _outward(body, Area(block.nose_mm, left.nose_mm, left.inner_mm, 0.0)),
            Area(left.tail_mm, left.nose_mm, block.outer_mm, left.outer_mm),
            Area(left.tail_mm, left.nose_mm, left.inner_mm, block.inner_mm),
        )
        left = max(pieces, key=lambda piece: piece.area_mm2)
    return left if min(left.length_mm, left.width_mm) >= LEAST_MM else None
