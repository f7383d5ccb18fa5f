"""Fair curves: never hollow, as near as asked, the same from either end."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline
from scipy.optimize import lsq_linear

from generator.board import curve as module
from generator.board.curve import FairCurve, fair_curve

LENGTH = 2300.0
X = [0, 300, 600, 1000, 1500, 2000, 2300]
ROCKER = [58, 23, 7, 0, 10, 54, 118]
FEW = settings(max_examples=30, deadline=None)
bends = st.lists(st.floats(0, 5e-4), min_size=2, max_size=12)
heights = st.lists(st.floats(0, 300), min_size=4, max_size=14)


def places(count):
    return np.linspace(0, LENGTH, count)


@FEW
@given(heights)
def test_no_heights_whatever_make_a_hollow(z):
    fit = fair_curve(places(len(z)), z, length_mm=LENGTH)
    assert np.min(fit.curve.curvature_per_mm(np.linspace(0, LENGTH, 400))) >= -1e-18  # between nodes, rounding
    assert np.min(fit.curve.node_curvature_per_mm) >= 0


@FEW
@given(bends, st.integers(5, 13), st.randoms(use_true_random=False))
def test_a_convex_rocker_with_pencil_errors_is_met_within_a_millimetre(bend, count, noise):
    # ± 0.4 mm: the straight-lined curvature of the fit leaves part of the millimetre
    true = FairCurve(places(len(bend)), bend, 0.0, -0.05)
    z = true.height_mm(places(count)) + [noise.uniform(-0.4, 0.4) for _ in range(count)]
    assert fair_curve(places(count), z, length_mm=LENGTH).worst_mm <= 1.0 + 1e-9


@FEW
@given(heights)
def test_mirrored_heights_give_the_mirrored_curve(z):
    one = fair_curve(places(len(z)), z, length_mm=LENGTH)
    other = fair_curve(places(len(z)), z[::-1], length_mm=LENGTH)
    x = np.linspace(0, LENGTH, 50)
    assert other.curve.height_mm(LENGTH - x) == pytest.approx(one.curve.height_mm(x), abs=0.02)


@FEW
@given(bends, st.floats(-0.2, 0.2))
def test_height_slope_and_curvature_are_derivatives_of_each_other(bend, slope):
    curve = FairCurve(places(len(bend)), bend, 10.0, slope)
    x, h = np.linspace(5, LENGTH - 5, 60), 0.5
    assert (curve.height_mm(x + h) - curve.height_mm(x - h)) / (2 * h) == pytest.approx(curve.slope(x), abs=1e-6)
    assert (curve.slope(x + h) - curve.slope(x - h)) / (2 * h) == pytest.approx(curve.curvature_per_mm(x), abs=1e-6)


@FEW
@given(bends, st.floats(-0.3, 0.1))
def test_nothing_lies_below_the_low_point(bend, slope):
    curve = FairCurve(places(len(bend)), bend, 0.0, slope)
    low = float(curve.height_mm(curve.low_point_mm()))
    assert low <= np.min(curve.height_mm(np.linspace(0, LENGTH, 700))) + 1e-9
    lifted = curve.from_low_point()
    assert float(lifted.height_mm(lifted.low_point_mm())) == pytest.approx(0, abs=1e-9)


def test_the_middle_of_a_flat_stretch_is_its_low_point():
    curve = FairCurve([0, 500, 1500, 2000], [2e-4, 0, 0, 2e-4], 0.0, -0.05)
    assert curve.low_point_mm() == pytest.approx(1000)
    assert FairCurve.straight(2000).low_point_mm() == pytest.approx(1000)


def test_past_its_ends_a_curve_runs_on_straight():
    curve = fair_curve(X, ROCKER, length_mm=LENGTH).curve
    past = curve.height_mm([LENGTH, LENGTH + 100, LENGTH + 200])
    assert past[2] - past[1] == pytest.approx(past[1] - past[0])
    assert curve.curvature_per_mm([-1, LENGTH + 1]) == pytest.approx([0, 0])


def test_a_hollow_in_the_heights_is_reported_where_it_is():
    z = list(ROCKER)
    z[4] += 25
    fit = fair_curve(X, z, length_mm=LENGTH)
    assert fit.worst_at == 4
    assert fit.misses_mm[4] < -5


def test_an_interpolating_spline_shows_a_false_hollow_where_the_fair_curve_shows_none():
    # the reason for bounded least squares: a convex curve read to a millimetre
    x = np.linspace(0, LENGTH, 11)
    errors = [0.4, 0.9, 0.2, -0.9, -0.7, 0.9, -0.4, 0.8, -0.3, 0.6, -0.8]
    z = 105 * np.abs((x - 1000) / 1300) ** 2.4 + errors
    assert np.min(CubicSpline(x, z, bc_type="natural")(np.linspace(0, LENGTH, 400), 2)) < -5e-6
    fit = fair_curve(x, z, length_mm=LENGTH)
    assert fit.worst_mm <= 1.0
    assert np.min(fit.curve.node_curvature_per_mm) >= 0


def test_the_smoothing_is_as_strong_as_the_millimetre_allows():
    rough, smooth = (fair_curve(X, ROCKER, length_mm=LENGTH, tolerance_mm=t) for t in (0.2, 1.0))
    assert rough.worst_mm <= 0.2
    assert 0.9 < smooth.worst_mm <= 1.0 + 1e-9
    uneven = [np.sum(np.diff(fit.curve.node_curvature_per_mm, 3) ** 2) for fit in (rough, smooth)]
    assert uneven[1] < uneven[0]


def test_another_solver_finds_the_same_least_squares():
    x, z = np.array(X) / LENGTH, np.array(ROCKER, dtype=float)
    basis = np.column_stack((np.ones_like(x), x, module._double_integrals(x)))
    smooth = 1e-2 * np.hstack((np.zeros((58, 2)), module._roughness(31)))
    rows, aims = np.vstack((basis, smooth)), np.concatenate((z, np.zeros(58)))
    low = np.concatenate(([-np.inf] * 2, np.zeros(31)))
    solved = lsq_linear(rows, aims, bounds=(low, np.inf), method="bvls", max_iter=500)
    free = np.linalg.qr(basis[:, :2])[0]
    part, rest = basis[:, 2:] - free @ (free.T @ basis[:, 2:]), z - free @ (free.T @ z)
    ours = module.nnls(np.vstack((part, smooth[:, 2:])), np.concatenate((rest, np.zeros(58))))[0]
    assert ours == pytest.approx(solved.x[2:], abs=1e-3 * np.max(ours))


@pytest.mark.parametrize("x", [[0, 1], [0, 100, 2400], [-1, 5, 9], [0, np.nan, 9]])
def test_places_off_the_board_or_too_few_are_refused(x):
    with pytest.raises(ValueError, match="places"):
        fair_curve(x, [1.0] * len(x), length_mm=LENGTH)


@pytest.mark.parametrize("bend", [[0.0, -1e-9], [0.0, np.nan], [0.0]])
def test_a_curve_that_would_be_hollow_cannot_be_made(bend):
    with pytest.raises(ValueError, match=r"curvature|increase"):
        FairCurve([0.0, 100.0], bend, 0.0, 0.0)
