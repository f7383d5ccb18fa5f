"""Square, twist, straight: limits for tape, sticks and string."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.frame_checks import (
    RibEnds,
    bow_deg,
    count_joints,
    diagonal_check,
    difference_mm,
    end_off_mm,
    goes_for,
    ribs_in_one_go,
    rim_height_mm,
    twist_deg,
)

halves = st.floats(60, 320)
angles = st.floats(0.1, 5)
RIBS = tuple(RibEnds(200.0 * n, half, 0) for n, half in enumerate((90, 170, 215, 230, 222, 190, 120), 1))


@settings(max_examples=100, deadline=None)
@given(halves, halves, st.floats(150, 3000), angles)
def test_a_square_frame_shows_nothing_and_a_larger_turn_shows_more(first, second, apart, turned):
    ends = RibEnds(0, first, 0), RibEnds(apart, second, 0)
    assert difference_mm(*ends) == 0
    one = difference_mm(*ends, first_turned_deg=turned)
    assert 0 < one < difference_mm(*ends, first_turned_deg=1.1 * turned)
    assert one == pytest.approx(difference_mm(*ends, first_turned_deg=-turned))


@settings(max_examples=100, deadline=None)
@given(halves, st.floats(300, 3000), st.floats(0.05, 1))
def test_two_ribs_turned_against_each_other_hide_each_other(half, apart, turned):
    """The reason for the square beside the tape."""
    ends = RibEnds(0, half, 0), RibEnds(apart, half, 0)
    hidden = difference_mm(*ends, first_turned_deg=turned, second_turned_deg=-turned)
    assert hidden == pytest.approx(0, abs=1e-9)


def test_the_check_takes_the_pair_that_shows_most():
    check = diagonal_check(RIBS, allowed_deg=0.5)
    for i, first in enumerate(RIBS):
        for second in RIBS[i + 1 :]:
            least = min(
                difference_mm(first, second, first_turned_deg=0.5), difference_mm(first, second, second_turned_deg=0.5)
            )
            assert least <= check.limit_mm + 1e-12
    first, second = RIBS[check.first], RIBS[check.second]
    assert check.limit_mm <= difference_mm(first, second, first_turned_deg=0.5) + 1e-12
    assert check.limit_mm <= difference_mm(first, second, second_turned_deg=0.5) + 1e-12


def test_a_longer_tape_shows_a_turned_rib_twice_over():
    """Far apart the diagonals run along the board, and one end goes forward as the other goes back."""
    check = diagonal_check((RibEnds(0, 200, 0), RibEnds(20_000, 200, 0)), allowed_deg=0.5)
    assert check.per_mm == pytest.approx(2, rel=0.001)
    assert check.limit_mm == pytest.approx(2 * end_off_mm(half_width_mm=200, turned_deg=0.5), rel=0.001)


@pytest.mark.parametrize(("ribs", "allowed"), [(RIBS[:1], 0.5), (RIBS, 0), (RIBS, float("nan"))])
def test_a_check_without_two_ribs_or_an_angle_is_refused(ribs, allowed):
    with pytest.raises(ValueError, match="two ribs"):
        diagonal_check(ribs, allowed_deg=allowed)


@settings(max_examples=100, deadline=None)
@given(st.floats(300, 1500), st.floats(0, 30), st.floats(100, 700))
def test_twice_the_width_stands_twice_as_high(stick, seen, width):
    one = rim_height_mm(seen_mm=seen, stick_mm=stick, width_mm=width)
    assert rim_height_mm(seen_mm=seen, stick_mm=stick, width_mm=2 * width) == pytest.approx(2 * one)


@pytest.mark.parametrize(("seen", "stick"), [(1, 0), (-1, 700), (701, 700)])
def test_a_stick_shows_no_more_than_its_length(seen, stick):
    with pytest.raises(ValueError, match="stick_mm"):
        twist_deg(seen_mm=seen, stick_mm=stick)


def test_a_straight_spine_points_straight_on():
    assert bow_deg(aside_mm=0, length_mm=2300) == 0
    with pytest.raises(ValueError, match="length_mm"):
        bow_deg(aside_mm=2, length_mm=0)


def test_joints_are_counted_by_kind():
    joints = count_joints(10)
    assert (joints.spine, joints.strips, joints.tips, joints.total) == (10, 20, 4, 34)


@pytest.mark.parametrize(("open_min", "wanted"), [(20, 5), (16, 4), (15.9, 3), (5, 1), (1, 1)])
def test_as_many_ribs_go_in_as_the_open_time_lets(open_min, wanted):
    assert ribs_in_one_go(open_min=open_min, a_rib_min=3, setting_min=4) == wanted


def test_goes_hold_all_the_ribs():
    for ribs in range(2, 20):
        for in_one in range(1, 20):
            assert in_one * (goes_for(ribs, in_one) - 1) < ribs <= in_one * goes_for(ribs, in_one)
    with pytest.raises(ValueError, match="a_rib_min"):
        ribs_in_one_go(open_min=20, a_rib_min=0, setting_min=4)
