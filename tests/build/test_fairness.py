"""Fair curves, sanding and the flats of a round."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.build.fairness import gap_curvature_per_mm, round_marks, sagitta_mm, thinned


@given(gap=st.floats(0.05, 10), span=st.floats(300, 2000))
def test_the_arc_that_a_gap_speaks_of_shows_that_gap(gap, span):
    bend = gap_curvature_per_mm(gap_mm=gap, span_mm=span)
    # the first term left out is (2 g / L)² of the value
    assert sagitta_mm(radius_mm=1 / bend, span_mm=span) == pytest.approx(gap, rel=2 * (2 * gap / span) ** 2 + 1e-9)


@given(thick=st.floats(3, 12), share=st.floats(0, 0.9))
def test_what_is_left_gives_back_what_was_there(thick, share):
    after = thinned(thickness_mm=thick, off_mm=share * thick)
    assert after.left_mm + share * thick == pytest.approx(thick)
    assert after.stiffness * after.bends == pytest.approx(1)
    assert after.bends == pytest.approx(after.stress**1.5)
    assert after.bends >= after.stress >= 1


@given(wide=st.floats(1, 60), high=st.floats(1, 60))
def test_lines_come_in_the_order_in_which_they_are_used(wide, high):
    marks = round_marks(width_mm=wide, height_mm=high)
    assert 0 < marks.first_in < marks.second_in < wide
    assert 0 < marks.first_down < marks.second_down < high
    assert 2 * marks.second_on_flat < marks.flat
    turned = round_marks(width_mm=high, height_mm=wide)
    assert (turned.first_down, turned.second_down) == pytest.approx((marks.first_in, marks.second_in))


@pytest.mark.parametrize(
    ("function", "values"),
    [
        (sagitta_mm, {"radius_mm": 100, "span_mm": 201}),
        (sagitta_mm, {"radius_mm": 100, "span_mm": 0}),
        (gap_curvature_per_mm, {"gap_mm": -1, "span_mm": 600}),
        (gap_curvature_per_mm, {"gap_mm": 1, "span_mm": math.nan}),
        (thinned, {"thickness_mm": 6, "off_mm": 6}),
        (thinned, {"thickness_mm": 6, "off_mm": -0.1}),
        (round_marks, {"width_mm": 0, "height_mm": 10}),
    ],
)
def test_what_makes_no_sense_is_refused(function, values):
    with pytest.raises(ValueError, match="must be"):
        function(**values)
