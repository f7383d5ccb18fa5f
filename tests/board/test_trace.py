"""The traced line and the cut on a whole outline; plain shapes are in tests/published."""

import numpy as np
import pytest
from shapely import LineString, Point, Polygon

from generator.board.trace import BLEND_MM, make_trace, offset_outline


@pytest.mark.parametrize("sides", [5.0, 12.0, 40.0])
@pytest.mark.parametrize("more", [0.0, 18.0, 60.0])
def test_the_line_is_nowhere_nearer_than_the_sides_margin_and_far_enough_at_the_tips(body, sides, more):
    line = offset_outline(body.frame_line, sides_mm=sides, tips_mm=sides + more)
    frame = Polygon(body.frame_line)
    assert Polygon(line).contains(frame)
    assert LineString(line).distance(frame) == pytest.approx(sides, abs=0.05)
    # arcs of 24 pieces a quarter stand up to 0.05 % inside the true one
    assert np.min(line[:, 0]) == pytest.approx(-sides - more, abs=0.05)
    assert np.max(line[:, 0]) == pytest.approx(body.length_mm + sides + more, abs=0.05)


def test_between_the_blends_the_line_runs_at_the_sides_margin(body):
    frame = Polygon(body.frame_line)
    middle = [p for p in body.trace.line if BLEND_MM + 20 < p[0] < body.length_mm - BLEND_MM - 20]
    assert len(middle) > 50
    assert [frame.distance(Point(p)) for p in middle] == pytest.approx([12.0] * len(middle), abs=0.05)


def test_the_cut_lies_outside_the_traced_line_all_round(body):
    assert Polygon(body.trace.cut).contains(Polygon(body.trace.line))
    assert LineString(body.trace.cut).distance(LineString(body.trace.line)) == pytest.approx(1.0, abs=0.01)


def test_half_widths_inside_the_line_agree_with_its_area(body):
    x = np.linspace(*body.trace.ends_mm, 4001)
    assert 2 * np.trapezoid(body.trace.half_width_mm(x), x) == pytest.approx(body.trace.area_mm2, rel=1e-4)
    assert 2 * np.max(body.trace.half_width_mm(x)) == pytest.approx(body.trace.widest_mm, rel=1e-4)


def test_an_outline_that_pinches_to_nothing_still_has_one_line_to_both_tips():
    half = np.array([[0, 0], [200, 0], [400, 150], [700, 0], [1000, 150], [1200, 0]], dtype=float)
    around = np.vstack((half, half[-2::-1] * (1, -1)))
    trace = make_trace(around, sides_mm=12, tips_mm=30)
    assert trace.ends_mm == pytest.approx((-30, 1230), abs=0.05)
    assert np.all(trace.half_width_mm(np.linspace(0, 1200, 50)) > 5)
