"""Figures of time: the stages laid into the builder's evenings."""

from __future__ import annotations

import dataclasses
import datetime as dt

from generator.build.timeline import Evening, Work, lay_out
from generator.figure_sets.facts import TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.inputs.site import Inputs

STAGES = ("ready", "panels", "frame", "keying", "trace", "bench", "rocker", "clamp", "glue")
CURES = frozenset({"panels", "frame", "glue"})
UNBROKEN = frozenset({"glue"})
TWO_GOES = frozenset({"frame"})
DAY_MIN = 1440.0
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def works(inputs: Inputs) -> tuple[Work, ...]:
    """Hands-on and waiting time of each stage up to the bottom glue-up."""
    usual = {
        row.key.removeprefix("practice.hands_on."): row.value
        for row in inputs.practice
        if row.key.startswith("practice.hands_on.")
    }
    rest_min = next(row.value for row in inputs.practice if row.key == "practice.rest_days") * DAY_MIN
    waits = dict.fromkeys(CURES, inputs.builder.glue.full_cure_min) | {"ready": rest_min}
    return tuple(Work(slug, usual[slug], waits.get(slug, 0.0), slug in UNBROKEN) for slug in STAGES)


def in_goes(work: Work) -> tuple[Work, ...]:
    """One stage as it is really done: some are glued in two goes, with a full cure between."""
    if work.slug not in TWO_GOES:
        return (work,)
    half = dataclasses.replace(work, hands_on_min=work.hands_on_min / 2)
    return (half, half)


def laid_out(inputs: Inputs) -> tuple[Evening, ...]:
    """The stages from the one the builder is at, in their own evenings."""
    builder = inputs.builder
    at = STAGES.index(builder.stage) if builder.stage in STAGES else 0
    return lay_out(
        [go for work in works(inputs)[at:] for go in in_goes(work)],
        start=builder.start,
        weekdays=builder.evenings.days,
        evening_min=builder.evenings.length_min,
    )


def add_evenings(book: FigureBook, facts: Facts) -> None:
    """Hours, evenings, and the date of each stage."""
    builder = facts.inputs.builder
    practice = Kind.COMMON_PRACTICE
    all_works = works(facts.inputs)
    for work in all_works:
        book.add(
            f"plan.hands_on.{work.slug}",
            work.hands_on_min,
            "min",
            f"hands-on time, {work.slug}",
            how="What first-time builders take.",
            kind=practice,
            source="common practice",
            step=5,
        )
        why = "The planks rest in the shed." if work.slug == "ready" else "Full cure on your glue's label."
        book.add(
            f"plan.wait.{work.slug}",
            work.wait_min,
            "min",
            f"waiting afterwards, {work.slug}",
            how=why if work.wait_min else "Nothing has to cure.",
            kind=Kind.LABEL if work.slug in CURES else practice,
        )
    book.add(
        "plan.hands_on",
        sum(work.hands_on_min for work in all_works),
        "min",
        "hands-on time up to the bottom glue-up",
        how="The stages' times, added up.",
        kind=practice,
        step=5,
    )
    book.add(
        "plan.evening",
        builder.evenings.length_min,
        "min",
        "length of your evenings",
        how=TYPED_BUILDER,
        kind=Kind.MEASURED,
    )
    dates = sorted({evening.date for evening in facts.evenings})
    book.add(
        "plan.evenings",
        len(dates),
        "",
        "evenings up to the bottom glue-up",
        how="Stages laid into your free evenings, with the glue's full cure kept.",
        kind=[practice, Kind.LABEL, Kind.MEASURED],
    )
    book.rows["evenings"] = tuple(
        {"date": _date(e.date), "stage": e.slug, "overruns": e.overruns} for e in facts.evenings
    )
    book.said |= {
        "start_text": _date(dates[0] if dates else builder.start),
        "finish_text": _date(dates[-1] if dates else builder.start),
        "weekdays_text": _listed([f"{WEEKDAYS[day]}s" for day in sorted(builder.evenings.days)]),
        "evening_too_short": [e.slug for e in facts.evenings if e.overruns],
        "stage": builder.stage,
    }


def _date(day: dt.date) -> str:
    return f"{WEEKDAYS[day.weekday()]}, {day.day} {MONTHS[day.month - 1]} {day.year}"


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
