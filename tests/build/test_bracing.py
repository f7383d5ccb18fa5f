"""Which bays need foam, and what it does."""

import functools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rail_boards import body_of

from generator.build.bays import Area
from generator.build.bracing import (
    HEEL_SHARE,
    MOST_DENT_MM,
    SAFETY,
    brace,
    foam_crush_mpa,
    foam_mm3,
    heel,
    held,
    knee,
    mass_of,
    strength_across_mpa,
)
from generator.inputs.board import Spread
from generator.inputs.builder import FOAM_KINDS, Foam
from generator.quantities import GRAVITY_M_S2

CEDAR = Spread.model_validate(7700)
BAY = Area(0.0, 205.0, 3.0, 233.0)


def foam(kind="expanded polystyrene", density=20.0, thickness=40.0):
    return Foam.model_validate({"name": "foam", "kind": kind, "thickness_mm": thickness, "density_kg_m3": density})


@functools.cache
def body(slug="mara"):
    return body_of(slug)


def test_a_heel_bears_half_the_body_and_a_knee_as_much_on_more_wood():
    assert heel(80).load_n == pytest.approx(40 * GRAVITY_M_S2)
    assert heel(80, share=HEEL_SHARE[2]).load_n == pytest.approx(80 * GRAVITY_M_S2)
    assert knee(80).load_n == heel(80).load_n
    bare = {name: held(CEDAR, thickness_mm=6, free=BAY, tread=tread) for name, tread in
            (("heel", heel(80)), ("knee", knee(80)))}  # fmt: skip
    assert bare["knee"].dent_mm[1] < bare["heel"].dent_mm[1]
    assert bare["knee"].across_mpa[1] < bare["heel"].across_mpa[1]


def test_the_likely_value_lies_within_its_range():
    for place in (None, Area(10.0, 195.0, 60.0, 176.0)):
        got = held(CEDAR, thickness_mm=6, free=BAY, tread=heel(70), foam=foam() if place else None, place=place,
                   depth_mm=50.0)  # fmt: skip
        assert got.dent_mm[0] < got.dent_mm[1] < got.dent_mm[2]
        assert got.across_mpa[0] <= got.across_mpa[1] <= got.across_mpa[2]


@pytest.mark.parametrize("slug", ["mara", "tobin"])
def test_every_bay_that_fails_gets_foam_and_gives_less(slug):
    allowed = 1.5 / SAFETY
    found = brace(body(slug), foam("extruded polystyrene", 33.0), tread=heel(75.0), strength_mpa=1.5)
    assert any(one.needs_foam for one in found)
    for one in found:
        fails = one.bare.dent_mm[1] > MOST_DENT_MM or one.bare.across_mpa[1] > allowed
        assert one.needs_foam == fails == (one.block is not None) == (one.after is not None)
        if one.after:
            assert one.after.dent_mm[1] < one.bare.dent_mm[1]
            assert one.after.passes(allowed)


def test_without_foam_nothing_is_cut_and_nothing_weighs():
    found = brace(body(), None, tread=heel(75.0), strength_mpa=1.5)
    assert any(one.needs_foam for one in found)
    assert all(one.block is None and one.after is None for one in found)
    assert mass_of(found) is None


def test_the_part_on_the_scales_is_its_blocks():
    found = brace(body(), foam(), tread=heel(75.0))
    part = mass_of(found)
    blocks = [one.block for one in found if one.block]
    assert part.kg == pytest.approx(sum(block.kg for block in blocks))
    assert part.kg == pytest.approx(foam_mm3(found) * 20e-9)
    assert part.low_kg < part.kg < part.high_kg
    assert 0 < part.from_tail_mm < body().length_mm


def test_denser_foam_is_stiffer_and_kinds_differ():
    for kind in FOAM_KINDS:
        low, likely, high = foam_crush_mpa(kind, 30.0)
        assert 0 < low < likely < high
        assert foam_crush_mpa(kind, 45.0)[1] > likely
        assert foam_crush_mpa(kind, 8.0)[1] > 0


def test_a_timber_without_a_strength_gets_one_from_its_density():
    """The lower of 6.00 G^1.11 and 10.1 G^1.30 (Wood Handbook Table 5-11a, from memory), G = 300 / 1120."""
    got = strength_across_mpa(body("tobin"), None)
    assert got == pytest.approx(min(6.00 * (300 / 1120) ** 1.11, 10.1 * (300 / 1120) ** 1.30))
    assert strength_across_mpa(body("tobin"), 1.7) == 1.7


@settings(max_examples=30, deadline=None)
@given(mass=st.floats(20, 150), more=st.floats(1, 100), thick=st.floats(3, 12), width=st.floats(90, 350))
def test_a_heavier_rider_dents_more_and_a_thicker_panel_less(mass, more, thick, width):
    free = Area(0.0, 205.0, 3.0, 3.0 + width)
    one = held(CEDAR, thickness_mm=thick, free=free, tread=heel(mass))
    heavier = held(CEDAR, thickness_mm=thick, free=free, tread=heel(mass + more))
    thicker = held(CEDAR, thickness_mm=thick + 1, free=free, tread=heel(mass))
    assert heavier.dent_mm[1] == pytest.approx(one.dent_mm[1] * (mass + more) / mass, rel=1e-6)
    assert thicker.dent_mm[1] < one.dent_mm[1]
