"""From a board and a household to planned heights, for both ways of letting the board go."""

from dataclasses import replace

import numpy as np
import pytest
from bench_boards import CLAMPS, TABLE, THINGS, board
from laid_benches import BOARDS, NONE, bench_of, job, narrow_tops, on_planned_heights, plan_of, points

from generator.bench.assembly import ClampKind, place_clamps
from generator.bench.contact import INVERTED_PER_MM
from generator.bench.piled import Rest, at_rest
from generator.bench.release import BOTTOM, TOP, Route
from generator.bench.setting import job_of, planned, recommended, wanted_curvature_per_mm
from generator.quantities import fixed

WAYS = [(name, route) for name in ("straight", "cut", "at rest", "cut too deep", "flat") for route in (BOTTOM, TOP)]


def laid(name: str, route: Route) -> Rest:
    """The board on the planned heights, and what it keeps."""
    on, plan = job(name), plan_of(name, route)
    tops = narrow_tops(plan.x_mm, plan.heights_mm)
    return at_rest(on.board, on.board.value, tops, points(on, plan), route)


@pytest.mark.parametrize(("name", "route"), WAYS)
def test_what_the_board_keeps_is_the_wanted_curve(name, route):
    plan, rest = plan_of(name, route), laid(name, route)
    assert plan.reached
    assert rest.kept.worst_mm <= 2
    assert rest.kept.worst_mm == pytest.approx(plan.deviation_mm, abs=0.01)
    off = rest.kept.heights_mm - BOARDS[name].wanted_mm(np.linspace(0, 2300, 61))
    assert np.abs(off).max() == pytest.approx(rest.kept.worst_mm, abs=1e-6)


@pytest.mark.parametrize(("name", "route"), WAYS)
def test_nothing_is_inverted_on_the_bench_or_once_it_is_off(name, route):
    rest = laid(name, route)
    assert rest.on.bent.inverted() == ()
    x = np.linspace(0, 2300, 116)
    kept = rest.on.bent.heights_mm(x) - rest.released.lost(route).loss_at(x)
    assert np.diff(kept, n=2).min() / 20**2 >= INVERTED_PER_MM


@pytest.mark.parametrize(("name", "route"), WAYS)
def test_the_planned_loads_carry_everything(name, route):
    on, plan = job(name), plan_of(name, route)
    bent = on_planned_heights(on.board.value.beam(points(on, plan)), plan)
    assert bent.reactions_n == pytest.approx(plan.loads_n, abs=1e-3)
    assert plan.loads_n.sum() == pytest.approx(42 + sum(p.load_n for p in points(on, plan)), rel=1e-6)


def test_leaving_a_straight_board_on_the_bench_takes_less_bend_and_less_weight():
    off, left = plan_of("straight", BOTTOM), plan_of("straight", TOP)
    assert off.heights_mm[-1] - off.heights_mm.min() > 1.3 * (left.heights_mm[-1] - left.heights_mm.min())
    assert sum(p.count * p.mass_kg for p in off.placed) > sum(p.count * p.mass_kg for p in left.placed)


def test_a_frame_cut_deeper_than_wanted_is_pressed_flatter_and_comes_back():
    """On the bench the loose pair is bent back from its own rocker; let go, the glued pair rises again."""
    rest = laid("cut too deep", BOTTOM)
    assert rest.released.lifted.nose_mm < 0
    assert rest.released.lifted.kept_share > 1
    assert rest.kept.worst_mm <= 2


def test_a_board_that_loses_next_to_nothing_may_come_off_early_and_others_had_better_stay():
    """One that wins much by it must stay too: what it wins is as unsure as what it loses."""
    assert recommended(BOARDS["straight"]) == TOP
    like_wanted = board(cut_to_rocker=1.0)
    stiff_glue = [
        replace(one, glued_n_mm2=fixed(100 * one.loose_n_mm2)) for one in (like_wanted.low, like_wanted.value)
    ]
    sure = replace(like_wanted, low=stiff_glue[0], value=stiff_glue[1], high=stiff_glue[1])
    assert recommended(sure) == BOTTOM
    assert recommended(board(cut_to_rocker=2.5)) == TOP


def test_wanted_curvature_is_that_of_the_wanted_heights_and_never_below_0():
    """A parabola k·x²/2 has k everywhere, its ends included; a hollow counts as flat."""
    x = np.linspace(0, 2300, 24)
    bowl = replace(BOARDS["cut"], wanted_mm=lambda x: 3e-5 * np.asarray(x) ** 2 / 2)
    assert wanted_curvature_per_mm(bowl, x) == pytest.approx(np.full(24, 3e-5), rel=1e-6)
    hollow = replace(BOARDS["cut"], wanted_mm=lambda x: -3e-5 * np.asarray(x) ** 2 / 2)
    assert np.all(wanted_curvature_per_mm(hollow, x) == 0)


@pytest.mark.parametrize("clamps", [(), (ClampKind("bar clamp", 120, 0.7, 170, 1),)], ids=["none", "one"])
@pytest.mark.parametrize("route", [BOTTOM, TOP])
def test_a_house_without_weights_and_hardly_a_clamp_still_gets_the_best_there_is(clamps, route):
    """One clamp makes no pair, so it is not used."""
    on = job("straight", NONE, clamps)
    assert on.clamps == ()
    plan = planned(on, route)
    assert not plan.reached
    assert plan.placed == ()
    assert plan.loads_n.sum() == pytest.approx(42, rel=1e-6)
    bent = on_planned_heights(on.board.value.beam(), plan)
    assert bent.reactions_n == pytest.approx(plan.loads_n, abs=1e-3)


@pytest.mark.parametrize("route", [BOTTOM, TOP])
def test_a_board_that_lies_nearly_as_wanted_by_itself_needs_neither_clamps_nor_weights(route):
    plan = planned(job("at rest", NONE, ()), route)
    assert plan.reached
    assert plan.placed == ()


@pytest.mark.parametrize("length", [1300.0, 3600.0])
def test_short_and_long_boards_are_planned_too(length):
    on = board(length=length, tail=58 * length / 2300, nose=118 * length / 2300, cut_to_rocker=1.3)
    made = job_of(on, pieces=THINGS, clamps=CLAMPS, loose=NONE, table=replace(TABLE, length_mm=4000))
    plan = planned(made, TOP)
    rest = at_rest(on, on.value, narrow_tops(plan.x_mm, plan.heights_mm), points(made, plan), TOP)
    assert plan.reached
    assert rest.kept.worst_mm <= 2
    assert plan.x_mm[-1] == length


@pytest.mark.parametrize("name", ["straight", "cut"])
def test_a_bench_stands_on_the_planned_supports_under_the_planned_loads(name):
    bench = bench_of(name, TOP)
    for x, top in zip(bench.plan.x_mm, bench.laid.tops, strict=True):
        assert top.low_x_mm - 1e-9 <= x <= top.high_x_mm + 1e-9
    mass = sum(p.load_n for p in points(bench.job, bench.plan))
    assert bench.laid.beam.total_load_n == pytest.approx(42 + mass, rel=1e-6)
    assert bench.laid.value.kept.worst_mm <= 2


def test_clamps_are_placed_once_for_the_whole_job():
    assert job("straight").clamps == place_clamps(BOARDS["straight"], CLAMPS)
