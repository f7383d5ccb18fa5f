"""Pressing thin panels: Euler's strut by a second way, gluing pressure, stiffness across the grain.

Sources: Wood Handbook, FPL-GTR-190 (2010), Table 5-1 (northern white-cedar, seen in a text that quotes it) and chapter
10 (0.7 MPa for light woods, from memory); a glue maker's adviser: 100-150 psi for softwoods (quoted in the woodworking
press); Euler's strut and the exchange of the buckling load with an eigenvalue (textbook).
"""

import math

import numpy as np
import pytest
from scipy.linalg import eigh

from generator.build.panel_press import (
    GLUING_PRESSURE_MPA,
    buckling_force_n_mm,
    gluing_force_n_mm,
    hold_down_n_mm,
    kg_per_m,
)
from generator.timber.across import stiffness_share

PSI_MPA = 0.006894757


def eigenvalue_n_mm(thick, width, across, pieces):
    """Least edge force of a pinned strip from beam elements: bending against geometric stiffness, per mm of breadth."""
    d, h = across * thick**3 / 12, width / pieces
    bend = d / h**3 * np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                                [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])  # fmt: skip
    push = 1 / (30 * h) * np.array([[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h],
                                    [-36, -3 * h, 36, -3 * h], [3 * h, -h * h, -3 * h, 4 * h * h]])  # fmt: skip
    size = 2 * (pieces + 1)
    stiff, geometric = np.zeros((size, size)), np.zeros((size, size))
    for n in range(pieces):
        at = slice(2 * n, 2 * n + 4)
        stiff[at, at] += bend
        geometric[at, at] += push
    free = [n for n in range(size) if n not in (0, size - 2)]
    return eigh(stiff[np.ix_(free, free)], geometric[np.ix_(free, free)], eigvals_only=True)[0]


@pytest.mark.parametrize(("thick", "width", "across"), [(6.0, 560.0, 450.0), (5.0, 485.0, 348.0), (12.0, 300.0, 900.0)])
def test_a_strip_springs_up_at_the_least_eigenvalue(thick, width, across):
    got = buckling_force_n_mm(thickness_mm=thick, width_mm=width, across_mpa=across)
    assert got == pytest.approx(eigenvalue_n_mm(thick, width, across, 16), rel=1e-5)
    errors = [eigenvalue_n_mm(thick, width, across, n) / got - 1 for n in (2, 4, 8)]
    assert errors[0] / errors[1] == pytest.approx(16, rel=0.15)
    assert errors[1] / errors[2] == pytest.approx(16, rel=0.1)


def test_a_pinned_column_of_a_textbook_size():
    """Euler: a steel bar 20 mm square, 2 m long, E 200 GPa carries 6.58 kN; as a strip, per mm of breadth (from memory,
    plain arithmetic on P = π² E I / L²)."""
    per_mm = buckling_force_n_mm(thickness_mm=20, width_mm=2000, across_mpa=200e3)
    assert 20 * per_mm == pytest.approx(6580, rel=1e-3)


def test_gluing_force_of_a_metre_of_edge():
    """0.7 MPa on 20 mm: 14 kN a metre, and 3.5 kN a clamp every 250 mm (derived from chapter 10's pressure)."""
    force = gluing_force_n_mm(pressure_mpa=GLUING_PRESSURE_MPA, edge_mm=20)
    assert force == pytest.approx(14.0)
    assert force * 250 == pytest.approx(3500)


def test_the_handbook_s_pressure_is_the_low_end_of_what_glue_makers_say_for_softwoods():
    assert 0.98 * 100 * PSI_MPA <= GLUING_PRESSURE_MPA <= 150 * PSI_MPA


@pytest.mark.parametrize(
    ("botanical", "tangential", "radial"),
    [
        ("Thuja occidentalis", 0.081, 0.183),  # Table 5-1, seen in a text that quotes it
        ("Thuja plicata", 0.055, 0.081),  # from memory
        ("Ochroma pyramidale", 0.015, 0.046),  # from memory
    ],
)
def test_stiffness_across_lies_between_the_two_ratios_of_table_5_1(botanical, tangential, radial):
    low, usual, high = stiffness_share(botanical)
    assert (low, high) == (tangential, radial)
    assert usual == pytest.approx((tangential + radial) / 2, abs=0.0006)


@pytest.mark.parametrize("seen", [0.050, 0.068, 0.081, 0.183])
def test_a_timber_that_table_5_1_does_not_have_may_be_like_any_that_was_seen_there(seen):
    """Douglas-fir and northern white-cedar, tangential and radial."""
    low, _, high = stiffness_share("Paulownia tomentosa")
    assert low <= seen <= high


@pytest.mark.parametrize(("plank", "uneven"), [(95.0, 1.0), (70.0, 2.0), (120.0, 0.5)])
def test_the_weight_on_a_hinge_is_the_slope_of_the_work_of_the_edge_force(plank, uneven):
    """Virtual work with exact geometry: two planks that lean on a joint come nearer by 2 (w - sqrt(w² - a²))."""
    step = 1e-4

    def shortened(rise):
        return 2 * (plank - math.sqrt(plank**2 - rise**2))

    slope = (shortened(uneven + step) - shortened(uneven - step)) / (2 * step)
    assert hold_down_n_mm(force_n_mm=0.4, plank_mm=plank, uneven_mm=uneven) == pytest.approx(0.4 * slope, rel=1e-3)


def test_a_push_as_a_weight_on_each_metre():
    """9.80665 N is the weight of 1 kg (conventional gravity)."""
    assert kg_per_m(9.80665) == pytest.approx(1000)
