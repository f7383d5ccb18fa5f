"""What one more thing in the house would let a support be piled that the stock has nothing for."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.stack_fit import TILTS_MM, Area, Room, Strip, cut
from generator.bench.stack_list import PIECES, SAFETY, Piece, list_stacks, piled_order
from generator.bench.stacks import Pile
from generator.quantities import GRAVITY_M_S2, Floats, fixed

OWN_MASS_KG = 1.0
"""What it lies on can take that much besides the load."""
ROUNDING = 1 + 1e-6
"""What it must take is told so much higher, or it might fail the same load summed up on another processor."""


@dataclass(frozen=True, slots=True)
class MissingPiece:
    """Any one thing from `least_mm` to `most_mm` high, up to `OWN_MASS_KG`, that takes `takes_kg`.

    `others` is what the support's stack is made of besides, as (index of the kind, how many).
    """

    support: int
    least_mm: float
    most_mm: float
    takes_kg: float
    others: tuple[tuple[int, int], ...]


def missing_pieces(
    pieces: Sequence[Piece], made: Pile, *, x_per_length: ArrayLike, load_n: ArrayLike, least_base_mm: ArrayLike
) -> tuple[MissingPiece, ...]:
    """For each support that has no stack within its tolerance: the thinnest thing that would do, and the thickest.

    All other stacks stay as they are. The rest of the stack is piled from what they leave over; what one support is
    given here is gone for the next. If only one support wants something the bench may still lie higher or tilt, as far
    as the other stacks allow between two of `TILTS_MM`; else it stays where it is.

    Args:
        pieces, x_per_length, load_n, least_base_mm: as for `pile`.
        made: what came of it.
    """
    turn = fixed(np.asarray(x_per_length, dtype=np.float64) - 0.5)
    wanted = fixed([s.wanted_mm if s else high for s, high in zip(made.stacks, made.missing_mm, strict=True)])
    at_rest = made.base_mm + made.tilt_mm * (turn + 0.5)
    bad = [i for i, kept in enumerate(made.kept) if not kept]
    area = [(made.base_mm + made.tilt_mm / 2, made.tilt_mm)]
    if len(bad) == 1:
        area = _room_left(made, turn, wanted - at_rest, fixed(np.broadcast_to(least_base_mm, len(TILTS_MM))))
    left = [piece.count for piece in pieces]
    for stack, kept in zip(made.stacks, made.kept, strict=True):
        for k, count in stack.pieces if stack and kept else ():
            left[k] -= count
    out = []
    for i in bad:
        heights = [wanted[i] - at_rest[i] + middle + turn[i] * tilt for middle, tilt in area]
        low, high = min(heights) - made.tolerance_mm[i], max(heights) + made.tolerance_mm[i]
        load = float(np.asarray(load_n)[i])
        stock = [replace(piece, count=count) for piece, count in zip(pieces, left, strict=True)]
        others, taken = _highest_below(stock, float(low), load + OWN_MASS_KG * GRAVITY_M_S2)
        for k, count in others:
            left[k] -= count
        out.append(
            MissingPiece(i, float(low) - taken, float(high) - taken, ROUNDING * SAFETY * load / GRAVITY_M_S2, others)
        )
    return tuple(out)


def _room_left(made: Pile, turn: Floats, height_mm: Floats, least_base_mm: Floats) -> Area:
    """Where the bench may lie with the stacks that are within their tolerances, in the stretch of tilts it is in."""
    order = np.argsort(TILTS_MM)
    room = Room(fixed(np.array(TILTS_MM)[order]), fixed(least_base_mm[order]))
    area = next(a for a in room.stretches() if min(t for _, t in a) <= made.tilt_mm <= max(t for _, t in a))
    for i, (stack, kept) in enumerate(zip(made.stacks, made.kept, strict=True)):
        if stack and kept:
            line = stack.height_mm - float(height_mm[i])
            area = cut(area, Strip.about(float(turn[i]), line, float(made.tolerance_mm[i])))
    return area


def _highest_below(stock: list[Piece], below_mm: float, least_n: float) -> tuple[tuple[tuple[int, int], ...], float]:
    """The highest stack, with room for one more piece, that is lower than that: its pieces and height; or nothing."""
    listed = list_stacks(stock, most_mm=below_mm, least_n=least_n)
    good = np.flatnonzero((listed.pieces < PIECES) & (listed.height_mm < below_mm))
    if not good.size:
        return (), 0.0
    highest = listed.height_mm[good].max()
    row = good[np.argmax(listed.height_mm[good] >= highest - 1e-6)]
    parts = tuple((k, int(listed.counts[row, k])) for k in piled_order(stock) if listed.counts[row, k])
    return parts, float(listed.height_mm[row])
