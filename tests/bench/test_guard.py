"""Heights at which every support goes on bearing over the whole range of the board's stiffness."""

import numpy as np
import pytest
from laid_benches import NONE, job, narrow_tops, plan_of, points, weighted
from scipy.optimize import linprog

from generator.bench.assembly import clamp_loads
from generator.bench.beam import columns
from generator.bench.contact import INVERTED_PER_MM, solve
from generator.bench.guard import KEPT_SHARE, SURE_N, Guarded, guard
from generator.bench.piled import at_rest
from generator.bench.programme import LEAST_LOAD_N
from generator.bench.release import BOTTOM, TOP

STATION = np.linspace(0, 2300, 61)
GUARDED = [(name, route) for name in ("straight", "cut", "at rest", "cut too deep", "flat") for route in (BOTTOM, TOP)]


def boards(name, plan):
    """The loaded board at nominal, low and high stiffness."""
    on = job(name)
    return [weighted(on.beam(one), plan) for one in (on.board.value, on.board.low, on.board.high)]


def chosen(name, plan, *, within_mm, alone=False) -> Guarded | None:
    """Heights for what the board keeps, at the plan's places and under its weights."""
    on = job(name)
    kept = weighted(on.board.value.after_release(clamp_loads(on.clamps)), plan)
    return guard(
        boards(name, plan)[:1] if alone else boards(name, plan),
        kept,
        support_mm=plan.x_mm,
        station_mm=STATION,
        wanted_mm=on.board.wanted_mm(STATION),
        within_mm=within_mm,
        tip_load_n=LEAST_LOAD_N,
    )


BINDS_MM = 1.17
"""A goal so near to the nearest curve there is that it, not the cap, limits what the supports carry."""


def heights_of(name, plan, found: Guarded) -> np.ndarray:
    """Heights of the nominal board under the loads found, up to a lift and a turn, which no support feels."""
    loads, push = columns(boards(name, plan)[0], plan.x_mm).heights(plan.x_mm)
    return loads + found.loads_n @ push


def kept_off(name, plan, loads_n) -> float:
    """How far what is kept under these loads is from the wanted curve, at best: least t with |off − a − b·x| ≤ t."""
    on = job(name)
    kept = weighted(on.board.value.after_release(clamp_loads(on.clamps)), plan)
    loads, push = columns(kept, plan.x_mm).heights(STATION)
    off = loads + loads_n @ push - on.board.wanted_mm(STATION)
    ways = np.stack([np.ones(61), STATION / 2300, np.ones(61)], axis=1)
    rows = np.vstack([ways, ways * [-1, -1, 1]])
    return float(linprog([0, 0, 1], A_ub=-rows, b_ub=-np.append(off, -off), bounds=[(None, None)] * 3).fun)


@pytest.mark.parametrize(("name", "route"), GUARDED)
def test_at_any_stiffness_every_middle_support_carries_what_the_plan_promises(name, route):
    plan = plan_of(name, route)
    assert plan.sure_n > 0
    least = np.inf
    for beam in boards(name, plan):
        bent = solve(beam, x_mm=plan.x_mm, height_mm=plan.heights_mm)
        assert bent.gaps_mm.max() < 1e-6  # a tip may be left with nothing, to the last digits
        assert bent.least_curvature[0] >= INVERTED_PER_MM
        least = min(least, bent.reactions_n[1:-1].min())
    assert least == pytest.approx(plan.sure_n, abs=1e-3)


@pytest.mark.parametrize("name", ["straight", "cut", "flat"])
def test_between_the_ends_of_the_range_they_carry_as_much(name):
    plan, on = plan_of(name, TOP), job(name)
    for factor in np.linspace(0.75, 1.25, 11):
        beam = on.board.value.scaled(factor).beam(points(on, plan))
        bent = solve(beam, x_mm=plan.x_mm, height_mm=plan.heights_mm)
        assert bent.reactions_n[1:-1].min() >= min(plan.sure_n, SURE_N) - 1e-3


