"""The board laid on supports that are piled from what there is."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linprog

from generator.bench.assembly import ClampPair, OnBench, Sections, TableTop, clamp_loads
from generator.bench.beam import Beam, PointLoad
from generator.bench.heights import GOAL_MM, HeightPlan
from generator.bench.missing_piece import MissingPiece, missing_pieces
from generator.bench.programme import LEAST_LOAD_N
from generator.bench.release import Released, Route, released
from generator.bench.stack_list import Piece
from generator.bench.stacks import TILTS_MM, Pile, pile
from generator.bench.tops import OnTops, Top, rest_on, top_at
from generator.quantities import Floats, fixed

STATIONS = 61
FLOOR_MM, CLAMP_SPARE_MM = 30.0, 3.0
"""Least height of the bottom above the table, for a hand and a string; room kept below hanging clamps."""
MISSING_WIDTH_MM = 100.0
WIDE_MM, INSIDE_MM = 80.0, 30.0
"""A crossbar holds twist where the board is at least so wide to each side, so far in from a tip."""
TIP_MM, MIDDLE_MM = 1.0, 0.5
"""How near a stack shall come to its height: the middle supports are the sensitive pair, many newtons a millimetre."""
CLOSER = (0.5, 0.25)
"""Shares of that to try when stacks within it spoil the curve or let a support lift off."""


@dataclass(frozen=True, slots=True, eq=False)
class Loads:
    """What lies on the board besides its own weight."""

    clamps: tuple[ClampPair, ...]
    plan: HeightPlan

    def points(self) -> list[PointLoad]:
        return clamp_loads(self.clamps) + [one.load for one in self.plan.placed]


@dataclass(frozen=True, slots=True, eq=False)
class Kept:
    """A curve that the board keeps, laid over the wanted one as closely as it will go.

    Attributes:
        heights_mm: (s,) at the stations, in the rocker's own level.
        shift_mm, turn_mm: lift and turn that it took; they change no curve.
        worst_mm: what is left at the worst place.
    """

    heights_mm: Floats
    shift_mm: float
    turn_mm: float
    worst_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Rest:
    """The board at one stiffness: at rest on the supports, and what it keeps of that."""

    sections: Sections
    on: OnTops
    released: Released
    kept: Kept


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """The board at rest on the piled supports, over the stiffness range and bare.

    `beam` is nominal and loaded; `wanting` is what the stock lacks for a support that could not be piled nearly enough.
    """

    tops: tuple[Top, ...]
    pile: Pile
    wanting: tuple[MissingPiece, ...]
    beam: Beam
    value: Rest
    low: Rest
    high: Rest
    bare: OnTops

    @property
    def spoiled_mm(self) -> float:
        """Worst distance from the wanted curve; infinite if a support bears nothing or is missing."""
        whole = all(self.value.on.loads_n > 0) and all(self.pile.stacks)
        return self.value.kept.worst_mm if whole else np.inf

    @property
    def least_load_n(self) -> float:
        """Least that any support carries at any stiffness; no more counts than holds it for sure."""
        least = min(float(rest.on.loads_n.min()) for rest in (self.low, self.value, self.high))
        return min(least, LEAST_LOAD_N)

    @property
    def good(self) -> bool:
        """Within the goal, and every support really loaded at every stiffness."""
        return self.spoiled_mm <= GOAL_MM and self.least_load_n >= LEAST_LOAD_N


def laid_on_piles(board: OnBench, loads: Loads, pieces: Sequence[Piece], table: TableTop, route: Route) -> Laid:
    """Pile the supports and lay the board on them.

    Stacks are sought nearer to their heights where those of the usual tolerance spoil the curve, or leave a support
    without load at some stiffness, and the nearer ones don't.
    """
    laid = _laid(board, loads, pieces, table, route, 1.0)
    for closer in CLOSER:
        if not loads.plan.reached or laid.good or not all(laid.pile.kept):
            break
        other = _laid(board, loads, pieces, table, route, closer)
        laid = min((laid, other), key=_worth)
    return laid


def _worth(laid: Laid) -> tuple[bool, float, float]:
    """What counts, first things first: within the goal, load on every support, nearness."""
    return laid.spoiled_mm > GOAL_MM, -laid.least_load_n, laid.spoiled_mm


def _laid(board: OnBench, loads: Loads, pieces: Sequence[Piece], table: TableTop, route: Route, closer: float) -> Laid:
    plan, length, points = loads.plan, board.length_mm, loads.points()
    beams = [s.beam(points) for s in (board.value, board.low, board.high)]
    rests = [_point_rest(beam, plan) for beam in beams]
    most = np.max([rest.loads_n for rest in rests], axis=0)
    inside = np.clip(plan.x_mm, INSIDE_MM, length - INSIDE_MM)
    share, bases = plan.x_mm / length, _least_bases(board, loads, table, rests[0])
    piled = pile(
        pieces,
        x_per_length=share,
        height_mm=plan.heights_mm,
        table_mm=table.at(plan.x_mm),
        load_n=most,
        wants_bar=list(board.half_width_mm(inside) >= WIDE_MM),
        tolerance_mm=closer * np.array([TIP_MM, *([MIDDLE_MM] * (plan.x_mm.size - 2)), TIP_MM]),
        least_base_mm=bases,
    )
    wanting = (
        ()
        if all(piled.stacks) and piled.allowed_mm <= TIP_MM
        else missing_pieces(pieces, piled, x_per_length=share, load_n=most, least_base_mm=bases)
    )
    tops = tuple(_top(board, plan, piled, i, pieces, table) for i in range(plan.x_mm.size))
    value, low, high = (
        at_rest(board, sections, tops, points, route) for sections in (board.value, board.low, board.high)
    )
    return Laid(tops, piled, wanting, beams[0], value, low, high, rest_on(board.value.beam(), tops))


def at_rest(board: OnBench, sections: Sections, tops: Sequence[Top], points: Sequence[PointLoad], route: Route) -> Rest:
    """The board at one stiffness laid on the supports, and what it keeps by one way of letting it go."""
    on = rest_on(sections.beam(points), tops)
    after = released(on.bent, sections, tops, points, low_point_mm=board.low_point_mm)
    station = np.linspace(0, board.length_mm, STATIONS)
    level = on.bent.heights_mm(station) - after.lost(route).loss_at(station)
    return Rest(sections, on, after, _kept(station / board.length_mm, level, board.wanted_mm(station)))


def _kept(share: Floats, heights_mm: Floats, wanted_mm: Floats) -> Kept:
    shift, turn, worst = _rigid_part(share, heights_mm - wanted_mm)
    return Kept(fixed(heights_mm - shift - turn * share), shift, turn, worst)


def _point_rest(beam: Beam, plan: HeightPlan) -> OnTops:
    """The board on narrow supports at the planned heights."""
    return rest_on(beam, [Top(x, x, h) for x, h in zip(plan.x_mm, plan.heights_mm, strict=True)])


def _least_bases(board: OnBench, loads: Loads, table: TableTop, planned: OnTops) -> list[float]:
    """Lowest base for each tilt: the bottom clears the table by `FLOOR_MM`, and hanging clamps clear it too."""
    ribs = board.rib_mm
    need = np.full(ribs.size, FLOOR_MM)
    for pair in loads.clamps:
        if not past_edge(board, table, pair.rib):
            need[pair.rib] = max(FLOOR_MM, pair.hang_mm + CLAMP_SPARE_MM)
    low = need + table.at(ribs) - planned.bent.heights_mm(ribs)
    return [float((low - tilt * ribs / board.length_mm).max()) for tilt in TILTS_MM]


def past_edge(board: OnBench, table: TableTop, rib: int) -> bool:
    """Whether a clamp at this rib's ends hangs beside the table."""
    return bool(board.rib_half_width_mm[rib] > table.width_mm / 2)


