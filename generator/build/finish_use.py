"""The finish: how much of it the outside takes, when its coats go on, and what stays on the board."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.build.amount import Amount
from generator.build.part_mass import PartMass
from generator.build.timeline import Sitting
from generator.inputs.builder import Finish

WASTE = Amount(1.15, 1.0, 1.3)  # common practice: of what is bought, to what the label's coverage says
COAT = "seal_coat"

# For the board's weight: kg that stay on a litre that went on, once it is hard. From memory, assumed.
STAYS_KG_L = {"oil": Amount(0.6, 0.35, 0.9), "varnish": Amount(0.55, 0.4, 0.7), "resin": Amount(1.1, 1.0, 1.2)}
TAKES = Amount(1.0, 0.8, 1.5)  # bare wood drinks more than a label says, a thin hand less; assumed


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat in the plan: `gap_min` after the end of the one before it (0 for the first), on a day off or in an
    evening, and whether the label's latest time for it has passed by then."""

    number: int
    sitting: Sitting
    gap_min: float
    too_late: bool


def coat_volume_ml(*, area_mm2: float, coverage_m2_l: float) -> float:
    """One coat by the label's coverage, ml, nothing wasted.

    Raises:
        ValueError: the coverage is not above 0, or the area is below 0 (nan included).
    """
    if not coverage_m2_l > 0 or not area_mm2 >= 0:
        raise ValueError("coverage_m2_l must be above 0 and area_mm2 0 or more")
    return area_mm2 / 1e6 / coverage_m2_l * 1000


def finish_volume_ml(*, area_mm2: float, coverage_m2_l: float, coats: int) -> Amount:
    """All coats, ml: the least is the label's own coverage, the rest what stays in brush, rag and pot.

    Raises:
        ValueError: as `coat_volume_ml`, or fewer than one coat.
    """
    if coats < 1:
        raise ValueError("coats must be 1 or more")
    return WASTE.times(coats * coat_volume_ml(area_mm2=area_mm2, coverage_m2_l=coverage_m2_l))


def cans(*, volume_ml: float, can_l: float) -> int:
    """Whole cans for a volume.

    Raises:
        ValueError: the can does not hold more than 0.
    """
    if not can_l > 0:
        raise ValueError("can_l must be above 0")
    return math.ceil(volume_ml / (1000 * can_l) - 1e-9)


def planned_coats(sittings: Sequence[Sitting], *, before_min: float | None) -> tuple[Coat, ...]:
    """The coats among all that is planned, in order.

    Args:
        before_min: The label's latest time for the next coat, min, or None if it gives none.
    """
    own = [one for one in sittings if one.work.name.partition(".")[0] == COAT and one.last]
    coats: list[Coat] = []
    for number, sitting in enumerate(own, 1):
        gap = (sitting.begins - coats[-1].sitting.ends).total_seconds() / 60 if coats else 0.0
        coats.append(Coat(number, sitting, gap, bool(coats) and before_min is not None and gap > before_min))
    return tuple(coats)


def finish_part(*, area_mm2: float, finish: Finish | None, from_tail_mm: float) -> PartMass | None:
    """What stays on the board of all coats, or None while the finish is not known.

    Solvents leave, resins stay; how much of a litre stays is assumed by the type of finish.
    """
    if finish is None:
        return None
    litres = finish.coats * coat_volume_ml(area_mm2=area_mm2, coverage_m2_l=finish.coverage_m2_l) / 1000
    kg = STAYS_KG_L[finish.type].times(TAKES).times(litres)
    return PartMass("finish", kg.value, kg.low, kg.high, from_tail_mm)
