"""The whole board: nothing in its file is idle, and what belongs together fits together."""

import dataclasses
import time

import numpy as np
import pytest

from generator.board.body import make_body
from generator.board.rocker import RockerHeight
from generator.board.section import sections
from generator.inputs.builder import Measured

WIDER = [(0, 90), (300, 188), (800, 258), (1180, 275), (1600, 262), (2000, 205)]
THICKER = [(0, 34, 5), (300, 44, 11), (1150, 72, 18), (1900, 47, 12), (2300, 30, 3)]
CROWNED = [(0, 34, 5), (300, 44, 11), (1150, 70, 14), (1900, 47, 12), (2300, 30, 3)]
STEEPER = [(0, 62), (300, 23), (600, 7), (1000, 0), (1500, 10), (2000, 54), (2300, 118)]
CHANGES = [
    {"sizes_of": "frame"},
    {"length_mm": 2320.0},
    {"rail_mm": 20.0},
    {"tail": "round", "half_widths": WIDER[1:]},
    {"nose": "pointed"},
    {"half_widths": WIDER},
    {"thickness": THICKER},
    {"thickness": CROWNED},
    {"spine": {"thickness_mm": 8.0}},
    {"spine": {"density_kg_m3": 600.0}},
    *({"spine": {"stiffness_mpa": {"value": 6500, "low": 5000, "high": 8000, one: value}}}
      for one, value in (("low", 4000), ("value", 7000), ("high", 9000))),
    {"ribs": {"thickness_mm": 6.0}},
    {"ribs": {"density_kg_m3": 500.0}},
    {"ribs": {"from_tail_mm": [190, 400, 610, 820, 1030, 1240, 1450, 1660, 1870, 2090]}},
    {"slots": {"share_of_depth": 0.45}},
    {"slots": {"width_mm": 7.0}},
    {"slots": {"open_to": "bottom"}},
    {"edge_strip": {"height_mm": 30.0}},
    {"edge_strip": {"height_at_tips_mm": 16.0}},
    {"edge_strip": {"thickness_mm": 5.0}},
    {"edge_strip": {"density_kg_m3": 500.0}},
    *({"edge_strip": {"stiffness_mpa": {"value": 8000, "low": 6500, "high": 9500, one: value}}}
      for one, value in (("low", 6000), ("value", 8500), ("high", 9900))),
    {"frame_bottom": "to the rocker"},
    {"frame_bottom": [(0, 20), (700, 3), (1500, 4), (2300, 30)]},
    {"panel": {"thickness_mm": 5.0}},
    {"panel": {"density_kg_m3": 340.0}},
    {"panel": {"plank_width_mm": 100.0}},
    {"panel": {"plank_length_mm": 1900.0}},
    *({"panel": {"stiffness_mpa": {"value": 4500, "low": 3500, "high": 5500, one: value}}}
      for one, value in (("low", 3000), ("value", 4800), ("high", 6500))),
    {"trace_margin": {"sides_mm": 14.0}},
    {"trace_margin": {"tips_mm": 35.0}},
    {"trace_margin": None},
    {"rocker": STEEPER},
]  # fmt: skip


def numbers(body):
    """Everything that the body tells the rest, as one flat tuple."""
    x = np.linspace(0, 2300, 9)
    found = [body.volume_l, body.finished_area_mm2, body.frame_area_mm2, body.finished_perimeter_mm]
    found += [*body.trace.ends_mm, body.trace.area_mm2, body.load.total_n, body.developed_length_mm]
    found += [*dataclasses.astuple(body.blank), *dataclasses.astuple(body.masses), *dataclasses.astuple(body.rises)]
    found += [value for part in (*body.ribs, *body.marks) for value in dataclasses.astuple(part)]
    found += [*body.spine_depth_mm(x), *body.strip_height_mm(x), *body.crown_mm(x), *body.rocker.height_mm(x)]
    for which in ("low", "value", "high"):
        pieces = sections(body, which=which)
        found += [value for field in dataclasses.fields(pieces) for value in getattr(pieces, field.name)]
    return tuple(map(float, found))


