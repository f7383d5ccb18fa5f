"""Works laid into free time. The laws are those that any plan of works must keep; the dates are read off a calendar."""

import datetime as dt
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.free_time import FreeTime
from generator.build.timeline import HORIZON, Work, lay_out, table_days

TUESDAY = dt.date(2027, 3, 2)
DAILY = range(7)


def free(evenings, minutes, **more):
    return FreeTime(frozenset(evenings), minutes, **more)


def work(name, minutes, wait=0.0, **more):
    return Work(name, name, minutes, wait, **more)


def test_work_fills_evenings_in_order():
    laid = lay_out([work("panels", 150), work("frame", 60)], free=free((1, 3), 120), start=TUESDAY)
    assert [(s.begins.day, s.work.name, s.minutes) for s in laid] == [
        (2, "panels", 120),
        (4, "panels", 30),
        (4, "frame", 60),
    ]
    assert [s.last for s in laid] == [False, True, True]


def test_a_cure_that_ends_within_an_evening_leaves_the_rest_of_it():
    laid = lay_out([work("glue", 60, 24 * 60), work("inside", 30)], free=free(DAILY, 90), start=TUESDAY)
    # The glue is on at 20:00 on the 2nd, and full cure is a day later at 20:00, half an hour before the evening's end.
    assert [(s.begins.day, s.begins.hour, s.late_start) for s in laid] == [(2, 19, False), (3, 20, True)]


def test_what_can_be_broken_off_is_not_begun_for_a_few_minutes():
    laid = lay_out([work("key", 70), work("trace", 60)], free=free(DAILY, 90), start=TUESDAY)
    assert [(s.begins.day, s.work.name) for s in laid] == [(2, "key"), (3, "trace")]


def test_unbroken_work_waits_for_a_whole_day_and_not_for_an_evening_that_is_too_short():
    # 7 March 2027 is the first Sunday after 2 March 2027, a Tuesday.
    laid = lay_out(
        [work("glue", 200, unbroken=True)],
        free=free((1, 3), 120, days=frozenset({6}), day_min=300),
        start=TUESDAY,
    )
    assert [(s.begins.day, s.begins.hour, s.overruns) for s in laid] == [(7, 10, False)]


def test_unbroken_work_that_fits_nowhere_takes_the_longest_time_and_says_so():
    laid = lay_out(
        [work("glue", 200, unbroken=True)], free=free((1,), 90, extra={dt.date(2027, 3, 20): 180}), start=TUESDAY
    )
    assert [(s.begins.date(), s.minutes, s.overruns) for s in laid] == [(dt.date(2027, 3, 20), 200, True)]


def test_a_day_past_the_horizon_is_not_waited_for():
    late = TUESDAY + HORIZON + dt.timedelta(days=7)
    laid = lay_out([work("glue", 200, unbroken=True)], free=free((1,), 90, extra={late: 300}), start=TUESDAY)
    assert laid[0].begins.date() == TUESDAY
    assert laid[0].overruns


def test_keying_is_put_off_so_that_the_glue_finds_it_fresh():
    key, glue = work("key", 45, unbroken=True), work("glue", 180, unbroken=True, fresh_since="key", fresh_min=1440)
    laid = lay_out([key, glue], free=free((1, 4), 120, days=frozenset({5}), day_min=300), start=TUESDAY)
    # Tuesday's face would be four days old on Saturday; Friday's, keyed at 19:00, is fresh at 10:00 next morning.
    assert [(s.begins.day, s.stale) for s in laid] == [(5, False), (6, False)]


def test_a_face_that_can_not_stay_fresh_is_told_and_nothing_is_put_off_for_it():
    key, glue = work("key", 45), work("glue", 100, unbroken=True, fresh_since="key", fresh_min=1440)
    laid = lay_out([key, glue], free=free((1,), 120), start=TUESDAY)
    assert [(s.begins.day, s.stale) for s in laid] == [(2, False), (9, True)]


def test_a_face_that_was_keyed_before_the_plan_begins_counts_as_too_old():
    glue = work("glue", 100, fresh_since="key", fresh_min=1440)
    assert [s.stale for s in lay_out([glue], free=free((1,), 120), start=TUESDAY)] == [True]


def test_the_first_swim_goes_to_a_whole_day_if_there_is_one():
    swim = work("swim", 60, unbroken=True, daylight=True)
    with_days = lay_out([swim], free=free((1,), 120, days=frozenset({6}), day_min=300), start=TUESDAY)
    without = lay_out([swim], free=free((1,), 120), start=TUESDAY)
    assert (with_days[0].begins.day, with_days[0].whole_day) == (7, True)
    assert (without[0].begins.day, without[0].whole_day) == (2, False)


