"""What a straight edge shows on the bottom: hollows, where the curve bends the wrong way."""

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike

from generator.quantities import Floats

STEP_MM = 10.0


def deepest_hollow(
    heights_mm: Callable[[ArrayLike], Floats], *, length_mm: float, edge_mm: float = 600.0
) -> tuple[float, float]:
    """Deepest gap (mm) between the bottom and a straight edge held against it from below, and its place.

    The edge is moved along in steps of 10 mm; in each place it touches the bottom's lower hull. A fair bottom has
    none: (0, 0).
    """
    x = np.linspace(0.0, length_mm, int(np.ceil(length_mm / STEP_MM)) + 1)
    y = heights_mm(x)
    reach = max(2, round(edge_mm / (x[1] - x[0])))
    worst, place = 0.0, 0.0
    if np.all(np.diff(y, n=2) >= -1e-9):
        return worst, place
    for start in range(max(1, x.size - reach)):
        part = slice(start, min(start + reach + 1, x.size))
        hull = _lower_hull(x[part], y[part])
        gap = y[part] - np.interp(x[part], x[part][hull], y[part][hull])
        at = int(np.argmax(gap))
        if gap[at] > worst + 1e-9:
            worst, place = float(gap[at]), float(x[part][at])
    return worst, place


def _lower_hull(x: Floats, y: Floats) -> list[int]:
    """Indices of the points that a line can touch from below, left to right (monotone chain)."""
    hull: list[int] = []
    for i in range(x.size):
        while len(hull) > 1 and (y[hull[-1]] - y[hull[-2]]) * (x[i] - x[hull[-2]]) >= (y[i] - y[hull[-2]]) * (
            x[hull[-1]] - x[hull[-2]]
        ):
            hull.pop()
        hull.append(i)
    return hull
