"""Handbook beams, laid on supports by the contact solver.

Sources, by test:
- DA6: American Wood Council, Design Aid No. 6, Beam Design Formulas with Shear and Moment Diagrams (2007). Figures 1,
  7, 8, 12, 13, 18 and 23 as tested by an open finite-element library written after it; figures 29 and 31 from its list
  of figures; other numbers from the order of that list (a page that reprints its headings).
- AISC: Manual of Steel Construction, LRFD, Beam Diagrams and Formulas, pages 4-190 and after (the Steel Construction
  Manual's Table 3-23). Cases 1 to 4 as transcribed from there; other case numbers from memory.
- CEF: Brockenbrough and Hicks, Civil Engineering Formulas, Table 2.1 (page 50) and Figure 2.2, case 12 (page 31).
- Two overhangs, two unequal spans, one or two loads on two equal spans: standard tables as shown by an engineering
  calculator (piping-designer pages); two equal spans: engineersedge "beam, three supports, uniform load".

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
    """AISC case 2 (DA6 figure 5), W = wl/2: R1 = W/3, R2 = 2W/3, M = 2Wl/9√3 at l/√3, most sag 0.01304 Wl³/EI at
    0.5193 l, sag at x Wx(3x⁴ − 10l²x² + 7l⁴)/180EIl²."""
    given = Beam(6, np.array([0.0, 6.0]), np.array([EI]), np.array([0.0]), np.array([2.0]), np.zeros(1), np.zeros(1))
    bent, w, span = rest(given, 0, 6), 6.0, 6.0
    assert bent.reactions_n == pytest.approx([w / 3, 2 * w / 3], **EXACT)
    assert moment(bent, span / 3**0.5) == pytest.approx(2 * w * span / (9 * 3**0.5), **EXACT)
    x = np.linspace(0, span, 10001)
    sag = -bent.heights_mm(x) * EI
    assert sag == pytest.approx(w * x * (3 * x**4 - 10 * span**2 * x**2 + 7 * span**4) / (180 * span**2), **EXACT)
    assert sag.max() == pytest.approx(0.01304 * w * span**3, rel=5e-4)  # printed to 4 digits
    assert x[np.argmax(sag)] == pytest.approx(0.5193 * span, abs=5e-4)


def test_a_load_that_grows_to_the_middle_of_the_span():
    """AISC case 3 (DA6 figure 6): R = W/2, M = Wl/6, sag Wl³/60EI in the middle, Wx(5l² − 4x²)²/480EIl² left of it."""
    start, end, none = np.array([0.0, 3.0]), np.array([3.0, 0.0]), np.zeros(2)
    bent = rest(Beam(8, np.array([0.0, 4.0, 8.0]), np.full(2, EI), start, end, none, none), 0, 8)
    w, span, x = 12.0, 8.0, np.linspace(0, 4, 9)
    assert bent.reactions_n == pytest.approx([w / 2, w / 2], **EXACT)
    assert moment(bent, 4) == pytest.approx(w * span / 6, **EXACT)
    assert -height(bent, 4) * EI == pytest.approx(w * span**3 / 60, **EXACT)
    assert -bent.heights_mm(x) * EI == pytest.approx(w * x * (5 * span**2 - 4 * x**2) ** 2 / (480 * span**2), **EXACT)


def test_a_load_on_a_part_of_the_span():
    """AISC case 4 (DA6 figure 2), load over b after a, c left: R1 = wb(2c + b)/2l, R2 = wb(2a + b)/2l; the most moment
    is R1(a + R1/2w) at a + R1/w (moment: from memory)."""
    a, b, c, w = 2.0, 3.0, 5.0, 1.6
    load, none = np.array([0.0, w, 0.0]), np.zeros(3)
    bent = rest(Beam(10, np.array([0.0, a, a + b, 10.0]), np.full(3, EI), load, load, none, none), 0, 10)
    left = w * b * (2 * c + b) / 20
    assert bent.reactions_n == pytest.approx([left, w * b * (2 * a + b) / 20], **EXACT)
    assert moment(bent, a + left / w) == pytest.approx(left * (a + left / (2 * w)), **EXACT)
    assert bent.moment_n_mm(np.linspace(0, 10, 2001)).max() <= left * (a + left / (2 * w)) * (1 + 1e-9)


def test_two_equal_loads_that_stand_symmetrically():
    """DA6 figure 9; AISC, Manual of Steel Construction (2005), as in an online calculator after it: R = P, M = Pa,
    middle sag Pa(3L² − 4a²)/24EI, sag left of the load Px(3La − 3a² − x²)/6EI."""
    p, a, span = 7.0, 2.5, 9.0
    bent = rest(beam(span, 0, (a, p), (span - a, p)), 0, span)
    assert bent.reactions_n == pytest.approx([p, p], **EXACT)
    assert bent.moment_n_mm([a, span / 2, span - a]) == pytest.approx([p * a] * 3, **EXACT)
    assert -height(bent, span / 2) * EI == pytest.approx(p * a * (3 * span**2 - 4 * a**2) / 24, **EXACT)
    assert -height(bent, 1.0) * EI == pytest.approx(p * (3 * span * a - 3 * a**2 - 1) / 6, **EXACT)


def test_two_equal_loads_at_the_ends_of_two_equal_overhangs():
    """CEF figure 2.2, case 12, W both loads: R = W/2, M = Wa/2, ends down by Wa²(3L + 2a)/12EI, middle up by
    WaL²/16EI."""
    w, a, span = 5.0, 1.5, 6.0
    bent = rest(beam(span + 2 * a, 0, (0, w / 2), (span + 2 * a, w / 2)), a, a + span)
    assert bent.reactions_n == pytest.approx([w / 2, w / 2], **EXACT)
    assert bent.moment_n_mm([a, a + span / 2, a + span]) == pytest.approx([-w * a / 2] * 3, **EXACT)
    assert -height(bent, 0) * EI == pytest.approx(w * a**2 * (3 * span + 2 * a) / 12, **EXACT)
    assert height(bent, a + span / 2) * EI == pytest.approx(w * a * span**2 / 16, **EXACT)


def test_a_load_in_the_middle_of_one_of_two_equal_spans():
    """DA6 figure 27: R = 13/32, 11/16, −3/32 P, M = 13PL/64 under the load and −3PL/32 at the support. The far support
    would pull; so a spread load w lies on both spans too (DA6 figure 29), and the two cases add up."""
    p, span, w = 4.0, 3.0, 1.0
    bent = rest(beam(2 * span, w, (span / 2, p)), 0, span, 2 * span)
    alone = np.array([13 / 32, 11 / 16, -3 / 32]) * p
    assert bent.reactions_n == pytest.approx(alone + np.array([3, 10, 3]) / 8 * w * span, **EXACT)
    assert moment(bent, span) == pytest.approx(-3 * p * span / 32 - w * span**2 / 8, **EXACT)
    assert moment(bent, span / 2) == pytest.approx(13 * p * span / 64 + 3 * w * span**2 / 16 - w * span**2 / 8, **EXACT)


def test_without_that_spread_load_the_far_end_lifts_off_and_the_loaded_span_is_alone():
    """DA6 figure 27 has 3/32 P of pull at the far support. Ours only pushes: the loaded span is a simple one (DA6
    figure 7), and the far end stands off by its slope PL²/16EI times the free span (slope: from memory)."""
    p, span = 4.0, 3.0
    bent = solve(beam(2 * span, 0, (span / 2, p)), x_mm=[0, span, 2 * span], height_mm=[0, 0, 0])
    assert bent.reactions_n == pytest.approx([p / 2, p / 2, 0], **EXACT)
    assert bent.gaps_mm[2] * EI == pytest.approx(p * span**2 / 16 * span, **EXACT)


def test_a_load_anywhere_on_one_of_two_equal_spans():
    """DA6 figure 28: R1 = Pb[4L² − a(L + a)]/4L³, R2 = Pa[2L² + b(L + a)]/2L³, R3 = −Pab(L + a)/4L³; with a spread load
    on both spans as above."""
    p, span, a, w = 4.0, 3.0, 0.8, 1.0
    b = span - a
    bent = rest(beam(2 * span, w, (a, p)), 0, span, 2 * span)
    alone = np.array(
        [
            p * b * (4 * span**2 - a * (span + a)) / (4 * span**3),
            p * a * (2 * span**2 + b * (span + a)) / (2 * span**3),
            -p * a * b * (span + a) / (4 * span**3),
        ]
    )
    assert bent.reactions_n == pytest.approx(alone + np.array([3, 10, 3]) / 8 * w * span, **EXACT)
    assert moment(bent, span) == pytest.approx(-p * a * b * (span + a) / (4 * span**2) - w * span**2 / 8, **EXACT)


def test_a_load_in_the_middle_of_each_of_two_equal_spans():
    """DA6 figure 30: R = 5/16, 11/8, 5/16 P, M = −3PL/16 at the support and 5PL/32 under the loads."""
    p, span = 6.0, 5.0
    bent = rest(beam(2 * span, 0, (span / 2, p), (3 * span / 2, p)), 0, span, 2 * span)
    assert bent.reactions_n == pytest.approx([5 / 16 * p, 11 / 8 * p, 5 / 16 * p], **EXACT)
    assert bent.moment_n_mm([span / 2, span, 3 * span / 2]) == pytest.approx(
        [5 * p * span / 32, -3 * p * span / 16, 5 * p * span / 32]
    )


@pytest.mark.parametrize(
    ("supports", "shares", "loads", "over_supports", "in_spans"),
    [
        (3, 8, [3, 10], [0, 1], [0.0703]),
        (4, 10, [4, 11], [0, 1], [0.080, 0.025]),
        (5, 28, [11, 32, 26], [0, 3, 2], [0.0772, 0.0364]),
        (6, 38, [15, 43, 37], [0, 4, 3], [0.0779, 0.0332, 0.0461]),
        (7, 104, [41, 118, 100, 106], [0, 11, 8, 9], [0.0777, 0.0340, 0.0433]),
        (8, 142, [56, 161, 137, 143], [0, 15, 11, 12], [0.0778, 0.0338, 0.0440, 0.0405]),
    ],
)
def test_rows_of_equal_spans(supports, shares, loads, over_supports, in_spans):
    """CEF table 2.1, three to eight supports, each row to its middle, in parts of wl and wl². A load is the sum of the
    shears left and right of its support. Moments in the spans are printed to 4 digits, some cut rather than rounded."""
    bent = rest(beam(supports - 1, 1), *range(supports))
    assert bent.reactions_n[: len(loads)] * shares == pytest.approx(loads, **EXACT)
    assert bent.reactions_n == pytest.approx(bent.reactions_n[::-1], **EXACT)
    assert -bent.moment_n_mm(np.arange(len(over_supports))) * shares == pytest.approx(over_supports, **EXACT)
    for i, most in enumerate(in_spans):
        assert bent.moment_n_mm(np.linspace(i, i + 1, 2001)).max() == pytest.approx(most, abs=1e-4)
