"""A thin wooden plate held along four edges, under a load about its middle; alone, or one of two with foam between.

Displacements are sums of smooth shapes that keep the edges' conditions, and the sum with the least energy is taken
(Ritz). For edges that may turn the shapes are half waves, and without foam this is Navier's double series.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import ArrayLike

from generator.quantities import Floats

Edges = Literal["turning", "fixed"]
SHAPES = 8
"""Shapes each way, even about the middle. A load a quarter as wide as the plate then dents it to within 1 % of what
twice as many give, and pulls it to within 3 %."""
_NODES, _WEIGHTS = legendre.leggauss(64)


@dataclass(frozen=True, slots=True)
class Wood:
    """Stiffness of a thin wooden plate, MPa: along the grain (x), across it (y), in shear in its plane.

    `poisson` is how much it narrows across the grain as it is stretched along it.
    """

    along_mpa: float
    across_mpa: float
    shear_mpa: float
    poisson: float

    def __post_init__(self) -> None:
        if not (self.along_mpa > 0 and self.across_mpa > 0 and self.shear_mpa > 0 and self.poisson >= 0):
            raise ValueError("stiffnesses must be above 0 and poisson at or above 0")
        if self.poisson**2 * self.across_mpa / self.along_mpa >= 1:
            raise ValueError("no material narrows so much")

    @property
    def plane(self) -> tuple[float, float, float, float]:
        """Plane-stress stiffness Qx, Qy, Qxy and G, MPa (Jones, Mechanics of Composite Materials, from memory)."""
        left = 1 - self.poisson**2 * self.across_mpa / self.along_mpa
        return self.along_mpa / left, self.across_mpa / left, self.poisson * self.across_mpa / left, self.shear_mpa


@dataclass(frozen=True, slots=True)
class Pane:
    """One bay's piece of panel: `length_mm` along the grain, `width_mm` across it, thickness, and how it is held."""

    length_mm: float
    width_mm: float
    thickness_mm: float
    wood: Wood
    edges: Edges

    def __post_init__(self) -> None:
        if not (self.length_mm > 0 and self.width_mm > 0 and self.thickness_mm > 0):
            raise ValueError("length_mm, width_mm and thickness_mm must be above 0")


@dataclass(frozen=True, slots=True)
class Patch:
    """A rectangle about the middle of a pane, along and across the grain; cut off at the pane's edges."""

    length_mm: float
    width_mm: float

    def on(self, pane: Pane) -> tuple[tuple[float, float], tuple[float, float]]:
        """Its ends as shares of the pane's length and width."""
        shares = (min(self.length_mm / pane.length_mm, 1.0), min(self.width_mm / pane.width_mm, 1.0))
        along, across = (((1 - share) / 2, (1 + share) / 2) for share in shares)
        return along, across


@dataclass(frozen=True, slots=True)
class Core:
    """Foam glued between two panes: the part of the bay that it fills, its depth, stiffness in crushing and shear."""

    fills: Patch
    depth_mm: float
    crush_mpa: float
    shear_mpa: float

    def __post_init__(self) -> None:
        if not (self.depth_mm > 0 and self.crush_mpa >= 0 and self.shear_mpa >= 0):
            raise ValueError("depth_mm must be above 0, crush_mpa and shear_mpa at or above 0")


@dataclass(frozen=True, slots=True)
class Dent:
    """Deflection in the middle, mm, and the greatest pull across and along the grain there, MPa."""

    deflection_mm: float
    across_mpa: float
    along_mpa: float


@dataclass(frozen=True, slots=True, eq=False)
class _Shapes:
    """Shapes along one side: products summed over the whole side, and over one stretch of it; values in the middle."""

    whole: dict[str, Floats]
    part: dict[str, Floats]
    load: Floats
    middle: tuple[Floats, Floats, Floats]


