"""Figures of the panels' movement: moisture in the shed and at the beach, and what it does to their width and faces."""

from __future__ import annotations

from generator.figure_sets.facts import Facts
from generator.figure_sets.panel_press import across_mpa
from generator.figures import FigureBook, Kind
from generator.timber.moisture import within_range
from generator.timber.movement import Grain, Range, Swelling, bow_mm, cup_mm, movement_mm, swelling, within

GRAINS: tuple[Grain, Grain] = ("radial", "tangential")
SOURCE = "Wood Handbook, FPL-GTR-190 (2010)"
ONE_PCT = 1.0
HARDLY_MM = 1.0
"""Movement of a whole panel that nobody would see."""
CREEPS = "As springy wood; really it gives way slowly, and so does a frame."
SOME_OF_EACH = "Between wood sawn through the heart (low) and slab-sawn wood (high); most planks are something between."


def add_movement(book: FigureBook, facts: Facts) -> None:
    """What the panels would like to do between shed and beach."""
    builder = facts.inputs.builder
    shed = within_range(temperature_c=builder.shed.temperature_c, humidity_pct=builder.shed.humidity_pct)
    beach = within_range(temperature_c=builder.beach.temperature_c, humidity_pct=builder.beach.humidity_pct)
    for key, value, unit, label in (
        ("beach.temperature", builder.beach.temperature_c, "°C", "temperature at your beach"),
        ("beach.humidity", builder.beach.humidity_pct, "%", "humidity at your beach"),
    ):
        book.add(key, value, unit, label, how="As typed into the builder's file.", kind=Kind.MEASURED)
    published = [Kind.PUBLISHED, Kind.MEASURED]
    book.add(
        "panel.moisture_beach",
        beach,
        "%",
        "moisture that bare wood settles at by the beach",
        how="Equilibrium moisture content of wood in the air of your beach, in % of its dry mass.",
        kind=published,
        source=f"{SOURCE}, eq. 4-5",
        step=0.5,
    )
    book.add(
        "panel.moisture_change",
        beach - shed,
        "%",
        "moisture at the beach above that in the shed",
        how="One less the other.",
        kind=published,
        source=f"{SOURCE}, eq. 4-5",
        step=0.5,
    )
    moves = [one for grain in GRAINS if (one := swelling(facts.inputs.species, grain)) is not None]
    book.said |= {"panel.moves": bool(moves), "panel.hardly_moves": False}
    book.said["panel.moves_assumed"] = any(one.how == "volume" for one in moves)
    if moves:
        _add_width(book, facts, moves, shed_pct=shed, beach_pct=beach)
        _add_faces(book, facts, moves)


def _per_pct(moves: list[Swelling]) -> Range:
    """Change of width per 1 % of moisture, as a share."""
    value = sum(one.coefficient.value for one in moves) / len(moves)
    return Range(value, min(one.coefficient.low for one in moves), max(one.coefficient.high for one in moves))


def _add_width(book: FigureBook, facts: Facts, moves: list[Swelling], *, shed_pct: float, beach_pct: float) -> None:
    width = facts.body.trace.widest_mm
    each = [movement_mm(dimension_mm=width, moves=one, from_pct=shed_pct, to_pct=beach_pct) for one in moves]
    grows = Range(
        sum(one.value for one in each) / len(each), min(one.low for one in each), max(one.high for one in each)
    )
    book.said["panel.hardly_moves"] = max(abs(grows.low), abs(grows.high)) < HARDLY_MM
    equation = "eq. 13-2" if within(shed_pct, beach_pct) else "eq. 13-3 (form from memory)"
    kinds = [Kind.PUBLISHED, Kind.MEASURED, Kind.MAKER, Kind.ASSUMED]
    book.add(
        "panel.grows",
        grows.value,
        "mm",
        "how much wider a panel wants to be at the beach",
        how=f"Bare wood with all the time it needs; below zero it wants to be narrower. {SOME_OF_EACH}",
        kind=kinds,
        source=f"{SOURCE}, {equation}",
        low=grows.low,
        high=grows.high,
        step=0.5,
    )
    per = _per_pct(moves)
    book.add(
        "panel.per_point",
        width * per.value,
        "mm",
        "how much a panel's width changes with each 1% of moisture",
        how=f"Width times the timber's coefficient. {SOME_OF_EACH}",
        kind=kinds,
        source=f"{SOURCE}, Table 13-5 and its footnotes",
        low=width * per.low,
        high=width * per.high,
        step=0.1,
    )
    damp = facts.usual("practice.moisture_near")
    book.add(
        "panel.gap",
        width * per.value * damp,
        "mm",
        "gap if planks are glued too damp and one joint has to give for all",
        how="Change of width for planks that are damper than the shed by the difference that still passes.",
        kind=kinds,
        source=f"{SOURCE}, eq. 13-2",
        low=width * per.low * damp,
        high=width * per.high * damp,
        step=0.5,
    )
    if grows.high > 0:
        half = width / 2
        book.add(
            "panel.bow",
            bow_mm(between_mm=half, grows_mm=grows.value / 2),
            "mm",
            "height of the bow if a panel grew between spine and rim and nothing else held it",
            how="A strip that grows between two edges that do not give bows up like half a wave.",
            kind=kinds,
            low=bow_mm(between_mm=half, grows_mm=grows.low / 2),
            high=bow_mm(between_mm=half, grows_mm=grows.high / 2),
        )
    strength = facts.inputs.species.strength_tension_perp_mpa
    if strength is not None:
        across, (weak, _, strong) = across_mpa(facts), facts.across.strength_mpa
        book.add(
            "panel.tears",
            strength / (across.value * per.value),
            "%",
            "drying that would tear a panel that nothing lets shrink",
            how=f"Strength across the grain by stiffness across it and by the change for each 1% of moisture. {CREEPS}",
            kind=kinds,
            source=f"{SOURCE}, chapter 5 ({facts.inputs.species.strength_read or facts.inputs.species.read})",
            low=weak / (across.high * per.high),
            high=strong / (across.low * per.low),
            step=0.1,
        )


def _add_faces(book: FigureBook, facts: Facts, moves: list[Swelling]) -> None:
    per, thick, width = _per_pct(moves), facts.body.panel_mm, facts.body.trace.widest_mm
    kinds = [Kind.PUBLISHED, Kind.MAKER, Kind.ASSUMED]
    value, low, high = (
        cup_mm(width_mm=width, thickness_mm=thick, coefficient=c, difference_pct=ONE_PCT)
        for c in (per.value, per.low, per.high)
    )
    book.add(
        "panel.cup_for",
        ONE_PCT,
        "%",
        "difference of moisture that the dish is told for",
        how="A handy step; twice the difference makes about twice the dish.",
        kind=Kind.COMMON_PRACTICE,
    )
    book.add(
        "panel.cup",
        value,
        "mm",
        "height of the dish if one face is so much damper",
        how="Moisture runs evenly from face to face, so one face is longer and the loose panel bends into an arc.",
        kind=kinds,
        source=f"{SOURCE}, Table 13-5 and its footnotes",
        low=low,
        high=high,
    )
    book.add(
        "panel.cup_radius",
        thick / (per.value * ONE_PCT),
        "mm",
        "radius of that arc",
        how="Thickness by the difference in length between the faces.",
        kind=kinds,
        low=thick / (per.high * ONE_PCT),
        high=thick / (per.low * ONE_PCT),
        step=100,
    )
