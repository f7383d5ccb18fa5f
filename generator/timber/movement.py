"""How much wood grows and shrinks across its grain as its moisture changes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from generator.inputs.tables import Species

Grain = Literal["tangential", "radial"]
How = Literal["table", "relation", "volume"]

WITHIN_PCT = (6.0, 14.0)
"""Moisture content, %, between which the coefficients of Table 13-5 hold."""
SATURATED_PCT = 30.0
"""Moisture content, %, above which wood no longer grows; no moisture counts beyond it (eq. 13-3)."""
EARLY_START_PCT = 22.0
EARLY_STARTERS = frozenset({"Thuja plicata", "Sequoia sempervirens", "Thuja occidentalis"})
"""Western redcedar, redwood and northern white-cedar: they begin to shrink at 22 % and not at 30 %."""
TANGENTIAL_PER_RADIAL = (1.3, 2.0, 2.6)
"""Lowest, middle and highest ratio of tangential to radial shrinkage, as the timbers of Tables 4-3 and 4-4 in
timber.csv have it; assumed for a timber of which only the shrinkage in volume is known."""


@dataclass(frozen=True, slots=True)
class Range:
    """A value between `low` and `high`."""

    value: float
    low: float
    high: float

    @classmethod
    def exact(cls, value: float) -> Range:
        return cls(value, value, value)


@dataclass(frozen=True, slots=True)
class Swelling:
    """How one timber moves in one direction of its grain.

    `coefficient` is the change of a dimension per 1 % of moisture within 6-14 %, as a share of the dimension;
    `shrinkage_pct` green to oven-dry. `how` says where the coefficient is from: the table itself, the relation that the
    table follows from shrinkage by, or a share of the shrinkage in volume, which is assumed.
    """

    coefficient: Range
    shrinkage_pct: Range
    start_pct: float
    how: How


def coefficient_per_pct(*, shrinkage_pct: float, start_pct: float = SATURATED_PCT) -> float:
    """Change of a dimension per 1 % of moisture, from the shrinkage green to oven-dry.

        C = 1 / (100 M0/S − M0 + 10)

    Args:
        shrinkage_pct: S, %, above 0.
        start_pct: M0, moisture at which shrinking begins, %.

    Raises:
        ValueError: the shrinkage is not above 0.

    Source: Wood Handbook, FPL-GTR-190 (2010), Table 13-5, footnotes (from memory; it gives the table's own rows).
    """
    if not shrinkage_pct > 0:
        raise ValueError("shrinkage_pct must be above 0")
    return 1 / (100 * start_pct / shrinkage_pct - start_pct + 10)


def shrinkage_pct(*, coefficient: float, start_pct: float = SATURATED_PCT) -> float:
    """The shrinkage that `coefficient_per_pct` gives this coefficient for, %."""
    return 100 * start_pct / (1 / coefficient + start_pct - 10)


def swelling(species: Species, grain: Grain) -> Swelling | None:
    """How a timber moves along one direction of its grain; None where nothing is known of its shrinkage."""
    start = EARLY_START_PCT if species.botanical in EARLY_STARTERS else SATURATED_PCT
    tangential = grain == "tangential"
    shrink = species.shrink_tangential_pct if tangential else species.shrink_radial_pct
    coefficient = species.coef_tangential_per_pct if tangential else species.coef_radial_per_pct
    if coefficient is not None:
        known = shrink if shrink is not None else shrinkage_pct(coefficient=coefficient, start_pct=start)
        return Swelling(Range.exact(coefficient), Range.exact(known), start, "table")
    if shrink is not None:
        derived = coefficient_per_pct(shrinkage_pct=shrink, start_pct=start)
        return Swelling(Range.exact(derived), Range.exact(shrink), start, "relation")
    if species.shrink_volumetric_pct is not None:
        shares = [
            direction_of_volume(species.shrink_volumetric_pct, grain, tangential_per_radial=ratio)
            for ratio in TANGENTIAL_PER_RADIAL
        ]
        spread = Range(shares[1], min(shares), max(shares))
        return Swelling(_each(spread, start), spread, start, "volume")
    return None


def direction_of_volume(volumetric_pct: float, grain: Grain, *, tangential_per_radial: float) -> float:
    """Shrinkage in one direction, %, of a timber that shrinks in volume by `volumetric_pct` and hardly at all along.

    (1 − v) = (1 − r)(1 − q r) with r the radial shrinkage and q r the tangential one.
    """
    v, q = volumetric_pct / 100, tangential_per_radial
    radial = ((1 + q) - math.sqrt((1 + q) ** 2 - 4 * q * v)) / (2 * q)
    return 100 * (radial if grain == "radial" else q * radial)


def _each(shrink_pct: Range, start_pct: float) -> Range:
    low, value, high = (
        coefficient_per_pct(shrinkage_pct=pct, start_pct=start_pct)
        for pct in (shrink_pct.low, shrink_pct.value, shrink_pct.high)
    )
    return Range(value, low, high)


def change_within_mm(*, dimension_mm: float, coefficient: float, from_pct: float, to_pct: float) -> float:
    """Change of a dimension across the grain, mm, growing positive, for moisture within 6-14 %.

        ΔD = D C (M_F − M_I)

    Source: Wood Handbook, FPL-GTR-190 (2010), eq. 13-2.
    """
    return dimension_mm * coefficient * (to_pct - from_pct)


def change_beyond_mm(
    *,
    dimension_mm: float,
    shrinkage_pct: float,
    from_pct: float,
    to_pct: float,
    start_pct: float = SATURATED_PCT,
) -> float:
    """Change of a dimension across the grain, mm, growing positive, for any moisture; above 30 % wood stays as it is.

        ΔD = D (M_F − M_I) / (30·100/S − 30 + M_I)

    Args:
        start_pct: Stands for the 30 of the equation, where a timber begins to shrink at another moisture.

    Source: Wood Handbook, FPL-GTR-190 (2010), eq. 13-3 (form from memory, its terms seen).
    """
    first, last = (min(pct, start_pct) for pct in (from_pct, to_pct))
    return dimension_mm * (last - first) / (100 * start_pct / shrinkage_pct - start_pct + first)


def within(*moistures_pct: float) -> bool:
    """Whether all lie between 6 and 14 %."""
    return all(WITHIN_PCT[0] <= pct <= WITHIN_PCT[1] for pct in moistures_pct)


def movement_mm(*, dimension_mm: float, moves: Swelling, from_pct: float, to_pct: float) -> Range:
    """How much a board wants to grow (+) or shrink (−) across one direction of its grain, mm.

    Within 6-14 % by eq. 13-2, else by eq. 13-3. For the timbers that begin to shrink at 22 %, eq. 13-3 as printed says
    about a quarter less than the table's coefficient, and a board that goes to 15 % would grow less than one that goes
    to 14 %. So 22 stands for its 30, which joins on to eq. 13-2; the range reaches to the equation as printed.

    Args:
        from_pct, to_pct: moisture content, % of the dry mass.

    Raises:
        ValueError: a moisture below 0 or no number.
    """
    if not (from_pct >= 0 and to_pct >= 0):
        raise ValueError("moistures must be 0 or above")
    sizes: list[float]
    if within(from_pct, to_pct):
        sizes = [
            change_within_mm(dimension_mm=dimension_mm, coefficient=c, from_pct=from_pct, to_pct=to_pct)
            for c in (moves.coefficient.value, moves.coefficient.low, moves.coefficient.high)
        ]
    else:
        sizes = [
            change_beyond_mm(
                dimension_mm=dimension_mm, shrinkage_pct=s, from_pct=from_pct, to_pct=to_pct, start_pct=start
            )
            for start in dict.fromkeys((moves.start_pct, SATURATED_PCT))
            for s in (moves.shrinkage_pct.value, moves.shrinkage_pct.low, moves.shrinkage_pct.high)
        ]
    return Range(sizes[0], min(sizes), max(sizes))


def cup_mm(*, width_mm: float, thickness_mm: float, coefficient: float, difference_pct: float) -> float:
    """Height of the dish that a panel free to bend makes if one face is damper than the other, mm.

    Moisture runs evenly from face to face, so the damper face is longer by C·ΔM, the curvature is κ = C·ΔM / t, and the
    height is that of an arc of radius 1/κ over the width: (1 − cos(κ W/2)) / κ. The hollow face is the drier one.

    Raises:
        ValueError: width or thickness is not above 0, the coefficient or the difference is below 0, or the panel would
            roll up past a half circle.

    Source: plane strip with a linear strain through its thickness (derived).
    """
    if not (width_mm > 0 and thickness_mm > 0 and coefficient >= 0 and difference_pct >= 0):
        raise ValueError("sizes must be above 0, coefficient and difference not below it")
    per_mm = coefficient * difference_pct / thickness_mm
    half_turn = per_mm * width_mm / 2
    if half_turn > math.pi / 2:
        raise ValueError("the panel would roll up past a half circle")
    return 2 * math.sin(half_turn / 2) ** 2 / per_mm if per_mm else 0.0


def bow_mm(*, between_mm: float, grows_mm: float) -> float:
    """Height of the bow that a thin strip makes if it grows between two edges that do not give, mm.

    Half a sine wave is longer than its chord by π² h² / (4 b), so h = (2/π) √(b · growth). Shallow bows only.

    Source: arc length of a shallow curve (derived).
    """
    return 2 / math.pi * math.sqrt(between_mm * max(grows_mm, 0.0))
