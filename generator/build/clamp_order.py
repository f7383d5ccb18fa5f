"""In which order the clamps go on, and how to glue in goes when there are too few of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from numpy.typing import ArrayLike

from generator.bench.assembly import ClampKind
from generator.quantities import fixed


@dataclass(frozen=True, slots=True)
class Set:
    """One pair of clamps in a go: its rib, counted from 0 at the tail, and the kind of clamp."""

    rib: int
    name: str


def outwards(rib_mm: ArrayLike, *, middle_mm: float) -> tuple[int, ...]:
    """Indices of the ribs from the middle outwards, tail side and nose side in turn.

    The rib nearest the middle comes first. Then the nearest rib that is left on the other side, and so on; where one
    side has none left, the other goes on outwards.
    """
    places = [float(place) for place in fixed(rib_mm)]
    left = sorted(range(len(places)), key=lambda i: (abs(places[i] - middle_mm), i))
    if not left:
        return ()
    order = [left.pop(0)]
    first = order[0]
    sides = ([i for i in left if i < first], [i for i in left if i > first])
    side = 0 if places[first] > middle_mm else 1
    if not sides[side] or not sides[1 - side]:
        side = 0 if sides[0] else 1
    while sides[0] or sides[1]:
        if sides[side]:
            order.append(sides[side].pop(0))
        side = 1 - side
    return tuple(order)


def goes(order: Sequence[int], *, grip_mm: ArrayLike, kinds: Sequence[ClampKind]) -> tuple[tuple[Set, ...], ...]:
    """The ribs in as few goes as the pairs of clamps allow, the middle of the board first.

    In each go every pair is used once at most, on the ribs that are left, in their order; a rib for which no free pair
    opens far enough waits for the next go, and one that no pair opens for at all is in none. The middle comes first
    because the tips must be free to slide for as long as anything is moved.

    Args:
        order: Ribs from the middle outwards.
        grip_mm: Opening that each rib needs, by its index.
    """
    grip = fixed(grip_mm)
    waiting = [rib for rib in order if any(k.count >= 2 and k.opening_mm >= grip[rib] for k in kinds)]
    found: list[tuple[Set, ...]] = []
    while waiting:
        free = [(kind, kind.count // 2) for kind in sorted(kinds, key=lambda k: (k.opening_mm, k.hang_mm))]
        now: list[Set] = []
        for rib in list(waiting):
            for at, (kind, count) in enumerate(free):
                if count and kind.opening_mm >= grip[rib]:
                    free[at] = (kind, count - 1)
                    now.append(Set(rib, kind.name))
                    waiting.remove(rib)
                    break
        found.append(tuple(now))
    return tuple(found)


def to_borrow(*, ribs: int, pairs: int, in_goes: int) -> int:
    """Pairs that are missing for gluing so many ribs in so many goes; 0 if none is."""
    return max(0, -(-ribs // in_goes) - pairs)


def strip_pressure_mpa(*, force_n: float, apart_mm: float, width_mm: float) -> float:
    """Mean pressure on a narrow glue joint under clamps of so much force each, so far apart, MPa.

    Raises:
        ValueError: a length is not above 0.
    """
    if not (apart_mm > 0 and width_mm > 0):
        raise ValueError("apart_mm and width_mm must be above 0")
    return force_n / (apart_mm * width_mm)
