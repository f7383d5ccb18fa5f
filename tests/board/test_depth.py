"""Thickness, crown, strip and volume."""

import numpy as np
import pytest

ENDS = [(300, 44, 11), (1150, 70, 18), (1900, 47, 12)]


def test_stations_are_met_and_the_thickest_one_is_the_thickest(body):
    assert body.finished_thickness_mm([0, 300, 1150, 1900, 2300]) == pytest.approx([34, 44, 70, 47, 30])
    assert body.crown_mm([300, 1150, 1900]) == pytest.approx([11, 18, 12])
    assert np.max(body.finished_thickness_mm(np.linspace(0, 2300, 500))) <= 70 + 1e-9


def test_a_finished_board_hides_both_panels_and_a_frame_carries_them(make):
    finished, frame = make(), make(sizes_of="frame")
    x = np.linspace(0, 2300, 20)
    assert finished.finished_thickness_mm(x) - finished.spine_depth_mm(x) == pytest.approx(np.full(20, 12.0))
    assert frame.spine_depth_mm(x) == pytest.approx(finished.finished_thickness_mm(x))
    assert frame.finished_thickness_mm(x) - frame.spine_depth_mm(x) == pytest.approx(np.full(20, 12.0))


def test_past_the_last_station_the_board_gets_thinner_and_no_less_than_half(make):
    body = make(thickness=ENDS)
    x = np.linspace(0, 300, 30)
    thick = body.finished_thickness_mm(x)
    assert np.all(np.diff(thick) >= 0)
    assert thick[0] >= 22
    crown = body.crown_mm(x)
    # same crown radius: the crown goes with the square of the width
    assert crown == pytest.approx(11 * (body.finished.half_width_mm(x) / body.finished.half_width_mm(300)) ** 2)


def test_a_blunt_end_does_not_get_thicker_past_its_last_station(make):
    body = make(thickness=[(300, 60, 11), (1150, 55, 18), (1900, 60, 12)])
    assert body.finished_thickness_mm([0, 150, 2100, 2300]) == pytest.approx([60] * 4)


def test_the_edge_strip_falls_from_mid_length_to_both_tips(body):
    assert body.strip_height_mm([0, 1150, 2300]) == pytest.approx([14, 28, 14])
    assert body.strip_height_mm(575) == pytest.approx(28 - 14 / 4)


@pytest.mark.parametrize("crown", [0, 20])
def test_a_plank_with_square_rails_has_its_volume(make, crown):
    # squared ends, sides all but straight, no rail: 2 F (T − c/3) L; the panels are part of T
    body = make(
        tail="square", nose="square", rail_mm=0.0,
        half_widths=[(0, 250), (1150, 250), (2300, 250)],
        thickness=[(0, 60, crown), (1150, 60, crown), (2300, 60, crown)],
    )  # fmt: skip
    assert body.volume_l == pytest.approx(500 * (60 - crown / 3) * 2300 / 1e6, rel=1e-9)


def test_twice_as_thick_has_twice_the_volume(make):
    one = make()
    two = make(thickness=[(x, 2 * t, 2 * c) for x, t, c in [(0, 34, 5), (300, 44, 11), (1150, 70, 18), (1900, 47, 12),
                                                            (2300, 30, 3)]])  # fmt: skip
    assert two.volume_l == pytest.approx(2 * one.volume_l, rel=1e-9)


def test_round_rails_take_volume_away(make):
    sharp, wide = make(rail_mm=10.0), make(rail_mm=40.0)
    assert wide.volume_l < sharp.volume_l
    assert wide.volume_l == pytest.approx(sharp.volume_l, rel=0.05)
