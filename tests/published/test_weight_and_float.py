"""Water, floating, volume and mass against published values and closed forms.

Sources:
- UNESCO equation of state of sea water (EOS-80), check values; Millero and Poisson (1981); Gill, Atmosphere-Ocean
  Dynamics (1982), app. A3. Seen in several public test files.
- Design densities and pure water at 0 and 3.98 °C: a public engineering manual's table (seen).
- Pure water at 20 °C: CIPM standard table (from memory).
- Speed-length rule 1.34 √(ft) in knots: naval architecture texts (seen); exact factor 1.3407, Froude number 0.399.
- Geometry: ellipse, ellipsoid, spherical cap, parabola's segment (Archimedes), floating box; derived beside each test.
"""

import math
from types import SimpleNamespace

import numpy as np
import pytest

from generator.board.curve import FairCurve
from generator.board.outline import Outline
from generator.board.shape import Shape, section_area_mm2, volume_litres
from generator.build.floating import Hull, afloat, carried_kg, hull_of, wave_speed_m_s
from generator.build.part_mass import PartMass
from generator.build.solids import surface_area_mm2
from generator.build.water_density import DESIGN_KG_M3, displaced_litres, water_kg_m3
from generator.build.weight import all_together, balance_mm, sheet_kg

KNOT_M_S = 1852 / 3600  # international nautical mile
FOOT_M = 0.3048


@pytest.mark.parametrize(
    ("temperature", "salinity", "density", "digits"),
    [
        (0, 0, 999.85, 0.01),  # printed to 0.01
        (3.98, 0, 999.97, 0.01),
        (20, 0, 998.2, 0.05),  # from memory, to 0.1
        (5, 0, 999.96675, 0.00001),  # EOS-80 check values, printed to 0.00001
        (5, 35, 1027.67547, 0.00001),
        (25, 35, 1023.34306, 0.00001),  # from memory
    ],
)
def test_density_of_water(temperature, salinity, density, digits):
    assert water_kg_m3(temperature_c=temperature, salinity=salinity) == pytest.approx(density, abs=digits)


def test_design_densities_and_what_surface_sea_water_spans():
    sea, fresh = DESIGN_KG_M3["sea"], DESIGN_KG_M3["fresh"]
    assert (sea.value, fresh.value) == (1025, 1000)
    assert (sea.low, sea.high) == (1020, 1029)
    for temperature, salinity in ((25, 34), (5, 35)):
        assert sea.low <= water_kg_m3(temperature_c=temperature, salinity=salinity) <= sea.high
    for temperature in (4, 12, 20):
        assert fresh.low <= water_kg_m3(temperature_c=temperature, salinity=0) <= fresh.high


def test_a_kilogram_takes_0_976_litres_of_sea_water():
    assert displaced_litres(1, water_kg_m3=1025) == pytest.approx(0.976, abs=0.0005)
    assert displaced_litres(1, water_kg_m3=1000) == pytest.approx(1.0)
    assert carried_kg(litres=0.976, board_kg=0, water_kg_m3=1025) == pytest.approx(1.0, abs=0.0005)


@pytest.mark.parametrize("feet", [4.0, 7.5, 9.0, 25.0])
def test_speed_length_rule(feet):
    knots = wave_speed_m_s(feet * FOOT_M) / KNOT_M_S
    assert knots == pytest.approx(1.34 * math.sqrt(feet), rel=0.001)  # 1.34 is printed with three digits
    assert knots == pytest.approx(1.3407 * math.sqrt(feet), rel=0.0001)


def test_froude_number_of_the_speed_length_rule():
    length = 2.2
    assert wave_speed_m_s(length) / math.sqrt(9.80665 * length) == pytest.approx(0.399, abs=0.0005)


# Cross-sections


def test_a_slice_with_full_rails_is_a_rectangle_between_two_half_ellipses():
    half, thick, rail = 250.0, 60.0, 30.0
    area = 2 * (half - rail) * thick + math.pi * rail * thick / 2
    found = section_area_mm2(half_width_mm=half, thickness_mm=thick, crown_mm=0, rail_mm=rail)
    assert found == pytest.approx(area, rel=1e-12)


