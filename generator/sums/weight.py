"""Sums of mass and volume: a flat piece of wood, and a slice across a board."""

from __future__ import annotations

from generator.board.shape import FLATTER, FULLER, HALF_ELLIPSE, section_area_mm2
from generator.build.weight import DENSITY_SPREAD, sheet_kg
from generator.figures import Kind
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed

AREA = Takes("area_m2", "area of the piece", unit="m2", low=0.001, high=10)
THICK = Takes("thickness_mm", "thickness", unit="mm", low=0.1, high=200)
DENSITY = Takes("density_kg_m3", "density", unit="kg/m3", low=10, high=2000)
WIDTH = Takes("width_mm", "whole width of the board there", unit="mm", low=10, high=900)
CROWN = Takes("crown_mm", "how much lower the deck lies at the rim", unit="mm", low=0, high=60, usual=0)
RAIL = Takes("rail_mm", "width of each rounded rail", unit="mm", low=0, high=80, usual=30)


def _sheet(typed: Typed) -> Answer:
    numbers = typed.numbers
    kg = sheet_kg(
        area_m2=numbers["area_m2"], thickness_mm=numbers["thickness_mm"], density_kg_m3=numbers["density_kg_m3"]
    )
    return Answer(kg, (1 - DENSITY_SPREAD) * kg, (1 + DENSITY_SPREAD) * kg)


def _section(typed: Typed) -> Answer:
    numbers = typed.numbers
    if numbers["crown_mm"] > numbers["thickness_mm"]:
        raise OutOfRange("crown_mm", "no more than the thickness", f"{numbers['thickness_mm']:g}")

    def area(fill: float) -> float:
        return float(
            section_area_mm2(
                half_width_mm=numbers["width_mm"] / 2,
                thickness_mm=numbers["thickness_mm"],
                crown_mm=numbers["crown_mm"],
                rail_mm=numbers["rail_mm"],
                rail_fill=fill,
            )
        )

    return Answer(area(HALF_ELLIPSE), area(FLATTER), area(FULLER))


SUMS: tuple[Sum, ...] = (
    Sum(
        "sheet-mass",
        "mass of a flat piece of wood",
        (AREA, THICK, DENSITY),
        "kg",
        Kind.PUBLISHED,
        "area × thickness × density; range by the average spread of wood's density, Wood Handbook FPL-GTR-190 (2010), "
        "chapter 5 (from memory)",
        "even thickness; a piece whose density was measured has no such range",
        _sheet,
    ),
    Sum(
        "section-area",
        "area of a slice across a board: flat bottom, crowned deck, rails of half an ellipse",
        (WIDTH, THICK, CROWN, RAIL),
        "mm2",
        Kind.ASSUMED,
        "integral of the section's thickness; the range is for flatter and for fuller rails",
        "crown no more than the thickness",
        _section,
    ),
)
