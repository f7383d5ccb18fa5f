"""How stiff a frame or a panel really is, from how far it sags under a known weight."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.from_body import on_bench
from generator.bench.release import BOTTOM, foreseen_loss
from generator.board.sag import OTHER_SHARE, READING_MM, drop_mm, measured_scale
from generator.board.section import calibrated, expected_drop_mm, section_at
from generator.inputs.builder import Measured, Sag
from generator.quantities import GRAVITY_M_S2

TESTS = {"frame": Sag(apart_mm=1700, weight_kg=4, drop_mm=14), "panel": Sag(apart_mm=1000, weight_kg=2, drop_mm=9)}


def test_an_even_part_drops_as_a_beam_does():
    """P·L³/48 E·I (first principles)."""
    drop = drop_mm(lambda x: 2e8 + 0 * x, length_mm=2300, apart_mm=1700, weight_kg=4)
    assert drop == pytest.approx(4 * GRAVITY_M_S2 * 1700**3 / (48 * 2e8), rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.floats(1e7, 1e9), st.floats(500, 3000), st.floats(0.1, 20))
def test_twice_the_weight_drops_twice_as_far_and_twice_the_span_eight_times(stiffness, apart, weight):
    def drop(apart_mm: float, weight_kg: float) -> float:
        return drop_mm(lambda x: stiffness + 0 * x, length_mm=6000, apart_mm=apart_mm, weight_kg=weight_kg)

    assert drop(apart, 2 * weight) == pytest.approx(2 * drop(apart, weight))
    assert drop(2 * apart, weight) == pytest.approx(8 * drop(apart, weight))


def test_only_what_lies_between_the_supports_counts():
    """300 mm at each end of 2300 stick out over supports that stand 1700 apart."""

    def soft_ends(x):
        return np.where((x < 300) | (x > 2000), 1e3, 2e8)

    drop = drop_mm(soft_ends, length_mm=2300, apart_mm=1700, weight_kg=4)
    assert drop == pytest.approx(drop_mm(lambda x: 2e8 + 0 * x, length_mm=1700, apart_mm=1700, weight_kg=4))


def test_a_part_stiffer_at_one_end_drops_as_far_whichever_way_round_it_lies():
    def stiff(x):
        return 1e8 + 1e5 * x

    one = drop_mm(stiff, length_mm=2000, apart_mm=1500, weight_kg=3)
    other = drop_mm(lambda x: stiff(2000 - x), length_mm=2000, apart_mm=1500, weight_kg=3)
    assert one == pytest.approx(other)


@pytest.mark.parametrize("apart", [0.0, -1.0, 2300.1])
def test_supports_that_are_not_under_the_part_are_refused(apart):
    with pytest.raises(ValueError, match="under the part"):
        drop_mm(lambda x: 2e8 + 0 * x, length_mm=2300, apart_mm=apart, weight_kg=4)


def test_half_the_drop_is_twice_the_stiffness():
    scale = measured_scale(read_mm=10, given_mm=20)
    assert scale.value == 2
    assert scale.low < 2 < scale.high


@settings(max_examples=60, deadline=None)
@given(st.floats(1, 200), st.floats(1, 200))
def test_the_range_holds_what_a_reading_half_a_millimetre_out_could_mean_and_a_twentieth_more(read, expected):
    scale = measured_scale(read_mm=read, given_mm=expected)
    assert scale.low == pytest.approx(expected / (read + READING_MM) / (1 + OTHER_SHARE))
    assert scale.high == pytest.approx(expected / (read - READING_MM) * (1 + OTHER_SHARE))
    assert scale.low < scale.value < scale.high


def test_a_longer_drop_is_surer():
    narrow, wide = (measured_scale(read_mm=read, given_mm=read) for read in (30.0, 3.0))
    assert narrow.high / narrow.low < 1.2 < wide.high / wide.low


# The builder's own tests, on a whole board.


def measured_body(make, **tests):
    return calibrated(make(), Measured(**{f"{part}_sag": test for part, test in tests.items()}))


@pytest.mark.parametrize("part", TESTS)
def test_a_measured_board_drops_just_as_far_as_was_read(make, part):
    test = TESTS[part]
    body = measured_body(make, **{part: test})
    asked = {"apart_mm": test.apart_mm, "weight_kg": test.weight_kg}
    assert expected_drop_mm(body, part, **asked) == pytest.approx(test.drop_mm)
    low, high = (expected_drop_mm(body, part, **asked, which=which) for which in ("low", "high"))
    assert high <= test.drop_mm - READING_MM
    assert low >= test.drop_mm + READING_MM


def test_an_unmeasured_board_drops_as_its_given_stiffness_makes_it(body):
    """The frame's E·I along the board, put through the unit-load integral by hand on a fine grid."""
    at = np.linspace(300, 2000, 20001)
    from_support = np.minimum(at - 300, 2000 - at)
    square = (from_support / 2) ** 2 / section_at(body, at).frame_n_mm2
    by_hand = 4 * GRAVITY_M_S2 * float(np.trapezoid(square, at))
    assert expected_drop_mm(body, "frame", apart_mm=1700, weight_kg=4) == pytest.approx(by_hand, rel=1e-3)


@pytest.mark.parametrize("part", TESTS)
def test_softer_parts_drop_further(body, part):
    drops = [
        expected_drop_mm(body, part, apart_mm=1000, weight_kg=2, which=which) for which in ("high", "value", "low")
    ]
    assert drops == sorted(drops)
    assert drops[0] < drops[2]


def test_each_test_counts_for_its_own_part_only(make):
    plain, x = make(), np.linspace(100, 2200, 22)
    before = section_at(plain, x)
    frame, panel = (section_at(measured_body(make, **{part: TESTS[part]}), x) for part in ("frame", "panel"))
    assert frame.panel_n_mm2 == pytest.approx(before.panel_n_mm2)
    assert panel.frame_n_mm2 == pytest.approx(before.frame_n_mm2)
    for part, after in (("frame", frame), ("panel", panel)):
        share = expected_drop_mm(plain, part, apart_mm=TESTS[part].apart_mm, weight_kg=TESTS[part].weight_kg)
        share /= TESTS[part].drop_mm
        one, other = (getattr(at, f"{part}_n_mm2") for at in (after, before))
        assert one == pytest.approx(share * other)


def test_what_was_measured_narrows_what_the_bench_must_allow_for(make):
    """The rocker that is lost, softest against stiffest board: measured parts leave less of that in doubt."""

    def doubt(body) -> float:
        on, x = on_bench(body), np.linspace(0, 2300, 47)
        wanted = np.asarray(body.rocker.curvature_per_mm(x))
        ends = [
            foreseen_loss(one, x_mm=x, wanted_per_mm=wanted, route=BOTTOM, low_point_mm=on.low_point_mm).nose_mm
            for one in (*on.frame_range, *on.panel_range)
        ]
        return max(ends) - min(ends)

    both = {part: expected_drop_mm(make(), part, apart_mm=1200, weight_kg=5) for part in TESTS}
    tests = {part: Sag(apart_mm=1200, weight_kg=5, drop_mm=drop) for part, drop in both.items()}
    assert doubt(measured_body(make, **tests)) < 0.7 * doubt(make())


def test_without_tests_nothing_is_scaled(make):
    body = calibrated(make(), Measured())
    assert (body.frame_scale, body.panel_scale) == (None, None)
