"""What must fit together in the labels, plates and days of a builder's file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.fault import Fault, shown
from generator.inputs.stages import BUILD_STAGES
from generator.inputs.words import Loc

LEAST_APART_C = 3.0
COLDEST_C, WARMEST_C = -10.0, 45.0  # as the fields allow


def label_faults(builder: Any, blame: Blame) -> list[Fault]:
    """All faults between the glue's and the finish's times, the tools' plates and the free days."""
    checks: list[Callable[..., Iterator[Fault]]] = [
        _other_column,
        *(partial(_longer_in_the_cold, name=name) for name in ("open_min", "clamp_min", "full_cure_min")),
        _recoat, _plates_once, _free_weekdays, _extra_days, _busy_days, _photos,
    ]  # fmt: skip
    return run_checks(partial(check, builder, blame) for check in checks)


def _other_column(builder: Any, blame: Blame) -> Iterator[Fault]:
    """The two columns of a label are for temperatures that are told apart."""
    glue = builder.glue
    if glue.also is None:
        return
    at_c, first_c = glue.also.at_c, glue.times_at_c
    colder = at_c < first_c if at_c != first_c else glue.also.full_cure_min >= glue.full_cure_min
    if first_c - LEAST_APART_C < COLDEST_C or first_c + LEAST_APART_C > WARMEST_C:
        colder = first_c + LEAST_APART_C > WARMEST_C
    low, high = (None, first_c - LEAST_APART_C) if colder else (first_c + LEAST_APART_C, None)
    if abs(at_c - first_c) < LEAST_APART_C:
        why = f"{LEAST_APART_C:g} degrees or more from `times_at`; or leave `also` out"
        yield from blame.within(("glue", "also", "at"), "temperature", at_c, low=low, high=high, why=why)


def _longer_in_the_cold(builder: Any, blame: Blame, *, name: str) -> Iterator[Fault]:
    """Of two temperatures on a label, the colder one has the longer times."""
    glue = builder.glue
    if glue.also is None:
        return
    first, other = getattr(glue, name), getattr(glue.also, name)
    loc: Loc = ("glue", "also", {"open_min": "open_time", "clamp_min": "clamp_time"}.get(name, "full_cure"))
    if glue.also.at_c < glue.times_at_c:
        yield from blame.within(loc, "time", other, low=first, why="no shorter in the cold")
    else:
        yield from blame.within(loc, "time", other, high=first, why="no longer in the warm")


def _recoat(builder: Any, blame: Blame) -> Iterator[Fault]:
    finish = builder.finish
    if finish is not None and finish.recoat_before_min is not None:
        why = "the latest comes after the earliest"
        loc = ("finish", "recoat_before")
        yield from blame.within(loc, "time", finish.recoat_before_min, low=finish.recoat_after_min, why=why)


def _plates_once(builder: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("plates", at, "tool") for at in range(len(builder.plates))]
    yield from blame.once(locs, [plate.tool for plate in builder.plates], "one entry a tool")
    for at, plate in enumerate(builder.plates):
        loc: Loc = ("plates", at, "tool")
        if builder.tools:
            yield from blame.known(loc, plate.tool, builder.tools, "this file under `tools`")
        else:
            allowed = "a name in this file under `tools`, where nothing stands yet"
            yield blame.fault(loc, shown(plate.tool), allowed, "adding it there, or taking the plate out")


def _free_weekdays(builder: Any, blame: Blame) -> Iterator[Fault]:
    free = builder.free_days
    if free is not None:
        locs: list[Loc] = [("free_days", "days", at) for at in range(len(free.days))]
        yield from blame.once(locs, free.days, "taking out one of the two")
        for loc, day in zip(locs, free.days, strict=True):
            if day in builder.evenings.days:
                allowed = "a day of the week that is not under `evenings` too"
                nearest = "taking it out of `evenings`" if len(builder.evenings.days) > 1 else "another day"
                yield blame.fault(loc, "under `evenings` as well", allowed, nearest)


def _extra_days(builder: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("extra_days", at, "day") for at in range(len(builder.extra_days))]
    yield from blame.once(locs, [extra.day for extra in builder.extra_days], "taking out one of the two")


def _busy_days(builder: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("busy_days", at) for at in range(len(builder.busy_days))]
    yield from blame.once(locs, builder.busy_days, "taking out one of the two")


def _photos(builder: Any, blame: Blame) -> Iterator[Fault]:
    for at, slug in enumerate(builder.photo_first or ()):
        yield from blame.known(("photo_first", at), slug, BUILD_STAGES, "the list of stages")
