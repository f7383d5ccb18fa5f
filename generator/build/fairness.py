"""Fair surfaces: what a batten's gap says of a curve, what sanding costs a thin panel, flats on the way to a round."""

from __future__ import annotations

import math
from dataclasses import dataclass

FIRST_DEG, SECOND_DEG = 45.0, 22.5


def sagitta_mm(*, radius_mm: float, span_mm: float) -> float:
    """How far an arc lies from the straight edge across it, at the middle: R − √(R² − (L/2)²).

    Raises:
        ValueError: the span is not above 0, or wider than the circle.

    Source: height of a circle's segment (Euclid III.35; from memory).
    """
    if not 0 < span_mm <= 2 * radius_mm:
        raise ValueError("span_mm must be above 0 and no wider than the circle")
    half = span_mm / 2
    return half**2 / (radius_mm + math.sqrt(radius_mm**2 - half**2))


def gap_curvature_per_mm(*, gap_mm: float, span_mm: float) -> float:
    """Change of curvature that opens a gap at the middle of a batten, or lets it rock as far at its ends: 8 g / L².

    A batten that fits a fair curve shows no gap. Where the surface bends more or less than its surroundings by this
    much over the batten's whole length, the gap is `gap_mm`. Shallow: within 0.1 % up to a gap of a sixtieth of the
    span.

    Raises:
        ValueError: the span is not above 0, or the gap below 0.

    Source: first term of the height of a circle's segment (from memory).
    """
    if not span_mm > 0 or gap_mm < 0:
        raise ValueError("span_mm must be above 0 and gap_mm at or above 0")
    return 8 * gap_mm / span_mm**2


@dataclass(frozen=True, slots=True)
class Thinned:
    """A panel after sanding, as shares of what it was.

    `bends` is how much further it bends under the same load, `stress` how much higher its stress is then.
    """

    left_mm: float
    stiffness: float
    bends: float
    stress: float


def thinned(*, thickness_mm: float, off_mm: float) -> Thinned:
    """What is left of a panel when `off_mm` is taken off its face.

    Stiffness goes with the third power of thickness, stress under a bending moment with the second of its inverse.

    Raises:
        ValueError: not 0 ≤ off_mm < thickness_mm.

    Source: rectangle, I = b d³/12 and section modulus b d²/6 (Machinery's Handbook, 21st ed.).
    """
    if not 0 <= off_mm < thickness_mm:
        raise ValueError("off_mm must be at or above 0 and below thickness_mm")
    share = (thickness_mm - off_mm) / thickness_mm
    return Thinned(thickness_mm - off_mm, share**3, share**-3, share**-2)


@dataclass(frozen=True, slots=True)
class RoundMarks:
    """Pencil lines for one edge of a rail, in the order in which they are used; mm.

    `first_in` is on the deck, from the rail's outermost line inwards, `first_down` on the side, from the deck down: the
    first flat runs from line to line. `flat` is how wide it comes out. `second_on_flat` is on it, from each of its
    edges; `second_in` and `second_down` are again on deck and side. The second flats run between those.
    """

    first_in: float
    first_down: float
    flat: float
    second_on_flat: float
    second_in: float
    second_down: float


def round_marks(*, width_mm: float, height_mm: float) -> RoundMarks:
    """Lines for planing a square edge to a quarter of an ellipse by flats that only touch it.

    Round a circle, a flat at 45° touches if it starts r (1 − tan 22.5°) from the corner; flats at 22.5° and 67.5° then
    take tan 22.5° − tan 11.25° of r off each side of each new corner. An ellipse is a circle drawn out, and touching
    lines stay touching, so widths scale with the ellipse's width and heights with its height.

    Args:
        width_mm: how far in from the rail's outermost line the round begins, above 0.
        height_mm: how far down from the deck it ends, above 0.

    Raises:
        ValueError: a length is not above 0.

    Source: tangents of a circle at equal angles; affine maps keep tangents (first principles).
    """
    if not (width_mm > 0 and height_mm > 0):
        raise ValueError("width_mm and height_mm must be above 0")
    one, two = (math.tan(math.radians(angle / 2)) for angle in (FIRST_DEG, SECOND_DEG))
    flat = math.hypot((1 - one) * width_mm, (1 - one) * height_mm)
    return RoundMarks(
        first_in=(1 - one) * width_mm,
        first_down=(1 - one) * height_mm,
        flat=flat,
        second_on_flat=flat * (one - two) / (2 * one),
        second_in=(1 - two) * width_mm,
        second_down=(1 - two) * height_mm,
    )
