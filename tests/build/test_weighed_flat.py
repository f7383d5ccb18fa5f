"""Weights on battens: none from nowhere, and every batten its share while they last."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.panel_press import OneWeight, buckling_force_n_mm, hold_down_n_mm, weigh_down

stocks = st.lists(st.tuples(st.floats(0.3, 12), st.integers(0, 9)), max_size=6).map(
    lambda rows: [OneWeight(f"thing {n}", kg, count) for n, (kg, count) in enumerate(rows)]
)


@given(needed=st.floats(0.1, 80), length=st.floats(1200, 4000), stock=stocks)
def test_battens_carry_their_share_from_what_there_is(needed, length, stock):
    laid = weigh_down(needed_kg=needed, length_mm=length, apart_mm=300, stock=stock)
    used = {}
    for batten in laid.battens:
        for name, count in batten.pieces:
            used[name] = used.get(name, 0) + count
    kg = {one.name: one.kg for one in stock}
    assert all(used[one.name] <= one.count for one in stock if one.name in used)
    assert sum(kg[name] * count for name, count in used.items()) == pytest.approx(laid.kg)
    assert laid.each_kg * len(laid.battens) == pytest.approx(needed)
    missing = sum(max(0.0, laid.each_kg - batten.kg) for batten in laid.battens)
    assert laid.short_kg == pytest.approx(missing, abs=1e-9)
    if laid.short_kg > 1e-6:
        assert all(batten.kg > 0 for batten in laid.battens) or used == {o.name: o.count for o in stock if o.count}


@given(needed=st.floats(1, 40), length=st.floats(1200, 4000), stock=stocks)
def test_with_heavy_buckets_besides_nothing_is_missing(needed, length, stock):
    laid = weigh_down(needed_kg=needed, length_mm=length, apart_mm=300, stock=[*stock, OneWeight("bucket", 50, 40)])
    assert laid.short_kg == 0


def test_weights_that_do_not_reach_are_spread_over_all_battens():
    """Ten battens of 0.5 kg each: four blocks, and six offcuts that are a little too light by themselves."""
    stock = [OneWeight("block", 7, 4), OneWeight("offcut", 0.45, 6)]
    laid = weigh_down(needed_kg=5, length_mm=2900, apart_mm=300, stock=stock)
    assert all(len(batten.pieces) == 1 for batten in laid.battens)
    assert laid.short_kg == pytest.approx(6 * 0.05)


@given(length=st.floats(300, 4000), apart=st.floats(100, 600))
def test_battens_stand_evenly_and_no_further_apart_than_allowed(length, apart):
    places = [batten.from_end_mm for batten in
              weigh_down(needed_kg=1, length_mm=length, apart_mm=apart, stock=[]).battens]  # fmt: skip
    gaps = [places[0] * 2, *(b - a for a, b in itertools.pairwise(places)), 2 * (length - places[-1])]
    assert max(gaps) <= apart + 1e-6
    assert max(gaps) == pytest.approx(min(gaps))


def test_a_small_job_takes_small_weights():
    stock = [OneWeight("brick", 2.4, 2), OneWeight("disc", 1.25, 2)]
    laid = weigh_down(needed_kg=1.2, length_mm=300, apart_mm=300, stock=stock)
    assert laid.battens[0].pieces == (("disc", 1),)


def test_twice_as_uneven_or_half_as_wide_planks_lift_twice_as_hard():
    one = hold_down_n_mm(force_n_mm=0.3, plank_mm=90, uneven_mm=1)
    assert hold_down_n_mm(force_n_mm=0.3, plank_mm=90, uneven_mm=2) == pytest.approx(2 * one)
    assert hold_down_n_mm(force_n_mm=0.3, plank_mm=45, uneven_mm=1) == pytest.approx(2 * one)


def test_a_panel_twice_as_thick_stands_eight_times_the_push():
    one = buckling_force_n_mm(thickness_mm=5, width_mm=500, across_mpa=400)
    assert buckling_force_n_mm(thickness_mm=10, width_mm=500, across_mpa=400) == pytest.approx(8 * one)


@pytest.mark.parametrize("bad", [0, -1, float("nan")])
def test_sizes_must_be_above_nothing(bad):
    with pytest.raises(ValueError, match="above 0"):
        buckling_force_n_mm(thickness_mm=bad, width_mm=500, across_mpa=400)
    with pytest.raises(ValueError, match="above 0"):
        hold_down_n_mm(force_n_mm=1, plank_mm=bad, uneven_mm=1)
