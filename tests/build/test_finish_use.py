"""The finish: volumes, cans, and the coats as they stand in the plan."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.finish_use import cans, coat_volume_ml, finish_part, finish_volume_ml, planned_coats
from generator.build.timeline import Sitting, Work
from generator.inputs.builder import Finish

LABEL = {
    "name": "invented", "type": "oil", "coats": 3, "coverage_m2_l": 14.0, "can_l": 0.5, "recoat_after_min": 960.0,
    "recoat_before_min": 4320.0, "full_cure_min": 14400.0, "lowest_c": 10.0,
}  # fmt: skip
START = dt.datetime(2027, 4, 5, 19, 0)


def sitting(name, hours, *, last=True):
    begins = START + dt.timedelta(hours=hours)
    ends = begins + dt.timedelta(minutes=60)
    return Sitting(
        Work("seal", name, 60.0, 960.0), begins, ends, late_start=False, whole_day=False, overruns=False, stale=False,
        last=last,
    )  # fmt: skip


def test_gaps_run_from_the_end_of_one_coat_to_the_start_of_the_next_and_late_ones_are_told():
    plan = [
        sitting("seal_prepare", -2), sitting("seal_coat.1", 0), sitting("seal_coat.2", 47), sitting("seal_coat.3", 121),
        sitting("water", 400),
    ]  # fmt: skip
    coats = planned_coats(plan, before_min=4320)
    assert [(coat.number, coat.gap_min, coat.too_late) for coat in coats] == [
        (1, 0.0, False), (2, 46 * 60.0, False), (3, 73 * 60.0, True),
    ]  # fmt: skip
    assert not any(coat.too_late for coat in planned_coats(plan, before_min=None))
    assert planned_coats(plan[:1], before_min=60) == ()


@given(
    area=st.floats(0, 1e7), more=st.floats(0, 1e6), coverage=st.floats(1, 40), coats=st.integers(1, 11)
)  # fmt: skip
def test_more_area_or_another_coat_never_takes_less(area, more, coverage, coats):
    one = finish_volume_ml(area_mm2=area, coverage_m2_l=coverage, coats=coats)
    assert finish_volume_ml(area_mm2=area + more, coverage_m2_l=coverage, coats=coats).high >= one.high
    assert finish_volume_ml(area_mm2=area, coverage_m2_l=coverage, coats=coats + 1).low >= one.low
    assert one.low == pytest.approx(coats * coat_volume_ml(area_mm2=area, coverage_m2_l=coverage))


@pytest.mark.parametrize(("volume", "count"), [(1, 1), (500, 1), (501, 2)])
def test_cans_are_whole(volume, count):
    assert cans(volume_ml=volume, can_l=0.5) == count


def test_what_stays_weighs_less_than_what_went_on_unless_it_is_resin():
    for kind, heaviest in (("oil", 0.9), ("varnish", 0.9), ("resin", 1.2)):
        finish = Finish.model_validate(LABEL | {"type": kind})
        part = finish_part(area_mm2=2e6, finish=finish, from_tail_mm=1100.0)
        litres = 3 * 2.0 / 14
        assert 0 < part.low_kg < part.kg < heaviest * litres
        assert part.from_tail_mm == 1100.0
    assert finish_part(area_mm2=2e6, finish=None, from_tail_mm=0.0) is None


@pytest.mark.parametrize(
    "wrong", [{"coverage_m2_l": 0.0}, {"coverage_m2_l": float("nan")}, {"area_mm2": -1.0}, {"coats": 0}]
)
def test_nothing_is_made_of_nonsense(wrong):
    with pytest.raises(ValueError, match="must be"):
        finish_volume_ml(**{"area_mm2": 1e6, "coverage_m2_l": 10.0, "coats": 2} | wrong)
