"""Boards for the tests of crown, rails and fittings: the demo boards with some fields changed, and a round one."""

import functools
import math
from pathlib import Path

from generator.board.body import make_body
from generator.inputs.board import HalfWidth
from generator.inputs.builder import Measured
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
ROUND_MM = 1500.0
"""Radius of both sides of the round board's frame."""


@functools.cache
def inputs_of(slug="mara"):
    return read_builder(DATA, slug)


def body_of(slug="mara", *, panel_mm=None, **changes):
    """A demo builder's board; `changes` are fields of the board, a mapping changes some of a group's."""
    read = inputs_of(slug)
    for name, value in changes.items():
        if isinstance(value, dict):
            changes[name] = getattr(read.board, name).model_copy(update=value)
    board = read.board.model_copy(update=changes)
    measured = Measured.model_validate({"panel_thickness_mm": panel_mm}) if panel_mm else Measured()
    return make_body(board, rocker=board.rocker, measured=measured, trace_margin=read.maker.defaults.trace_margin)


def round_body(**changes):
    """A board with squared tips whose frame is bounded by two arcs, so that every layer of its rails is one too."""
    length, places = 1600.0, [i * 100.0 for i in range(17)]
    halves = [
        HalfWidth.model_validate(
            {"from_tail_mm": x, "half_width_mm": 240 - ROUND_MM + math.sqrt(ROUND_MM**2 - (x - length / 2) ** 2)}
        )
        for x in places
    ]
    rocker = tuple(one for one in inputs_of().board.rocker if one.from_tail_mm <= length)
    thickness = tuple(one for one in inputs_of().board.thickness if one.from_tail_mm <= length)
    ribs = {"from_tail_mm": (200, 400, 600, 800, 1000, 1200, 1400)}
    return body_of(
        length_mm=length, sizes_of="frame", tail="square", nose="square", half_widths=tuple(halves), rocker=rocker,
        thickness=thickness, ribs=ribs, **changes,
    )  # fmt: skip
