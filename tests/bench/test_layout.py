"""The whole bench, on the heights that were really piled."""

from dataclasses import fields, replace
from functools import cache

import numpy as np
import pytest
from bench_boards import CLAMPS, TABLE, THINGS, WEIGHTS
from laid_benches import BOARDS, NONE

from generator.bench.assembly import ClampKind, OnBench, TableTop, clamp_loads, place_clamps
from generator.bench.beam import PointLoad
from generator.bench.contact import solve
from generator.bench.layout import lay
from generator.bench.plan import BenchPlan
from generator.bench.release import BOTTOM, TOP, Route
from generator.bench.setting import planned
from generator.bench.stack_list import Piece
from generator.quantities import GRAVITY_M_S2, fixed

STRAIGHT, CUT = BOARDS["straight"], BOARDS["cut"]
LEVEL = TableTop(3000, 600, fixed([]), fixed([]))


def laid(on: OnBench = CUT, *, things=THINGS, clamps=CLAMPS, loose=WEIGHTS, table=TABLE, route=None) -> BenchPlan:
    return lay(on, pieces=things, clamps=clamps, loose=loose, table=table, route=route)


CASES: dict[str, tuple[OnBench, tuple, Route | None]] = {
    "cut": (CUT, WEIGHTS, None),
    "straight": (STRAIGHT, WEIGHTS, None),
    "straight, off early": (STRAIGHT, WEIGHTS, BOTTOM),
    "straight, no weights": (STRAIGHT, NONE, None),
}


@cache
def plan_of(name: str) -> BenchPlan:
    on, loose, route = CASES[name]
    return laid(on, loose=loose, route=route)


@pytest.fixture(params=CASES, ids=str)
def made(request) -> tuple[OnBench, BenchPlan]:
    return CASES[request.param][0], plan_of(request.param)


def test_what_the_plan_shows_is_the_board_on_the_real_stacks(made):
    """Solved again by the plain solver on narrow supports where the tops are touched."""
    on, plan = made
    loads = clamp_loads(plan.clamps) + [PointLoad(p.x_mm, p.count * p.mass_kg * GRAVITY_M_S2) for p in plan.placed]
    bent = solve(
        on.value.beam(loads),
        x_mm=[s.touch_x_mm for s in plan.supports],
        height_mm=[s.stack.height_mm + s.reading_mm for s in plan.supports],
    )
    assert bent.heights_mm(plan.curves.x_mm) == pytest.approx(plan.curves.from_line_mm, abs=0.01)
    assert bent.reactions_n == pytest.approx([s.load_n for s in plan.supports], abs=0.5)
    line = np.array([plan.line_mm(float(x), on.length_mm) for x in plan.curves.x_mm])
    assert plan.curves.clamped_mm + line == pytest.approx(plan.curves.from_line_mm)


def test_what_is_kept_is_the_bench_less_what_is_lost_afterwards(made):
    _, plan = made
    curves = plan.curves
    lost = plan.after.lost(plan.route).loss_at(curves.x_mm)
    assert curves.aim_mm - curves.wanted_mm == pytest.approx(lost, abs=1e-9)
    assert curves.clamped_mm - curves.after_mm == pytest.approx(lost, abs=1e-9)
    off = curves.after_mm - curves.wanted_mm
    assert np.abs(off).max() == pytest.approx(abs(plan.deviation_mm), abs=2e-3)
    assert float(np.interp(plan.deviation_x_mm, curves.x_mm, off)) == pytest.approx(plan.deviation_mm)


def test_a_rigid_lift_or_turn_would_bring_what_is_kept_no_nearer(made):
    """Of the worst distances at least three are as great as each other, with their signs in turn (Chebyshev)."""
    curves = made[1].curves
    for after in (curves.after_mm, curves.after_low_mm, curves.after_high_mm):
        off = after - curves.wanted_mm
        signs = np.sign(off[np.abs(off) > np.abs(off).max() - 1e-6])
        assert np.count_nonzero(np.diff(signs)) >= 2


