"""Whether a glue-up fits its open time: more hands and less joint never take longer, and the way out really is one."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.amount import Amount
from generator.build.glue_time import (
    BEAD_MIN_PER_M,
    MOST_PEOPLE,
    GlueUp,
    bead_minutes,
    bead_reach_mm,
    goes_needed,
    people_needed,
    verdict,
)

JOBS = st.builds(GlueUp, joint_mm=st.floats(500, 40_000), pairs=st.integers(0, 20))


@settings(max_examples=150, deadline=None)
@given(job=JOBS, people=st.integers(1, 8))
def test_one_more_person_never_makes_it_longer(job, people):
    assert job.minutes(people=people + 1).high <= job.minutes(people=people).high


@settings(max_examples=150, deadline=None)
@given(job=JOBS, more_mm=st.floats(0, 9000), more_pairs=st.integers(0, 5), people=st.integers(1, 4))
def test_more_joint_and_more_clamps_never_take_less(job, more_mm, more_pairs, people):
    larger = GlueUp(job.joint_mm + more_mm, job.pairs + more_pairs)
    assert larger.minutes(people=people).value >= job.minutes(people=people).value


@settings(max_examples=150, deadline=None)
@given(job=JOBS, open_min=st.floats(1, 120))
def test_with_the_people_that_are_called_for_even_a_slow_job_fits_and_with_one_fewer_it_does_not(job, open_min):
    people = people_needed(job, open_min=open_min)
    if people is None:
        assert verdict(job.minutes(people=MOST_PEOPLE), open_min=open_min) != "fits"
        return
    assert verdict(job.minutes(people=people), open_min=open_min) == "fits"
    if people > 1:
        assert verdict(job.minutes(people=people - 1), open_min=open_min) != "fits"


@settings(max_examples=150, deadline=None)
@given(job=JOBS, open_min=st.floats(1, 120), people=st.integers(1, 4))
def test_every_go_fits_and_all_goes_together_hold_the_whole_job(job, open_min, people):
    goes = goes_needed(job, people=people, open_min=open_min)
    if goes is None:
        return
    part = job.part(goes)
    assert part.minutes(people=people).high <= open_min
    assert part.pairs * goes >= job.pairs
    assert part.joint_mm * goes == pytest.approx(job.joint_mm)


def test_a_job_by_hand():
    # 10 m of joint, 10 pairs, two people: 10 · 0.6 / 2 + 1.5 + 10 · 0.6 = 10.5 min; slowly 5 + 3 + 10 = 18 min
    taken = GlueUp(10_000, 10).minutes(people=2)
    assert taken.value == pytest.approx(10.5)
    assert taken.high == pytest.approx(18)
    assert [verdict(taken, open_min=minutes) for minutes in (18, 17.9, 10.5, 10.4)] == ["fits", "tight", "tight", "no"]


def test_beads_take_as_long_as_they_are_and_a_stretch_leaves_time_to_press_it():
    assert bead_minutes(bead_mm=20_000, people=2) == Amount(15, 10, 25)
    assert bead_reach_mm(open_min=20) / 1000 * BEAD_MIN_PER_M.high == pytest.approx(10)


def test_nobody_takes_for_ever():
    with pytest.raises(ValueError, match="somebody"):
        GlueUp(1000, 1).minutes(people=0)
