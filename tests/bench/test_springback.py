"""What a glued board loses when it is lifted off."""

import numpy as np
import pytest

from generator.bench.springback import lost_rocker, spring_back


@pytest.mark.parametrize("layers", [2, 3, 4, 6])
def test_laminates_keep_their_curve(layers):
    """n equal layers bent over a form keep 1 − 1/n² of it: n·e unglued, n³·e glued (first principles, from memory)."""
    x = np.linspace(0, 2000, 41)
    k, e = 2e-4, 1e7
    loss = spring_back(
        x_mm=x,
        curvature_per_mm=np.full(41, k),
        moment_n_mm=np.full(41, layers * e * k),
        glued_n_mm2=np.full(41, layers**3 * e),
        low_point_mm=1000,
    )
    assert loss.kept_share == pytest.approx(1 - 1 / layers**2)
    # a constant curvature k/n² over 1000 mm either side of the low point rises k/n² · 1000²/2
    assert loss.tail_mm == pytest.approx(k / layers**2 * 1000**2 / 2)
    assert loss.nose_mm == pytest.approx(loss.tail_mm)


def test_two_unequal_layers_keep_what_their_glued_section_says():
    """Layers 6 and 3 thick, width 1, E 1: unglued 216/12 + 27/12; glued 9³/12. Loss (18 + 2.25)/60.75 = 1/3."""
    x = np.linspace(0, 900, 10)
    loss = spring_back(
        x_mm=x,
        curvature_per_mm=np.full(10, 3e-4),
        moment_n_mm=np.full(10, 20.25 * 3e-4),
        glued_n_mm2=np.full(10, 60.75),
        low_point_mm=0,
    )
    assert loss.kept_share == pytest.approx(2 / 3)
    assert loss.nose_mm == pytest.approx(1e-4 * 900**2 / 2)


def test_the_loss_counts_from_the_tangent_at_the_low_point():
    x = np.linspace(0, 1000, 101)
    loss = spring_back(
        x_mm=x, curvature_per_mm=1e-4 * x / 1000, moment_n_mm=x, glued_n_mm2=np.full(101, 1e7), low_point_mm=333.0
    )
    at = lambda s: s**3 / 6e7  # noqa: E731
    tangent = lambda s: at(333) + 333**2 / 2e7 * (s - 333)  # noqa: E731
    assert loss.tail_mm == pytest.approx(at(0) - tangent(0))
    assert loss.nose_mm == pytest.approx(at(1000) - tangent(1000))


def test_a_section_without_stiffness_is_refused():
    with pytest.raises(ValueError, match="above 0"):
        spring_back(x_mm=[0, 1], curvature_per_mm=[0, 0], moment_n_mm=[0, 0], glued_n_mm2=[1, 0], low_point_mm=0)


def test_a_board_that_was_bent_back_wins_rocker_when_it_is_let_go():
    """Pressed 1e-5 flatter than it is: it comes up by that again, 1e-5 · 1000²/2 = 5 mm either side."""
    x = np.linspace(0, 2000, 41)
    loss = lost_rocker(x_mm=x, curvature_per_mm=np.full(41, 3e-5), lost_per_mm=np.full(41, -1e-5), low_point_mm=1000)
    assert (loss.tail_mm, loss.nose_mm) == (pytest.approx(-5), pytest.approx(-5))
    assert loss.kept_share == pytest.approx(4 / 3)


@pytest.mark.parametrize("low_point_mm", [0.0, 640.0, 2000.0])
def test_at_the_low_point_nothing_is_lost_and_beside_it_hardly_anything(low_point_mm):
    x = np.linspace(0, 2000, 101)
    loss = lost_rocker(x_mm=x, curvature_per_mm=3e-5 + 0 * x, lost_per_mm=1e-5 + 1e-8 * x, low_point_mm=low_point_mm)
    assert float(loss.loss_at(low_point_mm)) == pytest.approx(0, abs=1e-9)
    near = np.clip(low_point_mm + np.array([-20.0, 20.0]), 0, 2000)
    assert np.all(loss.loss_at(near) <= 3e-5 * 20**2 / 2)
    assert loss.loss_at(x) == pytest.approx(loss.loss_mm)


def test_loss_is_read_straight_between_stations():
    x = np.linspace(0, 2000, 21)
    loss = lost_rocker(x_mm=x, curvature_per_mm=3e-5 + 0 * x, lost_per_mm=1e-5 + 0 * x, low_point_mm=1000)
    assert float(loss.loss_at(150)) == pytest.approx((loss.loss_mm[1] + loss.loss_mm[2]) / 2)


def test_of_a_board_that_was_never_bent_all_is_kept():
    x = np.linspace(0, 2000, 21)
    loss = lost_rocker(x_mm=x, curvature_per_mm=0 * x, lost_per_mm=0 * x, low_point_mm=1000)
    assert (loss.kept_share, loss.tail_mm, loss.nose_mm) == (1.0, 0.0, 0.0)
