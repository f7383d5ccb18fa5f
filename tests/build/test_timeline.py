import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.timeline import Work, lay_out

TUESDAY = dt.date(2027, 3, 2)


def test_work_fills_evenings_in_order():
    laid = lay_out([Work("panels", 150, 0), Work("frame", 60, 0)], start=TUESDAY, weekdays=(1, 3), evening_min=120)
    assert [(e.date.day, e.slug, e.minutes) for e in laid] == [(2, "panels", 120), (4, "panels", 30), (4, "frame", 60)]


def test_a_cure_of_a_day_moves_the_next_stage_past_the_following_evening():
    laid = lay_out([Work("glue", 60, 24 * 60), Work("inside", 30, 0)], start=TUESDAY, weekdays=range(7), evening_min=90)
    # The glue is shut at 20:00 on the 2nd, so 19:00 on the 3rd is still too early.
    assert [e.date.day for e in laid] == [2, 4]


def test_unbroken_work_waits_for_a_fresh_evening_and_says_when_even_that_is_short():
    laid = lay_out(
        [Work("clamp", 60, 0), Work("glue", 100, 0, unbroken=True)], start=TUESDAY, weekdays=(1,), evening_min=90
    )
    assert [(e.date.day, e.minutes, e.overruns) for e in laid] == [(2, 60, False), (9, 100, True)]


def test_a_builder_without_evenings_is_a_wrong_call():
    with pytest.raises(ValueError, match="weekdays"):
        lay_out([], start=TUESDAY, weekdays=(), evening_min=60)


@given(
    st.lists(st.tuples(st.floats(1, 300), st.floats(0, 5000), st.booleans()), max_size=6),
    st.sets(st.integers(0, 6), min_size=1),
    st.floats(20, 300),
)
def test_all_work_is_laid_on_free_days_in_order(parts, weekdays, evening_min):
    works = [Work(str(n), *part) for n, part in enumerate(parts)]
    laid = lay_out(works, start=TUESDAY, weekdays=sorted(weekdays), evening_min=evening_min)
    assert [e.date for e in laid] == sorted(e.date for e in laid)
    assert all(e.date.weekday() in weekdays for e in laid)
    for work in works:
        assert sum(e.minutes for e in laid if e.slug == work.slug) == pytest.approx(work.hands_on_min)
        assert not work.unbroken or sum(e.slug == work.slug for e in laid) == 1