def _top(board: OnBench, plan: HeightPlan, piled: Pile, i: int, pieces: Sequence[Piece], table: TableTop) -> Top:
    """Top of one support as piled; where no stack fits, as if something of the right height had been found."""
    x = float(plan.x_mm[i])
    stack = piled.stacks[i]
    if stack is None:
        width, height = MISSING_WIDTH_MM, float(piled.missing_mm[i])
    else:
        width, height = pieces[stack.pieces[-1][0]].width_mm, stack.height_mm
    return top_at(edge_mm=x, width_mm=width, height_mm=height + float(table.at(x)), low_point_mm=board.low_point_mm)


def _rigid_part(share: Floats, off_mm: Floats) -> tuple[float, float, float]:
    """Lift and turn that bring a curve as near as can be to another, and the worst distance that is left.

    Least t with |off − a − b·share| ≤ t, a linear programme.
    """
    one = np.ones_like(share)
    rows = np.vstack([np.stack([one, share, one], axis=1), np.stack([-one, -share, one], axis=1)])
    found = linprog(
        [0.0, 0.0, 1.0],
        A_ub=-rows,
        b_ub=-np.concatenate([off_mm, -off_mm]),
        bounds=[(None, None), (None, None), (0, None)],
    )
    if found.x is None:
        raise ArithmeticError("no rigid part was found")
    return float(found.x[0]), float(found.x[1]), float(found.x[2])
