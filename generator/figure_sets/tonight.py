"""What the page for the evening before turns on: what must be dry by then, what needs a warm room, how long to read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import groupby, pairwise
from types import MappingProxyType

from generator.build.timeline import Sitting, Work
from generator.build.works import GOES, works
from generator.figure_sets.facts import Facts
from generator.figure_sets.planned import WAITS, short_date, what
from generator.figures import FigureBook, Figures

GLUE_WAITS = frozenset({"cure", "clamp"})
TEST_JOINT = "ready"
"""The stage that glues two scraps for a try, which is no work of the plan."""
COATED = "seal"


def add_tonight(book: FigureBook, facts: Facts) -> None:
    """`tonight`: of each stage, whether it has glue or finish, and when the plan begins it; `dry`: each wait that must
    be over before a go of a stage begins, with its dates as far as the plan has them.
    """
    all_works = works(facts.build)
    glued = {work.slug for work in all_works if work.waits_for in GLUE_WAITS} | {TEST_JOINT}
    dates = {row["stage"]: row.get("dates", "") for row in book.rows["plan"]}
    book.rows["tonight"] = tuple(
        {"stage": slug, "glue": slug in glued, "finish": slug == COATED, "dates": dates[slug]} for slug in GOES
    )
    book.rows["dry"] = tuple(_waits(all_works, facts.evenings))


def _waits(all_works: tuple[Work, ...], laid: tuple[Sitting, ...]) -> Iterator[dict[str, object]]:
    first: dict[str, Sitting] = {}
    last: dict[str, Sitting] = {}
    for sitting in laid:
        first.setdefault(sitting.work.name, sitting)
        last[sitting.work.name] = sitting
    for (key, before), (_, after) in pairwise(_keyed(all_works)):
        if before.wait_min > 0:
            over, begins = last.get(before.name), first.get(after.name)
            yield {
                "stage": after.slug,
                "key": f"{key}.wait",
                "before": what(before),
                "wait": WAITS[before.waits_for],
                "after": what(after),
                "over": f"{short_date(over.over.date())}, {over.over:%H:%M}" if over else "",
                "begins": short_date(begins.begins.date()) if begins else "",
            }


def _keyed(all_works: tuple[Work, ...]) -> Iterator[tuple[str, Work]]:
    """Every work with the key of its figures."""
    for slug, members in groupby(all_works, key=lambda work: work.slug):
        for n, work in enumerate(members, 1):
            yield f"plan.go.{slug}.{n}", work


def with_reading_times(figures: Figures, words: Mapping[str, int]) -> Figures:
    """The figures and the time that each stage's page takes to read.

    Args:
        figures: All others; they hold the pace, `practice.reading_pace`, in words a minute.
        words: Words on the page, by the stage's slug.
    """
    pace = figures.values["practice.reading_pace"]
    book = FigureBook()
    for slug, count in words.items():
        book.add(
            f"tonight.read.{slug}",
            max(1.0, count / pace.value),
            "min",
            f"time to read a page: {slug}",
            how="The words on the page by the pace at which adults read. Drawings and numbers take longer.",
            kind=pace.kind,
            source=pace.source,
        )
    return replace(figures, values=MappingProxyType({**figures.values, **book.values}))
