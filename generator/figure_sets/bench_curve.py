"""Figures of the curve that the bench gives: rises, limits, heights at the ribs, and what goes wrong otherwise."""

from __future__ import annotations

import numpy as np

from generator.bench.contact import INVERTED_PER_MM
from generator.bench.heights import GOAL_MM
from generator.figure_sets.facts import BENT, SOLVED, Facts, tip_rise_mm
from generator.figures import FigureBook, Kind

PASS_TIPS_MM, PASS_HOLLOW_MM, STRAIGHT_EDGE_MM = 4.0, 0.5, 600.0
EXAMPLE_INSET_MM = 100.0
SEEN_MM = 1.0
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
        how="High enough for clamps and a hand, and such that your things fit with the fewest pieces.",
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
            both = [tip_rise_mm(line, at) for line in (curves.low_mm, curves.high_mm)] if name == "result" else []
            book.add(
                f"bench.{name}_{end}",
                tip_rise_mm(heights, at),
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
        "worst distance of the finished bottom from the wanted rocker",
        how=SOLVED + " Then let go of. The range is that of the stiffness.",
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


def _add_limits(book: FigureBook, facts: Facts) -> None:
    plan = facts.plan
    tips = max(PASS_TIPS_MM, np.ceil(2 * (GOAL_MM + plan.effect_mm)) / 2)
    book.add(
        "bench.planned_to",
        GOAL_MM,
        "mm",
        "how near the plan brings the finished bottom to the wanted one",
        how="Nearer than a household bench can be measured.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
        step=0.5,
    )
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
    ribs = [rib.from_tail_mm for rib in facts.body.ribs]
    off = np.interp(ribs, plan.curves.x_mm, np.abs(plan.curves.clamped_mm - plan.curves.aim_mm)).max()
    middle = max(PASS_TIPS_MM / 2, np.ceil(2 * (float(off) * plan.reached + plan.effect_ribs_mm)) / 2)
    book.add(
        "bench.pass_middle",
        float(middle),
        "mm",
        "how far the bottom between the tips may be out",
        how="Half of the usual limit at the tips, or what the plan itself misses at a rib and what 1 mm at every "
        "support can do on top, whichever is more.",
        kind=[Kind.COMMON_PRACTICE, *BENT],
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
        value, low, high, bare, aim = (
            curves.at(x, y) for y in (curves.clamped_mm, curves.low_mm, curves.high_mm, curves.bare_mm, curves.aim_mm)
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
            aim + line,
            "mm",
            f"height to aim for at {name} above the level line",
            how="The wanted curve, set over by what the board loses once it is off, as high as your bench carries it.",
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
    """What is lost with the end supports inboard of the tips, an example and all three."""
    _add_example(book, facts)
    plan, length_mm, rows = facts.plan, facts.body.length_mm, []
    for one in plan.inboard:
        key = f"bench.inset.{one.inset_mm:g}"
        book.add(
            key,
            one.inset_mm,
            "mm",
            "end supports moved in from the tips, to show what that does",
            how="An example.",
            kind=Kind.MAKER,
        )
        for end, short in (("tail", one.tail_short_mm), ("nose", one.nose_short_mm)):
            book.add(f"{key}.{end}", short, "mm", f"rocker lost at the {end} tip then", how=SOLVED, kind=BENT, step=0.5)
        length = sum(to - start for start, to in one.inverted)
        book.add(f"{key}.inverted", length, "mm", "length that then bends the wrong way", how=SOLVED, kind=BENT)
        line = np.array([plan.line_mm(x, length_mm) for x in one.x_mm])
        book.draw(key, one.x_mm, one.heights_mm - line, "mm", "with the end supports moved in")
        rows.append({"key": key})
    book.rows["insets"] = tuple(rows)
    example = [one for one in plan.inboard if one.inset_mm == EXAMPLE_INSET_MM]
    book.said["insets_matter"] = any(max(one.tail_short_mm, one.nose_short_mm) >= SEEN_MM for one in example)


def _add_example(book: FigureBook, facts: Facts) -> None:
    """The middle one of the three, for the drawing of a support."""
    one = next((one for one in facts.plan.inboard if one.inset_mm == EXAMPLE_INSET_MM), None)
    if one is None:
        return
    book.add(
        "bench.inset",
        one.inset_mm,
        "mm",
        "end supports moved in, to show what that does",
        how="An example.",
        kind=Kind.MAKER,
    )
    for end, short in (("tail", one.tail_short_mm), ("nose", one.nose_short_mm)):
        book.add(
            f"bench.inset_{end}", short, "mm", f"rocker lost at the {end} tip then", how=SOLVED, kind=BENT, step=0.5
        )


def _draw(book: FigureBook, facts: Facts) -> None:
    curves = facts.plan.curves
    for key, y, label in (
        ("bench.wanted", curves.wanted_mm, "wanted"),
        ("bench.aim", curves.aim_mm, "to aim for on the bench"),
        ("bench.after", curves.after_mm, "once it is off the bench"),
        ("bench.after_low", curves.after_low_mm, "once it is off, softest board"),
        ("bench.after_high", curves.after_high_mm, "once it is off, stiffest board"),
        ("bench.clamped", curves.clamped_mm, "with everything on"),
        ("bench.clamped_low", curves.low_mm, "softest board"),
        ("bench.clamped_high", curves.high_mm, "stiffest board"),
        ("bench.bare", curves.bare_mm, "before clamps and weights"),
        ("bench.from_line", curves.from_line_mm, "above the level line"),
    ):
        book.draw(key, curves.x_mm, y, "mm", label)
