import datetime as dt
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.free_time import FreeTime

SUNDAY = dt.date(2027, 2, 7)


def test_evenings_days_extra_days_and_busy_days():
    free = FreeTime(
        evenings=frozenset({1, 3}),
        evening_min=150,
        days=frozenset({6}),
        day_min=300,
        extra={dt.date(2027, 2, 10): 240, dt.date(2027, 2, 11): 60},
        busy=frozenset({dt.date(2027, 2, 14), dt.date(2027, 2, 16)}),
    )
    slots = list(islice(free.slots(SUNDAY), 6))
    # February 2027 begins on a Monday. The hour on the 11th is shorter than that day's evening.
    assert [(s.opens.day, s.opens.hour, s.minutes, s.whole_day) for s in slots] == [
        (7, 10, 300, True),
        (9, 19, 150, False),
        (10, 10, 240, True),
        (11, 19, 150, False),
        (18, 19, 150, False),
        (21, 10, 300, True),
    ]


def test_a_long_evening_begins_earlier_and_ends_at_the_same_hour():
    slot = FreeTime(frozenset({6}), 360).on(SUNDAY)
    assert (slot.opens.hour, slot.ends.hour) == (17, 23)


@pytest.mark.parametrize("wrong", [{"evenings": frozenset()}, {"evening_min": 0}, {"evening_min": float("nan")},
                                   {"days": frozenset({1})}, {"extra": {SUNDAY: 721}}])  # fmt: skip
def test_free_time_without_length_or_longer_than_half_a_day_is_a_wrong_call(wrong):
    with pytest.raises(ValueError, match="evenings must hold"):
        FreeTime(**({"evenings": frozenset({1}), "evening_min": 60} | wrong))


@given(st.floats(0.5, 720), st.floats(0.5, 720), st.dates(SUNDAY, SUNDAY + dt.timedelta(days=400)))
def test_free_time_lies_within_its_own_date(evening, day, date):
    slot = FreeTime(frozenset(range(7)), evening, days=frozenset({5, 6}), day_min=day).on(date)
    assert slot.opens.date() == slot.ends.date() == date
