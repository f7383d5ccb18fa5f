"""The wooden plate, alone and with foam, against finite differences, a closed form of our own hand, and laws."""

import math

import numpy as np
import pytest
from finite_differences import middle_deflection
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.plate import Core, Pane, Patch, Wood, pressed, pressed_on_foam

CEDAR = Wood(7700.0, 540.0, 655.0, 0.4)
EVEN = Wood(1000.0, 1000.0, 1000.0 / 2.6, 0.3)
HEEL = Patch(56.0, 56.0)
EDGES = ("turning", "fixed")


def rigidities(wood, t):
    """Dx, Dy, H of a plate, written out."""
    narrow = 1 - wood.poisson**2 * wood.across_mpa / wood.along_mpa
    dx, dy = (e * t**3 / 12 / narrow for e in (wood.along_mpa, wood.across_mpa))
    return dx, dy, wood.poisson * dy + 2 * wood.shear_mpa * t**3 / 12


@pytest.mark.parametrize("edges", EDGES)
@pytest.mark.parametrize(
    ("length", "width", "patch"), [(205, 238, (56, 56)), (205, 110, (56, 56)), (150, 240, (150, 240))]
)
def test_deflection_agrees_with_finite_differences(edges, length, width, patch):
    dx, dy, h = rigidities(CEDAR, 6.0)
    given_ = {"length": length, "width": width, "dx": dx, "dy": dy, "h": h, "fixed": edges == "fixed", "load_n": 333}
    coarse, fine = (middle_deflection(**given_, patch=patch, cells=cells) for cells in (40, 80))
    exact = fine + (fine - coarse) / 3  # the error falls with the square of the step
    got = pressed(Pane(length, width, 6.0, CEDAR, edges), load_n=333, patch=Patch(*patch)).deflection_mm
    assert got == pytest.approx(exact, rel=0.01)


def test_foam_that_only_crushes_is_half_a_plate_and_half_one_on_a_bed_of_twice_its_stiffness():
    """Both halves of the load by finite differences; the foam fills the bay and has no shear."""
    dx, dy, h = rigidities(CEDAR, 6.0)
    given_ = {"length": 205, "width": 238, "dx": dx, "dy": dy, "h": h, "fixed": False, "patch": (56, 56), "load_n": 333}
    alone, bedded = middle_deflection(**given_), middle_deflection(**given_, bed=2 * 4.5 / 50)
    got = pressed_on_foam(
        Pane(205, 238, 6.0, CEDAR, "turning"), Core(Patch(205, 238), 50, 4.5, 0.0), load_n=333, patch=HEEL
    )
    assert got.deflection_mm == pytest.approx(alone / 2 + bedded / 2, rel=0.01)


def test_a_sandwich_free_to_turn_agrees_with_its_double_series():
    """Each half wave by itself: panes' bending, beside bending and shear of the sandwich one after the other.

    w_mn = q_mn / (2 D λ² + 1 / (1 / (B λ²) + 1 / (S λ))), λ = α² + β², D = E t³ / 12 (1 − ν²), B = E t d² / 2 (1 − ν²),
    S = G d² / c; derived by hand for faces and core alike in all directions.
    """
    size, t, depth, shear, load = 240.0, 4.0, 46.0, 2.5, 400.0
    plane = EVEN.along_mpa / (1 - EVEN.poisson**2)
    apart = depth + t
    bend, far, slip = plane * t**3 / 12, plane * t * apart**2 / 2, shear * apart**2 / depth
    total = 0.0
    for m in range(1, 60, 2):
        for n in range(1, 60, 2):
            a, b = m * math.pi / size, n * math.pi / size
            lam = a**2 + b**2
            q = 4 * load / size**2 * np.sinc(a * 56 / 2 / math.pi) * np.sinc(b * 56 / 2 / math.pi)
            total += q / (2 * bend * lam**2 + 1 / (1 / (far * lam**2) + 1 / (slip * lam)))
    pane, core = Pane(size, size, t, EVEN, "turning"), Core(Patch(size, size), depth, 1e7, shear)
    got = pressed_on_foam(pane, core, load_n=load, patch=HEEL)
    assert got.deflection_mm == pytest.approx(total, rel=0.005)


@pytest.mark.parametrize("edges", EDGES)
def test_foam_that_is_nothing_changes_nothing(edges):
    pane = Pane(205, 238, 6.0, CEDAR, edges)
    bare = pressed(pane, load_n=333, patch=HEEL)
    empty = pressed_on_foam(pane, Core(Patch(185, 120), 50, 0.0, 0.0), load_n=333, patch=HEEL)
    assert empty.deflection_mm == pytest.approx(bare.deflection_mm, rel=1e-9)
    assert empty.across_mpa == pytest.approx(bare.across_mpa, rel=1e-9)


def test_a_very_wide_bay_is_a_strip_between_two_ribs():
    """q L⁴ / 384 D with fixed ends, 5 q L⁴ / 384 D with ends that turn, and the plate's D."""
    dx, _, _ = rigidities(CEDAR, 6.0)
    for edges, share in (("fixed", 1 / 384), ("turning", 5 / 384)):
        pane = Pane(200, 1000, 6.0, CEDAR, edges)
        got = pressed(pane, load_n=0.01 * 200 * 1000, patch=Patch(200, 1000)).deflection_mm
        assert got == pytest.approx(share * 0.01 * 200**4 / dx, rel=0.02)


sizes = st.floats(90, 400)


@settings(max_examples=25, deadline=None)
@given(length=sizes, width=sizes, load=st.floats(10, 1500), edges=st.sampled_from(EDGES), foam=st.floats(0.5, 20))
def test_laws_of_a_pressed_bay(length, width, load, edges, foam):
    def on(crush, shear, share, t=6.0, by=1.0):
        core = Core(Patch(share * length, share * width), 50.0, crush, shear)
        return pressed_on_foam(Pane(length, width, t, CEDAR, edges), core, load_n=by * load, patch=HEEL).deflection_mm

    bare = pressed(Pane(length, width, 6.0, CEDAR, edges), load_n=load, patch=HEEL).deflection_mm
    some = on(foam, 0.4 * foam, 0.6)
    assert on(foam, 0.4 * foam, 0.6, by=2.0) == pytest.approx(2 * some, rel=1e-6)
    assert 0 < some < bare
    assert on(2 * foam, 0.4 * foam, 0.6) <= some * (1 + 1e-9)
    assert on(foam, 0.8 * foam, 0.6) <= some * (1 + 1e-9)
    assert on(foam, 0.4 * foam, 0.9) <= some * (1 + 1e-9)
    assert on(foam, 0.4 * foam, 0.6, t=7.0) < some
    assert pressed(Pane(length, width, 6.0, CEDAR, "fixed"), load_n=load, patch=HEEL).deflection_mm <= bare * (1 + 1e-9)


@pytest.mark.parametrize(
    "bad",
    [
        lambda: Wood(7700, 0, 600, 0.4),
        lambda: Wood(7700, float("nan"), 600, 0.4),
        lambda: Wood(100, 7700, 600, 0.4),
        lambda: Pane(200, -1, 6, CEDAR, "fixed"),
        lambda: Core(HEEL, 0, 4, 2),
        lambda: Core(HEEL, 50, -4, 2),
    ],
)
def test_what_is_no_plate_is_refused(bad):
    with pytest.raises(ValueError, match=r"above 0|narrows"):
        bad()
