"""The loose assembly as a beam: exact curves under its loads and under a unit push at any place."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.quantities import Floats, fixed


@dataclass(frozen=True, slots=True)
class PointLoad:
    """A load at one place, down positive."""

    x_mm: float
    load_n: float


@dataclass(frozen=True, slots=True, eq=False)
class Beam:
    """A straight line of pieces with free ends: stiffness, spread load and free shape of each.

    Stiffness is constant in a piece; the spread load and the curvature that the beam has when nothing bends it run
    linearly from the piece's start to its end.

    Args:
        length_mm: Above 0.
        breaks_mm: (n+1,) ends of the pieces, 0 to `length_mm`, increasing.
        stiffness_n_mm2: (n,) E·I, above 0.
        load_start_n_mm, load_end_n_mm: (n,) N per mm, down positive.
        free_curvature_start_per_mm, free_curvature_end_per_mm: (n,) 1/mm, rocker positive.
        point_loads: each on the beam, in any order.

    Raises:
        ValueError: a number is not finite, a stiffness is not above 0, a piece or a load is not on the beam.
    """

    length_mm: float
    breaks_mm: Floats
    stiffness_n_mm2: Floats
    load_start_n_mm: Floats
    load_end_n_mm: Floats
    free_curvature_start_per_mm: Floats
    free_curvature_end_per_mm: Floats
    point_loads: tuple[PointLoad, ...] = ()

    def __post_init__(self) -> None:
        for name in (
            "breaks_mm",
            "stiffness_n_mm2",
            "load_start_n_mm",
            "load_end_n_mm",
            "free_curvature_start_per_mm",
            "free_curvature_end_per_mm",
        ):
            object.__setattr__(self, name, fixed(getattr(self, name)))
        object.__setattr__(self, "point_loads", tuple(self.point_loads))
        self._check()

    def _check(self) -> None:
        pieces = self.stiffness_n_mm2.shape
        lines = (
            self.load_start_n_mm,
            self.load_end_n_mm,
            self.free_curvature_start_per_mm,
            self.free_curvature_end_per_mm,
        )
        points = np.array([(p.x_mm, p.load_n) for p in self.point_loads], dtype=np.float64).reshape(-1, 2)
        if (
            len(pieces) != 1
            or pieces[0] < 1
            or self.breaks_mm.shape != (pieces[0] + 1,)
            or any(line.shape != pieces for line in lines)
        ):
            raise ValueError("breaks_mm must be one longer than each of the pieces' lists")
        if not all(np.isfinite(v).all() for v in (self.breaks_mm, self.stiffness_n_mm2, *lines, points)):
            raise ValueError("every number of a beam must be finite")
        if not (self.length_mm > 0 and np.all(self.stiffness_n_mm2 > 0)):
            raise ValueError("length_mm and every stiffness_n_mm2 must be above 0")
        if self.breaks_mm[0] != 0 or self.breaks_mm[-1] != self.length_mm or np.any(np.diff(self.breaks_mm) <= 0):
            raise ValueError("breaks_mm must increase from 0 to length_mm")
        if np.any((points[:, 0] < 0) | (points[:, 0] > self.length_mm)):
            raise ValueError("every point load must be on the beam")

    @property
    def total_load_n(self) -> float:
        """All loads together, N."""
        spread = (self.load_start_n_mm + self.load_end_n_mm) / 2 * np.diff(self.breaks_mm)
        return float(spread.sum()) + sum(p.load_n for p in self.point_loads)

    @property
    def load_moment_n_mm(self) -> float:
        """Sum of load × place, N·mm about x = 0."""
        start, size = self.breaks_mm[:-1], np.diff(self.breaks_mm)
        w0, w1 = self.load_start_n_mm, self.load_end_n_mm
        spread = size * (start * (w0 + w1) / 2 + size * (w0 + 2 * w1) / 6)
        return float(spread.sum()) + sum(p.x_mm * p.load_n for p in self.point_loads)

    def with_point_loads(self, more: Sequence[PointLoad]) -> "Beam":
        """The same beam with `more` loads on it."""
        return Beam(
            self.length_mm,
            self.breaks_mm,
            self.stiffness_n_mm2,
            self.load_start_n_mm,
            self.load_end_n_mm,
            self.free_curvature_start_per_mm,
            self.free_curvature_end_per_mm,
            (*self.point_loads, *more),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """Exact shapes of a beam that starts flat and level at x = 0, one for its loads and one a unit push.

    The true height is `loads + Σ reaction × push + a + b·x`, with a and b from contact. In segment j, with
    s = x − starts_mm[j], a moment is Σ c_k s^k (k = 0..3, sagging positive) and a height Σ c_k s^k (k = 0..5).

    Attributes:
        push_mm: (n,) places of the unit pushes (up).
        starts_mm, sizes_mm, stiffness_n_mm2: (m,) the segments: pieces cut at every load and push.
        free: (m, 2) free curvature at the segment's start, and its change per mm.
        moment_loads: (m, 4).  moment_push: (n, m, 4).  height_loads: (m, 6).  height_push: (n, m, 6).
    """

    push_mm: Floats
    starts_mm: Floats
    sizes_mm: Floats
    stiffness_n_mm2: Floats
    free: Floats
    moment_loads: Floats
    moment_push: Floats
    height_loads: Floats
    height_push: Floats

    def powers(self, x_mm: ArrayLike, count: int) -> tuple[NDArray[np.intp], Floats]:
        """Segment of each x (the right-hand one at a break) and (len(x), count) powers of the place in it."""
        x = np.asarray(x_mm, dtype=np.float64)
        at = np.clip(np.searchsorted(self.starts_mm, x, side="right") - 1, 0, self.starts_mm.size - 1)
        return at, (x - self.starts_mm[at])[..., None] ** np.arange(count)

    def heights(self, x_mm: ArrayLike) -> tuple[Floats, Floats]:
        """Heights (len(x),) under the loads and (n, len(x)) under each unit push."""
        at, powers = self.powers(x_mm, 6)
        return (self.height_loads[at] * powers).sum(-1), (self.height_push[:, at] * powers).sum(-1)

    def end_curvatures(self) -> tuple[Floats, Floats]:
        """Curvatures at both sides of every break: (2m,) under the loads, (n, 2m) under each unit push."""
        ends = np.stack([np.zeros_like(self.sizes_mm), self.sizes_mm])[..., None] ** np.arange(4)
        free = self.free[:, 0] + self.free[:, 1] * ends[..., 1]
        loads = (self.moment_loads * ends).sum(-1) / self.stiffness_n_mm2 + free
        push = (self.moment_push[:, None] * ends).sum(-1) / self.stiffness_n_mm2
        return loads.ravel(), push.reshape(self.push_mm.size, -1)


def columns(beam: Beam, push_mm: ArrayLike) -> Columns:
    """Columns of a beam for pushes at `push_mm` (n,), each on the beam; marched exactly from the tail."""
    pushes = fixed(push_mm).reshape(-1)
    if not np.all((pushes >= 0) & (pushes <= beam.length_mm)):
        raise ValueError("every push must be on the beam")
    loads_x = np.array([p.x_mm for p in beam.point_loads], dtype=np.float64)
    edges = np.unique(np.concatenate([beam.breaks_mm, loads_x, pushes]))
    starts, sizes = edges[:-1], np.diff(edges)
    piece = np.searchsorted(beam.breaks_mm, starts, side="right") - 1
    stiffness = beam.stiffness_n_mm2[piece]
    free = _line(beam, piece, starts, beam.free_curvature_start_per_mm, beam.free_curvature_end_per_mm)
    moment = np.zeros((1 + pushes.size, starts.size, 4))
    moment[0] = _load_moments(beam, starts, sizes, _line(beam, piece, starts, beam.load_start_n_mm, beam.load_end_n_mm))
    moment[1:, :, 0] = np.maximum(starts - pushes[:, None], 0)
    moment[1:, :, 1] = starts >= pushes[:, None]
    curvature = moment / stiffness[:, None]
    curvature[0, :, :2] += free
    heights = _twice_integrated(curvature, sizes)
    return Columns(
        pushes,
        fixed(starts),
        fixed(sizes),
        fixed(stiffness),
        fixed(free),
        fixed(moment[0]),
        fixed(moment[1:]),
        fixed(heights[0]),
        fixed(heights[1:]),
    )


def _line(beam: Beam, piece: NDArray[np.intp], starts: Floats, first: Floats, last: Floats) -> Floats:
    """(m, 2) value at each segment's start and change per mm of a quantity that is linear in each piece."""
    rise = (last - first) / np.diff(beam.breaks_mm)
    return np.stack([first[piece] + rise[piece] * (starts - beam.breaks_mm[piece]), rise[piece]], axis=-1)


