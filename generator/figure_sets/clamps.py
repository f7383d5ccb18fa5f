"""Figures of clamps: counts, openings, geometry."""

from __future__ import annotations

import numpy as np

from generator.bench.assembly import ClampKind
from generator.bench.from_body import PADS_MM
from generator.build.clamp_order import Set, goes, outwards, strip_pressure_mpa, to_borrow
from generator.build.glue_use import runs_beads
from generator.build.joints import slide_mm
from generator.build.panel_press import GLUING_PRESSURE_MPA
from generator.figure_sets.facts import BENT, TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.quantities import GRAVITY_M_S2

CENTRE_LIMIT_MM = 2.0
NAIL_MM2 = 100.0
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
    _add_openings(book, facts)
    _add_pressure(book, facts)
    _add_goes(book, facts)
    _say_clamps(book, facts)


def _order(facts: Facts) -> tuple[int, ...]:
    """Ribs from the middle outwards, the two sides in turn, by index."""
    return outwards(facts.board.rib_mm, middle_mm=facts.body.length_mm / 2)


def _add_openings(book: FigureBook, facts: Facts) -> None:
    """What each rib asks of a clamp, and the pair that goes there."""
    pairs = {pair.rib: pair.name for pair in facts.plan.clamps}
    rows = []
    for index, rib in enumerate(facts.body.ribs):
        key = f"clamp.rib.{rib.number}.opening"
        book.add(
            key,
            float(facts.board.rib_grip_mm[index]),
            "mm",
            f"opening that a clamp needs at rib {rib.number}",
            how="Panel, end of the rib or edge strip there, and two pads of scrap.",
            kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
        )
        rows.append({"n": rib.number, "key": key, "name": pairs.get(index, ""), "have": index in pairs})
    book.rows["clamp_ribs"] = tuple(rows)


def _add_pressure(book: FigureBook, facts: Facts) -> None:
    """What hand clamps press the rim with, beside the textbook's gluing pressure."""
    places = [rib.from_tail_mm for rib in facts.body.ribs]
    strip = facts.inputs.board.edge_strip.thickness_mm
    book.add(
        "clamp.rim_pressure",
        1000
        * strip_pressure_mpa(
            force_n=facts.usual("practice.clamp_force"), apart_mm=float(np.diff(places).mean()), width_mm=strip
        ),
        "kPa",
        "pressure of spring clamps along the edge strip",
        how="Force of one clamp over the strip's thickness times the ribs' distance.",
        kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
        step=10,
    )
    for key, name in (("textbook", "handbooks ask for"), ("rim", "spring clamps give")):
        pressure = {"textbook": 1000 * GLUING_PRESSURE_MPA, "rim": book.values["clamp.rim_pressure"].value}[key]
        book.add(
            f"clamp.{key}_nail",
            pressure * NAIL_MM2 / 1000 / GRAVITY_M_S2,
            "kg",
            f"mass on a thumbnail's size of joint that is the pressure {name}",
            how="Pressure times a square of 10 by 10 mm, as the mass that weighs as much.",
            kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
            step=0.5,
        )
    book.add(
        "clamp.force_mass",
        facts.usual("practice.clamp_force") / GRAVITY_M_S2,
        "kg",
        "mass that presses as hard as one spring clamp",
        how="The clamp's force by gravity.",
        kind=Kind.COMMON_PRACTICE,
    )
    book.add(
        "clamp.textbook_pressure",
        1000 * GLUING_PRESSURE_MPA,
        "kPa",
        "gluing pressure that handbooks ask for in light woods",
        how="For thin films between planed faces in a press. Hand clamps don't reach it along an edge.",
        kind=Kind.PUBLISHED,
        source="Wood Handbook, FPL-GTR-190 (2010), chapter 10 (from memory)",
        step=10,
    )


def _add_goes(book: FigureBook, facts: Facts) -> None:
    """In how many goes the clamps reach, which ribs in which, and what to borrow."""
    numbers, plan = [rib.number for rib in facts.body.ribs], facts.plan
    kinds = [ClampKind(c.name, c.opening_mm, c.mass_kg, c.hang_mm, c.count) for c in facts.inputs.builder.clamps]
    if len(plan.clamps) >= len(numbers):
        names = {pair.rib: pair.name for pair in plan.clamps}
        found: tuple[tuple[Set, ...], ...] = (tuple(Set(rib, names[rib]) for rib in _order(facts)),)
    else:
        found = goes(_order(facts), grip_mm=facts.board.rib_grip_mm, kinds=kinds)
    book.add(
        "clamp.goes",
        len(found),
        "",
        "goes that your clamps take for all the ribs",
        how="In each go every pair is used once, from the middle of the board outwards.",
        kind=MEASURED,
    )
    for key, in_goes, label in (("clamp.borrow_one", 1, "one go"), ("clamp.borrow_two", 2, "two goes")):
        book.add(
            key,
            to_borrow(ribs=len(numbers), pairs=len(plan.clamps), in_goes=in_goes),
            "",
            f"pairs of clamps to borrow for gluing in {label}",
            how="Ribs by the number of goes, rounded up, less the pairs that fit.",
            kind=MEASURED,
        )
    book.add(
        "clamp.pair_mass",
        max((pair.mass_kg for pair in plan.clamps), default=0.0),
        "kg",
        "mass of one pair of your clamps, the heaviest that is used",
        how=TYPED_BUILDER,
        kind=Kind.MEASURED,
        step=0.1,
    )
    book.rows["clamp_goes"] = tuple(
        {
            "n": n,
            "ribs": tuple(sorted(numbers[one.rib] for one in go)),
            "sets": tuple({"rib": numbers[one.rib], "name": one.name} for one in go),
        }
        for n, go in enumerate(found, 1)
    )
    half = -(-len(numbers) // 2)
    book.rows["clamp_two"] = tuple(
        {"n": n, "ribs": tuple(sorted(numbers[rib] for rib in part))}
        for n, part in enumerate((_order(facts)[:half], _order(facts)[half:]), 1)
    )
    reached = {one.rib for go in found for one in go}
    word = "none" if not found else {1: "one", 2: "two"}.get(len(found), "more")
    book.said |= {
        "clamp.goes_word": word,
        "clamp.may_split": runs_beads(facts.inputs.builder.glue),
        "clamp.unreached": [number for i, number in enumerate(numbers) if i not in reached],
    }


def _say_clamps(book: FigureBook, facts: Facts) -> None:
    plan = facts.plan
    numbers = [rib.number for rib in facts.body.ribs]
    pairs = {pair.rib: pair for pair in plan.clamps}
    in_order = [pairs[rib] for rib in _order(facts) if rib in pairs]
    book.rows["clamp_pairs"] = tuple(
        {"n": n, "rib": numbers[pair.rib], "order": n, "name": pair.name} for n, pair in enumerate(in_order, 1)
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
