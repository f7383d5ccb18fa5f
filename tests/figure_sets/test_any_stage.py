"""A plan from every stage, for every demo builder, with much or little time: told whole, and never a number missing."""

import datetime as dt
from pathlib import Path
from types import SimpleNamespace

import pytest

from generator.build.works import GOES
from generator.drawings.plan_strip import plan_strip
from generator.figure_sets.evenings import add_evenings
from generator.figure_sets.planned import build_of, laid_out
from generator.figures import FigureBook
from generator.inputs.site import builder_slugs, read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
INPUTS = {slug: read_builder(DATA, slug) for slug in builder_slugs(DATA)}


def told(inputs, route, **changes):
    builder = inputs.builder.model_copy(update=changes)
    made = SimpleNamespace(
        builder=builder, board=inputs.board, maker=inputs.maker, practice=inputs.practice, tools=inputs.tools
    )
    build = build_of(made, route, slowly=True, rails_joined=True, planks_joined=True)
    sittings = laid_out(made, build)
    book = FigureBook()
    add_evenings(book, SimpleNamespace(inputs=made, build=build, evenings=sittings))
    return book.close(), sittings


@pytest.mark.parametrize("route", ["bottom panel", "top panel"])
@pytest.mark.parametrize("stage", GOES)
@pytest.mark.parametrize("slug", INPUTS)
def test_a_plan_can_be_told_from_every_stage(slug, stage, route):
    figures, sittings = told(INPUTS[slug], route, stage=stage)
    assert sittings[0].work.slug == stage
    assert [row["stage"] for row in figures.rows["plan"] if row["here"]] == [stage]
    assert len(figures.rows["evenings"]) == len(sittings)
    assert plan_strip(figures).startswith("<svg")
    days = figures.values["plan.evenings"].value + figures.values["plan.whole_days"].value
    assert days == len({sitting.begins.date() for sitting in sittings})
    assert figures.values["plan.table_days"].value <= 7 * figures.values["plan.weeks"].value


def test_more_free_time_never_makes_the_build_end_later_here():
    one = INPUTS["mara"]
    few, more = (
        told(one, "top panel", evenings=one.builder.evenings.model_copy(update={"days": days}), free_days=None)[1]
        for days in ((1,), (1, 3, 5))
    )
    assert more[-1].ends < few[-1].ends


def test_busy_weeks_are_stepped_over():
    one = INPUTS["mara"]
    away = tuple(one.builder.start + dt.timedelta(days=day) for day in range(200))
    _, sittings = told(one, "top panel", busy_days=away)
    assert min(sitting.begins.date() for sitting in sittings) > away[-1]


def test_colder_nights_never_end_sooner_and_a_longer_rail_has_more_goes():
    one = INPUTS["mara"]
    ends = []
    for night in (10.0, 14.0, 20.0):
        _, sittings = told(one, "top panel", shed=one.builder.shed.model_copy(update={"night_low_c": night}))
        ends.append(sum(s.work.wait_min for s in sittings if s.last and s.work.waits_for == "cure"))
    assert ends[0] > ends[1] > ends[2]
    layered = one.board.model_copy(update={"rails": one.board.rails.model_copy(update={"layer_mm": 5.0})})
    inputs = SimpleNamespace(
        builder=one.builder, board=layered, maker=one.maker, practice=one.practice, tools=one.tools
    )
    layers = [s for s in told(inputs, "top panel")[1] if s.work.name.startswith("rails.") and s.last]
    assert len(layers) == 6  # 30 mm of rail in layers of 5 mm
