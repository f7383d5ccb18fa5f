"""Figures of how far the bench can be trusted, and of the tests that tell how stiff the parts really are."""

from __future__ import annotations

from typing import Literal

from generator.board.sag import Scale
from generator.board.section import SagPart, expected_drop_mm
from generator.figure_sets.facts import BENT, SOLVED, TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.inputs.builder import Sag
from generator.quantities import GRAVITY_M_S2

Ends = Literal["low", "value", "high"]
APART_PER_LENGTH, APART_STEP_MM = {"frame": 0.75, "panel": 0.6}, 50.0
ALIKE = 1.25
"""Doubts nearer than this are about as great as each other."""
WEIGHT_KG = {"frame": 4.0, "panel": 2.0}
"""Sag tests that drop the usual part by about a finger's width."""
PLACED = "As you did it, or a test that drops the usual part by about a finger's width."


def add_trust(book: FigureBook, facts: Facts) -> None:
    """The band over the range of stiffness, what makes it, and both sag tests."""
    plan = facts.plan
    for key, value, label in (
        (
            "bench.band",
            plan.band_mm,
            "greatest distance between what two boards keep, anywhere in the range of stiffness",
        ),
        ("bench.band_frame", plan.band_frame_mm, "the same if only the frame's stiffness were in doubt"),
        ("bench.band_panel", plan.band_panel_mm, "the same if only the panel's stiffness were in doubt"),
    ):
        book.add(key, value, "mm", label, how=SOLVED, kind=BENT, step=0.1)
    least = min(support.load_low_n for support in plan.supports)
    book.add(
        "bench.least_load",
        least / GRAVITY_M_S2,
        "kg",
        "least that any support carries, over the range of stiffness",
        how=SOLVED,
        kind=BENT,
        step=0.1,
    )
    measured = facts.inputs.builder.measured
    _add_sag(book, facts, "frame", measured.frame_sag, facts.body.frame_scale)
    _add_sag(book, facts, "panel", measured.panel_sag, facts.body.panel_scale)
    left = {"frame": plan.band_frame_mm, "panel": plan.band_panel_mm}
    book.said["measure_alike"] = max(left.values()) < ALIKE * min(left.values())
    book.said["measure_first"] = max(left, key=lambda part: left[part])


def _add_sag(book: FigureBook, facts: Facts, part: SagPart, test: Sag | None, scale: Scale | None) -> None:
    """How to do one sag test, what the board file lets expect, and what was found."""
    step = APART_STEP_MM
    apart = test.apart_mm if test else step * round(APART_PER_LENGTH[part] * facts.body.length_mm / step)
    weight = test.weight_kg if test else WEIGHT_KG[part]
    kind = Kind.MEASURED if test else Kind.MAKER
    book.add(f"sag.{part}.apart", apart, "mm", f"supports of the {part}'s sag test, apart", how=PLACED, kind=kind)
    book.add(f"sag.{part}.weight", weight, "kg", f"weight of the {part}'s sag test", how=PLACED, kind=kind, step=0.1)
    low, value, high = (_drop(facts, part, apart, weight, which) for which in ("high", "value", "low"))
    book.add(
        f"sag.{part}.drop",
        value,
        "mm",
        f"drop of the {part} that its stiffness lets expect",
        how="Unit-load method over the stiffness along the part.",
        kind=(Kind.MAKER, Kind.ASSUMED),
        low=low,
        high=high,
        step=0.5,
    )
    book.said[f"sag.{part}.done"] = test is not None
    if test is None or scale is None:
        return
    book.add(
        f"sag.{part}.read",
        test.drop_mm,
        "mm",
        f"drop of the {part} that you read",
        how=TYPED_BUILDER,
        kind=kind,
        step=0.5,
    )
    book.add(
        f"sag.{part}.found",
        100 * scale.value,
        "%",
        f"stiffness of your {part}, of what the board file says",
        how="Drop that was to be expected over the drop that you read.",
        kind=(Kind.MEASURED, Kind.MAKER),
        low=100 * scale.low,
        high=100 * scale.high,
    )


def _drop(facts: Facts, part: SagPart, apart_mm: float, weight_kg: float, which: Ends) -> float:
    """Drop at what the board file says, whatever was measured."""
    return expected_drop_mm(facts.unmeasured, part, apart_mm=apart_mm, weight_kg=weight_kg, which=which)
