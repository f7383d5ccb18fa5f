"""Where the supports stand, how high, and which weights lie on the board, so that it takes the wanted rocker.

With the loads on the supports as unknowns the curve is linear in them, so the best heights at given places are a linear
programme, and whole weights from the builder's own things make it a small integer one. All supports bear in its answer
(load ≥ `LEAST_LOAD_N`, or at least none has to pull where that can't be had), so laying the beam on the heights found
gives the same curve again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.beam import Beam, PointLoad, columns
from generator.bench.contact import lift_effect, solve
from generator.bench.programme import Aim, Answer, Loose, Programme, answer_of, programme_of
from generator.quantities import GRAVITY_M_S2, Floats, fixed

APART_PER_LENGTH, FROM_TIP_PER_LENGTH = 0.2, 0.15
"""Middle supports at least a fifth of the length apart: closer, and a millimetre of height is several of curve."""
CLOSE_PAIRS, MOST_PAIRS = 3, 8
"""Pairs of places that go on from the linear to the integer programme; more only while none of them has an answer."""
ALIKE_MM, ALIKE_KG = 0.25, 0.25
"""Plans as near as this count as equally good, and the least fragile of them is taken."""
EVEN_MM = 0.3
"""Deviation given away so that the middle supports are loaded more evenly."""
SMALL_KG = 0.2


@dataclass(frozen=True, slots=True)
class Placed:
    """`count` weights of one kind at one place on the board."""

    name: str
    mass_kg: float
    count: int
    x_mm: float


@dataclass(frozen=True, slots=True)
class Extra:
    """Mass that the builder has not got, and where it would have to lie."""

    x_mm: float
    mass_kg: float


@dataclass(frozen=True, slots=True, eq=False)
class HeightPlan:
    """Supports and weights, as planned.

    Attributes:
        x_mm, heights_mm, loads_n: (n,) each support, tail first; heights in the wanted curve's own level.
        placed: weights to lay on.
        deviation_mm: worst distance of the planned curve from the wanted one.
        reached: the deviation is within the goal.
        extra: what more would reach it with something to spare; empty if nothing is wanting, None if no weight would.
        effect_mm: worst change of the curve if every support is 1 mm out, each the worst way.
    """

    x_mm: Floats
    heights_mm: Floats
    loads_n: Floats
    placed: tuple[Placed, ...]
    deviation_mm: float
    reached: bool
    extra: tuple[Extra, ...] | None
    effect_mm: float


def plan_heights(
    beam: Beam,
    *,
    place_mm: ArrayLike,
    station_mm: ArrayLike,
    wanted_mm: ArrayLike,
    loose: Sequence[Loose] = (),
    goal_mm: float = 2.0,
    spare_mm: float = 0.0,
) -> HeightPlan:
    """Choose two middle supports, all heights, and as little added weight as reaches the goal.

    Args:
        beam: the assembly with its clamps on, at its middle stiffness.
        place_mm: (p,) inner places where a middle support or a weight may go (rib stations), increasing.
        station_mm, wanted_mm: (s,) where the curve is compared, and the wanted heights there.
        loose: the builder's own weights.
        goal_mm: deviation to reach.
        spare_mm: what the plan keeps back of it if that can be had (real supports are never quite as planned).

    Raises:
        ValueError: no two places are far enough apart.
        ArithmeticError: even with a free choice of heights no state of the board bears on four supports.
    """
    programme = programme_of(beam, fixed(place_mm), fixed(station_mm), fixed(wanted_mm), tuple(loose))
    pairs = _pairs(programme)
    if not pairs:
        raise ValueError("no two places for middle supports are a fifth of the length apart")
    bare = [a for a in (answer_of(programme, pair, aim="deviation", own="none") for pair in pairs) if a]
    if not bare:
        programme = replace(programme, least_load_n=0.0)
        bare = [a for a in (answer_of(programme, pair, aim="deviation", own="none") for pair in pairs) if a]
    for goal in sorted({goal_mm - spare_mm, goal_mm}):
        equals = [a for a in bare if a.deviation_mm <= goal] or _lightest(programme, pairs, goal)
        if equals:
            extra = _extra(programme, pairs, goal_mm - spare_mm) if goal > goal_mm - spare_mm else ()
            return _least_fragile(programme, equals, goal, extra)
    shares = [answer_of(programme, pair, aim="deviation", own="shares") for pair in pairs]
    near = _whole(programme, shares, aim="deviation", goal_mm=np.inf) or bare
    if not near:
        raise ArithmeticError("no heights make this board bear on two tips and two middle supports")
    best = min(a.deviation_mm for a in near)
    extra = _extra(programme, pairs, goal_mm - spare_mm)
    return _least_fragile(programme, [a for a in near if a.deviation_mm <= best + ALIKE_MM], goal_mm, extra)


def _pairs(programme: Programme) -> list[tuple[int, ...]]:
    """Members (tail, two inner places, nose) that are far enough apart."""
    x, length = programme.place_mm, programme.beam.length_mm
    inner = [i for i in range(1, x.size - 1) if FROM_TIP_PER_LENGTH <= x[i] / length <= 1 - FROM_TIP_PER_LENGTH]
    return [(0, i, j, x.size - 1) for i, j in combinations(inner, 2) if x[j] - x[i] >= APART_PER_LENGTH * length]


def _lightest(programme: Programme, pairs: Sequence[tuple[int, ...]], goal_mm: float) -> list[Answer]:
    """Answers with about the least of the builder's own weights that keep within the goal; none if they do not do."""
    if not programme.loose:
        return []
    shares = [answer_of(programme, pair, aim="mass", own="shares", within_mm=goal_mm) for pair in pairs]
    whole = _whole(programme, shares, aim="mass", goal_mm=goal_mm)
    least = min((a.cost for a in whole), default=0.0)
    return [a for a in whole if a.cost <= least + ALIKE_KG]


