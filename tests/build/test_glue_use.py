"""How much glue: longer joints, thicker beads and more planks never take less; a silent label is never guessed at."""

import dataclasses

import pytest
from glue_kit import DATA, body_of, glue_with
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.amount import Amount
from generator.build.bays import Area
from generator.build.bracing import FoamBlock
from generator.build.glue_joints import STAGES, Joint, glue_joints
from generator.build.glue_use import (
    BEAD_MM,
    all_stages,
    bead_section_mm2,
    bead_volume_ml,
    bottles,
    film_mass_kg,
    glue_parts,
    runs_beads,
    stage_use,
)
from generator.build.joints import bottom_joints
from generator.inputs.builder import Measured
from generator.inputs.tables import PracticeRow, read_table

LENGTHS = st.floats(0, 50_000)
JOINTS = st.lists(
    st.builds(
        lambda length, wide, bead: Joint("glue", "j", length, 0.0 if bead else length * wide, length * bead, 500.0),
        LENGTHS, st.floats(2, 60), st.integers(0, 2),
    ),
    min_size=1, max_size=6,
)  # fmt: skip


def use(joints, **label):
    return stage_use("glue", joints, glue_with(**label))


@settings(max_examples=150, deadline=None)
@given(joints=JOINTS, at=st.integers(0, 5), longer=st.floats(1, 3))
def test_a_longer_joint_never_takes_less(joints, at, longer):
    at %= len(joints)
    grown = list(joints)
    one = joints[at]
    grown[at] = dataclasses.replace(
        one, length_mm=longer * one.length_mm, film_mm2=longer * one.film_mm2, bead_mm=longer * one.bead_mm
    )
    before, after = use(joints), use(grown)
    for part in ("value", "low", "high"):
        assert getattr(after.volume_ml, part) >= getattr(before.volume_ml, part)
        assert getattr(after.mass_kg, part) >= getattr(before.mass_kg, part)


@given(length=LENGTHS, bead=st.floats(0, 20), thicker=st.floats(0, 5))
def test_a_thicker_bead_never_takes_less_and_twice_the_bead_takes_twice(length, bead, thicker):
    one = bead_volume_ml(length_mm=length, bead_mm=bead)
    assert bead_volume_ml(length_mm=length, bead_mm=bead + thicker).low >= one.low
    assert bead_volume_ml(length_mm=2 * length, bead_mm=bead).value == pytest.approx(2 * one.value)
    assert one.low <= one.value <= one.high


@settings(max_examples=12, deadline=None)
@given(one=st.floats(50, 200), other=st.floats(50, 200))
def test_more_planks_never_take_less_glue(one, other):
    few, many = (body_of(panel={"plank_width_mm": width}) for width in sorted((one, other), reverse=True))
    assert many.blank.planks >= few.blank.planks
    glue = glue_with()
    assert all_stages(many, glue)[0].volume_ml.value >= all_stages(few, glue)[0].volume_ml.value


def test_beads_run_on_both_sides_of_spine_and_ribs_and_once_inside_the_rim():
    body = body_of()
    joints = {(j.stage, j.name): j for j in glue_joints(body, beads=True)}
    lengths = bottom_joints(body)
    assert joints["glue", "rim"].bead_mm == pytest.approx(lengths.rim_mm)
    assert joints["glue", "spine"].bead_mm == pytest.approx(2 * lengths.spine_mm)
    assert sum(j.bead_mm for (stage, _), j in joints.items() if stage == "glue") == pytest.approx(lengths.bead_mm)
    top = sum(j.bead_mm for (stage, _), j in joints.items() if stage == "top-deck")
    assert top == pytest.approx(lengths.total_mm), "one line on every top edge"


def test_a_joint_gets_a_film_or_beads_and_never_both():
    for beads in (True, False):
        for joint in glue_joints(body_of("ines"), beads=beads):
            assert (joint.film_mm2 > 0) != (joint.bead_mm > 0), joint
            assert beads or joint.bead_mm == 0
            assert 0 <= joint.from_tail_mm <= 2300
            assert joint.stage in STAGES


def test_blocks_are_glued_no_further_than_the_frame_reaches():
    body = body_of()
    whole = sum(block.length_mm * block.width_mm for block in body.board.blocks)
    blocks = next(j for j in glue_joints(body, beads=False) if j.name == "blocks")
    assert 0.5 * whole < blocks.film_mm2 < whole


def test_foam_is_glued_below_between_its_layers_and_above():
    """Two pieces by hand: 180 × 60 mm in one layer, 200 × 50 mm in two: 30 800 mm² inside, 20 800 mm² on top."""
    pieces = (
        FoamBlock(Area(100.0, 280.0, 40.0, 100.0), 40.0, 30.0, 1, 4e5, 0.01),
        FoamBlock(Area(400.0, 600.0, 50.0, 100.0), 50.0, 45.0, 2, 5e5, 0.01),
    )
    for beads, share in ((False, 1.0), (True, 0.5)):
        found = [j for j in glue_joints(body_of(), beads=beads, foam=pieces) if j.name == "foam"]
        assert [(j.stage, j.film_mm2) for j in found] == [("inside", 30_800 * share), ("top-deck", 20_800 * share)]
        assert found[0].from_tail_mm == pytest.approx((10_800 * 190 + 20_000 * 500) / 30_800)
        assert all(j.bead_mm == 0 for j in found)


