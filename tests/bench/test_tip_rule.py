"""Common practice: the end supports belong right under the tips. Shown by the solver, not asserted.

Moved inboard, a straight frame's tips run on straight where they should keep rising; hang something outside the
support and the bottom bends the wrong way. A frame cut to the rocker keeps its own curve there.
"""

import numpy as np
import pytest
from bench_boards import CLAMPS, WEIGHTS, board

from generator.bench.assembly import OnBench, clamp_loads, place_clamps
from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import INVERTED_PER_MM, Bent, solve
from generator.bench.heights import plan_heights
from generator.bench.tip_rule import Inboard, moved_inboard
from generator.quantities import GRAVITY_M_S2

INSETS = (0.0, 50.0, 100.0, 200.0)


def laid(on: OnBench, hung_kg: float = 0.0) -> tuple[Beam, Bent, tuple[Inboard, ...]]:
    """The planned bench, its state, and its end supports moved inboard with something hung 20 mm from each tip."""
    station = np.linspace(0, on.length_mm, 61)
    beam = on.value.beam(clamp_loads(place_clamps(on, CLAMPS)))
    plan = plan_heights(beam, place_mm=on.rib_mm, station_mm=station, wanted_mm=on.wanted_mm(station), loose=WEIGHTS)
    beam = beam.with_point_loads([PointLoad(p.x_mm, p.count * p.mass_kg * GRAVITY_M_S2) for p in plan.placed])
    if hung_kg:
        beam = beam.with_point_loads([PointLoad(x, hung_kg * GRAVITY_M_S2) for x in (20, on.length_mm - 20)])
    bent = solve(beam, x_mm=plan.x_mm, height_mm=plan.heights_mm)
    return beam, bent, moved_inboard(beam, bent, x_mm=plan.x_mm, height_mm=plan.heights_mm, inset_mm=INSETS)


def test_under_the_tips_nothing_is_lost():
    _, bent, moved = laid(board())
    assert (moved[0].tail_short_mm, moved[0].nose_short_mm) == (pytest.approx(0, abs=1e-9), pytest.approx(0, abs=1e-9))
    assert moved[0].least_curvature_per_mm == pytest.approx(bent.least_curvature[0], abs=1e-15)


@pytest.mark.parametrize("tip", ["tail_short_mm", "nose_short_mm"])
def test_the_further_inboard_the_shorter_the_tips_fall(tip):
    _, _, moved = laid(board())
    short = [getattr(m, tip) for m in moved]
    assert short[0] < short[1] < short[2] < short[3]
    assert short[3] > 2 * short[2] > 1


def test_past_its_support_a_straight_frame_runs_on_all_but_straight():
    """The overhang's own bending is small; what is lost is the rise that it should have gone on with."""
    on = board()
    beam, _, moved = laid(on)
    x = [200.0, 835.0, 1465.0, on.length_mm - 200]
    bent = solve(beam, x_mm=x, height_mm=on.wanted_mm(np.array(x)))
    outside = np.linspace(on.length_mm - 150, on.length_mm, 7)
    straight = bent.heights_mm([on.length_mm - 200]) + bent.slopes([on.length_mm - 200]) * (
        outside - on.length_mm + 200
    )
    assert np.abs(bent.heights_mm(outside) - straight).max() < 0.5
    assert moved[3].nose_short_mm > 5


def test_with_a_straight_frame_something_hung_outside_inverts_the_bottom():
    _, _, moved = laid(board(), hung_kg=2.0)
    assert moved[0].inverted == ()
    assert moved[2].least_curvature_per_mm < INVERTED_PER_MM
    lengths = [sum(b - a for a, b in m.inverted) for m in moved]
    assert 0 == lengths[0] < lengths[1] < lengths[2] < lengths[3]
    assert moved[3].inverted[0][0] < 200 < moved[3].inverted[0][1]


def test_a_frame_cut_to_the_rocker_does_not_invert_and_loses_less():
    _, _, cut = laid(board(cut_to_rocker=1.0))
    _, _, straight = laid(board())
    assert all(m.inverted == () for m in cut)
    assert cut[3].nose_short_mm < straight[3].nose_short_mm / 2
