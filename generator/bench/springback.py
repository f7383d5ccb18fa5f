"""How much rocker goes when the board is lifted off the bench."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.quantities import Floats, fixed


@dataclass(frozen=True, slots=True, eq=False)
class SpringBack:
    """What the curve loses when the bench's supports and weights are gone.

    Attributes:
        x_mm: (s,) stations.
        loss_mm: (s,) height lost above the tangent at the low point.
        tail_mm, nose_mm: the loss at the tips.
        kept_share: curvature kept, all stations together (1 when there was none to lose).
    """

    x_mm: Floats
    loss_mm: Floats
    tail_mm: float
    nose_mm: float
    kept_share: float

    def loss_at(self, x_mm: ArrayLike) -> Floats:
        """Height lost at each x, mm, straight between the stations."""
        return fixed(np.interp(np.asarray(x_mm, dtype=np.float64), self.x_mm, self.loss_mm))


def spring_back(
    *,
    x_mm: ArrayLike,
    curvature_per_mm: ArrayLike,
    moment_n_mm: ArrayLike,
    glued_n_mm2: ArrayLike,
    low_point_mm: float,
) -> SpringBack:
    """Rocker lost on release: the moment that the bench put in is taken from the glued section again.

    k_final = k_bench − M / EI_glued, integrated twice by the trapezium of curvature that is linear between stations.

    Args:
        x_mm: (s,) stations, increasing, the first at the tail tip and the last at the nose tip.
        curvature_per_mm, moment_n_mm: (s,) of the board as it lay when the glue set; the moment is the one that bends
            panel and frame, E·I unglued times the change from their free curvature.
        glued_n_mm2: (s,) E·I of the section after the glue has set, above 0.
        low_point_mm: place of the tangent from which the loss counts.

    Source: layers bent and glued keep 1 − EI_unglued/EI_glued of their curvature; for n equal layers that is 1 − 1/n²
    (from memory, first principles; test_laminates_keep_their_curve). The board's own weight as it lies later is left
    out, and so are creep (which keeps more) and slip of the glue line (which keeps less).
    """
    glued = np.asarray(glued_n_mm2, dtype=np.float64)
    if not np.all(glued > 0):
        raise ValueError("glued_n_mm2 must be above 0")
    return lost_rocker(
        x_mm=x_mm,
        curvature_per_mm=curvature_per_mm,
        lost_per_mm=np.asarray(moment_n_mm, dtype=np.float64) / glued,
        low_point_mm=low_point_mm,
    )


def lost_rocker(
    *, x_mm: ArrayLike, curvature_per_mm: ArrayLike, lost_per_mm: ArrayLike, low_point_mm: float
) -> SpringBack:
    """Heights that a loss of curvature (s,) costs, above the tangent at the low point; arguments as `spring_back`."""
    x, bent = np.asarray(x_mm, dtype=np.float64), np.asarray(curvature_per_mm, dtype=np.float64)
    lost = np.asarray(lost_per_mm, dtype=np.float64)
    size = np.diff(x)
    slope = np.concatenate([[0.0], np.cumsum(size * (lost[:-1] + lost[1:]) / 2)])
    height = np.concatenate([[0.0], np.cumsum(size * slope[:-1] + size**2 * (2 * lost[:-1] + lost[1:]) / 6)])
    j = int(np.clip(np.searchsorted(x, low_point_mm, side="right") - 1, 0, x.size - 2))
    s, rise = low_point_mm - x[j], (lost[j + 1] - lost[j]) / size[j]
    at = height[j] + slope[j] * s + lost[j] * s**2 / 2 + rise * s**3 / 6
    tangent = slope[j] + lost[j] * s + rise * s**2 / 2
    loss = height - at - tangent * (x - low_point_mm)
    whole, gone = _area(x, np.abs(bent)), _area(x, lost)
    return SpringBack(fixed(x), fixed(loss), float(loss[0]), float(loss[-1]), 1 - gone / whole if whole > 0 else 1.0)


def _area(x: Floats, y: Floats) -> float:
    return float((np.diff(x) * (y[1:] + y[:-1])).sum() / 2)
