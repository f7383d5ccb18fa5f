"""Handbook beams, laid on supports by the contact solver.

Sources, by test:
- DA6: American Wood Council, Design Aid No. 6, Beam Design Formulas with Shear and Moment Diagrams (2007), figure
  numbers as tested by an open finite-element library written after it.
- AISC: Steel Construction Manual, Table 3-23 (case numbers from memory).
- CEF: Brockenbrough and Hicks, Civil Engineering Formulas, Table 2.1.
- Two overhangs, two unequal spans: standard tables as shown by an engineering calculator (piping-designer pages);
  two equal spans: engineersedge "beam, three supports, uniform load".

Formulas are exact, so the tolerance is rounding (1e-9) except where the table prints a decimal coefficient.
Handbooks take sag and hogging as numbers without sign; here a moment that adds rocker (sag) is positive.
"""

import numpy as np
import pytest

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import Bent, solve

EI = 2.5
EXACT = {"rel": 1e-9, "abs": 1e-9}


def beam(length: float, w: float = 0.0, *loads: tuple[float, float], cuts: tuple[float, ...] = ()) -> Beam:
    breaks = np.array([0.0, *cuts, length])
    n = breaks.size - 1
    return Beam(
        length,
        breaks,
        np.full(n, EI),
        np.full(n, w),
        np.full(n, w),
        np.zeros(n),
        np.zeros(n),
        tuple(PointLoad(x, p) for x, p in loads),
    )


def rest(given: Beam, *places: float) -> Bent:
    bent = solve(given, x_mm=places, height_mm=np.zeros(len(places)))
    assert bent.status == "ok"
    assert bent.touching.all()
    return bent


def moment(bent: Bent, x: float) -> float:
    return float(bent.moment_n_mm([x])[0])


def height(bent: Bent, x: float) -> float:
    return float(bent.heights_mm([x])[0])


def test_simple_span_under_its_own_weight():
    """DA6 figure 1; AISC case 1: R = wL/2, M = wL²/8, sag 5wL⁴/384EI."""
    bent = rest(beam(10, 0.5), 0, 10)
    assert bent.reactions_n == pytest.approx([2.5, 2.5], **EXACT)
    assert moment(bent, 5) == pytest.approx(6.25, **EXACT)
    assert -height(bent, 5) * EI == pytest.approx(5 * 0.5 * 10**4 / 384, **EXACT)


def test_simple_span_with_a_load_at_its_middle():
    """DA6 figure 7; AISC case 7: R = P/2, M = PL/4, sag PL³/48EI."""
    bent = rest(beam(12, 0, (6, 10)), 0, 12)
    assert bent.reactions_n == pytest.approx([5, 5], **EXACT)
    assert moment(bent, 6) == pytest.approx(30, **EXACT)
    assert -height(bent, 6) * EI == pytest.approx(360, **EXACT)


def test_simple_span_with_a_load_off_its_middle():
    """DA6 figure 8; AISC case 8: R1 = Pb/L, M = Pab/L, sag under the load Pa²b²/3EIL (last: from memory)."""
    bent = rest(beam(15, 0, (6, 8)), 0, 15)
    assert bent.reactions_n == pytest.approx([4.8, 3.2], **EXACT)
    assert moment(bent, 6) == pytest.approx(28.8, **EXACT)
    assert -height(bent, 6) * EI == pytest.approx(8 * 36 * 81 / (3 * 15), **EXACT)


def test_one_overhang_under_its_own_weight():
    """DA6 figure 18; AISC case 24: L = 12, a = 3, w = 0.8."""
    bent = rest(beam(15, 0.8), 0, 12)
    assert bent.reactions_n == pytest.approx([4.5, 7.5], **EXACT)
    assert moment(bent, 12) == pytest.approx(-3.6, **EXACT)
    assert moment(bent, 6 * (1 - 9 / 144)) == pytest.approx(12.65625, **EXACT)


