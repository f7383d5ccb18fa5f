"""The label's times at the temperature where the glue really cures."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from generator.inputs.builder import Glue, OtherTimes


@dataclass(frozen=True, slots=True)
class LabelTimes:
    """Times in minutes at one temperature.

    `beyond` says that the temperature lies outside what the label gives times for: then these are the times of its
    nearest column, and really they are longer ("colder") or shorter ("warmer"). "" within the label's range.
    """

    open_min: float
    clamp_min: float
    full_cure_min: float
    beyond: str


class _Column(Protocol):
    @property
    def open_min(self) -> float: ...
    @property
    def clamp_min(self) -> float: ...
    @property
    def full_cure_min(self) -> float: ...


def label_times(glue: Glue, *, temperature_c: float) -> LabelTimes:
    """Open, clamp and full-cure time of a glue at a temperature, °C.

    Between the label's two temperatures the logarithm of a time goes straight with temperature, as it nearly does for
    a reaction whose speed multiplies by the same factor with every degree (Arrhenius over a narrow range; from memory,
    assumed for glues). So a time lies between the label's two, and is never longer where it is warmer. Outside them
    nothing is made up: the nearer column's time is given, and `beyond` says so.
    """
    columns = sorted(_columns(glue), key=lambda column: column[0])
    (cold_c, cold), (warm_c, warm) = columns[0], columns[-1]
    share = 0.0 if warm_c == cold_c else min(max((temperature_c - cold_c) / (warm_c - cold_c), 0.0), 1.0)

    def at(time_of: Callable[[_Column], float]) -> float:
        return math.exp((1 - share) * math.log(time_of(cold)) + share * math.log(time_of(warm)))

    beyond = "colder" if temperature_c < cold_c else "warmer" if temperature_c > warm_c else ""
    return LabelTimes(at(lambda c: c.open_min), at(lambda c: c.clamp_min), at(lambda c: c.full_cure_min), beyond)


def _columns(glue: Glue) -> list[tuple[float, Glue | OtherTimes]]:
    return [(glue.times_at_c, glue), *([(glue.also.at_c, glue.also)] if glue.also is not None else [])]
