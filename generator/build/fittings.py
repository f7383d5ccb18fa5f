"""Fin and plugs in their blocks: how deep the wood is there, how deep to drill, and what a glued plug holds."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.board.body import Body
from generator.inputs.board import Block, Plug
from generator.quantities import GRAVITY_M_S2
from generator.timber.by_density import gravity, shear_along_mpa

LEFT_MM = 6.0
"""Wood to leave between a hole and the other panel; common practice."""
PULL_PER_WEIGHT = (2.0, 3.0, 5.0)
"""Pull on the leash over the rider's weight, low, usual, high. Assumed: a wave holds the board while it drags the
rider."""
SHEAR_WORKS = 0.5
"""Share of a round hole's wall whose grain runs along it; the end grain on the two other sides counts for nothing."""
SAFETY = 3.0


@dataclass(frozen=True, slots=True)
class Margins:
    """Wood of a block beside what is let into it, mm: towards the tail, towards the nose, least at the sides."""

    tail_mm: float
    nose_mm: float
    side_mm: float

    @property
    def least_mm(self) -> float:
        return min(self.tail_mm, self.nose_mm, self.side_mm)


@dataclass(frozen=True, slots=True)
class Drilled:
    """A hole for a plug from the deck: wood of the block there, how deep to drill from the deck, and its margins."""

    block_mm: float
    stop_mm: float
    margins: Margins


def block_for(body: Body, holds: str) -> Block:
    """The block that holds one fitting.

    Raises:
        LookupError: there is none.
    """
    for block in body.board.blocks:
        if block.holds == holds:
            return block
    raise LookupError(holds)


def drilled(body: Body, plug: Plug, holds: str, *, left_mm: float = LEFT_MM) -> Drilled:
    """A plug's hole, where the block under it is shallowest.

    Raises:
        LookupError: the board has no block for it.
    """
    block, reach = block_for(body, holds), plug.hole_mm / 2
    spots = [
        (plug.from_tail_mm + a * reach, plug.from_centre_mm + b * reach)
        for a, b in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))
    ]
    deep = min(float(body.inside_depth_mm(x, y)) for x, y in spots)
    aside = block.width_mm / 2 - abs(plug.from_centre_mm - block.from_centre_mm) - reach
    ends = plug.from_tail_mm - block.from_tail_mm, block.from_tail_mm + block.length_mm - plug.from_tail_mm
    margins = Margins(ends[0] - reach, ends[1] - reach, aside)
    return Drilled(deep, max(body.panel_mm + deep - left_mm, 0.0), margins)


@dataclass(frozen=True, slots=True)
class FinSeat:
    """Where the fin stands: front end of its base, wood of the block there, how deep a slot may go, margins.

    `slot_mm` counts from the outside of the bottom. `margins.side_mm` counts from the centre line.
    """

    front_mm: float
    block_mm: float
    slot_mm: float
    margins: Margins


def fin_seat(body: Body, *, left_mm: float = LEFT_MM) -> FinSeat:
    """The fin's place in its block, where that is shallowest along the base.

    Raises:
        LookupError: the board has no block for the fin.
    """
    fin, block = body.board.fittings.fin, block_for(body, "fin")
    rear, front = fin.from_tail_mm, fin.from_tail_mm + fin.base_mm
    places = [rear + share * fin.base_mm for share in (0, 0.25, 0.5, 0.75, 1)]
    deep = min(float(body.inside_depth_mm(x, 0.0)) for x in places)
    margins = Margins(
        rear - block.from_tail_mm,
        block.from_tail_mm + block.length_mm - front,
        block.width_mm / 2 - abs(block.from_centre_mm),
    )
    return FinSeat(front, deep, max(body.panel_mm + deep - left_mm, 0.0), margins)


def leash_pull_n(body_mass_kg: float) -> tuple[float, float, float]:
    """Pull on the leash plug, N: low, usual, high. Assumed, see `PULL_PER_WEIGHT`."""
    low, usual, high = (share * body_mass_kg * GRAVITY_M_S2 for share in PULL_PER_WEIGHT)
    return low, usual, high


def plug_holds_n(*, hole_mm: float, depth_mm: float, density_kg_m3: float) -> float:
    """Pull that a glued round plug may take, N: half the wall of its hole at the wood's shear strength over `SAFETY`.

    The glue is taken as no weaker than the wood.

    Raises:
        ValueError: a number is not above 0.

    Source: area of a cylinder's wall; shear strength as `by_density.shear_along_mpa`.
    """
    if not (hole_mm > 0 and depth_mm > 0):
        raise ValueError("hole_mm and depth_mm must be above 0")
    wall = math.pi * hole_mm * depth_mm
    return SHEAR_WORKS * wall * shear_along_mpa(gravity(density_kg_m3)) / SAFETY
