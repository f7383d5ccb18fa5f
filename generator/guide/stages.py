"""The pages of a guide, in order: the stages of a build, and what is looked up.

Slugs and file names are fixed for ever: ticks and calendars hang on them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stage:
    """One page of the guide."""

    slug: str
    title: str
    file: str


STAGES: tuple[Stage, ...] = (
    Stage("board", "The board at a glance", "index.md"),
    Stage("tonight", "Tonight", "tonight.md"),
    Stage("ready", "Getting ready", "ready.md"),
    Stage("shopping", "What to get", "shopping.md"),
    Stage("panels", "Deck panels", "panels.md"),
    Stage("frame", "Frame", "frame.md"),
    Stage("keying", "Keying the glue faces", "keying.md"),
    Stage("trace", "Trace and cut", "trace.md"),
    Stage("bench", "The bench", "bench.md"),
    Stage("rocker", "The rocker", "rocker.md"),
    Stage("clamp", "Dry clamp and centre line", "clamp.md"),
    Stage("glue", "Bottom glue-up", "glue.md"),
    Stage("inside", "Inside: bracing, blocks and vent", "inside.md"),
    Stage("top-deck", "Top deck", "top-deck.md"),
    Stage("rails", "Rails", "rails.md"),
    Stage("shaping", "Shaping and sanding", "shaping.md"),
    Stage("fin", "Fin and plugs", "fin.md"),
    Stage("seal", "Sealing", "seal.md"),
    Stage("water", "Leak test, first swim, care", "water.md"),
    Stage("safety", "Dust, noise and hands", "safety.md"),
    Stage("words", "Words of the trade", "words.md"),
    Stage("numbers", "All the numbers", "numbers.md"),
)

LOOKED_UP = frozenset({"board", "tonight", "shopping", "safety", "words", "numbers"})
BUILD_STAGES: tuple[Stage, ...] = tuple(stage for stage in STAGES if stage.slug not in LOOKED_UP)
