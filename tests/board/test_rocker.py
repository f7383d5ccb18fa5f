"""Rises as the trade names them, and tuning."""

from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.board.curve import FairCurve, fair_curve
from generator.board.rocker import RockerHeight, rises, tuned_rocker, wanted_rocker

LENGTH = 2300.0
SUGGESTED = tuple(
    RockerHeight(*pair) for pair in [(0, 58), (300, 23), (600, 7), (1000, 0), (1500, 10), (2000, 54), (2300, 118)]
)


def shift(tail, nose):
    return SimpleNamespace(tail_mm=tail, nose_mm=nose)


def low_point(heights):
    x, z = [h.from_tail_mm for h in heights], [h.height_mm for h in heights]
    return fair_curve(x, z, length_mm=LENGTH).curve.low_point_mm()


def test_rises_of_a_parabola_are_read_off_it():
    c, low = 8e-5, 1000.0
    curve = FairCurve([0, LENGTH], [2 * c] * 2, c * low**2 + 40, -2 * c * low)  # 40 mm above the datum
    got = rises(curve, length_mm=LENGTH)
    assert (got.tail_mm, got.tail_in_mm) == pytest.approx((c * low**2, c * 700**2))
    assert (got.nose_in_mm, got.nose_mm) == pytest.approx((c * 1000**2, c * 1300**2))
    assert got.low_point_mm == pytest.approx(low)
    assert rises(curve, length_mm=LENGTH, measured_in_mm=304.8).tail_in_mm == pytest.approx(c * (low - 304.8) ** 2)


@settings(max_examples=25, deadline=None)
@given(st.floats(-20, 30), st.floats(-30, 30))
def test_a_shift_is_whole_at_its_tip_and_gone_at_the_low_point(tail, nose):
    tuned = tuned_rocker(SUGGESTED, [shift(tail, nose)], length_mm=LENGTH)
    added = [b.height_mm - a.height_mm for a, b in zip(SUGGESTED, tuned, strict=True)]
    assert (added[0], added[-1]) == pytest.approx((tail, nose))
    low = low_point(SUGGESTED)
    assert added[1] == pytest.approx(tail * ((low - 300) / low) ** 2)
    assert added[-2] == pytest.approx(nose * ((2000 - low) / (LENGTH - low)) ** 2)
    assert added[3] == pytest.approx(0, abs=0.02 * max(abs(tail), abs(nose), 1))


def test_shifts_add_up():
    one = tuned_rocker(SUGGESTED, [shift(5, 8)], length_mm=LENGTH)
    two = tuned_rocker(SUGGESTED, [shift(2, 9), shift(3, -1)], length_mm=LENGTH)
    assert [h.height_mm for h in two] == pytest.approx([h.height_mm for h in one])


def test_no_shift_changes_nothing():
    assert tuned_rocker(SUGGESTED, [], length_mm=LENGTH) == SUGGESTED


def test_a_low_point_at_an_end_divides_by_nothing():
    rising = tuple(RockerHeight(x, 40 * (x / LENGTH) ** 2 + x / 100) for x in (0, 700, 1500, 2300))
    tuned = tuned_rocker(rising, [shift(7, 3)], length_mm=LENGTH)
    assert tuned[0].height_mm == pytest.approx(0)
    assert tuned[-1].height_mm == pytest.approx(63 + 3)


@pytest.mark.parametrize("agreed", [None, SUGGESTED[::2]])
def test_an_agreed_rocker_is_taken_as_it_is(agreed):
    wanted = wanted_rocker(SUGGESTED, agreed=agreed, shifts=[shift(5, 5)], length_mm=LENGTH)
    assert (wanted == SUGGESTED[::2]) == (agreed is not None)
