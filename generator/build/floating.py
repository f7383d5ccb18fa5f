"""How the finished board floats: alone, and under a rider who lies on it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.optimize import brentq

from generator.board.body import Body
from generator.board.shape import stations_mm
from generator.quantities import GRAVITY_M_S2, Floats, fixed

ALONG, ACROSS = 400, 12
STEEPEST = 0.5  # of a floating board, rise over run: far beyond any real one
BODY_KG_M3 = 985.0  # assumed, from memory: a person with the lungs filled floats, if only just
BODY_THICK_MM, BODY_MASS_KG = 120.0, 70.0  # assumed: mean thickness of a person of this mass, lying
THINNEST_MM, THICKEST_MM = 100.0, 150.0  # assumed: the same, of a slim and of a stocky person


@dataclass(frozen=True, slots=True, eq=False)
class Hull:
    """A floating body cut into upright columns, in the board's own x and z, mm.

    `x_mm` is (n,), the rest (n, m): the plan area of each column, and the heights of its two ends. A board's heights
    count from the lowest point of its bottom.
    """

    x_mm: Floats
    area_mm2: Floats
    under_mm: Floats
    top_mm: Floats

    @property
    def litres(self) -> float:
        """The whole volume."""
        return float(np.sum(self.area_mm2 * (self.top_mm - self.under_mm))) / 1e6

    def wet(self, level_mm: ArrayLike) -> tuple[float, float]:
        """Litres below a water level, and how far along x their middle lies; the level may be one a place."""
        level = np.broadcast_to(np.asarray(level_mm, dtype=np.float64), self.x_mm.shape)[:, None]
        each = self.area_mm2 * np.clip(level - self.under_mm, 0.0, self.top_mm - self.under_mm)
        whole = float(np.sum(each))
        middle = float(np.sum(each * self.x_mm[:, None])) / whole if whole > 0 else float(np.mean(self.x_mm))
        return whole / 1e6, middle


def hull_of(body: Body) -> Hull:
    """The finished board, bent to its rocker."""
    shape, x = body.shape, stations_mm(body.length_mm, count=ALONG)
    step = np.zeros_like(x)
    step[:-1] += np.diff(x) / 2
    step[1:] += np.diff(x) / 2
    nodes, weights = np.polynomial.legendre.leggauss(ACROSS)
    nodes, weights = (nodes + 1) / 2, weights / 2
    rail = shape.rounding_mm(x)[:, None]
    flat = shape.half_width_mm(x)[:, None] - rail
    angle = np.pi / 2 * nodes
    y = np.hstack((flat * nodes, flat + rail * np.sin(angle)))
    wide = 2 * np.hstack((flat * weights, rail * np.cos(angle) * weights * np.pi / 2))
    low, at = body.rocker.height_mm(x)[:, None], x[:, None]
    return Hull(
        fixed(x), fixed(wide * step[:, None]), fixed(low + shape.under_mm(at, y)), fixed(low + shape.top_mm(at, y))
    )


@dataclass(frozen=True, slots=True)
class Afloat:
    """A body at rest in water, level across.

    The water's surface in the body's own x and z is `level_mm + slope · x`; a slope above 0 means that the tail stands
    higher out of the water than as drawn.
    """

    level_mm: float
    slope: float
    litres: float
    middle_mm: float

    def surface_mm(self, x_mm: ArrayLike) -> Floats:
        """Height of the water's surface at places along the body."""
        return np.asarray(self.level_mm + self.slope * np.asarray(x_mm, dtype=np.float64))


def afloat(hull: Hull, *, mass_kg: float, from_tail_mm: float, water_kg_m3: float) -> Afloat:
    """Sinkage and trim of a body whose whole mass lies at one place along it.

    As much water is pushed away as the body weighs, and the middles of both lie over one another. Small angles; how
    high the mass lies does not count, which is right for a body much longer than deep.

    Raises:
        ValueError: it sinks, or can't lie at rest within a slope of `STEEPEST`.

    Source: Archimedes' principle.
    """
    litres = mass_kg / water_kg_m3 * 1000
    if not 0 < litres < hull.litres:
        raise ValueError("what weighs nothing does not float in water, and what outweighs its water sinks")

    def level(slope: float) -> float:
        """Water's height at x = 0 that gives the right volume."""
        tilt = slope * hull.x_mm
        low = float(np.min(hull.under_mm - tilt[:, None]))
        high = float(np.max(hull.top_mm - tilt[:, None]))
        return float(brentq(lambda h: hull.wet(h + tilt)[0] - litres, low, high, xtol=1e-7))

    def out(slope: float) -> float:
        return hull.wet(level(slope) + slope * hull.x_mm)[1] - from_tail_mm

    if out(-STEEPEST) * out(STEEPEST) > 0:
        raise ValueError("the mass lies too near an end for the body to lie flat in the water")
    slope = float(brentq(out, -STEEPEST, STEEPEST, xtol=1e-9))
    height = level(slope)
    return Afloat(height, slope, *hull.wet(height + slope * hull.x_mm))