def test_the_table_is_taken_while_glue_dries_on_it_and_while_the_bench_stands():
    works = [
        work("panels", 60, 24 * 60, table=True),
        work("trace", 60),
        work("bench", 60, table=True, stays=True),
        work("glue", 60, 48 * 60, unbroken=True, table=True),
    ]
    laid = lay_out(works, free=free((1, 3), 60), start=TUESDAY)
    assert [s.begins.day for s in laid] == [2, 4, 9, 11]
    # Panels on the 2nd until the 3rd; the bench from the 9th, the glue from the 11th until the 13th.
    assert sorted(day.day for day in table_days(laid)) == [2, 3, 9, 10, 11, 12, 13]


@pytest.mark.parametrize(
    "works",
    [[work("a", 0.0)], [work("a", float("nan"))], [work("a", 60, -1)], [work("a", 60), work("a", 30)]],
)
def test_works_that_make_no_sense_are_a_wrong_call(works):
    with pytest.raises(ValueError, match=r"above 0|of its own"):
        lay_out(works, free=free((1,), 60), start=TUESDAY)


DATES = st.dates(TUESDAY, TUESDAY + dt.timedelta(days=60))


@st.composite
def free_times(draw):
    return FreeTime(
        evenings=frozenset(draw(st.sets(st.integers(0, 6), min_size=1))),
        evening_min=draw(st.floats(15, 720)),
        days=frozenset(draw(st.sets(st.integers(0, 6), max_size=2))),
        day_min=draw(st.floats(60, 720)),
        extra=draw(st.dictionaries(DATES, st.floats(30, 720), max_size=4)),
        busy=frozenset(draw(st.sets(DATES, max_size=20))),
    )


@st.composite
def plans(draw):
    made = []
    for n in range(draw(st.integers(1, 7))):
        fresh = draw(st.sampled_from(["", *(w.name for w in made)]))
        made.append(
            Work(
                "stage",
                str(n),
                draw(st.floats(5, 400)),
                draw(st.floats(0, 6000)),
                unbroken=draw(st.booleans()),
                fresh_since=fresh,
                fresh_min=draw(st.floats(60, 3000)),
                daylight=draw(st.booleans()),
            )
        )
    return made


@settings(max_examples=200, deadline=None)
@given(plans(), free_times())
def test_no_plan_overlaps_breaks_a_wait_or_cuts_what_must_not_be_cut(works, times):
    laid = lay_out(works, free=times, start=TUESDAY)
    order = {one.name: n for n, one in enumerate(works)}
    assert [order[s.work.name] for s in laid] == sorted(order[s.work.name] for s in laid)
    for before, after in pairwise(laid):
        assert before.ends <= after.begins
        if before.work is not after.work:
            assert after.begins - before.ends >= dt.timedelta(minutes=before.work.wait_min)
    ended = {}
    for one in works:
        own = [s for s in laid if s.work is one]
        assert sum(s.minutes for s in own) == pytest.approx(one.hands_on_min, abs=0.05)
        assert not one.unbroken or len(own) == 1
        assert [s.last for s in own] == [False] * (len(own) - 1) + [True]
        since = ended.get(one.fresh_since)
        if one.fresh_since:
            assert own[0].stale == (own[0].begins - since > dt.timedelta(minutes=one.fresh_min))
        ended[one.name] = own[-1].ends


@settings(max_examples=200, deadline=None)
@given(plans(), free_times())
def test_no_plan_uses_time_that_is_not_free(works, times):
    for sitting in lay_out(works, free=times, start=TUESDAY):
        slot = times.on(sitting.begins.date())
        assert sitting.begins.date() not in times.busy
        assert slot is not None
        assert slot.opens <= sitting.begins
        if not sitting.overruns:
            assert sitting.ends <= slot.ends + dt.timedelta(seconds=1)


@settings(max_examples=100, deadline=None)
@given(plans(), free_times())
def test_what_overruns_found_no_time_that_is_long_enough(works, times):
    laid = lay_out(works, free=times, start=TUESDAY)
    for n, sitting in enumerate(laid):
        if sitting.overruns:
            assert sitting.work.unbroken
            ready = laid[n - 1].over if n else dt.datetime.combine(TUESDAY, dt.time())
            days = [ready.date() + dt.timedelta(days=more) for more in range(HORIZON.days)]
            slots = [slot for slot in map(times.on, days) if slot]
            assert all((s.ends - max(s.opens, ready)).total_seconds() / 60 < sitting.minutes for s in slots)


@settings(max_examples=50, deadline=None)
@given(plans(), free_times())
def test_the_same_works_give_the_same_plan(works, times):
    assert lay_out(works, free=times, start=TUESDAY) == lay_out(works, free=times, start=TUESDAY)
