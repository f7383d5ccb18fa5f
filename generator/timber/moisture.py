"""How much water wood takes up from the air around it."""

from __future__ import annotations

RANGE_C = (-1.1, 98.9)
RANGE_PCT = (5.0, 95.0)


def equilibrium_moisture_pct(*, temperature_c: float, humidity_pct: float) -> float:
    """Moisture content that wood settles at in steady air, % of its oven-dry mass.

        M = (1800/W) [ K h/(1 - K h) + (K1 K h + 2 K1 K2 K² h²) / (1 + K1 K h + K1 K2 K² h²) ]

    Args:
        temperature_c: Air temperature, °C, within `RANGE_C`.
        humidity_pct: Relative humidity, %, within `RANGE_PCT`.

    Raises:
        ValueError: outside the range of the published table (nan included).

    Source: Wood Handbook, FPL-GTR-190 (2010), eq. 4-5; range of Table 4-2.
    """
    t = temperature_c
    if not (RANGE_C[0] <= t <= RANGE_C[1] and RANGE_PCT[0] <= humidity_pct <= RANGE_PCT[1]):
        raise ValueError(f"{t} °C and {humidity_pct} % lie outside {RANGE_C} °C and {RANGE_PCT} %")
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * humidity_pct / 100
    return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2))


def within_range(*, temperature_c: float, humidity_pct: float) -> float:
    """As `equilibrium_moisture_pct`, with what lies beyond the table's range taken at its edge."""
    return equilibrium_moisture_pct(
        temperature_c=min(max(temperature_c, RANGE_C[0]), RANGE_C[1]),
        humidity_pct=min(max(humidity_pct, RANGE_PCT[0]), RANGE_PCT[1]),
    )
