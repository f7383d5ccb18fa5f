"""Heights at which every support goes on bearing over the whole range of the board's stiffness.

With places and weights chosen, the heights are still free within what the curve may miss. One linear programme holds
the nominal board and both ends of the range together: the supports' heights are the same for all three, the loads are
not.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from generator.bench.beam import Beam, columns
from generator.bench.contact import INVERTED_PER_MM
from generator.bench.programme import LEAST_LOAD_N, SPARE_CURVATURE, least_bends, level
from generator.quantities import Floats, fixed

SURE_N = 8.0
"""What a middle support shall carry at either end of the range: it holds a slip of paper fast, and no jolt frees it."""
KEPT_SHARE = 0.98
"""Of the least load found, what is kept while the curve is then brought nearer."""
ROUNDING_MM = 1e-6

_Row = tuple[Floats, Floats | float, Floats | float]


@dataclass(frozen=True, slots=True, eq=False)
class Guarded:
    """Loads (n,) on the supports at the nominal stiffness, heights of the compared curve's tips, and what they give.

    `least_n` is the least load on a middle support over the range of stiffness.
    """

    loads_n: Floats
    rigid_mm: Floats
    deviation_mm: float
    least_n: float


@dataclass(frozen=True, slots=True, eq=False)
class _Block:
    """One board of the range on the supports: its columns there and its curvature, free of the rigid part."""

    at_loads: Floats
    at_push: Floats
    bend_loads: Floats
    bend_push: Floats


def guard(
    beams: Sequence[Beam],
    kept: Beam,
    *,
    support_mm: Floats,
    station_mm: Floats,
    wanted_mm: Floats,
    within_mm: float,
    tip_load_n: float,
) -> Guarded | None:
    """The heights that let the least loaded middle support carry most, up to `SURE_N`, and then come nearest.

    Where a support can't help lifting off at an end of the range, the nominal board counts alone.

    Args:
        beams: the loaded board at nominal stiffness, then at others; all its loads are on.
        kept: takes the compared shape under the nominal loads.
        support_mm: (n,) from tip to tip.
        within_mm: what the compared curve may miss; as little as can be if infinite.
        tip_load_n: least load on an end support.

    Returns:
        None if the curve can't be had within that with every support bearing at nominal stiffness.
    """
    share = station_mm / beams[0].length_mm
    loads, push = columns(kept, support_mm).heights(np.concatenate([station_mm, [0.0, beams[0].length_mm]]))
    loads, push = level(loads, share), level(push, share)
    curve = np.hstack([push.T, (1 - share)[:, None], share[:, None]])
    for counted in (beams, beams[:1]):
        rows = [*_held(counted, support_mm), *_near(curve, wanted_mm - loads, len(counted) * support_mm.size)]
        found = _surest(rows, len(counted), support_mm.size, within_mm, tip_load_n)
        if found is not None:
            return found if len(counted) == len(beams) else replace(found, least_n=0.0)
    return None


def _held(beams: Sequence[Beam], support_mm: Floats) -> list[_Row]:
    """Balance, no inverted stretch and the same heights for all boards, and what none of their loads is below."""
    length, n = beams[0].length_mm, support_mm.size
    size = n * len(beams) + 4
    blocks = [_block(beam, support_mm) for beam in beams]
    rows: list[_Row] = []
    for i, (beam, block) in enumerate(zip(beams, blocks, strict=True)):
        own = slice(i * n, (i + 1) * n)
        balance = np.zeros((2, size))
        balance[0, own], balance[1, own] = 1.0, support_mm / length
        rest = np.array([beam.total_load_n, beam.load_moment_n_mm / length])
        rows.append((balance, rest, rest))
        bend = np.zeros((block.bend_loads.size, size))
        bend[:, own] = 1e5 * block.bend_push.T
        rows.append((bend, 1e5 * (SPARE_CURVATURE * INVERTED_PER_MM - block.bend_loads), np.inf))
        if i:
            same = np.zeros((n - 2, size))
            same[:, own], same[:, :n] = block.at_push[:, 1:-1].T, -blocks[0].at_push[:, 1:-1].T
            apart = (blocks[0].at_loads - block.at_loads)[1:-1]
            rows.append((same, apart, apart))
        least = np.zeros((n - 2, size))
        least[:, own.start + 1 : own.stop - 1], least[:, -1] = np.eye(n - 2), -1.0
        rows.append((least, 0.0, np.inf))
    return rows


def _near(curve: Floats, wanted_mm: Floats, loads: int) -> list[_Row]:
    """How far the compared curve (s, n + 2: from the nominal loads and its tips' heights) misses what is wanted."""
    rows: list[_Row] = []
    for sign in (1.0, -1.0):
        near = np.zeros((wanted_mm.size, loads + 4))
        near[:, : curve.shape[1] - 2], near[:, -4:-2], near[:, -2] = sign * curve[:, :-2], sign * curve[:, -2:], -1.0
        rows.append((near, -np.inf, sign * wanted_mm))
    return rows


def _surest(rows: Sequence[_Row], boards: int, n: int, within_mm: float, tip_load_n: float) -> Guarded | None:
    """Unknowns in order: loads of each board, heights of the compared curve's tips, deviation, least load."""
    constraints = [LinearConstraint(*row) for row in rows]
    size = n * boards + 4
    lower, upper = np.zeros(size), np.full(size, np.inf)
    lower[:n], lower[-4:-2] = LEAST_LOAD_N, -np.inf
    lower[[0, n - 1]] = tip_load_n
    upper[-2], upper[-1] = within_mm, SURE_N

    def least(cost_at: int, cost: float) -> Floats | None:
        costs = np.zeros(size)
        costs[cost_at] = cost
        found: Floats | None = milp(costs, bounds=Bounds(lower, upper), constraints=constraints).x
        return found

    if within_mm == np.inf and (nearest := least(-2, 1.0)) is not None:
        upper[-2] = nearest[-2] + ROUNDING_MM
    surest = least(-1, -1.0)
    if surest is None:
        return None
    lower[-1] = KEPT_SHARE * surest[-1]
    near = least(-2, 1.0)
    x = surest if near is None else near
    middle = x[:-4].reshape(boards, n)[:, 1:-1]
    return Guarded(fixed(x[:n]), fixed(x[-4:-2]), float(x[-2]), float(middle.min()))


def _block(beam: Beam, support_mm: Floats) -> _Block:
    cols = columns(beam, support_mm)
    share = support_mm / beam.length_mm
    loads, push = cols.heights(np.concatenate([support_mm, [0.0, beam.length_mm]]))
    return _Block(level(loads, share), level(push, share), *least_bends(cols))
