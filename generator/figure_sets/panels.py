"""Figures of the deck panels: planks, blank, mass, trace and cut."""

from __future__ import annotations

import numpy as np

from generator.figure_sets.board import crowded_at_the_ends
from generator.figure_sets.facts import TYPED_BOARD, Facts, stiffness_kind
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
    book.add(
        "panel.planks",
        blank.planks,
        "",
        "planks for one panel",
        how="Planks side by side for the width, times pieces end to end for the length.",
        kind=MAKER,
    )
    book.add(
        "panel.planks_across",
        blank.planks_across,
        "",
        "planks side by side in one panel",
        how="The width that a panel needs by the width of a plank, rounded up.",
        kind=MAKER,
    )
    book.add(
        "panel.planks_along",
        blank.planks_along,
        "",
        "pieces end to end in one row",
        how="The length that a panel needs by the length of a plank, rounded up.",
        kind=MAKER,
    )
    book.add(
        "panel.length",
        max(blank.length_mm, blank.planks_along * panel.plank_length_mm),
        "mm",
        "length of a panel as glued up",
        how="Whole planks end to end.",
        kind=MAKER,
    )
    width = blank.planks_across * panel.plank_width_mm
    book.add("panel.width", width, "mm", "width of a panel as glued up", how="Whole planks side by side.", kind=MAKER)
    book.add(
        "panel.spare_width",
        width - blank.width_mm,
        "mm",
        "spare width of a panel",
        how="Width as glued up less the width that is needed.",
        kind=MAKER,
    )
    book.add(
        "panel.glue_lines",
        blank.planks_across - 1,
        "",
        "glue lines along a panel",
        how="One between each two planks.",
        kind=MAKER,
    )
    book.add(
        "panel.glue_length",
        (blank.planks_across - 1) * blank.length_mm,
        "mm",
        "glue lines of a panel, together",
        how="Their number times the length that a panel needs.",
        kind=MAKER,
    )
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
    book.rows["planks"] = tuple(
        {"n": n + 1, "width_mm": panel.plank_width_mm, "from_mm": n * panel.plank_width_mm}
        for n in range(blank.planks_across)
    )
    book.said["panel.timber"] = facts.inputs.species.name
    book.said["planks_joined"] = blank.planks_along > 1
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
