"""From the board's millimetres to the sheet's units."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from generator.drawings.pen import Point
from generator.figures import Curve


@dataclass(frozen=True, slots=True)
class View:
    """A side or top view, tail on the left: x mm run to the right, heights (or widths) upwards.

    `left`, `base` are where x = 0 and height = 0 lie on the sheet; heights are drawn `times` too large.
    """

    left: float
    base: float
    per_mm: float
    times: float = 1.0

    def x(self, x_mm: float) -> float:
        return self.left + x_mm * self.per_mm

    def y(self, height_mm: float) -> float:
        return self.base - height_mm * self.per_mm * self.times

    def line(self, x_mm: Iterable[float], height_mm: Iterable[float]) -> tuple[Point, ...]:
        """The points of a curve."""
        return tuple((self.x(a), self.y(b)) for a, b in zip(x_mm, height_mm, strict=True))

    def scale_words(self) -> str:
        """What the reader must know of the scale."""
        if self.times == 1:
            return "Drawn to scale."
        return f"Lengths to scale; heights {self.times:g} times too large."


def times_that_fit(heights_mm: float, *, per_mm: float, room: float, most: int) -> int:
    """The largest whole number of times that heights may be enlarged within `room` units, at least 1."""
    return max(1, min(most, int(room / (heights_mm * per_mm))))


def at(curve: Curve, x_mm: float) -> float:
    """The curve's value at a place, straight between its points."""
    return float(np.interp(x_mm, curve.x_mm, curve.y))
