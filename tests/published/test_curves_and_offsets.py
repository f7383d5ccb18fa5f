"""Curves and offset lines against shapes whose curvature, length and area are known in closed form.

Sources: curvature and arc length of the parabola and the circle, any calculus text (from memory); area round a convex
shape at a distance, Steiner's formula A + P m + π m² (from memory). Tolerances: rounding where our curve holds the
shape exactly (a parabola has constant second derivative); else what the stated fit tolerance or the chords leave.
"""

import math

import numpy as np
import pytest

from generator.board.curve import FairCurve, fair_curve
from generator.board.outline import area_mm2, perimeter_mm
from generator.board.trace import cut_line, offset_outline

LENGTH_MM = 2400.0
RADIUS_MM = 9000.0


def parabola_length(c: float, x: float) -> float:
    """Arc length of y = c x² from 0 to x: x √(1 + 4c²x²)/2 + asinh(2cx)/(4c)."""
    return x * math.sqrt(1 + 4 * c * c * x * x) / 2 + math.asinh(2 * c * x) / (4 * c)


def circle_heights(x):
    """Lower arc of a circle whose lowest point is at 1000 mm."""
    return RADIUS_MM - np.sqrt(RADIUS_MM**2 - (np.asarray(x) - 1000.0) ** 2)


def test_a_parabola_has_its_curvature_length_and_low_point():
    c, low = 6e-5, 900.0
    curve = FairCurve([0.0, 700.0, LENGTH_MM], [2 * c] * 3, c * low**2, -2 * c * low)
    x = np.linspace(0, LENGTH_MM, 33)
    assert curve.height_mm(x) == pytest.approx(c * (x - low) ** 2, abs=1e-9)
    assert curve.slope(x) == pytest.approx(2 * c * (x - low), abs=1e-12)
    assert curve.low_point_mm() == pytest.approx(low, rel=1e-12)
    whole = parabola_length(c, low) + parabola_length(c, LENGTH_MM - low)
    assert curve.developed_length_mm(0, LENGTH_MM) == pytest.approx(whole, rel=1e-12)
    part = parabola_length(c, 1300.0 - low) - parabola_length(c, 1000.0 - low)
    assert curve.developed_length_mm(1000, 1300) == pytest.approx(part, rel=1e-12)


def test_a_fit_finds_a_parabola_again():
    c = 5e-5
    x = np.array([0.0, 300.0, 900.0, 1500.0, 2100.0, LENGTH_MM])
    fit = fair_curve(x, c * (x - 1100.0) ** 2, length_mm=LENGTH_MM, tolerance_mm=1e-3)
    every = np.linspace(0, LENGTH_MM, 97)
    assert fit.worst_mm <= 1e-3
    assert fit.curve.height_mm(every) == pytest.approx(c * (every - 1100.0) ** 2, abs=0.01)
    assert fit.curve.curvature_per_mm(every) == pytest.approx(np.full(97, 2 * c), rel=1e-3)


def test_a_fit_follows_a_circle():
    x = np.linspace(0, LENGTH_MM, 13)
    fit = fair_curve(x, circle_heights(x), length_mm=LENGTH_MM, tolerance_mm=0.02)
    inner = np.linspace(100, LENGTH_MM - 100, 47)
    across = inner - 1000.0
    second = RADIUS_MM**2 / (RADIUS_MM**2 - across**2) ** 1.5  # y'' of a circle; 1/R where it is level
    assert fit.curve.height_mm(inner) == pytest.approx(circle_heights(inner), abs=0.04)
    assert fit.curve.curvature_per_mm(inner) == pytest.approx(second, rel=0.02)
    assert fit.curve.low_point_mm() == pytest.approx(1000.0, abs=2.0)
    turned = math.asin(1400.0 / RADIUS_MM) + math.asin(1000.0 / RADIUS_MM)
    assert fit.curve.developed_length_mm(0, LENGTH_MM) == pytest.approx(RADIUS_MM * turned, abs=0.05)


def circle(radius_mm: float, pieces: int):
    angle = np.linspace(0, 2 * np.pi, pieces + 1)
    return np.column_stack((radius_mm * (1 + np.cos(angle)), radius_mm * np.sin(angle)))


def rectangle(length_mm: float, width_mm: float):
    w = width_mm / 2
    return np.array([[0, w], [length_mm, w], [length_mm, -w], [0, -w], [0, w]], dtype=float)


@pytest.mark.parametrize("margin_mm", [5.0, 12.0, 40.0])
def test_the_offset_of_a_circle_is_a_larger_circle(margin_mm):
    line = offset_outline(circle(280, 720), sides_mm=margin_mm, tips_mm=margin_mm)
    # 720 chords lose 1.3e-5 of a circle's area and 3e-6 of its length
    assert area_mm2(line) == pytest.approx(math.pi * (280 + margin_mm) ** 2, rel=5e-5)
    assert perimeter_mm(line) == pytest.approx(2 * math.pi * (280 + margin_mm), rel=5e-5)


@pytest.mark.parametrize("margin_mm", [5.0, 12.0, 40.0])
def test_the_offset_of_a_rectangle_adds_sides_and_round_corners(margin_mm):
    line = offset_outline(rectangle(1800, 500), sides_mm=margin_mm, tips_mm=margin_mm)
    corners = math.pi * margin_mm**2
    assert area_mm2(line) == pytest.approx(1800 * 500 + 2 * (1800 + 500) * margin_mm + corners, abs=0.002 * corners)
    assert perimeter_mm(line) == pytest.approx(2 * (1800 + 500) + 2 * math.pi * margin_mm, rel=1e-4)


def test_a_larger_margin_at_the_tips_makes_a_rectangle_longer_and_no_wider():
    line = offset_outline(rectangle(1800, 500), sides_mm=12, tips_mm=30)
    drawn_out = area_mm2(line) - area_mm2(offset_outline(rectangle(1800, 500), sides_mm=12, tips_mm=12))
    assert np.ptp(line[:, 0]) == pytest.approx(1800 + 2 * 30)
    assert np.ptp(line[:, 1]) == pytest.approx(500 + 2 * 12)
    assert drawn_out == pytest.approx(2 * (30 - 12) * (500 + 2 * 12), rel=1e-9)


def test_the_cut_runs_outside_the_traced_line():
    trace = offset_outline(circle(280, 720), sides_mm=12, tips_mm=12)
    assert area_mm2(cut_line(trace, clear_mm=1.0)) == pytest.approx(math.pi * 293**2, rel=5e-5)
