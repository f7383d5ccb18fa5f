"""Figures of the curve that the bench gives: rises, limits, heights at the ribs, and what goes wrong otherwise."""

from __future__ import annotations

import numpy as np

from generator.bench.contact import INVERTED_PER_MM
from generator.figure_sets.facts import BENT, SOLVED, Facts
from generator.figures import FigureBook, Kind
from generator.quantities import Floats

PASS_TIPS_MM, PASS_HOLLOW_MM, STRAIGHT_EDGE_MM = 4.0, 0.5, 600.0
SPRING_MATTERS_MM = 3.0
PLANNED_TO_MM = 2.0
ROUNDING_PER_MM = 1e-9


def add_curve(book: FigureBook, facts: Facts) -> None:
    """The curve with everything on and bare, and how far it may be out."""
    _add_result(book, facts)
    _add_limits(book, facts)
    _add_ribs(book, facts)
    _add_without(book, facts)
    _draw(book, facts)


def _add_result(book: FigureBook, facts: Facts) -> None:
    plan, length = facts.plan, facts.body.length_mm
    curves = plan.curves
    book.add(
        "bench.common_height",
        plan.line_mm(facts.body.rises.low_point_mm, length),
        "mm",
        "lowest point of the bottom above the level line",
        how="As low as clamps, room for a hand and your things allow.",
        kind=BENT,
        step=0.5,
    )
    book.add(
        "bench.tilt",
        plan.tilt_mm + plan.turn_mm,
        "mm",
        "how much higher the nose end of the whole bench stands",
        how="A small tilt that lets your things fit; it changes no curve.",
        kind=BENT,
        step=0.5,
    )
    for name, heights, label in (
        ("result", curves.clamped_mm, "with clamps and weights on"),
        ("bare", curves.bare_mm, "before clamps and weights"),
    ):
        for end, at in (("tail", 0), ("nose", -1)):
            both = [_rise(line, at) for line in (curves.low_mm, curves.high_mm)] if name == "result" else []
            book.add(
                f"bench.{name}_{end}",
                _rise(heights, at),
                "mm",
                f"rise of the {end} tip {label}",
                how=SOLVED,
                kind=BENT,
                low=min(both, default=None),
                high=max(both, default=None),
            )
    book.add(
        "bench.deviation",
        abs(plan.deviation_mm),
        "mm",
        "worst distance from the wanted rocker",
        how=SOLVED + " The range is that of the stiffness.",
        kind=BENT,
        low=min(abs(plan.deviation_mm), plan.deviation_low_mm, plan.deviation_high_mm),
        high=max(plan.deviation_low_mm, plan.deviation_high_mm),
        step=0.1,
    )
    book.add("bench.deviation_at", plan.deviation_x_mm, "mm", "where that is, from the tail tip", how=SOLVED, kind=BENT)
    book.add(
        "bench.least_curvature",
        plan.least_curvature_per_mm if abs(plan.least_curvature_per_mm) > ROUNDING_PER_MM else 0.0,
        "1/mm",
        "least curvature of the bottom",
        how=SOLVED + " Below zero the bottom curves the wrong way.",
        kind=BENT,
        step=0.1,
    )
    book.add(
        "bench.hollow",
        plan.hollow_mm,
        "mm",
        "hollow under the straight edge, at worst",
        how=SOLVED,
        kind=BENT,
        step=0.01,
    )
    book.add(
        "bench.sensitivity",
        plan.effect_mm,
        "mm",
        "what 1 mm at every support can do to the curve",
        how="Each support 1 mm out, each in the worst direction.",
        kind=BENT,
        step=0.1,
    )
    book.add(
        "bench.table_load",
        plan.table_load_kg,
        "kg",
        "what the table carries",
        how="Board, clamps, weights and all the stacks.",
        kind=[Kind.MAKER, Kind.MEASURED],
    )


def _rise(heights: Floats, at: int) -> float:
    return float(heights[at] - heights.min())


