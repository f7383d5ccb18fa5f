"""One builder's works laid into their free time, and the words for each work and each wait."""

from __future__ import annotations

import datetime as dt
from types import MappingProxyType

from generator.bench.release import Route
from generator.build.cure import LabelTimes, label_times
from generator.build.free_time import FreeTime
from generator.build.rails import layers_needed
from generator.build.timeline import Sitting, Work, lay_out
from generator.build.works import DAY_MIN, GOES, Build, Coats, Rolling, works
from generator.inputs.builder import Builder
from generator.inputs.site import Inputs

HANDS_ON = "practice.hands_on."
WHAT = {
    "ready": "Measure the air, count and measure your things",
    "panels_join": "Join planks end to end",
    "panels": "Glue up panel",
    "panels_scrape": "Scrape and measure both panels, do the sag test",
    "frame.1": "Glue the ribs in",
    "frame.2": "Glue the edge strips on",
    "frame_fair": "Fair and weigh the frame, do the sag test, send your readings",
    "keying": "Key the glue faces",
    "trace": "Trace the outline",
    "trace_cut": "Cut the panel out",
    "bench": "Set up the bench",
    "rocker": "Tune the rocker",
    "clamp": "Dry clamp, check the centre line, send your readings",
    "glue": "Glue the bottom panel on",
    "glue_read": "Read the heights again, send your readings",
    "inside": "Pierce the ribs, cut the blocks",
    "inside_foam": "Cut and fit the foam",
    "inside_blocks": "Set everything in dry, then glue it in",
    "inside_seal": "Seal the inside, prove the air path",
    "top_deck_read": "Read rocker and twist again, fair the top",
    "top_deck_cut": "Trace the top panel, cut it out",
    "top_deck_roll": "Damp the top panel, roll it half-way",
    "top_deck_down": "Roll the top panel all the way down",
    "top_deck_dry": "Clamp the top panel dry, read the rocker again",
    "top_deck_key": "Key the glue faces",
    "top_deck": "Glue the top panel on",
    "rails_trim": "Trim the panels flush",
    "rails_cut": "Cut the rail layers, join short pieces",
    "rails": "Glue on rail layer",
    "shaping": "Shape and sand",
    "fin_mark": "Mark where fin and plugs go",
    "fin_cut": "Drill and cut for fin and plugs",
    "fin_plugs": "Glue the plugs in, deck up",
    "fin": "Glue the fin in, bottom up",
    "seal_prepare": "Sand a last time, dust off",
    "seal_coat": "Put on coat",
    "water": "Leak test",
    "water_swim": "First swim",
}
SHORT = {
    "ready": "Getting ready",
    "panels": "Panels",
    "frame": "Frame",
    "keying": "Keying",
    "trace": "Trace and cut",
    "bench": "Bench",
    "rocker": "Rocker",
    "clamp": "Dry clamp",
    "glue": "Bottom glue",
    "inside": "Inside",
    "top-deck": "Top deck",
    "rails": "Rails",
    "shaping": "Shaping",
    "fin": "Fin and plugs",
    "seal": "Sealing",
    "water": "Water",
}
WAITS = {
    "": "",
    "rest": "the planks rest in the shed",
    "cure": "the glue dries",
    "clamp": "the glue sets",
    "answer": "your readings are being looked at",
    "photo": "your photo is being looked at",
    "dry": "the sealer inside dries",
    "damp": "the damp panel rests, half rolled",
    "bent": "the panel dries in its bend",
    "coat": "the coat dries",
    "hard": "the finish hardens",
}


def practice(inputs: Inputs, key: str) -> float:
    """One fact of common practice by its key.

    Raises:
        KeyError: the table does not hold it.
    """
    return {row.key: row.value for row in inputs.practice}[key]


def what(work: Work) -> str:
    """The work in words; of works that repeat, with its number."""
    name, _, number = work.name.partition(".")
    return WHAT[work.name] if work.name in WHAT else f"{WHAT[name]} {number}"


def cure(builder: Builder) -> LabelTimes:
    """The glue's times at the lowest temperature of the night, which is the one that counts."""
    return label_times(builder.glue, temperature_c=builder.shed.night_low_c)


