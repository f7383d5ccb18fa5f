"""Fields that are a day: a date, or a day of the week by its name."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from typing import Any

from generator.inputs.fields import Kind, misfit, nearest_name, said

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True)
class Day(Kind):
    """A date, written year-month-day."""

    def read(self, value: Any) -> datetime.date:
        if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
            return value
        parts = re.fullmatch(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})", value) if isinstance(value, str) else None
        if not parts:
            raise misfit(said(value), self.allowed())
        year, month, day = (int(part) for part in parts.groups())
        near = self._near(year, month, day)
        if (near.year, near.month, near.day) != (year, month, day) or parts[0] != near.isoformat():
            raise misfit(said(value), self.allowed(), near.isoformat())
        return near

    @staticmethod
    def _near(year: int, month: int, day: int) -> datetime.date:
        first = datetime.date(min(max(year, 2000), 2099), min(max(month, 1), 12), 1)
        last = (first + datetime.timedelta(days=31)).replace(day=1) - datetime.timedelta(days=1)
        return first.replace(day=min(max(day, 1), last.day))

    def allowed(self) -> str:
        """The form in words."""
        return "a date from 2000 to 2099 written year-month-day, like 2026-11-30"

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": r"^20[0-9]{2}-[0-9]{2}-[0-9]{2}$"}


@dataclass(frozen=True)
class Weekday(Kind):
    """A day of the week by name; kept as 0 for Monday to 6 for Sunday."""

    def read(self, value: Any) -> int:
        if isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= 6:
            raise misfit(said(value), self.allowed(), _WEEKDAYS[value])
        name = value.casefold() if isinstance(value, str) else ""
        for number, day in enumerate(_WEEKDAYS):
            if name in {day.casefold(), day[:3].casefold()}:
                return number
        raise misfit(said(value), self.allowed(), nearest_name(value, _WEEKDAYS))

    def allowed(self) -> str:
        """The names in words."""
        return "one of " + ", ".join(_WEEKDAYS)

    def schema(self) -> dict[str, Any]:
        return {"enum": [word for day in _WEEKDAYS for word in (day, day.lower(), day[:3], day[:3].lower())]}
