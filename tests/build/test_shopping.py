"""What a build uses up, counted on works that are small enough to count by hand."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.free_time import FreeTime
from generator.build.shopping import DUSTY, Need, dusty_sittings, glove_pairs, parting_sheet_mm2, still_ahead
from generator.build.timeline import Work, lay_out
from generator.build.works import GOES

WORKS = (
    Work("panels", "panels.1", 60, 1440, "cure"),
    Work("panels", "panels_scrape", 60),
    Work("glue", "glue", 60, 1440, "cure", people=2),
    Work("clamp", "clamp", 60, 4320, "answer", people=2),
    Work("seal", "seal_coat.1", 60, 960, "coat"),
    Work("seal", "seal_coat.2", 60, 960, "hard"),
    Work("shaping", "shaping", 200),
)
STAGES = ("ready", "panels", "water")


def test_gloves_are_counted_for_every_hand_that_touches_glue_or_finish():
    # One for the panel, two for the glue-up, one a coat; none for the dry clamp, though it needs two people.
    assert glove_pairs(WORKS) == 5


def test_a_mask_is_counted_for_every_stretch_of_dusty_work():
    named = {work.name: work for work in WORKS}
    some = [named["shaping"], named["panels_scrape"], named["clamp"]]
    laid = lay_out(some, free=FreeTime(frozenset(range(7)), 100), start=dt.date(2027, 3, 1))
    # Shaping takes two evenings of 100 minutes, scraping one more; the dry clamp raises no dust.
    assert dusty_sittings(laid) == 3


def test_every_dusty_work_is_a_work_of_the_build():
    assert {go for goes in GOES.values() for go in goes} >= DUSTY


def test_parting_sheet_lies_below_and_above_one_panel():
    assert parting_sheet_mm2(blank_length_mm=2400, blank_width_mm=500) == pytest.approx(2.4e6)
    with pytest.raises(ValueError, match="above 0"):
        parting_sheet_mm2(blank_length_mm=2400, blank_width_mm=float("nan"))


def test_needs_come_in_the_order_of_the_stages_and_none_of_a_stage_that_is_done():
    needs = [Need("water", "wax"), Need("panels", "planks"), Need("ready", "glue"), Need("water", "a leash")]
    groups = still_ahead(needs, stages=STAGES, at="panels")
    assert [(slug, [need.name for need in members]) for slug, members in groups] == [
        ("panels", ["planks"]),
        ("water", ["wax", "a leash"]),
    ]


def test_what_is_in_use_since_an_earlier_stage_is_told_now():
    needs = [Need("ready", "tape", until="water"), Need("ready", "thermometer"), Need("panels", "planks")]
    groups = still_ahead(needs, stages=STAGES, at="panels")
    assert [(slug, [need.name for need in members]) for slug, members in groups] == [("panels", ["tape", "planks"])]


@pytest.mark.parametrize(("needs", "at"), [([Need("sail", "wind")], "ready"), ([], "sail")])
def test_a_stage_that_nobody_knows_is_a_wrong_call(needs, at):
    with pytest.raises(ValueError, match="sail"):
        still_ahead(needs, stages=STAGES, at=at)


@given(st.lists(st.sampled_from(STAGES)), st.sampled_from(STAGES))
def test_nothing_is_lost_or_told_twice(slugs, at):
    needs = [Need(slug, str(n)) for n, slug in enumerate(slugs)]
    told = [need for _, members in still_ahead(needs, stages=STAGES, at=at) for need in members]
    ahead = STAGES[STAGES.index(at) :]
    assert sorted(need.name for need in told) == sorted(need.name for need in needs if need.stage in ahead)
