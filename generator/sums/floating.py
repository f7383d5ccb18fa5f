"""Sums of water: its density, what it carries, and the speed that a waterline sets."""

from __future__ import annotations

from generator.build.floating import carried_kg, wave_speed_m_s
from generator.build.water_density import DESIGN_KG_M3, Water, displaced_litres, water_kg_m3
from generator.figures import Kind
from generator.sums.sum_type import Answer, Sum, Takes, Typed

WATERLINE = Takes("waterline_m", "length that is under water", unit="m", low=0.1, high=100)
MASS = Takes("mass_kg", "mass that floats", unit="kg", low=0.1, high=1000)
VOLUME = Takes("volume_l", "volume of the board", unit="L", low=1, high=400)
BOARD = Takes("board_kg", "mass of the board", unit="kg", low=0.1, high=100)
WATER = Takes("water", "sea or fresh water", words=("sea", "fresh"), usual="sea")
TEMPERATURE = Takes("temperature_c", "temperature of the water", unit="°C", low=-2, high=40)
SALT = Takes("salinity", "practical salinity, about grams of salt in a kilogram", low=0, high=42, usual=35)
DESIGN_SOURCE = "Archimedes' principle; design densities, sea 1025 (1020 to 1029), fresh 1000 (998 to 1000) kg/m³"


def _water(typed: Typed) -> Water:
    return "fresh" if typed.words["water"] == "fresh" else "sea"


def _volume(typed: Typed) -> Answer:
    density, mass = DESIGN_KG_M3[_water(typed)], typed.numbers["mass_kg"]
    return Answer(*(displaced_litres(mass, water_kg_m3=one) for one in (density.value, density.high, density.low)))


def _carried(typed: Typed) -> Answer:
    density, board = DESIGN_KG_M3[_water(typed)], typed.numbers["board_kg"]
    litres = typed.numbers["volume_l"]
    return Answer(
        *(
            carried_kg(litres=litres, board_kg=board, water_kg_m3=one)
            for one in (density.value, density.low, density.high)
        )
    )


def _sea(typed: Typed) -> Answer:
    salt, temperature = typed.numbers["salinity"], typed.numbers["temperature_c"]
    return Answer.exact(water_kg_m3(temperature_c=temperature, salinity=salt))


SUMS: tuple[Sum, ...] = (
    Sum(
        "wave-speed",
        "speed of a wave as long as the waterline: what a hull that pushes water aside hardly passes",
        (WATERLINE,),
        "m/s",
        Kind.PUBLISHED,
        "deep-water wave speed √(g L / 2π); naval architecture texts' speed-length rule, 1.34 knots per root foot",
        "water deeper than half the waterline; an indication for paddling, no bound for a board that planes",
        lambda typed: Answer.exact(wave_speed_m_s(typed.numbers["waterline_m"])),
    ),
    Sum(
        "float-volume",
        "litres that must be under water to carry a mass",
        (MASS, WATER),
        "L",
        Kind.PUBLISHED,
        DESIGN_SOURCE,
        "anything that floats at rest",
        _volume,
    ),
    Sum(
        "carried-mass",
        "mass that a board carries before all of it is under water; below 0 it sinks by itself",
        (VOLUME, BOARD, WATER),
        "kg",
        Kind.PUBLISHED,
        DESIGN_SOURCE,
        "at rest; what a moving board carries is another matter",
        _carried,
    ),
    Sum(
        "sea-density",
        "density of water at the surface by temperature and salt",
        (TEMPERATURE, SALT),
        "kg/m3",
        Kind.PUBLISHED,
        "UNESCO equation of state EOS-80 at one atmosphere; Millero and Poisson (1981) (coefficients from memory)",
        "−2 to 40 °C, salinity 0 to 42, at the surface",
        _sea,
    ),
)
