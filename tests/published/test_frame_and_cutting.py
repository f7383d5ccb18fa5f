"""Frame checks, cutting, clamps and pressing weights against handbooks, plane geometry and a frame library.

Sources:
- American Wood Council, Design Aid No. 6, Beam Design Formulas with Shear and Moment Diagrams (2007), figures 7 and 13
  (seen in the tests of an open finite-element library written after it; the numbers below are its formulas worked out).
- Section of a rectangle, I = b d³/12 and b d²/6: Machinery's Handbook (21st ed.), as quoted in a public beam program.
- PyNiteFEA, a structural frame library, for a strip whose ends are held.
- Gluing pressure of a glue maker's adviser, 100 psi = 0.69 MPa for softwoods (quoted in the woodworking press), and
  what it comes to in clamps: plain arithmetic.
- Wood Handbook, FPL-GTR-190 (2010), Tables 5-3 and 5-5: tension across the grain (seen in texts that quote them).
- Euclid, Elements: I.47 (the 3-4-5 triangle as its example); the parallelogram law, which follows from it.
- A cantilever that runs to a point, from memory (leaf-spring formula of machine-design textbooks).
- A plate clamped along one edge, a point load at the free one: moment at most 0.509 P (Jaramillo 1950; from memory).
"""

import math
from pathlib import Path

import numpy as np
import pytest
from Pynite import FEModel3D

from generator.build.clamp_order import strip_pressure_mpa
from generator.build.cutting import batten_gap_mm, bending_mpa, overhang_limit_mm, tongue_sag_mm, working_width_mm
from generator.build.frame_checks import RibEnds, bow_deg, diagonals_mm, rim_height_mm, twist_deg
from generator.build.pressing import FIXED, PIN, PROPPED, closing_force_n
from generator.inputs.site import read_builder
from generator.inputs.tables import Species, read_table
from generator.timber.across import across_grain

PSI_MPA = 0.006894757


def even(width_mm):
    return lambda s: np.full(np.shape(s), width_mm)


def test_a_cantilever_with_a_load_at_its_end_has_the_handbook_s_moment():
    """Design Aid No. 6, figure 13: L = 10, P = 6 gives M = 60. Stress is that over b d²/6 of a 12 by 5 rectangle."""
    stress = bending_mpa(load_n=6, arm_mm=10, width_mm=12, thickness_mm=5)
    assert stress == pytest.approx(60 / (12 * 5**2 / 6))


def test_a_tongue_of_even_width_dips_as_the_handbook_says():
    """Design Aid No. 6, figure 13: L = 10, P = 6 gives E·I times dip = P L³/3 = 2000. Here E·I = 1 · 12 · 1³/12 = 1.

    The sum over sixty slices is short of the integral by 1/(4·60²), 7e-5 of it.
    """
    dip = tongue_sag_mm(load_n=6, arm_mm=10, width_mm=even(12.0), stiffness_mpa=1, thickness_mm=1)
    assert dip == pytest.approx(2000, rel=2e-4)


def test_a_tongue_that_runs_to_a_point_dips_half_as_much_again():
    """P L³/(2 E I at the root) against P L³/(3 E I): textbook of machine design, from memory."""
    dip = tongue_sag_mm(
        load_n=6, arm_mm=10, width_mm=lambda s: 12 * np.asarray(s) / 10, stiffness_mpa=1, thickness_mm=1
    )
    assert dip == pytest.approx(6 * 10**3 / 2, rel=2e-4)


def test_a_span_with_a_load_at_its_middle_sags_and_bends_as_the_handbook_says():
    """Design Aid No. 6, figure 7: L = 12, P = 10 gives M = 30 and E·I times sag = 360."""
    stiff = batten_gap_mm(
        thickness_mm=1, strength_mpa=1e9, stiffness_mpa=1, load_n=10, safety=1, strip_mm=12, sag_mm=360
    )
    assert stiff == pytest.approx(12)
    strong = batten_gap_mm(
        thickness_mm=5,
        strength_mpa=30 / (12 * 5**2 / 6),
        stiffness_mpa=1e9,
        load_n=10,
        safety=1,
        strip_mm=12,
        sag_mm=360,
    )
    assert strong == pytest.approx(12)


