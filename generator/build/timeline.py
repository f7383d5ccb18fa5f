"""Stages laid into the evenings that a builder has, with the glue's waits kept."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

EVENING_STARTS = dt.time(19, 0)


@dataclass(frozen=True, slots=True)
class Work:
    """One stage's work: hands-on minutes, then minutes of waiting before the next stage may begin."""

    slug: str
    hands_on_min: float
    wait_min: float
    unbroken: bool = False


@dataclass(frozen=True, slots=True)
class Evening:
    """Part of one evening, given to one stage."""

    date: dt.date
    slug: str
    minutes: float
    overruns: bool


def lay_out(
    works: Sequence[Work], *, start: dt.date, weekdays: Sequence[int], evening_min: float
) -> tuple[Evening, ...]:
    """Which stage falls on which evening.

    A stage begins on a fresh evening when it may not be broken off and does not fit into what is left of this one;
    one that is longer than a whole evening takes it all and `overruns` says so. Waits run from the end of the work
    by the clock, so a cure over several nights keeps the bench busy.

    Args:
        works: The stages in order.
        start: First day that may be used.
        weekdays: Days of the week with a free evening, Monday = 0; not empty.
        evening_min: Length of one evening, min, above 0.

    Raises:
        ValueError: no weekday, or an evening without length.
    """
    if not weekdays or not evening_min > 0:
        raise ValueError("weekdays and evening_min must hold something")
    days = _free_days(start, frozenset(weekdays))
    now = _opening(next(days))
    left_min = evening_min
    laid: list[Evening] = []
    ready = now
    for work in works:
        remaining = work.hands_on_min
        while remaining > 0:
            short = work.unbroken and remaining > left_min and left_min < evening_min
            if now < ready or left_min <= 0 or short:
                now, left_min = _opening(next(days)), evening_min
                continue
            part = remaining if work.unbroken else min(remaining, left_min)
            laid.append(Evening(now.date(), work.slug, part, part > left_min))
            now += dt.timedelta(minutes=part)
            left_min -= part
            remaining -= part
        ready = now + dt.timedelta(minutes=work.wait_min)
    return tuple(laid)


def _opening(day: dt.date) -> dt.datetime:
    return dt.datetime.combine(day, EVENING_STARTS)


def _free_days(start: dt.date, weekdays: frozenset[int]) -> Iterator[dt.date]:
    day = start
    while True:
        if day.weekday() in weekdays:
            yield day
        day += dt.timedelta(days=1)