def _whole(programme: Programme, shares: Sequence[Answer | None], *, aim: Aim, goal_mm: float) -> list[Answer]:
    """Whole-weight answers at the pairs that are cheapest with split weights (which bounds them from below)."""
    out: list[Answer] = []
    ranked = sorted((a for a in shares if a), key=lambda a: (round(a.cost, 6), a.members))
    for tried, share in enumerate(ranked[:MOST_PAIRS]):
        if out and (tried >= CLOSE_PAIRS or share.cost > min(a.cost for a in out) + ALIKE_KG):
            break
        answer = answer_of(programme, share.members, aim=aim, own="whole", within_mm=goal_mm)
        if answer is not None:
            out.append(answer)
    return out


def _least_fragile(
    programme: Programme, answers: Sequence[Answer], goal_mm: float, extra: tuple[Extra, ...] | None
) -> HeightPlan:
    """Of answers that are as good as each other, the one whose curve is nearest if every support is 1 mm out.

    The middle supports are then loaded as evenly as a little deviation allows.
    """
    plans = []
    for answer in answers:
        counts = answer.counts.ravel()
        near = answer_of(programme, answer.members, aim="deviation", own="whole", fixed_counts=counts) or answer
        left = goal_mm - near.deviation_mm
        spare = min(EVEN_MM, left / 2) if left > 0 else EVEN_MM
        even = answer_of(
            programme,
            answer.members,
            aim="bearing",
            own="whole",
            fixed_counts=counts,
            within_mm=near.deviation_mm + spare + 1e-7,
        )
        plans.append(_plan(programme, even or near, goal_mm, extra))
    return min(plans, key=lambda p: (round(p.deviation_mm + p.effect_mm, 6), tuple(p.x_mm)))


def _plan(programme: Programme, answer: Answer, goal_mm: float, extra: tuple[Extra, ...] | None) -> HeightPlan:
    x = programme.place_mm[list(answer.members)]
    inner = programme.place_mm[1:-1]
    placed = tuple(
        Placed(kind.name, kind.mass_kg, int(answer.counts[k, i]), float(inner[i]))
        for i in range(inner.size)
        for k, kind in enumerate(programme.loose)
        if answer.counts[k, i] > 0.5
    )
    loaded = programme.beam.with_point_loads([PointLoad(p.x_mm, p.count * p.mass_kg * GRAVITY_M_S2) for p in placed])
    cols = columns(loaded, x)
    at = np.concatenate([x, programme.station_mm, [0.0, programme.beam.length_mm]])
    loads, push = cols.heights(at)
    curve = loads + answer.loads_n @ push
    share = at / programme.beam.length_mm
    curve = curve + (answer.rigid_mm[0] - curve[-2]) * (1 - share) + (answer.rigid_mm[1] - curve[-1]) * share
    heights = curve[: x.size]
    bent = solve(loaded, x_mm=x, height_mm=heights)
    effect = np.abs(lift_effect(bent, programme.station_mm)).sum(axis=1).max()
    deviation = float(np.abs(curve[x.size : -2] - programme.wanted_mm).max())
    reached = deviation <= goal_mm + 1e-4
    return HeightPlan(fixed(x), fixed(heights), fixed(answer.loads_n), placed, deviation, reached, extra, float(effect))


def _extra(programme: Programme, pairs: Sequence[tuple[int, ...]], goal_mm: float) -> tuple[Extra, ...] | None:
    """Least mass beyond the builder's own that reaches the goal, and where; None if no mass does.

    Places that would take next to nothing are left out where the others do without them.
    """
    shares = [answer_of(programme, pair, aim="extra", own="shares", within_mm=goal_mm) for pair in pairs]
    found = [a for a in shares if a]
    if not found:
        return None
    best = min(found, key=lambda a: (round(a.cost, 6), a.members))
    members = best.members
    answer = answer_of(programme, members, aim="extra", own="whole", within_mm=goal_mm) or best
    big = answer.extra_kg >= SMALL_KG
    if big.any() and not big.all():
        answer = answer_of(programme, members, aim="extra", own="whole", within_mm=goal_mm, extra_places=big) or answer
    inner = programme.place_mm[1:-1]
    return tuple(Extra(float(inner[i]), float(m)) for i, m in enumerate(answer.extra_kg) if m > 1e-3)