def test_foam_takes_more_glue_and_the_board_keeps_it():
    pieces = (FoamBlock(Area(400.0, 600.0, 50.0, 250.0), 50.0, 45.0, 2, 5e5, 0.01),)
    body, glue = body_of(), glue_with()
    bare, braced = ({one.stage: one for one in all_stages(body, glue, foam=foam)} for foam in ((), pieces))
    for stage, one in bare.items():
        more = braced[stage].volume_ml.value - one.volume_ml.value
        assert more > 0 if stage in ("inside", "top-deck") else more == 0
    plain, with_foam = (sum(part.kg for part in glue_parts(body, glue, foam=foam)) for foam in ((), pieces))
    assert with_foam > plain


def test_pva_is_never_run_as_a_bead():
    assert not runs_beads(glue_with(type="pva", method="bead"))
    assert runs_beads(glue_with(type="thickened epoxy", method="bead"))
    assert not runs_beads(glue_with(method="spread"))


@pytest.mark.parametrize(
    ("silent", "missing", "volume", "mass"),
    [
        ({}, (), True, True),
        ({"spread_g_m2": None}, ("spread rate",), False, False),
        ({"density_kg_m3": None}, ("density",), False, True),
        ({"spread_g_m2": None, "density_kg_m3": None}, ("spread rate", "density"), False, False),
    ],
)
def test_what_a_silent_label_leaves_open_is_asked_for_and_not_guessed(silent, missing, volume, mass):
    film = use([Joint("glue", "film", 1000.0, 10_000.0, 0.0, 0.0)], **silent)
    assert (film.missing, film.volume_ml is not None, film.mass_kg is not None) == (missing, volume, mass)
    bead = use([Joint("glue", "bead", 1000.0, 0.0, 2000.0, 0.0)], **silent)
    assert bead.missing == ()
    assert bead.volume_ml is not None, "a bead's volume needs no label"


def test_mass_and_volume_of_a_stage_agree_with_the_density():
    for one in all_stages(body_of(), glue_with()):
        assert one.mass_kg.value == pytest.approx(one.volume_ml.value * 1.1e-3)


@pytest.mark.parametrize(("volume", "count"), [(1, 1), (500, 1), (500.001, 2), (1500, 3), (0, 0)])
def test_bottles_are_whole(volume, count):
    assert bottles(volume_ml=volume, bottle_l=0.5) == count


def test_the_dry_glue_is_what_lies_in_the_joints_less_what_leaves():
    body = body_of()
    for kind, most in (("polyurethane", 1.0), ("pva", 0.6), ("thickened epoxy", 1.0)):
        glue = glue_with(type=kind, method="spread")
        parts = {part.name: part for part in glue_parts(body, glue)}
        wet = film_mass_kg(
            area_mm2=sum(j.film_mm2 for j in glue_joints(body, beads=False) if j.stage == "rails"), spread_g_m2=180
        )
        rails = parts["glue of the rails"]
        assert 0 < rails.low_kg <= rails.kg <= rails.high_kg
        assert rails.high_kg == pytest.approx(most * wet)
        assert len(parts) == len(STAGES)


def test_glue_in_parts_that_were_weighed_is_not_counted_twice():
    plain = {part.name for part in glue_parts(body_of(), glue_with())}
    weighed = body_of(measured=Measured(panel_mass_kg=1.7, frame_mass_kg=1.1))
    assert plain - {part.name for part in glue_parts(weighed, glue_with())} == {
        "glue between the planks", "glue in the frame",
    }  # fmt: skip


def test_a_silent_label_makes_the_weight_less_certain_and_not_impossible():
    told, silent = (
        sum((Amount(p.kg, p.low_kg, p.high_kg) for p in glue_parts(body_of(), glue)), Amount.exact(0.0))
        for glue in (glue_with(), glue_with(spread_g_m2=None, density_kg_m3=None))
    )
    assert silent.high - silent.low > told.high - told.low


def test_the_bead_s_width_is_the_one_that_the_pages_name():
    rows = read_table((DATA / "practice.csv").read_bytes(), "practice.csv", PracticeRow)
    assert next(row.value for row in rows if row.key == "practice.bead_width") == BEAD_MM


@pytest.mark.parametrize("wrong", [-1.0, float("nan")])
def test_a_bead_below_nothing_is_refused(wrong):
    with pytest.raises(ValueError, match="bead_mm"):
        bead_section_mm2(bead_mm=wrong)


@pytest.mark.parametrize("wrong", [(1, 2, 3), (2, 1, 1.5), (1, -1, 2), (float("nan"), 0, 1)])
def test_an_amount_lies_within_its_range_and_not_below_nothing(wrong):
    with pytest.raises(ValueError, match="within"):
        Amount(*wrong)