def test_two_unequal_overhangs_under_their_own_weight():
    """Standard tables: a = 1, b = 4, c = 2, w = 1."""
    bent = rest(beam(7, 1), 1, 5)
    assert bent.reactions_n == pytest.approx([2.625, 4.375], **EXACT)
    assert moment(bent, 1) == pytest.approx(-0.5, **EXACT)
    assert moment(bent, 5) == pytest.approx(-2.0, **EXACT)
    assert moment(bent, 2.625) == pytest.approx(2.625 * (2.625 / 2 - 1), **EXACT)


@pytest.mark.parametrize("length", [0.7, 1.0, 3.1])
def test_cantilever_with_a_load_at_its_end_is_half_of_a_balanced_pair(length):
    """DA6 figure 13; AISC case 22: M = PL, drop PL³/3EI. By symmetry two cantilevers back to back over two supports
    that stand close together hold each other level in the middle: the drop beyond the outer edge tends to PL³/3EI as
    the supports close up. Error of the limit: the slope PLs/2EI over a half gap of s/2."""
    load, close = 6.0, 1e-4
    bent = rest(beam(2 * length + close, 0, (0, load), (2 * length + close, load)), length, length + close)
    assert -moment(bent, length) == pytest.approx(load * length, rel=1e-6)
    assert -height(bent, 0) * EI == pytest.approx(load * length**3 / 3, rel=1e-3)


def test_cantilever_under_its_own_weight_is_half_of_a_balanced_pair():
    """DA6 figure 12; AISC case 19: L = 8, w = 1: M = wL²/2 = 32, drop wL⁴/8EI = 512/EI."""
    bent = rest(beam(16 + 1e-3, 1), 8, 8 + 1e-3)
    assert -moment(bent, 8) == pytest.approx(32, rel=1e-6)
    assert -height(bent, 0) * EI == pytest.approx(512, rel=1e-3)


def test_two_equal_spans():
    """DA6; engineersedge: R = 3/8, 10/8, 3/8 wL; M = −wL²/8 and 9wL²/128; most sag 0.00541 wL⁴/EI at 0.4215 L."""
    bent = rest(beam(2, 1), 0, 1, 2)
    assert bent.reactions_n == pytest.approx([0.375, 1.25, 0.375], **EXACT)
    assert moment(bent, 1) == pytest.approx(-0.125, **EXACT)
    assert moment(bent, 0.375) == pytest.approx(9 / 128, **EXACT)
    x = np.linspace(0, 1, 10001)
    sag = -bent.heights_mm(x) * EI
    assert sag.max() == pytest.approx(0.00541, abs=1e-5)  # printed to 3 digits; the exact most is 0.005416
    assert x[np.argmax(sag)] == pytest.approx(0.4215, abs=2e-4)


def test_propped_cantilever_is_half_of_two_equal_spans():
    """AISC case 12 (from memory): R = 3/8 and 5/8 wL, M = wL²/8; the middle support of two equal spans is level."""
    bent = rest(beam(2, 1), 0, 1, 2)
    assert bent.reactions_n[1] / 2 == pytest.approx(5 / 8, **EXACT)
    assert float(bent.slopes([1.0])[0]) == pytest.approx(0, abs=1e-12)


def test_three_equal_spans():
    """DA6; CEF table 2.1: R = 0.4, 1.1, 1.1, 0.4 wL; M = −0.100, 0.080, 0.025 wL²; most sag 0.0069 wL⁴/EI."""
    bent = rest(beam(3, 1), 0, 1, 2, 3)
    assert bent.reactions_n == pytest.approx([0.4, 1.1, 1.1, 0.4], **EXACT)
    assert moment(bent, 1) == pytest.approx(-0.1, **EXACT)
    assert moment(bent, 0.4) == pytest.approx(0.08, **EXACT)
    assert moment(bent, 1.5) == pytest.approx(0.025, **EXACT)
    x = np.linspace(0, 1, 10001)
    sag = -bent.heights_mm(x) * EI
    assert sag.max() == pytest.approx(0.0069, abs=5e-5)  # printed to 2 digits
    assert x[np.argmax(sag)] == pytest.approx(0.446, abs=1e-3)


