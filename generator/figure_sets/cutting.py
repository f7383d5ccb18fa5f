"""Figures of the cut: what a saw may do to a thin panel, in which stretches it is cut, and what falls off."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from generator.build.cutting import (
    Stretch,
    along_grain,
    batten_gap_mm,
    offcut_area_mm2,
    overhang_limit_mm,
    saw_load_n,
    stretches,
    tongue_limit_mm,
)
from generator.figure_sets.facts import Facts, stiffness_kind
from generator.figures import FigureBook, Kind
from generator.quantities import Floats

MAKER, PRACTICE, ASSUMED = Kind.MAKER, Kind.COMMON_PRACTICE, Kind.ASSUMED
CANTILEVER = "American Wood Council, Design Aid No. 6 (2007), figure 13: M = P a; section modulus b t²/6"
SIMPLE_SPAN = "American Wood Council, Design Aid No. 6 (2007), figure 7: M = P l/4, sag P l³/48EI"
LONGEST_TONGUE_MM = 400.0
CLEAR_TIMES = 4
"""A curved line needs some width beside a straight table edge, or the panel is set anew every hand's width."""


def add_cutting(book: FigureBook, facts: Facts) -> None:
    """The overhang, the tongue at a tip, battens, the stretches and the offcut."""
    _add_load(book, facts)
    _add_overhang(book, facts)
    _add_along(book, facts)
    _add_stretches(book, facts)
    _add_offcut(book, facts)
    _add_table(book, facts)


def _loads_n(facts: Facts) -> tuple[float, float, float]:
    """What a jigsaw presses with: lightest, usual, heaviest hand."""
    low, usual, high = (
        saw_load_n(saw_kg=facts.usual("practice.saw_mass"), push_n=facts.usual(key))
        for key in ("practice.saw_push_low", "practice.saw_push", "practice.saw_push_high")
    )
    return low, usual, high


def _add_load(book: FigureBook, facts: Facts) -> None:
    low, usual, high = _loads_n(facts)
    book.add(
        "cut.load",
        usual,
        "N",
        "what a jigsaw presses on the panel with",
        how="Weight of a usual jigsaw, and the push of a hand from light to heavy.",
        kind=PRACTICE,
        source="common practice",
        low=low,
        high=high,
    )


def _add_overhang(book: FigureBook, facts: Facts) -> None:
    across = facts.across
    weak, strength, strong = across.bending_mpa
    pulled_weak, _, pulled_strong = across.strength_mpa
    kind = Kind.PUBLISHED if across.published else ASSUMED
    species = facts.inputs.species
    book.add(
        "cut.strength",
        strength,
        "MPa",
        "strength of your timber across the grain",
        how="Tension across the grain of clear wood. A thin piece that is bent bears more than one that is pulled."
        if across.published
        else "The table has no value for your timber, so this follows from how heavy it is.",
        kind=kind,
        source=f"{species.source} ({species.strength_read or species.read})" if across.published else "",
        low=pulled_weak,
        high=pulled_strong,
        step=0.1,
    )
    base, length = facts.usual("practice.saw_base"), facts.body.blank.length_mm

    def limit(mpa: float, load_n: float) -> float:
        return overhang_limit_mm(
            thickness_mm=facts.body.panel_mm,
            strength_mpa=mpa,
            load_n=load_n,
            safety=facts.usual("practice.wood_safety"),
            base_mm=base,
            length_mm=length,
        )

    low, usual, high = _loads_n(facts)
    limits = limit(weak, high), limit(strength, usual), limit(strong, low)
    kinds = [kind, PRACTICE, facts.panel_thickness_kind, ASSUMED]
    book.add(
        "cut.overhang_sum",
        limits[1],
        "mm",
        "how far the line may stand past the table's edge without help",
        how="Saw and hand bend the panel across its grain over the edge. Spread at 45° from the saw's base, the stress "
        "stays at the strength by the safety factor. Glue lines and knots are what the factor is for.",
        kind=kinds,
        source=CANTILEVER,
        low=limits[0],
        high=limits[2],
    )
    usual_mm, clear = facts.usual("practice.line_past_table"), facts.usual("practice.blade_clear")
    book.add(
        "cut.overhang",
        min(usual_mm, limits[1]),
        "mm",
        "how far the line may stand past what carries the panel",
        how="What the sum allows, or what is usual, whichever is less.",
        kind=kinds,
        source=CANTILEVER,
        low=min(usual_mm, limits[0]),
        high=min(usual_mm, limits[2]),
    )
    book.said["cut.way"] = (
        "usual" if limits[1] >= usual_mm else "near" if limits[1] >= CLEAR_TIMES * clear else "battens"
    )


