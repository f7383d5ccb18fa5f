"""What a build uses up and what it needs by when."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.build.timeline import Sitting, Work

HANDS_WET = frozenset({"cure", "clamp", "coat", "hard", "dry"})
"""Waits after works in which hands touch glue, sealer or finish."""
DUSTY = frozenset(
    {"panels_scrape", "frame_fair", "keying", "trace_cut", "inside", "top_deck_read", "top_deck_key", "rails_trim"}
    | {"shaping", "fin_cut", "seal_prepare"}
)
"""Works in which wood is cut, scraped or sanded."""


@dataclass(frozen=True, slots=True)
class Need:
    """Something to get before a stage begins; it is in use until the end of `until`, or of that stage alone.

    `amount` and `size` name the numbers of how much and of what pack or size, "" where there is none; `unit` is the
    word that the amount counts, and `why` says what it is for or what else will do.
    """

    stage: str
    name: str
    amount: str = ""
    unit: str = ""
    size: str = ""
    why: str = ""
    until: str = ""


def still_ahead(needs: Iterable[Need], *, stages: Sequence[str], at: str) -> tuple[tuple[str, tuple[Need, ...]], ...]:
    """Needs by stage, in the order of the stages, from the stage that the builder is at.

    What is needed since an earlier stage and still in use stands under the stage that the builder is at.

    Raises:
        ValueError: a need's stage, or `at`, is none of the stages.
    """
    listed = tuple(needs)
    strange = {stage for need in listed for stage in (need.stage, need.until or need.stage)} - set(stages)
    if strange or at not in stages:
        raise ValueError(f"no such stage: {', '.join(sorted(strange)) or at}")
    here, ahead = stages.index(at), stages[stages.index(at) :]

    def group(need: Need) -> str:
        begins, ends = stages.index(need.stage), stages.index(need.until or need.stage)
        return at if begins < here <= ends else need.stage

    groups = ((slug, tuple(need for need in listed if group(need) == slug)) for slug in ahead)
    return tuple((slug, members) for slug, members in groups if members)


def glove_pairs(works: Iterable[Work]) -> int:
    """A fresh pair of gloves for each pair of hands in every work with glue, sealer or finish."""
    return sum(work.people for work in works if work.waits_for in HANDS_WET)


def dusty_sittings(sittings: Iterable[Sitting]) -> int:
    """Stretches of work in which wood is cut, scraped or sanded: a disposable mask serves for one of them."""
    return sum(sitting.work.name.partition(".")[0] in DUSTY for sitting in sittings)


def parting_sheet_mm2(*, blank_length_mm: float, blank_width_mm: float) -> float:
    """Parting sheet for one panel while it is glued, mm²: one sheet below and one above. It serves again later.

    Raises:
        ValueError: a size is not above 0.
    """
    if not (blank_length_mm > 0 and blank_width_mm > 0):
        raise ValueError("the panel's length and width must be above 0")
    return 2 * blank_length_mm * blank_width_mm
