"""How stiff a frame or a panel really is, from how far it sags under a known weight."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from generator.quantities import GRAVITY_M_S2, Floats, fixed

PIECES = 400
READING_MM = 0.5
"""How finely a drop can be read with a rule; common practice."""
OTHER_SHARE = 0.05
"""Left over even by a perfect reading: where along the part the stiffness lies, and how the weight spreads."""


@dataclass(frozen=True, slots=True)
class Scale:
    """Measured stiffness over the one given: the value and the range that the reading leaves."""

    low: float
    value: float
    high: float


def drop_mm(
    stiffness_n_mm2: Callable[[Floats], Floats], *, length_mm: float, apart_mm: float, weight_kg: float
) -> float:
    """How far the middle of a part drops when a weight is put on it, mm.

    The part lies on two narrow supports `apart_mm` apart, evenly about its middle; its own sag is there before the
    weight is and does not count. Unit-load method: δ = P ∫ m² / (E·I) dx, m the moment of 1 N in the middle of a simple
    span; P·L³ / (48 E·I) where the stiffness is the same all along.

    Raises:
        ValueError: the supports are not under the part.
    """
    if not 0 < apart_mm <= length_mm:
        raise ValueError("the two supports must be under the part")
    size = apart_mm / PIECES
    from_support = (np.arange(PIECES) + 0.5) * size
    moment = np.minimum(from_support, apart_mm - from_support) / 2
    stiffness = stiffness_n_mm2(fixed((length_mm - apart_mm) / 2 + from_support))
    # The moment is linear in a piece: its mean square is the middle's plus slope² · size² / 12.
    square = moment**2 + (size / 2) ** 2 / 12
    return float(weight_kg * GRAVITY_M_S2 * (square / stiffness).sum() * size)


def measured_scale(*, read_mm: float, given_mm: float) -> Scale:
    """How much stiffer than given a part is that drops `read_mm` where the given stiffness would drop `given_mm`.

    The range is that of a reading half a millimetre out and of a twentieth for what one number can't tell.
    """
    low = given_mm / (read_mm + READING_MM) / (1 + OTHER_SHARE)
    high = given_mm / max(read_mm - READING_MM, READING_MM) * (1 + OTHER_SHARE)
    return Scale(low, given_mm / read_mm, high)
