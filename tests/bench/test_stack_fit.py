"""Areas of height and tilt cut by strips, against linear programmes."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from generator.bench.stack_fit import RANGE_MM, TILTS_MM, Room, Strip, cut, least_ratio
from generator.quantities import fixed

TILTS = np.sort(TILTS_MM)
strip = st.builds(Strip.about, st.floats(-0.5, 0.5), st.floats(60, 120), st.floats(0.2, 8))
rooms = st.builds(
    lambda level, slope, bend: Room(fixed(TILTS), fixed(level + slope * TILTS + bend * TILTS**2)),
    st.floats(20, 100),
    st.floats(-1, 0),
    st.floats(0, 0.2),
)


def least_by_programme(room: Room, strips: list[Strip]) -> float:
    """Least factor for all strips by HiGHS (through scipy), a programme for each stretch of tilts; inf if none fits."""
    best = np.inf
    for at in range(TILTS.size - 1):
        slope = (room.base_mm[at + 1] - room.base_mm[at]) / (TILTS[at + 1] - TILTS[at])
        level = room.base_mm[at] - slope * TILTS[at]
        rows, most = [], []
        for one in strips:
            line, half = (one.low_mm + one.high_mm) / 2, (one.high_mm - one.low_mm) / 2
            rows += [[1, one.turn, -half], [-1, -one.turn, -half]]
            most += [line, -line]
        rows += [[-1, 0.5 + slope, 0], [1, -0.5 - slope, 0]]
        most += [-level, level + RANGE_MM]
        found = linprog([0, 0, 1], A_ub=rows, b_ub=most, bounds=[(None, None), (TILTS[at], TILTS[at + 1]), (0, None)])
        if found.success:
            best = min(best, found.fun)
    return best


@settings(max_examples=80, deadline=None)
@given(rooms, st.lists(strip, min_size=1, max_size=6))
def test_the_least_ratio_is_that_of_a_linear_programme(room, strips):
    expected = least_by_programme(room, strips)
    if expected > 1 + 1e-6:
        with pytest.raises(ArithmeticError, match="do not meet"):
            least_ratio(room.stretches(), strips)
    elif expected < 1 - 1e-6:
        ratio, middle, tilt = least_ratio(room.stretches(), strips)
        assert ratio == pytest.approx(expected, abs=1e-6)
        for one in strips:
            line, half = (one.low_mm + one.high_mm) / 2, (one.high_mm - one.low_mm) / 2
            assert abs(middle + one.turn * tilt - line) <= ratio * half + 1e-6
        assert room.lowest(tilt) - 1e-6 <= middle - tilt / 2 <= room.lowest(tilt) + RANGE_MM + 1e-6


def area_of(corners):
    x, y = np.array(corners).T
    return abs(x @ np.roll(y, 1) - y @ np.roll(x, 1)) / 2


@given(strip)
def test_a_strip_and_what_lies_either_side_of_it_make_up_the_whole(one):
    whole = [(60.0, -8.0), (120.0, -8.0), (120.0, 8.0), (60.0, 8.0)]
    parts = [cut(whole, s) for s in (one, Strip(one.turn, -1e3, one.low_mm), Strip(one.turn, one.high_mm, 1e3))]
    assert sum(area_of(part) for part in parts if part) == pytest.approx(area_of(whole), abs=1e-5)


def test_a_cell_is_cut_to_the_room_below_it():
    room = Room(fixed(TILTS), fixed(100 + 0 * TILTS))
    cell = [(99.0, 0.0), (101.0, 0.0), (101.0, 2.0), (99.0, 2.0)]  # base = middle - tilt/2 is at least 100
    assert {(round(m, 6), round(t, 6)) for m, t in room.within(cell)} == {(100, 0), (101, 0), (101, 2)}


def test_without_strips_the_bench_is_as_low_as_it_may_be():
    room = Room(fixed(TILTS), fixed(100 - TILTS))
    ratio, middle, tilt = least_ratio(room.stretches(), [])
    assert ratio == 0
    assert middle - tilt / 2 == pytest.approx(room.lowest(tilt))
