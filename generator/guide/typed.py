"""What a page asks a builder to type: each field as the builder's file has it, and the limits that it is compared with.

Limits are what the page prints, read back: so the words beside a field never contradict the number above it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any, get_args

from markupsafe import Markup
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from generator.figures import Figure, Figures
from generator.guide.compiled import never_folded
from generator.guide.words import safe_text
from generator.inputs.builder import LevelReadings, Measured, Reading, Shed
from generator.inputs.fields import Quantity
from generator.inputs.measure import measure
from generator.shown import MM_PER_INCH, show, show_exact

UNITS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "metric": {"length": "mm", "mass": "kg", "temperature": "C", "humidity": "%"},
        "inches": {"length": "in", "mass": "lb", "temperature": "F", "humidity": "%"},
    }
)
"""The unit of a bare number by the builder's units and the kind of quantity."""

KIND = MappingProxyType({"mm": "length", "kg": "mass", "°C": "temperature", "%": "humidity"})
SIGNS = MappingProxyType({"C": "°C", "F": "°F"})
FINE_KG = 0.01
FINE_IN = 100
TINY = 1e-6


@dataclass(frozen=True, slots=True)
class Field:
    """One field of the file: its name there ("frame_sag.drop"), its quantity, and whether it is one of a list.

    A list's field is named once for all its places ("cured"); its quantity is that of one height.
    """

    name: str
    quantity: Quantity
    listed: bool = False


def fields() -> dict[str, Field]:
    """All that stands under `measured:` in a builder's file, its shed, and the readings of its table, by name."""
    found = {field.name: field for field in (*_of(Measured), *_of(Shed, "shed."))}
    return found | {"table": Field("table", _quantity(Reading.model_fields["reading_mm"]), listed=True)}


def _of(model: type[BaseModel], before: str = "") -> Iterator[Field]:
    for key, info in model.model_fields.items():
        name = f"{before}{info.alias or key}"
        within = next((part for part in get_args(info.annotation) if _is_model(part)), None)
        if within is not None:
            yield from _of(within, f"{name}.")
        elif LevelReadings in get_args(info.annotation):
            yield Field(name, _quantity(_height()), listed=True)
        else:
            yield Field(name, _quantity(info))


def _is_model(part: Any) -> bool:
    return isinstance(part, type) and issubclass(part, BaseModel)


def _height() -> FieldInfo:
    """The height of one reading above the level line."""
    reading: type[BaseModel] = get_args(get_args(LevelReadings)[0])[0]
    return reading.model_fields["height_mm"]


def _quantity(info: FieldInfo) -> Quantity:
    """The quantity of a number's field, optional or not.

    Raises:
        ValueError: it is no number with a unit.
    """
    metadata = [*info.metadata, *(extra for part in get_args(info.annotation) for extra in get_args(part)[1:])]
    for extra in metadata:
        if isinstance(extra, Quantity):
            return extra
    raise ValueError(f"{info.alias} is no number with a unit")


def typed_filters(figures: Figures) -> dict[str, Callable[..., Any]]:
    """What templates need for places to type into; each gives attributes or the text of one."""
    units = str(figures.said["units"])
    known = fields()

    def found(key: str, part: str = "") -> Figure:
        return figures.values[f"{key}.{part}" if part else key]

    def bare(key: str, end: str = "value", part: str = "") -> Markup:
        """The number alone, in the unit of the inside, for scripts; `end` is "value", "low" or "high"."""
        return Markup(_digits({"value": (f := found(key, part)).value, "low": f.low, "high": f.high}[end]))

    def field(name: str) -> Markup:
        """What a script must know of a field: its name, quantity, unit of a bare number, and what the file takes."""
        one = known[name.rsplit(":", 1)[0]]
        unit = UNITS[units][one.quantity.kind]
        return _attributes(
            field=name,
            quantity=one.quantity.kind,
            unit=unit,
            least=_digits(one.quantity.low),
            most=_digits(one.quantity.high),
            allowed=one.quantity.allowed(unit),
        )

    def limits(key: str, miss: str = "", part: str = "", *, exact: bool = False) -> Markup:
        """The lowest and the highest that a typed number may be: the figure's range, or `miss` above and below it."""
        low, high = _ends(found(key, part), found(miss) if miss else None)
        shown = [(show_exact if exact else show)(end, units) for end in (low, high)]
        low_base, high_base = (float(measure(KIND[low.unit], text).value) for text in shown)
        return _attributes(low=_digits(low_base), high=_digits(high_base), limits=_span(*shown))

    def least(key: str, part: str = "") -> Markup:
        """As `limits`, with a lowest number only."""
        figure = found(key, part)
        text = show(figure, units)
        return _attributes(low=_digits(float(measure(KIND[figure.unit], text).value)), limits=f"{text} or more")

    def place(key: str, part: str = "") -> Markup:
        """A place along the board as the builder's file has it, rounded down so that no tip is off the board."""
        return Markup(_place(found(key, part).value, units))

    def usual(key: str, part: str = "") -> Markup:
        """What a field holds until something else is typed: the number as the page prints it, without its bare unit."""
        figure = found(key, part)
        unit = UNITS[units][KIND[figure.unit]]
        shown = show(figure, units)
        bare_text = shown.removesuffix(SIGNS.get(unit, unit)).rstrip()
        return safe_text(shown if any(map(str.isalpha, bare_text)) else bare_text)  # feet and inches stay together

    def unit(name: str) -> Markup:
        """The unit of a bare number in this field."""
        bare = UNITS[units][known[name.rsplit(":", 1)[0]].quantity.kind]
        return Markup(SIGNS.get(bare, bare))

    def below_zero(name: str) -> bool:
        """Whether the field takes a minus, which a phone's keys for numbers may not have."""
        return known[name.rsplit(":", 1)[0]].quantity.low < 0

    filters: dict[str, Callable[..., Any]] = {
        "bare": bare, "field": field, "limits": limits, "place": place, "usual": usual, "unit": unit,
        "least": least, "below_zero": below_zero,
    }  # fmt: skip
    return {name: never_folded(function) for name, function in filters.items()}


def _ends(figure: Figure, miss: Figure | None) -> tuple[Figure, Figure]:
    """The figure at its lowest and at its highest, or so much beside its value as `miss` (%, or its own unit) says."""
    if miss is None:
        return replace(figure, value=figure.low), replace(figure, value=figure.high)
    off = figure.value * miss.value / 100 if miss.unit == "%" else miss.value
    step = min(figure.step, FINE_KG) if figure.unit == "kg" else figure.step
    low, high = figure.value - off, figure.value + off
    return (
        replace(figure, value=low, low=low, high=high, step=step),
        replace(figure, value=high, low=low, high=high, step=step),
    )


def _span(low: str, high: str) -> str:
    """Two numbers with their units as a range, the unit once if both have the same."""
    if low == high:
        return low
    number, _, unit = low.rpartition(" ")
    return f"{number} to {high}" if number and high.endswith(f" {unit}") else f"{low} to {high}"


def _place(along_mm: float, units: str) -> str:
    """Millimetres to a tenth, or inches to a hundredth, rounded down."""
    if units == "inches":
        return f"{_digits(math.floor(along_mm / MM_PER_INCH * FINE_IN + TINY) / FINE_IN)} in"
    return _digits(math.floor(along_mm * 10 + TINY) / 10)


def _digits(value: float) -> str:
    """A number for scripts and YAML: no exponent, no idle zeros, a plain minus."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _attributes(**values: str) -> Markup:
    return Markup(" ").join(Markup(f'data-{name}="{safe_text(value)}"') for name, value in values.items())
