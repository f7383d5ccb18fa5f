"""From a board and a household to a bench that stands: set over for spring-back, piled, and solved again."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.bench.assembly import ClampKind, ClampPair, OnBench, Sections, TableTop, clamp_loads, place_clamps
from generator.bench.beam import Beam
from generator.bench.heights import GOAL_MM, Goal, HeightPlan, plan_heights, trimmed
from generator.bench.piled import Laid, Loads, laid_on_piles
from generator.bench.programme import Loose
from generator.bench.release import BOTTOM, TOP, Route, foreseen_loss, released
from generator.bench.springback import SpringBack
from generator.bench.stack_list import Piece
from generator.bench.tops import Top, rest_on
from generator.quantities import Floats, fixed

PLANNED_STATIONS = 61
SPARE_MM = 0.5
"""Kept back of the goal for what the stacks' heights miss."""
MATTERS_MM = 4.0
"""Rocker lost at a tip from which it is better to leave the board on the bench: more than a tip may be out anyway."""
NEAR_MM = 5.0


@dataclass(frozen=True, slots=True, eq=False)
class Job:
    """One board and what there is to bend it with."""

    board: OnBench
    clamps: tuple[ClampPair, ...]
    pieces: tuple[Piece, ...]
    loose: tuple[Loose, ...]
    table: TableTop

    def beam(self, sections: Sections) -> Beam:
        """The loose pair with its clamps on."""
        return sections.beam(clamp_loads(self.clamps))


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """A bench that stands: how it was planned, and the board at rest on what was piled."""

    job: Job
    route: Route
    loads: Loads
    laid: Laid

    @property
    def plan(self) -> HeightPlan:
        return self.loads.plan


def job_of(
    board: OnBench,
    *,
    pieces: Sequence[Piece],
    clamps: Sequence[ClampKind],
    loose: Sequence[Loose],
    table: TableTop,
) -> Job:
    """The clamps placed, the rest as it is."""
    return Job(board, place_clamps(board, clamps), tuple(pieces), tuple(loose), table)


def recommended(board: OnBench) -> Route:
    """Whether to lift off after the bottom panel: only if next to nothing is lost or won, at any stiffness."""
    losses = [foreseen(board, one, BOTTOM) for one in (board.low, board.value, board.high)]
    return TOP if max(max(abs(one.tail_mm), abs(one.nose_mm)) for one in losses) >= MATTERS_MM else BOTTOM


def foreseen(board: OnBench, sections: Sections, route: Route) -> SpringBack:
    """What a bench that is set over for it will lose at one stiffness."""
    x = np.linspace(0.0, board.length_mm, 2 * PLANNED_STATIONS - 1)
    bent = wanted_curvature_per_mm(board, x)
    return foreseen_loss(sections, x_mm=x, wanted_per_mm=bent, route=route, low_point_mm=board.low_point_mm)


def wanted_curvature_per_mm(board: OnBench, x_mm: Floats) -> Floats:
    """Curvature of the wanted bottom at each x, from its heights 5 mm to either side."""
    inside = np.clip(x_mm, NEAR_MM, board.length_mm - NEAR_MM)
    before, here, after = (board.wanted_mm(inside + step) for step in (-NEAR_MM, 0.0, NEAR_MM))
    return fixed(np.maximum((before - 2 * here + after) / NEAR_MM**2, 0.0))


def planned(job: Job, route: Route) -> HeightPlan:
    """Places, heights and weights for one way of letting the board go.

    The curve that is kept after lifting off the cured bottom is linear in the bench's loads, so it is planned as it
    is. What is lost by the other way is little: the bench is set over by what can be foreseen, and once more by what
    the planned bench then loses.

    Raises:
        ValueError, ArithmeticError: as `plan_heights`.
    """
    board, clamps = job.board, clamp_loads(job.clamps)
    station = np.linspace(0.0, board.length_mm, PLANNED_STATIONS)
    wanted = board.wanted_mm(station)
    beam, others = job.beam(board.value), [job.beam(board.low), job.beam(board.high)]
    goal = Goal(station, wanted, None, board.low_point_mm, GOAL_MM, SPARE_MM)
    if route == BOTTOM:
        goal = replace(goal, kept=board.value.after_release(clamps))
        return plan_heights(beam, place_mm=board.rib_mm, goal=goal, loose=job.loose, others=others)
    loss = foreseen(board, board.value, TOP).loss_at(station)
    goal = replace(goal, wanted_mm=fixed(wanted + loss))
    plan = plan_heights(beam, place_mm=board.rib_mm, goal=goal, loose=job.loose, others=others)
    loss = _lost(job, plan, station)
    return trimmed(plan, beam, goal=replace(goal, wanted_mm=fixed(wanted + loss)), others=others)


def _lost(job: Job, plan: HeightPlan, station: Floats) -> Floats:
    """What the board loses from the planned bench, left there until the top panel is on."""
    points = Loads(job.clamps, plan).points()
    tops = [Top(x, x, height) for x, height in zip(plan.x_mm, plan.heights_mm, strict=True)]
    bent = rest_on(job.board.value.beam(points), tops).bent
    after = released(bent, job.board.value, tops, points, low_point_mm=job.board.low_point_mm)
    return after.kept.loss_at(station)


def stood(job: Job, plan: HeightPlan, route: Route) -> Bench:
    """The planned supports piled from what there is, and the board laid on them."""
    loads = Loads(job.clamps, plan)
    return Bench(job, route, loads, laid_on_piles(job.board, loads, job.pieces, job.table, route))
