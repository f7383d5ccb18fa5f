"""Masses and where the weight lies."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.board.mass import GRAVITY_M_S2
from generator.inputs.builder import Measured

PLANK = {
    "tail": "square", "nose": "square", "rail_mm": 0.0, "sizes_of": "frame",
    "half_widths": [(0, 250), (1150, 250), (2300, 250)],
    "thickness": [(0, 50, 0), (1150, 50, 0), (2300, 50, 0)],
    "trace_margin": {"sides_mm": 10.0, "tips_mm": 10.0},
}  # fmt: skip


def test_a_plain_plank_weighs_what_its_parts_do(make):
    body = make(**PLANK, edge_strip={"height_mm": 20.0, "height_at_tips_mm": 20.0})
    masses = body.masses
    assert masses.panel_kg == pytest.approx((2320 * 520 - (4 - np.pi) * 100) * 6 * 300e-9, rel=1e-4)
    assert masses.spine_kg == pytest.approx((2300 * 50 - 10 * 25 * 5.5) * 6 * 650e-9, rel=1e-6)
    assert masses.ribs_kg == pytest.approx(10 * (500 * 50 - 25 * 6) * 5 * 450e-9, rel=1e-6)
    assert masses.strips_kg == pytest.approx(2 * 2300 * 20 * 4 * 420e-9, rel=1e-6)
    assert masses.frame_kg == pytest.approx(masses.spine_kg + masses.ribs_kg + masses.strips_kg)


def test_the_weight_along_the_board_is_the_whole_weight(body):
    assert body.load.total_n == pytest.approx(body.masses.loose_kg * GRAVITY_M_S2)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(1, 2299), min_size=1, max_size=30, unique_by=lambda x: round(x)))
def test_no_weight_is_lost_on_any_breaks(body, inner):
    breaks = np.array([0.0, *sorted(inner), 2300.0])
    assert np.trapezoid(body.load.per_mm(breaks), breaks) == pytest.approx(body.load.total_n, rel=1e-12)


def test_the_centre_of_a_mirrored_plank_is_its_middle(make):
    ribs = {"from_tail_mm": [230, 690, 1150, 1610, 2070]}
    assert make(**PLANK, ribs=ribs).load.centre_mm == pytest.approx(1150, abs=0.01)


def test_the_builders_scales_replace_the_sums(make):
    summed, weighed = make(), make(measured=Measured(panel_mass_kg=3.0, frame_mass_kg=2.0))
    assert (weighed.masses.panel_kg, weighed.masses.frame_kg) == (3.0, pytest.approx(2.0))
    assert weighed.masses.panel_weighed
    assert weighed.masses.frame_weighed
    assert weighed.load.total_n == pytest.approx(5 * GRAVITY_M_S2)
    share = summed.masses.spine_kg / summed.masses.frame_kg
    assert weighed.masses.spine_kg / weighed.masses.frame_kg == pytest.approx(share)
    assert not summed.masses.frame_weighed


def test_ribs_are_as_deep_as_the_spine_and_lower_at_their_ends(body):
    for rib in body.ribs:
        drop = (
            body.crown_mm(rib.from_tail_mm) * (rib.half_width_mm / body.finished.half_width_mm(rib.from_tail_mm)) ** 2
        )
        assert rib.depth_mm == pytest.approx(float(body.spine_depth_mm(rib.from_tail_mm)))
        assert rib.depth_mm - rib.end_depth_mm == pytest.approx(float(drop))


def test_a_board_of_common_size_weighs_what_such_boards_weigh(body):
    # common practice, our own notes: a 2.3 m kit's frame 0.9 to 1.7 kg with glue and blocks, one panel about 1.8 kg
    assert 0.7 < body.masses.frame_kg < 1.7
    assert body.masses.panel_kg == pytest.approx(1.8, rel=0.2)


def test_one_panel_s_weight_lies_along_the_board_as_its_width_does(make):
    """A plank of even width: the same everywhere, but for what overhangs the tips, which weighs on them."""
    load = make(**PLANK).panel_load
    inner = load.per_mm(np.linspace(0, 2300, 24))[2:-2]
    assert inner == pytest.approx(np.full(20, 520 * 6 * 300e-9 * GRAVITY_M_S2), rel=1e-6)
    assert load.centre_mm == pytest.approx(1150, abs=0.01)


def test_the_panel_s_weight_is_part_of_what_lies_on_the_bench(body):
    assert body.panel_load.total_n == pytest.approx(body.masses.panel_kg * GRAVITY_M_S2)
    breaks = np.linspace(0, 2300, 40)
    assert np.all(body.panel_load.per_mm(breaks) < body.load.per_mm(breaks))


def test_a_weighed_panel_weighs_the_same_on_the_bench_and_on_top(make):
    weighed = make(measured=Measured(panel_mass_kg=2.6))
    assert weighed.panel_load.total_n == pytest.approx(2.6 * GRAVITY_M_S2)
    summed = make()
    assert weighed.load.total_n - summed.load.total_n == pytest.approx(
        (2.6 - summed.masses.panel_kg) * GRAVITY_M_S2, rel=1e-9
    )
