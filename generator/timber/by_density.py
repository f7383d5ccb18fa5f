"""Strength of a clear timber from how heavy it is, for timbers whose strength no table here gives."""

from __future__ import annotations

MOISTURE_PCT = 12.0
SOURCE = "Wood Handbook, FPL-GTR-190 (2010), Table 5-11a (from memory)"


def gravity(density_kg_m3: float) -> float:
    """Specific gravity near 12 % moisture: dry mass over volume as it is, from the density with its water in it.

    Raises:
        ValueError: the density is not above 0.
    """
    if not density_kg_m3 > 0:
        raise ValueError("density_kg_m3 must be above 0")
    return density_kg_m3 / (1000 * (1 + MOISTURE_PCT / 100))


def density_kg_m3(gravity_12pct: float) -> float:
    """The other way: the density near 12 % moisture, its water in it."""
    return 1000 * (1 + MOISTURE_PCT / 100) * gravity_12pct


def tension_across_mpa(gravity_12pct: float) -> float:
    """Tension strength across the grain, MPa: the lower of 6.00 G^1.11 (softwoods) and 10.1 G^1.30 (hardwoods).

    Species lie up to a half either side of these lines.

    Source: `SOURCE`.
    """
    return float(min(6.00 * gravity_12pct**1.11, 10.1 * gravity_12pct**1.30))


def shear_along_mpa(gravity_12pct: float) -> float:
    """Shear strength along the grain, MPa: the lower of 16.6 G^0.85 (softwoods) and 21.9 G^1.13 (hardwoods).

    Source: `SOURCE`.
    """
    return float(min(16.6 * gravity_12pct**0.85, 21.9 * gravity_12pct**1.13))
