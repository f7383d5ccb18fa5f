"""The names that a builder's file may use for stages. Titles and pages are the guide's; a test keeps both in step."""

from __future__ import annotations

WRITTEN_STAGES = ("ready", "panels", "frame", "keying", "trace", "bench", "rocker", "clamp", "glue")
LATER_STAGES = ("inside", "top-deck", "rails", "shaping", "fin", "seal", "water")

BUILD_STAGES = WRITTEN_STAGES + LATER_STAGES
"""Where a builder can be."""

NOTED_STAGES = ("board", *WRITTEN_STAGES, "numbers")
"""Pages that a note from the maker can stand on."""
