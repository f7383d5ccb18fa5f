"""Laws of noise doses, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.safety.noise import (
    NIOSH,
    Criterion,
    Exposure,
    allowed_min,
    american_rating_needed_db,
    average_dba,
    dose_pct,
    rating_needed_db,
)

LEVELS = st.floats(40, 140)
MINUTES = st.floats(0.1, 1440)
CRITERIA = st.builds(Criterion, st.floats(80, 90), st.floats(3, 6))


@given(level=LEVELS, criterion=CRITERIA)
def test_one_exchange_more_halves_the_time(level, criterion):
    louder = allowed_min(level_dba=level + criterion.exchange_db, criterion=criterion)
    assert 2 * louder == pytest.approx(allowed_min(level_dba=level, criterion=criterion))


@given(level=LEVELS, minutes=MINUTES, criterion=CRITERIA)
def test_the_allowed_time_is_the_whole_dose_and_an_eight_hour_noise_its_own_average(level, minutes, criterion):
    allowed = allowed_min(level_dba=level, criterion=criterion)
    assert dose_pct([Exposure(level, allowed)], criterion=criterion) == pytest.approx(100)
    assert average_dba(dose_pct([Exposure(level, 480)], criterion=criterion), criterion=criterion) == pytest.approx(
        level
    )
    shorter = dose_pct([Exposure(level, minutes)], criterion=criterion)
    assert dose_pct([Exposure(level, 2 * minutes)], criterion=criterion) == pytest.approx(2 * shorter)


@given(day=st.lists(st.builds(Exposure, LEVELS, MINUTES), max_size=5))
def test_a_day_in_parts_is_the_same_day(day):
    halves = [Exposure(one.level_dba, one.minutes / 2) for one in day for _ in range(2)]
    assert dose_pct(halves, criterion=NIOSH) == pytest.approx(dose_pct(day, criterion=NIOSH))


@given(level=st.floats(81, 120), wanted=st.floats(70, 80))
def test_a_louder_tool_needs_no_weaker_protection(level, wanted):
    for rating in (rating_needed_db, american_rating_needed_db):
        here = rating(level_dba=level, wanted_dba=wanted)
        assert here > 0
        assert rating(level_dba=level + 1, wanted_dba=wanted) > here
        assert rating(level_dba=wanted, wanted_dba=wanted) == 0


@pytest.mark.parametrize("level", [math.nan, math.inf, -math.inf])
def test_what_is_no_level_is_refused(level):
    with pytest.raises(ValueError, match="finite"):
        allowed_min(level_dba=level, criterion=NIOSH)


@pytest.mark.parametrize("dose", [0, -1, math.nan, math.inf])
def test_no_dose_has_no_average(dose):
    with pytest.raises(ValueError, match="dose"):
        average_dba(dose, criterion=NIOSH)


@pytest.mark.parametrize("minutes", [-1, math.nan])
def test_time_does_not_run_backwards(minutes):
    with pytest.raises(ValueError, match="minutes"):
        dose_pct([Exposure(90, minutes)], criterion=NIOSH)
