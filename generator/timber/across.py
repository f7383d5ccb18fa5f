"""A thin panel bent across its grain: how stiff it is that way, and how far it stretches before it splits."""

from __future__ import annotations

from dataclasses import dataclass

from generator.inputs.tables import Species
from generator.timber.by_density import gravity, tension_across_mpa

Ends = tuple[float, float, float]

STIFFNESS_SHARE: Ends = (0.04, 0.07, 0.183)
"""Stiffness across the grain over that along it: low, usual, high, for a timber whose own ratios are not known. Low is
the softest light timber sawn flat, high the stiffest sawn through the heart, and most planks are nearer to flat-sawn
(Wood Handbook, FPL-GTR-190 (2010), Table 5-1: yellow-poplar E_T/E_L 0.043, from memory; Douglas-fir 0.050 and 0.068,
northern white-cedar 0.081 and 0.183, seen in a text that quotes it). Assumed."""

OWN_SHARES: dict[str, Ends] = {
    "Thuja plicata": (0.055, 0.068, 0.081),
    "Thuja occidentalis": (0.081, 0.132, 0.183),
    "Ochroma pyramidale": (0.015, 0.030, 0.046),
}
"""The same for timbers of Table 5-1: E_T/E_L of flat-sawn planks, half-way, E_R/E_L of planks sawn through the heart.
White-cedar seen in a text that quotes the table; western redcedar and balsa from memory."""

WEAK, STRONG = 0.59, 1.41
"""The weakest of twenty pieces and the strongest, over the mean: 1.65 times the coefficient of variation of tension
across the grain, 25 % (Wood Handbook, FPL-GTR-190 (2010), Table 5-6, from memory)."""

BENDS_OVER_PULLS = 2.0
"""A thin piece bent across its grain bears up to about this many times the stress that a pulled test block does, since
only its surface is stressed so far. Assumed; used for the high end only."""


@dataclass(frozen=True, slots=True)
class AcrossGrain:
    """Stiffness and tension strength across the grain, MPa, each low, usual, high; `published` is of the strength."""

    stiffness_mpa: Ends
    strength_mpa: Ends
    published: bool

    @property
    def bending_mpa(self) -> Ends:
        """Strength of a thin piece bent across its grain; the usual value leaves out that it bears more so."""
        weak, strength, _ = self.strength_mpa
        return weak, strength, BENDS_OVER_PULLS * strength

    @property
    def limit_strain(self) -> Ends:
        """Strain at the surface at which the wood splits: bending strength over stiffness, the ends crossed."""
        soft, usual, stiff = self.stiffness_mpa
        weak, strength, strong = self.bending_mpa
        return weak / stiff, strength / usual, strong / soft


def stiffness_share(botanical: str) -> Ends:
    """Stiffness across the grain over that along it of a timber by its botanical name: low, usual, high."""
    return OWN_SHARES.get(botanical, STIFFNESS_SHARE)


def strength_mpa(table_mpa: float | None, *, density_kg_m3: float) -> float:
    """Tension strength across the grain: the table's, or else what the wood's density lets expect.

    Raises:
        ValueError: the table gives none, and the density is not above 0.
    """
    return tension_across_mpa(gravity(density_kg_m3)) if table_mpa is None else table_mpa


def across_grain(
    species: Species, *, along_mpa: float, density_kg_m3: float, along_ends_mpa: tuple[float, float] | None = None
) -> AcrossGrain:
    """One timber across its grain.

    Args:
        along_mpa: Stiffness along the grain, MPa, above 0.
        density_kg_m3: Used where the table does not give the strength.
        along_ends_mpa: Low and high end of the stiffness along the grain; without them it has no range of its own.

    Raises:
        ValueError: `along_mpa` or the density is not above 0.
    """
    if not along_mpa > 0:
        raise ValueError("along_mpa must be above 0")
    low, high = along_ends_mpa or (along_mpa, along_mpa)
    soft, usual, stiff = stiffness_share(species.botanical)
    table = species.strength_tension_perp_mpa
    strength = strength_mpa(table, density_kg_m3=density_kg_m3)
    return AcrossGrain(
        (soft * low, usual * along_mpa, stiff * high),
        (WEAK * strength, strength, STRONG * strength),
        table is not None,
    )
