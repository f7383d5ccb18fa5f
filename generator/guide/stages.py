"""The stages of a build, in order. Slugs and file names are fixed for ever: ticks and calendars hang on them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stage:
    """One page of the guide. `later` stages are named in the contents and written another time."""

    slug: str
    title: str
    file: str
    later: bool = False


STAGES: tuple[Stage, ...] = (
    Stage("board", "The board at a glance", "index.md"),
    Stage("ready", "Getting ready", "ready.md"),
    Stage("panels", "Deck panels", "panels.md"),
    Stage("frame", "Frame", "frame.md"),
    Stage("keying", "Keying the glue faces", "keying.md"),
    Stage("trace", "Trace and cut", "trace.md"),
    Stage("bench", "The bench", "bench.md"),
    Stage("rocker", "The rocker", "rocker.md"),
    Stage("clamp", "Dry clamp and centre line", "clamp.md"),
    Stage("glue", "Bottom glue-up", "glue.md"),
    Stage("inside", "Inside: bracing, blocks and vent", "inside.md", later=True),
    Stage("top-deck", "Top deck", "top-deck.md", later=True),
    Stage("rails", "Rails", "rails.md", later=True),
    Stage("shaping", "Shaping and sanding", "shaping.md", later=True),
    Stage("fin", "Fin and plugs", "fin.md", later=True),
    Stage("seal", "Sealing", "seal.md", later=True),
    Stage("water", "Leak test, first swim, care", "water.md", later=True),
    Stage("numbers", "All the numbers", "numbers.md"),
)

BUILD_STAGES: tuple[Stage, ...] = tuple(stage for stage in STAGES if stage.slug not in {"board", "numbers"})
