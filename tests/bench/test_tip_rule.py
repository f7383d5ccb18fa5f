"""Common practice: the end supports belong right under the tips. Shown by the solver, not asserted.

Moved inboard, a straight frame's tips run on straight where they should keep rising; hang something outside the
support and the bottom bends the wrong way. A frame cut to the rocker keeps its own curve there.
"""

from functools import cache

import numpy as np
import pytest
from laid_benches import BOARDS, job, on_planned_heights, plan_of, points

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import INVERTED_PER_MM, Bent, solve
from generator.bench.release import TOP
from generator.bench.tip_rule import Inboard, moved_inboard
from generator.quantities import GRAVITY_M_S2

INSETS = (0.0, 50.0, 100.0, 200.0)


@cache
def laid(name: str, hung_kg: float = 0.0) -> tuple[Beam, Bent, tuple[Inboard, ...]]:
    """The planned bench, its state, and its end supports moved inboard with something hung 20 mm from each tip."""
    on, plan = job(name), plan_of(name, TOP)
    beam = on.board.value.beam(points(on, plan))
    if hung_kg:
        hung = [PointLoad(x, hung_kg * GRAVITY_M_S2) for x in (20, on.board.length_mm - 20)]
        beam = beam.with_point_loads(hung)
    bent = on_planned_heights(beam, plan)
    return beam, bent, moved_inboard(beam, bent, x_mm=plan.x_mm, height_mm=plan.heights_mm, inset_mm=INSETS)


def test_under_the_tips_nothing_is_lost():
    _, bent, moved = laid("straight")
    assert (moved[0].tail_short_mm, moved[0].nose_short_mm) == (pytest.approx(0, abs=1e-9), pytest.approx(0, abs=1e-9))
    assert moved[0].least_curvature_per_mm == pytest.approx(bent.least_curvature[0], abs=1e-15)


@pytest.mark.parametrize("tip", ["tail_short_mm", "nose_short_mm"])
def test_the_further_inboard_the_shorter_the_tips_fall(tip):
    _, _, moved = laid("straight")
    short = [getattr(m, tip) for m in moved]
    assert short[0] < short[1] < short[2] < short[3]
    assert short[3] > 2 * short[2] > 1


def test_past_its_support_a_straight_frame_runs_on_all_but_straight():
    """The overhang's own bending is small; what is lost is the rise that it should have gone on with."""
    on = BOARDS["straight"]
    beam, _, moved = laid("straight")
    x = [200.0, 835.0, 1465.0, on.length_mm - 200]
    bent = solve(beam, x_mm=x, height_mm=on.wanted_mm(np.array(x)))
    outside = np.linspace(on.length_mm - 150, on.length_mm, 7)
    straight = bent.heights_mm([on.length_mm - 200]) + bent.slopes([on.length_mm - 200]) * (
        outside - on.length_mm + 200
    )
    assert np.abs(bent.heights_mm(outside) - straight).max() < 0.5
    assert moved[3].nose_short_mm > 5


def test_with_a_straight_frame_something_hung_outside_inverts_the_bottom():
    _, _, moved = laid("straight", hung_kg=2.0)
    assert moved[0].inverted == ()
    assert moved[2].least_curvature_per_mm < INVERTED_PER_MM
    lengths = [sum(b - a for a, b in m.inverted) for m in moved]
    assert 0 == lengths[0] < lengths[1] < lengths[2] < lengths[3]
    assert moved[3].inverted[0][0] < 200 < moved[3].inverted[0][1]


def test_a_frame_cut_to_the_rocker_does_not_invert_and_loses_less():
    _, _, cut = laid("at rest")
    _, _, straight = laid("straight")
    assert all(m.inverted == () for m in cut)
    assert cut[3].nose_short_mm < straight[3].nose_short_mm / 2


@pytest.mark.parametrize("inset", [50.0, 100.0, 200.0])
def test_on_two_supports_the_tips_fall_short_by_the_handbook_s_beam(inset):
    """Weightless, P in the middle. The supports go down P·a(3L² − 4a²)/48EI to where the beam was, and the overhangs
    rise from there with the slope P·(L − 2a)²/16EI of the shorter span (AISC case 7: from memory). That is
    P·a²(3L − 4a)/12EI short, and straight outside."""
    one, length, load, ei = np.ones(1), 2000.0, 60.0, 2e8
    free = (0 * one, 0 * one, 0 * one, 0 * one)
    beam = Beam(length, np.array([0.0, length]), ei * one, *free, (PointLoad(1000.0, load),))
    x, height = np.array([0.0, length]), np.zeros(2)
    (moved,) = moved_inboard(beam, solve(beam, x_mm=x, height_mm=height), x_mm=x, height_mm=height, inset_mm=(inset,))
    short = load * inset**2 * (3 * length - 4 * inset) / (12 * ei)
    assert (moved.tail_short_mm, moved.nose_short_mm) == (pytest.approx(short), pytest.approx(short))
    outside = moved.heights_mm[moved.x_mm < inset]
    assert np.diff(outside, n=2) == pytest.approx(np.zeros(max(outside.size - 2, 0)), abs=1e-9)


def test_insets_that_reach_a_middle_support_are_left_out():
    """On a short board a rib may stand 180 mm from the tip: 200 mm in, there would be no end support any more."""
    one = np.ones(1)
    beam = Beam(1200.0, np.array([0.0, 1200.0]), 1e8 * one, 0.02 * one, 0.02 * one, 3e-5 * one, 3e-5 * one)
    x, height = np.array([0.0, 180.0, 1000.0, 1200.0]), np.array([5.0, 2.0, 2.0, 5.0])
    moved = moved_inboard(
        beam, solve(beam, x_mm=x, height_mm=height), x_mm=x, height_mm=height, inset_mm=(50.0, 100.0, 180.0, 200.0)
    )
    assert [one.inset_mm for one in moved] == [50, 100]
