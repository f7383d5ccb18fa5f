"""The solid blocks between the panels, as pieces to cut, and the holes that let every bay breathe."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.board.body import Body
from generator.build.bays import SIDES, Area, Side, block_area
from generator.inputs.board import BlockWord

HOLE_MM = 8.0
"""Diameter of an air hole: as large as a shallow rib bears, far larger than slow air needs. Common practice."""
HOLE_SHARE = 1 / 3
"""Greatest share of a rib's depth that a hole may take. Common practice."""
FROM_SPINE_MM, PAST_BLOCK_MM, UP_MM = 20.0, 15.0, 12.0
"""Middle of a hole from the spine's face, or from a block that would cover it, and above the bottom panel."""
NEAR_RIB_MM = 15.0
"""A block nearer to a rib than this covers a hole in it."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a block on one side of the spine; depths at its four corners, inner ones next to the centre line.

    `bevel_…` are how much the top falls away, in degrees: along the board (above 0: lower at its nose end), and across
    it from the inner to the outer edge.
    """

    side: Side
    place: Area
    tail_inner_mm: float
    tail_outer_mm: float
    nose_inner_mm: float
    nose_outer_mm: float

    @property
    def depths_mm(self) -> tuple[float, float, float, float]:
        return self.tail_inner_mm, self.tail_outer_mm, self.nose_inner_mm, self.nose_outer_mm

    @property
    def depth_mm(self) -> float:
        """Depth to saw it to, before the top is bevelled."""
        return max(self.depths_mm)

    @property
    def bevel_along_deg(self) -> float:
        return math.degrees(math.atan2(self.tail_inner_mm - self.nose_inner_mm, self.place.length_mm))

    @property
    def bevel_across_deg(self) -> float:
        fall = (self.tail_inner_mm + self.nose_inner_mm - self.tail_outer_mm - self.nose_outer_mm) / 2
        return math.degrees(math.atan2(fall, self.place.width_mm))

    @property
    def volume_mm3(self) -> float:
        return self.place.area_mm2 * sum(self.depths_mm) / 4


@dataclass(frozen=True, slots=True)
class SolidBlock:
    """One block as the board's file has it, and the pieces it is cut in: one each side where the spine runs through."""

    holds: BlockWord
    from_tail_mm: float
    length_mm: float
    width_mm: float
    from_centre_mm: float
    density_kg_m3: float
    pieces: tuple[Piece, ...]

    @property
    def depth_mm(self) -> float:
        return max(piece.depth_mm for piece in self.pieces)

    @property
    def kg(self) -> float:
        return sum(piece.volume_mm3 for piece in self.pieces) * self.density_kg_m3 * 1e-9


@dataclass(frozen=True, slots=True)
class AirHole:
    """The pair of holes in one rib: the middle of each from the spine's face, diameter, share of the depth there."""

    rib: int
    from_spine_mm: float
    hole_mm: float
    share: float


def solid_blocks(body: Body) -> tuple[SolidBlock, ...]:
    """All blocks of which something lies inside the frame, from the tail."""
    blocks = [_block(body, at) for at in range(len(body.board.blocks))]
    return tuple(sorted((block for block in blocks if block.pieces), key=lambda block: block.from_tail_mm))


def _block(body: Body, at: int) -> SolidBlock:
    block = body.board.blocks[at]
    pieces = []
    for side in SIDES:
        area = block_area(body, at, side)
        if area is not None:
            corners = [(x, y) for x in (area.tail_mm, area.nose_mm) for y in (area.inner_mm, area.outer_mm)]
            pieces.append(Piece(side, area, *(float(body.inside_depth_mm(x, y)) for x, y in corners)))
    return SolidBlock(
        block.holds,
        block.from_tail_mm,
        block.length_mm,
        block.width_mm,
        block.from_centre_mm,
        block.density_kg_m3,
        tuple(pieces),
    )


def air_holes(body: Body) -> tuple[AirHole, ...]:
    """Where each rib is pierced: beside the spine, or past a block that would stand in front of the hole."""
    half, spine = body.board.ribs.thickness_mm / 2, body.board.spine.thickness_mm / 2
    areas = [area for at in range(len(body.board.blocks)) for side in SIDES if (area := block_area(body, at, side))]
    found = []
    for rib in body.ribs:
        tail, nose = rib.from_tail_mm - half - NEAR_RIB_MM, rib.from_tail_mm + half + NEAR_RIB_MM
        near = [area for area in areas if area.tail_mm < nose and area.nose_mm > tail]
        at = spine + FROM_SPINE_MM
        for area in sorted(near, key=lambda one: one.inner_mm):
            if area.inner_mm - PAST_BLOCK_MM < at < area.outer_mm + PAST_BLOCK_MM:
                at = area.outer_mm + PAST_BLOCK_MM
        at = min(at, max(rib.half_width_mm - body.board.edge_strip.thickness_mm - PAST_BLOCK_MM, spine))
        depth = float(body.inside_depth_mm(rib.from_tail_mm, at))
        hole = min(HOLE_MM, math.floor(HOLE_SHARE * depth))
        found.append(AirHole(rib.number, at - spine, hole, hole / depth))
    return tuple(found)
