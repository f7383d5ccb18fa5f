"""The rail between frame and finished outline."""

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.board.outline import fair_outline
from generator.board.rail import finished_round, frame_inside

PAIRS = [(0, 90), (300, 185), (1180, 275), (2000, 205)]
SHAPE = fair_outline(
    [SimpleNamespace(from_tail_mm=x, half_width_mm=y) for x, y in PAIRS], length_mm=2300, tail="square", nose="round"
)


@settings(max_examples=20, deadline=None)
@given(st.floats(0, 50))
def test_building_the_rail_up_again_gives_the_finished_board_back(rail):
    back = finished_round(frame_inside(SHAPE, rail_mm=rail), rail_mm=rail)
    assert back.y_mm == pytest.approx(SHAPE.y_mm, abs=1e-9)


def test_the_rail_has_its_width_along_the_sides_and_runs_out_at_a_round_tip():
    built = SHAPE.y_mm - frame_inside(SHAPE, rail_mm=30).y_mm
    along_side = SHAPE.x_mm < 2300 - 400
    assert built[along_side] == pytest.approx(np.full(np.count_nonzero(along_side), 30.0))
    assert np.interp(2000, SHAPE.x_mm, built) == pytest.approx(30, rel=0.02)
    assert built[-1] == pytest.approx(0, abs=1e-9)
    assert np.all(np.diff(built) <= 1e-9)


@pytest.mark.parametrize("rail", [0.0, 80.0])
def test_a_frame_is_never_wider_than_its_board_nor_gone(rail):
    inside = frame_inside(SHAPE, rail_mm=rail)
    assert np.all(inside.y_mm <= SHAPE.y_mm + 1e-12)
    assert np.all(inside.y_mm[:-1] > 0)
