"""Laws of movement: it goes with moisture, comes back the way it went, and says where its numbers are from."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.inputs.tables import Species, read_table
from generator.timber.movement import (
    Swelling,
    bow_mm,
    change_beyond_mm,
    change_within_mm,
    cup_mm,
    movement_mm,
    swelling,
    within,
)

ROOT = Path(__file__).resolve().parents[2]
TIMBERS = {row.name: row for row in read_table((ROOT / "site_data" / "timber.csv").read_bytes(), "timber.csv", Species)}
KNOWN = [
    found
    for row in TIMBERS.values()
    for grain in ("tangential", "radial")
    if (found := swelling(row, grain)) is not None
]
some_timber = st.sampled_from(KNOWN)
room = st.floats(6, 14)
any_moisture = st.floats(0, 30)


@given(moves=some_timber, a=room, b=room, width=st.floats(1, 3000))
def test_within_room_moistures_there_and_back_is_nothing(moves: Swelling, a, b, width):
    out = movement_mm(dimension_mm=width, moves=moves, from_pct=a, to_pct=b)
    back = movement_mm(dimension_mm=width, moves=moves, from_pct=b, to_pct=a)
    assert out.value == pytest.approx(-back.value, abs=1e-9)
    assert (out.low, out.high) == pytest.approx((-back.high, -back.low), abs=1e-9)


@given(shrink=st.floats(1, 12), a=any_moisture, b=any_moisture, width=st.floats(1, 3000))
def test_beyond_them_a_board_comes_back_to_the_width_it_had(shrink, a, b, width):
    out = change_beyond_mm(dimension_mm=width, shrinkage_pct=shrink, from_pct=a, to_pct=b)
    back = change_beyond_mm(dimension_mm=width + out, shrinkage_pct=shrink, from_pct=b, to_pct=a)
    assert out + back == pytest.approx(0, abs=1e-9 * width)


@given(shrink=st.floats(1, 12), start=any_moisture, moistures=st.tuples(any_moisture, any_moisture))
def test_more_moisture_never_makes_a_board_narrower(shrink, start, moistures):
    drier, damper = sorted(moistures)
    for low, high in [
        [change_beyond_mm(dimension_mm=100, shrinkage_pct=shrink, from_pct=start, to_pct=m) for m in (drier, damper)],
        [change_within_mm(dimension_mm=100, coefficient=0.002, from_pct=start, to_pct=m) for m in (drier, damper)],
    ]:
        assert low <= high + 1e-12


@given(moves=some_timber, a=any_moisture, b=any_moisture)
def test_the_value_lies_in_its_range_and_grows_with_the_moisture(moves: Swelling, a, b):
    got = movement_mm(dimension_mm=500, moves=moves, from_pct=a, to_pct=b)
    assert got.low <= got.value <= got.high
    assert got.value * (b - a) >= 0
    wider = movement_mm(dimension_mm=1000, moves=moves, from_pct=a, to_pct=b)
    assert wider.value == pytest.approx(2 * got.value)


def test_wood_that_is_soaked_grows_no_more():
    dry = change_beyond_mm(dimension_mm=100, shrinkage_pct=6, from_pct=12, to_pct=30)
    assert change_beyond_mm(dimension_mm=100, shrinkage_pct=6, from_pct=12, to_pct=80) == dry


def test_a_timber_says_where_its_movement_is_from():
    how = {
        "Western redcedar": "table",
        "Eastern white pine": "table",
        "Northern white-cedar": "relation",
        "Paulownia": "volume",
    }
    for name, word in how.items():
        found = swelling(TIMBERS[name], "tangential")
        assert found is not None
        assert found.how == word
        assert (found.coefficient.low < found.coefficient.high) == (word == "volume")
    assert swelling(TIMBERS["Ponderosa pine"], "radial") is None


def test_the_assumed_split_covers_every_timber_of_the_table():
    from generator.timber.movement import TANGENTIAL_PER_RADIAL

    low, middle, high = TANGENTIAL_PER_RADIAL
    ratios = [
        row.shrink_tangential_pct / row.shrink_radial_pct
        for row in TIMBERS.values()
        if row.shrink_tangential_pct and row.shrink_radial_pct
    ]
    assert len(ratios) >= 12
    assert low <= min(ratios)
    assert max(ratios) <= high
    assert abs(np.median(ratios) - middle) < 0.2


@given(width=st.floats(50, 800), thick=st.floats(2, 20), share=st.floats(0.0005, 0.004), points=st.floats(0, 3))
def test_a_wider_or_thinner_panel_cups_more(width, thick, share, points):
    def cup(w, t):
        return cup_mm(width_mm=w, thickness_mm=t, coefficient=share, difference_pct=points)

    if share * points / (0.8 * thick) * width * 1.2 < 3:
        assert cup(1.2 * width, thick) >= cup(width, thick)
        assert cup(width, 0.8 * thick) >= cup(width, thick)


@settings(max_examples=30)
@given(between=st.floats(50, 600), share=st.floats(0.0001, 0.01))
def test_a_bow_is_as_long_as_its_chord_and_what_it_grew(between, share):
    height = bow_mm(between_mm=between, grows_mm=share * between)
    x = np.linspace(0, between, 4001)
    y = height * np.sin(np.pi * x / between)
    assert np.hypot(np.diff(x), np.diff(y)).sum() == pytest.approx(between * (1 + share), rel=0.01 * share + 3e-5)


@pytest.mark.parametrize(("moistures", "inside"), [((6, 14), True), ((5.9, 10), False), ((8, 14.1), False)])
def test_room_moistures_are_told_from_others(moistures, inside):
    assert within(*moistures) is inside


@pytest.mark.parametrize("bad", [(-1, 10), (8, float("nan"))])
def test_what_is_no_moisture_is_refused(bad):
    with pytest.raises(ValueError, match="0 or above"):
        movement_mm(dimension_mm=100, moves=KNOWN[0], from_pct=bad[0], to_pct=bad[1])


def test_a_panel_that_would_roll_up_is_refused():
    with pytest.raises(ValueError, match="half circle"):
        cup_mm(width_mm=1000, thickness_mm=1, coefficient=0.003, difference_pct=5)
    with pytest.raises(ValueError, match="above 0"):
        cup_mm(width_mm=0, thickness_mm=1, coefficient=0.003, difference_pct=5)


@pytest.mark.parametrize(
    "name", ["Western redcedar", "Northern white-cedar", "Yellow-poplar", "Quaking aspen", "Paulownia"]
)
@pytest.mark.parametrize("grain", ["tangential", "radial"])
def test_a_board_that_goes_a_little_beyond_room_moistures_does_not_grow_less(name, grain):
    """Eq. 13-2 to 14.0 % and eq. 13-3 to 14.1 %: the two meet, within the last digit of the table's coefficients."""
    moves = swelling(TIMBERS[name], grain)
    within, beyond = (movement_mm(dimension_mm=500, moves=moves, from_pct=8, to_pct=to).value for to in (14.0, 14.1))
    assert 1.0 < beyond / within < 1.05