def _add_along(book: FigureBook, facts: Facts) -> None:
    """Where the grain runs along what sticks out: the tongue at a tip, and the panel between two battens."""
    body, panel = facts.body, facts.inputs.board.panel
    strength = along_grain(facts.inputs.species)
    low, usual, high = _loads_n(facts)
    safety, sag = facts.usual("practice.wood_safety"), facts.usual("practice.panel_shake")
    tail, nose = body.trace.ends_mm
    stiff = panel.stiffness_mpa

    def tongue(load_n: float, mpa: float, stiffness_mpa: float) -> float:
        return min(
            tongue_limit_mm(
                width_mm=lambda s, end=end, way=way: _width_in(facts, end, way, s),  # type: ignore[misc]
                thickness_mm=body.panel_mm,
                strength_mpa=mpa,
                stiffness_mpa=stiffness_mpa,
                load_n=load_n,
                safety=safety,
                sag_mm=sag,
                most_mm=LONGEST_TONGUE_MM,
            )
            for end, way in ((tail, 1.0), (nose, -1.0))
        )

    def gap(load_n: float, mpa: float, stiffness_mpa: float) -> float:
        return batten_gap_mm(
            thickness_mm=body.panel_mm,
            strength_mpa=mpa,
            stiffness_mpa=stiffness_mpa,
            load_n=load_n,
            safety=safety,
            strip_mm=facts.usual("practice.saw_base_width"),
            sag_mm=sag,
        )

    kinds = [Kind.PUBLISHED if strength.published else ASSUMED, PRACTICE, stiffness_kind(stiff), MAKER]
    for key, does, label, how, source in (
        ("cut.tongue", tongue, "how far a cut-out tip may stick out",
         "The grain runs along it, so it is strong, but it shakes. Saw and hand at its end may push it down no further "
         "than a panel may give under a saw.", CANTILEVER),
        ("cut.batten_apart", gap, "how far apart battens may lie under the panel",
         "Across the battens the panel bends along its grain. A strip as wide as the saw's base carries the saw, and "
         "gives no more than a panel may under a saw.", SIMPLE_SPAN),
    ):  # fmt: skip
        book.add(
            key,
            does(usual, strength.value_mpa, stiff.value),
            "mm",
            label,
            how=how,
            kind=kinds,
            source=source,
            low=does(high, strength.low_mpa, stiff.low),
            high=does(low, strength.high_mpa, stiff.high),
            step=10,
        )


def _width_in(facts: Facts, end_mm: float, way: float, in_mm: ArrayLike) -> Floats:
    """Width of the panel as traced, so far in from one of its ends."""
    places = end_mm + way * np.asarray(in_mm, dtype=np.float64)
    return np.asarray(2 * facts.body.panel_half_width_mm(places))


def _side(facts: Facts, past_mm: float) -> tuple[Stretch, ...]:
    """One side's cut from its widest place to the tail, then from there to the nose, the line up to `past_mm` out."""
    body = facts.body
    tail, nose = body.trace.ends_mm
    x = np.linspace(tail, nose, 2001)
    widest = float(x[np.argmax(body.panel_half_width_mm(x))])
    found: list[Stretch] = []
    for end in (tail, nose):
        found += stretches(
            body.panel_half_width_mm,
            start_mm=widest,
            end_mm=end,
            band_mm=past_mm - facts.usual("practice.blade_clear"),
            longest_mm=facts.inputs.builder.table.length_mm,
        )
    return tuple(found)


