"""A thin panel bent across its grain: how stiff it is that way, and how far it stretches before it splits."""

from __future__ import annotations

from dataclasses import dataclass

from generator.inputs.tables import Species
from generator.timber.by_density import gravity, tension_across_mpa

STIFFNESS_SHARE = (0.05, 0.07, 0.10)
"""Stiffness across the grain over that along it: low, usual, high. For light softwoods the tangential and radial ratios
lie about there (Wood Handbook, FPL-GTR-190 (2010), Table 5-1: Douglas-fir 0.050 and 0.068, seen in a text that quotes
it; western redcedar 0.055 and 0.081, from memory). Which of the two a plank shows depends on how it was sawn."""

BENDS_OVER_PULLS = 2.0
"""A thin piece bent across its grain bears up to about this many times the stress that a pulled test block does, since
only its surface is stressed so far. Assumed; used for the high end only."""


@dataclass(frozen=True, slots=True)
class AcrossGrain:
    """Stiffness and tension strength across the grain, MPa, each low, usual, high; `published` is of the strength."""

    stiffness_mpa: tuple[float, float, float]
    strength_mpa: tuple[float, float, float]
    published: bool

    @property
    def limit_strain(self) -> tuple[float, float, float]:
        """Strain at the surface at which the wood splits: strength over stiffness, the ends crossed."""
        soft, usual, stiff = self.stiffness_mpa
        weak, strength, strong = self.strength_mpa
        return weak / stiff, strength / usual, strong / soft


def across_grain(species: Species, *, along_mpa: float, density_kg_m3: float) -> AcrossGrain:
    """One timber across its grain.

    Args:
        along_mpa: Stiffness along the grain, MPa, above 0.
        density_kg_m3: Used where the table gives neither strength nor specific gravity.

    Raises:
        ValueError: `along_mpa` or the density is not above 0.
    """
    if not along_mpa > 0:
        raise ValueError("along_mpa must be above 0")
    table = species.strength_tension_perp_mpa
    strength = table if table is not None else tension_across_mpa(species.gravity_12pct or gravity(density_kg_m3))
    soft, usual, stiff = (share * along_mpa for share in STIFFNESS_SHARE)
    return AcrossGrain((soft, usual, stiff), (strength, strength, BENDS_OVER_PULLS * strength), table is not None)