def build_of(inputs: Inputs, route: Route, *, slowly: bool, rails_joined: bool, planks_joined: bool) -> Build:
    """What this builder's works hang on; `slowly` if the deck is rolled damp over its crown, joined if rail layers or
    rows of planks are made of pieces glued end to end."""
    builder, rails = inputs.builder, inputs.board.rails
    finish, dry_min = builder.finish, practice(inputs, "practice.inside_dry")
    photos = inputs.maker.defaults.photo_first if builder.photo_first is None else builder.photo_first
    return Build(
        hands_on_min={go: practice(inputs, HANDS_ON + go) for goes in GOES.values() for go in goes},
        rest_min=practice(inputs, "practice.rest_days") * DAY_MIN,
        cure_min=cure(builder).full_cure_min,
        clamp_min=cure(builder).clamp_min,
        answer_min=practice(inputs, "practice.answer_days") * DAY_MIN,
        fresh_min=practice(inputs, "practice.keyed_fresh"),
        inside_dry_min=max(dry_min, finish.recoat_after_min) if finish else dry_min,
        rail_layers=layers_needed(rail_mm=inputs.board.rail_mm, layer_mm=rails.layer_mm),
        rails_joined=rails_joined,
        planks_joined=planks_joined,
        foam=builder.foam is not None,
        rolling=Rolling(practice(inputs, "practice.bend_rest"), practice(inputs, "practice.bend_dry"))
        if slowly
        else None,
        coats=Coats(finish.coats, finish.recoat_after_min, finish.recoat_before_min, finish.full_cure_min)
        if finish
        else None,
        on_bench_to_top=route == "top panel",
        photo_first=tuple(photos),
    )


def free_time(builder: Builder) -> FreeTime:
    """When the builder has time, as the file says."""
    days = builder.free_days
    return FreeTime(
        evenings=frozenset(builder.evenings.days),
        evening_min=builder.evenings.length_min,
        days=frozenset(days.days) if days else frozenset(),
        day_min=days.length_min if days else 0.0,
        extra=MappingProxyType({extra.day: extra.length_min for extra in builder.extra_days}),
        busy=frozenset(builder.busy_days),
    )


def laid_out(inputs: Inputs, build: Build) -> tuple[Sitting, ...]:
    """The works from the stage that the builder is at, in their own free time.

    Without a finish nobody knows when it is hard, so nothing after the coats has a date.
    """
    builder, order = inputs.builder, list(GOES)
    at = order.index(builder.stage)
    until = order.index("water") if builder.finish or builder.stage == "water" else order.index("seal")
    ahead = [work for work in works(build) if at <= order.index(work.slug) <= until]
    return lay_out(ahead, free=free_time(builder), start=builder.start)


WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def long_date(day: dt.date) -> str:
    """ "Thursday, 4 February 2027"."""
    return f"{WEEKDAYS[day.weekday()]}, {day.day} {MONTHS[day.month - 1]} {day.year}"


def short_date(day: dt.date) -> str:
    """ "Thu 4 February"."""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1]}"


def date_span(first: dt.date, last: dt.date) -> str:
    """ "Thu 4 to Tue 9 February", or one date."""
    if first == last:
        return short_date(first)
    one = short_date(first)
    if (first.year, first.month) == (last.year, last.month):
        one = f"{WEEKDAYS[first.weekday()][:3]} {first.day}"
    return f"{one} to {short_date(last)}"


def month_starts(first: dt.date, last: dt.date) -> list[tuple[int, str]]:
    """Days from `first` to each first of a month up to `last`, with the month's short name; the first one is day 0."""
    starts = [(0, MONTHS[first.month - 1][:3])]
    for day in range(1, (last - first).days + 1):
        date = first + dt.timedelta(days=day)
        if date.day == 1:
            starts.append((day, MONTHS[date.month - 1][:3]))
    return starts


def listed(words: list[str]) -> str:
    """ "Mondays, Tuesdays and Fridays"; nothing for nothing."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)
