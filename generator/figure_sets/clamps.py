"""Figures of clamps and of the glue's joints: counts, openings, lengths, geometry."""

from __future__ import annotations

import numpy as np

from generator.bench.from_body import PADS_MM
from generator.build.joints import bottom_joints, slide_mm
from generator.figure_sets.facts import BENT, TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind

CENTRE_LIMIT_MM = 2.0
MEASURED = [Kind.MEASURED, Kind.MAKER]


def add_clamps(book: FigureBook, facts: Facts) -> None:
    """Pairs, openings, what hangs below, and the order in which they go on."""
    plan, builder = facts.plan, facts.inputs.builder
    ribs = len(facts.body.ribs)
    book.add(
        "clamp.pairs",
        len(plan.clamps),
        "",
        "pairs of clamps that fit your ribs",
        how="Two alike at each rib, opening far enough there.",
        kind=MEASURED,
    )
    book.add(
        "clamp.pairs_have",
        sum(clamp.count // 2 for clamp in builder.clamps),
        "",
        "pairs of clamps that you have",
        how="Two alike make a pair.",
        kind=Kind.MEASURED,
    )
    book.add(
        "clamp.pairs_needed",
        ribs,
        "",
        "pairs of clamps needed",
        how="One pair at each rib.",
        kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
    )
    book.add(
        "clamp.count",
        sum(clamp.count for clamp in builder.clamps),
        "",
        "clamps that you have",
        how=TYPED_BUILDER,
        kind=Kind.MEASURED,
    )
    grip = facts.board.rib_grip_mm
    book.add(
        "clamp.opening_needed",
        float(grip.max()),
        "mm",
        "opening that a clamp needs",
        how="Panel, end of the rib or edge strip, and two pads of scrap, at the deepest rib.",
        kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
    )
    book.add(
        "clamp.pads",
        PADS_MM,
        "mm",
        "thickness of both pads together",
        how="So that the jaws don't bruise the wood.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
    )
    used = [clamp for clamp in builder.clamps if any(pair.name == clamp.name for pair in plan.clamps)]
    for key, values, label in (
        ("clamp.opening", [c.opening_mm for c in used], "opening of your clamps, the smallest that is used"),
        ("clamp.hang", [-c.hang_mm for c in used], "how far your clamps hang below the panel, at most"),
    ):
        book.add(key, abs(min(values, default=0.0)), "mm", label, how=TYPED_BUILDER, kind=Kind.MEASURED)
    book.add(
        "clamp.mass",
        sum(pair.mass_kg for pair in plan.clamps),
        "kg",
        "mass of the clamps on the board",
        how="All pairs that go on.",
        kind=MEASURED,
        step=0.1,
    )
    book.add(
        "clamp.centre_limit",
        CENTRE_LIMIT_MM,
        "mm",
        "how far a line-up mark may lie beside the string",
        how="What the eye can see and a tap can mend.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
        step=0.5,
    )
    for end, slide in zip(("tail", "nose"), slide_mm(facts.body), strict=True):
        book.add(
            f"clamp.slide_{end}",
            slide,
            "mm",
            f"how far frame and panel slide along each other at the {end} tip",
            how="Half of both thicknesses times what is bent into them, added up from the lowest point.",
            kind=Kind.MAKER,
            step=0.5,
        )
    _say_clamps(book, facts)


def _say_clamps(book: FigureBook, facts: Facts) -> None:
    plan = facts.plan
    numbers = [rib.number for rib in facts.body.ribs]
    book.rows["clamp_pairs"] = tuple(
        {"n": n, "rib": numbers[pair.rib], "order": pair.order, "name": pair.name}
        for n, pair in enumerate(plan.clamps, 1)
    )
    tightest = min(
        (c for c in plan.clearances if not c.past_edge),
        key=lambda c: c.room_mm - c.hang_mm,
        default=min(plan.clearances, key=lambda c: c.room_mm, default=None),
    )
    over_table = tightest is not None and not tightest.past_edge
    where = "where a clamp has least to spare" if over_table else "at the lowest clamp, beside the table"
    book.add(
        "bench.room_lowest",
        tightest.room_mm if tightest else plan.base_mm,
        "mm",
        f"room below the bottom {where}",
        how="Bottom as it lies, less the table's reading there.",
        kind=BENT,
        step=0.5,
    )
    book.add(
        "bench.room_needed",
        tightest.hang_mm if tightest and over_table else 0.0,
        "mm",
        "room that the clamp there needs over the table",
        how="How far it hangs below the panel; none if all clamps hang past the table's edge.",
        kind=MEASURED,
    )
    rib_mm = facts.board.rib_mm
    rooms = np.interp(rib_mm, plan.curves.x_mm, plan.curves.from_line_mm) - facts.table.at(rib_mm)
    book.add(
        "bench.room_least",
        float(rooms.min()),
        "mm",
        "least room below the bottom at any rib",
        how="Bottom as it lies, less the table's reading there.",
        kind=BENT,
        step=0.5,
    )
    book.said |= {
        "clamps_enough": len(plan.clamps) >= len(numbers),
        "clamps_clear": all(c.clears for c in plan.clearances),
        "hangs_past": [numbers[c.rib] for c in plan.clearances if c.past_edge],
    }


def add_joints(book: FigureBook, facts: Facts) -> None:
    """Lengths of the joints between bottom panel and frame."""
    joints = bottom_joints(facts.body)
    for key, value, label in (
        ("glue.rim_length", joints.rim_mm, "joint round the rim"),
        ("glue.spine_length", joints.spine_mm, "joint along the spine"),
        ("glue.rib_length", joints.ribs_mm, "joints across all the ribs"),
        ("glue.joint_length", joints.total_mm, "all joints of the bottom together"),
        ("glue.bead_length", joints.bead_mm, "bead of glue, both sides of spine and ribs"),
    ):
        book.add(key, value, "mm", label, how="Measured along the frame.", kind=Kind.MAKER, step=10)
