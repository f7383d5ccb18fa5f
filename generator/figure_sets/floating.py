"""Figures of floating: what the board carries, how deep it lies with and without its rider, and paddling speed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import numpy as np

from generator.build.amount import Amount
from generator.build.floating import (
    BODY_KG_M3,
    BODY_MASS_KG,
    BODY_THICK_MM,
    THICKEST_MM,
    THINNEST_MM,
    Hull,
    Prone,
    afloat,
    carried_kg,
    hull_of,
    lying,
    prone,
    wave_speed_m_s,
)
from generator.build.water_density import DESIGN_KG_M3, Water
from generator.build.weight import Weight
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind

SUM_KINDS = (Kind.MAKER, Kind.MEASURED, Kind.ASSUMED)
OTHER: Mapping[Water, Water] = {"sea": "fresh", "fresh": "sea"}
LEAST_LIFT = 1.05  # a board that weighs nearly as much as the water it can push away is not worked out further
DRAWN = 121
LYING = "Board and rider push away as much water as they weigh. You lie on it where it stays level, and keep still."
End = Literal["low", "value", "high"]


def add_floating(book: FigureBook, facts: Facts, weight: Weight) -> None:
    """All of it, or, for a board that hardly carries itself, only what it lacks."""
    water, hull = facts.inputs.builder.water, hull_of(facts.body)
    _add_water(book, water)
    density = DESIGN_KG_M3[water]
    carries = [
        carried_kg(litres=hull.litres, board_kg=kg, water_kg_m3=one)
        for kg, one in ((weight.kg, density.value), (weight.high_kg, density.low), (weight.low_kg, density.high))
    ]
    book.add(
        "float.carries",
        carries[0],
        "kg",
        "what the board carries before all of it is under water",
        how="The weight of the water that the whole board pushes away, less the board's own.",
        kind=SUM_KINDS,
        low=carries[1],
        high=carries[2],
        step=1,
    )
    sinks = weight.high_kg * LEAST_LIFT >= density.low * hull.litres / 1000
    book.said |= {"float.water": water, "float.other_water": OTHER[water], "float.sinks": sinks}
    _add_body(book)
    if sinks:
        book.said["float.deck"] = "sinks"
        return
    _add_alone(book, facts, hull, weight, density)
    _add_rider(book, facts, hull, weight)
    x = facts.body.length_mm * (1 - np.cos(np.linspace(0, np.pi, DRAWN))) / 2
    low = facts.body.rocker.height_mm(x)
    book.draw("float.bottom", x, low + facts.body.shape.under_mm(x, 0.0), "mm", "underside on the centre line")
    book.draw("float.deck", x, low + facts.body.shape.top_mm(x, 0.0), "mm", "deck on the centre line")


def _add_water(book: FigureBook, water: Water) -> None:
    own = DESIGN_KG_M3[water]
    book.add(
        "float.water_density",
        own.value,
        "kg/m3",
        f"density of {water} water",
        how="The usual design value. Cold or salty water is a little heavier, warm water lighter.",
        kind=Kind.PUBLISHED,
        source="design densities, sea 1025 and fresh 1000 kg/m³; span by the UNESCO equation of state EOS-80",
        low=own.low,
        high=own.high,
    )


def _add_body(book: FigureBook) -> None:
    book.add(
        "float.body_density",
        BODY_KG_M3,
        "kg/m3",
        "density of a person with the lungs filled",
        how="Assumed, from memory. Most people just float.",
        kind=Kind.ASSUMED,
        low=950,
        high=1020,
        step=5,
    )
    book.add(
        "float.body_thickness",
        BODY_THICK_MM,
        "mm",
        "mean thickness of a person who lies flat",
        how="Assumed, for a person of usual build; it grows with the third root of the body's mass.",
        kind=Kind.ASSUMED,
        low=THINNEST_MM,
        high=THICKEST_MM,
        step=5,
    )
    book.add(
        "float.body_reference",
        BODY_MASS_KG,
        "kg",
        "mass of the person whose thickness is assumed",
        how="Only the place to start from.",
        kind=Kind.ASSUMED,
    )


def _add_alone(book: FigureBook, facts: Facts, hull: Hull, weight: Weight, density: Amount) -> None:
    """The board by itself, as heavy as it is and as heavy or light as it may be."""
    rocker = facts.body.rocker.height_mm(hull.x_mm)

    def deepest(kg: float) -> float:
        found = afloat(hull, mass_kg=kg, from_tail_mm=weight.from_tail_mm, water_kg_m3=density.value)
        return float(np.max(found.surface_mm(hull.x_mm) - rocker))

    book.add(
        "float.alone",
        deepest(weight.kg),
        "mm",
        "how deep the board lies by itself",
        how="Sunk and tipped until it pushes away its own weight of water and balances. Without the fin.",
        kind=SUM_KINDS,
        low=deepest(weight.low_kg),
        high=deepest(weight.high_kg),
    )


def _add_rider(book: FigureBook, facts: Facts, hull: Hull, weight: Weight) -> None:
    """The rider lying on it: in the builder's own water, and how much deeper or higher in the other."""
    builder = facts.inputs.builder
    water: Water = builder.water
    thick: dict[End, float] = {"low": THINNEST_MM, "value": BODY_THICK_MM, "high": THICKEST_MM}
    states = {end: _prone(facts, hull, weight, water, end, own) for end, own in thick.items()}
    own, rider = states["value"], lying(builder.body_mass_kg)
    density = DESIGN_KG_M3[water].value
    all_three = (own, states["low"], states["high"])
    for key, values, unit, label, how, step in (
        (
            "share_under",
            [100 * one.board_litres / hull.litres for one in all_three],
            "%",
            "share of the board that is under water",
            LYING,
            1,
        ),
        (
            "rider_litres",
            [one.rider_litres for one in all_three],
            "L",
            "litres of you that are under water",
            LYING,
            1,
        ),
        (
            "rider_share",
            [100 * one.rider_litres * density / 1000 / rider.mass_kg for one in all_three],
            "%",
            "share of your weight that the water carries without the board",
            "The weight of the water that your own body pushes away, by your weight.",
            1,
        ),
        (
            "lie_at",
            [one.lie_at_mm for one in all_three],
            "mm",
            "where your middle lies, from the tail tip",
            "Where the lift that is left over for you acts: then the board lies level.",
            10,
        ),
    ):
        low, high = min(values), max(values)
        book.add(f"float.{key}", values[0], unit, label, how=how, kind=SUM_KINDS, low=low, high=high, step=step)
    _add_levels(book, states)
    _add_other(book, own, _prone(facts, hull, weight, OTHER[water], "value", BODY_THICK_MM), OTHER[water])
    _add_speed(book, states)
    deck = "dry" if own.over_deck_mm <= 0 else "wet"
    book.said |= {"float.deck": deck, "float.whole_under": own.board_litres >= 0.995 * hull.litres}


