"""A thin panel under a saw."""

import itertools
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.cutting import (
    along_grain,
    batten_gap_mm,
    bending_mpa,
    offcut_area_mm2,
    overhang_limit_mm,
    stretches,
    tongue_limit_mm,
    tongue_sag_mm,
    working_width_mm,
)
from generator.inputs.tables import Species, read_table

USUAL = {"thickness_mm": 6.0, "strength_mpa": 1.5, "load_n": 55.0, "safety": 3.0, "base_mm": 150.0, "length_mm": 2400.0}
panels = st.fixed_dictionaries(
    {
        "thickness_mm": st.floats(3, 12),
        "strength_mpa": st.floats(0.5, 8),
        "load_n": st.floats(10, 150),
        "safety": st.floats(1, 5),
        "base_mm": st.floats(20, 250),
        "length_mm": st.floats(1200, 3500),
    }
)


@settings(max_examples=150, deadline=None)
@given(panels)
def test_at_the_limit_the_stress_is_the_strength_by_the_factor(panel):
    limit = overhang_limit_mm(**panel)
    width = working_width_mm(arm_mm=limit, base_mm=panel["base_mm"], length_mm=panel["length_mm"])
    stress = bending_mpa(load_n=panel["load_n"], arm_mm=limit, width_mm=width, thickness_mm=panel["thickness_mm"])
    assert stress == pytest.approx(panel["strength_mpa"] / panel["safety"])


@settings(max_examples=150, deadline=None)
@given(panels, st.floats(1.01, 1.5))
def test_thicker_and_stronger_stands_further_and_a_heavier_hand_less(panel, more):
    limit = overhang_limit_mm(**panel)
    for name in ("thickness_mm", "strength_mpa", "base_mm"):
        assert overhang_limit_mm(**{**panel, name: more * panel[name]}) >= limit
    for name in ("load_n", "safety"):
        assert overhang_limit_mm(**{**panel, name: more * panel[name]}) <= limit


@pytest.mark.parametrize(
    "wrong", [{"thickness_mm": 0}, {"load_n": -1}, {"safety": 0.5}, {"base_mm": -1}, {"strength_mpa": float("nan")}]
)
def test_numbers_out_of_range_are_refused(wrong):
    with pytest.raises(ValueError, match="must be"):
        overhang_limit_mm(**{**USUAL, **wrong})


def tongue(**changes):
    usual = {
        "width_mm": lambda s: 40 + np.asarray(s, dtype=float),
        "thickness_mm": 6.0,
        "strength_mpa": 50.0,
        "stiffness_mpa": 7700.0,
        "load_n": 55.0,
        "safety": 3.0,
        "sag_mm": 1.0,
        "most_mm": 400.0,
    }
    return tongue_limit_mm(**{**usual, **changes})


def test_a_tongue_stops_where_it_gives_too_much_or_would_break():
    limit = tongue()
    common = {"load_n": 55.0, "width_mm": lambda s: 40 + np.asarray(s, dtype=float), "stiffness_mpa": 7700.0}
    dips = [tongue_sag_mm(arm_mm=arm, thickness_mm=6.0, **common) for arm in (limit, limit + 1)]
    assert dips[0] <= 1.0 < dips[1]
    weak = tongue(strength_mpa=5.0, sag_mm=100.0)
    stresses = [bending_mpa(load_n=55, arm_mm=a, width_mm=40 + a, thickness_mm=6) for a in (weak, weak + 1)]
    assert stresses[0] <= 5 / 3 < stresses[1]


def test_a_stouter_tongue_reaches_further_and_none_past_the_end():
    assert tongue() < tongue(thickness_mm=8.0) < tongue(thickness_mm=12.0)
    assert tongue(thickness_mm=60.0, most_mm=150.0) == 150
    assert tongue(load_n=1e6) == 0


def test_battens_lie_closer_under_a_softer_panel():
    usual = {"thickness_mm": 6, "strength_mpa": 50, "load_n": 55, "safety": 3, "strip_mm": 75, "sag_mm": 1}
    assert batten_gap_mm(stiffness_mpa=4300, **usual) < batten_gap_mm(stiffness_mpa=7700, **usual)


def outline(x):
    return 250 * np.sqrt(np.clip(1 - ((np.asarray(x, dtype=float) - 1200) / 1230) ** 2, 0, None))


@settings(max_examples=60, deadline=None)
@given(st.floats(8, 60), st.floats(600, 3500), st.sampled_from([-30.0, 2430.0]))
def test_stretches_follow_each_other_to_the_end_and_fit_the_table(band, table, end):
    found = stretches(outline, start_mm=1200, end_mm=end, band_mm=band, longest_mm=table)
    assert found[0].start_mm == 1200
    assert found[-1].end_mm == end
    assert all(a.end_mm == b.start_mm for a, b in itertools.pairwise(found))
    for one in found[:-1]:
        x = np.linspace(one.start_mm, one.end_mm, 200)
        chord = np.interp(x, *zip(*sorted([(x[0], outline(x[0])), (x[-1], outline(x[-1]))]), strict=True))
        assert np.abs(outline(x) - chord).max() <= 1.1 * band
        assert abs(one.end_mm - one.start_mm) <= table


def test_a_wider_band_never_takes_more_stretches():
    counts = [
        len(stretches(outline, start_mm=1200, end_mm=2430, band_mm=band, longest_mm=3000))
        for band in (5, 10, 20, 40, 300)
    ]
    assert counts == sorted(counts, reverse=True)
    assert counts[0] > counts[-1] == 1


def test_stretches_need_a_band_and_a_table():
    with pytest.raises(ValueError, match="band_mm"):
        stretches(outline, start_mm=0, end_mm=1000, band_mm=0, longest_mm=3000)


def test_the_offcut_of_a_triangle_is_a_triangle():
    def wedge(x):
        return 200 - np.asarray(x) / 10

    assert offcut_area_mm2(wedge, start_mm=0, end_mm=1000, blank_half_mm=200) == pytest.approx(1000 * 100 / 2)
    assert offcut_area_mm2(wedge, start_mm=1000, end_mm=0, blank_half_mm=200) == pytest.approx(1000 * 100 / 2)


def test_a_timber_of_unknown_strength_is_assumed_and_says_so(timbers):
    assert along_grain(timbers["Western redcedar"]).published
    unseen = along_grain(timbers["Black walnut"])
    assert not unseen.published
    assert unseen.low_mpa < unseen.value_mpa < unseen.high_mpa


@pytest.fixture
def timbers():
    raw = (Path(__file__).resolve().parents[2] / "site_data" / "timber.csv").read_bytes()
    return {one.name: one for one in read_table(raw, "timber.csv", Species)}
