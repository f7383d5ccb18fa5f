"""The units that the input files may use, and a value said in one of them.

Factors: the inch is 25.4 mm and the pound 0.45359237 kg by definition (international yard and pound agreement, 1959,
from memory); the Fahrenheit scale is °C = (°F − 32) · 5/9 by definition (from memory). The US gallon is 231 cubic
inches, 3.785411784 l, by definition; coverage follows from it and the foot.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

Rounding = Literal["up", "down"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: base value = (number − zero) · factor. `names` are compared without regard to capitals."""

    name: str
    names: tuple[str, ...]
    factor: Fraction
    places: int
    zero: Fraction = Fraction(0)
    part_of: str = ""


@dataclass(frozen=True, slots=True)
class Scale:
    """A kind of quantity. `units[0]` is the base unit; `example` shows how to write one."""

    kind: str
    example: str
    units: tuple[Unit, ...]

    @property
    def base(self) -> Unit:
        """The unit of a bare number."""
        return self.units[0]

    def unit(self, name: str) -> Unit:
        """The unit called `name`; "" is the base."""
        return next((unit for unit in self.units if unit.name == name), self.base)

    @property
    def said(self) -> str:
        """The units in words."""
        return ", ".join(unit.name for unit in self.units if unit.name)


def _unit(name: str, also: str, factor: str, places: int, zero: str = "0", part_of: str = "") -> Unit:
    names = tuple(sorted({name.casefold(), *also.split()} - {""}, key=lambda word: (-len(word), word)))
    return Unit(name, names, Fraction(factor), places, Fraction(zero), part_of)


_SCALES = (
    Scale(
        "length",
        "6.5 mm, 1 1/4 in, 9 ft 2 in",
        (
            _unit("mm", "", "1", 2),
            _unit("cm", "", "10", 3),
            _unit("m", "", "1000", 5),
            _unit("in", 'inch inches " ″ ”', "25.4", 4, part_of="ft"),
            _unit("ft", "foot feet ' ′ ’", "304.8", 4),
        ),
    ),
    Scale(
        "mass",
        "1.2 kg, 850 g, 5 lb",
        (
            _unit("kg", "", "1", 4),
            _unit("g", "", "1/1000", 1),
            _unit("lb", "lbs", "0.45359237", 3),
            _unit("oz", "", "0.028349523125", 2, part_of="lb"),
        ),
    ),
    Scale(
        "temperature",
        "18, 18 C, 64 F",
        (_unit("C", "°c celsius", "1", 1), _unit("F", "°f fahrenheit", "5/9", 1, zero="32")),
    ),
    Scale(
        "time",
        "25 min, 1 h 30 min, 2 d",
        (
            _unit("min", "minute minutes", "1", 1, part_of="h"),
            _unit("h", "hour hours", "60", 2, part_of="d"),
            _unit("d", "day days", "1440", 3),
        ),
    ),
    Scale("stiffness", "7700, 7.7 GPa", (_unit("MPa", "n/mm2 n/mm²", "1", 1), _unit("GPa", "", "1000", 4))),
    Scale("density", "320, 320 kg/m3", (_unit("kg/m3", "kg/m³", "1", 1),)),
    Scale("humidity", "65, 65 %", (_unit("%", "percent", "1", 1),)),
    Scale(
        "volume",
        "750 ml, 1 l, 16 fl oz",
        (
            _unit("l", "litre litres liter liters", "1", 4),
            _unit("ml", "", "1/1000", 1),
            _unit("fl oz", "", "0.0295735295625", 2),
            _unit("qt", "quart quarts", "0.946352946", 3),
            _unit("gal", "gallon gallons", "3.785411784", 3),
        ),
    ),
    Scale(
        "coverage",
        "12 m2/l, 400 sq ft/gal",
        (
            _unit("m2/l", "m²/l", "1", 2),
            _unit("sq ft/gal", "ft2/gal ft²/gal", "0.0245424", 1),
            _unit("sq ft/qt", "ft2/qt ft²/qt", "0.0981696", 1),
        ),
    ),
    Scale("spread", "180, 180 g/m2", (_unit("g/m2", "g/m²", "1", 1), _unit("oz/sq ft", "oz/ft2 oz/ft²", "305.152", 2))),
    Scale("sound", "92, 92 dBA", (_unit("dBA", "db(a) db", "1", 1),)),
    Scale("acceleration", "5.5, 5.5 m/s2", (_unit("m/s2", "m/s²", "1", 2),)),
    Scale("share", "0.5, 1/2, 50 %", (_unit("", "", "1", 3), _unit("%", "percent", "1/100", 1))),
)
SCALES: Mapping[str, Scale] = MappingProxyType({scale.kind: scale for scale in _SCALES})


def say(kind: str, value: Fraction, unit: str, rounding: Rounding) -> str:
    """`value` (base unit) in words in `unit`, rounded up or down to what can be read off a rule or scale."""
    scale = SCALES[kind]
    chosen = scale.unit(unit)
    number = value / chosen.factor + chosen.zero
    if kind == "length" and chosen.name in {"in", "ft"}:
        return _say_inches(value / Fraction("25.4"), rounding, feet=chosen.name == "ft")
    steps = number * 10**chosen.places
    whole = math.ceil(steps) if rounding == "up" else math.floor(steps)
    digits = f"{Decimal(whole).scaleb(-chosen.places):f}"
    digits = digits.rstrip("0").rstrip(".") if "." in digits else digits
    space = "" if not chosen.name else " "
    return f"{digits or '0'}{space}{chosen.name}"


def _say_inches(inches: Fraction, rounding: Rounding, *, feet: bool) -> str:
    sixteenths = math.ceil(inches * 16) if rounding == "up" else math.floor(inches * 16)
    sign, sixteenths = ("-" if sixteenths < 0 else ""), abs(sixteenths)
    whole_feet, sixteenths = divmod(sixteenths, 192) if feet and not sign else (0, sixteenths)
    whole, part = divmod(sixteenths, 16)
    fraction = str(Fraction(part, 16)) if part else ""
    words = " ".join(filter(None, (str(whole) if whole or not part else "", fraction)))
    tail = f"{sign}{words} in" if not (whole_feet and not sixteenths) else ""
    return " ".join(filter(None, (f"{whole_feet} ft" if whole_feet else "", tail)))
