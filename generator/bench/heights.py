"""Where the supports stand, how high, and which weights lie on the board, so that it keeps the wanted rocker.

With the loads on the supports as unknowns the curve is linear in them, so the best heights at given places are a linear
programme, and whole weights from the builder's own things make it a small integer one. That holds for the curve on the
bench and for the one that is kept after lifting off, which is linear in the same loads. All supports bear in the
answer, so laying the beam on the heights found gives the same curve again.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.beam import Beam, PointLoad, columns
from generator.bench.contact import lift_effect, solve
from generator.bench.guard import KEPT_SHARE, SURE_N, Guarded, guard
from generator.bench.programme import LEAST_LOAD_N, Aim, Answer, Loose, Programme, answer_of, level, programme_of
from generator.quantities import GRAVITY_M_S2, Floats, fixed

APART_PER_LENGTH, FROM_TIP_PER_LENGTH = 0.2, 0.15
"""Middle supports at least a fifth of the length apart: closer, and a millimetre of height is several of curve."""
CLOSE_PAIRS, MOST_PAIRS = 2, 5
"""Pairs of places that go on from the linear to the integer programme; more only while none of them has an answer."""
FRAGILE_KG_PER_MM, FRAGILE_MM_PER_MM = 1.0, 0.5
"""What one millimetre less of fragility is worth: so much weight, or so much of the curve."""
ROUNDING_MM = 1e-6
SURE_ENOUGH_N, FIRMER_N = 6.0, (10.0, 20.0)
"""Load that every middle support shall keep at all stiffnesses; what is asked for at the nominal one to have that."""
SMALL_SHARE = 0.08
"""Split weights below this share of one piece need no place of their own in the integer search."""

GOAL_MM = 2.0
"""How near the kept curve shall come to the wanted one; common practice."""

Rank = Callable[[Answer], float]


@dataclass(frozen=True, slots=True)
class Placed:
    """`count` weights of one kind at one place on the board."""

    name: str
    mass_kg: float
    count: int
    x_mm: float

    @property
    def total_kg(self) -> float:
        """All of them together."""
        return self.count * self.mass_kg

    @property
    def load(self) -> PointLoad:
        """What they press with."""
        return PointLoad(self.x_mm, self.total_kg * GRAVITY_M_S2)


@dataclass(frozen=True, slots=True, eq=False)
class HeightPlan:
    """Supports and weights, as planned.

    Attributes:
        x_mm, heights_mm, loads_n: (n,) each support, tail first; heights of the bottom on the bench, in the level in
            which the compared curve lies nearest to the wanted one.
        placed: weights to lay on.
        deviation_mm: worst distance of the compared curve from the wanted one.
        reached: the deviation is within the goal.
        effect_mm: worst change of the curve if every support is 1 mm out, each the worst way.
        sure_n: least load on a middle support over the whole range of stiffness.
    """

    x_mm: Floats
    heights_mm: Floats
    loads_n: Floats
    placed: tuple[Placed, ...]
    deviation_mm: float
    reached: bool
    effect_mm: float
    sure_n: float


@dataclass(frozen=True, slots=True, eq=False)
class Goal:
    """What is wanted, and of which curve.

    Attributes:
        station_mm, wanted_mm: (s,) places and heights of the curve that is compared.
        kept: takes the compared shape under the loads of the bench, if that is not the shape on the bench itself.
        low_point_mm: where the two shapes touch.
        within_mm: deviation to reach.  spare_mm: what of it is kept back, if that can be had, for the real supports.
    """

    station_mm: Floats
    wanted_mm: Floats
    kept: Beam | None = None
    low_point_mm: float = 0.0
    within_mm: float = GOAL_MM
    spare_mm: float = 0.0


def plan_heights(
    beam: Beam,
    *,
    place_mm: ArrayLike,
    goal: Goal,
    loose: Sequence[Loose] = (),
    others: Sequence[Beam] = (),
) -> HeightPlan:
    """Choose two middle supports, all heights, and as little added weight as reaches the goal.

    Among plans that reach it, a plan that answers a millimetre at the supports with a millimetre less of curve may
    weigh a kilogram more, and so much more is laid on, if it is there, as keeps every support loaded at all
    stiffnesses. Heights are then chosen so that every support bears at all stiffnesses, as far as the goal
    allows, and nearest to the wanted curve.

    Args:
        beam: the assembly with its clamps on, at its middle stiffness.
        place_mm: (p,) inner places where a middle support or a weight may go (rib stations), increasing.
        loose: the builder's own weights.
        others: the same assembly at other stiffnesses.

    Raises:
        ValueError: no two places are far enough apart.
        ArithmeticError: even with a free choice of heights no state of the board bears on four supports.
    """
    programme = programme_of(beam, fixed(place_mm), goal.station_mm, goal.wanted_mm, tuple(loose), kept=goal.kept)
    pairs = _pairs(programme)
    if not pairs:
        raise ValueError("no two places for middle supports are a fifth of the length apart")
    bare = _bare(programme, pairs)
    if not bare:
        programme = replace(programme, least_load_n=0.0)
        bare = _bare(programme, pairs)
    fragile = {pair: programme.effect_mm(pair) for pair in pairs}
    aims = sorted({goal.within_mm - goal.spare_mm, goal.within_mm})
    for within in aims:
        good = [a for a in bare if a.deviation_mm <= within]
        good.sort(key=lambda a: round(a.deviation_mm + FRAGILE_MM_PER_MM * fragile[a.members], 6))
        good = good[:CLOSE_PAIRS] or _lightest(programme, pairs, within, fragile)
        if good:
            plan = _surest(programme, good, within, goal, others)
            for least_n in FIRMER_N:
                if plan.sure_n >= SURE_ENOUGH_N:
                    break
                firmer = _lightest(replace(programme, least_load_n=least_n), pairs, within, fragile)
                plan = max(plan, _surest(programme, firmer, within, goal, others), key=_sure) if firmer else plan
            return plan
    shares = [answer_of(programme, pair, aim="deviation", own="shares") for pair in pairs]
    near = _whole(programme, [a for a in shares if a], within_mm=np.inf, rank=lambda a: a.deviation_mm) or bare
    if not near:
        raise ArithmeticError("no heights make this board bear on two tips and two middle supports")
    best = min(near, key=lambda a: round(a.deviation_mm + FRAGILE_MM_PER_MM * fragile[a.members], 6))
    return _surest(programme, [best], best.deviation_mm + goal.spare_mm, goal, others)


def _sure(plan: HeightPlan) -> float:
    return round(plan.sure_n, 2)


def _pairs(programme: Programme) -> list[tuple[int, ...]]:
    """Members (tail, two inner places, nose) that are far enough apart."""
    x, length = programme.place_mm, programme.beam.length_mm
    inner = [i for i in range(1, x.size - 1) if FROM_TIP_PER_LENGTH <= x[i] / length <= 1 - FROM_TIP_PER_LENGTH]
    return [(0, i, j, x.size - 1) for i, j in combinations(inner, 2) if x[j] - x[i] >= APART_PER_LENGTH * length]


def _bare(programme: Programme, pairs: Sequence[tuple[int, ...]]) -> list[Answer]:
    """Answers without any weight."""
    return [a for a in (answer_of(programme, pair, aim="deviation", own="none") for pair in pairs) if a]


def _lightest(
    programme: Programme, pairs: Sequence[tuple[int, ...]], within_mm: float, fragile: dict[tuple[int, ...], float]
) -> list[Answer]:
    """Answers with about the least of the builder's own weights that keep within the goal; none if they do not do."""
    if not programme.loose:
        return []
    shares = [answer_of(programme, pair, aim="mass", own="shares", within_mm=within_mm) for pair in pairs]

    def rank(answer: Answer) -> float:
        return answer.cost + FRAGILE_KG_PER_MM * fragile[answer.members]

    whole = _whole(programme, [a for a in shares if a], within_mm=within_mm, rank=rank)
    return sorted(whole, key=lambda a: (round(rank(a), 6), a.members))[:CLOSE_PAIRS]


