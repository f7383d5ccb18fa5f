"""The times that a builder has for the board: evenings, whole days, and days that are taken."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

EVENING_STARTS = dt.time(19, 0)
EVENING_ENDS = dt.time(23, 0)
DAY_STARTS = dt.time(10, 0)
"""When work usually begins, and when an evening is over (assumed); a longer evening begins earlier."""


@dataclass(frozen=True, slots=True)
class Slot:
    """One stretch of free time, within one date."""

    opens: dt.datetime
    minutes: float
    whole_day: bool

    @property
    def ends(self) -> dt.datetime:
        return self.opens + dt.timedelta(minutes=self.minutes)


@dataclass(frozen=True, slots=True)
class FreeTime:
    """When somebody has time. Weekdays are 0 for Monday to 6 for Sunday, lengths in minutes, 0 to 720.

    `extra` are single days with their length. A date that is an evening and a whole day as well counts as the longer
    of the two. A date in `busy` is never free.

    Raises:
        ValueError: no weekday has an evening, or a length is not above 0 and up to 720 minutes.
    """

    evenings: frozenset[int]
    evening_min: float
    days: frozenset[int] = frozenset()
    day_min: float = 0.0
    extra: Mapping[dt.date, float] = field(default_factory=lambda: MappingProxyType({}))
    busy: frozenset[dt.date] = frozenset()

    def __post_init__(self) -> None:
        lengths = [self.evening_min, *([self.day_min] if self.days else []), *self.extra.values()]
        if not self.evenings or not all(0 < length <= 720 for length in lengths):
            raise ValueError("evenings must hold a weekday, and every length lies above 0 and up to 720 minutes")

    def on(self, day: dt.date) -> Slot | None:
        """The free time of one date, or None."""
        if day in self.busy:
            return None
        whole = max(self.day_min if day.weekday() in self.days else 0.0, self.extra.get(day, 0.0))
        evening = self.evening_min if day.weekday() in self.evenings else 0.0
        if max(whole, evening) == 0:
            return None
        if whole >= evening:
            return Slot(dt.datetime.combine(day, DAY_STARTS), whole, whole_day=True)
        latest = dt.datetime.combine(day, EVENING_ENDS) - dt.timedelta(minutes=evening)
        return Slot(min(dt.datetime.combine(day, EVENING_STARTS), latest), evening, whole_day=False)

    def slots(self, start: dt.date) -> Iterator[Slot]:
        """All free times from a date on, without end."""
        day = start
        while True:
            slot = self.on(day)
            if slot is not None:
                yield slot
            day += dt.timedelta(days=1)
