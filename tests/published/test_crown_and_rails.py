"""Bending wood over crowns and round outlines, fair curves, and rounding by flats, against outside values.

- Wood Handbook, FPL-GTR-190 (2010). Table 5-3a (strengths; the check-value notes quote pages that show the rows),
  Table 5-1 (elastic ratios; northern white-cedar and Douglas-fir as quoted by secondary texts), Table 5-11a (strength
  and specific gravity; from memory, so compared only within its own scatter).
- Beam from flat to arc: M = EI/R, surface strain t/(2R) (textbook; from memory).
- Machinery's Handbook, 21st ed.: rectangle I = b d³/12, section modulus b d²/6 (as quoted by a public source file);
  regular octagon of inscribed radius r: side 0.828 r (from memory).
- What has no table is computed here a second way: a strip pressed on a round former as a problem of contact, fibres
  of a torus measured along the surface, tangents of an ellipse by its implicit equation, an arc by Pythagoras.
"""

import math
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import nnls

from generator.build.crown import arc_radius_mm, least_radius_mm, rim_force_n_mm, saddle, surface_strain, wrap_extra_mm
from generator.build.fairness import gap_curvature_per_mm, round_marks, sagitta_mm, thinned
from generator.build.fittings import plug_holds_n
from generator.build.rails import SAFETY, deck_slope_deg
from generator.inputs.tables import Species, read_table
from generator.timber.across import STIFFNESS_SHARE, across_grain
from generator.timber.by_density import gravity, shear_along_mpa, tension_across_mpa

DATA = Path(__file__).resolve().parents[2] / "site_data"
TIMBERS = {
    one.name: one for one in read_table((DATA / "timber.csv").read_bytes(), "timber.csv", Species)
}  # fmt: skip


# One arc


@pytest.mark.parametrize(("radius", "span", "height"), [(5, 8, 2), (13, 24, 8), (25, 14, 1), (1000, 560, 40)])
def test_an_arc_over_a_chord_of_a_right_triangle_with_whole_sides(radius, span, height):
    """3-4-5, 5-12-13, 7-24-25 and 28-96-100: r² = (L/2)² + (r − h)²."""
    assert sagitta_mm(radius_mm=radius, span_mm=span) == pytest.approx(height, rel=1e-12)
    if height <= span / 2:
        assert arc_radius_mm(half_width_mm=span / 2, drop_mm=height) == pytest.approx(radius, rel=1e-12)


def test_eight_gaps_by_the_square_of_the_span_is_the_exact_curvature_of_a_shallow_arc():
    for gap in (0.5, 1, 2, 5):
        exact = 1 / arc_radius_mm(half_width_mm=300, drop_mm=gap)
        assert gap_curvature_per_mm(gap_mm=gap, span_mm=600) == pytest.approx(exact, rel=(gap / 300) ** 2 * 1.01)


def test_the_way_over_an_arc_added_up_from_short_chords():
    radius, half = 2000.0, 270.0
    drop = radius - math.sqrt(radius**2 - half**2)
    angle = np.linspace(-math.asin(half / radius), math.asin(half / radius), 20001)
    chords = np.hypot(np.diff(radius * np.sin(angle)), np.diff(radius * np.cos(angle))).sum()
    assert wrap_extra_mm(half_width_mm=half, drop_mm=drop) == pytest.approx(chords - 2 * half, rel=1e-6)


def test_the_rim_slope_of_a_shallow_arc_is_that_of_the_parabola_through_the_same_points():
    """An arc falls at its edge at the angle whose sine is b/R; a parabola's slope is 2c/b."""
    for half, drop in ((250, 10), (250, 18), (120, 6)):
        arc = math.degrees(math.asin(half / arc_radius_mm(half_width_mm=half, drop_mm=drop)))
        assert deck_slope_deg(half_width_mm=half, drop_mm=drop) == pytest.approx(arc, rel=(drop / half) ** 2)


# Bending one piece


def test_moment_for_a_bend_and_its_stress_agree_with_strain_times_stiffness():
    """M = EI/R and stress M/(b d²/6), against E t/(2R)."""
    e, b, t, radius = 7700.0, 25.0, 6.0, 1500.0
    stress = e * (b * t**3 / 12) / radius / (b * t**2 / 6)
    assert e * surface_strain(thickness_mm=t, radius_mm=radius) == pytest.approx(stress)


def test_the_fibres_of_a_bent_strip_measured_round_the_bend():
    """An outer fibre at R + t/2 over the same angle as the middle one at R."""
    t, radius, angle = 10.0, 700.0, 0.4
    outer, middle = (radius + t / 2) * angle, radius * angle
    assert surface_strain(thickness_mm=t, radius_mm=radius) == pytest.approx(outer / middle - 1)


