"""All stacks that can be piled from the things in the house."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.quantities import GRAVITY_M_S2, Floats, fixed

PIECES = 5
SAFETY = 2.0
"""A stack's weakest piece must take twice what it is asked to."""
MOST_STACKS = 40_000
SHIM_COST, KIND_COST = 0.3, 0.2
"""On top of 1 a piece: for any shim, and for each kind of thing beyond two."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One kind of thing to pile; kind is "tin", "block", "sheet", "shim" or "crossbar"."""

    name: str
    kind: str
    height_mm: float
    width_mm: float
    mass_kg: float
    takes_kg: float
    count: int


@dataclass(frozen=True, slots=True, eq=False)
class Listed:
    """All stacks, lowest first: (s,) heights, costs, loads they take; (s, kinds) counts; is a crossbar on top."""

    height_mm: Floats
    cost: Floats
    takes_n: Floats
    mass_kg: Floats
    counts: NDArray[np.int64]
    crossbar: NDArray[np.bool_]


def list_stacks(pieces: Sequence[Piece]) -> Listed:
    """All stacks of up to five pieces: at most one tin, nothing wider than what it lies on, a crossbar only on top.

    Pieces are piled widest first, so every choice has an order that obeys; a crossbar may be wider than the rest.
    """
    order = piled_order(pieces)
    chosen: list[tuple[int, ...]] = []

    def add(so_far: tuple[int, ...], first: int, tins: int) -> None:
        for k in range(first, len(order)):
            piece = pieces[order[k]]
            used = so_far.count(order[k])
            if used >= piece.count or (piece.kind == "tin" and tins) or len(chosen) >= MOST_STACKS:
                continue
            if piece.kind == "crossbar" and any(pieces[i].kind == "crossbar" for i in so_far):
                continue
            stack = (*so_far, order[k])
            chosen.append(stack)
            if len(stack) < PIECES:
                add(stack, k, tins + (piece.kind == "tin"))

    add((), 0, 0)
    counts = np.zeros((len(chosen), len(pieces)), dtype=np.int64)
    for row, stack in zip(counts, chosen, strict=True):
        for i in stack:
            row[i] += 1
    heights, masses = (np.array([getattr(p, n) for p in pieces], dtype=np.float64) for n in ("height_mm", "mass_kg"))
    takes = np.array([_takes_n(pieces, stack) for stack in chosen], dtype=np.float64)
    shim = np.array([p.kind == "shim" for p in pieces], dtype=np.bool_)
    bar = np.array([p.kind == "crossbar" for p in pieces], dtype=np.bool_)
    cost = counts.sum(1) + SHIM_COST * (counts[:, shim].sum(1) > 0) + KIND_COST * np.maximum((counts > 0).sum(1) - 2, 0)
    total = counts @ heights
    rank = np.lexsort((np.arange(total.size), cost, total))
    return Listed(
        fixed(total[rank]),
        fixed(cost[rank]),
        fixed(takes[rank]),
        fixed((counts @ masses)[rank]),
        counts[rank],
        (counts[:, bar].sum(1) > 0)[rank],
    )


def piled_order(pieces: Sequence[Piece]) -> list[int]:
    """Kinds in the order they are piled: widest at the bottom, crossbars on top of all."""
    return sorted(range(len(pieces)), key=lambda i: (pieces[i].kind == "crossbar", -pieces[i].width_mm, i))


def _takes_n(pieces: Sequence[Piece], stack: Sequence[int]) -> float:
    """Load that the stack takes on top, N: each piece's limit, halved for safety, less what already lies on it."""
    above, takes = 0.0, np.inf
    for i in reversed(stack):
        takes = min(takes, pieces[i].takes_kg / SAFETY - above)
        above += pieces[i].mass_kg
    return takes * GRAVITY_M_S2
