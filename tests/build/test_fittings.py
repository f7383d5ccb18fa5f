"""Fin and plugs in their blocks."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rail_boards import body_of

from generator.build.fittings import (
    LEFT_MM,
    block_for,
    drilled,
    fin_seat,
    leash_pull_n,
    plug_holds_n,
)

SLUGS = ("mara", "ines", "tobin")
PLUGS = (("leash_plug", "leash plug"), ("vent", "vent"))


@pytest.mark.parametrize("slug", SLUGS)
@pytest.mark.parametrize(("name", "holds"), PLUGS)
def test_a_hole_of_the_told_depth_leaves_wood_before_the_bottom_panel(slug, name, holds):
    body = body_of(slug)
    plug = getattr(body.board.fittings, name)
    hole = drilled(body, plug, holds)
    for dx in (-1, 0, 1):
        for dy in (-1, 0, 1):
            at = plug.from_tail_mm + dx * plug.hole_mm / 2, plug.from_centre_mm + dy * plug.hole_mm / 2
            whole = body.panel_mm + float(body.inside_depth_mm(*at))
            assert whole - hole.stop_mm >= LEFT_MM - 1.0  # corners of the square round the hole lie outside it
    assert hole.margins.least_mm >= 10


def test_a_thicker_panel_lets_the_drill_go_as_much_deeper():
    thin, thick = (drilled(body_of(panel_mm=t), body_of().board.fittings.leash_plug, "leash plug") for t in (5, 7))
    assert thick.stop_mm - thin.stop_mm == pytest.approx(2)
    assert thick.block_mm == thin.block_mm


@pytest.mark.parametrize("slug", SLUGS)
def test_the_fins_slot_and_the_wood_left_make_up_panel_and_block(slug):
    body = body_of(slug)
    seat, fin, block = fin_seat(body), body.board.fittings.fin, block_for(body, "fin")
    assert seat.slot_mm + LEFT_MM == pytest.approx(body.panel_mm + seat.block_mm)
    assert seat.front_mm - fin.from_tail_mm == fin.base_mm
    assert seat.margins.tail_mm + fin.base_mm + seat.margins.nose_mm == pytest.approx(block.length_mm)


def test_the_block_is_shallower_beside_the_centre_line():
    body = body_of()
    deep, beside = (float(body.inside_depth_mm(1150, y)) for y in (0, 120))
    assert deep == pytest.approx(float(body.spine_depth_mm(1150)))
    assert beside < deep
    assert float(body.inside_depth_mm(1150, -120)) == beside


def test_a_board_without_the_block_is_refused():
    with pytest.raises(LookupError):
        block_for(body_of(blocks=()), "fin")


@given(hole=st.floats(4, 60), deep=st.floats(1, 100), heavy=st.floats(100, 1000), more=st.floats(1, 2))
def test_a_wider_deeper_or_denser_seat_never_holds_less(hole, deep, heavy, more):
    base = plug_holds_n(hole_mm=hole, depth_mm=deep, density_kg_m3=heavy)
    assert plug_holds_n(hole_mm=hole * more, depth_mm=deep, density_kg_m3=heavy) >= base
    assert plug_holds_n(hole_mm=hole, depth_mm=deep * more, density_kg_m3=heavy) >= base
    assert plug_holds_n(hole_mm=hole, depth_mm=deep, density_kg_m3=heavy * more) >= base


def test_a_heavier_rider_pulls_harder_and_nonsense_is_refused():
    light, heavy = leash_pull_n(60), leash_pull_n(90)
    assert all(b == pytest.approx(1.5 * a) for a, b in zip(light, heavy, strict=True))
    assert list(light) == sorted(light)
    with pytest.raises(ValueError, match="above 0"):
        plug_holds_n(hole_mm=0, depth_mm=20, density_kg_m3=430)
    with pytest.raises(ValueError, match="above 0"):
        plug_holds_n(hole_mm=20, depth_mm=20, density_kg_m3=0)