def test_the_loads_carry_the_board_its_clamps_and_weights(made):
    _, plan = made
    mass = 42 / GRAVITY_M_S2 + sum(c.mass_kg for c in plan.clamps) + sum(p.count * p.mass_kg for p in plan.placed)
    assert sum(s.load_n for s in plan.supports) == pytest.approx(mass * GRAVITY_M_S2, rel=1e-6)
    assert plan.table_load_kg == pytest.approx(mass + sum(s.stack.mass_kg for s in plan.supports))


def test_no_stack_is_overloaded_at_any_stiffness(made):
    for support in made[1].supports:
        assert support.load_low_n <= support.load_n <= support.load_high_n
        assert support.load_high_n <= support.takes_n * 1.02  # heights as piled shift the loads a little


def test_edges_stand_where_they_touch(made):
    _, plan = made
    tail, *_, nose = plan.supports
    assert (tail.edge, nose.edge) == ("nose side", "tail side")
    assert tail.touch_x_mm == pytest.approx(0)
    assert tail.centre_x_mm == pytest.approx(-tail.top_width_mm / 2)
    assert nose.centre_x_mm == pytest.approx(2300 + nose.top_width_mm / 2)
    assert all(
        s.centre_x_mm - s.top_width_mm / 2 - 1e-6 <= s.touch_x_mm <= s.centre_x_mm + s.top_width_mm / 2 + 1e-6
        for s in plan.supports
    )


@pytest.mark.parametrize("name", ["cut", "straight", "straight, off early"])
def test_straight_frame_with_weights_and_cut_frame_reach_the_rocker(name):
    plan = plan_of(name)
    assert plan.reached
    assert abs(plan.deviation_mm) <= 2
    assert plan.inverted == ()
    assert plan.cure is None
    assert not any(s.lifts_off or s.over_limit for s in plan.supports)


def test_the_bare_straight_frame_misses_it_and_says_what_would_mend_it():
    poor = plan_of("straight, no weights")
    assert not poor.reached
    assert abs(poor.deviation_mm) > 2
    assert poor.other is None
    assert poor.cure.change == "weight"
    assert sum(one.count * one.mass_kg for one in poor.cure.placed) > 5


def test_the_way_that_was_asked_for_is_planned_and_the_other_is_told_beside_it():
    early, left = plan_of("straight, off early"), plan_of("straight")
    assert (early.route, early.best_route, early.other.route) == (BOTTOM, TOP, TOP)
    assert (left.route, left.best_route, left.other.route) == (TOP, TOP, BOTTOM)
    for plan, other in ((early, left), (left, early)):
        assert plan.other.reached
        assert plan.other.mass_kg == pytest.approx(sum(p.count * p.mass_kg for p in other.placed))
        assert plan.other.deviation_mm == pytest.approx(planned(other.bench.job, other.route).deviation_mm)
        # the rises are foreseen, those of the other plan are what its own bench then loses: near, not the same
        assert [plan.other.tail_mm, plan.other.nose_mm] == pytest.approx(other.curves.aim_mm[[0, -1]], abs=4)
    assert left.other.nose_mm > early.other.nose_mm


def test_the_same_things_give_the_same_plan():
    again = laid(STRAIGHT)
    for field in fields(BenchPlan):
        one, two = getattr(plan_of("straight"), field.name), getattr(again, field.name)
        if isinstance(one, float | bool | str) or field.name in {"placed", "clamps", "clearances", "inverted"}:
            assert one == two, field.name
    assert [s.parts for s in again.supports] == [s.parts for s in plan_of("straight").supports]
    assert np.array_equal(again.curves.clamped_mm, plan_of("straight").curves.clamped_mm)


def test_what_the_table_reads_goes_into_the_stacks_and_not_into_the_board():
    bumpy = TableTop(3000, 600, fixed([0, 1100, 2300]), fixed([6, -4, 0]))
    for plan, table in ((laid(table=LEVEL), LEVEL), (laid(table=bumpy), bumpy)):
        assert plan.reached
        for s in plan.supports:
            assert s.reading_mm == pytest.approx(float(table.at(s.planned_x_mm)))
            assert s.stack_height_mm == pytest.approx(s.stack.height_mm)
            assert abs(s.error_mm) <= 1


