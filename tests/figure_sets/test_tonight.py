"""What must be over before each work, and how long pages take to read."""

from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace

import pytest

from generator.build.works import GOES, works
from generator.figure_sets.evenings import add_evenings
from generator.figure_sets.planned import build_of, laid_out, short_date
from generator.figure_sets.tonight import add_tonight, with_reading_times
from generator.figures import FigureBook, Kind
from generator.inputs.site import builder_slugs, read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
INPUTS = {slug: read_builder(DATA, slug) for slug in builder_slugs(DATA)}


def told(slug, **changes):
    one = INPUTS[slug]
    made = SimpleNamespace(
        builder=one.builder.model_copy(update=changes),
        board=one.board, maker=one.maker, practice=one.practice, tools=one.tools,
    )  # fmt: skip
    build = build_of(made, "top panel", slowly=True, rails_joined=True, planks_joined=True)
    facts = SimpleNamespace(inputs=made, build=build, evenings=laid_out(made, build))
    book = FigureBook()
    add_evenings(book, facts)
    add_tonight(book, facts)
    return book.close(), facts


@pytest.mark.parametrize("slug", INPUTS)
def test_every_wait_stands_before_the_work_that_comes_after_it(slug):
    figures, facts = told(slug)
    all_works = works(facts.build)
    waits = [n for n, work in enumerate(all_works[:-1]) if work.wait_min > 0]
    rows = figures.rows["dry"]
    assert [row["stage"] for row in rows] == [all_works[n + 1].slug for n in waits]
    assert [figures.values[row["key"]].value for row in rows] == [all_works[n].wait_min for n in waits]
    assert all(row["wait"] for row in rows)


@pytest.mark.parametrize("slug", INPUTS)
def test_dates_are_those_of_the_plan_and_what_is_done_has_none(slug):
    figures, facts = told(slug)
    last = {sitting.work.name: sitting for sitting in facts.evenings}
    all_works = works(facts.build)
    rows = iter(figures.rows["dry"])
    for before, after in pairwise(all_works):
        if before.wait_min > 0:
            row = next(rows)
            assert bool(row["over"]) == (before.name in last)
            assert bool(row["begins"]) == (after.name in last)
            if row["over"] and row["begins"]:
                begins = next(s.begins for s in facts.evenings if s.work.name == after.name)
                assert begins >= last[before.name].over
                assert row["over"].startswith(short_date(last[before.name].over.date()))
                assert row["begins"] == short_date(begins.date())


def test_glue_and_finish_are_where_the_works_have_them():
    figures, _ = told("mara")
    rows = {row["stage"]: row for row in figures.rows["tonight"]}
    assert list(rows) == list(GOES)
    glued = {stage for stage, row in rows.items() if row["glue"]}
    assert glued == {"ready", "panels", "frame", "glue", "inside", "top-deck", "rails", "fin"}
    assert {stage for stage, row in rows.items() if row["finish"]} == {"seal"}


def test_a_later_stage_leaves_the_stages_before_it_without_a_date():
    figures, _ = told("mara", stage="rails")
    dated = {row["stage"] for row in figures.rows["tonight"] if row["dates"]}
    assert "rails" in dated
    assert "glue" not in dated


def test_reading_takes_the_words_by_the_published_pace_and_a_minute_at_least():
    # 238 words a minute, silent reading of non-fiction: Brysbaert, Journal of Memory and Language 109 (2019) 104047.
    book = FigureBook()
    source = "Brysbaert, Journal of Memory and Language 109 (2019) 104047"
    book.add("practice.reading_pace", 238, "", "pace", how="Read.", kind=Kind.PUBLISHED, source=source)
    figures = with_reading_times(book.close(), {"frame": 2380, "keying": 20})
    assert figures.values["tonight.read.frame"].value == pytest.approx(10)
    assert figures.values["tonight.read.keying"].value == 1
    assert figures.values["tonight.read.frame"].kind is Kind.PUBLISHED
    assert figures.values["tonight.read.frame"].source == source
    row = next(row for row in INPUTS["mara"].practice if row.key == "practice.reading_pace")
    assert (row.value, row.source) == (238, source)
