"""The label's times at the temperature where the glue really cures."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from generator.inputs.builder import Glue, OtherTimes

CLAMP_STEP_MIN = 5.0
CURE_STEP_MIN = 60.0
TINY = 1e-9


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


def time_between(*, temperature_c: float, cold_c: float, cold_min: float, warm_c: float, warm_min: float) -> float:
    """A time at a temperature, minutes, from two of a label's times at a colder and a warmer one.

    Its logarithm goes straight with temperature, as it nearly does for a reaction whose speed multiplies by the same
    factor with every degree (Arrhenius over a narrow range; from memory, assumed for glues). So it lies between the
    two, and is never longer where it is warmer. Outside them the nearer one's time is given.

    Args:
        temperature_c: Where the glue cures, °C.
        cold_c, warm_c: The label's two temperatures, °C; alike if it has one.
        cold_min, warm_min: Its times there, min, above 0, the warm one no longer than the cold one.

    Raises:
        ValueError: the temperatures are the wrong way round, a time is not above 0, or it is longer in the warm.
    """
    if not cold_c <= warm_c or not 0 < warm_min <= cold_min:
        raise ValueError("cold_c must not be above warm_c, nor warm_min above cold_min, and both times above 0")
    if temperature_c <= cold_c:
        return cold_min
    if temperature_c >= warm_c:
        return warm_min
    share = (temperature_c - cold_c) / (warm_c - cold_c)
    between = math.exp((1 - share) * math.log(cold_min) + share * math.log(warm_min))
    return min(max(between, warm_min), cold_min)


def label_times(glue: Glue, *, temperature_c: float) -> LabelTimes:
    """Open, clamp and full-cure time of a glue at a temperature, °C: each as `time_between` gives it.

    Between the label's columns rounded to the safe side, but no further than their own times: open time down to whole
    minutes, clamp time up to five minutes, full cure up to whole hours. Outside them nothing is made up: the nearer
    column's time is given, and `beyond` says so.
    """
    columns = sorted(_columns(glue), key=lambda column: column[0])
    (cold_c, cold), (warm_c, warm) = columns[0], columns[-1]

    def at(time_of: Callable[[_Column], float], rounded: Callable[[float], float]) -> float:
        slow, fast = time_of(cold), time_of(warm)
        time = time_between(temperature_c=temperature_c, cold_c=cold_c, cold_min=slow, warm_c=warm_c, warm_min=fast)
        if not cold_c < temperature_c < warm_c:
            return time
        return min(max(rounded(time), fast), slow)

    return LabelTimes(
        at(lambda column: column.open_min, lambda time: math.floor(time + TINY)),
        at(lambda column: column.clamp_min, lambda time: _up(time, CLAMP_STEP_MIN)),
        at(lambda column: column.full_cure_min, lambda time: _up(time, CURE_STEP_MIN)),
        "colder" if temperature_c < cold_c else "warmer" if temperature_c > warm_c else "",
    )


def label_ends(glue: Glue, *, temperature_c: float) -> tuple[LabelTimes, LabelTimes]:
    """The shortest and the longest that `label_times` may really be: the label's own columns on both sides.

    The same twice where nothing lies between columns: at a column, outside them, or on a label with one.
    """
    columns = sorted(_columns(glue), key=lambda column: column[0])
    here = label_times(glue, temperature_c=temperature_c)
    if not columns[0][0] < temperature_c < columns[-1][0]:
        return here, here
    cold, warm = (label_times(glue, temperature_c=at) for at, _ in (columns[0], columns[-1]))
    return warm, cold


def _up(time_min: float, step_min: float) -> float:
    return step_min * math.ceil(time_min / step_min - TINY)


def _columns(glue: Glue) -> list[tuple[float, Glue | OtherTimes]]:
    return [(glue.times_at_c, glue), *([(glue.also.at_c, glue.also)] if glue.also is not None else [])]