def pressed(pane: Pane, *, load_n: float, patch: Patch) -> Dent:
    """One pane by itself under a load spread evenly over `patch` in its middle.

    Equation: Dx w_xxxx + 2 H w_xxyy + Dy w_yyyy = q, with Dx = Qx t³/12 and so on, H = Dxy + 2 G t³/12.

    Source: Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells (1959), chapter 11 (from memory).
    """
    x, y = _shapes(pane, patch, patch)
    w = np.linalg.solve(_bending(pane, x, y), load_n * np.kron(x.load, y.load))
    bend = _curved(pane, x, y, w)
    return Dent(float(np.kron(x.middle[0], y.middle[0]) @ w), bend[1], bend[0])


def pressed_on_foam(pane: Pane, core: Core, *, load_n: float, patch: Patch) -> Dent:
    """The upper of two like panes with foam glued between, the lower one held at its edges only.

    Half the load taken by both panes alike and half by each against the other add up to the load on the upper one.
    In the first the panes go down together, and the foam's shear makes them work as one; in the second they come
    nearer, and the foam is crushed. The panes' own bending is counted in both.

    Source: our own, from Allen, Analysis and Design of Structural Sandwich Panels (1969), for the first part (from
    memory), and a plate on an elastic bed of twice the foam's stiffness for the second.
    """
    x, y = _shapes(pane, core.fills, patch)
    load = np.asarray(load_n * np.kron(x.load, y.load))
    bending = _bending(pane, x, y)
    bed = 2 * core.crush_mpa / core.depth_mm * np.kron(x.part["00"], y.part["00"])
    nearer = np.asarray(np.linalg.solve(bending + bed, load / 2), dtype=np.float64)
    together, pull = _sandwich(pane, core, x, y, bending, load)
    ahead, behind = (_curved(pane, x, y, together + sign * nearer) for sign in (1, -1))
    most = [max(upper - own, lower + own) for upper, lower, own in zip(ahead, behind, pull, strict=True)]
    return Dent(float(np.kron(x.middle[0], y.middle[0]) @ (together + nearer)), most[1], most[0])


def _sandwich(
    pane: Pane, core: Core, x: _Shapes, y: _Shapes, bending: Floats, load: Floats
) -> tuple[Floats, tuple[float, float]]:
    """Deflection of both panes as one, and the even pull in the lower one's middle, along and across, MPa."""
    t, depth, count = pane.thickness_mm, core.depth_mm, load.size
    qx, qy, qxy, g = pane.wood.plane
    apart, per = depth + t, core.shear_mpa / core.depth_mm
    foam_x, foam_y = np.kron(x.part["11"], y.part["00"]), np.kron(x.part["00"], y.part["11"])
    turn = np.kron(x.whole["11"], y.whole["11"])
    full = np.zeros((3 * count, 3 * count))
    w, u, v = (slice(n * count, (n + 1) * count) for n in range(3))
    full[w, w] = 2 * bending + per * apart**2 * (foam_x + foam_y)
    full[u, u] = 2 * t * (qx * np.kron(x.whole["22"], y.whole["00"]) + g * turn) + 4 * per * foam_x
    full[v, v] = 2 * t * (qy * np.kron(x.whole["00"], y.whole["22"]) + g * turn) + 4 * per * foam_y
    full[u, v] = 2 * t * (qxy * np.kron(x.whole["20"], y.whole["20"].T) + g * turn)
    full[w, u], full[w, v] = 2 * per * apart * foam_x, 2 * per * apart * foam_y
    full[v, u], full[u, w], full[v, w] = full[u, v].T, full[w, u].T, full[w, v].T
    found = np.linalg.solve(full, np.concatenate((load, np.zeros(2 * count))))
    stretch_x = -float(np.kron(x.middle[2], y.middle[0]) @ found[u])
    stretch_y = -float(np.kron(x.middle[0], y.middle[2]) @ found[v])
    return np.asarray(found[w]), (qx * stretch_x + qxy * stretch_y, qy * stretch_y + qxy * stretch_x)