def _add_limits(book: FigureBook, facts: Facts) -> None:
    plan = facts.plan
    tips = max(PASS_TIPS_MM, np.ceil(2 * (PLANNED_TO_MM + plan.effect_mm)) / 2)
    book.add(
        "bench.pass_tips",
        float(tips),
        "mm",
        "how far the tips may be out when you measure",
        how="The usual limit, or what 1 mm at every support can do on top of the plan, whichever is more.",
        kind=[Kind.COMMON_PRACTICE, *BENT],
        source="common practice",
        step=0.5,
    )
    book.add(
        "bench.pass_middle",
        PASS_TIPS_MM / 2,
        "mm",
        "how far the bottom between the tips may be out",
        how="Half of the usual limit at the tips.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
        step=0.5,
    )
    book.add(
        "bench.pass_hollow",
        PASS_HOLLOW_MM,
        "mm",
        "hollow that may show under the straight edge",
        how="More than that, and the bottom is inverted there.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
        step=0.1,
    )
    book.add(
        "bench.straight_edge",
        STRAIGHT_EDGE_MM,
        "mm",
        "length of the straight edge",
        how="Held along the bottom.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
    )
    book.add(
        "bench.hollow_seen",
        -INVERTED_PER_MM * STRAIGHT_EDGE_MM**2 / 8,
        "mm",
        "hollow from which the sums call it inverted",
        how="Curvature limit times the square of the straight edge's length, by eight.",
        kind=Kind.MAKER,
        step=0.05,
    )


def _add_ribs(book: FigureBook, facts: Facts) -> None:
    """What the tape should read at each rib and tip, with everything on and bare."""
    plan, length = facts.plan, facts.body.length_mm
    curves = plan.curves
    places = [(f"rocker.rib.{rib.number}", f"rib {rib.number}", rib.from_tail_mm) for rib in facts.body.ribs]
    places += [("rocker.tip.tail", "the tail tip", 0.0), ("rocker.tip.nose", "the nose tip", length)]
    for key, name, x in places:
        line = plan.line_mm(x, length)
        value, low, high, bare = (
            float(np.interp(x, curves.x_mm, y))
            for y in (curves.clamped_mm, curves.low_mm, curves.high_mm, curves.bare_mm)
        )
        book.add(
            f"{key}.height",
            float(facts.body.rocker.height_mm(x)),
            "mm",
            f"wanted height at {name}",
            how="The fair curve through the wanted heights.",
            kind=facts.rocker_kind,
            step=0.5,
        )
        book.add(
            f"{key}.target",
            float(facts.body.rocker.height_mm(x)) + line,
            "mm",
            f"wanted height at {name} above the level line",
            how="The fair curve through the wanted heights, as high as your bench carries it.",
            kind=BENT,
            step=0.5,
        )
        book.add(
            f"{key}.from_line",
            value + line,
            "mm",
            f"bottom at {name} above the level line, everything on",
            how=SOLVED,
            kind=BENT,
            low=min(value, low, high) + line,
            high=max(value, low, high) + line,
            step=0.5,
        )
        book.add(
            f"{key}.bare",
            bare + line,
            "mm",
            f"bottom at {name} above the level line, nothing on",
            how="The same bench before any clamp or weight.",
            kind=BENT,
            step=0.5,
        )


def _add_without(book: FigureBook, facts: Facts) -> None:
    """What goes wrong otherwise: supports inboard of the tips, and the board lifted too early."""
    plan = facts.plan
    inboard = next((one for one in plan.inboard if one.inset_mm == 100.0), None)
    if inboard is not None:
        book.add(
            "bench.inset",
            inboard.inset_mm,
            "mm",
            "end supports moved in, to show what that does",
            how="An example.",
            kind=Kind.MAKER,
        )
        for end, short in (("tail", inboard.tail_short_mm), ("nose", inboard.nose_short_mm)):
            book.add(
                f"bench.inset_{end}", short, "mm", f"rocker lost at the {end} tip then", how=SOLVED, kind=BENT, step=0.5
            )
    lost = (plan.spring_low, plan.spring, plan.spring_high)
    for end in ("tail", "nose"):
        values = [getattr(one, f"{end}_mm") for one in lost]
        book.add(
            f"bench.spring_{end}",
            values[1],
            "mm",
            f"rocker lost at the {end} tip if lifted off too early",
            how="The bend that the bench put in is taken from the glued section of frame and bottom panel.",
            kind=BENT,
            low=min(values),
            high=max(values),
        )
    book.said["spring_matters"] = (
        max(plan.spring_high.nose_mm, plan.spring.nose_mm, plan.spring_low.nose_mm) >= SPRING_MATTERS_MM
    )


def _draw(book: FigureBook, facts: Facts) -> None:
    curves = facts.plan.curves
    for key, y, label in (
        ("bench.wanted", curves.wanted_mm, "wanted"),
        ("bench.clamped", curves.clamped_mm, "with everything on"),
        ("bench.clamped_low", curves.low_mm, "softest board"),
        ("bench.clamped_high", curves.high_mm, "stiffest board"),
        ("bench.bare", curves.bare_mm, "before clamps and weights"),
        ("bench.from_line", curves.from_line_mm, "above the level line"),
    ):
        book.draw(key, curves.x_mm, y, "mm", label)