@pytest.mark.parametrize(
    ("timber", "mor", "moe", "thick", "radius"),
    [
        ("Western redcedar", 51.7, 7700, 6.0, 446.8),
        ("Redwood (old-growth)", 69.0, 9200, 6.0, 400.0),
        ("Redwood (young-growth)", 54.0, 7600, 5.0, 351.9),
        ("Yellow-poplar", 69.6, 10900, 8.0, 626.4),
        ("Northern white-cedar", 45.0, 5500, 6.0, 366.7),
        ("Paulownia", 43.56, 4281, 5.0, 245.7),
    ],
)
def test_the_bend_at_which_clear_wood_breaks(timber, mor, moe, thick, radius):
    """Table 5-3a (paulownia: Akyildiz and Kol 2010): R = t E / (2 MOR), worked out by hand."""
    species = TIMBERS[timber]
    assert (species.strength_bending_mpa, species.stiffness_mpa) == (mor, pytest.approx(moe, abs=0.5))
    strain = species.strength_bending_mpa / species.stiffness_mpa
    assert least_radius_mm(thickness_mm=thick, strain=strain) == pytest.approx(radius, rel=1e-3)


def test_dry_strips_bend_to_about_a_hundred_thicknesses():
    """Common practice among builders of strip-planked craft (from memory): dry softwood takes R of 80 to 150 t."""
    for timber in ("Western redcedar", "Redwood (old-growth)", "Yellow-poplar", "Paulownia"):
        species = TIMBERS[timber]
        strain = species.strength_bending_mpa / species.stiffness_mpa / SAFETY
        assert 70 <= least_radius_mm(thickness_mm=1.0, strain=strain) <= 150


# Across the grain


@pytest.mark.parametrize(
    ("timber", "strength"),
    [
        ("Western redcedar", 1.5),
        ("Redwood (young-growth)", 1.7),
        ("Northern white-cedar", 1.7),
        ("Yellow-poplar", 3.7),
        ("Douglas-fir (interior south)", 2.3),
        ("Ponderosa pine", 2.9),
    ],
)
def test_tension_across_the_grain_is_the_tables(timber, strength):
    """Table 5-3a as quoted by secondary texts."""
    species = TIMBERS[timber]
    wood = across_grain(species, along_mpa=species.stiffness_mpa, density_kg_m3=400)
    assert wood.published
    assert wood.strength_mpa[1] == strength


@pytest.mark.parametrize(("ratio", "timber"), [(0.050, "tangential"), (0.068, "radial")])
def test_douglas_firs_ratios_lie_in_the_range_taken_for_light_softwoods(ratio, timber):
    """Table 5-1, Douglas-fir E_T/E_L and E_R/E_L."""
    assert STIFFNESS_SHARE[0] <= ratio <= STIFFNESS_SHARE[2], timber


def test_cedar_rolled_across_its_grain_by_hand():
    """1.5 MPa and 7700 MPa of the table, 0.055 and 0.081 of Table 5-1 (from memory): 0.24 % to 0.35 %."""
    low, _, high = across_grain(
        TIMBERS["Western redcedar"], along_mpa=7700, density_kg_m3=350
    ).limit_strain  # fmt: skip
    for ratio in (0.055, 0.081):
        assert low <= 1.5 / (ratio * 7700) <= high


def test_strengths_from_density_lie_about_the_tables():
    """Table 5-11a's lines leave a species up to about a half above or below; the lower of both is on the safe side."""
    across = [
        tension_across_mpa(one.gravity_12pct) / one.strength_tension_perp_mpa
        for one in TIMBERS.values()
        if one.gravity_12pct and one.strength_tension_perp_mpa
    ]
    along = [
        shear_along_mpa(one.gravity_12pct) / one.strength_shear_mpa
        for one in TIMBERS.values()
        if one.gravity_12pct and one.strength_shear_mpa
    ]
    assert len(across) >= 9 <= len(along)
    assert all(0.5 <= share <= 1.6 for share in (*across, *along))
    assert np.median(across) <= 1.05
    assert np.median(along) <= 1.05


def test_specific_gravity_from_density():
    """Dry mass over volume at 12 % moisture: paulownia's 317 kg/m³ air-dry is 283 kg of dry wood in a cubic metre."""
    assert gravity(317) == pytest.approx(0.283, abs=0.0005)


# A strip pressed on a round former


