"""Benches planned once and shared by the tests of this folder, and the plain arithmetic to judge them by."""

from collections.abc import Sequence
from functools import cache

import numpy as np
from bench_boards import CLAMPS, TABLE, THINGS, WEIGHTS, board

from generator.bench.assembly import ClampKind, OnBench
from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import Bent, solve
from generator.bench.heights import HeightPlan
from generator.bench.piled import Loads
from generator.bench.programme import Loose
from generator.bench.release import Route
from generator.bench.setting import Bench, Job, job_of, planned, stood
from generator.bench.tops import Top
from generator.quantities import GRAVITY_M_S2, Floats

# Of a frame cut to the rocker the loose pair has 0.74, the frame's share of its stiffness: the panel is flat. One cut
# 1.3 times as deep lies nearly as wanted by itself, one cut 1.7 times as deep must be pressed flatter.
BOARDS: dict[str, OnBench] = {
    "straight": board(),
    "cut": board(cut_to_rocker=0.97),
    "at rest": board(cut_to_rocker=1.3),
    "cut too deep": board(cut_to_rocker=1.7),
    "flat": board(tail=20, nose=50),
    "stiff": board(frame_n_mm2=5e8),
}
NONE: tuple[Loose, ...] = ()


@cache
def job(name: str, loose: tuple[Loose, ...] = WEIGHTS, clamps: tuple[ClampKind, ...] = CLAMPS) -> Job:
    """A board with what there is to bend it."""
    return job_of(BOARDS[name], pieces=THINGS, clamps=clamps, loose=loose, table=TABLE)


def plan_of(name: str, route: Route, loose: tuple[Loose, ...] = WEIGHTS) -> HeightPlan:
    """Its heights for one way of letting it go."""
    return bench_of(name, route, loose).plan


@cache
def _bench_of(name: str, route: Route, loose: tuple[Loose, ...]) -> Bench:
    return stood(job(name, loose), planned(job(name, loose), route), route)


def bench_of(name: str, route: Route, loose: tuple[Loose, ...] = WEIGHTS) -> Bench:
    """Its bench, piled."""
    return _bench_of(name, route, loose)


def points(on: Job, plan: HeightPlan) -> list[PointLoad]:
    """Clamps and weights as loads."""
    return Loads(on.clamps, plan).points()


def weighted(beam: Beam, plan: HeightPlan) -> Beam:
    """A clamped board with the plan's weights on it too."""
    return beam.with_point_loads([PointLoad(p.x_mm, p.count * p.mass_kg * GRAVITY_M_S2) for p in plan.placed])


def on_planned_heights(beam: Beam, plan: HeightPlan) -> Bent:
    """A loaded board laid on narrow supports of the planned heights."""
    return solve(beam, x_mm=plan.x_mm, height_mm=plan.heights_mm)


def narrow_tops(x_mm: Sequence[float] | Floats, height_mm: Sequence[float] | Floats) -> list[Top]:
    """Supports without width."""
    return [Top(float(x), float(x), float(height)) for x, height in zip(x_mm, height_mm, strict=True)]


def twice_integrated(curvature: Floats, x_mm: Floats, low_point_mm: float) -> Floats:
    """Heights above the tangent at the low point, from curvature at fine stations by the trapezium."""
    size = np.diff(x_mm)
    slope = np.append(0.0, np.cumsum(size * (curvature[1:] + curvature[:-1]) / 2))
    height = np.append(0.0, np.cumsum(size * (slope[1:] + slope[:-1]) / 2))
    at, tilt = np.interp(low_point_mm, x_mm, height), np.interp(low_point_mm, x_mm, slope)
    return height - at - tilt * (x_mm - low_point_mm)
