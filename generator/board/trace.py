"""The line traced round the frame on a panel, and the cut outside it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from shapely import LinearRing, LineString, Polygon, get_coordinates, get_exterior_ring

from generator.board.outline import area_mm2, perimeter_mm
from generator.quantities import Floats, fixed

BLEND_MM = 150.0
LONGEST_STEP_MM = 10.0
ARC_PIECES = 24  # a quarter circle
CUT_CLEAR_MM = 1.0  # common practice: the saw leaves the pencil line standing


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """The line drawn on the panel and the line that the saw's near side follows.

    `line` and `cut` are closed (n, 2) lines in the board's x and y; `length_mm` is the frame's.
    """

    line: Floats
    cut: Floats
    length_mm: float
    _side_x: Floats
    _side_y: Floats

    def half_width_mm(self, x_mm: ArrayLike) -> Floats:
        """Half width inside the traced line, shape of `x_mm`; 0 off the panel."""
        x = np.asarray(x_mm, dtype=np.float64)
        return np.asarray(np.interp(x, self._side_x, self._side_y, left=0.0, right=0.0))

    @property
    def widest_mm(self) -> float:
        """Full width across the traced line at its widest."""
        return float(np.ptp(self.line[:, 1]))

    @property
    def ends_mm(self) -> tuple[float, float]:
        """x of the line's tail and nose ends."""
        return float(np.min(self.line[:, 0])), float(np.max(self.line[:, 0]))

    @property
    def area_mm2(self) -> float:
        """Area inside the traced line."""
        return area_mm2(self.line)

    @property
    def perimeter_mm(self) -> float:
        """Length of the traced line."""
        return perimeter_mm(self.line)


def offset_outline(polygon: ArrayLike, *, sides_mm: float, tips_mm: float, blend_mm: float = BLEND_MM) -> Floats:
    """(n, 2) closed line `sides_mm` outside a board's outline, and `tips_mm` ahead of its tips.

    First the outline's ends are drawn out along the board by `tips_mm - sides_mm`: whole at the tip, fading smoothly
    (3 s² − 2 s³) to nothing `blend_mm` in from it. Then the line runs `sides_mm` outside that all round, corners
    rounded. Frame and panel slip along the board when they are bent together, so the ends need more; the sides do not.

    Args:
        polygon: (n, 2) closed outline, the same on both sides of the x axis.
        sides_mm, tips_mm: Above 0.
    """
    shape = np.array(LinearRing(np.asarray(polygon, dtype=np.float64)).segmentize(LONGEST_STEP_MM).coords)
    tail, nose = float(np.min(shape[:, 0])), float(np.max(shape[:, 0]))
    drawn = (tips_mm - sides_mm) * (
        _fade((shape[:, 0] - nose) / blend_mm + 1) - _fade((tail - shape[:, 0]) / blend_mm + 1)
    )
    shape[:, 0] += drawn
    # The spine reaches both tips even where the outline pinches to nothing; it holds the line together there.
    spine = LineString(((np.min(shape[:, 0]), 0.0), (np.max(shape[:, 0]), 0.0)))
    grown = Polygon(shape).buffer(sides_mm, quad_segs=ARC_PIECES).union(spine.buffer(sides_mm, quad_segs=ARC_PIECES))
    return fixed(get_coordinates(get_exterior_ring(grown)))


def _fade(share: Floats) -> Floats:
    """0 up to 0, 1 from 1, smooth between."""
    s = np.clip(share, 0.0, 1.0)
    return np.asarray(s * s * (3 - 2 * s))


def cut_line(trace: ArrayLike, *, clear_mm: float = CUT_CLEAR_MM) -> Floats:
    """(n, 2) closed line `clear_mm` outside a traced one."""
    grown = Polygon(np.asarray(trace, dtype=np.float64)).buffer(clear_mm, quad_segs=ARC_PIECES)
    return fixed(np.array(grown.exterior.coords))


def make_trace(polygon: ArrayLike, *, sides_mm: float, tips_mm: float) -> Trace:
    """Trace and cut round a frame's closed outline."""
    around = np.asarray(polygon, dtype=np.float64)
    line = offset_outline(around, sides_mm=sides_mm, tips_mm=tips_mm)
    side = line[line[:, 1] >= 0]
    order = np.lexsort((side[:, 1], side[:, 0]))
    x, y = side[order].T
    # At a squared end many points share one x: the widest counts.
    starts = np.flatnonzero(np.concatenate(([True], np.diff(x) > 1e-9)))
    ends = float(np.min(around[:, 0])), float(np.max(around[:, 0]))
    return Trace(line, cut_line(line), ends[1] - ends[0], fixed(x[starts]), fixed(np.maximum.reduceat(y, starts)))
