"""How stiff the board really is, from heights read once the glue was hard and the clamps were off."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.piled import Rest, at_rest
from generator.bench.release import clamps_off
from generator.bench.setting import Bench
from generator.quantities import Floats, fixed

FACTORS = np.geomspace(0.5, 2.0, 17)
TAPE_MM = 0.7
"""Standard deviation of a height read with a rule from a level line; common practice."""


@dataclass(frozen=True, slots=True, eq=False)
class CuredFit:
    """What the readings say of the board's stiffness.

    Attributes:
        factor, factor_low, factor_high: stiffness over the one that the bench was planned with, and the range in which
            the readings fit about as well; as wide as was tried where they can't tell.
        expected_mm: (n,) heights at the readings' places at that stiffness, laid over the readings by least squares.
        miss_mm: root of the mean square of what is left.
        rest: the board with this stiffness, on the bench with everything on, and what it keeps.
    """

    factor: float
    factor_low: float
    factor_high: float
    expected_mm: Floats
    miss_mm: float
    rest: Rest


def fit_cured(bench: Bench, *, x_mm: ArrayLike, read_mm: ArrayLike) -> CuredFit:
    """The stiffness at which the cured board on the bench, clamps and weights off, lies nearest to the readings.

    Only the shape counts: a lift and a turn are the level line's. The misfit is taken at 17 factors from a half to two
    and made least by a parabola through the best and its neighbours; the range is where the sum of squares, over the
    tape's variance, is within 1 of the least (one standard deviation for one unknown).
    """
    x, read = np.asarray(x_mm, dtype=np.float64), np.asarray(read_mm, dtype=np.float64)
    share = np.stack([np.ones_like(x), x / bench.job.board.length_mm], axis=1)
    sums = np.array([((read - _expected(bench, float(f), x, read, share)) ** 2).sum() for f in FACTORS]) / TAPE_MM**2
    log = np.log(FACTORS)
    best = int(np.clip(np.argmin(sums), 1, FACTORS.size - 2))
    a, b, c = np.polyfit(log[best - 1 : best + 2], sums[best - 1 : best + 2], 2)
    factor = float(np.exp(np.clip(-b / (2 * a), log[0], log[-1]))) if a > 0 else float(FACTORS[np.argmin(sums)])
    least = min(float(sums.min()), c - b**2 / (4 * a)) if a > 0 else float(sums.min())
    fine = np.linspace(log[0], log[-1], 400)
    good = np.exp(fine[np.interp(fine, log, sums) <= least + 1])
    low, high = (float(good.min()), float(good.max())) if good.size else (factor, factor)
    expected = _expected(bench, factor, x, read, share)
    sections = bench.job.board.value.scaled(factor)
    rest = at_rest(bench.job.board, sections, bench.laid.tops, bench.loads.points(), bench.route)
    miss = float(np.sqrt(((read - expected) ** 2).mean()))
    return CuredFit(factor, min(low, factor), max(high, factor), fixed(expected), miss, rest)


def _expected(bench: Bench, factor: float, x: Floats, read: Floats, share: Floats) -> Floats:
    """Heights at one stiffness, turned and lifted to the readings by least squares."""
    board, tops = bench.job.board, bench.laid.tops
    sections = board.value.scaled(factor)
    bent = at_rest(board, sections, tops, bench.loads.points(), bench.route).on.bent
    heights = clamps_off(bent, sections, tops).bent.heights_mm(x)
    rigid = np.linalg.lstsq(share, read - heights, rcond=None)[0]
    return np.asarray(heights + share @ rigid)