def sag_by_frame_library(load_n, span_mm, *, left_held, right_held):
    """Sag at the middle of a beam of E·I = 1e6 N mm²."""
    model = FEModel3D()
    model.add_material("wood", 1.0, 1.0, 0.3, 0.0)
    model.add_section("strip", 1e9, 1e6, 1e6, 1e6)
    for name, place in (("a", 0.0), ("m", span_mm / 2), ("b", span_mm)):
        model.add_node(name, place, 0.0, 0.0)
    model.add_member("am", "a", "m", "wood", "strip")
    model.add_member("mb", "m", "b", "wood", "strip")
    model.def_support("a", True, True, True, True, True, left_held)
    model.def_support("m", False, False, True, True, True, False)
    model.def_support("b", False, True, True, True, True, right_held)
    model.add_node_load("m", "FY", -load_n)
    model.analyze_linear()
    return -model.nodes["m"].DY["Combo 1"]


@pytest.mark.parametrize(("held", "left", "right"), [(PIN, False, False), (PROPPED, True, False), (FIXED, True, True)])
def test_the_force_that_closes_a_gap_opens_it_again_in_a_frame_library(held, left, right):
    """Strip of E·I = 1e6: 4000 MPa, 3 mm wide, 10 mm thick. Rounding of the library's matrices only."""
    force = closing_force_n(gap_mm=0.5, span_mm=420, width_mm=3, thickness_mm=10, stiffness_mpa=4000, held=held)
    assert sag_by_frame_library(force, 420, left_held=left, right_held=right) == pytest.approx(0.5, rel=1e-6)


def test_the_load_at_the_middle_of_a_free_strip_is_the_handbook_s():
    """Design Aid No. 6, figure 7: L = 12, P = 10 gives E·I times sag = 360."""
    force = closing_force_n(gap_mm=360, span_mm=12, width_mm=12, thickness_mm=1, stiffness_mpa=1, held=PIN)
    assert force == pytest.approx(10)


def test_a_line_load_spreads_about_as_in_a_clamped_plate():
    """0.509 P a mm of edge at the root of a plate (Jaramillo 1950; from memory). The 45° strip gives half of P."""
    per_mm = 1.0 * 100 / working_width_mm(arm_mm=100, base_mm=0, length_mm=5000)
    assert per_mm == pytest.approx(0.509, rel=0.03)


@pytest.mark.parametrize(
    ("timber", "across_mpa", "limit_mm"),
    [
        # Strengths as printed in texts that quote the Wood Handbook. The limit is worked by hand for a 6 mm panel,
        # 60 N, factor 3, base 120 mm: needs 6·60·3 = 1080 N, holds 36 f, limit = 120 · 36 f / (1080 − 72 f).
        ("Western redcedar", 1.5, 6.6667),
        ("Northern white-cedar", 1.7, 7.6692),
        ("Yellow-poplar", 3.7, 19.6460),
        ("White oak", 5.5, 34.7368),
    ],
)
def test_tabled_strengths_across_the_grain_and_the_overhang_worked_by_hand(timber, across_mpa, limit_mm, data_dir):
    species = {one.name: one for one in read_table((data_dir / "timber.csv").read_bytes(), "timber.csv", Species)}
    across = across_grain(species[timber], along_mpa=8000, density_kg_m3=400)
    assert across.published
    assert across.strength_mpa[1] == across_mpa
    limit = overhang_limit_mm(
        thickness_mm=6, strength_mpa=across.strength_mpa[1], load_n=60, safety=3, base_mm=120, length_mm=2400
    )
    assert limit == pytest.approx(limit_mm, abs=1e-4)


@pytest.fixture
def data_dir():
    return Path(__file__).resolve().parents[2] / "site_data"


