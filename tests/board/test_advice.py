"""The three rockers: fair, nowhere hollow, and in the order that their names promise."""

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.board.advice import candidates, mass_steps, shift_of
from generator.board.rocker import RockerHeight, Shift, tuned_rocker

LENGTH = 2300.0
KIT = tuple(
    RockerHeight(*pair) for pair in [(0, 58), (300, 23), (600, 7), (1000, 0), (1500, 10), (2000, 54), (2300, 118)]
)
OWN = {"flatter": Shift.lowering(-4, -12, 8), "as it is": Shift(), "higher": Shift.lowering(3, 12, -5)}
shifts = st.builds(Shift.lowering, st.floats(-25, 30), st.floats(-40, 40), st.floats(-25, 25))


def made(*common, own=OWN, kit=KIT, length_mm=LENGTH):
    return candidates(kit, common=common, own=own, length_mm=length_mm)


def test_each_candidate_is_the_kits_rocker_with_all_that_counts():
    got = made(Shift(2, 6, 0.1))["higher"]
    assert got.heights == tuned_rocker(KIT, Shift(5, 18, 0.1 + OWN["higher"].late), length_mm=LENGTH)
    assert (got.shift.tail_mm, got.shift.nose_mm) == pytest.approx((5, 18))


@settings(max_examples=60, deadline=None)
@given(shifts, shifts, st.floats(1500, 3400))
def test_no_candidate_is_hollow_anywhere_whatever_the_rules_add(one, other, length_mm):
    kit = [RockerHeight(min(h.from_tail_mm * length_mm / LENGTH, length_mm), h.height_mm) for h in KIT]
    for candidate in made(one, other, kit=kit, length_mm=length_mm).values():
        x = np.linspace(0, length_mm, 500)
        assert np.all(np.diff(candidate.curve.height_mm(x), n=2) >= -1e-9)
        assert float(candidate.curve.height_mm(candidate.curve.low_point_mm())) == pytest.approx(0, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.floats(-10, 10), st.floats(-20, 20), st.floats(-5, 10))
def test_reasonable_rules_give_heights_that_a_fair_bottom_meets(tail, nose, lowered):
    for candidate in made(Shift.lowering(tail, nose, lowered)).values():
        assert candidate.fit.worst_mm < 1.01  # the tolerance of the fair curve


def test_more_nose_and_a_less_flat_middle_show_in_the_numbers():
    low, middle, high = (candidate.traits for candidate in made().values())
    assert low.rises.nose_mm < middle.rises.nose_mm < high.rises.nose_mm
    assert low.rises.nose_in_mm < middle.rises.nose_in_mm < high.rises.nose_in_mm
    assert low.nose_angle_deg < middle.nose_angle_deg < high.nose_angle_deg
    assert low.flat.share > middle.flat.share > high.flat.share


@settings(max_examples=20, deadline=None)
@given(st.floats(0, 15), st.floats(0, 15))
def test_a_rule_that_asks_for_a_flatter_middle_never_shortens_the_flat_part(less, more):
    less, more = sorted((less, more))
    one, two = (made(Shift.lowering(0, 0, pct))["as it is"].traits.flat.share for pct in (less, more))
    assert two >= one - 1e-4


def test_a_rule_counts_once_a_step_and_grows_with_the_board():
    rule = SimpleNamespace(tail_mm=2.0, nose_mm=-3.0, flat_pct=2.0)
    assert mass_steps(95, 75) == pytest.approx(2)
    assert mass_steps(70, 75) == pytest.approx(-0.5)
    got = shift_of(rule, scale=1.5, times=2)
    assert (got.tail_mm, got.nose_mm, got.lowered_pct) == pytest.approx((6, -9, 100 * (1 - 0.98**2)))