def test_two_unequal_spans():
    """Standard tables: a = 3, b = 5, w = 1: M = −w(a³ + b³)/8(a + b) = −2.375; R1 = 0.708333, R3 = 2.025."""
    bent = rest(beam(8, 1), 0, 3, 8)
    assert moment(bent, 3) == pytest.approx(-2.375, **EXACT)
    assert bent.reactions_n[[0, 2]] == pytest.approx([1.5 - 2.375 / 3, 2.025], **EXACT)


def test_fixed_ends_are_the_inner_span_of_a_long_row():
    """DA6 figure 23; AISC case 15: M = −wL²/12 and wL²/24, sag wL⁴/384EI. In a long row of equal spans each inner
    support is level, as if built in; what is left of the ends dies out by 2 − √3 = 0.268 a span (from memory, the
    three-moment equation), so 10 spans in, 2e-6 of it is left."""
    spans = 21
    bent = rest(beam(14.0 * spans, 1.2), *(14.0 * i for i in range(spans + 1)))
    assert -moment(bent, 140) == pytest.approx(19.6, rel=1e-5)
    assert moment(bent, 147) == pytest.approx(9.8, rel=1e-5)
    assert -height(bent, 147) * EI == pytest.approx(120.05, rel=1e-4)


def test_a_middle_support_that_is_set_lower_gives_up_load():
    """Two equal spans, middle support lower by δ: R2 = 1.25 wl − 6EIδ/l³ (from memory; superposition of PL³/48EI)."""
    bent = solve(beam(2, 1), x_mm=[0, 1, 2], height_mm=[0, -0.01, 0])
    assert bent.reactions_n[1] == pytest.approx(1.25 - 6 * EI * 0.01, **EXACT)


@pytest.mark.parametrize(("share", "bears"), [(0.999, True), (1.001, False)])
def test_a_middle_support_opens_just_where_the_free_span_hangs(share, bears):
    """It opens once it is lower than the free span's sag 5wL⁴/384EI (DA6 figure 1)."""
    bent = solve(beam(2, 1), x_mm=[0, 1, 2], height_mm=[0, -share * 5 * 2**4 / (384 * EI), 0])
    assert bool(bent.touching[1]) is bears


def test_twice_as_stiff_beyond_the_middle_by_the_unit_load_theorem():
    """Simple span, EI left and 2EI right, load P in the middle. Middle sag by virtual work, ∫Mm/EI: each half gives
    PL³/96 over its own stiffness, so PL³/96 (1/EI + 1/2EI) (from memory, first principles)."""
    given = beam(4, 0, (2, 3), cuts=(2.0,))
    stepped = Beam(
        4,
        given.breaks_mm,
        np.array([EI, 2 * EI]),
        given.load_start_n_mm,
        given.load_end_n_mm,
        np.zeros(2),
        np.zeros(2),
        given.point_loads,
    )
    bent = rest(stepped, 0, 4)
    assert -height(bent, 2) == pytest.approx(3 * 4**3 / 96 * (1 / EI + 1 / (2 * EI)), **EXACT)
    assert -height(bent, 2) != pytest.approx(-height(rest(given, 0, 4), 2), rel=0.1)


def test_a_load_that_grows_along_the_span():
    """AISC case 2 (from memory): load from 0 to w at the far end: R1 = wL/6, R2 = wL/3, most moment wL²/9√3."""
    given = Beam(6, np.array([0.0, 6.0]), np.array([EI]), np.array([0.0]), np.array([2.0]), np.zeros(1), np.zeros(1))
    bent = rest(given, 0, 6)
    assert bent.reactions_n == pytest.approx([2, 4], **EXACT)
    assert moment(bent, 6 / 3**0.5) == pytest.approx(2 * 36 / (9 * 3**0.5), **EXACT)