@dataclass(frozen=True, slots=True)
class Lying:
    """A person lying flat as a slab: mass, volume, and the plan area and thickness that make it up."""

    mass_kg: float
    litres: float
    area_mm2: float
    thick_mm: float


def lying(mass_kg: float, *, thick_mm: float = BODY_THICK_MM) -> Lying:
    """A person of a mass; people of all masses are taken to have one shape.

    Args:
        thick_mm: Mean thickness of such a person of 70 kg, lying.
    """
    litres = mass_kg / BODY_KG_M3 * 1000
    own_mm = thick_mm * (mass_kg / BODY_MASS_KG) ** (1 / 3)
    return Lying(mass_kg, litres, litres * 1e6 / own_mm, own_mm)


@dataclass(frozen=True, slots=True)
class Prone:
    """Board and rider at rest, the rider lying where the board lies level.

    `level_mm` is the water's height above the lowest point of the bottom, `over_deck_mm` that above the deck under the
    rider's middle, below 0 where the deck is dry. `lie_at_mm` is the place of the rider's middle.
    """

    level_mm: float
    over_deck_mm: float
    board_litres: float
    rider_litres: float
    lie_at_mm: float
    waterline_mm: float


def prone(body: Body, hull: Hull, *, board_kg: float, board_at_mm: float, rider: Lying, water_kg_m3: float) -> Prone:
    """How deep board and rider float.

    The board carries what it weighs less than the water it pushes away. What is left of the rider's weight, the rider's
    own body carries, as far as it lies in the water: a slab on the deck. The rider lies where the board stays level.

    Raises:
        ValueError: the board does not float even alone.
    """
    whole = (board_kg + rider.mass_kg) / water_kg_m3 * 1000
    if board_kg >= water_kg_m3 * hull.litres / 1000:
        raise ValueError("the board is heavier than the water it can push away")

    def at(level_mm: float) -> Prone:
        board, middle = hull.wet(level_mm)
        lift = board * water_kg_m3 / 1000 - board_kg
        place = (board * water_kg_m3 / 1000 * middle - board_kg * board_at_mm) / lift
        place = min(max(place, 0.0), body.length_mm)
        over = level_mm - float(body.rocker.height_mm(place)) - float(body.finished_thickness_mm(place))
        wet = rider.area_mm2 * min(max(over, 0.0), rider.thick_mm) / 1e6
        return Prone(level_mm, over, board, wet, place, _waterline_mm(body, level_mm))

    def short(level_mm: float) -> float:
        state = at(level_mm)
        return state.board_litres + state.rider_litres - whole

    top = float(np.max(hull.top_mm)) + rider.thick_mm
    share = 1.02 * board_kg / water_kg_m3 * 1000
    alone = float(brentq(lambda h: hull.wet(h)[0] - min(share, hull.litres * (1 - 1e-9)), 0.0, top, xtol=1e-7))
    if short(alone) >= 0:
        return at(alone)
    return at(float(brentq(short, alone, top, xtol=1e-7)))


def _waterline_mm(body: Body, level_mm: float) -> float:
    """Length of the bottom's centre line below the water's surface."""
    x = np.linspace(0.0, body.length_mm, 2401)
    under = x[body.rocker.height_mm(x) < level_mm]
    return float(under[-1] - under[0]) if under.size else 0.0


def carried_kg(*, litres: float, board_kg: float, water_kg_m3: float) -> float:
    """What a board can carry before the last of it is under water; below 0 for one that sinks by itself.

    Source: Archimedes' principle.
    """
    return litres * water_kg_m3 / 1000 - board_kg


def wave_speed_m_s(waterline_m: float) -> float:
    """Speed of a deep-water wave as long as the waterline, v = √(g L / 2π): 1.34 √(L in feet) in knots.

    What pushes water aside needs much more push above it; a planing board is not bound by it.

    Raises:
        ValueError: the length is below 0 (nan included).

    Source: deep-water wave theory; naval architecture texts' speed-length rule.
    """
    if not waterline_m >= 0:
        raise ValueError("waterline_m must not be below 0")
    return math.sqrt(GRAVITY_M_S2 * waterline_m / (2 * math.pi))