def test_no_heights_within_the_goal_let_the_least_loaded_support_carry_more():
    """Mixtures of the heights found and of those that come nearest, with a little noise: of those that keep the curve
    within the goal none loads the least loaded support more than 1/0.98 of what was found."""
    plan = plan_of("straight", BOTTOM)
    found = chosen("straight", plan, within_mm=BINDS_MM)
    assert 0.5 < found.least_n < KEPT_SHARE * SURE_N  # so that it is the goal that binds
    nearest = chosen("straight", plan, within_mm=np.inf, alone=True)
    ends = [heights_of("straight", plan, one) for one in (found, nearest)]
    rng = np.random.default_rng(5)
    within = 0
    for _ in range(120):
        t = rng.uniform(-0.2, 1.0)
        heights = ends[0] + t * (ends[1] - ends[0]) + np.append(rng.normal(0, 0.05, 3), 0) * rng.integers(0, 2)
        states = [solve(beam, x_mm=plan.x_mm, height_mm=heights) for beam in boards("straight", plan)]
        if kept_off("straight", plan, states[0].reactions_n) <= BINDS_MM and all(
            one.least_curvature[0] >= 0.9 * INVERTED_PER_MM for one in states
        ):
            within += 1
            assert min(one.reactions_n[1:-1].min() for one in states) <= found.least_n / KEPT_SHARE + 1e-3
    assert within > 20


def test_with_no_limit_the_curve_comes_as_near_as_it_can():
    plan = plan_of("straight", BOTTOM)
    nearest = chosen("straight", plan, within_mm=np.inf, alone=True)
    assert kept_off("straight", plan, nearest.loads_n) == pytest.approx(nearest.deviation_mm, abs=1e-4)
    assert chosen("straight", plan, within_mm=nearest.deviation_mm + 0.01, alone=True) is not None
    assert chosen("straight", plan, within_mm=nearest.deviation_mm - 0.01, alone=True) is None


def test_the_more_the_curve_may_miss_the_more_the_supports_carry():
    plan = plan_of("straight", BOTTOM)
    least = [
        chosen("straight", plan, within_mm=within).least_n
        for within in (BINDS_MM - 0.05, BINDS_MM, BINDS_MM + 0.05, 2.0)
    ]
    assert least == sorted(least)
    assert least[0] < least[-1]


def test_where_a_support_must_lift_off_a_stiff_board_the_nominal_one_counts():
    """More than twice as stiff, and no weight at all: at the high end a middle support can't be reached."""
    plan = plan_of("stiff", BOTTOM, NONE)
    assert plan.sure_n == 0
    nominal, _, high = (solve(beam, x_mm=plan.x_mm, height_mm=plan.heights_mm) for beam in boards("stiff", plan))
    assert nominal.touching.all()
    assert nominal.reactions_n.min() >= LEAST_LOAD_N - 1e-3
    assert not high.touching.all()
    alone, all_three = (chosen("stiff", plan, within_mm=plan.deviation_mm + 0.3, alone=one) for one in (True, False))
    assert all_three.loads_n == pytest.approx(alone.loads_n)
    assert (all_three.least_n, alone.least_n > LEAST_LOAD_N) == (0, True)


def test_a_curve_that_no_heights_give_is_refused():
    assert chosen("straight", plan_of("straight", BOTTOM), within_mm=0.01) is None


@pytest.mark.parametrize("name", ["straight", "cut"])
def test_the_whole_range_keeps_nearly_the_wanted_curve(name):
    """Supports that bear at all stiffnesses hold the curve: a quarter more or less moves it by little over 1 mm."""
    plan, on = plan_of(name, TOP), job(name)
    tops = narrow_tops(plan.x_mm, plan.heights_mm)
    for one in (on.board.low, on.board.high):
        assert at_rest(on.board, one, tops, points(on, plan), TOP).kept.worst_mm < 3.5
