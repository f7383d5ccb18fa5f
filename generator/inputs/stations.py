"""Cross-checks of lists that go along the board: order, reach, ends, and the sense of a rocker."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.inputs.blame import Blame
from generator.inputs.fault import Fault
from generator.inputs.words import Loc

HUMP_MM = 5.0
DATUM_MM = 10.0
TIP_RISE_MM = 5.0


def in_order(
    blame: Blame, locs: Sequence[Loc], from_tail_mm: Sequence[float], *, high_mm: float, least_step_mm: float, why: str
) -> Iterator[Fault]:
    """Places must lie from 0 to `high_mm` (`why` says what ends there), each beyond the one before."""
    before = None
    for loc, place_mm in zip(locs, from_tail_mm, strict=True):
        outside = list(blame.within(loc, "length", place_mm, low=0, high=high_mm, why=why))
        yield from outside
        if before is not None and not outside:
            reason = "places go from tail to nose"
            yield from blame.within(loc, "length", place_mm, low=before + least_step_mm, why=reason)
        before = place_mm


def at_both_ends(
    blame: Blame, locs: Sequence[Loc], from_tail_mm: Sequence[float], *, length_mm: float
) -> Iterator[Fault]:
    """The first place must be the tail's tip and the last the nose's."""
    ends = ((0, 0.0, "the tail's tip must be given"), (-1, length_mm, "the nose's tip must be given"))
    for at, end_mm, why in ends:
        if 0 <= from_tail_mm[at] <= length_mm:
            yield from blame.within(locs[at], "length", from_tail_mm[at], low=end_mm, high=end_mm, why=why)


def near_both_ends(
    blame: Blame, locs: Sequence[Loc], from_tail_mm: Sequence[float], *, length_mm: float
) -> Iterator[Fault]:
    """The first place must lie in the tail's quarter and the last in the nose's, or the rest would be guessed."""
    why = "a place near each tip is needed"
    yield from blame.within(locs[0], "length", from_tail_mm[0], high=length_mm / 4, why=why)
    if from_tail_mm[-1] <= length_mm:
        yield from blame.within(locs[-1], "length", from_tail_mm[-1], low=length_mm * 3 / 4, why=why)


def rocker_sense(blame: Blame, loc: Loc, from_tail_mm: Sequence[float], height_mm: Sequence[float]) -> Iterator[Fault]:
    """Heights count from the lowest point, rise towards both tips, and show no hump that must be a slip of the pen."""
    lowest = min(range(len(height_mm)), key=height_mm.__getitem__)
    why = "heights count from the lowest point"
    slips = list(blame.within((*loc, lowest, "height"), "length", height_mm[lowest], high=DATUM_MM, why=why))
    for at in (0, len(height_mm) - 1):
        least = height_mm[lowest] + TIP_RISE_MM
        why = "a rocker rises towards both tips"
        slips += blame.within((*loc, at, "height"), "length", height_mm[at], low=least, why=why)
    yield from slips or _humps(blame, loc, from_tail_mm, height_mm)


def _humps(blame: Blame, loc: Loc, from_tail_mm: Sequence[float], height_mm: Sequence[float]) -> Iterator[Fault]:
    for at in range(1, len(height_mm) - 1):
        if from_tail_mm[at - 1] < from_tail_mm[at] < from_tail_mm[at + 1]:
            share = (from_tail_mm[at] - from_tail_mm[at - 1]) / (from_tail_mm[at + 1] - from_tail_mm[at - 1])
            chord = height_mm[at - 1] + share * (height_mm[at + 1] - height_mm[at - 1])
            why = "higher than between its neighbours, the bottom would be hollow there"
            yield from blame.within((*loc, at, "height"), "length", height_mm[at], high=chord + HUMP_MM, why=why)
