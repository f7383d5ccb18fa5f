"""Figures of the weights that press spine and ribs: need, what lies there already, what is spare, what is missing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from generator.bench.assembly import Sections
from generator.bench.beam import PointLoad
from generator.build.pressing import (
    Bridge,
    Lying,
    Need,
    Spare,
    board_loads,
    bridges,
    curve_moves_mm,
    lacking,
    rib_needs,
    strip_pressure_kpa,
    support_loads_n,
)
from generator.figure_sets.facts import BENT, SOLVED, TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.quantities import GRAVITY_M_S2, Floats

ONE_KG = 1.0
PAST_RIB_MM = 40.0
"""A board reaches so far past each of its two ribs."""
WHY = (
    "The panel is pressed back to a rib across a gap as wide as the batten check lets pass: a strip half as wide as "
    "the board, from the rib before to the rib after. Low: soft, free to turn over its neighbours. High: stiff, held."
)
STRIP = "American Wood Council, Design Aid No. 6 (2007), figure 7; ends held: from memory"
KINDS = [Kind.MAKER, Kind.COMMON_PRACTICE, Kind.ASSUMED]


def add_pressing(book: FigureBook, facts: Facts) -> None:
    """The bridging boards, one after the other from the tail, and what their weights do to the curve."""
    found = bridges(_needs(facts), rib_mm=facts.board.rib_mm, lying=_lying(facts), spare=_spare(facts))
    missing = tuple(
        one.short_kg if lacks else 0.0 for one, lacks in zip(found, lacking(found, _spare(facts)), strict=True)
    )
    _add_boards(book, facts, found, missing)
    _add_totals(book, facts, found, sum(missing))
    _add_moves(book, facts, found, missing)


def _needs(facts: Facts) -> tuple[Need, ...]:
    stiff = facts.inputs.board.panel.stiffness_mpa
    return rib_needs(
        rib_mm=facts.board.rib_mm,
        half_width_mm=facts.board.rib_half_width_mm,
        length_mm=facts.body.length_mm,
        gap_mm=facts.usual("practice.fair_gap"),
        thickness_mm=facts.body.panel_mm,
        stiffness_mpa=(stiff.low, stiff.value, stiff.high),
    )


def _lying(facts: Facts) -> list[Lying]:
    return [Lying(one.x_mm, one.total_kg) for one in facts.plan.placed]


def _spare(facts: Facts) -> list[Spare]:
    """What the bench leaves of each kind of weight."""
    used: dict[str, int] = {}
    for one in facts.plan.placed:
        used[one.name] = used.get(one.name, 0) + one.count
    return [Spare(w.name, w.mass_kg, max(0, w.count - used.get(w.name, 0))) for w in facts.inputs.builder.weights]


def _add_boards(book: FigureBook, facts: Facts, found: tuple[Bridge, ...], missing: tuple[float, ...]) -> None:
    numbers, places = [rib.number for rib in facts.body.ribs], facts.board.rib_mm
    heavy = sorted({numbers[int(np.abs(places - one.x_mm).argmin())] for one in facts.plan.placed})
    rows = []
    for n, (one, short_kg) in enumerate(zip(found, missing, strict=True), 1):
        key, name = f"press.board.{n}", f"board {n}"
        first, second = one.ribs
        book.add(
            f"{key}.length",
            float(places[second] - places[first]) + 2 * PAST_RIB_MM,
            "mm",
            f"{name}, length",
            how="From rib to rib, and a little past both.",
            kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
            step=10,
        )
        book.add(
            f"{key}.need",
            one.need.value_kg,
            "kg",
            f"{name}, what its ribs ask for",
            how=WHY,
            kind=KINDS,
            source=STRIP,
            low=one.need.low_kg,
            high=one.need.high_kg,
            step=0.5,
        )
        for part, value, label, how in (
            ("on", one.on_kg, "what lies on its ribs for the rocker", "The bench's weights at these ribs."),
            ("laid", one.laid_kg, "spare weights to lay on it", "Shared out to the boards that lack most."),
            (
                "short",
                short_kg,
                "what is missing on it",
                "What its ribs ask for less what lies there.",
            ),
        ):
            kind = BENT if part == "on" else KINDS
            book.add(f"{key}.{part}", value, "kg", f"{name}, {label}", how=how, kind=kind, step=0.5)
        rows.append(
            {
                "n": n,
                "key": key,
                "first": numbers[first],
                "second": numbers[second],
                "pieces": tuple({"name": piece, "count": count} for piece, count in one.pieces),
                "on": one.on_kg > 0,
                "on_ribs": tuple(n for n in heavy if n in {numbers[i] for i in one.pressing}),
                "short": short_kg > 0,
            }
        )
    book.rows["press_boards"] = tuple(rows)


def _add_totals(book: FigureBook, facts: Facts, found: tuple[Bridge, ...], short_kg: float) -> None:
    need = Need(0.0, 0.0, 0.0)
    for one in found:
        need = need.plus(one.need)
    on, laid = sum(one.on_kg for one in found), sum(one.laid_kg for one in found)
    book.add("press.boards", len(found), "", "boards that bridge ribs", how="One for every two ribs.", kind=Kind.MAKER)
    book.add(
        "press.need",
        need.value_kg,
        "kg",
        "weights that the spine and the ribs ask for, together",
        how=WHY,
        kind=KINDS,
        source=STRIP,
        low=need.low_kg,
        high=need.high_kg,
        step=0.5,
    )
    spare = sum(one.count * one.mass_kg for one in _spare(facts))
    for key, value, label, how, kind in (
        ("press.have", spare, "weights that the bench leaves over", TYPED_BUILDER, [Kind.MEASURED, *BENT]),
        ("press.laid", laid, "spare weights that go on the boards", "Added up over the boards.", KINDS),
        ("press.short", short_kg, "weights that are missing", "Added up over the boards.", KINDS),
    ):
        book.add(key, value, "kg", label, how=how, kind=kind, step=0.5)
    spine = facts.body.developed_length_mm
    for key, kg, label in (
        ("press.pressure", Need(on + laid, on + laid, on + laid), "pressure of all weights along the spine"),
        ("press.pressure_needed", need, "pressure along the spine that the ribs ask for"),
    ):
        low, value, high = (
            strip_pressure_kpa(kg=one, length_mm=spine, width_mm=facts.inputs.board.spine.thickness_mm)
            for one in (kg.low_kg, kg.value_kg, kg.high_kg)
        )
        book.add(
            key,
            value,
            "kPa",
            label,
            how="Their weight over the spine's lower face, as if it were spread evenly.",
            kind=KINDS,
            low=low,
            high=high,
            step=0.5,
        )
    book.said |= {"press.short": short_kg > 0, "press.laid": laid > 0}


def _add_moves(book: FigureBook, facts: Facts, found: tuple[Bridge, ...], missing: tuple[float, ...]) -> None:
    """What the added weights do to the curve on the bench, supports left as they are."""
    plan, length, places = facts.plan, facts.body.length_mm, facts.board.rib_mm
    loads, tops = board_loads(found, rib_mm=places), plan.bench.laid.tops
    x = np.linspace(0.0, length, 61)
    points = plan.bench.loads.points()

    def worst(sections: Sections, more: list[PointLoad] | tuple[PointLoad, ...]) -> float:
        moved: Floats = curve_moves_mm(sections.beam(points), tops, more, x)
        return float(np.abs(moved).max())

    full = tuple(replace(one, laid_kg=one.laid_kg + kg) for one, kg in zip(found, missing, strict=True))
    whole = board_loads(full, rib_mm=places)
    ones = {rib.number: [PointLoad(rib.from_tail_mm, ONE_KG * GRAVITY_M_S2)] for rib in facts.body.ribs}
    most = max(ones, key=lambda number: worst(facts.board.value, ones[number]))
    for key, more, label in (
        ("press.moves_per_kg", ones[most], "how far the bottom moves at most for 1 kg more, at the rib where most"),
        ("press.moves", loads, "how far the bottom moves at most once the spare weights are on"),
        ("press.moves_all", whole, "how far it moves at most once what is missing is on as well"),
    ):
        all_three = [worst(sections, more) for sections in (facts.board.low, facts.board.value, facts.board.high)]
        book.add(
            key,
            all_three[1],
            "mm",
            label,
            how=SOLVED + " The supports stay as they are.",
            kind=BENT,
            low=min(all_three),
            high=max(all_three),
            step=0.1,
        )
    book.add(
        "press.one_weight",
        ONE_KG,
        "kg",
        "weight that its effect on the curve is told for",
        how="A full bottle of water.",
        kind=Kind.COMMON_PRACTICE,
        step=0.1,
    )
    carried = support_loads_n(plan.bench.laid.beam, tops, loads)
    book.said |= {
        "press.overloads": [
            support.name
            for support, load in zip(plan.supports, carried, strict=True)
            if support.stack is not None and load > support.takes_n >= support.load_n
        ],
        "press.matters": book.values["press.moves"].value >= facts.usual("practice.height_miss"),
        "press.rib_most": most,
    }