@pytest.fixture(scope="module")
def unchanged(make):
    return numbers(make())


@pytest.mark.parametrize("change", CHANGES, ids=str)
def test_no_field_of_the_board_is_idle(make, unchanged, change):
    if change == {"trace_margin": None}:  # then the maker's own is used: 12 and 30 here, which the board has too
        assert numbers(make(**change)) == unchanged
        change = {"trace_margin": {"sides_mm": 13.0, "tips_mm": 31.0}}
    assert numbers(make(**change)) != unchanged


@pytest.mark.parametrize(
    "measured", [Measured(panel_thickness_mm=5.5), Measured(panel_mass_kg=2.0), Measured(frame_mass_kg=1.5)]
)
def test_no_measurement_is_idle(make, unchanged, measured):
    assert numbers(make(measured=measured)) != unchanged


def test_the_same_board_gives_the_same_numbers(make, unchanged):
    assert numbers(make()) == unchanged


def test_measured_panels_change_the_board_and_not_the_frame_that_is_already_cut(make):
    one, other = make(), make(measured=Measured(panel_thickness_mm=5.0))
    assert other.spine_depth_mm(1150) == pytest.approx(one.spine_depth_mm(1150))
    assert float(one.finished_thickness_mm(1150) - other.finished_thickness_mm(1150)) == pytest.approx(2.0)
    assert other.masses.panel_kg == pytest.approx(one.masses.panel_kg * 5 / 6)


def test_another_rocker_leaves_a_frame_as_it_was_cut(make):
    higher = tuple(RockerHeight(x, z) for x, z in STEEPER)
    body = make(frame_bottom="to the rocker", bent_to=higher)
    assert body.rises.tail_mm == pytest.approx(62, abs=1)
    assert float(body.frame_bottom.height_mm(0)) == pytest.approx(58, abs=1)


def test_a_plain_rocker_is_met_and_counted_from_its_low_point(body):
    assert body.rocker_fit.worst_mm <= 1.0 + 1e-9
    assert float(body.rocker.height_mm(body.rises.low_point_mm)) == pytest.approx(0, abs=1e-9)
    assert body.rises.nose_mm == pytest.approx(118, abs=2)


def test_the_blank_holds_the_traced_line_along_the_bend(body):
    blank = body.blank
    assert blank.length_mm == pytest.approx(body.developed_length_mm + 60)
    assert blank.length_mm > body.length_mm + 60
    assert blank.width_mm == pytest.approx(2 * (275 - 28 + 12), rel=0.008)  # the top may stand 0.8 % out
    assert (blank.planks_across, blank.planks_along, blank.planks) == (5, 2, 10)
    assert blank.spare_width_mm == pytest.approx(5 * 110 - blank.width_mm)
    assert blank.spare_length_mm == pytest.approx(2 * 1250 - blank.length_mm)


def test_line_up_marks_follow_the_bend(body):
    assert [mark.from_tail_mm for mark in body.marks] == [rib.from_tail_mm for rib in body.ribs]
    for mark in body.marks:
        assert mark.from_end_mm == pytest.approx(30 + body.rocker.developed_length_mm(0, mark.from_tail_mm))


def test_frame_and_finished_board_are_a_rail_apart_whichever_was_given(make):
    for sizes in ("finished", "frame"):
        body = make(sizes_of=sizes)
        gap = body.finished.half_width_mm([300, 1180, 1600]) - body.frame.half_width_mm([300, 1180, 1600])
        assert gap == pytest.approx([28] * 3, abs=0.05)


def test_a_board_without_any_margin_is_refused(make_board):
    board = make_board(trace_margin=None)
    with pytest.raises(ValueError, match="trace margin"):
        make_body(board, rocker=board.rocker)


def test_making_a_board_is_quick(make):
    # alone it takes about 15 ms; the best of three, since other work may share the machine
    best = min(_seconds(make) for _ in range(3))
    assert best < 0.3


def _seconds(make):
    start = time.perf_counter()
    make()
    return time.perf_counter() - start
