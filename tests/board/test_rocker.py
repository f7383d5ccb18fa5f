"""Rises as the trade names them, the flat part, and shifts at the tips."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.board.curve import FairCurve, fair_curve
from generator.board.rocker import (
    EARLIEST,
    LATEST,
    LEAST_TIP_MM,
    RockerHeight,
    Shift,
    added,
    flat_part,
    rises,
    tip_angles_deg,
    tuned_rocker,
    wanted_rocker,
)

LENGTH = 2300.0
SUGGESTED = tuple(
    RockerHeight(*pair) for pair in [(0, 58), (300, 23), (600, 7), (1000, 0), (1500, 10), (2000, 54), (2300, 118)]
)


def curve_of(heights):
    x, z = [h.from_tail_mm for h in heights], [h.height_mm for h in heights]
    return fair_curve(x, z, length_mm=LENGTH).curve.from_low_point()


def heights_of(shift, suggested=SUGGESTED):
    return np.array([h.height_mm for h in tuned_rocker(suggested, shift, length_mm=LENGTH)])


GIVEN = np.array([h.height_mm for h in SUGGESTED])


def test_rises_of_a_parabola_are_read_off_it():
    c, low = 8e-5, 1000.0
    curve = FairCurve([0, LENGTH], [2 * c] * 2, c * low**2 + 40, -2 * c * low)  # 40 mm above the datum
    got = rises(curve, length_mm=LENGTH)
    assert (got.tail_mm, got.tail_in_mm) == pytest.approx((c * low**2, c * 700**2))
    assert (got.nose_in_mm, got.nose_mm) == pytest.approx((c * 1000**2, c * 1300**2))
    assert got.low_point_mm == pytest.approx(low)
    assert rises(curve, length_mm=LENGTH, measured_in_mm=304.8).tail_in_mm == pytest.approx(c * (low - 304.8) ** 2)


def test_a_board_that_is_nowhere_far_from_level_is_flat_all_along():
    flat = flat_part(FairCurve([0, LENGTH], [1e-9] * 2, 0.0, 0.0), length_mm=LENGTH)
    assert (flat.from_mm, flat.to_mm, flat.share) == (0, LENGTH, 1)


def test_where_the_low_point_is_a_tip_the_flat_part_is_measured_from_the_slope_there():
    c, slope = 4e-5, 0.01
    flat = flat_part(FairCurve([0, LENGTH], [2 * c] * 2, 0.0, slope), length_mm=LENGTH)
    assert (flat.from_mm, flat.to_mm) == pytest.approx((0, (5 / c) ** 0.5))


@settings(max_examples=25, deadline=None)
@given(st.floats(0.5, 20), st.floats(1, 3))
def test_a_wider_limit_makes_a_longer_flat_part(within, more):
    curve = curve_of(SUGGESTED)
    narrow, wide = (flat_part(curve, length_mm=LENGTH, within_mm=w) for w in (within, within * more))
    assert wide.from_mm <= narrow.from_mm <= curve.low_point_mm() <= narrow.to_mm <= wide.to_mm


def test_angles_rise_outwards():
    tail, nose = tip_angles_deg(curve_of(SUGGESTED), length_mm=LENGTH)
    assert 5 < tail < 12
    assert 10 < nose < 20


@settings(max_examples=25, deadline=None)
@given(st.floats(-20, 30), st.floats(-30, 30))
def test_a_shift_is_whole_at_its_tip_and_gone_at_the_low_point(tail, nose):
    new = heights_of(Shift(tail, nose)) - GIVEN
    assert (new[0], new[-1]) == pytest.approx((tail, nose))
    low = curve_of(SUGGESTED).low_point_mm()
    assert new[1] == pytest.approx(tail * ((low - 300) / low) ** 2)
    assert new[-2] == pytest.approx(nose * ((2000 - low) / (LENGTH - low)) ** 2)
    assert new[3] == pytest.approx(0, abs=0.02 * max(abs(tail), abs(nose), 1))


@settings(max_examples=25, deadline=None)
@given(st.floats(EARLIEST, LATEST))
def test_a_later_rise_leaves_the_tips_and_lowers_the_rest(late):
    new = heights_of(Shift(late=late)) - GIVEN
    assert (new[0], new[-1]) == pytest.approx((0, 0), abs=1e-9)
    assert np.all(new[1:-1] * late <= 1e-12)


def test_a_shift_that_lowers_half_way_does_so_by_that_much():
    x = np.linspace(0, LENGTH, 9)
    board = [RockerHeight(at, 1e-4 * (at - LENGTH / 2) ** 2) for at in x]
    tuned = tuned_rocker(board, Shift.lowering(0, 0, 12), length_mm=LENGTH)
    half_way = [tuned[n].height_mm / board[n].height_mm for n in (2, 6)]
    assert half_way == pytest.approx([0.88, 0.88], abs=0.01)  # the fair curve may pass the heights by 1 mm
    assert Shift.lowering(1, 2, 12).lowered_pct == pytest.approx(12)
    with pytest.raises(ValueError, match="all of its height"):
        Shift.lowering(0, 0, 100)


def test_shifts_add_up():
    parts = (Shift(2, 9, 0.1), Shift(3, -1, 0.05))
    assert heights_of(added(parts)) == pytest.approx(heights_of(Shift(5, 8, 0.15)))
    twice = Shift.lowering(1, 2, 10).times(2)
    assert (twice.tail_mm, twice.nose_mm, twice.lowered_pct) == pytest.approx((2, 4, 19))  # 0.9 · 0.9 is left
    assert Shift(5, 8, 0.1).for_length(1.2) == Shift(6, 9.6, 0.1)


def test_no_shift_changes_nothing():
    assert tuned_rocker(SUGGESTED, added([]), length_mm=LENGTH) == SUGGESTED


def test_no_shift_takes_a_tip_down_to_nothing():
    flat = tuple(RockerHeight(h.from_tail_mm, h.height_mm / 5) for h in SUGGESTED)
    new = tuned_rocker(flat, Shift(-40, -40), length_mm=LENGTH)
    assert min(new[0].height_mm, new[-1].height_mm) > LEAST_TIP_MM - 1.1  # given heights and curve differ by up to 1 mm
    assert Shift(late=9).held.late == LATEST
    assert Shift(late=-9).held.late == EARLIEST


def test_a_low_point_at_an_end_divides_by_nothing():
    rising = tuple(RockerHeight(x, 40 * (x / LENGTH) ** 2 + x / 100) for x in (0, 700, 1500, 2300))
    tuned = tuned_rocker(rising, Shift(7, 3), length_mm=LENGTH)
    assert tuned[0].height_mm == pytest.approx(0)
    assert tuned[-1].height_mm == pytest.approx(63 + 3)


@pytest.mark.parametrize("agreed", [None, SUGGESTED[::2]])
def test_an_agreed_rocker_is_taken_as_it_is(agreed):
    wanted = wanted_rocker(SUGGESTED, agreed=agreed, shift=Shift(5, 5, 0.2), length_mm=LENGTH)
    assert (wanted == SUGGESTED[::2]) == (agreed is not None)