def test_a_slice_as_narrow_as_its_rails_is_an_ellipse():
    found = section_area_mm2(half_width_mm=40.0, thickness_mm=50.0, crown_mm=0, rail_mm=80)
    assert found == pytest.approx(math.pi * 40 * 25, rel=1e-12)


def test_a_deck_that_falls_to_the_bottom_is_a_parabola_s_segment():
    """Archimedes: two thirds of the rectangle round it."""
    found = section_area_mm2(half_width_mm=240.0, thickness_mm=70.0, crown_mm=70.0, rail_mm=0)
    assert found == pytest.approx(2 / 3 * 480 * 70, rel=1e-12)


def test_crown_and_rail_together_as_summed_point_by_point():
    half, thick, crown, rail = 275.0, 70.0, 18.0, 30.0
    y = np.linspace(0, half, 400001)
    middle = (y[1:] + y[:-1]) / 2
    left = np.sqrt(1 - np.clip((middle - (half - rail)) / rail, 0, 1) ** 2)
    area = 2 * np.sum((thick - crown * (middle / half) ** 2) * left) * (y[1] - y[0])
    found = section_area_mm2(half_width_mm=half, thickness_mm=thick, crown_mm=crown, rail_mm=rail)
    assert found == pytest.approx(area, rel=1e-5)


# Whole shapes


def shape_with(outline, *, thickness, rail):
    depth = SimpleNamespace(
        finished_mm=lambda x: np.full(np.shape(x), thickness),
        crown_mm=lambda x: np.zeros(np.shape(x)),
        drop_mm=lambda x, y: np.zeros(np.broadcast(x, y).shape),
    )
    return Shape(depth, outline, rail)


def ellipse(a, b):
    u = np.linspace(0, 1, 801)
    return Outline(2 * a, "round", "round", u, b * np.sin(np.pi * u))


def body_of(shape):
    length = shape.length_mm
    return SimpleNamespace(
        shape=shape, length_mm=length, rocker=FairCurve.straight(length), board=SimpleNamespace(rail_mm=shape.rail_mm)
    )


@pytest.mark.parametrize(("a", "b", "c"), [(900.0, 250.0, 35.0), (300.0, 300.0, 300.0), (1200.0, 200.0, 60.0)])
def test_rounded_all_over_it_is_an_ellipsoid(a, b, c):
    """Rails as wide as the board and tips rounded over half its length: every section an ellipse, 4/3 π a b c."""
    shape = shape_with(ellipse(a, b), thickness=2 * c, rail=a)
    volume = 4 / 3 * math.pi * a * b * c / 1e6
    assert volume_litres(shape) == pytest.approx(volume, rel=1e-4)
    hull = hull_of(body_of(shape))
    assert hull.litres == pytest.approx(volume, rel=2e-3)
    assert hull.wet(c)[0] == pytest.approx(volume / 2, rel=2e-3)
    assert hull.wet(c)[1] == pytest.approx(a, abs=0.1)


def test_the_surface_of_a_sphere():
    shape = shape_with(ellipse(300, 300), thickness=600, rail=300)
    assert surface_area_mm2(body_of(shape)) == pytest.approx(4 * math.pi * 300**2, rel=2e-3)


def test_the_surface_of_a_flat_round_plate():
    """A cylinder: two discs and its side."""
    shape = shape_with(ellipse(400, 400), thickness=50, rail=0.0)
    area = 2 * math.pi * 400**2 + 2 * math.pi * 400 * 50
    assert surface_area_mm2(body_of(shape)) == pytest.approx(area, rel=1e-3)
    assert volume_litres(shape) == pytest.approx(math.pi * 400**2 * 50 / 1e6, rel=1e-4)


@pytest.mark.parametrize("deep", [60.0, 150.0, 300.0, 470.0])
def test_a_sphere_under_water_as_deep_as_a_cap(deep):
    """Spherical cap: π h² (3 R − h) / 3."""
    hull = hull_of(body_of(shape_with(ellipse(300, 300), thickness=600, rail=300)))
    assert hull.wet(deep)[0] == pytest.approx(math.pi * deep**2 * (900 - deep) / 3 / 1e6, rel=5e-3)


