"""The plans of the demo builders, held against their own files."""

import datetime as dt
from itertools import pairwise

import pytest

from generator.build.works import GOES
from generator.figure_sets import make_figures
from generator.figure_sets.planned import date_span, free_time, listed, long_date, month_starts
from generator.inputs.site import read_builder
from tests.demos import DATA, SLUGS, facts_of, figures_of


@pytest.fixture(scope="module")
def demos():
    return {slug: (facts_of(slug), figures_of(slug)) for slug in SLUGS}


@pytest.mark.parametrize("slug", SLUGS)
def test_a_demo_plan_keeps_to_free_days_and_never_shortens_a_label(slug, demos):
    facts, _ = demos[slug]
    builder = facts.inputs.builder
    label_min = min([builder.glue.full_cure_min, *([builder.glue.also.full_cure_min] if builder.glue.also else [])])
    for before, after in pairwise(facts.evenings):
        assert before.ends <= after.begins
        if before.last and before.work.waits_for == "cure":
            assert after.begins - before.ends >= dt.timedelta(minutes=label_min)
    for sitting in facts.evenings:
        assert sitting.begins.date() not in builder.busy_days
        assert sitting.begins.date() >= builder.start
        assert free_time(builder).on(sitting.begins.date()) is not None


@pytest.mark.parametrize("slug", SLUGS)
def test_every_stage_has_its_time_and_those_ahead_their_dates(slug, demos):
    facts, figures = demos[slug]
    rows = {row["stage"]: row for row in figures.rows["plan"]}
    assert list(rows) == list(GOES)
    at = list(GOES).index(facts.inputs.builder.stage)
    for n, (stage, row) in enumerate(rows.items()):
        goes = [go for go in figures.rows["goes"] if go["stage"] == stage]
        together = sum(figures.values[f"{go['key']}.hands_on"].value for go in goes)
        assert figures.values[f"plan.hands_on.{stage}"].value == pytest.approx(together)
        assert row["done"] == (n < at)
        assert row["dated"] == (n >= at and (stage != "water" or facts.inputs.builder.finish is not None))


def test_a_finish_without_a_label_leaves_the_coats_and_the_water_without_a_date(demos):
    facts, figures = demos["tobin"]
    assert facts.inputs.builder.finish is None
    assert figures.said["plan.finish"] == ""
    assert not [go for go in figures.rows["goes"] if "coat" in go["what"]]
    assert next(row for row in figures.rows["plan"] if row["stage"] == "seal")["open"]


def test_nights_colder_than_the_label_are_said_and_count_with_its_longest_time(demos):
    facts, figures = demos["tobin"]
    assert facts.inputs.builder.shed.night_low_c < facts.inputs.builder.glue.also.at_c
    assert figures.said["plan.beyond"] == "colder"
    assert figures.values["plan.cure"].value == facts.inputs.builder.glue.also.full_cure_min


def test_nobody_is_asked_for_an_unbroken_go_past_the_end_of_the_time(demos):
    for facts, figures in demos.values():
        assert figures.said["evening_too_short"] == []
        assert not [sitting for sitting in facts.evenings if sitting.overruns]


def test_a_short_evening_and_nothing_else_is_said_to_be_too_short():
    one = read_builder(DATA, "tobin")
    evenings = one.builder.evenings.model_copy(update={"length_min": 60.0})
    short = one.__class__(**{
        **{name: getattr(one, name) for name in one.__dataclass_fields__},
        "builder": one.builder.model_copy(update={"evenings": evenings}),
    })  # fmt: skip
    assert {"glue", "top-deck"} <= set(make_figures(short).said["evening_too_short"])


def test_dates_read_as_people_say_them():
    # Read off a calendar: 4 February 2027 is a Thursday, 2 March 2027 a Tuesday.
    thursday, tuesday, march = dt.date(2027, 2, 4), dt.date(2027, 2, 9), dt.date(2027, 3, 2)
    assert long_date(thursday) == "Thursday, 4 February 2027"
    assert date_span(thursday, tuesday) == "Thu 4 to Tue 9 February"
    assert date_span(thursday, march) == "Thu 4 February to Tue 2 March"
    assert date_span(thursday, thursday) == "Thu 4 February"
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert month_starts(thursday, march) == [(0, "Feb"), (25, "Mar")]


@pytest.mark.parametrize("slug", SLUGS)
def test_the_plan_counts_the_slow_rolling_the_foam_and_the_joins_where_the_pages_ask_for_them(slug, demos):
    facts, figures = demos[slug]
    waits = {sitting.work.waits_for for sitting in facts.evenings}
    assert ({"damp", "bent"} <= waits) == (figures.said["crown.verdict"] == "slowly")
    names = [sitting.work.name for sitting in facts.evenings]
    assert ("inside_foam" in names) == (facts.inputs.builder.foam is not None)
    cut = next(sitting for sitting in reversed(facts.evenings) if sitting.work.name == "rails_cut")
    assert (cut.work.waits_for == "cure") == figures.said["rail.joined"]
    assert cut.over <= next(sitting for sitting in facts.evenings if sitting.work.name == "rails.1").begins
