"""How wide the frame is by the typed sizes alone, against the fair outline that the guide is made from."""

from pathlib import Path

import numpy as np
import pytest

from generator.board.body import make_body
from generator.inputs.frame_width import frame_half_width_mm, nearest_room_mm
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
BOARDS = {slug: read_builder(DATA, slug) for slug in ("mara", "ines", "tobin")}  # pointed, square and round tips


@pytest.mark.parametrize("slug", BOARDS)
def test_it_is_close_to_the_fair_outline_and_hardly_ever_narrower(slug):
    read = BOARDS[slug]
    body = make_body(read.board, rocker=read.board.rocker, measured=None, trace_margin=read.maker.defaults.trace_margin)
    for x in np.linspace(0, body.length_mm, 60):
        about, fair = frame_half_width_mm(read.board, float(x)), float(body.frame.half_width_mm(x))
        assert fair - 8 <= about <= fair + 55


@pytest.mark.parametrize("slug", BOARDS)
@pytest.mark.parametrize("share", [0.001, 0.02, 0.98, 0.999])
def test_the_place_with_room_is_wide_enough_and_lies_towards_the_middle(slug, share):
    board = BOARDS[slug].board
    place = share * board.length_mm
    room = nearest_room_mm(board, place, 100.0)
    assert frame_half_width_mm(board, room) >= 100
    assert abs(room - board.length_mm / 2) <= abs(place - board.length_mm / 2)
    assert nearest_room_mm(board, room, 100.0) == room