def _bending(pane: Pane, x: _Shapes, y: _Shapes) -> Floats:
    """Stiffness of one pane against bending. With the edges held down, twist and both bends come to 2 H."""
    qx, qy, qxy, g = (one * pane.thickness_mm**3 / 12 for one in pane.wood.plane)
    a, b = x.whole, y.whole
    return np.asarray(
        qx * np.kron(a["22"], b["00"]) + 2 * (qxy + 2 * g) * np.kron(a["11"], b["11"]) + qy * np.kron(a["00"], b["22"])
    )


def _curved(pane: Pane, x: _Shapes, y: _Shapes, w: Floats) -> tuple[float, float]:
    """Bending stress at the lower face in the middle, along and across the grain."""
    qx, qy, qxy, _ = pane.wood.plane
    bend_x = -float(np.kron(x.middle[2], y.middle[0]) @ w) * pane.thickness_mm / 2
    bend_y = -float(np.kron(x.middle[0], y.middle[2]) @ w) * pane.thickness_mm / 2
    return qx * bend_x + qxy * bend_y, qy * bend_y + qxy * bend_x


def _shapes(pane: Pane, part: Patch, patch: Patch) -> tuple[_Shapes, _Shapes]:
    stretches = zip((pane.length_mm, pane.width_mm), part.on(pane), patch.on(pane), strict=True)
    x, y = (_along(pane.edges, size, inner, under) for size, inner, under in stretches)
    return x, y


def _along(edges: Edges, size_mm: float, part: tuple[float, float], under: tuple[float, float]) -> _Shapes:
    """Shapes along a side, `part` and `under` as shares of it; the load is 1 N over all of `under`."""
    whole, inner = _products(edges, size_mm, (0.0, 1.0)), _products(edges, size_mm, part)
    at, weights = _points(under)
    values = _values(edges, size_mm, at)[0]
    middle = _values(edges, size_mm, np.array([0.5]))
    return _Shapes(
        whole, inner, values @ weights / (under[1] - under[0]), (middle[0][:, 0], middle[1][:, 0], middle[2][:, 0])
    )


def _products(edges: Edges, size_mm: float, stretch: tuple[float, float]) -> dict[str, Floats]:
    at, weights = _points(stretch)
    zero, one, two = _values(edges, size_mm, at)
    weighed = weights * size_mm
    return {
        "00": (zero * weighed) @ zero.T,
        "11": (one * weighed) @ one.T,
        "22": (two * weighed) @ two.T,
        "20": (two * weighed) @ zero.T,
    }


def _points(stretch: tuple[float, float]) -> tuple[Floats, Floats]:
    """Places and weights of Gauss's rule over a stretch of the side."""
    half = (stretch[1] - stretch[0]) / 2
    return stretch[0] + half * (1 + _NODES), half * _WEIGHTS


def _values(edges: Edges, size_mm: float, at: Floats) -> tuple[Floats, Floats, Floats]:
    """(shapes, places) values, slopes and second derivatives at shares `at` of the side.

    Turning: half waves. Fixed: Legendre polynomials joined so that value and slope vanish at both ends (Shen, SIAM
    Journal on Scientific Computing 15 (1994), from memory).
    """
    if edges == "turning":
        wave = np.pi * (2 * np.arange(SHAPES)[:, None] + 1)
        per, angle = wave / size_mm, wave * at
        return _three(np.sin(angle), per * np.cos(angle), -(per**2) * np.sin(angle))
    terms = np.zeros((2 * SHAPES + 4, SHAPES))
    for column in range(SHAPES):
        k = 2 * column
        terms[[k, k + 2, k + 4], column] = 1.0, -2 * (2 * k + 5) / (2 * k + 7), (2 * k + 3) / (2 * k + 7)
    place, per_mm = 2 * at - 1, 2 / size_mm
    zero, one, two = (np.asarray(legendre.legval(place, legendre.legder(terms, order))) for order in range(3))
    return _three(zero, one * per_mm, two * per_mm**2)


def _three(zero: ArrayLike, one: ArrayLike, two: ArrayLike) -> tuple[Floats, Floats, Floats]:
    return np.asarray(zero), np.asarray(one), np.asarray(two)
