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
        size = self.breaks_mm[1:] - self.breaks_mm[:-1]
        return float((self.load_start_n_mm + self.load_end_n_mm) @ size) / 2 + sum(p.load_n for p in self.point_loads)

    @property
    def load_moment_n_mm(self) -> float:
        """Sum of load × place, N·mm about x = 0."""
        start, end = self.breaks_mm[:-1], self.breaks_mm[1:]
        w0, w1, size = self.load_start_n_mm, self.load_end_n_mm, end - start
        spread = float((start * (w0 + w1) / 2 + size * (w0 + 2 * w1) / 6) @ size)
        return spread + sum(p.x_mm * p.load_n for p in self.point_loads)

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
    points = np.array([(p.x_mm, p.load_n) for p in beam.point_loads], dtype=np.float64).reshape(-1, 2)
    edges = np.sort(np.concatenate([beam.breaks_mm, points[:, 0], pushes]))
    edges = edges[np.append(True, edges[1:] > edges[:-1])]
    starts, sizes = edges[:-1], edges[1:] - edges[:-1]
    piece = beam.breaks_mm.searchsorted(starts, side="right") - 1
    stiffness = beam.stiffness_n_mm2[piece]
    load, free = _lines(beam, piece, starts)
    moment = np.zeros((4, 1 + pushes.size, starts.size))
    moment[:, 0] = _load_moments(starts, sizes, load, points)
    arm = starts - pushes[:, None]
    moment[0, 1:] = np.maximum(arm, 0)
    moment[1, 1:] = arm >= 0
    curvature = moment / stiffness
    curvature[:2, 0] += free
    height = _twice_integrated(curvature, sizes)
    for made in (starts, sizes, stiffness, free, moment, height):
        made.setflags(write=False)
    moments, heights = moment.transpose(1, 2, 0), height.transpose(1, 2, 0)
    return Columns(pushes, starts, sizes, stiffness, free.T, moments[0], moments[1:], heights[0], heights[1:])


def _lines(beam: Beam, piece: NDArray[np.intp], starts: Floats) -> Floats:
    """(2, 2, m) spread load and free curvature, each at the segments' starts and its change per mm."""
    first = np.array([beam.load_start_n_mm, beam.free_curvature_start_per_mm])
    last = np.array([beam.load_end_n_mm, beam.free_curvature_end_per_mm])
    rise = ((last - first) / (beam.breaks_mm[1:] - beam.breaks_mm[:-1]))[:, piece]
    out = np.empty((2, 2, starts.size))
    out[:, 0] = first[:, piece] + rise * (starts - beam.breaks_mm[piece])
    out[:, 1] = rise
    return out


def _load_moments(starts: Floats, sizes: Floats, load: Floats, points: Floats) -> Floats:
    """(4, m) moment in each segment of a beam that only its loads act on: M'' = −w, M' drops by P at a load."""
    w, dw = load
    at_start = np.bincount(starts.searchsorted(points[:, 0]), points[:, 1], starts.size)[: starts.size]
    shear = -(at_start.cumsum() + _before((w + dw * sizes / 2) * sizes))
    moment = _before((shear - (w / 2 + dw * sizes / 6) * sizes) * sizes)
    return np.array([moment, shear, -w / 2, -dw / 6])


def _twice_integrated(curvature: Floats, sizes: Floats) -> Floats:
    """(6, c, m) heights from (4, c, m) curvatures, height and slope 0 at the first segment's start."""
    out = np.empty((6, *curvature.shape[1:]))
    for k, power in enumerate(curvature):
        np.divide(power, (k + 1) * (k + 2), out=out[k + 2])
    out[1] = _before(_at([power * (k + 2) for k, power in enumerate(out[2:])], sizes) * sizes)
    out[0] = _before(_at(list(out[1:]), sizes) * sizes)
    return out


def _at(powers: Sequence[Floats], place: Floats) -> Floats:
    """Polynomials, lowest power first, at a place each (Horner)."""
    value = powers[-1]
    for power in powers[-2::-1]:
        value = value * place + power
    return value


def _before(steps: Floats) -> Floats:
    """Running sum along the last axis, without the step itself."""
    out = np.zeros_like(steps)
    np.cumsum(steps[..., :-1], axis=-1, out=out[..., 1:])
    return out