def _whole(programme: Programme, shares: Sequence[Answer], *, within_mm: float, rank: Rank) -> list[Answer]:
    """Whole-weight answers at the pairs that are best with split weights (which bounds them from below).

    Whole pieces lie where the split ones lay or a place beside; everywhere only where that has no answer.
    """
    out: list[Answer] = []
    aim: Aim = "deviation" if within_mm == np.inf else "mass"
    for tried, share in enumerate(sorted(shares, key=lambda a: (round(rank(a), 6), a.members))[:MOST_PAIRS]):
        if out and tried >= CLOSE_PAIRS:
            break
        near = share.counts > SMALL_SHARE
        near = near | np.roll(near, 1, axis=1) | np.roll(near, -1, axis=1)
        for places in (near.ravel(), None):
            answer = answer_of(
                programme, share.members, aim=aim, own="whole", within_mm=within_mm, weight_places=places
            )
            if answer is not None:
                out.append(answer)
                break
    return out


def _surest(
    programme: Programme,
    answers: Sequence[Answer],
    within_mm: float,
    goal: Goal,
    others: Sequence[Beam],
) -> HeightPlan:
    """Of answers that are about as good as each other, the one whose supports bear most surely, then the first."""
    plans = [_plan(programme, answer, within_mm, goal, others) for answer in answers]
    return max((plan for plan in plans if plan), key=lambda p: round(min(p.sure_n, KEPT_SHARE * SURE_N), 2))


