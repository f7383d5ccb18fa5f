"""The whole bench for one builder: places, heights, stacks, weights and clamps, then the curve they really give."""

from collections.abc import Sequence
from dataclasses import replace

from generator.bench.assembly import ClampKind, OnBench, TableTop
from generator.bench.cures import find_cure
from generator.bench.plan import BenchPlan, OtherWay
from generator.bench.programme import Loose
from generator.bench.release import BOTTOM, TOP, Route
from generator.bench.setting import Bench, Job, foreseen, job_of, planned, recommended, stood
from generator.bench.stack_list import Piece
from generator.bench.telling import told


def lay(
    board: OnBench,
    *,
    pieces: Sequence[Piece],
    clamps: Sequence[ClampKind],
    loose: Sequence[Loose],
    table: TableTop,
    route: Route | None = None,
    cut: OnBench | None = None,
) -> BenchPlan:
    """Plan the bench, pile it from what there is, and solve it again on the heights that were piled.

    Args:
        route: when the board comes off the bench; as the sums would have it if None.
        cut: the same board with a frame cut to its rocker, to try where the rocker is not reached.

    Raises:
        ValueError: no two ribs are far enough apart for the middle supports.
        ArithmeticError: no state of the board bears on two tips and two middle supports.
    """
    job = job_of(board, pieces=pieces, clamps=clamps, loose=loose, table=table)
    best = recommended(board)
    bench = _bench(job, route or best)
    plan = told(bench, best_route=best, other=_other_way(job, bench.route) if bench.plan.reached else None)
    return plan if plan.reached else replace(plan, cure=find_cure(job, plan, cut, _tried))


def _tried(job: Job, route: Route) -> BenchPlan | None:
    """A whole bench, without looking for a cure; None if it could not even be planned within the goal."""
    plan = planned(job, route)
    return told(stood(job, plan, route), best_route=route, other=None) if plan.reached else None


def _bench(job: Job, route: Route) -> Bench:
    return stood(job, planned(job, route), route)


def _other_way(job: Job, route: Route) -> OtherWay | None:
    """What the bench would be for letting the board go the other way."""
    other = TOP if route == BOTTOM else BOTTOM
    try:
        plan = planned(job, other)
    except ArithmeticError:
        return None
    lost, wanted = foreseen(job.board, job.board.value, other), job.board.wanted_mm([0.0, job.board.length_mm])
    mass = sum(one.total_kg for one in plan.placed)
    rises = float(wanted[0]) + lost.tail_mm, float(wanted[1]) + lost.nose_mm
    return OtherWay(other, plan.reached, plan.deviation_mm, mass, *rises)