@pytest.mark.parametrize("hang", [130.0, 200.0])
def test_hanging_clamps_clear_the_table(hang):
    plan = laid(clamps=(ClampKind("clamp", 120, 0.6, hang, 22),))
    assert len(plan.clearances) == 10
    assert all(c.room_mm >= c.hang_mm for c in plan.clearances if not c.past_edge)
    assert all(c.clears for c in plan.clearances)


def test_clamps_beside_a_narrow_table_need_no_room():
    narrow = laid(table=TableTop(3000, 300, fixed([]), fixed([])))
    wide = laid(table=LEVEL)
    assert any(c.past_edge for c in narrow.clearances)
    assert narrow.base_mm < wide.base_mm


def test_clamps_go_on_in_pairs_from_the_middle_outwards_where_they_open_far_enough():
    kinds = (
        ClampKind("long", 120, 1.0, 200, 5),
        ClampKind("short", 60, 0.4, 130, 3),
        ClampKind("tiny", 30, 0.2, 50, 9),
    )
    pairs = place_clamps(CUT, kinds)
    assert [p.name for p in pairs] == ["short", "long", "long"]
    away = [abs(p.x_mm - 1150) for p in pairs]
    assert away == sorted(away)
    assert pairs[0].mass_kg == pytest.approx(0.8)
    assert all(k.name != "tiny" for k in pairs)


def test_a_house_with_too_few_things_names_the_heights_that_are_missing():
    plan = laid(things=[Piece("tin", "tin", 192, 180, 6, 80, 2), Piece("card", "shim", 1, 80, 0.01, 100, 3)])
    gone = [s for s in plan.supports if s.stack is None]
    assert gone
    assert not plan.reached
    assert not plan.stacks_fit
    assert all(s.parts == () and s.takes_n == 0 for s in gone)
    assert all(s.stack_height_mm > 100 for s in gone)


def test_a_row_of_supports_longer_than_the_table_is_told():
    ends = [s for s in plan_of("cut").supports if "tip" in s.name]
    row = 2300 + sum(s.top_width_mm for s in ends)
    assert laid(table=replace(LEVEL, length_mm=2000)).table_short_mm == pytest.approx(row - 2000, abs=250)
    assert plan_of("cut").table_short_mm == 0


def test_boards_over_the_range_of_stiffness_keep_about_the_same(made):
    """The band is that of any two boards, so no part of it is wider than the whole."""
    _, plan = made
    curves = plan.curves
    for after, worst in ((curves.after_low_mm, plan.deviation_low_mm), (curves.after_high_mm, plan.deviation_high_mm)):
        assert np.abs(after - curves.wanted_mm).max() == pytest.approx(worst, abs=1e-6)
    ends = float(np.abs(curves.after_low_mm - curves.after_high_mm).max())
    assert max(ends, plan.band_frame_mm, plan.band_panel_mm) - 1e-9 <= plan.band_mm
    assert plan.band_mm <= ends + plan.band_frame_mm + plan.band_panel_mm
    assert 0 < plan.band_mm < 15


def test_a_straight_frame_loses_more_than_one_cut_to_the_rocker():
    cut, straight = plan_of("cut").after, plan_of("straight").after
    assert straight.lifted.nose_mm > 2 * cut.lifted.nose_mm > 0
    # glued three times as stiff as loose: a straight frame keeps two thirds of its curvature
    assert straight.lifted.kept_share == pytest.approx(2 / 3, abs=0.02)
    assert straight.lifted.nose_mm > straight.kept.nose_mm > 0


def test_ends_moved_inboard_are_part_of_the_plan():
    moved = plan_of("straight").inboard
    assert [m.inset_mm for m in moved] == [50, 100, 200]
    assert moved[0].nose_short_mm < moved[1].nose_short_mm < moved[2].nose_short_mm
