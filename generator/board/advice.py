"""Three rockers for one builder, from the kit's own: what the maker's rules add, and what each rocker comes to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Protocol

from generator.board.curve import FairCurve, Fit, fair_curve
from generator.board.rocker import (
    FlatPart,
    HeightAt,
    Rises,
    RockerHeight,
    Shift,
    added,
    flat_part,
    rises,
    tip_angles_deg,
    tuned_rocker,
)

MASS_STEP_KG = 10.0


class Rule(Protocol):
    """One row of the maker's table: mm at the tips, and by how much the curve is lowered half-way."""

    @property
    def tail_mm(self) -> float: ...
    @property
    def nose_mm(self) -> float: ...
    @property
    def flat_pct(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Traits:
    """What a bottom line comes to in numbers; angles in degrees from level."""

    rises: Rises
    flat: FlatPart
    tail_angle_deg: float
    nose_angle_deg: float


@dataclass(frozen=True, slots=True, eq=False)
class Candidate:
    """One of the rockers to choose from.

    `heights` are what the rules make of the kit's heights, `fit` the fair curve nearest to them (hollow nowhere), and
    `curve` the same with its lowest point at height 0. `shift` is what was changed in the end.
    """

    shift: Shift
    heights: tuple[RockerHeight, ...]
    fit: Fit
    curve: FairCurve
    traits: Traits


def shift_of(rule: Rule, *, scale: float = 1.0, times: float = 1.0) -> Shift:
    """The shift that a rule makes.

    Args:
        scale: Length of the board over the length that the rule's mm are written for: a longer board takes more mm for
            the same change of angle (common practice; it follows from the slope, mm over length).
        times: How many times the rule counts.
    """
    return Shift.lowering(rule.tail_mm, rule.nose_mm, rule.flat_pct).times(times).for_length(scale)


def mass_steps(body_mass_kg: float, reference_kg: float) -> float:
    """How many steps of `MASS_STEP_KG` a body is heavier than the reference; below 0 if it is lighter."""
    return (body_mass_kg - reference_kg) / MASS_STEP_KG


def traits_of(curve: FairCurve, *, length_mm: float) -> Traits:
    """What a bottom line comes to."""
    return Traits(
        rises(curve, length_mm=length_mm),
        flat_part(curve, length_mm=length_mm),
        *tip_angles_deg(curve, length_mm=length_mm),
    )


def candidates(
    suggested: Sequence[HeightAt], *, common: Sequence[Shift], own: Mapping[str, Shift], length_mm: float
) -> Mapping[str, Candidate]:
    """A rocker for each name in `own`: the suggested heights with all `common` shifts and its own.

    Raises:
        ValueError: `suggested` gives no curve (`fair_curve`).
    """
    return MappingProxyType(
        {name: _candidate(suggested, added((*common, one)), length_mm) for name, one in own.items()}
    )


def _candidate(suggested: Sequence[HeightAt], shift: Shift, length_mm: float) -> Candidate:
    heights = tuned_rocker(suggested, shift, length_mm=length_mm)
    fit = fair_curve([one.from_tail_mm for one in heights], [one.height_mm for one in heights], length_mm=length_mm)
    curve = fit.curve.from_low_point()
    made = Shift(
        heights[0].height_mm - suggested[0].height_mm, heights[-1].height_mm - suggested[-1].height_mm, shift.held.late
    )
    return Candidate(made, heights, fit, curve, traits_of(curve, length_mm=length_mm))
