"""The contact solver where benches are odd: rows of supports, supports at one place, uplift, wild shapes, tipping."""

import numpy as np
import pytest
from displacement_method import Bench, rest
from drawn_benches import beam_of

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import INVERTED_PER_MM, Bent, lift_effect, solve


def even_beam(
    length: float = 2400.0, stiffness: float = 2e8, load: float = 0.03, free: float = 0.0, *loads: PointLoad
) -> Beam:
    one = np.ones(1)
    return Beam(length, np.array([0.0, length]), stiffness * one, load * one, load * one, free * one, free * one, loads)


def assert_as_the_second_solver(bench: Bench, *, loads_n: float = 1e-3, heights_mm: float = 1e-3) -> Bent:
    bent, second = solve(beam_of(bench), x_mm=bench.x, height_mm=bench.height), rest(bench)
    assert bent.status == second.status
    if bent.status == "ok":
        assert bent.reactions_n == pytest.approx(second.loads, abs=loads_n)
        assert bent.heights_mm(second.nodes) == pytest.approx(second.heights, abs=heights_mm)
        assert bent.gaps_mm == pytest.approx(second.gaps, abs=heights_mm)
    return bent


def odd_bench(rng: np.random.Generator, *, uplift: float = 0.0, empty: float = 0.0, free: float = 1e-4) -> Bench:
    """Three to five pieces and supports, the outer ones at the tips; loads down to −`uplift`, pieces without a load."""
    length, n = 2400.0, int(rng.integers(3, 6))
    points = np.stack([rng.uniform(0, length, 6), rng.uniform(-uplift, 40, 6)], axis=1)
    return Bench(
        np.round(np.linspace(0, length, n + 1)),
        10 ** rng.uniform(7, 9, n),
        rng.uniform(0.02, 0.08, (n, 2)) * (rng.random((n, 1)) >= empty),
        rng.uniform(-free, free, (n, 2)),
        points,
        np.concatenate([[length, 0.0], np.round(rng.uniform(50, 2350, n))]),
        rng.uniform(-20, 20, n + 2),
    )


@pytest.mark.parametrize("odd", [{"uplift": 25.0}, {"empty": 0.7}, {"uplift": 12.0, "empty": 1.0}, {"free": 0.02}])
def test_uplift_empty_pieces_and_huge_free_curvature_are_as_the_second_solver_says(odd):
    """A free curvature of 0.02 /mm would curl the beam to a ring 100 mm across: far beyond small slopes."""
    solved = 0
    for number in range(150):
        bench = odd_bench(np.random.default_rng([3, number]), **odd)
        if beam_of(bench).total_load_n > 0:
            solved += assert_as_the_second_solver(bench).status == "ok"
    assert solved > 100


def test_uplift_in_the_middle_takes_load_off_both_ends():
    bent = solve(even_beam(2400, 2e8, 0.03, 0.0, PointLoad(1200, -40)), x_mm=[2400, 0], height_mm=[0, 0])
    assert bent.reactions_n == pytest.approx([16, 16])


def test_uplift_at_a_tip_opens_the_support_there():
    """72 N of weight, 20 N up at the nose, three supports: it rests on the other two, whose loads follow by levers."""
    bent = solve(even_beam(2400, 2e8, 0.03, 0.0, PointLoad(2400, -20)), x_mm=[0, 1500, 2400], height_mm=[0, 0, -5])
    assert list(bent.touching) == [True, True, False]
    assert bent.reactions_n[1] == pytest.approx((72 * 1200 - 20 * 2400) / 1500)


@pytest.mark.parametrize("free", [-1e-3, -1.0, -100.0])
def test_a_beam_that_is_bowed_up_stands_on_its_tips(free):
    """Its shape is then its own, free/2 · x (x − L), but for the sag of a simple span."""
    bent = solve(even_beam(2400, 2e8, 0.03, free), x_mm=np.linspace(0, 2400, 60), height_mm=np.zeros(60))
    assert list(np.flatnonzero(bent.touching)) == [0, 59]
    sag = 5 * 0.03 * 2400**4 / (384 * 2e8)
    assert float(bent.heights_mm(1200.0)) == pytest.approx(-free / 2 * 1200**2 - sag, rel=1e-9)