def _load_moments(beam: Beam, starts: Floats, sizes: Floats, load: Floats) -> Floats:
    """(m, 4) moment in each segment of a beam that only its loads act on: M'' = −w, M' drops by P at a load."""
    at_start = np.zeros(starts.size)
    for point in beam.point_loads:
        if point.x_mm < beam.length_mm:
            at_start[np.searchsorted(starts, point.x_mm)] += point.load_n
    w, dw = load[:, 0], load[:, 1]
    shed = w * sizes + dw * sizes**2 / 2
    shear = -(np.cumsum(at_start) + np.concatenate([[0.0], np.cumsum(shed)[:-1]]))
    gained = shear * sizes - w * sizes**2 / 2 - dw * sizes**3 / 6
    moment = np.concatenate([[0.0], np.cumsum(gained)[:-1]])
    return np.stack([moment, shear, -w / 2, -dw / 6], axis=-1)


def _twice_integrated(curvature: Floats, sizes: Floats) -> Floats:
    """(c, m, 6) heights from (c, m, 4) curvatures, height and slope 0 at the first segment's start."""
    power = sizes[:, None] ** np.arange(1, 6)
    turn = curvature / np.arange(1, 5)
    rise = turn / np.arange(2, 6)
    slope = _before((turn * power[:, :4]).sum(-1))
    height = _before(slope * sizes + (rise * power[:, 1:]).sum(-1))
    return np.concatenate([height[..., None], slope[..., None], rise], axis=-1)


def _before(steps: Floats) -> Floats:
    """Running sum along the last axis, without the step itself."""
    out = np.zeros_like(steps)
    np.cumsum(steps[..., :-1], axis=-1, out=out[..., 1:])
    return out