def _add_stretches(book: FigureBook, facts: Facts) -> None:
    """The stretches of one side, and how often the panel is set and turned."""
    near = book.said["cut.way"] == "near"  # battens carry the panel as far as is usual
    side = _side(facts, book.values["cut.overhang"].value if near else facts.usual("practice.line_past_table"))
    rows = []
    tail, nose = facts.body.trace.ends_mm
    for n, one in enumerate(side, 1):
        key = f"cut.stretch.{n}"
        for part, value in (("from", one.start_mm), ("to", one.end_mm)):
            book.add(
                f"{key}.{part}",
                min(max(value, 0.0), facts.body.length_mm),
                "mm",
                f"stretch {n} of a side's cut, {part}, measured from the tail tip",
                how="As far as the line stays near enough to a straight table edge, and no longer than your table.",
                kind=[MAKER, PRACTICE, Kind.MEASURED],
                step=10,
            )
        at = "tail" if one.end_mm <= tail + 1 else "nose" if one.end_mm >= nose - 1 else ""
        rows.append({"n": n, "key": key, "tip": at, "way": "tail" if one.end_mm < one.start_mm else "nose"})
    book.rows["cut_stretches"] = tuple(rows)
    book.add(
        "cut.stretches",
        len(side),
        "",
        "stretches of the cut on each side",
        how="The line is curved and the table's edge is straight, so the panel is set anew for each.",
        kind=[MAKER, PRACTICE, Kind.MEASURED],
    )
    longest = max(abs(one.end_mm - one.start_mm) for one in side)
    book.add(
        "cut.battens",
        1 + math.ceil(longest / book.values["cut.batten_apart"].value),
        "",
        "battens under the longest stretch",
        how="Its length by how far apart they may lie, rounded up, and one more.",
        kind=[MAKER, PRACTICE, *((ASSUMED,) if book.values["cut.batten_apart"].kind is ASSUMED else ())],
    )
    book.add(
        "cut.settings",
        2 * len(side),
        "",
        "times that the panel is set and clamped",
        how="The stretches of both sides.",
        kind=[MAKER, PRACTICE, Kind.MEASURED],
    )


def _add_offcut(book: FigureBook, facts: Facts) -> None:
    """The heaviest of the four pieces that fall off."""
    body, panel = facts.body, facts.inputs.board.panel
    tail, nose = body.trace.ends_mm
    x = np.linspace(tail, nose, 2001)
    widest = float(x[np.argmax(body.panel_half_width_mm(x))])
    pieces = [
        (offcut_area_mm2(body.panel_half_width_mm, start_mm=widest, end_mm=end, blank_half_mm=half), abs(end - widest))
        for half in [book.values["panel.width"].value / 2]
        for end in (tail, nose)
    ]
    area, length = max(pieces)
    book.add(
        "cut.offcut_mass",
        area * body.panel_mm * panel.density_kg_m3 * 1e-9,
        "kg",
        "mass of the heaviest piece that falls off",
        how="What lies outside the line from the widest place to a tip, panel as glued up.",
        kind=[MAKER, facts.panel_thickness_kind],
        step=0.01,
    )
    book.add(
        "cut.offcut_length",
        length,
        "mm",
        "length of that piece",
        how="From the widest place of the line to its end at the tip.",
        kind=MAKER,
        step=10,
    )


def _add_table(book: FigureBook, facts: Facts) -> None:
    """What of the panel the table does not carry."""
    table, panel = facts.inputs.builder.table, facts.inputs.board.panel
    past = book.values["panel.width"].value + facts.usual("practice.line_past_table") - table.width_mm
    longer = facts.body.blank.length_mm - table.length_mm
    for key, value, label in (
        ("cut.past_back", past, "panel past the back of the table, once the line stands past its front"),
        ("cut.past_end", longer, "panel longer than the table"),
    ):
        book.add(
            key,
            max(0.0, math.ceil(value)),
            "mm",
            label,
            how="What the panel needs less the table's size; none if the table is larger.",
            kind=[MAKER, Kind.MEASURED],
            step=10,
        )
    book.said |= {"cut.past_back": past > panel.plank_width_mm / 2, "cut.past_end": longer > 0}
