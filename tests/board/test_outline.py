"""Outlines: through every given width, with the tip that was asked for, no bulge, no wobble."""

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from generator.board.outline import SAMPLES, along, area_mm2, fair_outline, outline_polygon, perimeter_mm, place

FEW = settings(max_examples=30, deadline=None)
TIPS = ("round", "pointed", "square")
PLAIN = [(300, 185), (1180, 275), (2000, 205)]


def widths(pairs):
    return tuple(SimpleNamespace(from_tail_mm=float(x), half_width_mm=float(y)) for x, y in pairs)


def outline(pairs=PLAIN, *, length=2300.0, tail="round", nose="round"):
    return fair_outline(widths(pairs), length_mm=length, tail=tail, nose=nose)


@st.composite
def boards(draw):
    """Pairs that rise to one widest place and fall, the length and the tips."""
    length = draw(st.floats(1400, 3200))
    shares = draw(st.lists(st.floats(0.06, 0.94), min_size=3, max_size=10, unique_by=lambda s: round(s * 40)))
    tail, nose = draw(st.sampled_from(TIPS)), draw(st.sampled_from(TIPS))
    top, full = draw(st.floats(0.4, 0.6)), draw(st.floats(1.7, 2.6))
    shares = ([0.0] if tail == "square" else []) + sorted(shares) + ([1.0] if nose == "square" else [])
    pairs = [(s * length, 280 * (1 - 0.9 * abs((s - top) / max(top, 1 - top)) ** full)) for s in shares]
    return pairs, length, tail, nose


@FEW
@given(boards())
def test_every_given_width_is_met_and_none_is_passed(board):
    pairs, length, tail, nose = board
    shape = outline(pairs, length=length, tail=tail, nose=nose)
    x, y = np.array(pairs).T
    assert shape.half_width_mm(x) == pytest.approx(y, abs=0.05)
    assert shape.widest_mm <= 1.01 * np.max(y)
    assert np.all(shape.y_mm >= 0)


@FEW
@given(boards())
@example(([(175.0, 202.2222222222222), (350.0, 252.0), (1050.0, 202.2222222222222)], 1400.0, "pointed", "round"))
def test_it_rises_to_the_widest_place_and_falls_from_there(board):
    pairs, length, tail, nose = board
    shape = outline(pairs, length=length, tail=tail, nose=nose)
    ways = np.sign(np.round(np.diff(shape.y_mm), 6))
    assert np.count_nonzero(np.diff(ways[ways != 0])) <= 1


@FEW
@given(boards())
def test_the_mirrored_board_has_the_mirrored_outline(board):
    pairs, length, tail, nose = board
    one = outline(pairs, length=length, tail=tail, nose=nose)
    other = outline([(length - x, y) for x, y in pairs[::-1]], length=length, tail=nose, nose=tail)
    x = np.linspace(0, length, 40)
    assert other.half_width_mm(length - x) == pytest.approx(one.half_width_mm(x), abs=0.01)


@pytest.mark.parametrize("end", ["tail", "nose"])
def test_tips_have_the_shape_that_was_asked_for(end):
    def near(tip, in_mm):
        pairs = ([(0, 90)] if end == "tail" else []) + PLAIN + ([(2300, 90)] if end == "nose" else [])
        kept = pairs if tip == "square" else PLAIN
        shape = outline(kept, **{end: tip})
        return float(shape.half_width_mm(in_mm if end == "tail" else 2300 - in_mm))

    # a round tip grows with the root of the distance (four times as far, twice as wide), a pointed one in proportion
    assert near("round", 4) / near("round", 1) == pytest.approx(2, rel=0.02)
    assert near("pointed", 4) / near("pointed", 1) == pytest.approx(4, rel=0.02)
    assert (near("round", 0), near("pointed", 0)) == pytest.approx((0, 0), abs=1e-5)
    assert near("square", 0) == pytest.approx(90, abs=0.05)


def test_an_ellipse_is_found_again():
    x = np.array([150, 500, 900, 1150, 1500, 1900, 2200])
    shape = outline(list(zip(x, 275 * np.sqrt(1 - ((x - 1150) / 1150) ** 2), strict=True)))
    every = np.linspace(0, 2300, 200)
    assert shape.half_width_mm(every) == pytest.approx(275 * np.sqrt(1 - ((every - 1150) / 1150) ** 2), abs=0.5)
    line = outline_polygon(shape, step_mm=3)
    assert area_mm2(line) == pytest.approx(np.pi * 275 * 1150, rel=1e-3)


@pytest.mark.parametrize(
    ("tail", "nose", "most"), [("round", "round", 0), ("square", "round", 2), ("pointed", "pointed", 2)]
)
def test_the_curve_bends_one_way_with_few_changes(tail, nose, most):
    pairs = [(0, 110), *PLAIN] if tail == "square" else PLAIN
    line = outline_polygon(outline(pairs, tail=tail, nose=nose), step_mm=20)
    right = line[: len(line) // 2]
    (ax, ay), (bx, by) = np.diff(right, axis=0)[:-1].T, np.diff(right, axis=0)[1:].T
    turn = np.arctan2(ax * by - ay * bx, ax * bx + ay * by)
    ways = np.sign(turn[np.abs(turn) > 1e-5])
    assert np.count_nonzero(np.diff(ways)) <= most


def test_two_widest_places_alike_give_a_top_between_them():
    shape = outline([(300, 185), (1000, 275), (1200, 275), (2000, 205)])
    top = shape.x_mm[np.argmax(shape.y_mm)]
    assert 1000 < top < 1200
    assert 275 < shape.widest_mm < 1.008 * 275


def test_widths_that_jump_about_are_still_met():
    pairs = [(100 + 150 * i, 120 + 90 * (i % 2)) for i in range(14)]
    shape = outline(pairs)
    assert shape.half_width_mm([x for x, _ in pairs]) == pytest.approx([y for _, y in pairs], abs=0.05)
    assert shape.widest_mm <= 210 * 1.001


def test_off_the_board_it_is_0_wide():
    assert outline().half_width_mm([-1, 2301]) == pytest.approx([0, 0])


@pytest.mark.parametrize("tail", TIPS)
@pytest.mark.parametrize("nose", TIPS)
def test_place_and_along_undo_each_other(tail, nose):
    u = np.linspace(0, 1, SAMPLES)
    assert along(place(u, tail, nose), tail, nose) == pytest.approx(u, abs=1e-7)


def test_a_polygon_closes_and_has_both_sides():
    line = outline_polygon(outline([(0, 110), *PLAIN], tail="square"))
    assert line[0] == pytest.approx(line[-1])
    assert np.min(line[:, 1]) == pytest.approx(-np.max(line[:, 1]))
    assert perimeter_mm(line) > 2 * 2300 + 110
    assert not line.flags.writeable


@pytest.mark.parametrize(
    ("pairs", "tips"),
    [
        (PLAIN[:2], {}),
        (PLAIN[::-1], {}),
        ([*PLAIN, (2400, 10)], {}),
        (PLAIN, {"tail": "square"}),
        ([(0, 50), *PLAIN], {"tail": "round"}),
        ([*PLAIN, (2300, 50)], {"nose": "pointed"}),
    ],
)
def test_widths_that_make_no_board_are_refused(pairs, tips):
    with pytest.raises(ValueError, match=r"half width|tip"):
        outline(pairs, **tips)
