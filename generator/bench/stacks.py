"""What to pile at each support from the things in the house, one stock for all supports.

Every stack of up to five pieces is listed once. Then the height of the whole bench is scanned in half millimetres and
its tilt in nine steps; a bound from the cheapest stack at each support says which of these are worth a search, and the
search itself (depth first, cheapest first, cut off by the same bound) takes the shared stock into account. So the
answer is the cheapest on that grid, unless `proven` says that the search was cut short.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.bench.stack_list import Listed, Piece, list_stacks, piled_order
from generator.quantities import Floats, fixed

STEP_MM, RANGE_MM = 0.5, 160.0
TILTS_MM = (0.0, 2.0, -2.0, 4.0, -4.0, 6.0, -6.0, 8.0, -8.0)
"""Rise of the whole bench from tail tip to nose tip."""
ALLOWED_ERRORS_MM = (1.0, 2.0, 4.0, 8.0)
SEARCH_NODES = 60_000
ERROR_COST_PER_MM, TILT_COST_PER_MM = 0.2, 0.02
NO_CROSSBAR_COST, MISSING_COST = 4.0, 100.0


@dataclass(frozen=True, slots=True)
class Stack:
    """Pieces from the bottom up as (index of the kind, how many); their height and how far it misses what is wanted."""

    pieces: tuple[tuple[int, int], ...]
    height_mm: float
    wanted_mm: float
    takes_n: float
    mass_kg: float

    @property
    def error_mm(self) -> float:
        """Stack minus wanted, mm."""
        return self.height_mm - self.wanted_mm


@dataclass(frozen=True, slots=True, eq=False)
class Pile:
    """What to pile where.

    Attributes:
        stacks: one a support, None where the stock has nothing that fits.
        missing_mm: (n,) height that a missing stack would need, 0 elsewhere.
        base_mm, tilt_mm: the bench's common height, and its rise from tail tip to nose tip.
        allowed_mm: the error that had to be allowed (1 if all went well).
        proven: nothing cheaper exists on the grid.
    """

    stacks: tuple[Stack | None, ...]
    missing_mm: Floats
    base_mm: float
    tilt_mm: float
    allowed_mm: float
    proven: bool


@dataclass(frozen=True, slots=True, eq=False)
class _Ask:
    """The supports: how high above the common height, how loaded, whether at a tip, and the room needed."""

    share: Floats
    height_mm: Floats
    load_n: Floats
    tip: NDArray[np.bool_]
    least_base_mm: Floats
    stock: NDArray[np.int64]


def pile(
    pieces: Sequence[Piece],
    *,
    x_per_length: ArrayLike,
    height_mm: ArrayLike,
    table_mm: ArrayLike,
    load_n: ArrayLike,
    tip: Sequence[bool],
    least_base_mm: ArrayLike,
    allowed_mm: Sequence[float] = ALLOWED_ERRORS_MM,
) -> Pile:
    """Pile every support from one stock.

    The top of stack i is wanted at base + height_i + tilt·x_i above the level line, so the stack is as high as that
    less the table's own reading there.

    Args:
        x_per_length: (n,) place of each support, 0 tail tip to 1 nose tip.
        height_mm: (n,) wanted heights in the rocker's own level.
        table_mm: (n,) reading of the table at each support, above the level line positive.
        load_n: (n,) load on each.
        tip: whether each is an end support (a crossbar is best used there).
        least_base_mm: (9,) or one number: lowest base for each of `TILTS_MM`, so that clamps have room.
        allowed_mm: errors to try, in order; when none will do, supports go missing.

    Raises:
        ValueError: lists of unlike length.
    """
    ask = _Ask(
        fixed(x_per_length),
        fixed(np.asarray(height_mm, dtype=np.float64) - np.asarray(table_mm)),
        fixed(load_n),
        np.array(tip, dtype=np.bool_),
        fixed(np.broadcast_to(least_base_mm, len(TILTS_MM))),
        np.array([p.count for p in pieces], dtype=np.int64),
    )
    if not ask.share.shape == ask.height_mm.shape == ask.load_n.shape == ask.tip.shape:
        raise ValueError("each support needs one of every number")
    listed = list_stacks(pieces)
    for allowed in allowed_mm:
        found = _best(listed, ask, allowed, may_miss=False)
        if found is not None:
            return _pile(pieces, listed, ask, found, allowed)
    found = _best(listed, ask, allowed_mm[0], may_miss=True)
    if found is None:
        raise ArithmeticError("a search that may leave supports out must end with something")
    return _pile(pieces, listed, ask, found, allowed_mm[0])


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    base_mm: float
    tilt_mm: float
    rows: tuple[int | None, ...]
    cost: float
    proven: bool


def _best(listed: Listed, ask: _Ask, allowed: float, *, may_miss: bool) -> _Found | None:
    """Cheapest choice over the grid of base and tilt, or None."""
    base, tilt = (
        a.ravel() for a in np.meshgrid(np.arange(0.0, RANGE_MM + STEP_MM, STEP_MM), np.array(TILTS_MM), indexing="ij")
    )
    base = base + np.tile(ask.least_base_mm, base.size // len(TILTS_MM))
    tilt_cost = TILT_COST_PER_MM * np.abs(tilt)
    wanted = base[:, None] + ask.height_mm + tilt[:, None] * ask.share
    wants_bar = ask.tip & bool((ask.stock[_bar_kinds(listed)] > 0).any())
    bound = np.stack(
        [
            _cheapest(listed, wanted[:, i], allowed, float(ask.load_n[i]), bool(wants_bar[i]), may_miss)
            for i in range(ask.share.size)
        ],
        axis=1,
    )
    total = bound.sum(axis=1) + tilt_cost
    best: _Found | None = None
    nodes = [0]
    for cell in np.argsort(total, kind="stable"):
        limit = best.cost if best else np.inf
        if not total[cell] < limit - 1e-9:
            break
        if nodes[0] >= SEARCH_NODES:
            return best and _Found(best.base_mm, best.tilt_mm, best.rows, best.cost, False)
        options = [
            _options(listed, float(wanted[cell, i]), allowed, float(ask.load_n[i]), bool(wants_bar[i]), may_miss)
            for i in range(ask.share.size)
        ]
        found = _search(listed, options, ask.stock, limit - float(tilt_cost[cell]), nodes)
        if found is not None:
            best = _Found(float(base[cell]), float(tilt[cell]), found[0], found[1] + float(tilt_cost[cell]), True)
    return best


def _bar_kinds(listed: Listed) -> NDArray[np.bool_]:
    """Kinds that are crossbars: those in stacks only where one is on top."""
    if listed.counts.shape[0] == 0:
        return np.zeros(listed.counts.shape[1], dtype=np.bool_)
    alone = listed.counts.sum(axis=1) == 1
    out: NDArray[np.bool_] = (listed.counts[alone & listed.crossbar] > 0).any(axis=0)
    return out


def _cheapest(listed: Listed, wanted: Floats, allowed: float, load: float, wants_bar: bool, may_miss: bool) -> Floats:
    """(cells,) cost of the cheapest stack within the allowed error, its error left out; inf where there is none."""
    able = listed.takes_n >= load
    heights = listed.height_mm[able]
    cost = listed.cost[able] + NO_CROSSBAR_COST * (wants_bar & ~listed.crossbar[able])
    low, high = np.searchsorted(heights, wanted - allowed), np.searchsorted(heights, wanted + allowed, side="right")
    levels = [cost]
    while levels[-1].size > 2 ** (len(levels) - 1):
        step = 2 ** (len(levels) - 1)
        levels.append(np.minimum(levels[-1][:-step], levels[-1][step:]))
    out = np.full(wanted.shape, MISSING_COST if may_miss else np.inf)
    size = high - low
    for level, values in enumerate(levels):
        here = (size >= 2**level) & (size < 2 ** (level + 1))
        out[here] = np.minimum(out[here], np.minimum(values[low[here]], values[high[here] - 2**level]))
    return out


def _options(
    listed: Listed, wanted: float, allowed: float, load: float, wants_bar: bool, may_miss: bool
) -> list[tuple[float, int | None, tuple[tuple[int, int], ...]]]:
    """Stacks for one support, cheapest first: cost, row, what it uses."""
    low, high = np.searchsorted(listed.height_mm, [wanted - allowed, wanted + allowed + 1e-12])
    out: list[tuple[float, int | None, tuple[tuple[int, int], ...]]] = []
    for row in range(int(low), int(high)):
        if listed.takes_n[row] < load:
            continue
        cost = float(listed.cost[row]) + ERROR_COST_PER_MM * abs(float(listed.height_mm[row]) - wanted)
        cost += NO_CROSSBAR_COST * (wants_bar and not listed.crossbar[row])
        used = np.flatnonzero(listed.counts[row])
        out.append((cost, row, tuple((int(k), int(listed.counts[row, k])) for k in used)))
    out.sort(key=lambda o: (o[0], o[1]))
    if may_miss:
        out.append((MISSING_COST, None, ()))
    return out


def _search(
    listed: Listed,
    options: Sequence[Sequence[tuple[float, int | None, tuple[tuple[int, int], ...]]]],
    stock: NDArray[np.int64],
    limit: float,
    nodes: list[int],
) -> tuple[tuple[int | None, ...], float] | None:
    """Cheapest choice of one option a support within the stock and below `limit`, depth first; counts its nodes."""
    if any(not o for o in options):
        return None
    order = sorted(range(len(options)), key=lambda i: (len(options[i]), i))
    rest = [0.0] * (len(order) + 1)
    for depth in reversed(range(len(order))):
        rest[depth] = rest[depth + 1] + options[order[depth]][0][0]
    left = [int(n) for n in stock]
    chosen: list[int | None] = [None] * len(options)
    best: tuple[tuple[int | None, ...], float] | None = None
    bound = limit

    def go(depth: int, cost: float) -> None:
        nonlocal best, bound
        if depth == len(order):
            best, bound = (tuple(chosen), cost), cost
            return
        for price, row, used in options[order[depth]]:
            if cost + price + rest[depth + 1] >= bound - 1e-9 or nodes[0] >= SEARCH_NODES:
                return
            nodes[0] += 1
            if any(left[k] < n for k, n in used):
                continue
            for k, n in used:
                left[k] -= n
            chosen[order[depth]] = row
            go(depth + 1, cost + price)
            for k, n in used:
                left[k] += n

    go(0, 0.0)
    return best


def _pile(pieces: Sequence[Piece], listed: Listed, ask: _Ask, found: _Found, allowed: float) -> Pile:
    wanted = found.base_mm + ask.height_mm + found.tilt_mm * ask.share
    order = piled_order(pieces)
    stacks: list[Stack | None] = []
    for row, height in zip(found.rows, wanted, strict=True):
        if row is None:
            stacks.append(None)
            continue
        parts = tuple((i, int(listed.counts[row, i])) for i in order if listed.counts[row, i])
        stacks.append(
            Stack(
                parts,
                float(listed.height_mm[row]),
                float(height),
                float(listed.takes_n[row]),
                float(listed.mass_kg[row]),
            )
        )
    missing = [0.0 if stack else float(height) for stack, height in zip(stacks, wanted, strict=True)]
    return Pile(tuple(stacks), fixed(missing), found.base_mm, found.tilt_mm, allowed, found.proven)
