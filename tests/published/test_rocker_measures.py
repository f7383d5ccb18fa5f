"""What a rocker is measured by, against curves whose heights, slopes and flat parts are known in closed form.

Sources: the parabola y = c x² has the slope 2 c x and is lower than w for |x| < √(w/c); the power curve y = t u^p on
0 ≤ u ≤ 1 is lower than w for u < (w/t)^(1/p) and has the slope p t at u = 1; an angle is the arc tangent of its slope
(any calculus text, from memory). A fall of 1 in 5 is 11.3° (table of slopes, from memory). Scaling a curve's length
and heights alike keeps its angles (similar triangles, Euclid VI). Tolerances: rounding where our curve holds the
shape exactly, else what the stated fit leaves.
"""

import math

import numpy as np
import pytest

from generator.board.advice import traits_of
from generator.board.curve import FairCurve, fair_curve
from generator.board.rocker import RockerHeight, Shift, flat_part, tip_angles_deg, tuned_rocker

LENGTH_MM = 2400.0


def parabola(c: float, low: float, length_mm: float = LENGTH_MM) -> FairCurve:
    return FairCurve([0.0, length_mm], [2 * c] * 2, c * low**2, -2 * c * low)


@pytest.mark.parametrize("within_mm", [2.0, 5.0, 8.0])
def test_the_flat_share_of_a_parabola(within_mm):
    c, low = 6e-5, 1000.0
    flat = flat_part(parabola(c, low), length_mm=LENGTH_MM, within_mm=within_mm)
    half = math.sqrt(within_mm / c)
    assert (flat.from_mm, flat.to_mm) == pytest.approx((low - half, low + half), abs=1e-6)
    assert flat.share == pytest.approx(2 * half / LENGTH_MM, rel=1e-9)


def test_twice_the_curvature_has_a_flat_part_shorter_by_the_root_of_two():
    gentle, sharp = (flat_part(parabola(c, 1100.0), length_mm=LENGTH_MM).share for c in (5e-5, 1e-4))
    assert gentle / sharp == pytest.approx(math.sqrt(2), rel=1e-9)


def test_the_angles_of_a_parabola_at_its_ends():
    c, low = 7e-5, 950.0
    tail, nose = tip_angles_deg(parabola(c, low), length_mm=LENGTH_MM)
    assert tail == pytest.approx(math.degrees(math.atan(2 * c * low)), rel=1e-12)
    assert nose == pytest.approx(math.degrees(math.atan(2 * c * (LENGTH_MM - low))), rel=1e-12)


def test_a_rise_of_one_in_five_is_eleven_point_three_degrees():
    tail, nose = tip_angles_deg(FairCurve([0.0, 100.0], [0.0, 0.0], 0.0, 0.2), length_mm=100.0)
    assert (round(nose, 1), round(tail, 1)) == (11.3, -11.3)


def test_a_parabola_made_later_is_the_power_curve_of_its_side():
    """y = c d² with d = d₀ u becomes t u^(2+late), whose flat part and slope at the tip are known."""
    c, low = 7e-5, 1200.0
    x = np.linspace(0, LENGTH_MM, 25)
    board = [RockerHeight(float(at), c * (float(at) - low) ** 2) for at in x]
    shift = Shift.lowering(0, 0, 15)
    tuned = tuned_rocker(board, shift, length_mm=LENGTH_MM)
    power, tip = 2 + shift.late, c * low**2
    exact = tip * np.abs((x - low) / low) ** power
    assert [h.height_mm for h in tuned] == pytest.approx(exact, abs=0.25)  # the kit's curve is fitted within 1 mm
    fit = fair_curve(x, exact, length_mm=LENGTH_MM, tolerance_mm=0.02)
    traits = traits_of(fit.curve, length_mm=LENGTH_MM)
    half = (5.0 / tip) ** (1 / power)
    assert traits.flat.share == pytest.approx(half, rel=0.01)  # a share of half the board on both sides
    assert traits.nose_angle_deg == pytest.approx(math.degrees(math.atan(power * tip / low)), abs=0.15)


def test_a_longer_board_needs_more_rise_for_the_same_angle():
    """y = c d² over k times the length: the angles stay if c is divided by k, and then the rise is k times as much."""
    c, low, k = 6e-5, 1000.0, 1.25
    short, long = traits_of(parabola(c, low), length_mm=LENGTH_MM), parabola(c / k, low * k, LENGTH_MM * k)
    longer = traits_of(long, length_mm=LENGTH_MM * k)
    assert (longer.tail_angle_deg, longer.nose_angle_deg) == pytest.approx((short.tail_angle_deg, short.nose_angle_deg))
    assert longer.rises.nose_mm == pytest.approx(k * short.rises.nose_mm)
    assert Shift(4, 8, 0.1).for_length(k) == Shift(4 * k, 8 * k, 0.1)
