"""Glue and finish beside outside values.

Sources, and how each was read:
* Machinery's Handbook, 31st edition (2020), "Dimensions of plane figures", p. 80, spandrel or fillet: area 0.215 r²,
  example r = 0.7 in. Verified (page text seen).
* Forest Products Laboratory, Technical Note 255, hand-operated glue spreader: the glue for about 75 lineal feet of
  nominally 2-inch-wide lumber at 50 pounds a 1,000 square feet. Verified (text seen).
* The ten-degree rule of adhesive makers: the reaction's speed doubles with each 10 °C; worked example 60 min at 25 °C,
  30 at 35 °C, 15 at 45 °C. Verified (data pages of two makers).
* Arrhenius' law, k = A exp(−E / R T), T in kelvin. Textbook, from memory.
* Wood Handbook, chapter 10, gluing pressure 100 psi (0.7 MPa) for light woods, 250 psi (1.7 MPa) for dense ones. From
  memory; makers' advice 100–150 psi is 0.69–1.03 MPa, verified (secondary).
* EN 204:2016, durability classes D1 to D4. Verified (standard's own summary).
* US gallon 3.785411784 L, international foot 0.3048 m, pound 0.45359237 kg: exact (NIST SP 811, appendix B, from
  memory).
* Spreading rate and wet film: a litre over 1 m² is 1 mm thick (geometry).
"""

import math
from typing import get_args

import pytest
from shapely import Point, Polygon, box

from generator.build.cure import time_between
from generator.build.finish_use import coat_volume_ml
from generator.build.glue_use import bead_section_mm2, bead_volume_ml, film_mass_kg, volume_ml
from generator.figures import Figure, Kind
from generator.inputs.builder import WaterClass
from generator.shown import show

INCH_MM = 25.4
SQ_FT_M2 = 0.3048**2
POUND_KG = 0.45359237
GALLON_L = 3.785411784
KELVIN = 273.15


def shown(value, unit, step):
    return show(Figure("k", value, unit, "l", "h", Kind.LABEL, "", value, value, step), "inches")


def test_a_hollow_bead_is_the_handbook_s_fillet():
    """p. 80: 0.215 r², and 0.105 in² for r = 0.7 in; printed to three digits."""
    hollow = bead_section_mm2(bead_mm=0.7 * INCH_MM).low / INCH_MM**2
    assert hollow == pytest.approx(0.105, abs=0.0005)
    assert bead_section_mm2(bead_mm=1).low == pytest.approx(0.215, abs=0.0005)


@pytest.mark.parametrize("reach", [2.0, 3.0, 5.5])
def test_beads_have_the_areas_that_a_geometry_library_gives(reach):
    """Polygons of 4 · 512 sides stay within 0.001 % of the circle."""
    corner = box(0, 0, reach, reach)
    section = bead_section_mm2(bead_mm=reach)
    assert section.value == pytest.approx(Polygon([(0, 0), (reach, 0), (0, reach)]).area)
    assert section.low == pytest.approx((corner - Point(reach, reach).buffer(reach, quad_segs=512)).area, rel=1e-4)
    assert section.high == pytest.approx((corner & Point(0, 0).buffer(reach, quad_segs=512)).area, rel=1e-4)


def test_a_metre_of_flat_bead_is_a_prism():
    """Half of a square prism 4 × 4 × 1000 mm: 8 cm³."""
    assert bead_volume_ml(length_mm=1000, bead_mm=4).value == pytest.approx(8.0)


def test_a_spreader_s_load_covers_what_the_note_says():
    """75 ft of 2 in at 50 lb/1000 ft²: 12.5 ft², 0.625 lb."""
    area_m2 = 75 * SQ_FT_M2 * 2 / 12
    per_m2 = 50 * POUND_KG * 1000 / (1000 * SQ_FT_M2)
    assert per_m2 == pytest.approx(244, abs=0.5)
    mass = film_mass_kg(area_mm2=area_m2 * 1e6, spread_g_m2=per_m2)
    assert mass / POUND_KG == pytest.approx(0.625)
    assert shown(per_m2, "g/m2", 1.0) == "1 oz per sq ft"
    assert shown(per_m2, "g/m2", 0.1) == "0.8 oz per sq ft"  # 50 lb = 800 oz over 1000 ft²


def test_mass_over_density_is_volume():
    """Water at 4 °C, 1000 kg/m³: a kilogram is a litre."""
    assert volume_ml(mass_kg=1.0, density_kg_m3=1000.0) == pytest.approx(1000.0)


@pytest.mark.parametrize(("at", "minutes"), [(25, 60), (35, 30), (45, 15)])
def test_between_two_columns_the_ten_degree_rule_comes_out(at, minutes):
    assert time_between(temperature_c=at, cold_c=25, cold_min=60, warm_c=45, warm_min=15) == pytest.approx(minutes)


@pytest.mark.parametrize("at", [11.0, 14.0, 17.5, 19.0])
@pytest.mark.parametrize(("cold_min", "warm_min"), [(2880.0, 1440.0), (480.0, 240.0), (10080.0, 4320.0), (35.0, 20.0)])
def test_over_ten_degrees_it_keeps_to_arrhenius_law(at, cold_min, warm_min):
    """Activation energy from both columns; over 10 °C the straight line in °C leaves it by 2 % at most."""
    cold, warm, here = 10 + KELVIN, 20 + KELVIN, at + KELVIN
    energy_per_gas_constant = math.log(cold_min / warm_min) / (1 / cold - 1 / warm)
    law = warm_min * math.exp(energy_per_gas_constant * (1 / here - 1 / warm))
    got = time_between(temperature_c=at, cold_c=10, cold_min=cold_min, warm_c=20, warm_min=warm_min)
    assert got == pytest.approx(law, rel=0.02)


@pytest.mark.parametrize(
    ("mpa", "psi"), [(0.69, "100 psi"), (1.03, "150 psi"), (1.21, "180 psi"), (1.72, "250 psi"), (0.7, "100 psi")]
)
def test_gluing_pressures_read_as_the_trade_states_them(mpa, psi):
    """100–150 psi for softwood, 175–250 psi for hardwood; a page shows two digits, so 175 reads 180."""
    assert shown(mpa, "MPa", 0.01) == psi


def test_a_glue_s_water_class_is_one_of_the_standard_s_four():
    assert [word for word in get_args(WaterClass) if word != "none stated"] == ["D1", "D2", "D3", "D4"]


def test_a_coat_is_as_thick_as_its_volume_over_its_area():
    """10 m²/L is a wet film of 100 µm; over 2 m² that is 200 ml."""
    assert coat_volume_ml(area_mm2=2e6, coverage_m2_l=10) == pytest.approx(2e6 * 0.100 / 1000)


def test_coverage_reads_in_square_feet_a_quart():
    """400 ft² a gallon is 100 ft² a quart, 9.817 m²/L."""
    m2_l = 400 * SQ_FT_M2 / GALLON_L
    assert m2_l == pytest.approx(9.817, abs=0.0005)
    assert shown(m2_l, "m2/L", 1.0) == "100 sq ft per quart"
