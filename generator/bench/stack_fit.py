"""Where the whole bench may lie, its height and tilt being free: areas in the plane of the two, cut by strips.

A stack fits a support where the height wanted there, `middle + (share - 1/2)·tilt + height`, is near the stack's own:
that is a strip in the plane of middle and tilt. `middle` is the bench's height at half its length, base + tilt/2.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from generator.quantities import Floats

RANGE_MM = 160.0
"""The bench may lie this much higher than it must."""
TILTS_MM = (0.0, 2.0, -2.0, 4.0, -4.0, 6.0, -6.0, 8.0, -8.0)
"""Rise of the whole bench from tail tip to nose tip, at which its lowest place is known."""
NEAR_MM = 1e-9
HALVINGS = 40

Area = list[tuple[float, float]]
"""Corners (middle, tilt) of a convex area."""


@dataclass(frozen=True, slots=True)
class Strip:
    """low ≤ middle + turn·tilt ≤ high."""

    turn: float
    low_mm: float
    high_mm: float

    @classmethod
    def about(cls, turn: float, line_mm: float, within_mm: float) -> "Strip":
        return cls(turn, line_mm - within_mm, line_mm + within_mm)


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """Lowest base over the tilt, straight between the tilts at which it is given."""

    tilt_mm: Floats
    base_mm: Floats

    def lowest(self, tilt_mm: float) -> float:
        return float(np.interp(tilt_mm, self.tilt_mm, self.base_mm))

    def within(self, area: Area) -> Area:
        """The part of an area, within one stretch between given tilts, where the bench may lie."""
        tilt = sum(t for _, t in area) / len(area)
        at = int(np.clip(np.searchsorted(self.tilt_mm, tilt), 1, self.tilt_mm.size - 1))
        start, end = float(self.tilt_mm[at - 1]), float(self.tilt_mm[at])
        slope = float(self.base_mm[at] - self.base_mm[at - 1]) / (end - start)
        level = float(self.base_mm[at - 1]) - slope * start
        return cut(area, Strip(-0.5 - slope, level, level + RANGE_MM))

    def stretches(self) -> list[Area]:
        """All that the bench may do, one area for each stretch between given tilts, the most level first."""
        out = []
        for start, end in zip(self.tilt_mm[:-1], self.tilt_mm[1:], strict=True):
            ends = [(float(t), self.lowest(float(t)) + float(t) / 2) for t in (start, end)]
            low, high = ([(m + up, t) for t, m in ends] for up in (0.0, RANGE_MM))
            out.append([*low, *reversed(high)])
        return sorted(out, key=lambda area: abs(sum(t for _, t in area)))


def cut(area: Area, strip: Strip) -> Area:
    """What lies of a convex area within a strip; empty if nothing does."""
    turn, low, high = strip.turn, strip.low_mm - NEAR_MM, strip.high_mm + NEAR_MM
    at = [m + turn * t for m, t in area]
    if not at or max(at) < low or min(at) > high:
        return []
    if min(at) < low:
        area = _side(area, turn, low, 1.0)
    if max(at) > high:
        area = _side(area, turn, high, -1.0)
    return area


def _side(area: Area, turn: float, line: float, sign: float) -> Area:
    """The part of a convex area on one side of a line."""
    out: Area = []
    before = area[-1]
    over_before = sign * (before[0] + turn * before[1] - line)
    for here in area:
        over = sign * (here[0] + turn * here[1] - line)
        if (over < 0) != (over_before < 0):
            part = over_before / (over_before - over)
            out.append((before[0] + part * (here[0] - before[0]), before[1] + part * (here[1] - before[1])))
        if over >= 0:
            out.append(here)
        before, over_before = here, over
    return out


def least_ratio(areas: Sequence[Area], strips: Sequence[Strip]) -> tuple[float, float, float]:
    """Least factor by which all strips may be narrowed and still meet in one of the areas, and (middle, tilt) there.

    Without strips it is the lowest corner of the first area. Found by halving, to the last digits.

    Raises:
        ArithmeticError: the strips as they are do not meet.
    """
    if not strips:
        return 0.0, *min(areas[0])
    best, at = 1.0, _meet(areas, strips, 1.0)
    if not at:
        raise ArithmeticError("the strips do not meet")
    low = 0.0
    for _ in range(HALVINGS):
        half = (low + best) / 2
        found = _meet(areas, strips, half)
        if found:
            best, at = half, found
        else:
            low = half
    return best, sum(m for m, _ in at) / len(at), sum(t for _, t in at) / len(at)


def _meet(areas: Sequence[Area], strips: Sequence[Strip], factor: float) -> Area:
    """Where the strips, each narrowed about its middle line, meet; empty if nowhere."""
    for area in areas:
        left = area
        for strip in strips:
            line, within = (strip.low_mm + strip.high_mm) / 2, (strip.high_mm - strip.low_mm) / 2
            left = cut(left, Strip.about(strip.turn, line, within * factor))
            if not left:
                break
        if left:
            return left
    return []
