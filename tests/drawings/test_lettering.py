"""Labels: their width, and where they go."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib import get_data_path
from matplotlib.ft2font import FT2Font

from generator.drawings.lettering import shorten, spread, width, wrap

SIZES = st.lists(st.floats(1, 40), min_size=1, max_size=12)


@pytest.mark.parametrize("words", ["2 3/16 in", "Middle under the tip: it touches too far in", "WIDE MW@%", "1885 mm"])
@pytest.mark.parametrize(("bold", "file"), [(False, "DejaVuSans.ttf"), (True, "DejaVuSans-Bold.ttf")])
def test_the_estimate_is_no_narrower_than_a_wide_face_and_not_much_wider(words, bold, file):
    face = FT2Font(f"{get_data_path()}/fonts/ttf/{file}")  # DejaVu Sans, its own advance widths
    face.set_size(12, 72)
    true = sum(face.load_char(ord(char)).linearHoriAdvance / 65536 for char in words)
    assert 0.99 * true <= width(words, 12, bold=bold) <= 1.2 * true


def test_accents_and_marks_take_no_room_and_wide_characters_do():
    assert width("é", 12) == width("e", 12)
    assert width("e\u0301", 12) == width("e", 12)
    assert width("板", 12) > 12


@given(st.text(max_size=80), st.floats(20, 300))
def test_shortened_words_fit_and_begin_as_they_did(words, room):
    short = shorten(words, room)
    assert width(short) <= room
    assert words.startswith(short.removesuffix("…"))


@given(st.text(max_size=200), st.floats(30, 300))
def test_wrapped_lines_fit(words, room):
    assert all(width(line) <= room and line for line in wrap(words, room))


def test_wrapping_loses_no_word():
    words = "lay the stick across the board near the tail and sight over it"
    assert " ".join(wrap(words, 90)) == words


@given(SIZES, st.data())
def test_spread_labels_keep_their_order_and_never_overlap(sizes, data):
    wanted = sorted(data.draw(st.lists(st.floats(0, 300), min_size=len(sizes), max_size=len(sizes))))
    got = spread(wanted, sizes, low=0, high=max(300, sum(sizes)))
    for (a, size_a), (b, size_b) in pairwise(zip(got, sizes, strict=True)):
        assert b - a >= (size_a + size_b) / 2 - 1e-6
    assert got[0] - sizes[0] / 2 >= -1e-6
    assert got[-1] + sizes[-1] / 2 <= max(300, sum(sizes)) + 1e-6


def test_labels_with_room_stay_where_they_are_wanted():
    assert spread([20, 60, 200], [10, 10, 10], low=0, high=300) == pytest.approx((20, 60, 200))


def test_two_labels_in_one_place_part_evenly():
    assert spread([50, 50], [10, 10], low=0, high=100) == pytest.approx((45, 55))
