"""Figures of time: the stages laid into the builder's evenings and days."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from itertools import groupby

from generator.build.cure import label_ends
from generator.build.free_time import DAY_STARTS, EVENING_STARTS
from generator.build.timeline import Sitting, Work, table_days
from generator.build.works import GOES, works
from generator.figure_sets.facts import TYPED_BUILDER, Facts
from generator.figure_sets.planned import (
    SHORT,
    WAITS,
    WEEKDAYS,
    cure,
    date_span,
    listed,
    long_date,
    month_starts,
    short_date,
    what,
)
from generator.figures import FigureBook, Kind

PRACTICE, LABEL, MEASURED, ASSUMED = Kind.COMMON_PRACTICE, Kind.LABEL, Kind.MEASURED, Kind.ASSUMED
WAIT_HOW = {
    "": "Nothing has to dry.",
    "rest": "The planks rest in the shed.",
    "cure": "Full cure by your glue's label, at the lowest temperature of your nights.",
    "answer": "What to allow for the answer to your readings.",
    "photo": "What to allow for the answer to your photo.",
    "dry": "The least time for sealer inside, or your finish's own time between coats if that is longer.",
    "damp": "What builders leave damp wood to give: overnight.",
    "bent": "What builders leave bent wood to dry before its glue.",
    "coat": "From one coat to the next, by your finish's label.",
    "hard": "Full cure by your finish's label.",
    "clamp": "Clamp time on your glue's label, at your lowest night.",
}
WAIT_KINDS = {"coat": LABEL, "hard": LABEL}


def add_evenings(book: FigureBook, facts: Facts) -> None:
    """Hours, evenings and days, and the dates of each stage."""
    all_works = works(facts.build)
    _add_cure(book, facts)
    _add_works(book, facts, all_works)
    _add_totals(book, facts)
    _say_rows(book, facts)
    _add_extra(book, facts)
    _say_words(book, facts)


def _cure_kinds(facts: Facts) -> list[Kind]:
    return [LABEL, MEASURED, *([ASSUMED] if facts.inputs.builder.glue.also else [])]


def _add_cure(book: FigureBook, facts: Facts) -> None:
    builder = facts.inputs.builder
    times = cure(builder)
    fastest, slowest = label_ends(builder.glue, temperature_c=builder.shed.night_low_c)
    book.add(
        "plan.cure",
        times.full_cure_min,
        "min",
        "drying time that your plan counts with",
        how="Your glue's full cure at the lowest temperature of your nights, between the times on its label.",
        kind=_cure_kinds(facts),
        low=fastest.full_cure_min,
        high=slowest.full_cure_min,
    )
    book.said["plan.beyond"] = times.beyond


def _add_works(book: FigureBook, facts: Facts, all_works: Sequence[Work]) -> None:
    rows = []
    for slug, members in groupby(all_works, key=lambda work: work.slug):
        goes = list(members)
        for n, work in enumerate(goes, 1):
            key = f"plan.go.{slug}.{n}"
            book.add(
                f"{key}.hands_on",
                work.hands_on_min,
                "min",
                f"hands-on time: {what(work)}",
                how="What first-time builders take.",
                kind=PRACTICE,
                source="common practice",
                step=5,
            )
            _add_wait(book, facts, f"{key}.wait", work, f"waiting afterwards: {what(work)}")
            rows.append(
                {"stage": slug, "key": key, "what": what(work), "wait": WAITS[work.waits_for], "people": work.people}
            )
        book.add(
            f"plan.hands_on.{slug}",
            sum(work.hands_on_min for work in goes),
            "min",
            f"hands-on time, {slug}",
            how="What first-time builders take.",
            kind=PRACTICE,
            source="common practice",
            step=5,
        )
        _add_wait(book, facts, f"plan.wait.{slug}", goes[-1], f"waiting afterwards, {slug}")
    book.rows["goes"] = tuple(rows)


def _add_wait(book: FigureBook, facts: Facts, key: str, work: Work, label: str) -> None:
    kinds = _cure_kinds(facts) if work.waits_for in {"cure", "clamp"} else WAIT_KINDS.get(work.waits_for, PRACTICE)
    book.add(key, work.wait_min, "min", label, how=WAIT_HOW[work.waits_for], kind=kinds)


def _add_totals(book: FigureBook, facts: Facts) -> None:
    builder, laid = facts.inputs.builder, facts.evenings
    kinds = [PRACTICE, LABEL, MEASURED, *_cure_kinds(facts)]
    book.add(
        "plan.hands_on",
        sum(book.values[f"plan.hands_on.{slug}"].value for slug in GOES),
        "min",
        "hands-on time of the whole build",
        how="The stages' times, added up.",
        kind=PRACTICE,
        step=5,
    )
    book.add(
        "plan.evening", builder.evenings.length_min, "min", "length of your evenings", how=TYPED_BUILDER, kind=MEASURED
    )
    if builder.free_days:
        length = builder.free_days.length_min
        book.add("plan.free_day", length, "min", "length of your free days", how=TYPED_BUILDER, kind=MEASURED)
    days = {sitting.begins.date(): sitting.whole_day for sitting in laid}
    last = max(sitting.over for sitting in laid)
    how = "Works laid into your free time, with every cure kept."
    book.add("plan.evenings", sum(not whole for whole in days.values()), "", "evenings ahead", how=how, kind=kinds)
    book.add("plan.whole_days", sum(days.values()), "", "whole days ahead", how=how, kind=kinds)
    weeks = math.ceil(((last.date() - builder.start).days + 1) / 7)
    how = f"{how} A week that is begun counts."
    book.add("plan.weeks", weeks, "", "weeks from start to finish", how=how, kind=kinds)
    book.add(
        "plan.table_days",
        len(table_days(laid)),
        "",
        "days on which your table is taken",
        how="Days on which glue dries on the table or the bench stands on it.",
        kind=kinds,
    )
    book.add(
        "plan.two_people",
        len(_days_for_two(laid)),
        "",
        "days on which two people are needed",
        how="Days of the plan with a work that one person can't do alone.",
        kind=kinds,
    )


def _days_for_two(laid: Sequence[Sitting]) -> list[dt.date]:
    return sorted({sitting.begins.date() for sitting in laid if sitting.work.people > 1})


def _clock(sitting: Sitting) -> str:
    return f"{sitting.begins:%H:%M} to {sitting.ends:%H:%M}"


def _say_rows(book: FigureBook, facts: Facts) -> None:
    """`evenings`: every sitting; `plan`: every stage, with days counted from the start for drawings."""
    start, laid = facts.inputs.builder.start, facts.evenings
    book.rows["evenings"] = tuple(
        {
            "date": long_date(sitting.begins.date()),
            "short": short_date(sitting.begins.date()),
            "clock": _clock(sitting),
            "stage": sitting.work.slug,
            "what": what(sitting.work),
            "overruns": sitting.overruns,
            "late_start": sitting.late_start,
            "stale": sitting.stale,
            "coat": sitting.work.slug == "seal",
            "two": sitting.work.people > 1,
            "goes_on": not sitting.last,
            "dark": sitting.work.daylight and not sitting.whole_day,
        }
        for sitting in laid
    )
    at = list(GOES).index(facts.inputs.builder.stage)
    rows = []
    for n, slug in enumerate(GOES):
        own = [sitting for sitting in laid if sitting.work.slug == slug]
        row = {"stage": slug, "short": SHORT[slug], "done": n < at, "here": n == at, "dated": bool(own)}
        if own:
            first, last, over = own[0].begins.date(), own[-1].ends.date(), own[-1].over.date()
            row |= {
                "first": short_date(first),
                "dates": date_span(first, last),
                "wait": WAITS[own[-1].work.waits_for] if over > last else "",
                "until": short_date(over),
                "open": slug == "seal" and facts.inputs.builder.finish is None,
                "days": tuple(sorted({(sitting.begins.date() - start).days for sitting in own})),
                "waits": tuple(
                    ((s.ends.date() - start).days, (s.over.date() - start).days) for s in own if s.over > s.ends
                ),
            }
        rows.append(row)
    book.rows["plan"] = tuple(rows)
    months = month_starts(start, max(sitting.over for sitting in laid).date())
    book.rows["plan_months"] = tuple({"day": day, "name": name} for day, name in months)


def _add_extra(book: FigureBook, facts: Facts) -> None:
    """The single days that the builder has besides the weekly ones, from the start on."""
    builder = facts.inputs.builder
    days = sorted((one for one in builder.extra_days if one.day >= builder.start), key=lambda one: one.day)
    rows = []
    for n, one in enumerate(days, 1):
        key, date = f"plan.extra.{n}", short_date(one.day)
        book.add(key, one.length_min, "min", f"your time on {date}", how=TYPED_BUILDER, kind=Kind.MEASURED)
        rows.append({"key": key, "date": date})
    book.rows["plan_extra"] = tuple(rows)


def _say_words(book: FigureBook, facts: Facts) -> None:
    builder, laid = facts.inputs.builder, facts.evenings
    table, two = sorted(table_days(laid)), _days_for_two(laid)
    days = builder.free_days
    first, last = laid[0], laid[-1]
    book.said |= {
        "start_text": long_date(first.begins.date()),
        "finish_text": long_date(last.ends.date()),
        "weekdays_text": listed([f"{WEEKDAYS[day]}s" for day in sorted(builder.evenings.days)]),
        "evening_too_short": sorted({s.work.slug for s in laid if s.overruns}),
        "stage": builder.stage,
        "plan.finish": long_date(last.ends.date()) if builder.finish else "",
        "plan.days_text": listed([f"{WEEKDAYS[day]}s" for day in sorted(days.days)]) if days else "",
        "plan.busy_text": listed([short_date(day) for day in sorted(builder.busy_days) if day >= builder.start]),
        "plan.evening_starts": f"{EVENING_STARTS:%H:%M}",
        "plan.day_starts": f"{DAY_STARTS:%H:%M}",
        "plan.next_stage": first.work.slug,
        "plan.next_what": what(first.work),
        "plan.next_when": f"{long_date(first.begins.date())}, {_clock(first)}",
        "plan.next_two": first.work.people > 1,
        "plan.two_text": listed([short_date(day) for day in two]),
        "plan.table_text": date_span(table[0], table[-1]) if table else "",
    }
