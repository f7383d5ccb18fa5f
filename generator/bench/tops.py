"""A beam on supports with flat tops: it bears on the edge nearer its low point, or where it lies lowest on the flat."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.bench.beam import Beam
from generator.bench.contact import OK, Bent, lift_effect, solve
from generator.quantities import Floats, fixed

SPACING_MM = 20.0
"""Points on a flat top: a curve of 2e-4 /mm that bears on two of them dips 20² × 2e-4 / 8 = 0.01 mm between."""


@dataclass(frozen=True, slots=True)
class Top:
    """The flat top of one support, level, from `low_x_mm` to `high_x_mm`; it may reach past the board's tip."""

    low_x_mm: float
    high_x_mm: float
    height_mm: float


def top_at(*, edge_mm: float, width_mm: float, height_mm: float, low_point_mm: float) -> Top:
    """A top whose edge nearer the board's low point stands at `edge_mm`."""
    if edge_mm <= low_point_mm:
        return Top(edge_mm - width_mm, edge_mm, height_mm)
    return Top(edge_mm, edge_mm + width_mm, height_mm)


@dataclass(frozen=True, slots=True, eq=False)
class OnTops:
    """A beam at rest on flat tops.

    Attributes:
        bent: the solution on the points of all tops.
        support: which top each point belongs to.
        loads_n: (n,) load on each top.
        touch_x_mm: (n,) middle of the load on each; the nearest point where it lifts off.
        touch_height_mm: (n,) the top's height there.
        gaps_mm: (n,) least gap over each; 0 where it bears.
    """

    bent: Bent
    support: NDArray[np.intp]
    loads_n: Floats
    touch_x_mm: Floats
    touch_height_mm: Floats
    gaps_mm: Floats

    def lift_effect(self, x_mm: ArrayLike) -> Floats:
        """(len(x), n) change of the curve for 1 mm more under each top while the same points bear."""
        return lift_effect(self.bent, x_mm, together=self.support)


def rest_on(beam: Beam, tops: Sequence[Top]) -> OnTops:
    """Lay a beam on flat tops.

    Each top is a row of points, its edges among them; which of them bear comes out of the contact itself, so no guess
    of the low point is needed and nothing has to settle down.

    Raises:
        ValueError: a top is not under the beam at all.
        ArithmeticError: the beam tips over (its supports must be outside its centre of mass).
    """
    rows = [_points(top, beam.length_mm) for top in tops]
    support = np.repeat(np.arange(len(tops)), [row.size for row in rows])
    x = np.concatenate(rows)
    height = np.array([top.height_mm for top in tops], dtype=np.float64)
    bent = solve(beam, x_mm=x, height_mm=height[support])
    if bent.status != OK:
        raise ArithmeticError(f"the board tips over: its loads balance at {bent.resultant_x_mm:.0f} mm")
    loads = np.bincount(support, bent.reactions_n, len(tops))
    gaps = np.array([bent.gaps_mm[support == i].min() for i in range(len(tops))])
    nearest = np.array([row[bent.gaps_mm[support == i].argmin()] for i, row in enumerate(rows)])
    moved = np.bincount(support, bent.reactions_n * x, len(tops))
    middle = np.divide(moved, loads, out=np.zeros_like(moved), where=loads > 0)
    middle = middle.clip([row[0] for row in rows], [row[-1] for row in rows])  # rounding may put it past an edge
    touch = np.where(loads > 0, middle, nearest)
    return OnTops(bent, support, fixed(loads), fixed(touch), fixed(height), fixed(gaps))


def _points(top: Top, length_mm: float) -> Floats:
    low, high = max(top.low_x_mm, 0.0), min(top.high_x_mm, length_mm)
    if low > high:
        raise ValueError(f"a top from {top.low_x_mm:g} to {top.high_x_mm:g} mm is not under the board")
    return np.linspace(low, high, max(1, 1 + int(np.ceil((high - low) / SPACING_MM))))
