"""One board of our own, invented, whose every field a test can change."""

from collections.abc import Callable
from typing import Any

import pytest

from generator.board.body import Body, make_body
from generator.inputs.board import Board, TraceMargin
from generator.inputs.builder import Measured

FIELDS: dict[str, Any] = {
    "name": "Invented",
    "sizes_of": "finished",
    "length_mm": 2300.0,
    "rail_mm": 28.0,
    "tail": "square",
    "nose": "round",
    "half_widths": [(0, 90), (300, 185), (800, 258), (1180, 275), (1600, 262), (2000, 205)],
    "thickness": [(0, 34, 5), (300, 44, 11), (1150, 70, 18), (1900, 47, 12), (2300, 30, 3)],
    "spine": {
        "material": "birch ply", "thickness_mm": 6.0, "density_kg_m3": 650.0,
        "stiffness_mpa": {"value": 6500, "low": 5000, "high": 8000},
    },
    "ribs": {
        "material": "gaboon ply", "thickness_mm": 5.0, "density_kg_m3": 450.0,
        "from_tail_mm": [190, 400, 610, 820, 1030, 1240, 1450, 1660, 1870, 2100],
    },
    "slots": {"share_of_depth": 0.5, "width_mm": 5.5, "open_to": "top"},
    "edge_strip": {
        "height_mm": 28.0, "height_at_tips_mm": 14.0, "thickness_mm": 4.0, "density_kg_m3": 420.0,
        "stiffness_mpa": {"value": 8000, "low": 6500, "high": 9500},
    },
    "frame_bottom": "straight",
    "panel": {
        "timber": "Paulownia", "thickness_mm": 6.0, "density_kg_m3": 300.0, "plank_width_mm": 110.0,
        "plank_length_mm": 1250.0, "stiffness_mpa": {"value": 4500, "low": 3500, "high": 5500},
    },
    "rails": {"built": "strips", "layer_mm": 10.0, "density_kg_m3": 320.0},
    "blocks": [
        {"holds": word, "from_tail_mm": at, "length_mm": long, "width_mm": wide, "density_kg_m3": 450.0}
        for word, at, long, wide in (
            ("tail", 0, 100, 120), ("leash plug", 105, 80, 100), ("fin", 195, 200, 60), ("vent", 1680, 70, 60),
            ("nose", 2190, 110, 120),
        )
    ],
    "fittings": {
        "fin": {"from_tail_mm": 210, "base_mm": 160, "depth_mm": 180, "mass_kg": 0.3},
        "leash_plug": {"from_tail_mm": 145, "hole_mm": 28, "mass_kg": 0.03},
        "vent": {"from_tail_mm": 1715, "hole_mm": 10, "mass_kg": 0.02},
    },
    "trace_margin": {"sides_mm": 12.0, "tips_mm": 30.0},
    "rocker": [(0, 58), (300, 23), (600, 7), (1000, 0), (1500, 10), (2000, 54), (2300, 118)],
}  # fmt: skip
LISTS = {
    "half_widths": ("from_tail_mm", "half_width_mm"),
    "thickness": ("from_tail_mm", "thickness_mm", "crown_mm"),
    "rocker": ("from_tail_mm", "height_mm"),
    "frame_bottom": ("from_tail_mm", "height_mm"),
}


def board_with(**changes: Any) -> Board:
    """The board with some fields changed; `spine={"thickness_mm": 8}` changes one of a group."""
    fields = dict(FIELDS)
    for name, value in changes.items():
        fields[name] = {**fields[name], **value} if isinstance(value, dict) else value
    for name, keys in LISTS.items():
        if not isinstance(fields[name], str):
            fields[name] = [dict(zip(keys, row, strict=True)) for row in fields[name]]
    return Board.model_validate(fields)


def body_with(*, measured: Measured | None = None, bent_to: Any = None, **changes: Any) -> Body:
    """Its body, bent to its own rocker unless another is given."""
    board = board_with(**changes)
    margin = TraceMargin(sides_mm=12, tips_mm=30)
    return make_body(board, rocker=bent_to or board.rocker, measured=measured, trace_margin=margin)


@pytest.fixture(scope="session")
def make_board() -> Callable[..., Board]:
    return board_with


@pytest.fixture(scope="session")
def make() -> Callable[..., Body]:
    return body_with


@pytest.fixture(scope="session")
def body() -> Body:
    return body_with()
