"""All works of a build from getting ready to the first swim, in the goes in which they are really done."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from generator.build.timeline import Work

DAY_MIN = 1440.0
GOES: Mapping[str, tuple[str, ...]] = {
    "ready": ("ready",),
    "panels": ("panels_join", "panels", "panels_scrape"),
    "frame": ("frame", "frame_fair"),
    "keying": ("keying",),
    "trace": ("trace", "trace_cut"),
    "bench": ("bench",),
    "rocker": ("rocker",),
    "clamp": ("clamp",),
    "glue": ("glue", "glue_read"),
    "inside": ("inside", "inside_foam", "inside_blocks", "inside_seal"),
    "top-deck": (
        *("top_deck_read", "top_deck_cut", "top_deck_roll", "top_deck_down", "top_deck_dry"),
        *("top_deck_key", "top_deck"),
    ),
    "rails": ("rails_trim", "rails_cut", "rails"),
    "shaping": ("shaping",),
    "fin": ("fin_mark", "fin_cut", "fin_plugs", "fin"),
    "seal": ("seal_prepare", "seal_coat"),
    "water": ("water", "water_swim"),
}
"""Of each stage, the works whose hands-on times are known by these names. Panels, frame, rails and coats repeat; joins
of planks, foam and the slow rolling of the deck are not in every build."""

AFTER_PHOTO: Mapping[str, tuple[str, ...]] = {
    "panels": ("panels",),
    "frame": ("frame",),
    "trace": ("trace_cut",),
    "glue": ("glue",),
    "inside": ("inside_blocks", "top_deck_read"),
    "top-deck": ("top_deck_key",),
    "rails": ("rails_trim",),
    "shaping": ("shaping",),
    "fin": ("fin_cut",),
    "seal": ("seal_coat",),
}
"""Of each stage, the works that wait for the answer where the maker wants a photo before what can't be undone."""


@dataclass(frozen=True, slots=True)
class Coats:
    """Coats of a finish: how many, and its label's times in minutes; `before_min` is None if it gives no latest."""

    count: int
    after_min: float
    before_min: float | None
    full_cure_min: float


