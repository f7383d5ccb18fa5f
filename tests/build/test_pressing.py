"""Weights on boards that bridge ribs."""

from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.beam import Beam, PointLoad
from generator.bench.tops import Top
from generator.build.pressing import (
    MOST_A_BOARD_KG,
    Lying,
    Need,
    Spare,
    board_loads,
    bridges,
    closing_force_n,
    curve_moves_mm,
    lacking,
    rib_needs,
    strip_pressure_kpa,
    support_loads_n,
)
from generator.quantities import GRAVITY_M_S2

spares = st.lists(
    st.builds(Spare, name=st.sampled_from("abcde"), mass_kg=st.floats(0.3, 8), count=st.integers(0, 12)),
    max_size=4,
    unique_by=lambda one: one.name,
)


def needs_of(values):
    return tuple(Need(0.4 * v, v, 2 * v) for v in values)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.floats(0.2, 6), min_size=2, max_size=15),
    spares,
    st.lists(st.tuples(st.floats(0, 3000), st.floats(0.5, 8)), max_size=5),
)
def test_no_more_is_laid_than_there_is_and_every_rib_is_pressed_once(values, spare, lying):
    ribs = 200.0 * np.arange(1, len(values) + 1)
    found = bridges(needs_of(values), rib_mm=ribs, lying=[Lying(x, kg) for x, kg in lying], spare=spare)
    assert sorted(rib for one in found for rib in one.pressing) == list(range(len(values)))
    assert all(one.ribs[1] == one.ribs[0] + 1 and set(one.pressing) <= set(one.ribs) for one in found)
    used = Counter({name: 0 for name in (one.name for one in spare)})
    for one in found:
        used.update(dict(one.pieces))
        assert one.laid_kg == pytest.approx(
            sum(n * next(s.mass_kg for s in spare if s.name == k) for k, n in one.pieces)
        )
        assert one.laid_kg == 0 or one.on_kg + one.laid_kg <= MOST_A_BOARD_KG
        assert one.short_kg >= 0
    assert all(used[one.name] <= one.count for one in spare)
    assert sum(one.on_kg for one in found) == pytest.approx(sum(kg for _, kg in lying))
    assert sum(one.need.value_kg for one in found) == pytest.approx(sum(values))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(0.5, 6), min_size=2, max_size=12), st.integers(0, 30))
def test_more_bottles_of_one_kind_never_leave_more_missing(values, count):
    def short(n):
        found = bridges(
            needs_of(values), rib_mm=200.0 * np.arange(1, len(values) + 1), lying=[], spare=[Spare("bottle", 1.5, n)]
        )
        return sum(one.short_kg for one in found)

    assert short(count + 1) <= short(count) + 1e-9


def test_what_is_on_for_the_rocker_counts_and_the_rest_goes_where_it_is_lacking():
    first, second = bridges(
        needs_of((2, 2, 2, 2)), rib_mm=(200, 400, 600, 800), lying=[Lying(400, 4)], spare=[Spare("bag", 2, 2)]
    )
    assert (first.on_kg, first.pieces, first.short_kg) == (4, (), 0)
    assert (second.on_kg, second.pieces, second.short_kg) == (0, (("bag", 2),), 0)


def test_what_is_less_than_half_a_piece_is_no_lack_as_long_as_pieces_are_left():
    ribs, needs = (200, 400), needs_of((1.0, 1.0))

    def lacks(bottles):
        spare = [Spare("bottle", 1.5, bottles)]
        return lacking(bridges(needs, rib_mm=ribs, lying=[], spare=spare), spare)

    assert lacks(5) == (False,)  # 0.5 kg short of 2 kg, and a bottle has 1.5 kg
    assert lacks(1) == lacks(0) == (True,)  # none is left


def test_the_last_of_an_odd_row_leans_on_the_rib_before():
    found = bridges(needs_of((1, 1, 1)), rib_mm=(200, 400, 600), lying=[], spare=[])
    assert [(one.ribs, one.pressing) for one in found] == [((0, 1), (0, 1)), ((1, 2), (2,))]
    with pytest.raises(ValueError, match="at least two"):
        bridges(needs_of((1,)), rib_mm=(200,), lying=[], spare=[])


@settings(max_examples=100, deadline=None)
@given(st.floats(0.1, 2), st.floats(200, 800), st.floats(4, 10))
def test_a_gap_twice_as_wide_takes_twice_as_much_and_a_span_twice_as_long_an_eighth(gap, span, thick):
    strip = {"width_mm": 240, "thickness_mm": thick, "stiffness_mpa": 7000}
    one = closing_force_n(gap_mm=gap, span_mm=span, **strip)
    assert closing_force_n(gap_mm=2 * gap, span_mm=span, **strip) == pytest.approx(2 * one)
    assert closing_force_n(gap_mm=gap, span_mm=2 * span, **strip) == pytest.approx(one / 8)


def test_needs_follow_the_ribs_and_their_range_holds():
    needs = rib_needs(
        rib_mm=(200, 400, 700), half_width_mm=(120, 240, 240), length_mm=1000, gap_mm=0.5, thickness_mm=6,
        stiffness_mpa=(6500, 7700, 9000),
    )  # fmt: skip
    assert all(need.low_kg < need.value_kg < need.high_kg for need in needs)
    by_hand = closing_force_n(gap_mm=0.5, span_mm=500, width_mm=240, thickness_mm=6, stiffness_mpa=7700)
    assert needs[1].value_kg == pytest.approx(by_hand / GRAVITY_M_S2)
    with pytest.raises(ValueError, match="span_mm"):
        closing_force_n(gap_mm=0.5, span_mm=0, width_mm=240, thickness_mm=6, stiffness_mpa=7700)


def plain_beam():
    return Beam(2000.0, [0.0, 2000.0], [1e8], [0.02], [0.02], [0.0], [0.0])


def test_added_weights_come_to_rest_on_the_supports_and_push_the_board_down():
    beam, tops = plain_beam(), [Top(0, 0, 0.0), Top(2000, 2000, 0.0)]
    found = bridges(needs_of((1, 1)), rib_mm=(900, 1100), lying=[], spare=[Spare("brick", 2, 1)])
    loads = board_loads(found, rib_mm=(900, 1100))
    assert [(load.x_mm, load.load_n) for load in loads] == [
        (900, pytest.approx(GRAVITY_M_S2)), (1100, pytest.approx(GRAVITY_M_S2))
    ]  # fmt: skip
    carried = support_loads_n(beam, tops, loads)
    assert carried.sum() == pytest.approx(beam.total_load_n + 2 * GRAVITY_M_S2)
    moved = curve_moves_mm(beam, tops, loads, [0, 1000, 2000])
    assert moved[0] == pytest.approx(0, abs=1e-9)
    assert moved[1] < 0


def test_one_load_in_the_middle_sags_as_a_simple_span():
    """P L³/48EI: American Wood Council, Design Aid No. 6, figure 7."""
    moved = curve_moves_mm(plain_beam(), [Top(0, 0, 0.0), Top(2000, 2000, 0.0)], [PointLoad(1000, 10.0)], [1000])
    assert moved[0] == pytest.approx(-10 * 2000**3 / (48 * 1e8))


def test_pressure_is_weight_over_face():
    assert strip_pressure_kpa(kg=1000 / GRAVITY_M_S2, length_mm=1000, width_mm=1000) == pytest.approx(1.0)
    with pytest.raises(ValueError, match="above 0"):
        strip_pressure_kpa(kg=1, length_mm=0, width_mm=6)
