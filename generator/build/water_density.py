"""How heavy water is: the round values for design, and sea water by temperature and salt."""

from __future__ import annotations

from typing import Literal

from generator.build.amount import Amount

Water = Literal["sea", "fresh"]

DESIGN_KG_M3: dict[Water, Amount] = {"sea": Amount(1025.0, 1020.0, 1029.0), "fresh": Amount(1000.0, 998.0, 1000.0)}
"""Usual design densities of engineering handbooks, and what surface water spans; fresh water from 4 to 20 °C."""


def water_kg_m3(*, temperature_c: float, salinity: float) -> float:
    """Density of water at the surface, kg/m³.

    Pure water: 999.842594 + 6.793952e-2 t − 9.095290e-3 t² + 1.001685e-4 t³ − 1.120083e-6 t⁴ + 6.536332e-9 t⁵.
    Salt adds (8.24493e-1 − 4.0899e-3 t + 7.6438e-5 t² − 8.2467e-7 t³ + 5.3875e-9 t⁴) S
    + (−5.72466e-3 + 1.0227e-4 t − 1.6546e-6 t²) S^1.5 + 4.8314e-4 S².

    Args:
        temperature_c: −2 to 40 °C.
        salinity: Practical salinity, about grams of salt in a kilogram, 0 to 42.

    Raises:
        ValueError: outside these ranges (nan included).

    Source: UNESCO equation of state EOS-80 at one atmosphere, Millero and Poisson (1981); coefficients from memory,
    checked against the published check values.
    """
    if not (-2 <= temperature_c <= 40 and 0 <= salinity <= 42):
        raise ValueError("temperature_c must be −2 to 40 and salinity 0 to 42")
    t, s = temperature_c, salinity
    pure = 999.842594 + t * (
        6.793952e-2 + t * (-9.095290e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9)))
    )
    first = 8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)))
    second = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6)
    return float(pure + first * s + second * s**1.5 + 4.8314e-4 * s**2)


def displaced_litres(mass_kg: float, *, water_kg_m3: float) -> float:
    """Litres of water that weigh as much: what must be under water for a mass to float.

    Raises:
        ValueError: the mass is below 0 or the density not above 0 (nan included).

    Source: Archimedes' principle.
    """
    if not (mass_kg >= 0 and water_kg_m3 > 0):
        raise ValueError("mass_kg must not be below 0, water_kg_m3 must be above 0")
    return mass_kg / water_kg_m3 * 1000
