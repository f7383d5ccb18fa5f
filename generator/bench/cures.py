"""The one change with which a bench that misses its rocker would reach it."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from generator.bench.assembly import OnBench
from generator.bench.missing_piece import MissingPiece
from generator.bench.plan import BenchPlan, Change, Cure
from generator.bench.programme import Loose
from generator.bench.release import BOTTOM, TOP, Route
from generator.bench.setting import Job, recommended
from generator.bench.stack_list import Piece

FOUND = "what you find"
FOUND_WIDTH_MM, FOUND_PIECE_KG = 100.0, 1.0
FOUND_KG, FOUND_COUNTS = 5.0, (5, 24)
"""Weights to look for: a five-litre can of water, or whatever else weighs as much; so many before a frame is recut."""


@dataclass(frozen=True, slots=True, eq=False)
class _Try:
    change: Change
    job: Job
    route: Route
    pieces: tuple[MissingPiece, ...] = ()


def find_cure(
    job: Job, plan: BenchPlan, cut: OnBench | None, lay_again: Callable[[Job, Route], BenchPlan | None]
) -> Cure | None:
    """Try one change after another, the easiest first, each on a whole bench with its stacks.

    Args:
        cut: the same board with its frame cut to the board's rocker; None if it is.
        lay_again: lays a bench without looking for a cure, or None as soon as it can't reach; may raise as `lay` does.
    """
    tries = _tries(job, plan, cut)
    for one in tries:
        cure = _tried(one, lay_again)
        if cure is not None:
            heavy = _tried(tries[-1], lay_again) if one.change == "cut" else None
            return replace(cure, instead=heavy.placed if heavy else ())
    return None


def _tried(one: _Try, lay_again: Callable[[Job, Route], BenchPlan | None]) -> Cure | None:
    """What one change gives; None if it does not do."""
    try:
        mended = lay_again(one.job, one.route)
    except ArithmeticError:
        return None
    if mended is None or not mended.reached:
        return None
    found = tuple(placed for placed in mended.placed if placed.name == FOUND)
    return Cure(one.change, found, pieces=one.pieces, deviation_mm=abs(mended.deviation_mm))


def _tries(job: Job, plan: BenchPlan, cut: OnBench | None) -> list[_Try]:
    few, many = (replace(job, loose=(*job.loose, Loose(FOUND, FOUND_KG, count))) for count in FOUND_COUNTS)
    tries = [_Try("keep", job, TOP)] if plan.route == BOTTOM else []
    tries += [_with_pieces(job, plan)] if plan.bench.laid.wanting else []
    tries.append(_Try("weight", few, plan.route))
    if cut is not None:
        asked = plan.route != plan.best_route  # who asked for the other way goes on asking for it
        way = plan.route if asked else recommended(cut)
        tries += [
            _Try("cut", replace(job, board=cut), way),
            _Try("cut and weight", replace(few, board=cut), way),
        ]
    return [*tries, _Try("weight", many, plan.route)]


def _with_pieces(job: Job, plan: BenchPlan) -> _Try:
    """One thing of the height that is missing for each support, as wide as what it lies on lets it be."""
    wanting, found = plan.bench.laid.wanting, []
    for n, wanted in enumerate(wanting, 1):
        below = [job.pieces[kind].width_mm for kind, _ in wanted.others]
        height, width = (wanted.least_mm + wanted.most_mm) / 2, min(below, default=FOUND_WIDTH_MM)
        found.append(Piece(f"{FOUND} {n}", "block", height, width, FOUND_PIECE_KG, wanted.takes_kg, 1))
    return _Try("piece", replace(job, pieces=(*job.pieces, *found)), plan.route, wanting)
