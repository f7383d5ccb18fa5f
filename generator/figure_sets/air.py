"""Figures of the air that is shut in: heat, flight, leak test, and the water that cooling draws in."""

from __future__ import annotations

import numpy as np

from generator.build.air import CABIN_M, bulge, closed_air_kpa, drawn_in_l, flown_kpa, push_n
from generator.build.bays import bays
from generator.build.bracing import End, foam_mm3, panel_wood, strength_across_mpa
from generator.build.solids import inside_air_litres
from generator.figure_sets.facts import Facts, stiffness_kind
from generator.figure_sets.inside import braced_bays
from generator.figures import FigureBook, Kind
from generator.quantities import GRAVITY_M_S2
from generator.timber.across import stiffness_share
from generator.timber.movement import Range

HOT_C = (50.0, 60.0, 75.0)
"""Air inside a dark board on a car's roof, or in a closed car, in the sun: low, likely, high. Assumed."""
BEACH_HOT_C = Range(50.0, 40.0, 60.0)
"""Air inside a board left in the sun at the beach. Assumed."""
PASS_M = Range(1000.0, 500.0, 2000.0)
"""Height of a mountain road. Assumed."""
WARMED_C, PUMP_KPA = 5.0, 7.0
"""The leak test's few degrees; 1 psi, what a pump gives without effort. Common practice."""
INSIDE_OFF = 0.1
"""How far the air inside may be off: foam, glue and blocks are never cut quite as planned. Assumed."""
ASSUMED, MAKER, MEASURED, PRACTICE = Kind.ASSUMED, Kind.MAKER, Kind.MEASURED, Kind.COMMON_PRACTICE
GAS = "Pressure goes with the temperature, counted from the coldest there is (−273 °C)."
HEIGHT = "Pressure of the standard atmosphere at that height, taken from that at sea level."
PUSH = "Pressure times area."
ENDS: tuple[End, ...] = ("low", "value", "high")
ICAO = "ICAO standard atmosphere (from memory)"
OF_PRESSURE = {"car": (MEASURED, ASSUMED), "flight": (Kind.PUBLISHED,), "pump": (PRACTICE,),
               "warm": (MEASURED, PRACTICE)}  # fmt: skip
WHERE = {"car": "in the heat", "flight": "in flight", "pump": "from a pump", "warm": "in the leak test"}


def add_air(book: FigureBook, facts: Facts) -> None:
    """Pressures, what they push with, and the air inside."""
    builder = facts.inputs.builder
    closed_c = builder.shed.temperature_c
    low, likely, high = (max(hot, closed_c + 5) for hot in HOT_C)
    book.add("air.closed_at", closed_c, "°C", "temperature as the board is closed", how="Your shed's.", kind=MEASURED)
    book.add("air.car_hot", likely, "°C", "air inside a closed board in hot sun, or in a hot car", low=low, high=high,
             how="A dark surface in the sun, or a closed car.", kind=ASSUMED)  # fmt: skip
    car = Range(*(closed_air_kpa(from_c=closed_c, to_c=hot) for hot in (likely, low, high)))
    book.add("air.car_kpa", car.value, "kPa", "pressure over the air outside, closed in your shed and left in the heat",
             how=GAS, kind=[MEASURED, ASSUMED], source="ideal gas law", low=car.low, high=car.high,
             step=0.5)  # fmt: skip
    book.add("air.flight_kpa", flown_kpa(), "kPa", "pressure over the air outside in an aircraft's hold", how=HEIGHT,
             kind=Kind.PUBLISHED, step=0.5, source=f"14 CFR 25.841 (8000 ft); {ICAO}")  # fmt: skip
    book.add("air.pass_kpa", flown_kpa(PASS_M.value), "kPa", "pressure over the air outside up on a mountain road",
             how=HEIGHT, kind=[Kind.PUBLISHED, ASSUMED], step=0.5, source=ICAO, low=flown_kpa(PASS_M.low),
             high=flown_kpa(PASS_M.high))  # fmt: skip
    book.add("air.flight_height", CABIN_M, "m", "height that an aircraft's hold is kept at, at most",
             how="8000 ft.", kind=Kind.PUBLISHED, source="14 CFR 25.841", step=10)  # fmt: skip
    book.add("air.pass_height", PASS_M.value, "m", "height of a mountain road", how="For comparison.", kind=ASSUMED,
             low=PASS_M.low, high=PASS_M.high, step=10)  # fmt: skip
    book.add("air.pump_kpa", PUMP_KPA, "kPa", "pressure that a hand pump gives without effort", how="1 psi.",
             kind=Kind.COMMON_PRACTICE, step=0.5)  # fmt: skip
    book.add("air.warmed", WARMED_C, "°C difference", "warmth for the leak test", how="Warm enough for bubbles.",
             kind=Kind.COMMON_PRACTICE)  # fmt: skip
    warm = closed_air_kpa(from_c=closed_c, to_c=closed_c + WARMED_C)
    book.add("air.warm_kpa", warm, "kPa", "pressure in the leak test", how=GAS, kind=[MEASURED, Kind.COMMON_PRACTICE],
             source="ideal gas law", step=0.1)  # fmt: skip
    exact = {"flight": flown_kpa(), "pump": PUMP_KPA, "warm": warm}
    _add_pushes(book, facts, {"car": car, **{name: Range.exact(kpa) for name, kpa in exact.items()}})
    _add_seams(book, facts, car)
    _add_water(book, facts)