@pytest.mark.parametrize(("half", "drop", "gap"), [(275, 18, 0.5), (200, 8, 0.5), (120, 6, 1.0), (250, 12, 5.0)])
def test_the_pull_leaves_that_gap_when_contact_is_solved_point_by_point(half, drop, gap):
    """Cantilever of 160 points that may rest on the former but not be held by it; least energy, non-negative forces."""
    e, t, points = 539.0, 6.0, 160
    bending = e * t**3 / 12
    pull = rim_force_n_mm(stiffness_mpa=e, thickness_mm=t, half_width_mm=half, drop_mm=drop, gap_mm=gap)
    x = np.linspace(0, half, points + 1)[1:]
    low, high = np.minimum.outer(x, x), np.maximum.outer(x, x)
    gives = low**2 * (3 * high - low) / (6 * bending)
    free = gives[:, -1] * pull - drop * (x / half) ** 2  # below the former, if it were not there
    root = np.linalg.cholesky(gives + 1e-12 * np.trace(gives) * np.eye(points)).T
    pressed, _ = nnls(root, np.linalg.solve(root.T, free), maxiter=100 * points)
    left = -(free - gives @ pressed)[-1]
    assert left == pytest.approx(gap, rel=0.03, abs=0.01)


# Bent both ways


@pytest.mark.parametrize(("rocker", "crown", "half"), [(4000, 1500, 150), (6000, 2000, 200), (3000, 1000, 100)])
def test_fibres_along_a_torus_are_longer_at_its_edges(rocker, crown, half):
    """The deck as part of a torus, rocker's centre above it: a fibre that lies lower goes round at a larger radius."""
    way = np.linspace(-half, half, 4001)
    lower = crown * (1 - np.cos(way / crown))
    strain = (rocker + lower) / rocker - 1
    strain -= np.trapezoid(strain, way) / (2 * half)  # nothing pulls on it as a whole
    bent = saddle(along_per_mm=1 / rocker, across_per_mm=1 / crown, half_width_mm=half)
    assert (bent.edge, bent.middle) == pytest.approx((strain[0], strain[2000]), rel=0.01)


# Rounding by flats


@pytest.mark.parametrize(("wide", "high"), [(30, 30), (30, 26), (28, 16), (10, 40)])
def test_every_flat_touches_the_ellipse_and_never_cuts_it(wide, high):
    """A line a x + b y = 1 touches x²/w² + y²/h² = 1 if a² w² + b² h² = 1; corner at (w, h), deck y = h, side x = w."""
    marks = round_marks(width_mm=wide, height_mm=high)
    first = (wide - marks.first_in, high), (wide, high - marks.first_down)
    along = np.array(first[1]) - np.array(first[0])
    step = along / np.hypot(*along) * marks.second_on_flat
    upper, lower = np.array(first[0]) + step, np.array(first[1]) - step
    flats = (first, ((wide - marks.second_in, high), upper), (lower, (wide, high - marks.second_down)))
    for one, other in flats:
        a, b = np.linalg.solve(np.array([one, other]), np.ones(2))
        assert (a * wide) ** 2 + (b * high) ** 2 == pytest.approx(1, rel=1e-9)
    assert marks.flat == pytest.approx(float(np.hypot(*along)))


def test_the_first_flat_of_a_round_rail_is_the_side_of_a_regular_octagon():
    """Side of an octagon of inscribed radius r: 2 r tan 22.5° = 0.8284 r."""
    assert round_marks(width_mm=25, height_mm=25).flat == pytest.approx(0.8284 * 25, rel=1e-4)


# Thin panels and plugs


@pytest.mark.parametrize(
    ("thick", "off", "stiffness", "stress"), [(6, 0.5, 0.7703, 1.1901), (6, 1, 0.5787, 1.44), (5, 0.5, 0.729, 1.2346)]
)
def test_a_thinner_panel_from_the_rectangles_second_moment_and_section_modulus(thick, off, stiffness, stress):
    """I = b d³/12 and b d²/6, before and after."""
    after = thinned(thickness_mm=thick, off_mm=off)
    assert after.stiffness == pytest.approx(stiffness, abs=5e-5)
    assert after.stress == pytest.approx(stress, abs=5e-5)


def test_a_plug_holds_less_than_the_tables_shear_strength_on_its_whole_wall():
    """Yellow-poplar 8.2 MPa, specific gravity 0.42 (FPL technical sheet): half the wall, a third of that."""
    wall = math.pi * 28 * 20
    holds = plug_holds_n(hole_mm=28, depth_mm=20, density_kg_m3=1120 * 0.42)
    assert holds == pytest.approx(wall * 8.2 / 6, rel=0.05)
