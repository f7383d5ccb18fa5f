"""The outside of the finished board: a flat bottom, a crowned deck and rounded rails, bent to the rocker."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.board.depth import Depth
from generator.board.outline import Outline
from generator.quantities import Floats, fixed

STATIONS = 1200
HALF_ELLIPSE = np.pi / 4
FULLER, FLATTER = 8 / 9, 2 / 3
"""How much of its corner a rail fills where it is shaped fuller (nearly boxed) or flatter (a parabola) than the half
ellipse's π/4. Assumed: about as far as shapers go either way."""


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """Heights in mm above the bottom on the centre line of the same place; places and half widths in mm.

    Each cross-section is upright: a flat bottom, a deck that falls by `crown · (y / F)²` from the centre line (F half
    width), and outside y = F − r a rail that is half an ellipse: there the thickness is that of the deck times
    √(1 − s²), s from 0 to 1 at the rim, the rim half-way up. The same rounding, `rail_mm` long, runs round a round or
    pointed tip; a squared end stays square. Our own simple shape: how full a rail really is, the shaper decides.
    """

    depth: Depth
    outline: Outline
    rail_mm: float

    @property
    def length_mm(self) -> float:
        """From tip to tip, straight."""
        return self.outline.length_mm

    def half_width_mm(self, x_mm: ArrayLike) -> Floats:
        """Half width F of the finished board."""
        return self.outline.half_width_mm(x_mm)

    def rounding_mm(self, x_mm: ArrayLike) -> Floats:
        """Width r of the rounded rail at each side: the whole half width where the board is narrower."""
        return np.asarray(np.minimum(self.rail_mm, self.half_width_mm(x_mm)))

    def deck_mm(self, x_mm: ArrayLike, y_mm: ArrayLike) -> Floats:
        """Height of the deck as it would be without its rails and tips rounded."""
        return np.asarray(self.depth.finished_mm(x_mm) - self.depth.drop_mm(x_mm, y_mm))

    def tip_share(self, x_mm: ArrayLike) -> Floats:
        """What the rounding of the tips leaves of the thickness, 0 at a round or pointed tip to 1."""
        x = np.asarray(x_mm, dtype=np.float64)
        left = np.ones_like(x)
        for shape, way in ((self.outline.tail, x), (self.outline.nose, self.length_mm - x)):
            if shape != "square" and self.rail_mm > 0:
                left = left * np.sqrt(1 - (1 - np.clip(way / self.rail_mm, 0.0, 1.0)) ** 2)
        return np.asarray(left)

    def left_share(self, x_mm: ArrayLike, y_mm: ArrayLike) -> Floats:
        """What the rounding of rails and tips leaves of the thickness at a place, 0 off the board."""
        half, rail = self.half_width_mm(x_mm), self.rounding_mm(x_mm)
        y = np.abs(np.asarray(y_mm, dtype=np.float64))
        out = np.divide(y - (half - rail), rail, out=np.zeros(np.broadcast(half, y).shape), where=rail > 0)
        rounded = np.sqrt(1 - np.clip(out, 0.0, 1.0) ** 2) * self.tip_share(x_mm)
        return np.where(y <= half, rounded, 0.0)

    def under_mm(self, x_mm: ArrayLike, y_mm: ArrayLike) -> Floats:
        """Height of the underside: 0 on the flat of the bottom."""
        return np.asarray(self.deck_mm(x_mm, y_mm) / 2 * (1 - self.left_share(x_mm, y_mm)))

    def top_mm(self, x_mm: ArrayLike, y_mm: ArrayLike) -> Floats:
        """Height of the upper side."""
        return np.asarray(self.deck_mm(x_mm, y_mm) / 2 * (1 + self.left_share(x_mm, y_mm)))

    def section_mm2(self, x_mm: ArrayLike, *, rail_fill: float = HALF_ELLIPSE) -> Floats:
        """Area of the cross-sections; see `section_area_mm2`."""
        whole = section_area_mm2(
            half_width_mm=self.half_width_mm(x_mm),
            thickness_mm=self.depth.finished_mm(x_mm),
            crown_mm=self.depth.crown_mm(x_mm),
            rail_mm=self.rail_mm,
            rail_fill=rail_fill,
        )
        return np.asarray(whole * self.tip_share(x_mm))


def section_area_mm2(
    *,
    half_width_mm: ArrayLike,
    thickness_mm: ArrayLike,
    crown_mm: ArrayLike,
    rail_mm: float,
    rail_fill: float = HALF_ELLIPSE,
) -> Floats:
    """Area of cross-sections with a flat bottom, a deck that falls as a parabola, and rounded rails.

    With r the rail's width (F where the board is narrower), a = F − r, T thickness, c crown: 2 (T a − c a³/3F²)
    + 2 r [π/4 · T − c/F² (π/4 · a² + 2/3 · a r + π/16 · r²)], the second part scaled by rail_fill over π/4: the
    integral of the thickness that `Shape` describes.

    Args:
        half_width_mm: F, at or above 0.
        rail_fill: Share of its corner that a rail fills; half an ellipse fills π/4.
    """
    half = np.asarray(half_width_mm, dtype=np.float64)
    thick, rail = np.asarray(thickness_mm, dtype=np.float64), np.minimum(rail_mm, half)
    flat = half - rail
    per_width = np.divide(np.asarray(crown_mm), half**2, out=np.zeros_like(half), where=half > 0)
    middle = thick * flat - per_width * flat**3 / 3
    ends = rail * (np.pi / 4 * thick - per_width * (np.pi / 4 * flat**2 + 2 / 3 * flat * rail + np.pi / 16 * rail**2))
    return np.asarray(2 * (middle + ends * rail_fill / HALF_ELLIPSE))


def stations_mm(length_mm: float, *, count: int = STATIONS) -> Floats:
    """(count + 1,) places from tip to tip that crowd at the tips, where an outline turns sharply."""
    return fixed(length_mm * (1 - np.cos(np.linspace(0.0, np.pi, count + 1))) / 2)


def volume_litres(shape: Shape, *, rail_fill: float = HALF_ELLIPSE) -> float:
    """Volume of the finished board: its cross-sections, added up along it."""
    x = stations_mm(shape.length_mm)
    return float(np.trapezoid(shape.section_mm2(x, rail_fill=rail_fill), x) / 1e6)
