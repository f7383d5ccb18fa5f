"""Pressing a thin panel together: when it springs up between its edges, and what holds it down."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from generator.quantities import GRAVITY_M_S2

GLUING_PRESSURE_MPA = 0.7
"""What handbooks ask for light woods: Wood Handbook, FPL-GTR-190 (2010), chapter 10 (from memory); glue makers say
0.69 MPa (100 psi) and more for softwoods."""

SAME_KG = 1e-9


def buckling_force_n_mm(*, thickness_mm: float, width_mm: float, across_mpa: float) -> float:
    """Edge force at which a flat panel springs up, N per mm of its long edge.

    The panel is pressed at its two long edges only, which may turn but not rise, and nothing lies on it: a pinned strip
    across the grain, N = π² D / b² with D = E t³ / 12.

    Raises:
        ValueError: a size or the stiffness is not above 0.

    Source: Euler's strut of unit breadth (textbook; S. Timoshenko and J. Gere, Theory of Elastic Stability, from
    memory); no stiffening by the strip's neighbours.
    """
    if not all(v > 0 for v in (thickness_mm, width_mm, across_mpa)):
        raise ValueError("thickness_mm, width_mm and across_mpa must be above 0")
    return math.pi**2 * across_mpa * thickness_mm**3 / 12 / width_mm**2


def gluing_force_n_mm(*, pressure_mpa: float, edge_mm: float) -> float:
    """Force that presses an edge joint at this pressure, N per mm of its length (1 N/mm is 1 kN per metre)."""
    return pressure_mpa * edge_mm


def hold_down_n_mm(*, force_n_mm: float, plank_mm: float, uneven_mm: float) -> float:
    """Weight along one wet joint that keeps it from rising, N per mm of the joint.

    Until the glue is hard a joint is a hinge. Where it lies `uneven_mm` higher than the joints beside it, a plank's
    width away on both sides, the edge force pushes it up by N · 2 a / w. So the weight must be as large, and the joint
    stays where it is whatever the stiffness of the wood.

    Raises:
        ValueError: a plank's width is not above 0, or something is below 0.

    Source: balance of forces at a hinge (derived).
    """
    if not (plank_mm > 0 and force_n_mm >= 0 and uneven_mm >= 0):
        raise ValueError("plank_mm must be above 0, force and unevenness not below it")
    return 2 * force_n_mm * uneven_mm / plank_mm


def kg_per_m(force_n_mm: float) -> float:
    """A force along an edge as the weight of so many kg on each metre."""
    return force_n_mm * 1000 / GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class OneWeight:
    """Weights of one kind that lie ready."""

    name: str
    kg: float
    count: int


@dataclass(frozen=True, slots=True)
class OnBatten:
    """What lies on one batten; `from_end_mm` along the panel."""

    n: int
    from_end_mm: float
    pieces: tuple[tuple[str, int], ...]
    kg: float


@dataclass(frozen=True, slots=True)
class Weighed:
    """A panel weighed down: what lies on each batten, and by how much some lie too light."""

    battens: tuple[OnBatten, ...]
    each_kg: float
    short_kg: float

    @property
    def kg(self) -> float:
        """All the weights together."""
        return sum(batten.kg for batten in self.battens)


def weigh_down(*, needed_kg: float, length_mm: float, apart_mm: float, stock: Sequence[OneWeight]) -> Weighed:
    """Lay the weights of the house on battens across a panel, so that each batten carries its share.

    Battens lie at most `apart_mm` from one another, the outer ones half as far from the ends. They are filled from the
    middle outwards, each with the lightest weight that brings it to its share, or the heaviest there is. If that leaves
    battens short, the weights are dealt out instead, the heaviest first, each to the batten that lacks most, and the
    way that lacks less counts.
    """
    count = max(1, math.ceil(length_mm / apart_mm))
    pitch, each = length_mm / count, needed_kg / count
    order = sorted(range(count), key=lambda n: (abs(n - (count - 1) / 2), n))
    heaviest_first = sorted(stock, key=lambda one: (-one.kg, one.name))
    ways = [_filled(order, each, heaviest_first)]
    if _lacking(ways[0], each) > 0:
        ways.append(_dealt(order, each, heaviest_first))
    best = min(ways, key=lambda way: round(_lacking(way, each), 9))
    battens = tuple(
        OnBatten(
            n + 1,
            (n + 0.5) * pitch,
            tuple(Counter(one.name for one in best[n]).items()),
            sum(one.kg for one in best[n]),
        )
        for n in range(count)
    )
    return Weighed(battens, each, _lacking(best, each))


_Way = dict[int, list[OneWeight]]


def _lacking(way: _Way, each_kg: float) -> float:
    lacks = (each_kg - sum(one.kg for one in lying) for lying in way.values())
    return sum(kg for kg in lacks if kg > SAME_KG)


def _filled(order: Sequence[int], each_kg: float, heaviest_first: Sequence[OneWeight]) -> _Way:
    left = {one: one.count for one in heaviest_first}
    way: _Way = {n: [] for n in order}
    for n in order:
        lies = 0.0
        while lies < each_kg - SAME_KG and (ready := [one for one, number in left.items() if number]):
            enough = [one for one in ready if lies + one.kg >= each_kg - SAME_KG]
            one = enough[-1] if enough else ready[0]
            left[one] -= 1
            lies += one.kg
            way[n].append(one)
    return way


def _dealt(order: Sequence[int], each_kg: float, heaviest_first: Sequence[OneWeight]) -> _Way:
    way: _Way = {n: [] for n in order}
    lies = dict.fromkeys(order, 0.0)
    for one in heaviest_first:
        for _ in range(one.count):
            n = min(order, key=lambda n: lies[n])
            if lies[n] >= each_kg - SAME_KG:
                return way
            way[n].append(one)
            lies[n] += one.kg
    return way
