"""What the maker says once for all builders: who they are, how they tune a rocker, and their defaults."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from pydantic import Field

from generator.inputs.board import Name, TraceMargin
from generator.inputs.builder import Units
from generator.inputs.fields import Part, Pattern, Quantity

Shift = Annotated[float, Quantity("length", -40, 40)]


def _with_https(text: str) -> str:
    return "https://" + text.split("://", 1)[-1].strip()


class TipShift(Part):
    """What is added to the suggested rocker at the tips, mm; it fades to 0 at the low point."""

    tail_mm: Shift = Field(alias="tail")
    nose_mm: Shift = Field(alias="nose")


class Tuning(Part):
    """Shifts by the kind of wave and by the way of surfing; a builder names one of each."""

    where: Annotated[Mapping[Name, TipShift], Field(min_length=1, max_length=40)]
    how: Annotated[Mapping[Name, TipShift], Field(min_length=1, max_length=40)]


class Defaults(Part):
    """Used where a board or a builder does not say."""

    units: Units
    trace_margin: TraceMargin


class Maker(Part):
    """The maker."""

    name: Name
    contact: Annotated[
        str,
        Pattern(
            longest=120,
            pattern=r"[^\s@<>\"'()]+@[^\s@<>\"'()]+\.[^\s@<>\"'().]+|\+?[0-9][0-9 ()/.-]{4,30}",
            form="a mail address or a phone number",
        ),
    ]
    site: Annotated[
        str,
        Pattern(
            longest=200,
            pattern=r"https://[A-Za-z0-9.-]+(?::[0-9]{1,5})?(?:/[A-Za-z0-9._~/-]*)?",
            form="an address that begins with https:// and has no spaces",
            mend=_with_https,
        ),
    ]
    tuning: Tuning
    defaults: Defaults