def _plan(
    programme: Programme,
    answer: Answer,
    within_mm: float,
    goal: Goal,
    others: Sequence[Beam],
) -> HeightPlan | None:
    x = programme.place_mm[list(answer.members)]
    inner = programme.place_mm[1:-1]
    placed = tuple(
        Placed(kind.name, kind.mass_kg, int(answer.counts[k, i]), float(inner[i]))
        for i in range(inner.size)
        for k, kind in enumerate(programme.loose)
        if answer.counts[k, i] > 0.5
    )
    first = Guarded(answer.loads_n, answer.rigid_mm, answer.deviation_mm, 0.0)
    return _settled(programme.beam, fixed(x), placed, within_mm, goal, others, programme.least_load_n, first)


def trimmed(plan: HeightPlan, beam: Beam, *, goal: Goal, others: Sequence[Beam] = ()) -> HeightPlan:
    """The same places and weights with heights chosen anew for another goal; the plan itself if that has none."""
    for within in sorted({goal.within_mm - goal.spare_mm, goal.within_mm, np.inf}):
        if within == np.inf or plan.reached:
            new = _settled(beam, plan.x_mm, plan.placed, within, goal, others, LEAST_LOAD_N, None)
            if new is not None:
                return new
    return plan


def _settled(
    beam: Beam,
    x: Floats,
    placed: tuple[Placed, ...],
    within_mm: float,
    goal: Goal,
    others: Sequence[Beam],
    tip_load_n: float,
    first: Guarded | None,
) -> HeightPlan | None:
    """Heights at these places under these weights; those of `first` where no better ones are found.

    Args:
        within_mm: deviation allowed; if infinite, the least that can be had and the goal's spare.
    """
    weights = [one.load for one in placed]
    loaded, kept = beam.with_point_loads(weights), (goal.kept or beam).with_point_loads(weights)
    beams = [loaded, *(one.with_point_loads(weights) for one in others)]

    def guarded(counted: Sequence[Beam], most_mm: float) -> Guarded | None:
        return guard(
            counted,
            kept,
            support_mm=x,
            station_mm=goal.station_mm,
            wanted_mm=goal.wanted_mm,
            within_mm=most_mm,
            tip_load_n=tip_load_n,
        )

    if within_mm == np.inf and (nearest := guarded(beams[:1], np.inf)):
        within_mm = nearest.deviation_mm + goal.spare_mm
    chosen = guarded(beams, within_mm + ROUNDING_MM) or first
    if chosen is None:
        return None
    heights = _heights(loaded, kept, x, chosen, goal.low_point_mm)
    bent = solve(loaded, x_mm=x, height_mm=heights)
    effect = np.abs(lift_effect(bent, goal.station_mm)).sum(axis=1).max()
    reached = chosen.deviation_mm <= goal.within_mm + 1e-4
    return HeightPlan(x, heights, chosen.loads_n, placed, chosen.deviation_mm, reached, float(effect), chosen.least_n)


def _heights(loaded: Beam, kept: Beam, x_mm: Floats, chosen: Guarded, low_point_mm: float) -> Floats:
    """(n,) heights of the supports: the compared curve there, and what the board loses from the bench to it."""
    length, near = loaded.length_mm, low_point_mm + np.array([-1.0, 1.0])
    at = np.concatenate([x_mm, near, [0.0, length]])
    share = at[:-2] / length
    both = []
    for beam in (kept, loaded):
        loads, push = columns(beam, x_mm).heights(at)
        both.append(level(loads + chosen.loads_n @ push, share))
    curve = both[0] + chosen.rigid_mm[0] * (1 - share) + chosen.rigid_mm[1] * share
    loss = both[1] - both[0]
    low, slope = loss[-2:].mean(), (loss[-1] - loss[-2]) / 2
    return fixed(curve[:-2] + loss[:-2] - low - slope * (x_mm - low_point_mm))
