"""What must fit together in the labels, plates and days of a builder's file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.fault import Fault
from generator.inputs.stages import BUILD_STAGES
from generator.inputs.words import Loc

LEAST_APART_C = 3.0


def label_faults(builder: Any, blame: Blame) -> list[Fault]:
    """All faults between the glue's and the finish's times, the tools' plates and the free days."""
    checks: list[Callable[..., Iterator[Fault]]] = [
        _other_column,
        *(partial(_longer_in_the_cold, name=name) for name in ("open_min", "clamp_min", "full_cure_min")),
        _recoat, _plates_once, _free_weekdays, _extra_days, _busy_days, _photos,
    ]  # fmt: skip
    return run_checks(partial(check, builder, blame) for check in checks)


def _other_column(builder: Any, blame: Blame) -> Iterator[Fault]:
    glue = builder.glue
    if glue.also is not None and abs(glue.also.at_c - glue.times_at_c) < LEAST_APART_C:
        allowed = f"{LEAST_APART_C:g} degrees or more from `times_at`, which is {glue.times_at_c:.0f} C"
        nearest = f"{glue.times_at_c - LEAST_APART_C:.0f} C, or leaving `also` out"
        yield blame.fault(("glue", "also", "at"), f"{glue.also.at_c:.0f} C", allowed, nearest)


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
        yield from blame.known(("plates", at, "tool"), plate.tool, builder.tools, "this file under `tools`")


def _free_weekdays(builder: Any, blame: Blame) -> Iterator[Fault]:
    free = builder.free_days
    if free is not None:
        locs: list[Loc] = [("free_days", "days", at) for at in range(len(free.days))]
        yield from blame.once(locs, free.days, "taking out one of the two")
        for loc, day in zip(locs, free.days, strict=True):
            if day in builder.evenings.days:
                allowed = "a day of the week that is not under `evenings` too"
                yield blame.fault(loc, "under `evenings` as well", allowed, "taking it out of `evenings`")


def _extra_days(builder: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("extra_days", at, "day") for at in range(len(builder.extra_days))]
    yield from blame.once(locs, [extra.day for extra in builder.extra_days], "taking out one of the two")


def _busy_days(builder: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("busy_days", at) for at in range(len(builder.busy_days))]
    yield from blame.once(locs, builder.busy_days, "taking out one of the two")


def _photos(builder: Any, blame: Blame) -> Iterator[Fault]:
    for at, slug in enumerate(builder.photo_first or ()):
        yield from blame.known(("photo_first", at), slug, BUILD_STAGES, "the list of stages")
