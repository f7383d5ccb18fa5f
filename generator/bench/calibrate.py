"""How stiff the board really is, from heights read once the glue was hard and the clamps were off."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.interpolate import CubicSpline

from generator.bench.piled import Rest, at_rest
from generator.bench.release import clamps_off
from generator.bench.setting import Bench
from generator.bench.tops import rest_on
from generator.quantities import Floats, fixed

FACTORS, FINE = np.geomspace(0.5, 2.0, 17), 1387
TAPE_MM = 0.7
"""Standard deviation of a height read with a rule from a level line; common practice."""
OTHER_SHARE = 0.05
"""Left over even by perfect readings: where along the board the stiffness lies."""


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

    Only the shape counts: a lift and a turn are the level line's. What is left of the readings is worked out at 17
    factors from a half to two and read between them off a smooth line; the range is where its sum of squares, over the
    tape's variance, is within 1 of the least (one standard deviation for one unknown), and a twentieth more.
    """
    x, read = np.asarray(x_mm, dtype=np.float64), np.asarray(read_mm, dtype=np.float64)
    log = np.log(FACTORS)
    left = CubicSpline(log, [read - _expected(bench, float(factor), x, read) for factor in FACTORS])
    fine = np.linspace(log[0], log[-1], FINE)
    sums = (left(fine) ** 2).sum(axis=1) / TAPE_MM**2
    good = np.exp(fine[sums <= sums.min() + 1])
    factor = float(np.exp(fine[sums.argmin()]))
    expected = _expected(bench, factor, x, read)
    sections = bench.job.board.value.scaled(factor)
    rest = at_rest(bench.job.board, sections, bench.laid.tops, bench.loads.points(), bench.route)
    miss = float(np.sqrt(((read - expected) ** 2).mean()))
    low, high = float(good[0]) / (1 + OTHER_SHARE), float(good[-1]) * (1 + OTHER_SHARE)
    return CuredFit(factor, low, high, fixed(expected), miss, rest)


def _expected(bench: Bench, factor: float, x: Floats, read: Floats) -> Floats:
    """Heights at one stiffness, turned and lifted to the readings by least squares."""
    board, tops = bench.job.board, bench.laid.tops
    sections = board.value.scaled(factor)
    bent = rest_on(sections.beam(bench.loads.points()), tops).bent
    heights = clamps_off(bent, sections, tops).bent.heights_mm(x)
    share = np.stack([np.ones_like(x), x / board.length_mm], axis=1)
    rigid = np.linalg.lstsq(share, read - heights, rcond=None)[0]
    return np.asarray(heights + share @ rigid)
