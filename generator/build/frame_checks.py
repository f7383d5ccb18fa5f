"""Whether a frame is square, free of twist and straight: what a tape, two sticks and a string show of each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

ENDS_OF_STRIPS = 4
"""Two edge strips, each glued at the tail and at the nose."""


@dataclass(frozen=True, slots=True)
class RibEnds:
    """The two upper corners of one rib: place along the board, half width, height of the corners, all mm."""

    from_tail_mm: float
    half_width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class DiagonalCheck:
    """The two diagonals between two ribs.

    `first` and `second` count the ribs from 0 at the tail. `length_mm` is what both diagonals measure when all is
    square, `per_mm` the difference between them for each mm that one end of the rib that shows less stands too far
    ahead or behind, `limit_mm` the difference that the allowed angle makes there.
    """

    first: int
    second: int
    length_mm: float
    per_mm: float
    limit_mm: float


@dataclass(frozen=True, slots=True)
class FrameJoints:
    """Glue joints of a frame by kind."""

    spine: int
    strips: int
    tips: int

    @property
    def total(self) -> int:
        return self.spine + self.strips + self.tips


def diagonals_mm(
    first: RibEnds, second: RibEnds, *, first_turned_deg: float = 0.0, second_turned_deg: float = 0.0
) -> tuple[float, float]:
    """Lengths of the two diagonals, mm: left end of the first rib to right end of the second, and the other.

    Each rib is straight, held at its middle by the spine, and turned about it by its angle, seen from above, so that a
    positive angle makes the first of the two longer. The tape runs straight from corner to corner.

    Source: Pythagoras in space.
    """
    along = second.from_tail_mm - first.from_tail_mm
    one, other = math.radians(first_turned_deg), math.radians(second_turned_deg)
    ahead = first.half_width_mm * math.sin(one) + second.half_width_mm * math.sin(other)
    across = first.half_width_mm * math.cos(one) + second.half_width_mm * math.cos(other)
    up = second.height_mm - first.height_mm
    return math.hypot(along + ahead, across, up), math.hypot(along - ahead, across, up)


def difference_mm(
    first: RibEnds, second: RibEnds, *, first_turned_deg: float = 0.0, second_turned_deg: float = 0.0
) -> float:
    """How much the two diagonals differ, mm, whichever is longer."""
    one, other = diagonals_mm(first, second, first_turned_deg=first_turned_deg, second_turned_deg=second_turned_deg)
    return abs(one - other)


def end_off_mm(*, half_width_mm: float, turned_deg: float) -> float:
    """How far ahead or behind a rib's end stands, mm, when the rib is turned about the spine."""
    return half_width_mm * math.sin(math.radians(turned_deg))


def diagonal_check(ribs: Sequence[RibEnds], *, allowed_deg: float) -> DiagonalCheck:
    """The two ribs whose diagonals show most when the one that shows less is turned by the allowed angle.

    Far apart the diagonals run along the board and show the turn of a rib nearly in full; near the tips ribs are short
    and show little. The best pair is the one where the worse of its two ribs still shows most.

    Args:
        ribs: Tail first, at least two.
        allowed_deg: Angle that a rib may be out of square, above 0.

    Raises:
        ValueError: fewer than two ribs, or no angle.
    """
    if len(ribs) < 2 or not allowed_deg > 0:
        raise ValueError("a diagonal needs two ribs and an angle above 0")
    best: DiagonalCheck | None = None
    for i, first in enumerate(ribs):
        for j, second in enumerate(ribs[i + 1 :], i + 1):
            shows = [
                (difference_mm(first, second, first_turned_deg=allowed_deg), first),
                (difference_mm(first, second, second_turned_deg=allowed_deg), second),
            ]
            limit, rib = min(shows, key=lambda pair: pair[0])
            if best is None or limit > best.limit_mm:
                off = end_off_mm(half_width_mm=rib.half_width_mm, turned_deg=allowed_deg)
                best = DiagonalCheck(i, j, diagonals_mm(first, second)[0], limit / off if off else 0.0, limit)
    assert best is not None
    return best


def twist_deg(*, seen_mm: float, stick_mm: float) -> float:
    """Angle between two winding sticks, degrees, when the far one shows `seen_mm` more at one end than at the other.

    Args:
        seen_mm: Difference over the length of the stick, 0 up to that length.
        stick_mm: Length of the stick, above 0.

    Raises:
        ValueError: the stick has no length, or shows more than it.
    """
    if not stick_mm > 0 or not 0 <= seen_mm <= stick_mm:
        raise ValueError("stick_mm must be above 0 and seen_mm between 0 and it")
    return math.degrees(math.asin(seen_mm / stick_mm))


def rim_height_mm(*, seen_mm: float, stick_mm: float, width_mm: float) -> float:
    """How much higher one rim stands than the other, mm, over `width_mm`, when the sticks show `seen_mm`.

    Similar triangles: stick and board are turned by the same angle.
    """
    return width_mm * math.sin(math.radians(twist_deg(seen_mm=seen_mm, stick_mm=stick_mm)))


def bow_deg(*, aside_mm: float, length_mm: float) -> float:
    """How far a spine that is bent sideways to an even arc points aside at its tips, degrees.

    `aside_mm` is how far its middle lies beside a string from tip to tip: rise s of an arc over its chord c, whose end
    stands at an angle φ to the chord with s = c/2 · tan(φ/2).

    Raises:
        ValueError: no length.
    """
    if not length_mm > 0:
        raise ValueError("length_mm must be above 0")
    return math.degrees(2 * math.atan(2 * aside_mm / length_mm))


def count_joints(ribs: int) -> FrameJoints:
    """Joints of a frame with whole edge strips: rib and spine, both ends of each rib, both ends of both strips."""
    return FrameJoints(spine=ribs, strips=2 * ribs, tips=ENDS_OF_STRIPS)


def ribs_in_one_go(*, open_min: float, a_rib_min: float, setting_min: float) -> int:
    """How many ribs can be glued in within the open time, at least 1.

    Args:
        open_min: The glue's open time where it is used, min.
        a_rib_min: Time that one rib takes, min, above 0.
        setting_min: Time kept back for string, square and sticks while everything can still be moved, min.

    Raises:
        ValueError: a rib takes no time.
    """
    if not a_rib_min > 0:
        raise ValueError("a_rib_min must be above 0")
    return max(1, math.floor((open_min - setting_min) / a_rib_min + 1e-9))


def goes_for(ribs: int, in_one_go: int) -> int:
    """How many goes all the ribs take."""
    return -(-ribs // in_one_go)
