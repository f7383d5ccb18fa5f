"""Every number that a page or a drawing may show, with what it is, how it was got and how far to trust it.

This is the hinge of the program: the computing parts end here, pages and drawings begin here.
Keys never change once a guide has been sent out, because ticks, measurements and links hang on them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Any

Row = Mapping[str, Any]


class Kind(StrEnum):
    """Where a figure's trust comes from; the order of the members is from most to least certain."""

    PUBLISHED = "published"
    MEASURED = "your measurement"
    LABEL = "your label"
    MAKER = "maker's choice"
    COMMON_PRACTICE = "common practice"
    ASSUMED = "assumed"


_RANK = {kind: rank for rank, kind in enumerate(Kind)}


def least_certain(kinds: Iterable[Kind]) -> Kind:
    """The kind of a figure computed from inputs of these kinds.

    Raises:
        ValueError: no kind was given.
    """
    return max(kinds, key=_RANK.__getitem__)


@dataclass(frozen=True, slots=True)
class Figure:
    """One number that may be shown, in the unit of the inside (mm, kg, N, °C, min …)."""

    key: str
    value: float
    unit: str
    label: str
    how: str
    kind: Kind
    source: str
    low: float
    high: float
    step: float

    def __post_init__(self) -> None:
        if not all(math.isfinite(v) for v in (self.value, self.low, self.high)):
            raise ValueError(f"figure {self.key} is not a finite number")
        if not self.low <= self.value <= self.high:
            raise ValueError(f"figure {self.key}: {self.value} is not within {self.low} to {self.high}")


@dataclass(frozen=True, slots=True)
class Curve:
    """A line that a drawing may show: `y` over `x_mm`, both of the same length."""

    key: str
    x_mm: tuple[float, ...]
    y: tuple[float, ...]
    unit: str
    label: str

    def __post_init__(self) -> None:
        if len(self.x_mm) != len(self.y):
            raise ValueError(f"curve {self.key}: {len(self.x_mm)} places but {len(self.y)} values")


@dataclass(frozen=True, slots=True)
class Figures:
    """All that pages and drawings may use.

    `values` are numbers, `curves` lines, `rows` repeated things (supports, clamps …) whose numbers are named by
    key, `said` words and choices that are not numbers, and `data` blocks of JSON for scripts, by name.
    """

    values: Mapping[str, Figure]
    curves: Mapping[str, Curve]
    rows: Mapping[str, tuple[Row, ...]]
    said: Mapping[str, Any]
    data: Mapping[str, Mapping[str, Any]] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(slots=True)
class FigureBook:
    """Collects figures; each key may be set once."""

    values: dict[str, Figure] = field(default_factory=dict)
    curves: dict[str, Curve] = field(default_factory=dict)
    rows: dict[str, tuple[Row, ...]] = field(default_factory=dict)
    said: dict[str, Any] = field(default_factory=dict)
    data: dict[str, dict[str, Any]] = field(default_factory=dict)

    def add(
        self,
        key: str,
        value: float,
        unit: str,
        label: str,
        *,
        how: str,
        kind: Kind | Sequence[Kind],
        source: str = "",
        low: float | None = None,
        high: float | None = None,
        step: float = 1.0,
    ) -> Figure:
        """Add one figure; a computed one gets the least certain of the kinds given.

        Raises:
            ValueError: the key is taken, a number is not finite, or the value lies outside its own range.
        """
        if key in self.values:
            raise ValueError(f"figure {key} is set twice")
        got = float(value)
        bounds = [got, *(float(v) for v in (low, high) if v is not None)]
        figure = Figure(
            key=key,
            value=got,
            unit=unit,
            label=label,
            how=how,
            kind=kind if isinstance(kind, Kind) else least_certain(kind),
            source=source,
            low=min(bounds),
            high=max(bounds),
            step=step,
        )
        self.values[key] = figure
        return figure

    def draw(self, key: str, x_mm: Iterable[float], y: Iterable[float], unit: str, label: str) -> None:
        """Add one curve, rounded to a micrometre so that the same bytes come out on every run."""
        if key in self.curves:
            raise ValueError(f"curve {key} is set twice")
        self.curves[key] = Curve(
            key, tuple(round(float(v), 3) for v in x_mm), tuple(round(float(v), 9) for v in y), unit, label
        )

    def close(self) -> Figures:
        """The finished, read-only collection."""
        return Figures(
            MappingProxyType(dict(self.values)),
            MappingProxyType(dict(self.curves)),
            MappingProxyType({name: tuple(map(MappingProxyType, rows)) for name, rows in self.rows.items()}),
            MappingProxyType(dict(self.said)),
            MappingProxyType({name: MappingProxyType(block) for name, block in self.data.items()}),
        )
