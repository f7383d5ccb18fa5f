"""Figures of the deck panels: planks, blank, mass, trace and cut."""

from __future__ import annotations

import math

import numpy as np

from generator.figure_sets.board import crowded_at_the_ends
from generator.figure_sets.facts import TYPED_BOARD, Facts, stiffness_kind
from generator.figure_sets.planks import kinds
from generator.figures import FigureBook, Kind

MAKER = Kind.MAKER


def add_panels(book: FigureBook, facts: Facts) -> None:
    """One panel, as glued up from its planks."""
    body, panel = facts.body, facts.inputs.board.panel
    blank = body.blank
    book.add(
        "panel.thickness",
        body.panel_mm,
        "mm",
        "thickness of a panel",
        how="As measured.",
        kind=facts.panel_thickness_kind,
        step=0.1,
    )
    book.add("panel.plank_width", panel.plank_width_mm, "mm", "width of a plank", how=TYPED_BOARD, kind=MAKER)
    book.add("panel.plank_length", panel.plank_length_mm, "mm", "length of a plank", how=TYPED_BOARD, kind=MAKER)
    book.add(
        "panel.blank_length",
        blank.length_mm,
        "mm",
        "length that a panel needs",
        how="The bottom's length along its curve, and the trace margin at both tips.",
        kind=MAKER,
    )
    book.add(
        "panel.blank_width",
        blank.width_mm,
        "mm",
        "width that a panel needs",
        how="The trace line at its widest.",
        kind=MAKER,
    )
    laid = kinds(facts)
    book.add(
        "panel.planks",
        math.ceil(facts.planks.planks / 2),
        "",
        "planks for one panel",
        how="Planks for both panels by two, rounded up.",
        kind=laid,
    )
    book.add(
        "panel.planks_across",
        blank.planks_across,
        "",
        "planks side by side in the bottom panel",
        how="Of all choices that take the least wood, the one with the fewest rows.",
        kind=laid,
    )
    book.add(
        "panel.planks_along",
        blank.planks_along,
        "",
        "most pieces end to end in one row",
        how="Whole planks, and one piece cut to length.",
        kind=laid,
    )
    for key, value, unit, label, how in (
        (
            "length",
            blank.length_mm + blank.spare_length_mm,
            "mm",
            "length of a panel as glued up",
            "At least so long; planks that are longer stick out at the ends.",
        ),
        (
            "width",
            blank.width_mm + blank.spare_width_mm,
            "mm",
            "width of a panel as glued up",
            "The planks' widths, less what truing the edges takes at each glue line. Bottom panel.",
        ),
        (
            "spare_width",
            blank.spare_width_mm,
            "mm",
            "spare width of a panel",
            "Width as glued up less the width that is needed. Bottom panel.",
        ),
        (
            "glue_lines",
            blank.planks_across - 1,
            "",
            "glue lines along a panel",
            "One between each two planks. Bottom panel.",
        ),
        (
            "glue_length",
            (blank.planks_across - 1) * blank.length_mm,
            "mm",
            "glue lines of a panel, together",
            "Their number times the length that a panel needs. Bottom panel.",
        ),
    ):
        book.add(f"panel.{key}", value, unit, label, how=how, kind=laid)
    book.add(
        "panel.area",
        body.trace.area_mm2 / 1e6,
        "m2",
        "area of a panel as cut",
        how="Inside the trace line.",
        kind=MAKER,
        step=0.01,
    )
    book.add(
        "panel.mass",
        body.masses.panel_kg,
        "kg",
        "mass of a panel as cut",
        how="Weighed." if body.masses.panel_weighed else "Area, thickness and density.",
        kind=Kind.MEASURED if body.masses.panel_weighed else [MAKER, facts.panel_thickness_kind],
        step=0.05,
    )
    book.add(
        "panel.density", panel.density_kg_m3, "kg/m3", "density of the panel's timber", how=TYPED_BOARD, kind=MAKER
    )
    book.add(
        "panel.stiffness",
        panel.stiffness_mpa.value,
        "MPa",
        "stiffness of the panel along its grain",
        how=TYPED_BOARD,
        kind=stiffness_kind(panel.stiffness_mpa),
        low=panel.stiffness_mpa.low,
        high=panel.stiffness_mpa.high,
        step=100,
    )
    book.said["panel.timber"] = facts.inputs.species.name
    _add_species(book, facts)


def _add_species(book: FigureBook, facts: Facts) -> None:
    """What the published table says of the timber, beside what the maker typed."""
    species = facts.inputs.species
    if species.stiffness_mpa is not None:
        book.add(
            "panel.stiffness_published",
            species.stiffness_mpa,
            "MPa",
            "stiffness of the timber in a published table",
            how="Mean of small clear pieces; single boards differ by a wide margin. Not used in any sum here.",
            kind=Kind.PUBLISHED,
            source=f"{species.source} ({species.strength_read or species.read})",
            step=100,
        )


def add_trace(book: FigureBook, facts: Facts) -> None:
    """The trace line round the frame, and the cut outside it."""
    body = facts.body
    trace, margin = body.trace, body.margin
    tail, nose = trace.ends_mm
    book.add(
        "trace.margin",
        margin.sides_mm,
        "mm",
        "trace margin at the sides",
        how="How far outside the frame the line is drawn.",
        kind=MAKER,
    )
    book.add(
        "trace.margin_tips",
        margin.tips_mm,
        "mm",
        "trace margin at the tips",
        how="More than at the sides, because frame and panel slide along each other as they bend.",
        kind=MAKER,
    )
    book.add(
        "trace.perimeter", trace.perimeter_mm, "mm", "length of the trace line", how="Once round.", kind=MAKER, step=10
    )
    book.add(
        "trace.area",
        trace.area_mm2 / 1e6,
        "m2",
        "area inside the trace line",
        how="Inside the trace line.",
        kind=MAKER,
        step=0.01,
    )
    book.add("trace.width", trace.widest_mm, "mm", "width across the trace line", how="At its widest.", kind=MAKER)
    book.add(
        "trace.length",
        nose - tail + facts.body.developed_length_mm - facts.body.length_mm,
        "mm",
        "length of the trace line, tip to tip",
        how="Along the bent bottom, and the margin at both tips.",
        kind=MAKER,
    )
    book.add(
        "trace.offcut_side",
        (book.values["panel.width"].value - trace.widest_mm) / 2,
        "mm",
        "narrowest offcut at each side",
        how="Panel as glued up less the trace line, by two.",
        kind=MAKER,
    )
    x = crowded_at_the_ends(tail, nose)
    half = trace.half_width_mm(np.clip(x, tail + 1e-6, nose - 1e-6))
    book.draw("outline.trace", x, half, "mm", "trace line, half width")
