"""Sag tests and the way from the bench to the finished board, against handbooks and first principles.

Sources, by test:
- CEF: Brockenbrough and Hicks, Civil Engineering Formulas, Figure 2.3 (d), page 33: a load at midspan of a simply
  supported prismatic beam drops it by PL³/48EI and turns its ends by PL²/16EI (read on a page that reprints it).
- D3043: ASTM D3043, Structural Panels in Flexure, Method A (centre-point flexure): E = L³/48I · P/Δ (from memory).
- Gere: Gere and Timoshenko, Mechanics of Materials, chapter on deflections, example of a beam whose middle half has
  twice the I of its ends: PL³ · 3/256EI at the middle, 5PL²/128EI at the ends (from memory; both also follow from the
  moment-area theorems, as written out below).
- Parallel axes: the transformed section of unlike layers (textbook, from memory).
"""

import numpy as np
import pytest

from generator.bench.assembly import Sections
from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import solve
from generator.bench.release import released
from generator.bench.tops import Top, rest_on
from generator.board.sag import drop_mm, measured_scale
from generator.quantities import GRAVITY_M_S2, fixed

LENGTH = 2400.0
KG = 5 / GRAVITY_M_S2
"""A weight of 5 N."""


@pytest.mark.parametrize(("apart", "stiffness"), [(1800.0, 2.3e8), (1000.0, 7.6e7), (2400.0, 1.1e9)])
def test_an_even_strip_on_two_tins(apart, stiffness):
    """CEF: PL³/48EI. The integral is exact where E·I is even, so the tolerance is rounding."""
    drop = drop_mm(lambda x: stiffness + 0 * x, length_mm=LENGTH, apart_mm=apart, weight_kg=KG)
    assert drop == pytest.approx(5 * apart**3 / (48 * stiffness), rel=1e-9)


def test_a_strip_is_as_stiff_as_its_drop_says():
    """D3043, method A: a panel 500 × 6 that drops 9.3 mm under 15 N over 900 mm has E = L³/48I · P/Δ = 2721 MPa."""
    second, given = 500 * 6**3 / 12, 4000.0
    expected = drop_mm(lambda x: given * second + 0 * x, length_mm=LENGTH, apart_mm=900, weight_kg=15 / GRAVITY_M_S2)
    found = measured_scale(read_mm=9.3, given_mm=expected)
    assert found.value * given == pytest.approx(900**3 / (48 * second) * 15 / 9.3, rel=1e-9)
    assert found.low * given < 2721 < found.high * given


def test_a_strip_twice_as_stiff_in_its_middle_half():
    """Gere: 3PL³/256EI. By moments of area: P/2 · [ (L/4)³/3 + ((L/2)³ − (L/4)³)/(3 · 2) ] / EI = 3PL³/256EI."""
    ei, length = 1.5e8, 2000.0

    def stiffness(x):
        return np.where((x < 500) | (x > 1500), ei, 2 * ei)

    by_areas = 5 / 2 * ((length / 4) ** 3 / 3 + ((length / 2) ** 3 - (length / 4) ** 3) / 6) / ei
    printed = 3 * 5 * length**3 / (256 * ei)
    assert by_areas == pytest.approx(printed)
    assert drop_mm(stiffness, length_mm=length, apart_mm=length, weight_kg=KG) == pytest.approx(printed, rel=1e-9)


def test_the_stepped_strip_turns_its_ends_as_printed():
    """Gere: 5PL²/128EI at each end; the bench's solver on the same strip, as a second witness of the drop too."""
    ei, one = 1.5e8, np.ones(3)
    beam = Beam(
        2000.0, np.array([0.0, 500, 1500, 2000]), ei * np.array([1.0, 2, 1]), *(0 * one,) * 4, (PointLoad(1000.0, 5.0),)
    )
    bent = solve(beam, x_mm=[0.0, 2000.0], height_mm=[0.0, 0.0])
    assert float(bent.slopes([2000.0])[0]) == pytest.approx(5 * 5 * 2000**2 / (128 * ei), rel=1e-9)
    assert -float(bent.heights_mm(1000.0)) == pytest.approx(3 * 5 * 2000**3 / (256 * ei), rel=1e-9)


