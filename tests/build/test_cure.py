"""A glue's times between the temperatures of its label."""

import pytest
from glue_kit import glue_with, two_column_glues
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.cure import label_times, time_between

ALSO = {"at_c": 10.0, "open_min": 35.0, "clamp_min": 480.0, "full_cure_min": 2880.0}


@settings(max_examples=150, deadline=None)
@given(glue=two_column_glues(), temperature_c=st.floats(-20, 50))
def test_times_lie_between_the_label_s_two(glue, temperature_c):
    times = label_times(glue, temperature_c=temperature_c)
    assert glue.open_min <= times.open_min <= glue.also.open_min
    assert glue.clamp_min <= times.clamp_min <= glue.also.clamp_min
    assert glue.full_cure_min <= times.full_cure_min <= glue.also.full_cure_min


@settings(max_examples=150, deadline=None)
@given(glue=two_column_glues(), one=st.floats(-20, 50), other=st.floats(-20, 50))
def test_warmth_never_makes_a_time_longer(glue, one, other):
    cold, warm = (label_times(glue, temperature_c=at) for at in sorted((one, other)))
    assert warm.open_min <= cold.open_min
    assert warm.clamp_min <= cold.clamp_min
    assert warm.full_cure_min <= cold.full_cure_min


@settings(max_examples=100, deadline=None)
@given(glue=two_column_glues())
def test_at_the_label_s_own_temperatures_its_own_times_come_out_and_beyond_them_it_is_said(glue):
    at_warm = label_times(glue, temperature_c=glue.times_at_c)
    at_cold = label_times(glue, temperature_c=glue.also.at_c)
    assert at_warm.full_cure_min == pytest.approx(glue.full_cure_min)
    assert at_cold.full_cure_min == pytest.approx(glue.also.full_cure_min)
    assert (at_warm.beyond, at_cold.beyond) == ("", "")
    assert label_times(glue, temperature_c=glue.times_at_c + 1).beyond == "warmer"
    assert label_times(glue, temperature_c=glue.also.at_c - 1).beyond == "colder"


def test_it_does_not_matter_which_column_is_named_first():
    warm_first = glue_with(also=ALSO)
    names = ("open_min", "clamp_min", "full_cure_min")
    cold_first = glue_with(
        times_at_c=10.0, **{name: ALSO[name] for name in names},
        also={"at_c": 20.0} | {name: getattr(warm_first, name) for name in names},
    )  # fmt: skip
    for at in (8, 10, 14, 20, 23):
        assert label_times(warm_first, temperature_c=at) == label_times(cold_first, temperature_c=at)


def test_between_the_columns_times_are_rounded_to_the_safe_side():
    times = label_times(glue_with(also=ALSO), temperature_c=14)
    # by hand: 20 · 1.75^0.6 = 27.98, 240 · 2^0.6 = 363.8, 1440 · 2^0.6 = 2182.6 (36 h 23 min)
    assert times.open_min == 27
    assert times.clamp_min == 365
    assert times.full_cure_min == 37 * 60


def test_one_column_gives_its_times_everywhere_and_says_where_it_does_not_hold():
    glue = glue_with()
    for at, beyond in ((12, "colder"), (20, ""), (28, "warmer")):
        times = label_times(glue, temperature_c=at)
        assert (times.open_min, times.clamp_min, times.full_cure_min) == (20, 240, 1440)
        assert times.beyond == beyond


@pytest.mark.parametrize(
    "wrong",
    [{"cold_c": 25.0}, {"warm_min": 3000.0}, {"warm_min": 0.0}, {"cold_min": float("nan")}, {"warm_c": float("nan")}],
)
def test_columns_the_wrong_way_round_are_refused(wrong):
    with pytest.raises(ValueError, match="above"):
        time_between(**{"temperature_c": 15, "cold_c": 10, "cold_min": 2880, "warm_c": 20, "warm_min": 1440} | wrong)
