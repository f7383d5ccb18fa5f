"""The rocker as the trade names and measures it, and how a builder's tuning changes it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from generator.board.curve import FairCurve, fair_curve

MEASURED_IN_MM = 300.0


class HeightAt(Protocol):
    """Height of the bottom at one place."""

    @property
    def from_tail_mm(self) -> float: ...
    @property
    def height_mm(self) -> float: ...


class ShiftAtTips(Protocol):
    """How much higher the tips shall be."""

    @property
    def tail_mm(self) -> float: ...
    @property
    def nose_mm(self) -> float: ...


@dataclass(frozen=True, slots=True)
class RockerHeight:
    """Height of the bottom above its low point at one place."""

    from_tail_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Rises:
    """Heights above the low point that name a rocker: at both tips and a set way in from each."""

    tail_mm: float
    tail_in_mm: float
    nose_in_mm: float
    nose_mm: float
    low_point_mm: float
    measured_in_mm: float


def rises(curve: FairCurve, *, length_mm: float, measured_in_mm: float = MEASURED_IN_MM) -> Rises:
    """Rise of a bottom curve at its tips and `measured_in_mm` in from them, above its low point.

    300 mm is common practice; makers who work in inches take 12 in (304.8 mm), so the page says which.
    """
    low = curve.low_point_mm()
    places = (0.0, measured_in_mm, length_mm - measured_in_mm, length_mm)
    tail, tail_in, nose_in, nose = (float(curve.height_mm(x) - curve.height_mm(low)) for x in places)
    return Rises(tail, tail_in, nose_in, nose, low, measured_in_mm)


def tuned_rocker(
    suggested: Sequence[HeightAt], shifts: Sequence[ShiftAtTips], *, length_mm: float
) -> tuple[RockerHeight, ...]:
    """Suggested heights with all shifts added: whole at the tips, fading with the square to 0 at the low point.

    The low point is that of the fair curve through the suggested heights. Below 0 a shift flattens.
    """
    x = [one.from_tail_mm for one in suggested]
    low = fair_curve(x, [one.height_mm for one in suggested], length_mm=length_mm).curve.low_point_mm()
    tail, nose = sum(one.tail_mm for one in shifts), sum(one.nose_mm for one in shifts)
    return tuple(
        RockerHeight(one.from_tail_mm, one.height_mm + _share(one.from_tail_mm, low, tail, nose, length_mm))
        for one in suggested
    )


def _share(x_mm: float, low_mm: float, tail_mm: float, nose_mm: float, length_mm: float) -> float:
    """What the shifts add at one place."""
    if x_mm < low_mm:
        return tail_mm * float(((low_mm - x_mm) / low_mm) ** 2)
    if x_mm > low_mm:
        return nose_mm * float(((x_mm - low_mm) / (length_mm - low_mm)) ** 2)
    return 0.0


def wanted_rocker(
    suggested: Sequence[HeightAt],
    *,
    agreed: Sequence[HeightAt] | None,
    shifts: Sequence[ShiftAtTips],
    length_mm: float,
) -> tuple[HeightAt, ...]:
    """The rocker to bend to: the one agreed with the maker untouched, else the suggested one with the shifts."""
    return tuple(agreed) if agreed is not None else tuned_rocker(suggested, shifts, length_mm=length_mm)
