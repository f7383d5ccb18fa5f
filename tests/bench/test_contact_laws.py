"""Laws that every beam on every set of supports must obey, on benches that hypothesis makes up."""

from dataclasses import replace

import numpy as np
import pytest
from displacement_method import Bench
from drawn_benches import beam_of
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from generator.bench.contact import Bent, lift_effect, solve

LAWS = settings(max_examples=80, deadline=None, derandomize=True)
AT = np.linspace(0, 1, 25)


@st.composite
def benches(draw: st.DrawFn) -> Bench:
    """One to four pieces, up to six loads; two to seven supports at least 5 mm apart, the outer two well outside."""
    length = draw(st.integers(1500, 3200))
    inner = sorted(draw(st.sets(st.integers(40, length - 40), max_size=3)))
    n = len(inner) + 1
    ends = st.lists(st.floats(0, 1), min_size=2 * n, max_size=2 * n).map(lambda v: np.array(v).reshape(n, 2))
    points = draw(st.lists(st.tuples(st.floats(0, length), st.floats(0, 40)), max_size=6))
    outer = {5 * draw(st.integers(0, length // 20)), 5 * draw(st.integers(3 * length // 20, length // 5))}
    x = draw(st.permutations(sorted(outer | {5 * i for i in draw(st.sets(st.integers(0, length // 5), max_size=5))})))
    return Bench(
        np.array([0.0, *inner, length]),
        10 ** (7 + 2 * draw(ends)[:, 0]),
        0.005 + 0.08 * draw(ends),
        2.5e-4 * draw(ends) - 5e-5,
        np.array(points, dtype=float).reshape(-1, 2),
        np.array(x, dtype=float),
        np.array(draw(st.lists(st.floats(-20, 20), min_size=len(x), max_size=len(x)))),
    )


def laid(bench: Bench) -> Bent:
    """The bench at rest; one that tips over is none for these laws."""
    bent = solve(beam_of(bench), x_mm=bench.x, height_mm=bench.height)
    assume(bent.status == "ok")
    return bent


def length_of(bench: Bench) -> float:
    return float(bench.breaks[-1])


@LAWS
@given(benches())
def test_forces_and_moments_balance_and_nothing_pulls(bench):
    bent, beam = laid(bench), beam_of(bench)
    total, length = beam.total_load_n, length_of(bench)
    assert abs(bent.reactions_n.sum() - total) <= 1e-9 * total
    assert abs(bent.reactions_n @ bench.x - beam.load_moment_n_mm) <= 1e-9 * total * length
    assert bent.reactions_n.min() >= 0
    assert bent.gaps_mm.min() >= -1e-7
    assert not np.any(bent.gaps_mm * bent.reactions_n)
    assert np.abs(bent.heights_mm(bench.x) - bench.height - bent.gaps_mm).max() <= 1e-7
    assert np.abs(bent.moment_n_mm([0, length])).max() <= 1e-9 * total * length


@LAWS
@given(benches(), st.floats(0, 1))
def test_the_moment_is_what_statics_says_and_bends_the_piece_it_is_in(bench, share):
    """Everything left of x turned about x; then curvature = free curvature + M/EI."""
    bent, length = laid(bench), length_of(bench)
    x = share * length
    piece = min(int(np.searchsorted(bench.breaks, x, side="right")) - 1, bench.stiffness.size - 1)
    moment = bent.reactions_n @ np.maximum(x - bench.x, 0) - bench.points[:, 1] @ np.maximum(x - bench.points[:, 0], 0)
    for j, (start, end) in enumerate(zip(bench.breaks[:-1], bench.breaks[1:], strict=True)):
        s = np.linspace(start, max(start, min(end, x)), 3)
        load = bench.load[j, 0] + (bench.load[j, 1] - bench.load[j, 0]) * (s - start) / (end - start)
        moment -= (load * (x - s)) @ [1, 4, 1] * (s[2] - s[0]) / 6  # Simpson's rule, exact for a product of lines
    assert abs(float(bent.moment_n_mm(x)) - moment) <= 1e-9 * bent.total_load_n * length
    start, end = bench.breaks[piece : piece + 2]
    free = bench.free[piece, 0] + (bench.free[piece, 1] - bench.free[piece, 0]) * (x - start) / (end - start)
    assert abs(float(bent.curvature_per_mm(x)) - free - moment / bench.stiffness[piece]) <= 1e-10


@LAWS
@given(benches())
def test_a_mirrored_bench_gives_the_mirrored_curve(bench):
    bent, length = laid(bench), length_of(bench)
    mirrored = Bench(
        length - bench.breaks[::-1],
        bench.stiffness[::-1],
        bench.load[::-1, ::-1],
        bench.free[::-1, ::-1],
        bench.points * [-1, 1] + [length, 0],
        length - bench.x,
        bench.height,
    )
    other = laid(mirrored)
    at = AT * length
    assert np.abs(other.heights_mm(length - at) - bent.heights_mm(at)).max() <= 1e-6
    assert np.abs(other.reactions_n - bent.reactions_n).max() <= 1e-6 * bent.total_load_n


@LAWS
@given(benches(), st.floats(-500, 500), st.floats(-0.2, 0.2))
def test_a_rigid_lift_and_tilt_change_no_load_and_no_curvature(bench, lift, tilt):
    bent = laid(bench)
    moved = laid(replace(bench, height=bench.height + lift + tilt * bench.x))
    at = AT * length_of(bench)
    assert np.abs(moved.reactions_n - bent.reactions_n).max() <= 1e-5 * bent.total_load_n
    assert np.abs(moved.curvature_per_mm(at) - bent.curvature_per_mm(at)).max() <= 1e-10
    assert np.abs(moved.heights_mm(at) - bent.heights_mm(at) - lift - tilt * at).max() <= 1e-6


@LAWS
@given(benches(), st.integers(0, 100), st.floats(0.01, 10))
def test_more_shim_never_lowers_its_own_load_nor_the_board_there(bench, which, shim):
    bent, i = laid(bench), which % bench.x.size
    more = laid(replace(bench, height=bench.height + shim * (np.arange(bench.x.size) == i)))
    rise = float(more.heights_mm(bench.x[i]) - bent.heights_mm(bench.x[i]))
    assert more.reactions_n[i] >= bent.reactions_n[i] - 1e-7 * bent.total_load_n
    assert -1e-7 <= rise <= shim + 1e-7


@LAWS
@given(benches(), st.floats(0.1, 10))
def test_a_beam_as_much_stiffer_as_it_is_heavier_lies_the_same(bench, times):
    bent = laid(bench)
    other = laid(
        replace(bench, stiffness=bench.stiffness * times, load=bench.load * times, points=bench.points * [1, times])
    )
    at = AT * length_of(bench)
    assert np.abs(other.heights_mm(at) - bent.heights_mm(at)).max() <= 1e-6
    assert np.abs(other.reactions_n - times * bent.reactions_n).max() <= 1e-6 * other.total_load_n


@LAWS
@given(benches(), st.randoms(use_true_random=False))
def test_neither_the_order_of_supports_nor_a_cut_in_a_piece_matters(bench, random):
    def halved(ends: np.ndarray) -> np.ndarray:
        start, end = ends[0]
        return np.vstack([[start, (start + end) / 2], [(start + end) / 2, end], ends[1:]])

    bent, order = laid(bench), list(range(bench.x.size))
    random.shuffle(order)
    cut = Bench(
        np.insert(bench.breaks, 1, bench.breaks[1] / 2),
        np.insert(bench.stiffness, 0, bench.stiffness[0]),
        halved(bench.load),
        halved(bench.free),
        bench.points,
        bench.x[order],
        bench.height[order],
    )
    other, at = laid(cut), AT * length_of(bench)
    assert np.abs(other.heights_mm(at) - bent.heights_mm(at)).max() <= 1e-6
    assert np.abs(other.reactions_n - bent.reactions_n[order]).max() <= 1e-6 * bent.total_load_n


@LAWS
@given(benches())
def test_a_support_that_bears_nothing_can_be_taken_away(bench):
    bent = laid(bench)
    bears = bent.reactions_n > 0
    other, at = laid(replace(bench, x=bench.x[bears], height=bench.height[bears])), AT * length_of(bench)
    assert np.abs(other.heights_mm(at) - bent.heights_mm(at)).max() <= 1e-6


@LAWS
@given(benches(), st.integers(0, 100))
def test_the_effect_of_a_shim_is_that_of_solving_again(bench, which):
    bent, at = laid(bench), AT * length_of(bench)
    effect = lift_effect(bent, at)
    assert np.abs(effect.sum(axis=1) - 1).max() <= 1e-6
    on = np.flatnonzero(bent.touching)
    i = on[which % on.size]
    again = laid(replace(bench, height=bench.height + 1e-4 * (np.arange(bench.x.size) == i)))
    assume(np.array_equal(again.touching, bent.touching))
    assert np.abs((again.heights_mm(at) - bent.heights_mm(at)) / 1e-4 - effect[:, i]).max() <= 1e-3


@LAWS
@given(benches(), st.floats(-1e-4, 2e-4))
def test_least_curvature_and_inverted_stretches_are_those_of_fine_steps(bench, limit):
    bent, step = laid(bench), 0.25
    x = np.arange(step / 2, length_of(bench), step)
    curvature = bent.curvature_per_mm(x)
    least, place = bent.least_curvature
    assert least <= curvature.min() + 1e-15
    assert least == pytest.approx(curvature[np.abs(x - place) <= step].min(), abs=1e-6)
    stretches = bent.inverted(limit)
    assert all(a < b for a, b in stretches)
    inside = np.array([(x > a) & (x < b) for a, b in stretches]).any(axis=0) if stretches else np.zeros(x.size, bool)
    assert np.sum(inside != (curvature < limit)) <= 2 * max(1, len(stretches))
