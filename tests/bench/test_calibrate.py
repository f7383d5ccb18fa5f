"""How stiff the board really is, from heights read once the glue was hard and the clamps were off."""

import numpy as np
import pytest
from laid_benches import BOARDS, bench_of

from generator.bench.calibrate import FACTORS, OTHER_SHARE, TAPE_MM, CuredFit, fit_cured
from generator.bench.release import BOTTOM, TOP, clamps_off
from generator.bench.tops import rest_on

READ_MM = np.array([0.0, *BOARDS["straight"].rib_mm, 2300.0])
WAYS = [("straight", TOP), ("straight", BOTTOM), ("cut", TOP)]
TRUE = (0.6, 0.8, 1.0, 1.25, 1.6)


def true_mm(name, route, factor: float) -> np.ndarray:
    """What a tape without error reads on a board so many times as stiff as planned."""
    bench, sections = bench_of(name, route), BOARDS[name].value.scaled(factor)
    bent = rest_on(sections.beam(bench.loads.points()), bench.laid.tops).bent
    return clamps_off(bent, sections, bench.laid.tops).bent.heights_mm(READ_MM)


def fitted(name, route, read_mm, x_mm=READ_MM) -> CuredFit:
    return fit_cured(bench_of(name, route), x_mm=x_mm, read_mm=read_mm)


@pytest.mark.parametrize(("name", "route"), WAYS)
@pytest.mark.parametrize("factor", TRUE)
def test_readings_without_error_give_the_stiffness_back(name, route, factor):
    """To a hundredth: between the 17 boards that are worked out a support may begin to bear, which is read off a
    smooth line."""
    fit = fitted(name, route, true_mm(name, route, factor))
    assert fit.factor == pytest.approx(factor, rel=0.01)
    assert fit.factor_low <= factor <= fit.factor_high
    assert fit.miss_mm < 0.2
    assert fit.expected_mm == pytest.approx(true_mm(name, route, factor), abs=0.3)


@pytest.mark.parametrize(("name", "route"), WAYS)
def test_readings_with_a_tape_s_noise_give_it_back_within_the_range_and_no_wider_than_it_must_be(name, route):
    """The range is one standard deviation and a twentieth: it must hold the truth in most of 30 draws (if it were one
    standard deviation alone, fewer than 15 would be seen once in a hundred times)."""
    rng, inside, near = np.random.default_rng(20), 0, 0
    for factor in TRUE:
        exact = true_mm(name, route, factor)
        for _ in range(6):
            fit = fitted(name, route, exact + rng.normal(0, TAPE_MM, READ_MM.size))
            inside += fit.factor_low <= factor <= fit.factor_high
            near += fit.factor_low / 1.5 <= factor <= fit.factor_high * 1.5
    assert inside >= 15
    assert near >= 28


def test_noise_widens_the_miss_and_not_the_answer():
    rng = np.random.default_rng(1)
    fit = fitted("straight", TOP, true_mm("straight", TOP, 1.0) + rng.normal(0, TAPE_MM, READ_MM.size))
    assert 0.3 * TAPE_MM < fit.miss_mm < 2 * TAPE_MM
    assert fit.factor_high / fit.factor_low < 1.5


def test_only_the_shape_counts():
    exact = true_mm("straight", TOP, 1.25)
    moved = exact + 40 - 0.01 * READ_MM
    one, other = fitted("straight", TOP, exact), fitted("straight", TOP, moved)
    assert other.factor == pytest.approx(one.factor)
    assert other.expected_mm - moved == pytest.approx(one.expected_mm - exact, abs=1e-6)


def test_readings_that_cannot_tell_leave_all_that_was_tried():
    """All within a hand's breadth: any stiffness fits."""
    x = np.array([1100.0, 1120.0, 1140.0, 1160.0, 1180.0])
    fit = fitted("cut", TOP, np.interp(x, READ_MM, true_mm("cut", TOP, 1.0)), x)
    assert fit.factor_low <= FACTORS[0]
    assert fit.factor_high >= FACTORS[-1]


def test_few_readings_say_less_than_many():
    exact = true_mm("straight", TOP, 1.0)
    every, third = (fitted("straight", TOP, exact[::step], READ_MM[::step]) for step in (1, 3))
    assert third.factor_high / third.factor_low > every.factor_high / every.factor_low


@pytest.mark.parametrize(("factor", "end"), [(0.3, 0), (3.0, -1)])
def test_a_board_beyond_all_that_was_tried_is_put_at_its_end_with_a_range_and_a_miss_that_show_it(factor, end):
    fit = fitted("straight", TOP, true_mm("straight", TOP, factor))
    assert fit.factor == pytest.approx(FACTORS[end])
    assert fit.factor_low <= fit.factor / (1 + OTHER_SHARE) * 1.001
    assert fit.factor_high >= fit.factor * (1 + OTHER_SHARE) / 1.001
    assert fit.miss_mm > 0.2


def test_what_the_found_board_keeps_is_told_with_everything_on():
    """At the planned stiffness that is the plan's own board again."""
    bench = bench_of("straight", TOP)
    fit = fitted("straight", TOP, true_mm("straight", TOP, 1.0))
    assert fit.rest.kept.heights_mm == pytest.approx(bench.laid.value.kept.heights_mm, abs=0.05)
    stiff = fitted("straight", TOP, true_mm("straight", TOP, 1.6))
    assert stiff.rest.sections.loose_n_mm2 == pytest.approx(1.6 * BOARDS["straight"].value.loose_n_mm2, rel=0.01)
