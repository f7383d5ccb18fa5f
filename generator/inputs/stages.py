"""The names that a builder's file may use for stages. Titles and pages are the guide's; a test keeps both in step."""

from __future__ import annotations

BUILD_STAGES = (
    *("ready", "panels", "frame", "keying", "trace", "bench", "rocker", "clamp", "glue"),
    *("inside", "top-deck", "rails", "shaping", "fin", "seal", "water"),
)
"""Where a builder can be."""

NOTED_STAGES = ("board", "tonight", "shopping", "safety", *BUILD_STAGES, "words", "numbers")
"""Pages that a note from the maker can stand on."""