def board(*, loose: float, glued: float, panel: float, closed: float, free_per_mm: float = 0.0) -> Sections:
    one = np.ones(2)
    return Sections(
        fixed([0.0, LENGTH / 2, LENGTH]),
        *(fixed(value * one) for value in (loose, glued, panel, closed)),
        *(fixed(0 * one),) * 4,
        *(fixed(free_per_mm * one),) * 2,
    )


def let_go(sections: Sections, load_n: float):
    """A weightless board on its two tips with one load in the middle, followed to the finished box."""
    loads, tops = [PointLoad(LENGTH / 2, load_n)], [Top(0.0, 0.0, 0.0), Top(LENGTH, LENGTH, 0.0)]
    bent = rest_on(sections.beam(loads), tops).bent
    return released(bent, sections, tops, loads, low_point_mm=LENGTH / 2)


LAYERS = {
    # E·I of a frame 2.2e8 and a panel 0.8e8, one panel glued on (transformed section), and both.
    "loose": 3.0e8,
    "glued": 9.5e8,
    "panel": 0.8e8,
    "closed": 1.6e10,
}


def test_what_springs_back_is_the_drop_of_the_glued_board():
    """CEF: the bench's load bent the loose board by PL³/48EI; taken off, it gives back PL³/48EI of the glued one."""
    after = let_go(board(**LAYERS), 60.0)
    assert after.lifted.nose_mm == pytest.approx(60 * LENGTH**3 / (48 * 9.5e8), rel=1e-4)
    assert after.lifted.kept_share == pytest.approx(1 - 3.0 / 9.5, rel=1e-6)


def test_a_flat_strip_glued_to_a_curved_one_lying_free_leaves_the_stiffer_one_s_share():
    """Two strips bent to one curve, no moment left in sum: E₁I₁(k − k₁) + E₂I₂·k = 0, k = k₁·E₁I₁/(E₁I₁ + E₂I₂)."""
    after = let_go(board(**LAYERS), 60.0)
    bend = 60 * LENGTH**3 / (48 * 3.0e8)
    kept = bend * (1 - 3.0 / 9.5) * 9.5 / (9.5 + 0.8)
    assert after.free_top.nose_mm == pytest.approx(bend - kept, rel=1e-4)


def test_left_on_its_two_tips_the_flat_panel_gives_way_there_and_the_box_gives_back_next_to_nothing():
    """The load bends all three as it bent two, so they straighten to k = (M + E₁I₁·f) / (E₁I₁ + E₂I₂), with
    f = k₀ − M/E₁I₁ what the pair had: k₀·E₁I₁/(E₁I₁ + E₂I₂). Then the box springs back by M/EI of the box (CEF)."""
    after = let_go(board(**LAYERS), 60.0)
    bend = 60 * LENGTH**3 / (48 * 3.0e8)
    kept = bend * 9.5 / (9.5 + 0.8) - 60 * LENGTH**3 / (48 * 1.6e10)
    assert after.kept.nose_mm == pytest.approx(bend - kept, rel=1e-4)
    assert after.lifted.nose_mm > after.kept.nose_mm


def test_a_frame_cut_to_half_of_the_curve_loses_only_on_what_was_bent_in():
    """What is given back is the moment's share: the part of the curve that was there before the load is kept whole."""
    after = let_go(board(**LAYERS, free_per_mm=2e-5), 60.0)
    assert after.lifted.nose_mm == pytest.approx(60 * LENGTH**3 / (48 * 9.5e8), rel=1e-4)
    straight = let_go(board(**LAYERS), 60.0)
    assert after.lifted.kept_share > straight.lifted.kept_share
    assert after.free_top.nose_mm > straight.free_top.nose_mm
