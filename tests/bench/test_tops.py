"""Flat tops and straight edges."""

import numpy as np
import pytest
from bench_boards import CLAMPS, board

from generator.bench.assembly import clamp_loads, place_clamps
from generator.bench.beam import Beam
from generator.bench.contact import solve
from generator.bench.straight_edge import deepest_hollow
from generator.bench.tops import Top, rest_on, top_at

ON = board(cut_to_rocker=1.0)
BEAM = ON.value.beam(clamp_loads(place_clamps(ON, CLAMPS)))
PLACES = np.array([0.0, 835.0, 1465.0, 2300.0])


def tops(widths: list[float]) -> list[Top]:
    return [
        top_at(edge_mm=x, width_mm=w, height_mm=float(ON.wanted_mm(x)), low_point_mm=ON.low_point_mm)
        for x, w in zip(PLACES, widths, strict=True)
    ]


def test_a_wide_top_placed_by_its_inner_edge_works_like_a_narrow_one():
    narrow, wide = rest_on(BEAM, tops([1, 1, 1, 1])), rest_on(BEAM, tops([230, 180, 180, 230]))
    at = np.linspace(0, 2300, 47)
    assert wide.touch_x_mm == pytest.approx(PLACES, abs=1e-6)
    assert wide.bent.heights_mm(at) == pytest.approx(narrow.bent.heights_mm(at), abs=1e-6)


def test_a_tin_centred_under_the_tip_holds_the_board_half_its_width_inboard():
    """Common practice: a flat tin touches at the rim nearer the middle, so a 230 mm tin supports 115 mm inboard."""
    set_right = tops([230, 100, 100, 230])
    centred = [Top(-115, 115, set_right[0].height_mm), *set_right[1:3], Top(2185, 2415, set_right[3].height_mm)]
    rest = rest_on(BEAM, centred)
    assert rest.touch_x_mm[[0, 3]] == pytest.approx([115, 2185], abs=1e-6)
    plain = solve(BEAM, x_mm=[115, 835, 1465, 2185], height_mm=[t.height_mm for t in centred])
    at = np.linspace(0, 2300, 47)
    assert rest.bent.heights_mm(at) == pytest.approx(plain.heights_mm(at), abs=1e-6)


def test_over_the_low_point_the_board_bears_on_the_flat_itself():
    flat = [tops([1, 1, 1, 1])[0], Top(935, 1135, 0.5), tops([1, 1, 1, 1])[3]]
    rest = rest_on(BEAM, flat)
    assert 940 < rest.touch_x_mm[1] < 1130
    assert float(rest.bent.heights_mm(np.linspace(935, 1135, 401)).min()) == pytest.approx(0.5, abs=2e-3)
    assert rest.bent.slopes(rest.touch_x_mm[1:2]) == pytest.approx([0], abs=2e-3)


def test_loads_on_tops_add_up_and_lifting_all_of_them_lifts_the_curve():
    rest = rest_on(BEAM, tops([230, 180, 180, 230]))
    assert rest.loads_n.sum() == pytest.approx(BEAM.total_load_n, rel=1e-9)
    assert rest.lift_effect(np.linspace(0, 2300, 9)).sum(axis=1) == pytest.approx(np.ones(9), abs=1e-6)


def test_a_top_beside_the_board_and_a_board_that_tips_are_refused():
    with pytest.raises(ValueError, match="not under"):
        rest_on(BEAM, [Top(-50, -10, 0), Top(2000, 2100, 0)])
    with pytest.raises(ArithmeticError, match="tips over"):
        rest_on(BEAM, [Top(0, 10, 0), Top(100, 200, 0)])


@pytest.mark.parametrize("edge", [300.0, 600.0])
def test_a_straight_edge_over_an_inverted_arc_shows_the_arcs_rise(edge):
    """Rise of an arc of curvature k over a chord c: k·c²/8."""
    hollow, _ = deepest_hollow(lambda x: -4e-5 * np.asarray(x) ** 2 / 2, length_mm=2000, edge_mm=edge)
    assert hollow == pytest.approx(4e-5 * edge**2 / 8)


def test_a_fair_bottom_shows_no_hollow_and_a_dent_shows_its_depth():
    assert deepest_hollow(lambda x: 1e-4 * (np.asarray(x) - 900) ** 2, length_mm=2000) == (0.0, 0.0)
    dent = deepest_hollow(lambda x: 3.0 * np.exp(-(((np.asarray(x) - 700) / 60) ** 2)), length_mm=2000)
    assert dent == (pytest.approx(3.0, abs=0.01), pytest.approx(700, abs=10))


def test_between_the_points_of_a_flat_a_strongly_bent_board_dips_by_next_to_nothing():
    """Bent to 2e-4 /mm all along, it lies on two points 20 mm apart: 20² × 2e-4 / 8 = 0.01 mm below them between."""
    one = np.ones(1)
    bent = Beam(2000, [0, 2000], 1e10 * one, 0.03 * one, 0.03 * one, 2e-4 * one, 2e-4 * one)
    rest = rest_on(bent, [Top(910, 1090, 0.0)])
    lowest = float(rest.bent.heights_mm(np.linspace(910, 1090, 1801)).min())
    assert -0.011 < lowest < -0.009