def _prone(facts: Facts, hull: Hull, weight: Weight, water: Water, end: End, thick_mm: float) -> Prone:
    """One state; the low end is a slim rider on a light board in heavy water."""
    density = DESIGN_KG_M3[water]
    kg = {"low": weight.low_kg, "value": weight.kg, "high": weight.high_kg}[end]
    heavy = {"low": density.high, "value": density.value, "high": density.low}[end]
    rider = lying(facts.inputs.builder.body_mass_kg, thick_mm=thick_mm)
    return prone(facts.body, hull, board_kg=kg, board_at_mm=weight.from_tail_mm, rider=rider, water_kg_m3=heavy)


def _add_levels(book: FigureBook, states: Mapping[End, Prone]) -> None:
    own = states["value"]
    book.add(
        "float.depth",
        own.level_mm,
        "mm",
        "how deep the lowest point of the bottom lies with you on it",
        how=LYING,
        kind=SUM_KINDS,
        low=states["low"].level_mm,
        high=states["high"].level_mm,
        step=5,
    )
    book.add(
        "float.over_deck",
        own.over_deck_mm,
        "mm",
        "water over the deck under your middle",
        how=f"{LYING} Below zero, the deck is dry.",
        kind=SUM_KINDS,
        low=states["low"].over_deck_mm,
        high=states["high"].over_deck_mm,
        step=5,
    )


def _add_other(book: FigureBook, own: Prone, other: Prone, water: Water) -> None:
    book.add(
        "float.other_change",
        other.level_mm - own.level_mm,
        "mm",
        f"how much deeper you float in {water} water",
        how="The same sum with the other water; below zero, you float higher.",
        kind=SUM_KINDS,
    )


def _add_speed(book: FigureBook, states: Mapping[End, Prone]) -> None:
    lengths = {end: state.waterline_mm for end, state in states.items()}
    book.add(
        "float.waterline",
        lengths["value"],
        "mm",
        "length of the bottom that is under water",
        how="Along the board, where the bottom lies below the water's surface.",
        kind=SUM_KINDS,
        low=lengths["low"],
        high=lengths["high"],
        step=10,
    )
    speeds = {end: wave_speed_m_s(length / 1000) for end, length in lengths.items()}
    book.add(
        "float.wave_speed",
        speeds["value"],
        "m/s",
        "speed of a wave as long as the waterline",
        how="The square root of gravity times the length of the waterline by 2 pi. An indication only: paddling faster "
        "than this takes much more strength, and a board that a wave pushes is not bound by it.",
        kind=SUM_KINDS,
        source="deep-water wave speed, naval architecture texts' speed-length rule (1.34 knots per root foot)",
        low=speeds["low"],
        high=speeds["high"],
        step=0.1,
    )
