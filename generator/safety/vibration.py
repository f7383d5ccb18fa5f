"""Vibration that a tool puts into hands and arms: points, times, and the day's average.

Guidance by published limits for work; no clearance for anybody's hands. Accelerations are the vector sum, frequency
weighted, m/s², as a tool's booklet states them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

DAY_MIN = 480.0
ACTION_POINTS, LIMIT_POINTS = 100.0, 400.0
ACTION_M_S2, LIMIT_M_S2 = 2.5, 5.0
"""Directive 2002/44/EC, article 3, as eight-hour averages A(8); the points that HSE counts them in."""
PLATE_UNSURE_M_S2 = 1.5
"""The uncertainty K that tools' booklets commonly state for vibration (common practice)."""


@dataclass(frozen=True, slots=True)
class Hold:
    """A tool in the hand: its vibration, and for how long in the day it runs."""

    acceleration_m_s2: float
    minutes: float


def points(hold: Hold) -> float:
    """Points of one tool: 2 a² an hour, in step with the time.

    Raises:
        ValueError: acceleration or time is below 0 or not finite.

    Source: HSE hand-arm vibration ready-reckoner (points an hour to 40 m/s² and 10 h).
    """
    if not (0 <= hold.acceleration_m_s2 < math.inf and 0 <= hold.minutes < math.inf):
        raise ValueError("acceleration and minutes must be finite and not below 0")
    return 2 * hold.acceleration_m_s2**2 * hold.minutes / 60


def points_of(holds: Iterable[Hold]) -> float:
    """Points of several tools in one day; they add."""
    return sum(map(points, holds))


def minutes_to(wanted_points: float, *, acceleration_m_s2: float) -> float:
    """Minutes until a tool has used up so many points.

    Raises:
        ValueError: points or acceleration is not above 0.

    Source: as `points`, solved for the time.
    """
    if not (0 < wanted_points < math.inf and 0 < acceleration_m_s2 < math.inf):
        raise ValueError("points and acceleration must be above 0 and finite")
    return 30 * wanted_points / acceleration_m_s2**2


def day_average_m_s2(holds: Iterable[Hold]) -> float:
    """A(8): the steady vibration over eight hours that amounts to the same, m/s².

        A(8) = sqrt(Σ a² T / 480 min)

    Source: ISO 5349-1:2001, daily exposure (from memory; agrees with points = 100 (A(8) / 2.5)²).
    """
    return math.sqrt(sum(hold.acceleration_m_s2**2 * hold.minutes for hold in holds) / DAY_MIN)