def test_the_middle_of_a_wedge_lies_a_third_from_its_broad_end():
    u = np.linspace(0, 1, 401)
    wedge = Outline(1500.0, "square", "pointed", u, 200 * (1 - u))
    hull = hull_of(body_of(shape_with(wedge, thickness=50, rail=0.0)))
    assert hull.litres == pytest.approx(1500 * 200 * 50 / 1e6, rel=1e-4)
    assert hull.wet(1000)[1] == pytest.approx(500, abs=0.5)


# Floating boxes


def box(length, breadth, depth, count=1001):
    x = np.linspace(0, length, count)
    area = np.full(count, length / (count - 1) * breadth)
    area[[0, -1]] /= 2
    return Hull(x, area[:, None], np.zeros((count, 1)), np.full((count, 1), depth))


@pytest.mark.parametrize(("mass", "water"), [(20.0, 1025.0), (60.0, 1000.0)])
def test_a_box_barge_sinks_until_its_draft_carries_it(mass, water):
    """Draft = mass / (density × length × breadth)."""
    found = afloat(box(2000, 500, 100), mass_kg=mass, from_tail_mm=1000, water_kg_m3=water)
    assert found.level_mm == pytest.approx(mass / (water * 2.0 * 0.5) * 1000, rel=1e-4)
    assert found.slope == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("off", [10.0, -25.0, 60.0])
def test_a_box_barge_trims_until_its_water_lies_under_its_mass(off):
    """A trapezoid of mean draft T, higher at one end by θ L, has its middle θ L² / (12 T) off: θ = 12 T e / L²."""
    length, mass, water = 2000.0, 40.0, 1000.0
    draft = mass / (water * length / 1000 * 0.5) * 1000
    found = afloat(box(length, 500, 200), mass_kg=mass, from_tail_mm=length / 2 + off, water_kg_m3=water)
    assert found.slope == pytest.approx(12 * draft * off / length**2, rel=1e-3)
    assert found.surface_mm(length / 2) == pytest.approx(draft, rel=1e-3)


def test_a_box_that_lies_on_one_end_under_water_is_a_wedge():
    """With the mass nearer an end than a third of the length from the middle the other end is dry; a wedge of length
    l has its middle at l / 3: l = 3 e, with e from the deep end."""
    length, breadth, mass, water, end = 2000.0, 500.0, 30.0, 1000.0, 500.0
    found = afloat(box(length, breadth, 400, 4001), mass_kg=mass, from_tail_mm=end, water_kg_m3=water)
    wet = 3 * end
    deepest = 2 * mass / (water * 1e-9) / (breadth * wet)
    assert found.level_mm == pytest.approx(deepest, rel=2e-3)
    assert found.surface_mm(wet) == pytest.approx(0, abs=0.1)


# Mass


def test_the_mass_of_a_sheet():
    """A square metre, a millimetre thick, is a litre: its mass in kg is its density in kg/m³ by 1000."""
    assert sheet_kg(area_m2=1, thickness_mm=1, density_kg_m3=350) == pytest.approx(0.35)


def test_a_balance_beam():
    """Law of the lever: 2 kg at 600 and 1 kg at 0 balance at 400."""
    parts = [PartMass("one", 2, 2, 2, 600), PartMass("other", 1, 1, 1, 0)]
    assert balance_mm(parts) == pytest.approx(400)


def test_ranges_of_parts_that_err_by_themselves_add_as_squares():
    """Propagation of independent errors: √(3² + 4²) = 5. Both panels, from one lot of planks, add plainly."""
    whole = all_together([PartMass("rails", 10, 7, 13, 0), PartMass("frame", 10, 6, 14, 0)])
    assert (whole.low_kg, whole.kg, whole.high_kg) == pytest.approx((15, 20, 25))
    panels = all_together([PartMass("bottom panel", 10, 7, 13, 0), PartMass("top panel", 10, 6, 14, 0)])
    assert (panels.low_kg, panels.high_kg) == pytest.approx((13, 27))
