"""Air shut in the board: what it pushes with when it warms or is flown, and the water it draws in as it cools."""

from __future__ import annotations

from generator.build.bays import Area
from generator.build.plate import Dent, Pane, Patch, Wood, pressed

ATMOSPHERE_KPA = 101.325
"""Standard atmosphere, 10th CGPM (1954), from memory."""
ZERO_C_K = 273.15
COLDEST_C, HOTTEST_C = -40.0, 120.0
HIGHEST_M = 11000.0
CABIN_M = 2438.4
"""8000 ft, the highest cabin altitude in ordinary flight: 14 CFR 25.841."""


def closed_air_kpa(*, from_c: float, to_c: float, at_kpa: float = ATMOSPHERE_KPA) -> float:
    """Pressure over the air outside when a sealed room of fixed volume goes from one temperature to another, kPa.

    p2 / p1 = T2 / T1 in kelvin; below 0 when it cools. Outside, `at_kpa` stays.

    Args:
        from_c: Temperature as it was closed, °C.
        to_c: Temperature of the air inside later, °C.

    Raises:
        ValueError: a temperature outside -40 to 120 °C (nan included), or `at_kpa` not above 0.

    Source: ideal gas law (textbook).
    """
    if not (COLDEST_C <= from_c <= HOTTEST_C and COLDEST_C <= to_c <= HOTTEST_C and at_kpa > 0):
        raise ValueError(f"temperatures lie between {COLDEST_C} and {HOTTEST_C} °C, at_kpa above 0")
    return at_kpa * ((to_c + ZERO_C_K) / (from_c + ZERO_C_K) - 1)


def air_pressure_kpa(altitude_m: float) -> float:
    """Pressure of the standard atmosphere, kPa, at 0 to 11 000 m.

    Raises:
        ValueError: another altitude (nan included).

    Source: ICAO Doc 7488, p = p0 (1 - L h / T0)^(g M / (R L)), L = 6.5 K/km, exponent 5.25588 (from memory).
    """
    if not 0 <= altitude_m <= HIGHEST_M:
        raise ValueError(f"altitude_m lies between 0 and {HIGHEST_M}")
    return float(ATMOSPHERE_KPA * (1 - 0.0065 * altitude_m / 288.15) ** 5.25588)


def flown_kpa(altitude_m: float = CABIN_M) -> float:
    """Pressure inside over that outside when a board closed at sea level is taken up, at the same temperature, kPa."""
    return ATMOSPHERE_KPA - air_pressure_kpa(altitude_m)


def push_n(*, kpa: float, area_mm2: float) -> float:
    """Force of a pressure on a flat area, N."""
    return kpa * 1e-3 * area_mm2


def drawn_in_l(*, inside_l: float, hot_c: float, cold_c: float) -> float:
    """Water that a leak lets in as closed air cools from hot to cold, litres: what the air no longer fills.

    The hot air has had time to come level with the air outside through the same leak; the depth of water is left out.

    Raises:
        ValueError: `inside_l` below 0, cold above hot, or a temperature outside -40 to 120 °C.
    """
    if not (inside_l >= 0 and COLDEST_C <= cold_c <= hot_c <= HOTTEST_C):
        raise ValueError("inside_l is at or above 0, and cold_c no higher than hot_c")
    return inside_l * (1 - (cold_c + ZERO_C_K) / (hot_c + ZERO_C_K))


def bulge(free: Area, *, kpa: float, thickness_mm: float, wood: Wood) -> Dent:
    """How far a bare bay's panel is blown out in its middle, its edges fixed: a panel runs on over ribs and spine."""
    pane = Pane(free.length_mm, free.width_mm, thickness_mm, wood, "fixed")
    everywhere = Patch(free.length_mm, free.width_mm)
    return pressed(pane, load_n=push_n(kpa=kpa, area_mm2=free.area_mm2), patch=everywhere)
