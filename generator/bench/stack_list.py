"""All stacks that can be piled from the things in the house."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.quantities import GRAVITY_M_S2, Floats, fixed

PIECES = 5
SAFETY = 2.0
"""A stack's weakest piece must take twice what it is asked to."""
MOST_STACKS = 150_000
EASY_KINDS = 2
"""Each kind of thing beyond these makes a stack fiddlier to pile."""


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
    """All stacks, lowest first.

    Attributes:
        height_mm, takes_n, mass_kg: (s,) of each stack; takes_n is the load that it takes on top.
        pieces: (s,) how many pieces.
        fiddly: (s,) one for any shim and one for each kind beyond two.
        counts: (s, kinds) how many of each.
        base: (s,) kind of the lowest piece.
        crossbar: (s,) whether one lies on top.
        depth: most pieces that a listed stack may have; less than `PIECES` if the list had to be cut.
    """

    height_mm: Floats
    takes_n: Floats
    mass_kg: Floats
    pieces: NDArray[np.int64]
    fiddly: NDArray[np.int64]
    counts: NDArray[np.int8]
    base: NDArray[np.int64]
    crossbar: NDArray[np.bool_]
    depth: int


@dataclass(frozen=True, slots=True, eq=False)
class _Layer:
    """Stacks of one number of pieces: counts, place in the piling order of the top piece, height, what they take."""

    counts: NDArray[np.int8]
    top: NDArray[np.int64]
    height_mm: Floats
    takes_kg: Floats

    def grown(self, on: NDArray[np.int64], piece: Piece, kind: int, place: int) -> "_Layer":
        """The stacks `on` with one more piece on top."""
        counts = self.counts[on]
        counts[:, kind] += 1
        return _Layer(
            counts,
            np.full(on.size, place),
            self.height_mm[on] + piece.height_mm,
            np.minimum(self.takes_kg[on] - piece.mass_kg, piece.takes_kg / SAFETY),
        )

    def kept(self, good: NDArray[np.bool_]) -> "_Layer":
        return _Layer(self.counts[good], self.top[good], self.height_mm[good], self.takes_kg[good])


def list_stacks(pieces: Sequence[Piece], *, most_mm: float = np.inf, least_n: float = -np.inf) -> Listed:
    """All stacks of up to five pieces: at most one tin, nothing wider than what it lies on, a crossbar only on top.

    Pieces are piled widest first, so every choice has an order that obeys; a crossbar may be wider than the rest, and
    no more than one is used. Each piece takes half of what its label says, less what lies on it. Of things as wide as
    each other the one with the greatest sum of limit and mass lies lowest: then the stack takes the most.

    Where stacks of so many pieces would bring the list above `MOST_STACKS`, only smaller ones are in it: see `depth`.

    Args:
        most_mm: stacks that are higher are left out.
        least_n: stacks that take less are left out.
    """
    order = piled_order(pieces)
    tins, bars = (np.array([p.kind == kind for p in pieces], dtype=np.bool_) for kind in ("tin", "crossbar"))
    layer = _Layer(np.zeros((1, len(pieces)), dtype=np.int8), np.zeros(1, dtype=np.int64), fixed([0]), fixed([np.inf]))
    layers = [layer.kept(np.zeros(1, dtype=np.bool_))]
    depth, listed = PIECES, 0
    for size in range(1, PIECES + 1):
        has_tin, has_bar = layer.counts[:, tins].any(axis=1), layer.counts[:, bars].any(axis=1)
        on = [
            np.flatnonzero(
                (layer.top <= place) & (layer.counts[:, k] < pieces[k].count) & ~(has_tin & tins[k]) & ~has_bar
            )
            for place, k in enumerate(order)
        ]
        if listed + sum(one.size for one in on) > MOST_STACKS:
            depth = size - 1
            break
        parts = [layer.grown(one, pieces[k], k, place) for place, (k, one) in enumerate(zip(order, on, strict=True))]
        layer = _joined([layers[0], *parts])
        layer = layer.kept((layer.height_mm <= most_mm) & (layer.takes_kg * GRAVITY_M_S2 >= least_n))
        layers.append(layer)
        listed += layer.top.size
    return _told(pieces, _joined(layers), depth)


def piled_order(pieces: Sequence[Piece]) -> list[int]:
    """Kinds in the order they are piled: widest at the bottom, crossbars on top of all."""
    return sorted(
        range(len(pieces)),
        key=lambda i: (
            pieces[i].kind == "crossbar",
            -pieces[i].width_mm,
            -pieces[i].takes_kg / SAFETY - pieces[i].mass_kg,
            i,
        ),
    )


def _joined(layers: Sequence[_Layer]) -> _Layer:
    return _Layer(
        np.concatenate([one.counts for one in layers]),
        np.concatenate([one.top for one in layers]),
        np.concatenate([one.height_mm for one in layers]),
        np.concatenate([one.takes_kg for one in layers]),
    )


def _told(pieces: Sequence[Piece], stacks: _Layer, depth: int) -> Listed:
    """The list in order of height, then of pieces."""
    counts = stacks.counts
    order = np.array(piled_order(pieces), dtype=np.int64)
    shim, bar = (np.array([p.kind == kind for p in pieces], dtype=np.bool_) for kind in ("shim", "crossbar"))
    size = counts.sum(axis=1, dtype=np.int64)
    fiddly = counts[:, shim].any(axis=1) + np.maximum((counts > 0).sum(axis=1) - EASY_KINDS, 0)
    crossbar = np.asarray(counts[:, bar].any(axis=1), dtype=np.bool_)
    rank = np.lexsort((np.arange(size.size), fiddly, size, stacks.height_mm))
    counts = counts[rank]
    return Listed(
        fixed(stacks.height_mm[rank]),
        fixed(stacks.takes_kg[rank] * GRAVITY_M_S2),
        fixed(counts @ np.array([p.mass_kg for p in pieces])),
        size[rank],
        fiddly[rank],
        counts,
        order[(counts[:, order] > 0).argmax(axis=1)],
        crossbar[rank],
        depth,
    )