@dataclass(frozen=True, slots=True)
class Rolling:
    """Times of a top panel that is rolled damp over its crown, minutes: half rolled, and bent until it is dry."""

    rest_min: float
    dry_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What the works of one build hang on; times in minutes.

    `hands_on_min` has one go's time by its name in `GOES`. `cure_min` is the glue's full cure where it really cures,
    `clamp_min` its clamp time there, `answer_min` how long the maker's answer takes, `fresh_min` how long a keyed face
    stays fresh. `coats` is None where the finish is not known yet, `rolling` where the top panel goes over its crown in
    one go. `foam` says that there is foam to fit, `planks_joined` and `rails_joined` that rows of planks and rail
    layers are made of pieces glued end to end. `on_bench_to_top` says that the board stays on its bench until the top
    panel is on, `photo_first` names the stages before whose final step the maker wants a photo.
    """

    hands_on_min: Mapping[str, float]
    rest_min: float
    cure_min: float
    clamp_min: float
    answer_min: float
    fresh_min: float
    inside_dry_min: float
    rail_layers: int
    rails_joined: bool
    planks_joined: bool
    foam: bool
    rolling: Rolling | None
    coats: Coats | None
    on_bench_to_top: bool
    photo_first: Collection[str] = ()


def works(build: Build) -> tuple[Work, ...]:
    """Every work in order; where the finish is not known, without its coats.

    After a photo has been sent, nothing is done until the answer can be there. Whatever is glued, cut, coated or
    rehearsed is never broken off; rail layers may be cut and joined one after the other.
    """
    made = [*_bottom(build), *_top(build), *_outside(build)]
    for after in (name for slug in build.photo_first for name in AFTER_PHOTO.get(slug, ())):
        at = next((n for n, work in enumerate(made) if _kind(work) == after), 0)
        if at and made[at - 1].wait_min < build.answer_min:
            made[at - 1] = dataclasses.replace(made[at - 1], wait_min=build.answer_min, waits_for="photo")
    return tuple(made)


def _kind(work: Work) -> str:
    return work.name.partition(".")[0]


def _bottom(build: Build) -> list[Work]:
    take, cure, answer = build.hands_on_min, build.cure_min, build.answer_min
    return [
        Work("ready", "ready", take["ready"], build.rest_min, "rest"),
        *([_glued("panels", "panels_join", take["panels_join"], cure, table=True)] if build.planks_joined else []),
        *(_glued("panels", f"panels.{n}", take["panels"] / 2, cure, table=True) for n in (1, 2)),
        Work("panels", "panels_scrape", take["panels_scrape"]),
        *(_glued("frame", f"frame.{n}", take["frame"] / 2, cure, table=True) for n in (1, 2)),
        Work("frame", "frame_fair", take["frame_fair"], answer, "answer", people=2),
        Work("keying", "keying", take["keying"], unbroken=True),
        Work("trace", "trace", take["trace"]),
        Work("trace", "trace_cut", take["trace_cut"], unbroken=True),
        Work("bench", "bench", take["bench"], table=True, stays=True),
        Work("rocker", "rocker", take["rocker"], people=2, table=True, stays=True),
        Work("clamp", "clamp", take["clamp"], answer, "answer", unbroken=True, people=2, table=True, stays=True),
        dataclasses.replace(
            _glued("glue", "glue", take["glue"], cure, people=2, table=True),
            fresh_since="keying",
            fresh_min=build.fresh_min,
            stays=True,
        ),
        Work("glue", "glue_read", take["glue_read"], answer, "answer", table=True, stays=build.on_bench_to_top),
    ]


def _glued(slug: str, name: str, hands_on_min: float, cure_min: float, *, people: int = 1, table: bool = False) -> Work:
    """A go with glue: not broken off, and left alone until the glue is hard."""
    return Work(slug, name, hands_on_min, cure_min, "cure", unbroken=True, people=people, table=table)


def _top(build: Build) -> list[Work]:
    take, held = build.hands_on_min, build.on_bench_to_top
    blocks = _glued("inside", "inside_blocks", take["inside_blocks"], build.cure_min, table=held)
    return [
        Work("inside", "inside", take["inside"], table=held, stays=held),
        *([Work("inside", "inside_foam", take["inside_foam"], table=held, stays=held)] if build.foam else []),
        dataclasses.replace(blocks, stays=held),
        Work("inside", "inside_seal", take["inside_seal"], build.inside_dry_min, "dry", table=held, stays=held),
        Work("top-deck", "top_deck_read", take["top_deck_read"], table=True, stays=True),
        Work("top-deck", "top_deck_cut", take["top_deck_cut"], unbroken=True, table=True, stays=True),
        *(_rolled(build.rolling, take) if build.rolling else ()),
        Work("top-deck", "top_deck_dry", take["top_deck_dry"], unbroken=True, people=2, table=True, stays=True),
        Work("top-deck", "top_deck_key", take["top_deck_key"], unbroken=True, table=True, stays=True),
        dataclasses.replace(
            _glued("top-deck", "top_deck", take["top_deck"], build.cure_min, people=2, table=True),
            fresh_since="top_deck_key",
            fresh_min=build.fresh_min,
        ),
    ]


def _rolled(rolling: Rolling, take: Mapping[str, float]) -> Iterator[Work]:
    """The top panel rolled half-way, left damp, rolled down, and left to dry in its shape, always by two people."""
    for name, wait in (("top_deck_roll", (rolling.rest_min, "damp")), ("top_deck_down", (rolling.dry_min, "bent"))):
        yield Work("top-deck", name, take[name], *wait, unbroken=True, people=2, table=True, stays=True)


def _outside(build: Build) -> list[Work]:
    take, cure, layers = build.hands_on_min, build.cure_min, build.rail_layers
    joins = (cure, "cure") if build.rails_joined else ()
    return [
        Work("rails", "rails_trim", take["rails_trim"]),
        *([Work("rails", "rails_cut", layers * take["rails_cut"], *joins)] if layers else []),
        *(_glued("rails", f"rails.{n}", take["rails"], cure) for n in range(1, layers + 1)),
        Work("shaping", "shaping", take["shaping"]),
        Work("fin", "fin_mark", take["fin_mark"]),
        Work("fin", "fin_cut", take["fin_cut"], unbroken=True),
        Work("fin", "fin_plugs", take["fin_plugs"], build.clamp_min, "clamp", unbroken=True),
        _glued("fin", "fin", take["fin"], cure),
        Work("seal", "seal_prepare", take["seal_prepare"]),
        *(_coats(build.coats, take["seal_coat"]) if build.coats else ()),
        Work("water", "water", take["water"], unbroken=True),
        Work("water", "water_swim", take["water_swim"], unbroken=True, people=2, daylight=True),
    ]


def _coats(coats: Coats, hands_on_min: float) -> Iterator[Work]:
    """The coats: each waits for the one before it, and where the label says so, not too long."""
    for n in range(1, coats.count + 1):
        latest = coats.before_min if n > 1 else None
        wait = (coats.full_cure_min, "hard") if n == coats.count else (coats.after_min, "coat")
        since = "" if latest is None else f"seal_coat.{n - 1}"
        yield Work(
            "seal", f"seal_coat.{n}", hands_on_min, *wait, unbroken=True, fresh_since=since, fresh_min=latest or 0.0
        )
