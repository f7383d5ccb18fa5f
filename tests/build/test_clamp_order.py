"""The order of the clamps, and gluing in goes."""

import itertools
from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.assembly import ClampKind
from generator.build.clamp_order import goes, outwards, strip_pressure_mpa, to_borrow

gaps = st.lists(st.floats(50, 400), min_size=1, max_size=18)
kinds = st.lists(
    st.builds(
        ClampKind,
        name=st.sampled_from(["a", "b", "c", "d"]),
        opening_mm=st.floats(30, 200),
        mass_kg=st.just(0.5),
        hang_mm=st.floats(80, 200),
        count=st.integers(1, 14),
    ),
    max_size=4,
    unique_by=lambda kind: kind.name,
)


@settings(max_examples=200, deadline=None)
@given(gaps, st.floats(0.2, 0.8))
def test_the_order_runs_outwards_and_changes_sides(steps, share):
    ribs = np.cumsum(steps)
    middle = share * float(ribs[-1])
    order = outwards(ribs, middle_mm=middle)
    assert sorted(order) == list(range(len(steps)))
    assert abs(ribs[order[0]] - middle) == min(abs(ribs - middle))
    first = order[0]
    for side in ([i for i in order if i < first][::-1], [i for i in order if i > first]):
        assert side == sorted(side)
    shorter = min(first, len(steps) - 1 - first)
    sides = [i > first for i in order[1 : 1 + 2 * shorter]]
    assert all(a != b for a, b in itertools.pairwise(sides))


def test_an_even_row_goes_out_from_its_two_middle_ribs():
    assert outwards([100, 200, 300, 400, 500, 600], middle_mm=350) == (2, 3, 1, 4, 0, 5)
    assert outwards([], middle_mm=350) == ()


@settings(max_examples=200, deadline=None)
@given(st.lists(st.floats(30, 120), min_size=2, max_size=14), kinds)
def test_no_go_uses_a_pair_twice_and_every_pair_opens_far_enough(grip, clamps):
    order = outwards(np.arange(len(grip)), middle_mm=(len(grip) - 1) / 2)
    found = goes(order, grip_mm=grip, kinds=clamps)
    by_name = {kind.name: kind for kind in clamps}
    for go in found:
        assert go
        for name, used in Counter(one.name for one in go).items():
            assert used <= by_name[name].count // 2
        for one in go:
            assert by_name[one.name].opening_mm >= grip[one.rib]
    ribs = [one.rib for go in found for one in go]
    assert len(set(ribs)) == len(ribs)
    never = set(range(len(grip))) - set(ribs)
    pairs = [kind for kind in clamps if kind.count >= 2]
    assert never == {i for i, opening in enumerate(grip) if not any(kind.opening_mm >= opening for kind in pairs)}


def test_six_clamps_and_twelve_ribs_take_four_goes_from_the_middle_out():
    order = outwards(np.arange(12), middle_mm=5.5)
    found = goes(order, grip_mm=[50.0] * 12, kinds=[ClampKind("bar clamp", 150, 0.5, 165, 6)])
    assert [len(go) for go in found] == [3, 3, 3, 3]
    assert {one.rib for one in found[0]} == {4, 5, 6}
    assert {one.rib for one in found[-1]} == {0, 11, 1} or {one.rib for one in found[-1]} == {0, 11, 10}


def test_small_clamps_go_where_they_open_far_enough_and_leave_the_large_ones_free():
    clamps = [ClampKind("large", 150, 0.7, 160, 4), ClampKind("small", 60, 0.4, 120, 4)]
    (only,) = goes((1, 2, 0, 3), grip_mm=[50, 80, 80, 50], kinds=clamps)
    assert {(one.rib, one.name) for one in only} == {(1, "large"), (2, "large"), (0, "small"), (3, "small")}


def test_what_to_borrow_is_what_the_goes_lack():
    for ribs in range(2, 20):
        for pairs in range(20):
            for in_goes in (1, 2):
                lent = to_borrow(ribs=ribs, pairs=pairs, in_goes=in_goes)
                assert in_goes * (pairs + lent) >= ribs
                assert lent == 0 or in_goes * (pairs + lent - 1) < ribs


def test_twice_as_many_clamps_press_twice_as_hard():
    one = strip_pressure_mpa(force_n=160, apart_mm=210, width_mm=4)
    assert strip_pressure_mpa(force_n=160, apart_mm=105, width_mm=4) == pytest.approx(2 * one)
    with pytest.raises(ValueError, match="above 0"):
        strip_pressure_mpa(force_n=160, apart_mm=0, width_mm=4)
