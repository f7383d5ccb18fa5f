"""The rocker as the trade names and measures it, how flat it is, and how shifts at its tips change it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol, Self

import numpy as np
from scipy.optimize import brentq

from generator.board.curve import FairCurve, fair_curve

MEASURED_IN_MM = 300.0
FLAT_WITHIN_MM = 5.0
LEAST_TIP_MM = 5.0
EARLIEST, LATEST = -0.5, 1.0


class HeightAt(Protocol):
    """Height of the bottom at one place."""

    @property
    def from_tail_mm(self) -> float: ...
    @property
    def height_mm(self) -> float: ...


@dataclass(frozen=True, slots=True)
class RockerHeight:
    """Height of the bottom above its low point at one place."""

    from_tail_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Rises:
    """Heights above the low point that name a rocker: at both tips and a set way in from each."""

    tail_mm: float
    tail_in_mm: float
    nose_in_mm: float
    nose_mm: float
    low_point_mm: float
    measured_in_mm: float


@dataclass(frozen=True, slots=True)
class FlatPart:
    """The stretch round the low point that counts as flat, as places from the tail tip."""

    from_mm: float
    to_mm: float
    board_mm: float

    @property
    def length_mm(self) -> float:
        """Length of the stretch along the board."""
        return self.to_mm - self.from_mm

    @property
    def share(self) -> float:
        """Its part of the board's length, 0 to 1."""
        return self.length_mm / self.board_mm


@dataclass(frozen=True, slots=True)
class Shift:
    """What is changed on a rocker: mm added at the tips, and how much later the rise comes.

    `late` is the power of the way out to the tip by which all heights above the low point are multiplied: 0 changes
    nothing, above 0 the middle gets flatter and the ends steeper, the tips stay.
    """

    tail_mm: float = 0.0
    nose_mm: float = 0.0
    late: float = 0.0

    @classmethod
    def lowering(cls, tail_mm: float, nose_mm: float, lowered_pct: float) -> Self:
        """A shift that also lowers the curve by `lowered_pct` of its height half-way from the low point to a tip.

        A height is multiplied by (1/2)^late there, so late = −log2(1 − lowered_pct/100).

        Raises:
            ValueError: `lowered_pct` is 100 or more.
        """
        if not lowered_pct < 100:
            raise ValueError("a curve can't be lowered by all of its height")
        return cls(tail_mm, nose_mm, -math.log2(1 - lowered_pct / 100))

    @property
    def lowered_pct(self) -> float:
        """Per cent of its height by which the curve is lowered half-way from the low point to a tip."""
        return 100 * (1 - math.exp2(-self.late))

    def times(self, count: float) -> Shift:
        """The same shift made `count` times, which need not be whole; adding 0 keeps minus nought out."""
        return Shift(self.tail_mm * count + 0.0, self.nose_mm * count + 0.0, self.late * count + 0.0)

    @property
    def held(self) -> Shift:
        """The same shift with `late` between `EARLIEST` and `LATEST`, where it can't make a bottom hollow or broken."""
        return Shift(self.tail_mm, self.nose_mm, min(max(self.late, EARLIEST), LATEST))

    def for_length(self, scale: float) -> Shift:
        """The same change of angles on a board `scale` times as long: more mm, no change of the form."""
        return Shift(self.tail_mm * scale, self.nose_mm * scale, self.late)


def added(shifts: Iterable[Shift]) -> Shift:
    """All shifts made one after the other."""
    all_of = tuple(shifts)
    return Shift(sum(s.tail_mm for s in all_of), sum(s.nose_mm for s in all_of), sum(s.late for s in all_of))


def rises(curve: FairCurve, *, length_mm: float, measured_in_mm: float = MEASURED_IN_MM) -> Rises:
    """Rise of a bottom curve at its tips and `measured_in_mm` in from them, above its low point.

    300 mm is common practice; makers who work in inches take 12 in (304.8 mm), so the page says which.
    """
    low = curve.low_point_mm()
    places = (0.0, measured_in_mm, length_mm - measured_in_mm, length_mm)
    tail, tail_in, nose_in, nose = (float(curve.height_mm(x) - curve.height_mm(low)) for x in places)
    return Rises(tail, tail_in, nose_in, nose, low, measured_in_mm)


def flat_part(curve: FairCurve, *, length_mm: float, within_mm: float = FLAT_WITHIN_MM) -> FlatPart:
    """The stretch where the bottom lies within `within_mm` of its tangent at the low point.

    A bottom that is hollow nowhere lies above that tangent and leaves it ever faster, so the stretch is one piece.
    5 mm is a choice of this program; other limits give other shares, in the same order for boards of one kind.
    """
    low = curve.low_point_mm()
    height, slope = float(curve.height_mm(low)), float(curve.slope(low))

    def over(x_mm: float) -> float:
        return float(curve.height_mm(x_mm)) - height - slope * (x_mm - low) - within_mm

    first, last = (end if over(end) <= 0 else float(brentq(over, low, end, xtol=1e-9)) for end in (0.0, length_mm))
    return FlatPart(first, last, length_mm)


def tip_angles_deg(curve: FairCurve, *, length_mm: float) -> tuple[float, float]:
    """How steeply the bottom rises at the tail tip and at the nose tip, degrees, rising outwards positive."""
    return math.degrees(math.atan(-float(curve.slope(0.0)))), math.degrees(math.atan(float(curve.slope(length_mm))))


def tuned_rocker(suggested: Sequence[HeightAt], shift: Shift, *, length_mm: float) -> tuple[RockerHeight, ...]:
    """Suggested heights with a shift.

    With u the way from the low point to the tip (0 to 1), z the suggested height, c that of the fair curve through all
    of them above its low point, and t the shift at the tip on that side: z + t u² + (c + t u²)(u^late − 1). So a tip
    moves by t, the low point stays, and where late is 0 the shift fades with the square. No shift lowers a tip to less
    than `LEAST_TIP_MM` above the low point, and `late` is held (`Shift.held`).
    """
    x = np.array([one.from_tail_mm for one in suggested])
    z = np.array([one.height_mm for one in suggested])
    curve = fair_curve(x, z, length_mm=length_mm).curve.from_low_point()
    low, above = curve.low_point_mm(), curve.height_mm(x)
    way = np.where(x < low, low - x, x - low) / np.where(x < low, max(low, 1.0), max(length_mm - low, 1.0))
    asked = (shift.tail_mm, above[0]), (shift.nose_mm, above[-1])
    tail, nose = (max(t, min(0.0, LEAST_TIP_MM - rise)) for t, rise in asked)
    shifted = np.where(x < low, tail, nose) * way**2
    out = way > 0
    factor = np.ones_like(way)
    factor[out] = way[out] ** shift.held.late
    heights = z + shifted + (above + shifted) * (factor - 1)
    return tuple(RockerHeight(float(at), float(height)) for at, height in zip(x, heights, strict=True))


def wanted_rocker(
    suggested: Sequence[HeightAt], *, agreed: Sequence[HeightAt] | None, shift: Shift, length_mm: float
) -> tuple[HeightAt, ...]:
    """The rocker to bend to: the one agreed with the maker untouched, else the suggested one with the shift."""
    return tuple(agreed) if agreed is not None else tuned_rocker(suggested, shift, length_mm=length_mm)
