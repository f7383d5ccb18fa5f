"""The ways in which one row of a panel can be put together from planks: whole ones and one piece cut to length."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

MIXED = 2
"""Up to so many whole planks of a row may be of different lengths; longer rows take all of one length."""
MOST_RECIPES = 10
"""Rows of one width that are thought about: those that take the least wood."""
STEP_MM = 5.0
ALIKE_MM = 2.0
"""Planks whose widths differ by no more lie in one row; the row is as wide as the narrowest of them."""


@dataclass(frozen=True, slots=True)
class Planks:
    """Planks of one size; `have` is how many lie ready, None for those that are bought as needed."""

    width_mm: float
    length_mm: float
    have: int | None

    @property
    def area_mm2(self) -> float:
        return self.width_mm * self.length_mm


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a row has to be.

    Args:
        length_mm: it reaches at least so far.
        overlap_mm: length that an end join takes of both planks together.
        stagger_mm: least distance between the end joins of rows side by side.
        shortest_mm: no piece of a row is shorter.
    """

    length_mm: float
    overlap_mm: float
    stagger_mm: float
    shortest_mm: float


@dataclass(frozen=True, slots=True)
class Recipe:
    """One way to make a row, told from the tail: a piece cut to `cut_mm`, then the whole planks.

    `joints_mm` are the middles of the end joins from the tail end of the panel; a row beside it is laid the other way
    round, from the nose. `spare_mm` sticks out past the panel at the end of the last plank. `stagger_mm` is the least
    distance to the joins of the same row laid the other way round (infinite without joins).
    """

    whole: tuple[int, ...]
    cut_mm: float
    joints_mm: tuple[float, ...]
    spare_mm: float
    stagger_mm: float


def apart_mm(one: Recipe, other: Recipe, *, length_mm: float) -> float:
    """Least distance between the joins of one row and those of another that is laid the other way round."""
    return min(
        (abs(a - (length_mm - b)) for a in one.joints_mm for b in other.joints_mm),
        default=math.inf,
    )


def recipes(sizes: Sequence[Planks], wanted: Wanted) -> tuple[Recipe, ...]:
    """All ways to make a row from planks of these sizes, which are of one width.

    A single plank, or whole planks and one piece cut from a further plank, no longer than needed for its joins to keep
    away from those of a like row beside it. `Recipe.whole` counts places in `sizes`. Where no row of a plank keeps far
    enough away, none is given.
    """
    longest = max(size.length_mm for size in sizes)
    found: list[Recipe] = []
    if longest >= wanted.length_mm:
        found.append(Recipe((), wanted.length_mm, (), 0.0, math.inf))
    for whole in _wholes(sizes, wanted):
        best = _shortest_cut(whole, [sizes[n].length_mm for n in whole], longest, wanted)
        if best is not None:
            found.append(best)
    found.sort(key=lambda one: (round(one.spare_mm + len(one.joints_mm) * wanted.overlap_mm, 3), one.whole))
    return tuple(found[:MOST_RECIPES])


def any_recipe(sizes: Sequence[Planks], wanted: Wanted) -> tuple[Recipe, ...]:
    """As `recipes`, with the rows whose joins keep furthest away where none keeps far enough.

    Raises:
        ValueError: the planks are so short that end joins take all of them.
    """
    for stagger in (wanted.stagger_mm, *(wanted.stagger_mm * share for share in (0.5, 0.25, 0.1, 0.0))):
        shortest = min(wanted.shortest_mm, stagger)
        looser = Wanted(wanted.length_mm, wanted.overlap_mm, stagger, shortest)
        if found := recipes(sizes, looser):
            return found
    raise ValueError("the planks are shorter than their end joins")


def _wholes(sizes: Sequence[Planks], wanted: Wanted) -> Iterable[tuple[int, ...]]:
    """Whole planks that a further piece brings to the length: in the order in which they lie."""
    longest = max(size.length_mm for size in sizes)

    def reach(whole: tuple[int, ...]) -> float:
        return sum(sizes[n].length_mm for n in whole) - len(whole) * wanted.overlap_mm

    def fits(whole: tuple[int, ...]) -> bool:
        alone = reach(whole) + wanted.overlap_mm
        return alone < wanted.length_mm and reach(whole) + longest >= wanted.length_mm

    for count in range(1, MIXED + 1):
        yield from (whole for whole in itertools.product(range(len(sizes)), repeat=count) if fits(whole))
    for n, size in enumerate(sizes):
        gain = size.length_mm - wanted.overlap_mm
        if gain > 0:
            most = math.ceil(wanted.length_mm / gain)
            yield from (whole for count in range(MIXED + 1, most + 1) if fits(whole := (n,) * count))


def _shortest_cut(
    whole: tuple[int, ...], lengths_mm: Sequence[float], longest_mm: float, wanted: Wanted
) -> Recipe | None:
    """The row with the shortest cut piece whose joins keep away from those of the same row laid the other way."""
    need = wanted.length_mm - sum(lengths_mm) + len(whole) * wanted.overlap_mm
    first = max(need, wanted.shortest_mm)
    tries = [first + k * STEP_MM for k in range(max(0, int((longest_mm - first) / STEP_MM)) + 1)]
    for cut in (*tries, longest_mm):
        joints = list(itertools.accumulate((cut, *(one - wanted.overlap_mm for one in lengths_mm[:-1]))))
        middles = tuple(one - wanted.overlap_mm / 2 for one in joints)
        spare = cut - need
        last = lengths_mm[-1] - spare
        if cut > longest_mm or last < wanted.shortest_mm:
            continue
        made = Recipe(whole, cut, middles, spare, math.inf)
        stagger = apart_mm(made, made, length_mm=wanted.length_mm)
        if stagger >= wanted.stagger_mm - 1e-6:
            return Recipe(whole, cut, middles, spare, stagger)
    return None
