"""The contact solver against an independent one, and its laws."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline
from scipy.optimize import nnls

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import INVERTED_PER_MM, Bent, lift_effect, solve


def random_beam(rng: np.random.Generator) -> Beam:
    length = rng.uniform(1500, 3200)
    inner = np.sort(rng.uniform(0.03, 0.97, rng.integers(0, 5))) * length
    breaks = np.concatenate([[0.0], inner, [length]])
    n = breaks.size - 1
    loads = tuple(PointLoad(rng.uniform(0, length), rng.uniform(0, 40)) for _ in range(rng.integers(0, 13)))
    return Beam(
        length,
        breaks,
        10 ** rng.uniform(7, 9, n),
        rng.uniform(0.005, 0.08, n),
        rng.uniform(0.005, 0.08, n),
        rng.uniform(-5e-5, 2e-4, n),
        rng.uniform(-5e-5, 2e-4, n),
        loads,
    )


def random_supports(rng: np.random.Generator, beam: Beam) -> tuple[np.ndarray, np.ndarray]:
    n = int(rng.integers(2, 9))
    x = rng.uniform(0, beam.length_mm, n)
    if rng.random() < 0.4:
        x[:2] = 0, beam.length_mm
    if rng.random() < 0.4:
        x[-1] = min(x[0] + rng.uniform(1, 10), beam.length_mm)
    if rng.random() < 0.2:
        x[-1] = x[0]
    return x, 60 * (x / beam.length_mm - 0.4) ** 2 + rng.uniform(-20, 20) * rng.random(n)


def unit_moments(beam: Beam, x: np.ndarray) -> tuple[np.ndarray, ...]:
    """Places, weights, stiffness, free curvature, moment of loads and (n, places) of unit pushes, for integrating.

    Four Gauss points between all breaks: exact to the seventh power. Moments are taken with |x − x_i|/2 (loads and
    pushes balance, so the straight part is nothing), nothing is taken from the solver's columns.
    """
    nodes = np.unique(np.concatenate([beam.breaks_mm, x, [p.x_mm for p in beam.point_loads]]))
    gauss, share = np.polynomial.legendre.leggauss(4)
    size = np.diff(nodes)[:, None]
    at = (nodes[:-1, None] + size * (gauss + 1) / 2).ravel()
    piece = np.searchsorted(beam.breaks_mm, at, side="right") - 1
    along = (at - beam.breaks_mm[piece]) / np.diff(beam.breaks_mm)[piece]
    free = beam.free_curvature_start_per_mm[piece] * (1 - along) + beam.free_curvature_end_per_mm[piece] * along
    loads = -sum((p.load_n * np.abs(at - p.x_mm) / 2 for p in beam.point_loads), np.zeros_like(at))
    for j, (a, b) in enumerate(zip(beam.breaks_mm[:-1], beam.breaks_mm[1:], strict=True)):
        w0, dw = beam.load_start_n_mm[j], (beam.load_end_n_mm[j] - beam.load_start_n_mm[j]) / (b - a)
        cut = np.clip(at, a, b)
        for low, high, side in ((np.full_like(cut, a), cut, 1), (cut, np.full_like(cut, b), -1)):
            # ∫ (w0 + dw (t − a)) side (x − t)/2 dt from low to high, by its antiderivative in u = t − a
            def whole(u: np.ndarray, w0: float = w0, dw: float = dw, a: float = a) -> np.ndarray:
                return w0 * (at - a) * u + (dw * (at - a) - w0) * u**2 / 2 - dw * u**3 / 3

            loads -= side * (whole(high - a) - whole(low - a)) / 2
    return (at, (size * share / 2).ravel(), beam.stiffness_n_mm2[piece], free, loads, np.abs(at - x[:, None]) / 2)


def loads_by_least_squares(beam: Beam, x: np.ndarray, height: np.ndarray) -> np.ndarray:
    """Loads on the supports by non-negative least squares: least ∫M²/2EI + ∫M·k0 − ΣR·h, equilibrium as heavy rows."""
    _, weight, stiff, free, loads, push = unit_moments(beam, x)
    typical = np.sqrt(np.median(stiff))
    rows = (push * np.sqrt(weight / stiff)).T * typical
    aim = -(loads / stiff + free) * np.sqrt(weight * stiff) * typical
    aim += np.linalg.lstsq(rows.T, height * typical**2, rcond=None)[0]
    heavy = 1e3 * np.abs(rows).max() * np.stack([np.ones_like(x), x / beam.length_mm])
    ends = 1e3 * np.abs(rows).max() * np.array([1.0, beam.load_moment_n_mm / beam.total_load_n / beam.length_mm])
    out, _ = nnls(np.concatenate([rows, heavy]), np.concatenate([aim, ends * beam.total_load_n]), maxiter=1000)
    return np.asarray(out)


def assert_at_rest(beam: Beam, bent: Bent, x: np.ndarray, height: np.ndarray) -> None:
    """Loads balance, nothing pulls, nothing is penetrated, gap × load is zero, and the curve follows its moments."""
    total, length = beam.total_load_n, beam.length_mm
    assert bent.reactions_n.sum() == pytest.approx(total, rel=1e-9)
    assert bent.reactions_n @ x == pytest.approx(beam.load_moment_n_mm, abs=1e-9 * total * length)
    assert bent.reactions_n.min() >= 0
    assert bent.gaps_mm.min() >= -1e-6
    assert np.abs(bent.gaps_mm * bent.reactions_n).max() <= 1e-9
    assert bent.heights_mm(x) - height == pytest.approx(bent.gaps_mm, abs=1e-6)


def test_thousands_of_random_benches_come_to_rest_as_least_squares_says():
    rng = np.random.default_rng(20240607)
    tipped = compared = 0
    for _ in range(3000):
        beam = random_beam(rng)
        x, height = random_supports(rng, beam)
        bent = solve(beam, x_mm=x, height_mm=height)
        if bent.status != "ok":
            tipped += 1
            assert not x.min() < bent.resultant_x_mm < x.max()
            continue
        assert_at_rest(beam, bent, x, height)
        if np.diff(np.sort(x)).min() > 20:
            compared += 1
            loads = loads_by_least_squares(beam, x, height)
            assert bent.reactions_n == pytest.approx(loads, abs=1e-4 * beam.total_load_n)
    assert compared > 1000
    assert 0 < tipped < 1000


def even_beam(
    length: float = 2400.0, stiffness: float = 2e8, load: float = 0.03, free: float = 0.0, *loads: PointLoad
) -> Beam:
    one = np.ones(1)
    return Beam(length, np.array([0.0, length]), stiffness * one, load * one, load * one, free * one, free * one, loads)


def test_heavy_loads_over_the_supports_leave_the_natural_spline():
    """No load between, constant stiffness, all supports bearing: the strip is scipy's natural cubic spline.

    Loads right above the supports bend nothing; they only make sure that all supports bear.
    """
    x, height = np.array([0.0, 500.0, 1100.0, 1900.0, 2400.0]), np.array([60.0, 11.0, 2.0, 47.0, 121.0])
    beam = even_beam(2400, 2e8, 0.0, 0.0, *(PointLoad(float(place), 1e4) for place in x))
    bent = solve(beam, x_mm=x, height_mm=height)
    spline = CubicSpline(x, height, bc_type="natural")
    at = np.linspace(0, 2400, 97)
    assert bent.touching.all()
    assert bent.heights_mm(at) == pytest.approx(spline(at), abs=1e-9)
    assert bent.curvature_per_mm(at) == pytest.approx(spline(at, 2), abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_a_mirrored_bench_gives_the_mirrored_curve(seed):
    rng = np.random.default_rng(seed)
    beam = random_beam(rng)
    x, height = random_supports(rng, beam)
    length = beam.length_mm
    mirrored = Beam(
        length,
        length - beam.breaks_mm[::-1],
        beam.stiffness_n_mm2[::-1],
        beam.load_end_n_mm[::-1],
        beam.load_start_n_mm[::-1],
        beam.free_curvature_end_per_mm[::-1],
        beam.free_curvature_start_per_mm[::-1],
        tuple(PointLoad(length - p.x_mm, p.load_n) for p in beam.point_loads),
    )
    one, other = solve(beam, x_mm=x, height_mm=height), solve(mirrored, x_mm=length - x, height_mm=height)
    assert one.status == other.status
    if one.status == "ok":
        at = np.linspace(0, length, 25)
        assert other.heights_mm(length - at) == pytest.approx(one.heights_mm(at), abs=1e-5)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.floats(-50, 50), st.floats(0.05, 5))
def test_a_rigid_lift_changes_nothing_and_more_shim_never_lowers_its_own_support(seed, lift, shim):
    rng = np.random.default_rng(seed)
    beam = random_beam(rng)
    x, height = random_supports(rng, beam)
    bent = solve(beam, x_mm=x, height_mm=height)
    if bent.status != "ok":
        return
    turned = height + lift + 0.01 * x
    moved = solve(beam, x_mm=x, height_mm=turned)
    at = np.linspace(0, beam.length_mm, 25)
    assert moved.heights_mm(at) == pytest.approx(bent.heights_mm(at) + lift + 0.01 * at, abs=1e-5)
    i = int(rng.integers(x.size))
    raised = height.copy()
    raised[i] += shim
    more = solve(beam, x_mm=x, height_mm=raised)
    assert more.heights_mm(x)[i] >= bent.heights_mm(x)[i] - 1e-6
    assert more.reactions_n[i] >= bent.reactions_n[i] - 1e-6 * beam.total_load_n or np.sum(np.isclose(x, x[i])) > 1


def test_a_board_whose_loads_lie_outside_its_supports_tips_over():
    bent = solve(even_beam(2000, 1e8, 0.02, 0.0, PointLoad(50, 140)), x_mm=[400, 1900], height_mm=[0, 10])
    assert bent.status == "tips over"
    assert bent.resultant_x_mm == pytest.approx((40 * 1000 + 140 * 50) / 180)
    with pytest.raises(ValueError, match="no curve"):
        bent.heights_mm([0.0])


@pytest.mark.parametrize("x", [[1000.0], [1000.0, 1000.0]])
def test_one_place_to_stand_on_is_not_enough(x):
    assert solve(even_beam(2000), x_mm=x, height_mm=np.zeros(len(x))).status == "tips over"


def test_of_supports_at_one_place_the_highest_bears():
    bent = solve(even_beam(), x_mm=[0, 1200, 1200, 1200 + 1e-9, 2400], height_mm=[0, -4, -1, -2, 0])
    assert list(bent.touching) == [True, False, True, False, True]
    assert bent.gaps_mm[[1, 3]] == pytest.approx([3, 1])


@pytest.mark.parametrize(("x", "height"), [([], []), ([0.0, 5000.0], [0, 0]), ([0.0, 9.0], [0]), ([0, 9], [0, np.nan])])
def test_supports_that_make_no_sense_are_refused(x, height):
    with pytest.raises(ValueError, match="support"):
        solve(even_beam(), x_mm=x, height_mm=height)


def test_least_curvature_is_found_at_a_load_between_any_stations():
    """A hog over a middle support: k = −M/EI at exactly that place, both sides."""
    bent = solve(even_beam(2, 1.0, 1.0), x_mm=[0, 1.0, 2], height_mm=[0, 0, 0])
    least, place = bent.least_curvature
    assert (least, place) == (pytest.approx(-0.125), pytest.approx(1.0))


def test_inverted_stretches_start_and_end_where_the_curvature_passes_the_limit():
    """Two equal spans: M = 3wlx/8 − wx²/2 is below −m from x = (3/4 + √(9/16 + 8m/wl²)) l/2 to its mirror image."""
    bent = solve(even_beam(2, 1.0, 1.0), x_mm=[0, 1.0, 2], height_mm=[0, 0, 0])
    ((start, end),) = bent.inverted(-0.05)
    edge = (0.75 + np.sqrt(9 / 16 + 8 * 0.05)) / 2
    assert (start, end) == (pytest.approx(edge), pytest.approx(2 - edge))
    assert bent.inverted(-0.2) == ()
    assert bent.inverted(1.0) == ((0.0, 2.0),)
    under_a_300_mm_edge = -INVERTED_PER_MM * 300**2 / 8
    assert under_a_300_mm_edge == pytest.approx(0.05625)


def test_the_effect_of_a_shim_is_that_of_solving_again():
    rng = np.random.default_rng(5)
    for _ in range(40):
        beam = random_beam(rng)
        x, height = random_supports(rng, beam)
        bent = solve(beam, x_mm=x, height_mm=height)
        if bent.status != "ok" or np.diff(np.sort(x)).min() < 50:
            continue
        at = np.linspace(0, beam.length_mm, 13)
        effect = lift_effect(bent, at)
        assert effect.sum(axis=1) == pytest.approx(np.ones(13), abs=1e-6)
        i = int(np.argmax(bent.reactions_n))
        moved = height.copy()
        moved[i] += 1e-4
        again = solve(beam, x_mm=x, height_mm=moved)
        if np.array_equal(again.touching, bent.touching):
            assert (again.heights_mm(at) - bent.heights_mm(at)) / 1e-4 == pytest.approx(effect[:, i], abs=1e-3)
