"""Cross-checks: how one is run, and how it says what is wrong in the unit that the person wrote."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.inputs.fault import Fault, shown
from generator.inputs.fields import nearest_name
from generator.inputs.fit import UnsoundError
from generator.inputs.measure import Unread, measure
from generator.inputs.read import Document
from generator.inputs.units import Rounding, say
from generator.inputs.words import Loc, describe

SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Blame:
    """Makes faults about places in one document."""

    document: Document

    def fault(self, loc: Loc, found: str, allowed: str, nearest: str) -> Fault:
        """A fault of the field at `loc`."""
        return Fault(self.document.at(loc), describe(loc), found, allowed, nearest)

    def within(
        self, loc: Loc, kind: str, value: float, *, low: float | None = None, high: float | None = None, why: str
    ) -> Iterator[Fault]:
        """A fault if `value` (base unit of `kind`) is below `low` or above `high`; `why` says what sets the limit."""
        unit = self._unit(loc, kind)
        if low is not None and high is not None and low > high:
            return
        words = (self._said(kind, low, unit, "up"), self._said(kind, high, unit, "down"))
        if low is not None and high is not None and words[0] != words[1]:
            allowed = f"{words[0]} to {words[1]}"
        elif low is not None and high is not None:
            allowed = words[0]
        else:
            allowed = f"at least {words[0]}" if low is not None else f"at most {words[1]}"
        found = self._said(kind, value, unit, "down")
        if low is not None and value < low - SLACK:
            yield self.fault(loc, found, f"{allowed} ({why})", words[0])
        elif high is not None and value > high + SLACK:
            yield self.fault(loc, found, f"{allowed} ({why})", words[1])

    def known(self, loc: Loc, written: str, names: Iterable[str], where: str) -> Iterator[Fault]:
        """A fault if `written` is not one of `names`, which stand in `where`."""
        choices = tuple(names)
        if written not in choices:
            listed = ", ".join(map(shown, choices[:30])) + (" …" if len(choices) > 30 else "")
            yield self.fault(loc, shown(written), f"a name in {where}: {listed}", nearest_name(written, choices))

    def once(self, locs: Iterable[Loc], values: Iterable[object], nearest: str) -> Iterator[Fault]:
        """A fault for each value that stands there a second time."""
        first: dict[str, int] = {}
        for number, (loc, value) in enumerate(zip(locs, values, strict=True), 1):
            key = str(value).casefold()
            if key in first:
                found = f"the same as entry {first[key]} ({shown(self._written(loc) or value)})"
                yield self.fault(loc, found, "each entry once", nearest)
            first.setdefault(key, number)

    @staticmethod
    def _said(kind: str, value: float | None, unit: str, rounding: Rounding) -> str:
        return "" if value is None else say(kind, Fraction(str(round(value, 6))), unit, rounding)

    def _unit(self, loc: Loc, kind: str) -> str:
        try:
            return measure(kind, self._written(loc)).unit
        except Unread:
            return ""

    def _written(self, loc: Loc) -> Any:
        value: Any = self.document.data
        for part in loc:
            try:
                value = value[part]
            except (KeyError, IndexError, TypeError):
                return None
        return value


def run_checks(checks: Iterable[Callable[[], Iterable[Fault]]]) -> list[Fault]:
    """The faults of all checks; a check that meets a field that is not sound ends there."""
    faults: list[Fault] = []
    for check in checks:
        try:
            faults.extend(check())
        except UnsoundError:
            continue
    return faults
