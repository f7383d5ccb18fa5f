"""Bottom curves that are fair and never hollow the wrong way: curvature is a chain of straight lines, none below 0."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Self

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import nnls

from generator.quantities import Floats, fixed

NODES = 31
TOLERANCE_MM = 1.0
STEPS = 16
WEAKEST, STRONGEST = -4.0, 4.0  # log10 of the smoothing weight
EVEN_SHARE = 1e-3  # a slight pull towards even curvature: it decides where the heights leave the curve open
NO_BETTER = 1.1  # heights that no such curve meets: smooth as long as the worst miss grows by a tenth at most
GAUSS_X, GAUSS_W = np.polynomial.legendre.leggauss(6)


@dataclass(frozen=True, slots=True, eq=False)
class FairCurve:
    """A curve whose curvature runs straight from node to node and is nowhere below 0; beyond its ends it is straight.

    Small slopes: curvature is the second derivative of the height.

    Args:
        nodes_mm: (n,) places along the board, increasing, n at least 2.
        node_curvature_per_mm: (n,) 1/mm, at or above 0; up is positive, so rocker is.
        height0_mm, slope0: height and slope at the first node.

    Raises:
        ValueError: shapes differ, nodes do not increase, a curvature is below 0 or not finite.
    """

    nodes_mm: Floats
    node_curvature_per_mm: Floats
    height0_mm: float
    slope0: float
    _slopes: Floats = field(init=False, repr=False)
    _heights: Floats = field(init=False, repr=False)

    def __post_init__(self) -> None:
        nodes, bend = fixed(self.nodes_mm), fixed(self.node_curvature_per_mm)
        step = np.diff(nodes)
        if nodes.ndim != 1 or nodes.shape != bend.shape or nodes.size < 2 or not np.all(step > 0):
            raise ValueError("nodes_mm must increase, one curvature a node")
        if not np.all(np.isfinite(bend)) or np.any(bend < 0):
            raise ValueError("node_curvature_per_mm must be finite and at or above 0")
        slopes = self.slope0 + np.concatenate(([0.0], np.cumsum(step * (bend[:-1] + bend[1:]) / 2)))
        rises = step * slopes[:-1] + step**2 * (2 * bend[:-1] + bend[1:]) / 6
        heights = self.height0_mm + np.concatenate(([0.0], np.cumsum(rises)))
        for name, values in (("nodes_mm", nodes), ("node_curvature_per_mm", bend)):
            object.__setattr__(self, name, values)
        object.__setattr__(self, "_slopes", fixed(slopes))
        object.__setattr__(self, "_heights", fixed(heights))

    def _spot(self, x_mm: ArrayLike) -> tuple[NDArray[np.intp], Floats, Floats]:
        """For each place: its piece, the way into the piece, and the way past the curve's ends (0 on the curve)."""
        x = np.asarray(x_mm, dtype=np.float64)
        inside = np.clip(x, self.nodes_mm[0], self.nodes_mm[-1])
        piece = np.clip(np.searchsorted(self.nodes_mm, inside, side="right") - 1, 0, self.nodes_mm.size - 2)
        return piece, inside - self.nodes_mm[piece], x - inside

    def _curl(self, piece: NDArray[np.intp]) -> Floats:
        """Change of curvature per mm in each piece."""
        return np.asarray((np.diff(self.node_curvature_per_mm) / np.diff(self.nodes_mm))[piece])

    def height_mm(self, x_mm: ArrayLike) -> Floats:
        """Height at each place, shape of `x_mm`."""
        piece, s, past = self._spot(x_mm)
        bend = self.node_curvature_per_mm[piece]
        curve = self._heights[piece] + s * (self._slopes[piece] + s * (bend / 2 + s * self._curl(piece) / 6))
        return np.asarray(curve + past * self.slope(x_mm))

    def slope(self, x_mm: ArrayLike) -> Floats:
        """Slope at each place, mm per mm, shape of `x_mm`."""
        piece, s, _ = self._spot(x_mm)
        return np.asarray(self._slopes[piece] + s * (self.node_curvature_per_mm[piece] + s * self._curl(piece) / 2))

    def curvature_per_mm(self, x_mm: ArrayLike) -> Floats:
        """Curvature at each place, 1/mm, shape of `x_mm`; 0 past the ends."""
        piece, s, past = self._spot(x_mm)
        return np.where(past == 0, self.node_curvature_per_mm[piece] + s * self._curl(piece), 0.0)

    def developed_length_mm(self, x0_mm: float, x1_mm: float) -> float:
        """Length along the curve between two places, by Gauss points in each piece; negative if x1 lies before x0."""
        if x1_mm < x0_mm:
            return -self.developed_length_mm(x1_mm, x0_mm)
        inner = self.nodes_mm[(self.nodes_mm > x0_mm) & (self.nodes_mm < x1_mm)]
        ends = np.concatenate(([x0_mm], inner, [x1_mm]))
        half = np.diff(ends)[:, None] / 2
        x = ends[:-1, None] + half * (1 + GAUSS_X)
        return float(np.sum(half * GAUSS_W * np.sqrt(1 + self.slope(x) ** 2)))

    def low_point_mm(self) -> float:
        """Where the curve lies lowest: its slope is 0 there, or it is an end. On a flat stretch, its middle."""
        rounding = 1e-15
        if self._slopes[0] > rounding:
            return float(self.nodes_mm[0])
        if self._slopes[-1] < -rounding:
            return float(self.nodes_mm[-1])
        flat = self.nodes_mm[np.abs(self._slopes) <= rounding]
        if flat.size:
            return float((flat[0] + flat[-1]) / 2)
        piece = int(np.searchsorted(self._slopes, 0.0)) - 1
        drop, bend = -self._slopes[piece], self.node_curvature_per_mm[piece]
        curl = float(self._curl(np.array([piece]))[0])
        root = np.sqrt(max(bend**2 + 2 * curl * drop, 0.0))
        return float(self.nodes_mm[piece] + 2 * drop / (bend + root))

    def from_low_point(self) -> FairCurve:
        """The same curve with its lowest point at height 0."""
        lowest = float(self.height_mm(self.low_point_mm()))
        return FairCurve(self.nodes_mm, self.node_curvature_per_mm, self.height0_mm - lowest, self.slope0)

    @classmethod
    def straight(cls, length_mm: float) -> Self:
        """A level line from 0 to `length_mm`."""
        return cls(fixed([0.0, length_mm]), fixed([0.0, 0.0]), 0.0, 0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """A fair curve and how far it passes each given height: `misses_mm`, curve minus height, in the order given."""

    curve: FairCurve
    misses_mm: Floats

    @property
    def worst_mm(self) -> float:
        """The greatest miss without its sign."""
        return float(np.max(np.abs(self.misses_mm)))

    @property
    def worst_at(self) -> int:
        """Which given height is missed most, from 0."""
        return int(np.argmax(np.abs(self.misses_mm)))


def fair_curve(
    from_tail_mm: ArrayLike, height_mm: ArrayLike, *, length_mm: float, tolerance_mm: float = TOLERANCE_MM
) -> Fit:
    """The smoothest curve with curvature at or above 0 that passes all heights within `tolerance_mm`.

    Height = a + b x + Σ κ_j φ_j(x), φ_j the double integral of a hat function, κ_j ≥ 0: bounded least squares with a
    penalty on third differences of κ, as strong as the tolerance allows. If no such curve passes all heights that
    closely, they are hollow or misread: the curve is then about the nearest, and `Fit.misses_mm` shows where.

    Args:
        from_tail_mm, height_mm: (m,) places and heights, m at least 3, in any order.
        length_mm: The curve runs from 0 to here.

    Raises:
        ValueError: shapes differ, too few heights, or a place is off the board.
        RuntimeError: the least squares do not converge.
    """
    x, z = np.asarray(from_tail_mm, dtype=np.float64), np.asarray(height_mm, dtype=np.float64)
    if x.ndim != 1 or x.shape != z.shape or x.size < 3 or not (np.all(np.isfinite(x)) and np.all(np.isfinite(z))):
        raise ValueError("at least three places with one finite height each")
    if not length_mm > 0 or np.min(x) < 0 or np.max(x) > length_mm:
        raise ValueError("places must lie between 0 and length_mm")
    basis = _double_integrals(x / length_mm)
    line = np.column_stack((np.ones_like(x), x / length_mm))
    free = np.linalg.qr(line)[0]
    rows, aims = basis - free @ (free.T @ basis), z - free @ (free.T @ z)

    def bent(weight_log: float) -> tuple[Floats, Floats]:
        """Curvature × length² at the nodes, and the misses, for one strength of smoothing."""
        smooth = 10.0**weight_log * _roughness(NODES)
        bend = nnls(np.vstack((rows, smooth)), np.concatenate((aims, np.zeros(len(smooth)))), maxiter=50 * NODES)[0]
        return bend, rows @ bend - aims

    bend = _smoothest(bent, tolerance_mm)
    (height0, slope0), *_ = np.linalg.lstsq(line, z - basis @ bend, rcond=None)
    nodes = np.linspace(0.0, length_mm, NODES)
    curve = FairCurve(nodes, bend / length_mm**2, float(height0), float(slope0 / length_mm))
    return Fit(curve, fixed(curve.height_mm(x) - z))


def _smoothest(bent: Callable[[float], tuple[Floats, Floats]], tolerance_mm: float) -> Floats:
    """The result of the strongest smoothing whose worst miss is allowed, by halving the range of its logarithm."""
    best, misses = bent(WEAKEST)
    allowed = max(tolerance_mm, NO_BETTER * float(np.max(np.abs(misses))))
    low, high = WEAKEST, STRONGEST
    for _ in range(STEPS):
        middle = (low + high) / 2
        bend, misses = bent(middle)
        if np.max(np.abs(misses)) <= allowed:
            low, best = middle, bend
        else:
            high = middle
    return best


def _double_integrals(u: Floats) -> Floats:
    """(m, NODES) exact double integrals, from 0, of the hat functions on even nodes of 0 to 1."""
    step = 1 / (NODES - 1)
    nodes = np.linspace(0.0, 1.0, NODES)
    cubes = np.maximum(u[:, None] - nodes, 0.0) ** 3 / (6 * step)
    out = -2 * cubes
    out[:, 1:] += cubes[:, :-1]
    out[:, :-1] += cubes[:, 1:]
    out[:, 0] = u**2 / 2 - cubes[:, 0] + cubes[:, 1]
    out[:, -1] = cubes[:, -2] - cubes[:, -1]
    return out


def _roughness(count: int) -> Floats:
    """Rows that measure how uneven a curvature is: third differences, and first ones with a small share."""
    third = np.diff(np.eye(count), n=3, axis=0)
    first = EVEN_SHARE * np.diff(np.eye(count), axis=0)
    return np.vstack((third, first))
