"""The rails: layers, bends, pieces, bevels."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rail_boards import ROUND_MM, body_of, round_body

from generator.build.rails import (
    Stock,
    deck_slope_deg,
    edge_strain,
    layer_strain,
    layers_needed,
    pieces_of,
    rail_layers,
    rim_height_mm,
    rim_of,
)

CUT = {"scarf": 8.0, "extra_mm": 30.0, "over_mm": 4.0, "stagger_mm": 200.0}
SLUGS = ("mara", "ines", "tobin")


@pytest.mark.parametrize(
    ("rail", "layer", "count"), [(30, 10, 3), (30, 7.5, 4), (30, 8, 4), (30, 30, 1), (0, 10, 0), (0.9, 0.3, 3)]
)
def test_enough_layers_make_the_rail_and_one_less_does_not(rail, layer, count):
    assert layers_needed(rail_mm=rail, layer_mm=layer) == count


@pytest.mark.parametrize("slug", SLUGS)
def test_outer_layers_are_shorter_lower_and_lie_within_the_inner_ones(slug):
    layers = rail_layers(body_of(slug))
    assert [layer.number for layer in layers] == list(range(1, len(layers) + 1))
    for inner, outer in pairwise(layers):
        assert inner.from_tail_mm <= outer.from_tail_mm < outer.to_tail_mm <= inner.to_tail_mm
        assert outer.length_mm < inner.length_mm
        assert outer.height_middle_mm < inner.height_middle_mm


@pytest.mark.parametrize("slug", SLUGS)
def test_the_rim_is_half_of_the_frames_outline(slug):
    body = body_of(slug)
    square = sum(float(body.frame.half_width_mm(x)) for x in (0.0, body.length_mm))
    assert rim_of(body).length_mm == pytest.approx(body.frame_perimeter_mm / 2 - square, rel=2e-3)


def test_a_board_without_rails_has_no_layers():
    assert rail_layers(body_of(rail_mm=0.0)) == ()


def test_layers_outside_an_arc_are_arcs_and_longer_by_thickness_times_the_angle_they_turn():
    layers = rail_layers(round_body(rails={"layer_mm": 10.0}))
    assert len(layers) == 3
    turned = 2 * math.asin(800 / ROUND_MM)
    for layer in layers:
        middle = 10 * (layer.number - 0.5)
        assert layer.tightest_mm == pytest.approx(ROUND_MM + middle, rel=0.02)  # the outline is a spline, near the arc
        assert layer.length_mm == pytest.approx((ROUND_MM + middle) * turned, rel=2e-3)
        assert (layer.from_tail_mm, layer.to_tail_mm) == pytest.approx((0, 1600), abs=1e-6)


def test_tight_stretches_are_those_where_the_strain_is_above_the_limit():
    body = round_body()
    strain = 10 / (2 * (ROUND_MM + 5))
    loose, tight = (rail_layers(body, limit_strain=share * strain)[0] for share in (1.05, 0.95))
    assert (loose.tight_tail_mm, loose.tight_nose_mm, loose.tight_between) == (0, 0, False)
    assert tight.tight_between
    assert tight.tight_tail_mm > 0 < tight.tight_nose_mm
    assert layer_strain(tight, layer_mm=10) == pytest.approx(strain, rel=0.02)


@settings(deadline=None, max_examples=20)
@given(limit=st.floats(1e-4, 2e-2), more=st.floats(1, 3))
def test_a_tougher_wood_has_no_longer_tight_stretches(limit, more):
    body = body_of()
    weak, tough = rail_layers(body, limit_strain=limit), rail_layers(body, limit_strain=limit * more)
    for one, other in zip(weak, tough, strict=True):
        assert other.tight_tail_mm <= one.tight_tail_mm
        assert other.tight_nose_mm <= one.tight_nose_mm


@pytest.mark.parametrize("slug", SLUGS)
def test_the_side_is_as_high_as_rib_ends_or_strip_and_both_panels(slug):
    body = body_of(slug)
    at = np.array([rib.from_tail_mm for rib in body.ribs])
    ends = np.maximum([rib.end_depth_mm for rib in body.ribs], body.strip_height_mm(at))
    assert rim_height_mm(body, at) == pytest.approx(ends + 2 * body.panel_mm, rel=1e-9)


@settings(deadline=None, max_examples=25)
@given(long=st.floats(500, 3000), wide=st.floats(80, 300), more=st.floats(1, 1.6))
def test_longer_and_wider_planks_never_need_more_pieces(long, wide, more):
    body = body_of()
    layer = rail_layers(body)[0]
    small, large = (pieces_of(body, layer, Stock(by * long, by * wide), **CUT) for by in (1.0, more))
    if small is not None:
        assert large is not None
        assert large.count <= small.count
        assert small.length_mm <= long
        assert layer.height_middle_mm < small.plank_width_mm <= wide
        assert small.count * small.length_mm >= layer.length_mm


def test_planks_that_are_too_narrow_or_too_short_are_said_to_be():
    body = body_of()
    layer = rail_layers(body)[0]
    assert pieces_of(body, layer, Stock(2450, layer.height_middle_mm), **CUT) is None
    assert pieces_of(body, layer, Stock(250, 500), **CUT) is None


def test_one_piece_of_a_wide_plank_holds_the_whole_side_view():
    body = body_of()
    layer = rail_layers(body)[0]
    one = pieces_of(body, layer, Stock(4000, 400), **CUT)
    x = np.linspace(layer.from_tail_mm, layer.to_tail_mm, 400)
    low = body.rocker.height_mm(x)
    rise = float(np.max(np.interp(x, x[[0, -1]], low[[0, -1]]) - low))
    assert one.count == 1
    assert rise < one.plank_width_mm < rise + layer.height_middle_mm + 4 + 25


def test_bending_a_layer_up_its_height_stretches_it_more_the_higher_it_is():
    body = body_of()
    inner, *_, outer = rail_layers(body)
    assert edge_strain(body, inner) > edge_strain(body, outer) > 0


def test_a_flat_deck_has_a_square_edge_and_nonsense_is_refused():
    assert deck_slope_deg(half_width_mm=200, drop_mm=0) == 0
    for half, drop in ((0, 5), (200, -1), (float("nan"), 5)):
        with pytest.raises(ValueError, match="above 0"):
            deck_slope_deg(half_width_mm=half, drop_mm=drop)
