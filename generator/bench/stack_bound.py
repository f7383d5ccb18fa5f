"""What the stacks at all supports cost, and how little they can cost while the bench lies within a cell.

The cost is one number that puts wishes in order, each unit worth more than all that comes after it can be: tolerances
kept and no support left out; a crossbar on the tips; fewest pieces; few that are fiddly to pile; alike at mirror
places. `Prices` of scarce things (Lagrange multipliers of the stock) sharpen the bound: with any prices of 0 or more
added to what a stack costs, the least sum, less the price of the whole stock, is still no more than the true cost.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from generator.bench.stack_fit import Room
from generator.bench.stack_list import EASY_KINDS, PIECES, Listed
from generator.quantities import Floats, fixed

FIDDLY_MOST = 1 + PIECES - EASY_KINDS
OTHER_BASE = PIECES + 1
"""Two stacks whose lowest pieces differ are less alike than two that differ in all the others."""
SLACK_MM = 1e-6
LESS = 0.5
"""Costs are whole numbers; one that is less is less by more than this."""


@dataclass(frozen=True, slots=True)
class Worth:
    """What one of each wish costs, in units of the last."""

    fiddly: float
    piece: float
    bar: float
    stretch: float

    @classmethod
    def of(cls, supports: int) -> "Worth":
        fiddly = (OTHER_BASE + PIECES) * (supports // 2) + 1.0
        piece = fiddly * (FIDDLY_MOST * supports + 1)
        bar = piece * (PIECES * supports + 1)
        return cls(fiddly, piece, bar, bar * (supports + 1))


@dataclass(frozen=True, slots=True, eq=False)
class Asked:
    """Supports, and what each listed stack costs at each.

    Attributes:
        turn: (n,) share of the tilt that a support feels, -1/2 at the tail tip and 1/2 at the nose tip.
        height_mm: (n,) wanted heights of the stacks while the bench's middle is at 0 and level.
        within_mm: (n, r) errors that may be allowed, the tolerance first.
        stretch_cost: (r,) cost of allowing each.
        cost: (n, s) cost of each stack at each support, inf where it is too weak.
        missing_cost: cost of no stack.
        stock: (kinds,) how many of each there are.
    """

    turn: Floats
    height_mm: Floats
    within_mm: Floats
    stretch_cost: Floats
    cost: Floats
    missing_cost: float
    stock: NDArray[np.int64]
    room: Room
    listed: Listed
    worth: Worth

    @property
    def supports(self) -> int:
        return self.turn.size

    def unlike(self, rows: NDArray[np.int64], others: NDArray[np.int64]) -> Floats:
        """(rows, others) how unlike stacks are that face each other across the middle; no stack (-1) is like any."""
        listed = self.listed
        a, b = rows[:, None], others[None, :]
        shared = np.minimum(listed.counts[a], listed.counts[b]).sum(axis=2, dtype=np.int64)
        out = np.maximum(listed.pieces[a], listed.pieces[b]) - shared + OTHER_BASE * (listed.base[a] != listed.base[b])
        return fixed(np.where((a < 0) | (b < 0), 0, out))

    def cost_of(self, rows: Sequence[int], stretches: Sequence[int]) -> float:
        """Cost of a choice: rows of the list, -1 for no stack, and which error is allowed at each support."""
        at = np.array(rows, dtype=np.int64)
        half = at.size // 2
        unlike = float(np.trace(self.unlike(at[:half], at[::-1][:half])))
        return unlike + sum(
            self.missing_cost if row < 0 else float(self.cost[i, row] + self.stretch_cost[k])
            for i, (row, k) in enumerate(zip(rows, stretches, strict=True))
        )


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """Squares of middle height and tilt: centres, half sides, and the least cost that each can give."""

    middle_mm: Floats
    tilt_mm: Floats
    half_mm: Floats
    bound: Floats

    @classmethod
    def over(cls, room: Room) -> "Cells":
        """Squares as wide as the stretches between given tilts, over all that the bench may do, with a bound of 0."""
        middle, tilt, half = [], [], []
        for area in room.stretches():
            heights, tilts = zip(*area, strict=True)
            side = max(tilts) - min(tilts)
            row = np.arange(min(heights), max(heights), side) + side / 2
            middle.append(row)
            tilt.append(np.full(row.size, min(tilts) + side / 2))
            half.append(np.full(row.size, side / 2))
        every = fixed(np.concatenate(middle))
        return cls(every, fixed(np.concatenate(tilt)), fixed(np.concatenate(half)), fixed(0 * every))

    def at(self, rows: NDArray[np.int64] | NDArray[np.bool_]) -> "Cells":
        return Cells(self.middle_mm[rows], self.tilt_mm[rows], self.half_mm[rows], self.bound[rows])

    def split(self) -> "Cells":
        """Four in place of each; they inherit its bound."""
        half = np.tile(self.half_mm / 2, 4)
        up, along = (np.repeat(signs, self.half_mm.size) for signs in ([-1, -1, 1, 1], [-1, 1, -1, 1]))
        middle, tilt = np.tile(self.middle_mm, 4) + up * half, np.tile(self.tilt_mm, 4) + along * half
        return Cells(middle, tilt, half, np.tile(self.bound, 4))

    def joined(self, others: "Cells") -> "Cells":
        return Cells(
            np.concatenate([self.middle_mm, others.middle_mm]),
            np.concatenate([self.tilt_mm, others.tilt_mm]),
            np.concatenate([self.half_mm, others.half_mm]),
            np.concatenate([self.bound, others.bound]),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Prices:
    """Prices of the kinds, and what the cheapest stacks between any two heights cost with them.

    Attributes:
        each: (kinds,) price of one of each, 0 or more.
        heights_mm: (h,) all heights that occur.
        tables: (levels, n, h) least priced cost, for each support, of the stacks at 2^level heights from one on.
    """

    asked: Asked
    each: Floats
    heights_mm: Floats
    tables: Floats

    @classmethod
    def of(cls, asked: Asked, each: Floats) -> "Prices":
        heights, first = np.unique(np.round(asked.listed.height_mm, 6), return_index=True)
        levels = [np.minimum.reduceat(asked.cost + asked.listed.counts @ each, first, axis=1)]
        while 2 ** len(levels) <= heights.size:
            step = 2 ** (len(levels) - 1)
            wider = np.full_like(levels[0], np.inf)
            wider[:, :-step] = np.minimum(levels[-1][:, :-step], levels[-1][:, step:])
            levels.append(wider)
        return cls(asked, each, fixed(heights), fixed(np.stack(levels)))

    @property
    def of_stock(self) -> float:
        """Price of all there is."""
        return float(self.each @ self.asked.stock)

    def lowest(self, cells: Cells, below: float) -> Floats:
        """(n, cells) least priced cost at each support, of what alone costs less than `below`; inf if there is none."""
        asked, turn = self.asked, self.asked.turn[:, None]
        wanted = cells.middle_mm + turn * cells.tilt_mm + asked.height_mm[:, None]
        out = np.full(wanted.shape, asked.missing_cost if asked.missing_cost < below else np.inf)
        support = np.arange(asked.supports)[:, None]
        for within, cost in zip(asked.within_mm.T, asked.stretch_cost, strict=True):
            if cost >= below:
                break
            reach = within[:, None] + cells.half_mm * (1 + np.abs(turn)) + SLACK_MM
            low, high = (np.searchsorted(self.heights_mm, wanted + side * reach) for side in (-1, 1))
            level = np.frexp(np.maximum(high - low, 1).astype(np.float64))[1] - 1
            ends = np.minimum(
                self.tables[level, support, np.minimum(low, self.tables.shape[2] - 1)],
                self.tables[level, support, np.maximum(high - 2**level, 0)],
            )
            out = np.minimum(out, np.where(high > low, ends + cost, np.inf))
        return fixed(out)

    def bounded(self, cells: Cells, below: float) -> Cells:
        """The cells with the greater of their bound and this one; for choices that cost less than `below`."""
        bound = self.lowest(cells, below).sum(axis=0) - self.of_stock
        return replace(cells, bound=fixed(np.maximum(cells.bound, bound)))
