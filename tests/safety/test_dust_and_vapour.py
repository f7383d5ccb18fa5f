"""Dust that sanding makes, the air it spoils, what protection leaves, and how long a room takes to clear."""

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.inputs.site import read_timbers
from generator.safety.dust import air_filled_m3, is_hardwood, is_known_sensitiser, left_pct, sanded_g
from generator.safety.vapour import cleared_min

DATA = Path(__file__).resolve().parents[2] / "site_data"
HARDWOODS = {
    "Yellow-poplar", "Quaking aspen", "Balsa", "True (Honduras) mahogany", "Paulownia", "Black walnut", "White ash",
    "Yellow birch", "White oak", "Light red meranti",
}  # fmt: skip


def test_the_timbers_of_the_table_fall_on_the_botanists_sides():
    """Angiosperms are hardwoods, conifers softwoods (botany, common knowledge)."""
    timbers = read_timbers(DATA)
    assert {timber.name for timber in timbers if is_hardwood(timber.botanical)} == HARDWOODS


def test_redcedar_and_redwood_are_the_known_sensitisers():
    """OSHA's standard text names western redcedar; OSU extension adds redwood. Thuja has a second species here."""
    timbers = read_timbers(DATA)
    assert {timber.name for timber in timbers if is_known_sensitiser(timber.botanical)} == {
        "Western redcedar",
        "Redwood (old-growth)",
        "Redwood (young-growth)",
        "Northern white-cedar",
    }


def test_a_square_metre_sanded_by_a_millimetre():
    """By hand: 1 m² · 0.001 m · 400 kg/m³ = 0.4 kg; at 1 mg/m³ a thousandth of it fills 400 m³."""
    assert sanded_g(area_m2=1, depth_mm=1, density_kg_m3=400) == pytest.approx(400)
    assert air_filled_m3(dust_g=400, afloat=0.001, limit_mg_m3=1) == pytest.approx(400)
    assert air_filled_m3(dust_g=400, afloat=0.001, limit_mg_m3=2) == pytest.approx(200)


@given(caught=st.floats(0, 100), factors=st.lists(st.floats(1, 40), max_size=3))
def test_protection_never_makes_it_worse(caught, factors):
    left = left_pct(caught_pct=caught, mask_factors=factors)
    assert 0 <= left <= 100 - caught
    assert left_pct(caught_pct=caught, mask_factors=[*factors, 10]) == pytest.approx(left / 10)


@given(changes=st.floats(0.1, 50), left=st.floats(0.1, 90))
def test_the_air_that_is_left_follows_the_decay_it_was_reckoned_from(changes, left):
    """Well-mixed room: c' = −n c, so c = exp(−n t)."""
    hours = cleared_min(changes_per_h=changes, left_pct=left) / 60
    assert 100 * math.exp(-changes * hours) == pytest.approx(left)


@pytest.mark.parametrize("values", [(0, 1, 400), (1, -1, 400), (1, 1, math.nan)])
def test_no_face_no_dust(values):
    with pytest.raises(ValueError, match="above 0"):
        sanded_g(area_m2=values[0], depth_mm=values[1], density_kg_m3=values[2])


@pytest.mark.parametrize(("caught", "factor"), [(-1, 10), (101, 10), (math.nan, 10), (0, 0.5), (0, math.nan)])
def test_protection_that_cannot_be_is_refused(caught, factor):
    with pytest.raises(ValueError, match=r"caught|factor"):
        left_pct(caught_pct=caught, mask_factors=[factor])


@pytest.mark.parametrize(("mass", "afloat", "limit"), [(0, 0.1, 1), (1, 1.1, 1), (1, 0.1, 0)])
def test_air_for_nothing_is_refused(mass, afloat, limit):
    with pytest.raises(ValueError, match="above 0"):
        air_filled_m3(dust_g=mass, afloat=afloat, limit_mg_m3=limit)


@pytest.mark.parametrize(("changes", "left"), [(0, 1), (-1, 1), (2, 0), (2, 101), (math.nan, 1)])
def test_a_room_that_never_clears_is_refused(changes, left):
    with pytest.raises(ValueError, match="above 0"):
        cleared_min(changes_per_h=changes, left_pct=left)