def test_textbook_pressure_in_clamps():
    """One metre of a 20 mm edge at 0.7 MPa takes 14 kN, at a clamp every 250 mm 3.5 kN each (arithmetic)."""
    assert strip_pressure_mpa(force_n=14_000, apart_mm=1000, width_mm=20) == pytest.approx(0.7)
    assert strip_pressure_mpa(force_n=3_500, apart_mm=250, width_mm=20) == pytest.approx(0.7)
    assert strip_pressure_mpa(force_n=100 * PSI_MPA * 250 * 20, apart_mm=250, width_mm=20) == pytest.approx(
        0.69, abs=0.001
    )


def test_a_spring_clamp_s_35_pounds_are_160_newtons(data_dir):
    """About 35 lbf (a single hobby source of 2009): 35 · 4.448 N = 156 N, told as 160."""
    force = next(row.value for row in read_builder(data_dir, "mara").practice if row.key == "practice.clamp_force")
    assert force == round(35 * 4.4482216 / 10) * 10


def test_the_diagonals_of_a_three_by_four_rectangle_are_five():
    """Euclid I.47."""
    assert diagonals_mm(RibEnds(0, 150, 0), RibEnds(400, 150, 0)) == pytest.approx((500, 500))


def test_a_box_of_two_by_three_by_six_has_a_diagonal_of_seven():
    """2² + 3² + 6² = 7²."""
    assert diagonals_mm(RibEnds(100, 150, 20), RibEnds(700, 150, 220))[0] == pytest.approx(700)


@pytest.mark.parametrize("turned", [0.3, 1.0, 7.0, -4.0])
def test_a_racked_frame_keeps_the_parallelogram_law(turned):
    """Two equal ribs turned alike make a parallelogram: d₁² + d₂² = 2 (a² + b²), and d₁² − d₂² = 4 a b sin θ."""
    first, second = RibEnds(0, 230, 0), RibEnds(1050, 230, 0)
    one, other = diagonals_mm(first, second, first_turned_deg=turned, second_turned_deg=turned)
    assert one**2 + other**2 == pytest.approx(2 * (1050**2 + 460**2))
    assert one**2 - other**2 == pytest.approx(4 * 1050 * 460 * math.sin(math.radians(turned)))


@pytest.mark.parametrize(("first", "second"), [(0.5, 0.0), (0.0, -1.2), (2.0, 3.0)])
def test_diagonals_are_the_distances_between_turned_corners(first, second):
    """The corners turned one by one with a rotation matrix, and the distance between them."""
    ribs = (RibEnds(300, 187, 41), RibEnds(1500, 239, 52))

    def corner(rib, turned, side):
        angle = math.radians(turned)
        matrix = np.array([[math.cos(angle), -math.sin(angle), 0], [math.sin(angle), math.cos(angle), 0], [0, 0, 1]])
        return np.array([rib.from_tail_mm, 0, rib.height_mm]) + matrix @ np.array([0, side * rib.half_width_mm, 0])

    left_to_right = np.linalg.norm(corner(ribs[1], second, -1) - corner(ribs[0], first, 1))
    right_to_left = np.linalg.norm(corner(ribs[1], second, 1) - corner(ribs[0], first, -1))
    got = diagonals_mm(*ribs, first_turned_deg=first, second_turned_deg=second)
    assert got == pytest.approx((left_to_right, right_to_left))


def test_a_stick_of_two_that_rises_one_stands_at_thirty_degrees():
    """sin 30° = 1/2; and the rims stand in the proportion of board and stick (similar triangles)."""
    assert twist_deg(seen_mm=350, stick_mm=700) == pytest.approx(30)
    assert rim_height_mm(seen_mm=2, stick_mm=700, width_mm=490) == pytest.approx(1.4)


@pytest.mark.parametrize("radius", [2_000, 50_000, 331_000])
def test_a_bent_spine_points_aside_as_a_circle_does(radius):
    """A circle: rise R − √(R² − c²/4) over a chord c, and its tangent at the end stands at arcsin(c/2R) to it."""
    chord = 2300.0
    rise = radius - math.sqrt(radius**2 - chord**2 / 4)
    expected = math.degrees(math.asin(chord / (2 * radius)))
    assert bow_deg(aside_mm=rise, length_mm=chord) == pytest.approx(expected, rel=1e-6)
