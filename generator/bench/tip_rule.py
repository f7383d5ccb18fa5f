"""What is lost when the end supports stand inboard of the tips."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.beam import Beam
from generator.bench.contact import OK, Bent, solve
from generator.quantities import Floats, fixed

STATIONS = 61


@dataclass(frozen=True, slots=True, eq=False)
class Inboard:
    """The same bench with its end supports moved in, set to the height that the board had there.

    Attributes:
        inset_mm: how far from each tip.
        tail_short_mm, nose_short_mm: by how much the tips then fall short of where they were.
        least_curvature_per_mm: over the whole board.
        inverted: stretches that bend the wrong way.
        x_mm, heights_mm: (s,) the whole bottom then, in the supports' own level.
    """

    inset_mm: float
    tail_short_mm: float
    nose_short_mm: float
    least_curvature_per_mm: float
    inverted: tuple[tuple[float, float], ...]
    x_mm: Floats
    heights_mm: Floats


def moved_inboard(
    beam: Beam, at_tips: Bent, *, x_mm: ArrayLike, height_mm: ArrayLike, inset_mm: Sequence[float]
) -> tuple[Inboard, ...]:
    """Move the first and last support inboard, up or down to the curve that the board had, and lay it again.

    Past its support the board has nothing that bends it up, so it runs on straight where it should keep rising: a
    board bent from flat by k runs k·inset²/2 short. What hangs outside bends it down as well. Insets that reach a
    middle support are left out, and so are those on which the board tips over.

    Args:
        beam: as it lies on the bench.
        at_tips: its state with the end supports under the tips.
        x_mm, height_mm: (n,) where it bears, and how high, tail first.
    """
    x, height = np.array(x_mm, dtype=np.float64), np.array(height_mm, dtype=np.float64)
    tips = np.array([0.0, beam.length_mm])
    out = []
    for inset in inset_mm:
        ends = np.array([inset, beam.length_mm - inset])
        if ends[0] >= x[1] or ends[1] <= x[-2]:
            continue
        places, heights = x.copy(), height.copy()
        places[[0, -1]], heights[[0, -1]] = ends, at_tips.heights_mm(ends)
        bent = solve(beam, x_mm=places, height_mm=heights)
        if bent.status != OK:
            continue
        short = at_tips.heights_mm(tips) - bent.heights_mm(tips)
        least, station = bent.least_curvature[0], np.linspace(0.0, beam.length_mm, STATIONS)
        shape = fixed(station), fixed(bent.heights_mm(station))
        out.append(Inboard(float(inset), float(short[0]), float(short[1]), least, bent.inverted(), *shape))
    return tuple(out)
