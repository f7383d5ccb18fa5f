"""A figure as text in the builder's units: metric, or inches to the nearest 1/16 with pounds and Fahrenheit.

The only place where numbers leave the units of the inside. Fractions are plain ASCII ("2 3/16 in"), a negative
number wears a real minus sign, and nothing is written in powers of ten.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from math import floor, gcd, log10

from generator.figures import Figure

MINUS = "−"
MM_PER_INCH = 25.4  # exact, international inch (1959), from memory
LB_PER_KG = 1 / 0.45359237  # exact, international pound (1959), from memory
PSI_PER_MPA = 145.037738  # from memory
LBF_PER_N = LB_PER_KG / 9.80665
SQ_FT_PER_M2 = 1e6 / (12 * MM_PER_INCH) ** 2
LB_FT3_PER_KG_M3 = LB_PER_KG / (1000 / (12 * MM_PER_INCH)) ** 3
ML_PER_FL_OZ = 29.5735295625  # exact, US fluid ounce (1/128 of a gallon of 231 cubic inches), from memory
KM_PER_MILE = 1.609344  # exact, from memory
LONG_MM = 10_000.0
COARSE_MM = 10.0
FEET_FROM_IN = 96
HOURS_FROM_MIN = 120
DAYS_FROM_MIN = 4 * 1440

Shown = tuple[str, str]
"""Number and unit; the unit is empty where it stands inside the number or where there is none."""


def show(figure: Figure, units: str, *, short: bool = False) -> str:
    """The figure's value with its unit, as the builder reads it.

    Args:
        units: "metric" or "inches".
        short: The number alone, for drawings and tables that name the unit once; lengths stay in mm or inches.

    Raises:
        ValueError: the unit or `units` is not known here.
    """
    number, unit = _shown(figure.value, figure.unit, figure.step, units, short=short)
    return number if short else _joined(number, unit)


def show_exact(figure: Figure, units: str) -> str:
    """As `show`, but inches in hundredths: for thin stock, where 1/16 in is too coarse to judge by.

    Raises:
        ValueError: as `show`.
    """
    if units == "inches" and figure.unit == "mm":
        return _joined(_stepped(figure.value / MM_PER_INCH, 0.01), "in")
    return show(figure, units)


def show_range(figure: Figure, units: str) -> str:
    """Lowest to highest value ("190 to 230 mm"); the plain value if both read the same.

    Raises:
        ValueError: as `show`.
    """
    low = _shown(figure.low, figure.unit, figure.step, units)
    high = _shown(figure.high, figure.unit, figure.step, units)
    if low == high:
        return _joined(*low)
    if low[1] == high[1]:
        return _joined(f"{low[0]} to {high[0]}", low[1])
    return f"{_joined(*low)} to {_joined(*high)}"


def _joined(number: str, unit: str) -> str:
    if number == "1" and unit == "points":
        return "1 point"
    return number + unit if unit in {"", "%", "°"} else f"{number} {unit}"


def _shown(value: float, unit: str, step: float, units: str, *, short: bool = False) -> Shown:
    if units not in {"metric", "inches"}:
        raise ValueError(f"units are metric or inches, not {units!r}")
    table = _INCHES if units == "inches" and unit in _INCHES else _METRIC
    if unit not in table:
        raise ValueError(f"no way to show the unit {unit!r}")
    if short and unit == "mm":
        return (_sixteenths(value, step, feet=False), "in") if units == "inches" else (_stepped(value, step), "mm")
    return table[unit](value, step)


def _stepped(value: float, step: float) -> str:
    """The value rounded half up to whole steps, without idle zeros."""
    grain = Decimal(str(step)).normalize()
    steps = (Decimal(repr(float(value))) / grain).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    text = f"{abs(steps) * grain:f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return MINUS + text if steps < 0 else text


def _tens(step: float) -> float:
    """The power of ten that is as fine as the step: the step after a change of units."""
    return 10.0 ** floor(log10(step) + 1e-9)


def _significant(value: float) -> str:
    """Two significant digits without powers of ten."""
    if value == 0:
        return "0"
    return _stepped(value, 10.0 ** (floor(log10(abs(value))) - 1))


def _millimetres(value: float, step: float) -> Shown:
    if abs(value) >= LONG_MM:
        return _stepped(value / 1000, 0.1), "m"
    return _stepped(value, step), "mm"


def _inches(value: float, step: float) -> Shown:
    text = _sixteenths(value, step, feet=True)
    return (text, "") if text.endswith(("in", "ft")) else (text, "in")


def _sixteenths(value_mm: float, step: float, *, feet: bool) -> str:
    """Inches to the nearest 1/16, whole ones for a coarse step, feet from 8 ft on.

    What would be nothing in sixteenths is told in hundredths, unless it is less than a step anyway.
    """
    inches = Decimal(repr(abs(float(value_mm)))) / Decimal(str(MM_PER_INCH))
    grain = 16 if step >= COARSE_MM and inches >= 1 else 1
    count = grain * int((inches * 16 / grain).quantize(Decimal(1), rounding=ROUND_HALF_UP))
    if count == 0:
        return _stepped(value_mm / MM_PER_INCH, 0.01) if abs(value_mm) >= step else "0"
    sign = MINUS if value_mm < 0 else ""
    if not feet or count < FEET_FROM_IN * 16:
        return sign + _mixed(count)
    whole, rest = divmod(count, 12 * 16)
    return f"{sign}{whole} ft {_mixed(rest)} in" if rest else f"{sign}{whole} ft"


def _mixed(count: int) -> str:
    """A number of sixteenths, above 0, as whole number and reduced fraction."""
    whole, rest = divmod(count, 16)
    if not rest:
        return str(whole)
    shared = gcd(rest, 16)
    fraction = f"{rest // shared}/{16 // shared}"
    return f"{whole} {fraction}" if whole else fraction


def _minutes(value: float, step: float) -> Shown:
    """Minutes, from two hours on hours and minutes, from four days on days and hours."""
    if abs(value) < HOURS_FROM_MIN:
        return _stepped(value, step), "min"
    grain = max(1, int(step))
    total = grain * int((Decimal(repr(float(value))) / grain).quantize(Decimal(1), rounding=ROUND_HALF_UP))
    if abs(total) >= DAYS_FROM_MIN:
        days, over = divmod(round(abs(total) / 60), 24)
        text = f"{MINUS if total < 0 else ''}{days}"
        return (f"{text} days {over} h", "") if over else (text, "days")
    hours, rest = divmod(abs(total), 60)
    sign = MINUS if total < 0 else ""
    return (f"{sign}{hours} h {rest} min", "") if rest else (f"{sign}{hours}", "h")


def _megapascals(value: float, step: float) -> Shown:
    return (_stepped(value / 1000, 0.1), "GPa") if abs(value) >= 1000 else (_stepped(value, step), "MPa")


def _psi(value: float, step: float) -> Shown:
    psi = value * PSI_PER_MPA
    return (_stepped(psi / 1e6, 0.01), "million psi") if abs(psi) >= 1e5 else (_significant(psi), "psi")


def _fluid_ounces(value_ml: float) -> Shown:
    """Whole ones from ten on, tenths below, hundredths of what would be nothing."""
    ounces = value_ml / ML_PER_FL_OZ
    return _stepped(ounces, 1.0 if abs(ounces) >= 10 else 0.1 if abs(ounces) >= 0.1 else 0.01), "fl oz"


def _same(unit: str) -> Callable[[float, float], Shown]:
    return lambda value, step: (_stepped(value, step), unit)


def _times(factor: float, unit: str) -> Callable[[float, float], Shown]:
    return lambda value, step: (_stepped(value * factor, _tens(step)), unit)


def _rough(factor: float, unit: str) -> Callable[[float, float], Shown]:
    return lambda value, step: (_significant(value * factor), unit)


_METRIC: dict[str, Callable[[float, float], Shown]] = {
    "mm": _millimetres,
    "m": _same("m"),
    "m2": _same("m²"),
    "m3": _same("m³"),
    "kg": _same("kg"),
    "kg/m3": _same("kg/m³"),
    "kg/m": _same("kg per metre"),
    "g": _same("g"),
    "L": _same("L"),
    "L/kg": _same("L/kg"),
    "N": _same("N"),
    "MPa": _megapascals,
    "1/mm": _rough(1000, "per m"),
    "per million mm": _same("per million mm"),
    "min": _minutes,
    "°C": _same("°C"),
    "°C difference": _same("°C"),
    "%": _same("%"),
    "°": _same("°"),
    "grit": _same("grit"),
    "dB(A)": _same("dB(A)"),
    "dB": _same("dB"),
    "m/s2": _same("m/s²"),
    "mm/mm": _same("to 1"),
    "kPa": _same("kPa"),
    "ml": _same("ml"),
    "ml/m": _same("ml per metre"),
    "g/m2": _same("g/m²"),
    "min/m": _same("min per metre"),
    "m2/L": _same("m² per litre"),
    "m/s": _same("m/s"),
    "points": _same("points"),
    "mg/m3": _same("mg/m³"),
    "N/mm": _same("N per mm"),
    "": _same(""),
}

_INCHES: dict[str, Callable[[float, float], Shown]] = {
    "mm": _inches,
    "m": _times(1000 / (12 * MM_PER_INCH), "ft"),
    "m2": _times(SQ_FT_PER_M2, "sq ft"),
    "m3": _rough(1 / (12 * MM_PER_INCH / 1000) ** 3, "cu ft"),
    "kg": _times(LB_PER_KG, "lb"),
    "kg/m": _times(LB_PER_KG * 12 * MM_PER_INCH / 1000, "lb per foot"),
    "kg/m3": _times(LB_FT3_PER_KG_M3, "lb/ft³"),
    "g": _rough(LB_PER_KG * 16 / 1000, "oz"),
    "L/kg": _times(1 / LB_PER_KG, "L/lb"),
    "N": _times(LBF_PER_N, "lbf"),
    "MPa": _psi,
    "1/mm": _rough(12 * MM_PER_INCH, "per ft"),
    "per million mm": _rough(MM_PER_INCH, "per million in"),
    "°C": lambda value, step: (_stepped(value * 1.8 + 32, _tens(step)), "°F"),
    "°C difference": _times(1.8, "°F"),
    "kPa": lambda value, step: _psi(value / 1000, step),
    "ml": lambda value, step: _fluid_ounces(value),
    "ml/m": _times(12 * MM_PER_INCH / 1000 / ML_PER_FL_OZ, "fl oz per foot"),
    "min/m": _times(12 * MM_PER_INCH / 1000, "min per foot"),
    "g/m2": _times(LB_PER_KG * 16 / 1000 / SQ_FT_PER_M2, "oz per sq ft"),
    "m2/L": _times(SQ_FT_PER_M2 * ML_PER_FL_OZ * 32 / 1000, "sq ft per quart"),
    "m/s": _times(3.6 / KM_PER_MILE, "mph"),
    "N/mm": _times(LBF_PER_N * MM_PER_INCH, "lbf per inch"),
}
