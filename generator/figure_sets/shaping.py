"""Figures of shaping: the batten's gap, what sanding costs, and pencil lines for rounding the rails."""

from __future__ import annotations

import numpy as np

from generator.build.fairness import gap_curvature_per_mm, round_marks, sagitta_mm, thinned
from generator.build.rails import rim_height_mm, rim_of
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind
from generator.quantities import fixed

MAKER, PRACTICE = Kind.MAKER, Kind.COMMON_PRACTICE
COMMON = "common practice"
BATTEN_MM, GAP_MM = 600.0, 0.5
OFF_MM = 0.5
PASS_MM = (0.03, 0.05, 0.08)
PCT = 100.0
EDGE_SHARE = 0.5
"""Of a board without rails, only this share of a panel's thickness and of the edge strip's is rounded off."""


def add_shaping(book: FigureBook, facts: Facts) -> None:
    """All figures of shaping; after `add_rails`."""
    _batten(book, facts)
    _sanding(book, facts)
    _marks(book, facts)


def _batten(book: FigureBook, facts: Facts) -> None:
    curves = np.linspace(0.0, facts.body.length_mm, 201)
    bend = float(np.max(facts.body.rocker.curvature_per_mm(curves)))
    for key, value, label, how, step in (
        ("shape.batten", BATTEN_MM, "length of the batten", "As long as what the eye takes in along a board.", 1.0),
        ("shape.gap", GAP_MM, "greatest gap under the batten", "About what shows in raking light.", 0.1),
    ):
        book.add(key, value, "mm", label, how=how, kind=PRACTICE, source=COMMON, step=step)
    gap = gap_curvature_per_mm(gap_mm=GAP_MM, span_mm=BATTEN_MM)
    book.add(
        "shape.gap_share", PCT * gap / bend if bend > 0 else 0.0, "%",
        "change of bend that this gap shows, of the rocker's tightest bend", kind=[MAKER, PRACTICE], step=1,
        how="Eight times the gap by the square of the batten's length.", source="height of a circle's segment",
    )  # fmt: skip
    book.add(
        "shape.stiff_gap", sagitta_mm(radius_mm=1 / bend, span_mm=BATTEN_MM) if bend > BATTEN_MM**-2 / 100 else 0.0,
        "mm", "gap that a stiff straight edge as long shows on the rocker itself", kind=MAKER, step=0.5,
        how="Height of the arc over its chord where the rocker bends most.", source="height of a circle's segment",
    )  # fmt: skip


def _sanding(book: FigureBook, facts: Facts) -> None:
    thick, kinds = facts.body.panel_mm, [facts.panel_thickness_kind, PRACTICE]
    after = thinned(thickness_mm=thick, off_mm=OFF_MM)
    book.add(
        "shape.off", OFF_MM, "mm", "most to take off a panel's face, planing and sanding together", kind=PRACTICE,
        how="A thin panel has little to give away.", source=COMMON, step=0.1,
    )  # fmt: skip
    book.add(
        "shape.least", after.left_mm, "mm", "least thickness of a panel", kind=kinds, step=0.1,
        how="Its thickness less what may be taken off.",
    )  # fmt: skip
    low, usual, high = (OFF_MM / one for one in reversed(PASS_MM))
    book.add(
        "shape.passes", usual, "", "passes over one place that take so much off", kind=[PRACTICE, Kind.ASSUMED],
        low=low, high=high, how="What may come off by what one even pass takes; feel for it on an offcut.",
    )  # fmt: skip
    for key, value, label, how in (
        ("shape.bends", PCT * (after.bends - 1), "how much further the panel then bends under a knee",
         "Stiffness goes with the third power of thickness."),
        ("shape.stress", PCT * (after.stress - 1), "how much harder the wood is then worked",
         "Stress goes with the second power of thickness."),
    ):  # fmt: skip
        book.add(key, value, "%", label, how=how, kind=kinds, source="I = b d³/12, section modulus b d²/6", step=1)


def _marks(book: FigureBook, facts: Facts) -> None:
    body = facts.body
    tips_in, length = book.values["board.tips_in"].value, body.length_mm
    rim = rim_of(body)
    rail = body.board.rail_mm
    edge = EDGE_SHARE * min(body.panel_mm, body.board.edge_strip.thickness_mm)
    rows: list[dict[str, object]] = []
    for name, at in (("near the tail", tips_in), ("half-way along", length / 2), ("near the nose", length - tips_in)):
        high = float(rim_height_mm(body, fixed([at]), out_mm=rail)[0])
        width = float(np.interp(at, rim.x_mm, rim.width_mm)) if rail > 0 else edge
        deep = high / 2 if rail > 0 else edge
        key = f"shape.round.{len(rows) + 1}"
        marks = round_marks(width_mm=max(width, edge), height_mm=max(deep, edge))
        for part, value, label in (
            ("from_tail", at, "place, from the tail tip"),
            ("width", max(width, edge), "width of the round"),
            ("height", max(deep, edge), "half of the side's height"),
            ("first_in", marks.first_in, "first line on the deck, in from the outside"),
            ("first_down", marks.first_down, "first line on the side, from the deck"),
            ("second_on_flat", marks.second_on_flat, "line on the first flat, from each of its edges"),
            ("second_in", marks.second_in, "second line on the deck, in from the outside"),
            ("second_down", marks.second_down, "second line on the side, from the deck"),
        ):
            book.add(
                f"{key}.{part}", value, "mm", f"rounding {name}: {label}",
                kind=[MAKER, facts.panel_thickness_kind, *([PRACTICE] if rail <= 0 else [])], step=0.5,
                how="Flats that only touch a half ellipse as wide as the rail and as high as the side.",
                source="tangents of a circle, drawn out to an ellipse",
            )  # fmt: skip
        rows.append({"n": len(rows) + 1, "key": key, "name": name})
    book.rows["round_marks"] = tuple(rows)
