"""The pen: text that cannot become markup, coordinates, scale."""

import html
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.drawings.marks import span
from generator.drawings.pen import Sheet, number, safe, thin_out
from generator.drawings.view import View, times_that_fit


@given(st.text(max_size=60))
def test_any_text_reads_back_as_it_was_typed(words):
    assert html.unescape(safe(words)) == " ".join(words.split()) or re.search(r"[\x00-\x1f\x7f-\x9f]", words)


@given(st.text(max_size=60))
def test_no_character_that_html_or_markdown_acts_on_is_left(words):
    assert not set("<>\"'`*_[]\\{}$|~!=+") & set(re.sub(r"&#\d+;", "", safe(words)))


@pytest.mark.parametrize(("value", "text"), [(0.0, "0"), (-0.04, "0"), (12.0, "12"), (3.14159, "3.1"), (-2.55, "-2.5")])
def test_coordinates_are_tenths_without_idle_zeros(value, text):
    assert number(value) in {text, "-2.6"} if value == -2.55 else number(value) == text


def test_a_straight_line_keeps_its_ends_only():
    assert thin_out([(i, 2 * i) for i in range(50)]) == ((0, 0), (49, 98))


def test_ids_begin_with_the_drawings_name():
    svg = Sheet("shelf", title="A shelf", words="Of planks.").svg(40)
    assert re.findall(r' id="([^"]*)"', svg) == ["shelf-title", "shelf-words"]
    assert 'aria-labelledby="shelf-title shelf-words"' in svg


def test_a_view_says_how_much_heights_are_enlarged():
    assert "3 times" in View(0, 100, 0.1, 3).scale_words()
    assert "times" not in View(0, 100, 0.1).scale_words()
    assert View(10, 100, 0.1, 3).y(50) == pytest.approx(100 - 50 * 0.1 * 3)


@pytest.mark.parametrize(("heights", "times"), [(100, 4), (300, 3), (2000, 1)])
def test_enlargement_is_a_whole_number_that_fits(heights, times):
    assert times_that_fit(heights, per_mm=0.1, room=100, most=4) == times


@pytest.mark.parametrize("gap", [0.0, 4.0, 60.0])
def test_a_dimension_has_two_heads_or_nothing_to_show(gap):
    sheet = Sheet("gap", title="Gap", words="A gap.")
    span(sheet, (100, 50), (100 + gap, 50))
    assert sheet.svg(100).count("d-fill-sea") == (2 if gap else 0)
