"""Plates, foam and shut-in air against printed values.

- Roark's Formulas for Stress and Strain, 7th ed., Table 11.4, cases 1a and 1b (rectangular plate, edges simply
  supported, ν = 0.3): read in a stored copy of the chapter.
- Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959), Tables 23, 35 and 37, and article 87
  for the orthotropic plate: from memory.
- ASTM D6817, Table 1, least compressive resistance at 1 % deformation of the six types of expanded polystyrene: read
  in two makers' data sheets that quote it.
- Ideal gas law; ICAO Doc 7488 (standard atmosphere, from memory); pressure at 8000 ft, 1572 lbf/ft²: read in a public
  text on cabin pressure.
- USDA Wood Handbook, FPL-GTR-190 (2010), Tables 5-1 and 5-2: northern white-cedar and Douglas-fir (interior south),
  read in a public data page that quotes them.
"""

import math

import pytest

from generator.build.air import air_pressure_kpa, closed_air_kpa, flown_kpa, push_n
from generator.build.bracing import POISSON, SHEAR, foam_crush_mpa
from generator.build.plate import Pane, Patch, Wood, pressed
from generator.timber.across import STIFFNESS_SHARE

E, NU, T, B, Q = 1000.0, 0.3, 1.0, 100.0, 1e-3
EVEN = Wood(E, E, E / (2 * (1 + NU)), NU)
D = E * T**3 / (12 * (1 - NU**2))
CASE_1A = (
    (1.0, 0.2874, 0.0444), (1.2, 0.3762, 0.0616), (1.4, 0.4530, 0.0770), (1.6, 0.5172, 0.0906), (1.8, 0.5688, 0.1017),
    (2.0, 0.6102, 0.1110), (3.0, 0.7134, 0.1335), (4.0, 0.7410, 0.1400), (5.0, 0.7476, 0.1417),
)  # fmt: skip
CASE_1B = ((1.0, 0.1267), (1.2, 0.1478), (1.4, 0.1621), (1.6, 0.1715), (1.8, 0.1770), (2.0, 0.1805))


def evenly(ratio, edges="turning"):
    long = ratio * B
    return pressed(Pane(long, B, T, EVEN, edges), load_n=Q * long * B, patch=Patch(long, B))


@pytest.mark.parametrize(("ratio", "beta", "alpha"), CASE_1A)
def test_roark_case_1a(ratio, beta, alpha):
    """y = α q b⁴ / E t³ and σ = β q b² / t², across the short way; printed to three or four digits.

    The printed α of 1.4 lies half a per cent below a smooth line through its neighbours, and below the series.
    """
    got = evenly(ratio)
    assert got.deflection_mm == pytest.approx(alpha * Q * B**4 / (E * T**3), rel=0.006 if ratio == 1.4 else 0.004)
    assert got.across_mpa == pytest.approx(beta * Q * B**2 / T**2, rel=0.004)


@pytest.mark.parametrize(("ratio", "alpha"), CASE_1B)
def test_roark_case_1b(ratio, alpha):
    """y = α W b² / E t³ under a load on a spot; the series is cut off, so a little less comes out."""
    got = pressed(Pane(ratio * B, B, T, EVEN, "turning"), load_n=1.0, patch=Patch(0.5, 0.5)).deflection_mm
    assert got == pytest.approx(alpha * B**2 / (E * T**3), rel=0.01)


def test_timoshenko_clamped_square():
    """Table 35: 0.00126 q a⁴ / D and 0.0231 q a² in the middle; Table 37: 0.00560 P a² / D under a spot."""
    got = evenly(1.0, "fixed")
    assert got.deflection_mm == pytest.approx(0.00126 * Q * B**4 / D, rel=0.006)
    assert got.across_mpa == pytest.approx(6 * 0.0231 * Q * B**2, rel=0.012)
    spot = pressed(Pane(B, B, T, EVEN, "fixed"), load_n=1.0, patch=Patch(0.5, 0.5)).deflection_mm
    assert spot == pytest.approx(0.00560 * B**2 / D, rel=0.015)