def _add_pushes(book: FigureBook, facts: Facts, pressures: dict[str, Range]) -> None:
    """What each pressure pushes one panel with, as a weight that everybody can picture."""
    area = facts.body.frame_area_mm2
    book.add("air.panel_area", area / 1e6, "m2", "area of a panel that the air inside pushes on", step=0.01,
             how="Inside the frame's outline.", kind=MAKER)  # fmt: skip
    for name, kpa in pressures.items():
        kind = [MAKER, *OF_PRESSURE[name]]
        force, low, high = (push_n(kpa=one, area_mm2=area) for one in (kpa.value, kpa.low, kpa.high))
        book.add(f"air.{name}_push", force / GRAVITY_M_S2, "kg", f"weight that pushes as hard on a panel {WHERE[name]}",
                 how=PUSH + " As a weight.", kind=kind, low=low / GRAVITY_M_S2, high=high / GRAVITY_M_S2,
                 step=10)  # fmt: skip
        book.add(f"air.{name}_force", force, "N", f"force on a panel {WHERE[name]}", how=PUSH, kind=kind, low=low,
                 high=high, step=100)  # fmt: skip


def _add_seams(book: FigureBook, facts: Facts, car: Range) -> None:
    """The largest bay blown out, and the pull on the glue along a rib."""
    body = facts.body
    free = max((bay.free or bay.whole for bay in bays(body)), key=lambda area: area.area_mm2)
    panel = body.board.panel.stiffness_mpa
    warm = book.values["air.warm_kpa"].value
    book.add("air.warm_bay", push_n(kpa=warm, area_mm2=free.area_mm2) / GRAVITY_M_S2, "kg",
             "weight that pushes as hard on the largest bay in the leak test", how=PUSH + " As a weight.",
             kind=[MAKER, MEASURED, PRACTICE])  # fmt: skip
    on_bay, low, high = (push_n(kpa=kpa, area_mm2=free.area_mm2) / GRAVITY_M_S2
                         for kpa in (car.value, car.low, car.high))  # fmt: skip
    book.add("air.car_bay", on_bay, "kg", "weight that pushes as hard on the largest bay", how=PUSH + " As a weight.",
             kind=[MAKER, ASSUMED], low=low, high=high)  # fmt: skip
    share = stiffness_share(facts.inputs.species.botanical)
    soft, usual, stiff = (panel_wood(panel, end, across_share=share) for end in ENDS)
    flattest, likely, roundest = (
        bulge(free, kpa=kpa, thickness_mm=body.panel_mm, wood=wood).deflection_mm
        for kpa, wood in ((car.low, stiff), (car.value, usual), (car.high, soft))
    )
    book.add("air.car_bulge", likely, "mm", "how far the largest bay bulges in the heat",
             how="A thin wooden plate with fixed edges under an even pressure, without foam.", step=0.1,
             kind=[MAKER, stiffness_kind(panel), ASSUMED], low=flattest, high=roundest)  # fmt: skip
    pitch = float(np.max(np.diff(body.board.ribs.from_tail_mm)))
    per_kpa = 1e-3 * pitch / body.board.ribs.thickness_mm
    for name, of in (("car", car), ("flight", Range.exact(flown_kpa()))):
        book.add(f"air.{name}_seam", of.value * per_kpa, "MPa", f"pull on the glue along a rib {WHERE[name]}", step=0.1,
                 how="The pressure on a strip as wide as the ribs are apart, carried by a rib's thickness.",
                 kind=[MAKER, *OF_PRESSURE[name]], low=of.low * per_kpa, high=of.high * per_kpa)  # fmt: skip
    table = facts.inputs.species.strength_tension_perp_mpa
    strength = strength_across_mpa(body, table)
    book.add("air.seam_strength", strength, "MPa", "pull at which the panel's wood tears beside a seam", step=0.1,
             how="Its strength across the grain. At the rim the pull peels, and far less is enough.",
             source=facts.inputs.species.source if table is not None else "",
             kind=Kind.PUBLISHED if table is not None else ASSUMED)  # fmt: skip


def _add_water(book: FigureBook, facts: Facts) -> None:
    """The air inside, and the water that a hot board would draw in through a leak."""
    body, builder = facts.body, facts.inputs.builder
    inside = inside_air_litres(body, foam_mm3=foam_mm3(braced_bays(facts)))
    cold = min(builder.beach.temperature_c, BEACH_HOT_C.value)
    book.add("air.inside", inside, "L", "air inside the closed board", low=(1 - INSIDE_OFF) * inside,
             high=(1 + INSIDE_OFF) * inside, how="Room between the panels, less frame, blocks and foam.",
             kind=[MAKER, ASSUMED])  # fmt: skip
    book.add("air.sun_hot", BEACH_HOT_C.value, "°C", "air inside a board left in the sun", kind=ASSUMED,
             how="Too hot to touch for long.", low=BEACH_HOT_C.low, high=BEACH_HOT_C.high)  # fmt: skip
    book.add("air.sea_cold", cold, "°C", "water that it goes into", kind=[MEASURED, ASSUMED],
             how="Taken as warm as the air at your beach. Colder water draws in more.")  # fmt: skip
    low, water, high = (
        drawn_in_l(inside_l=inside * off, hot_c=max(hot, cold), cold_c=cold)
        for hot, off in (
            (BEACH_HOT_C.low, 1 - INSIDE_OFF), (BEACH_HOT_C.value, 1.0), (BEACH_HOT_C.high, 1 + INSIDE_OFF)
        )
    )  # fmt: skip
    book.add("air.drawn_in", water, "L", "water that a leak would let in", low=low, high=high,
             how="What the cooled air no longer fills.",
             kind=[MAKER, MEASURED, ASSUMED], source="ideal gas law", step=0.1)  # fmt: skip