@pytest.mark.parametrize("free", [1e-2, 1.0, 100.0])
def test_a_beam_that_is_bowed_down_stands_on_the_two_supports_under_its_weight(free):
    bent = solve(even_beam(2400, 2e8, 0.03, free), x_mm=np.linspace(0, 2400, 60), height_mm=np.zeros(60))
    assert list(np.flatnonzero(bent.touching)) == [29, 30]
    assert bent.reactions_n[29:31] == pytest.approx([36, 36], rel=1e-6)


def test_five_hundred_supports_in_a_level_row_share_a_straight_beam():
    """A long row of equal spans: (3 + √3)/12 of a span's load on the first, one span's on the inner ones (from memory,
    three-moment equation; the same table as in test_beams_from_handbooks.py tends to it: 0.394 at eight supports)."""
    x = np.linspace(0, 2400, 500)
    bent = solve(even_beam(), x_mm=x, height_mm=np.full(500, 85.0))
    assert bent.touching.all()
    span = 0.03 * x[1]
    assert bent.reactions_n[[0, 250, 499]] / span == pytest.approx([(3 + 3**0.5) / 12, 1, (3 + 3**0.5) / 12], abs=1e-3)


@pytest.mark.parametrize("high", [20.0, 0.01])
def test_five_hundred_supports_at_random_are_as_the_second_solver_says(high):
    rng = np.random.default_rng(4)
    x = np.sort(rng.choice(np.arange(2401.0), 500, replace=False))
    bench = Bench(
        np.array([0.0, 900.0, 2400.0]),
        np.array([1e8, 3e8]),
        np.full((2, 2), 0.05),
        np.full((2, 2), 1e-4),
        np.zeros((0, 2)),
        x,
        1e-4 * (x - 1100) ** 2 / 2 + rng.uniform(0, high, 500),
    )
    bent = assert_as_the_second_solver(bench, loads_n=0.01)
    assert 2 < bent.touching.sum() < 400


def test_supports_that_just_touch_a_curve_that_fits_them_all_take_their_share():
    """Heights cut to the free curvature: the row then bears as a level row does under a straight beam."""
    x = np.linspace(0, 2400, 40)
    fitted = solve(even_beam(2400, 2e8, 0.03, 1e-4), x_mm=x, height_mm=1e-4 * (x - 1200) ** 2 / 2)
    level = solve(even_beam(), x_mm=x, height_mm=np.zeros(40))
    assert fitted.reactions_n == pytest.approx(level.reactions_n, abs=1e-3)


@pytest.mark.parametrize("apart", [1e-10, 1e-6, 1e-3, 0.0025, 0.03, 0.5])
@pytest.mark.parametrize("higher", [-1e-4, 0.0, 1e-4])
def test_two_supports_nearly_at_one_place_bear_together_what_one_would(apart, higher):
    """The slope of some 0.05 there lifts the board by 0.05 × 0.5 mm at most: some hundredths of a newton."""
    x, height = [0.0, 1000.0, 2400.0], [30.0, 0.0, 60.0]
    one = solve(even_beam(), x_mm=x, height_mm=height)
    pair = solve(even_beam(), x_mm=[*x, 1000.0 + apart], height_mm=[*height, higher])
    together = pair.reactions_n[1] + pair.reactions_n[3]
    assert together == pytest.approx(one.reactions_n[1], abs=0.1)
    assert pair.reactions_n.sum() == pytest.approx(72)
    assert pair.heights_mm([0, 1000, 2400]) == pytest.approx(height, abs=0.05)


def test_of_supports_at_one_place_the_highest_bears():
    bent = solve(even_beam(), x_mm=[0, 1200, 1200, 1200 + 1e-9, 2400], height_mm=[0, -4, -1, -2, 0])
    assert list(bent.touching) == [True, False, True, False, True]
    assert bent.gaps_mm[[1, 3]] == pytest.approx([3, 1])


