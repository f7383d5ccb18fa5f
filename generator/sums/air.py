"""Sums of the air shut in a hollow board."""

from __future__ import annotations

from generator.build.air import (
    COLDEST_C,
    HIGHEST_M,
    HOTTEST_C,
    air_pressure_kpa,
    closed_air_kpa,
    drawn_in_l,
    flown_kpa,
    push_n,
)
from generator.figures import Kind
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed

FROM = Takes("from_c", "temperature as it was closed", unit="°C", low=COLDEST_C, high=HOTTEST_C)
TO = Takes("to_c", "temperature of the air inside later", unit="°C", low=COLDEST_C, high=HOTTEST_C)
ALTITUDE = Takes("altitude_m", "height above the sea", unit="m", low=0, high=HIGHEST_M)
INSIDE = Takes("inside_l", "air inside the board", unit="L", low=0, high=500)
HOT = Takes("hot_c", "air inside when it was shut", unit="°C", low=COLDEST_C, high=HOTTEST_C)
COLD = Takes("cold_c", "air inside once it has cooled", unit="°C", low=COLDEST_C, high=HOTTEST_C)
PRESSURE = Takes("pressure_kpa", "pressure inside over that outside", unit="kPa", low=0, high=100)
AREA = Takes("area_m2", "area that it pushes on", unit="m2", low=0.0001, high=10)
GAS = "ideal gas law (textbook)"
ICAO = "ICAO Doc 7488, standard atmosphere (from memory)"
SEALED = "a sealed room of fixed volume, closed at one standard atmosphere (101.325 kPa), dry air, -40 to 120 °C"


def _drawn_in(typed: Typed) -> Answer:
    hot, cold = typed.numbers["hot_c"], typed.numbers["cold_c"]
    if cold > hot:
        raise OutOfRange("cold_c", f"no higher than hot_c, which is {hot:g}", f"{hot:g}")
    return Answer.exact(drawn_in_l(inside_l=typed.numbers["inside_l"], hot_c=hot, cold_c=cold))


SUMS: tuple[Sum, ...] = (
    Sum(
        "closed-air",
        "pressure over one atmosphere in a sealed board that grows warmer; below 0 as it cools",
        (FROM, TO),
        "kPa",
        Kind.PUBLISHED,
        GAS,
        SEALED,
        lambda typed: Answer.exact(closed_air_kpa(from_c=typed.numbers["from_c"], to_c=typed.numbers["to_c"])),
    ),
    Sum(
        "air-pressure",
        "pressure of the air at a height, as in a cabin kept at that height",
        (ALTITUDE,),
        "kPa",
        Kind.PUBLISHED,
        ICAO,
        "the standard atmosphere from 0 to 11 000 m",
        lambda typed: Answer.exact(air_pressure_kpa(typed.numbers["altitude_m"])),
    ),
    Sum(
        "cabin-air",
        "pressure over that outside in a board closed at the sea and taken up, as warm as it was",
        (ALTITUDE,),
        "kPa",
        Kind.PUBLISHED,
        f"{ICAO}; cabins at most 2438 m (8000 ft), 14 CFR 25.841",
        "the standard atmosphere from 0 to 11 000 m",
        lambda typed: Answer.exact(flown_kpa(typed.numbers["altitude_m"])),
    ),
    Sum(
        "air-push",
        "force of a pressure on a flat panel",
        (PRESSURE, AREA),
        "N",
        Kind.PUBLISHED,
        "pressure times area",
        "up to 100 kPa and 10 m²",
        lambda typed: Answer.exact(push_n(kpa=typed.numbers["pressure_kpa"], area_mm2=1e6 * typed.numbers["area_m2"])),
    ),
    Sum(
        "water-drawn-in",
        "water that a leak lets in as a hot, shut board cools",
        (INSIDE, HOT, COLD),
        "L",
        Kind.PUBLISHED,
        GAS,
        "the hot air had come level with the air outside; the depth of water is left out",
        _drawn_in,
    ),
)
