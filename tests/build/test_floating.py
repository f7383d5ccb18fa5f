"""Laws of floating: nothing is lost, everything balances, and more weight floats deeper."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.board.body import make_body
from generator.build.floating import BODY_THICK_MM, afloat, carried_kg, hull_of, lying, prone, wave_speed_m_s
from generator.build.weight import all_together, fitting_parts, wood_parts
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
SEA, FRESH = 1025.0, 1000.0
RIDERS = st.floats(15, 250)


class Made:
    """One demo board, its hull and its mass."""

    def __init__(self, slug):
        read = read_builder(DATA, slug)
        self.body = make_body(read.board, rocker=read.board.rocker, trace_margin=read.maker.defaults.trace_margin)
        self.hull = hull_of(self.body)
        self.weight = all_together([*wood_parts(self.body), *fitting_parts(self.body)])

    def prone(self, mass_kg, *, water=SEA, board_kg=None, thick=BODY_THICK_MM):
        return prone(
            self.body, self.hull, board_kg=board_kg or self.weight.kg, board_at_mm=self.weight.from_tail_mm,
            rider=lying(mass_kg, thick_mm=thick), water_kg_m3=water,
        )  # fmt: skip


BOARDS = {name: Made(slug) for name, slug in (("Dunlin", "mara"), ("Heron", "tobin"), ("Teal", "ines"))}
each = pytest.mark.parametrize("made", BOARDS.values(), ids=BOARDS)


@each
@settings(max_examples=40, deadline=None)
@given(one=RIDERS, other=RIDERS)
def test_a_heavier_rider_floats_deeper(made, one, other):
    light, heavy = sorted((one, other))
    a, b = made.prone(light), made.prone(heavy)
    assert a.level_mm <= b.level_mm + 1e-4
    if heavy > light + 0.1:
        assert a.level_mm < b.level_mm
        assert a.board_litres + a.rider_litres < b.board_litres + b.rider_litres


@each
@settings(max_examples=40, deadline=None)
@given(mass=RIDERS, water=st.sampled_from([SEA, FRESH]))
def test_the_water_pushed_away_weighs_what_floats_in_it_and_lies_under_it(made, mass, water):
    state, board = made.prone(mass, water=water), made.weight
    assert (state.board_litres + state.rider_litres) * water / 1000 == pytest.approx(board.kg + mass, rel=1e-5)
    litres, middle = made.hull.wet(state.level_mm)
    assert litres == pytest.approx(state.board_litres)
    lift = state.board_litres * middle + state.rider_litres * state.lie_at_mm
    if 0 < state.lie_at_mm < made.body.length_mm:
        weight = board.kg * board.from_tail_mm + mass * state.lie_at_mm
        assert lift * water / 1000 == pytest.approx(weight, rel=1e-4)


@each
def test_fresh_water_and_a_heavier_board_let_them_sink_deeper(made):
    for mass in (18, 40, 70, 110):
        assert made.prone(mass, water=FRESH).level_mm > made.prone(mass).level_mm
        assert made.prone(mass, board_kg=made.weight.kg + 2).level_mm > made.prone(mass).level_mm


@each
def test_as_long_as_the_deck_is_dry_no_part_of_the_rider_is_under_water(made):
    for mass in np.linspace(15, 120, 22):
        state = made.prone(mass)
        assert (state.rider_litres > 0) == (state.over_deck_mm > 0)
        assert state.board_litres <= made.hull.litres + 1e-9
        assert 0 < state.waterline_mm <= made.body.length_mm


@each
def test_what_the_board_carries_is_where_the_last_of_it_goes_under(made):
    carries = carried_kg(litres=made.hull.litres, board_kg=made.weight.kg, water_kg_m3=SEA)
    assert made.prone(carries - 15).board_litres < made.hull.litres
    assert made.prone(carries + 60).board_litres == pytest.approx(made.hull.litres, rel=0.01)


@each
def test_more_of_the_bottom_is_wet_the_heavier_the_rider(made):
    lengths = [made.prone(mass).waterline_mm for mass in (15, 30, 50, 80, 140)]
    assert lengths == sorted(lengths)


@each
def test_the_board_alone_lies_level_with_its_own_middle(made):
    alone = afloat(made.hull, mass_kg=made.weight.kg, from_tail_mm=made.weight.from_tail_mm, water_kg_m3=SEA)
    assert alone.litres * SEA / 1000 == pytest.approx(made.weight.kg, rel=1e-6)
    assert alone.middle_mm == pytest.approx(made.weight.from_tail_mm, abs=0.01)
    further_back = afloat(
        made.hull, mass_kg=made.weight.kg, from_tail_mm=made.weight.from_tail_mm - 20, water_kg_m3=SEA
    )
    assert further_back.slope < alone.slope  # the tail sinks


@each
@pytest.mark.parametrize("mass", [0.0, 500.0])
def test_what_weighs_nothing_or_more_than_its_water_does_not_float(made, mass):
    with pytest.raises(ValueError, match="sinks"):
        afloat(made.hull, mass_kg=mass, from_tail_mm=1000, water_kg_m3=SEA)


@each
def test_a_mass_at_the_very_tip_does_not_lie_flat(made):
    with pytest.raises(ValueError, match="too near an end"):
        afloat(made.hull, mass_kg=20, from_tail_mm=1, water_kg_m3=SEA)


@each
def test_a_board_as_heavy_as_its_water_is_refused(made):
    with pytest.raises(ValueError, match="heavier than the water"):
        made.prone(60, board_kg=made.hull.litres * 1.1)


def test_a_lying_person_is_as_heavy_as_typed_and_a_stocky_one_covers_less():
    usual, stocky = lying(80), lying(80, thick_mm=150)
    assert usual.litres == pytest.approx(usual.area_mm2 * usual.thick_mm / 1e6)
    assert stocky.litres == usual.litres
    assert stocky.area_mm2 < usual.area_mm2
    assert lying(70).thick_mm == pytest.approx(BODY_THICK_MM)


def test_four_times_the_waterline_is_twice_the_speed():
    assert wave_speed_m_s(8.4) == pytest.approx(2 * wave_speed_m_s(2.1))
    for wrong in (-1.0, float("nan")):
        with pytest.raises(ValueError, match="waterline"):
            wave_speed_m_s(wrong)