def test_of_equal_supports_at_one_place_the_first_bears():
    bent = solve(even_beam(), x_mm=[2400, 1200, 0, 1200], height_mm=[0, 0, 0, 0])
    assert list(bent.touching) == [True, True, True, False]
    assert bent.gaps_mm[3] == pytest.approx(0, abs=1e-9)


def test_a_level_far_away_loses_no_digits():
    x, height = [0.0, 700.0, 1500.0, 2400.0], np.array([40.0, 3.0, 5.0, 70.0])
    near, far = (solve(even_beam(), x_mm=x, height_mm=height + level) for level in (0.0, 1e6))
    assert far.reactions_n == pytest.approx(near.reactions_n, abs=1e-6)
    assert far.heights_mm(x) - 1e6 == pytest.approx(height, abs=1e-8)


def test_a_board_whose_loads_lie_outside_its_supports_tips_over():
    bent = solve(even_beam(2000, 1e8, 0.02, 0.0, PointLoad(50, 140)), x_mm=[400, 1900], height_mm=[0, 10])
    assert bent.status == "tips over"
    assert bent.resultant_x_mm == pytest.approx((40 * 1000 + 140 * 50) / 180)
    for asked in (
        bent.heights_mm,
        bent.slopes,
        bent.curvature_per_mm,
        bent.moment_n_mm,
        lambda x: lift_effect(bent, x),
    ):
        with pytest.raises(ValueError, match="no curve"):
            asked([0.0])


@pytest.mark.parametrize(("end", "status"), [(1200.0, "tips over"), (1200.001, "tips over"), (1199.999, "ok")])
@pytest.mark.parametrize("mirrored", [False, True])
def test_a_load_right_over_an_end_support_tips_over(end, status, mirrored):
    """It stands, but a breath would tip it; a thousandth of a millimetre further in, the other end bears a hair."""
    x = np.array([end, 2000.0])
    bent = solve(even_beam(), x_mm=2400 - x if mirrored else x, height_mm=[5, 0])
    assert bent.status == status
    if status == "ok":
        assert bent.reactions_n[1] == pytest.approx(72 * 0.001 / (2000 - end), rel=1e-6)


def test_a_load_right_over_a_middle_support_rests_on_that_alone():
    bent = solve(even_beam(2400, 2e8, 0.03, 1e-3), x_mm=[0, 1200, 2400], height_mm=[0, 0, 0])
    assert bent.status == "ok"
    assert bent.reactions_n == pytest.approx([0, 72, 0], abs=1e-9)
    assert bent.gaps_mm.min() >= -1e-9


@pytest.mark.parametrize("x", [[1000.0], [1000.0, 1000.0]])
def test_one_place_to_stand_on_is_not_enough(x):
    assert solve(even_beam(2000), x_mm=x, height_mm=np.zeros(len(x))).status == "tips over"


@pytest.mark.parametrize(("x", "height"), [([], []), ([0.0, 5000.0], [0, 0]), ([0.0, 9.0], [0]), ([0, 9], [0, np.nan])])
def test_supports_that_make_no_sense_are_refused(x, height):
    with pytest.raises(ValueError, match="support"):
        solve(even_beam(), x_mm=x, height_mm=height)


@pytest.mark.parametrize("x", [[np.nan, 9.0], [0.0, np.inf]])
def test_places_that_are_no_numbers_are_refused(x):
    with pytest.raises(ValueError, match="support"):
        solve(even_beam(), x_mm=x, height_mm=[0, 0])


@pytest.mark.parametrize("up", [72.0, 100.0])
def test_a_beam_that_nothing_presses_down_is_refused(up):
    with pytest.raises(ValueError, match="press down"):
        solve(even_beam(2400, 2e8, 0.03, 0.0, PointLoad(1200, -up)), x_mm=[0, 2400], height_mm=[0, 0])


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