@pytest.mark.parametrize(("stretch", "alpha"), [(1.0, 0.00406), (1.5, 0.00772), (2.0, 0.01013)])
def test_timoshenko_orthotropic_plate_where_it_is_a_stretched_even_one(stretch, alpha):
    """Article 87: with H = √(Dx Dy), a plate a × b gives what an even one a (Dy/Dx)^¼ × b does (α of Table 8)."""
    along, across, nu = 16000.0, 1000.0, 0.4
    left = 1 - nu**2 * across / along
    qx, qy, qxy = along / left, across / left, nu * across / left
    wood = Wood(along, across, (math.sqrt(qx * qy) - qxy) / 2, nu)
    long = stretch * B * (along / across) ** 0.25
    got = pressed(Pane(long, B, T, wood, "turning"), load_n=Q * long * B, patch=Patch(long, B)).deflection_mm
    assert got == pytest.approx(alpha * Q * B**4 / (qy * T**3 / 12), rel=0.004)


@pytest.mark.parametrize(
    ("density", "kpa_at_1_pct"), [(11.2, 15), (14.4, 25), (18.4, 40), (21.6, 50), (28.8, 75), (38.4, 103)]
)
def test_expanded_polystyrene_of_the_six_types(density, kpa_at_1_pct):
    """Stiffness is stress over strain; a straight line meets the six within a tenth, its range holds all of them."""
    low, likely, high = foam_crush_mpa("expanded polystyrene", density)
    assert likely == pytest.approx(kpa_at_1_pct / 1000 / 0.01, rel=0.1)
    assert low <= kpa_at_1_pct / 10 <= high


def test_extruded_polystyrene_of_a_maker():
    """20 MPa for boards thinner than 50 mm, 25 MPa for thicker ones: a maker's typical values, near 38 kg/m³."""
    low, _, high = foam_crush_mpa("extruded polystyrene", 38.0)
    assert low < 20 < high
    assert low < 25 < high


@pytest.mark.parametrize(
    ("tangential", "shear", "narrowing"),
    [(0.081, 0.187, 0.340), (0.050, 0.078, 0.449)],
    ids=["white-cedar", "Douglas-fir"],
)
def test_wood_handbook_ratios_lie_within_what_is_assumed(tangential, shear, narrowing):
    assert STIFFNESS_SHARE[0] <= tangential <= STIFFNESS_SHARE[2]
    assert SHEAR[0] <= shear <= SHEAR[2]
    assert 0.8 * POISSON < narrowing < 1.2 * POISSON


def test_closed_at_15_and_heated_to_60_degrees():
    """Ratio 333.15 / 288.15 = 1.1562; 15.8 kPa over 101.325 kPa."""
    assert closed_air_kpa(from_c=15, to_c=60) == pytest.approx(15.8, abs=0.05)
    assert closed_air_kpa(from_c=15, to_c=60) / 101.325 + 1 == pytest.approx(1.1562, abs=5e-5)


def test_gay_lussac():
    """From 0 °C, pressure rises by 1/273.15 of itself a degree."""
    assert closed_air_kpa(from_c=0, to_c=100) == pytest.approx(101.325 * 100 / 273.15)


@pytest.mark.parametrize(
    ("metres", "kpa"), [(0, 101.325), (1000, 89.875), (2000, 79.495), (5000, 54.020), (11000, 22.632)]
)
def test_icao_standard_atmosphere(metres, kpa):
    """Printed to five digits, over geopotential height."""
    assert air_pressure_kpa(metres) == pytest.approx(kpa, rel=2e-5)


def test_cabin_at_8000_feet():
    """1572 lbf/ft² (1 lbf/ft² = 47.880 Pa), so 26 kPa less than at sea level."""
    assert air_pressure_kpa(2438.4) == pytest.approx(1572 * 0.047880, rel=5e-4)
    assert air_pressure_kpa(2438.4) == pytest.approx(75.3, abs=0.05)
    assert flown_kpa() == pytest.approx(26.0, abs=0.1)


def test_one_psi_on_a_panel():
    """7 kPa on 0.9 m²: 6.3 kN, plain arithmetic."""
    assert push_n(kpa=7, area_mm2=0.9e6) == pytest.approx(6300)
