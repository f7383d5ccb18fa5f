"""Laws of hand-arm vibration points, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.safety.vibration import Hold, day_average_m_s2, minutes_to, points, points_of

ACCELERATION = st.floats(0.1, 40)
HOLDS = st.builds(Hold, ACCELERATION, st.floats(0, 600))


@given(acceleration=ACCELERATION, wanted=st.floats(1, 400))
def test_the_time_to_some_points_gives_those_points(acceleration, wanted):
    assert points(Hold(acceleration, minutes_to(wanted, acceleration_m_s2=acceleration))) == pytest.approx(wanted)


@given(day=st.lists(HOLDS, max_size=5))
def test_points_add_and_follow_the_square_of_the_average(day):
    assert points_of(day) == pytest.approx(sum(map(points, day)))
    assert points_of(day) == pytest.approx(16 * day_average_m_s2(day) ** 2)


@given(hold=HOLDS)
def test_twice_the_vibration_is_four_times_the_points(hold):
    assert points(Hold(2 * hold.acceleration_m_s2, hold.minutes)) == pytest.approx(4 * points(hold))


@pytest.mark.parametrize("hold", [Hold(-1, 10), Hold(1, -10), Hold(math.nan, 10), Hold(1, math.inf)])
def test_what_is_no_hold_is_refused(hold):
    with pytest.raises(ValueError, match="finite"):
        points(hold)


@pytest.mark.parametrize(("wanted", "acceleration"), [(0, 3), (100, 0), (math.nan, 3), (100, math.inf)])
def test_a_time_to_nothing_is_refused(wanted, acceleration):
    with pytest.raises(ValueError, match="above 0"):
        minutes_to(wanted, acceleration_m_s2=acceleration)
