"""The cheapest choice of stacks for all supports from one stock, the bench free to lie higher and to tilt.

Height and tilt are cut into cells, coarse ones first. The cheapest stacks that fit somewhere in a cell bound what the
cell can give from below. The cell with the lowest bound is split or, once it is small, searched: depth first, cheapest
first, the area in which the bench may lie being cut by every stack that is put down, so that what comes out fits at
one height and one tilt. When no cell's bound is below the best that was found, nothing cheaper exists at any height
and tilt. A cell that takes long is split again.
"""

from dataclasses import dataclass, replace

import numpy as np

from generator.bench.stack_bound import LESS, Asked, Cells, Prices
from generator.bench.stack_cell import Choice, Options, descend, priced
from generator.bench.stack_list import PIECES
from generator.quantities import fixed

HALF_PER_TOLERANCE, FEW_STACKS = 0.25, 60
"""A cell is searched when its half side is this part of the least tolerance, or few stacks are in reach there."""
LEAST_HALF_MM = 1 / 64
BATCH, MOST_CELLS = 32, 50_000
NODES_A_CELL, MOST_NODES = 4_000, 120_000
"""Stacks that are tried in a cell before it is split again; in a search before it is given up."""
ROUNDS, SHRINK = 25, 1.4


@dataclass(frozen=True, slots=True)
class Searched:
    """The cheapest choice below the limit, None if none was found; whether the search came to its end."""

    choice: Choice | None
    ended: bool


def cheapest(asked: Asked, *, below: float, any_will_do: bool = False, most_nodes: int = MOST_NODES) -> Searched:
    """The cheapest choice that costs less than `below`, or the first one that is found if any will do."""
    if not asked.listed.height_mm.size:
        return Searched(None, True)
    prices = Prices.of(asked, fixed(np.zeros(asked.stock.size)))
    cells = prices.bounded(Cells.over(asked.room), below)
    prices = _tuned(asked, prices, cells, below)
    cells = prices.bounded(cells, below)
    small_mm = _small_mm(asked)
    best, each, nodes = None, prices.each, 0
    while True:
        cells = cells.at(cells.bound < below - LESS)
        ended = not cells.bound.size or (best is not None and any_will_do)
        if ended or nodes >= most_nodes or cells.bound.size > MOST_CELLS:
            return Searched(best, ended)
        first = np.argsort(cells.bound, kind="stable")[:BATCH]
        large = cells.half_mm[first] > small_mm
        if large[0]:
            taken, parts = first[large], prices.bounded(cells.at(first[large]).split(), below)
        else:
            taken, cell = first[:1], cells.at(first[:1])
            last = float(cell.half_mm[0]) <= LEAST_HALF_MM
            most = most_nodes - nodes if last else NODES_A_CELL
            inside = descend(asked, prices, cell, each, below=below, most_nodes=most, any_will_do=any_will_do)
            each, nodes = inside.each, nodes + inside.nodes
            if inside.best is not None:
                best, below = inside.best, inside.best.cost
            parts = replace(cell, bound=fixed([inside.bound])).at(np.array([inside.cut_short]))
            parts = parts if last else prices.bounded(parts.split(), below)
        cells = cells.at(np.delete(np.arange(cells.bound.size), taken)).joined(parts)


def unlisted_may_be_cheaper(asked: Asked, below: float) -> bool:
    """Whether a choice with a stack of more pieces than any that is listed could cost less than `below`."""
    if asked.listed.depth == PIECES or not asked.listed.height_mm.size:
        return asked.listed.depth < PIECES
    prices = Prices.of(asked, fixed(np.zeros(asked.stock.size)))
    unlisted = asked.worth.piece * (asked.listed.depth + 1)
    cells, small_mm = Cells.over(asked.room), _small_mm(asked)
    while cells.bound.size:
        lowest = np.minimum(prices.lowest(cells, below), unlisted)
        cells = cells.at(lowest.sum(axis=0) - lowest.max(axis=0) + unlisted < below - LESS)
        if cells.bound.size > MOST_CELLS or (cells.bound.size and float(cells.half_mm[0]) <= small_mm):
            return True
        cells = cells.split()
    return False


def _small_mm(asked: Asked) -> float:
    """Half side at which a cell is searched instead of split."""
    tolerance, height = float(asked.within_mm[:, 0].min()), asked.listed.height_mm
    stacks_a_mm = height.size / max(float(np.ptp(height)), 1.0)
    few_mm = (FEW_STACKS / 2 / stacks_a_mm - tolerance) / 1.5  # at the tips the reach is tolerance and 1.5 half sides
    return max(LEAST_HALF_MM, HALF_PER_TOLERANCE * tolerance, few_mm)


def _tuned(asked: Asked, prices: Prices, cells: Cells, below: float) -> Prices:
    """Prices that show that tolerances must be stretched or supports left out; as they were if none show it."""
    unbound = replace(cells, bound=fixed(np.full(cells.bound.size, -np.inf)))
    best, lowest, tried, step = prices, -np.inf, prices, 1.0
    for turn in range(ROUNDS):
        bound = tried.bounded(unbound, below).bound
        cell = cells.at(np.array([int(bound.argmin())]))
        if bound.min() > lowest + LESS:
            best, lowest = tried, float(bound.min())
        else:
            step /= SHRINK
        options = Options.of(asked, tried.each, cell, below)
        if lowest >= below - LESS or options is None:
            break
        if not turn and priced(asked, options, below, tried.each)[0] < asked.worth.stretch / 2:
            break
        over = options.used_by_cheapest(options.cost + options.uses @ tried.each) - asked.stock
        push = np.where((tried.each > 0) | (over > 0), over, 0)
        if not push.any():
            break
        aim = asked.worth.stretch * step
        tried = Prices.of(asked, fixed(np.maximum(0.0, tried.each + aim * push / (push @ push))))
    return best if lowest > asked.worth.stretch / 2 else prices
