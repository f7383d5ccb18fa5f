"""Air shut in: laws, edges, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.air import (
    ATMOSPHERE_KPA,
    HIGHEST_M,
    air_pressure_kpa,
    bulge,
    closed_air_kpa,
    drawn_in_l,
    flown_kpa,
    push_n,
)
from generator.build.bays import Area
from generator.build.plate import Wood

degrees = st.floats(-40, 120)


@given(a=degrees, b=degrees, c=degrees)
def test_pressures_one_after_the_other_come_to_the_same(a, b, c):
    """Closed at a, warmed to b and then to c: the same as straight from a to c."""
    at_b = ATMOSPHERE_KPA + closed_air_kpa(from_c=a, to_c=b)
    at_c = at_b + closed_air_kpa(from_c=b, to_c=c, at_kpa=at_b)
    assert at_c == pytest.approx(ATMOSPHERE_KPA + closed_air_kpa(from_c=a, to_c=c), rel=1e-9)


@given(a=degrees, b=degrees)
def test_warmer_pushes_out_and_colder_draws_in(a, b):
    got = closed_air_kpa(from_c=a, to_c=b)
    assert math.isclose(got, 0, abs_tol=1e-9) or (got > 0) == (b > a)


@given(low=st.floats(0, HIGHEST_M), up=st.floats(0, 1000))
def test_the_air_grows_thinner_upwards(low, up):
    high = min(low + up, HIGHEST_M)
    assert air_pressure_kpa(high) <= air_pressure_kpa(low)
    assert flown_kpa(high) == pytest.approx(ATMOSPHERE_KPA - air_pressure_kpa(high))


@given(inside=st.floats(0, 200), hot=degrees, cold=degrees)
def test_water_fills_what_the_air_leaves(inside, hot, cold):
    cold, hot = sorted((cold, hot))
    water = drawn_in_l(inside_l=inside, hot_c=hot, cold_c=cold)
    assert 0 <= water < inside or inside == water == 0 or hot == cold
    kept = (inside - water) * (hot + 273.15) / (cold + 273.15)
    assert kept == pytest.approx(inside)


def test_a_pressure_bulges_a_bay_in_proportion_and_pushes_on_all_of_it():
    wood, free = Wood(7700, 540, 655, 0.4), Area(0, 205, 3, 233)
    one, two = (bulge(free, kpa=kpa, thickness_mm=6, wood=wood) for kpa in (7, 14))
    assert two.deflection_mm == pytest.approx(2 * one.deflection_mm)
    assert push_n(kpa=14, area_mm2=free.area_mm2) == pytest.approx(14e-3 * 205 * 230)


@pytest.mark.parametrize("bad", [-41.0, 121.0, math.nan, math.inf])
def test_temperatures_outside_are_refused(bad):
    with pytest.raises(ValueError, match="120"):
        closed_air_kpa(from_c=bad, to_c=20)
    with pytest.raises(ValueError, match="120"):
        closed_air_kpa(from_c=20, to_c=bad)


@pytest.mark.parametrize("bad", [-1.0, 11001.0, math.nan])
def test_heights_outside_are_refused(bad):
    with pytest.raises(ValueError, match="11000"):
        air_pressure_kpa(bad)


@pytest.mark.parametrize(
    ("inside", "hot", "cold"), [(-1, 50, 15), (30, 15, 50), (30, math.nan, 15), (math.nan, 50, 15)]
)
def test_no_water_is_drawn_in_where_that_makes_no_sense(inside, hot, cold):
    with pytest.raises(ValueError, match="inside_l"):
        drawn_in_l(inside_l=inside, hot_c=hot, cold_c=cold)
