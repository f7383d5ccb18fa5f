"""Faults between fields: what must fit together inside a file and between files, each with the nearest way out."""

import re

import pytest

from generator.bench.heights import APART_PER_LENGTH, FROM_TIP_PER_LENGTH
from generator.inputs.board_checks import MIDDLE_APART, MIDDLE_FROM

RIBS = "[205, 415, 625, 835, 1045, 1255, 1465, 1675, 1885, 2095]"
BOARD, BUILDER, MAKER = "boards/dunlin.yaml", "builders/mara.yaml", "maker.yaml"


BOTTOM = """frame_bottom:
  - {from_tail: 0, height: 9}
  - {from_tail: 800, height: 0}
  - {from_tail: 900, height: 0}
"""


def one(found, file, message, way):
    assert len(found) == 1, found
    assert found[0].startswith(f"{file}:@: {message}"), found[0]
    assert found[0].partition("; try ")[2] == way, found[0]


@pytest.mark.parametrize(
    ("old", "new", "message", "way"),
    [
        (
            "{from_tail: 2000, half_width: 205}",
            "{from_tail: 2400, half_width: 205}",
            "half-width 7's place from the tail is 2400 mm; allowed: 0 mm to 2300 mm (the board is so long)",
            "2300 mm",
        ),
        (
            "{from_tail: 1000, half_width: 272}",
            "{from_tail: 600, half_width: 272}",
            "half-width 3's place from the tail is 600 mm; allowed: at least 655 mm (places go from tail to nose)",
            "655 mm",
        ),
        (
            "{from_tail: 1000, half_width: 272}",
            "{from_tail: 1 ft 11 in, half_width: 272}",
            "half-width 3's place from the tail is 1 ft 11 in; allowed: at least 2 ft 1 13/16 in",
            "2 ft 1 13/16 in",
        ),
        (
            "{from_tail: 1500, half_width: 266}",
            "{from_tail: 1500, half_width: 226}",
            "half-width 6's half-width is 239 mm; allowed: 10 mm to 226 mm (an outline narrows from its widest place",
            "226 mm",
        ),
        (
            "{from_tail: 2000, half_width: 205}",
            "{from_tail: 2000, half_width: 0}",
            "half-width 7's half-width is 0 mm; allowed: 10 mm to 239 mm",
            "10 mm",
        ),
        (
            "{from_tail: 700, thickness: 61, crown: 15}",
            "{from_tail: 200, thickness: 61, crown: 15}",
            "thickness place 3's place from the tail is 200 mm; allowed: at least 305 mm",
            "305 mm",
        ),
        ("[205,", "[5,", "rib 1 is 5 mm; allowed: at least 20 mm (a rib needs spine on both sides)", "20 mm"),
        ("2095]", "2290]", "rib 10 is 2290 mm; allowed: 0 mm to 2280 mm (a rib needs spine on both sides)", "2280 mm"),
        (" 415,", " 215,", "rib 2 is 215 mm; allowed: at least 235 mm (places go from tail to nose)", "235 mm"),
        (
            "{from_tail: 0, height: 58}",
            "{from_tail: 20, height: 58}",
            "rocker height 1's place from the tail is 20 mm; allowed: 0 mm (the tail's tip must be given)",
            "0 mm",
        ),
        (
            "{from_tail: 2300, height: 118}",
            "{from_tail: 2290, height: 118}",
            "rocker height 9's place from the tail is 2290 mm; allowed: 2300 mm (the nose's tip must be given)",
            "2300 mm",
        ),
        (
            "{from_tail: 1300, height: 3}",
            "{from_tail: 1300, height: 30}",
            "rocker height 6's height is 30 mm; allowed: at most 11.81 mm",
            "11.81 mm",
        ),
        (
            "{from_tail: 2300, height: 118}",
            "{from_tail: 2300, height: 4}",
            "rocker height 9's height is 4 mm; allowed: at least 5 mm (a rocker rises towards both tips)",
            "5 mm",
        ),
        ("tail: pointed", "tail: square", "the tail is square without its half-width", "round"),
        (
            "{from_tail: 300, half_width: 185}",
            "{from_tail: 0, half_width: 18}",
            "half-width 1's half-width is 18 mm; allowed: 0 mm (the tail is pointed)",
            "0 mm",
        ),
        (
            "{from_tail: 2000, half_width: 205}",
            "{from_tail: 2300, half_width: 5}",
            "half-width 7's half-width is 5 mm; allowed: 0 mm (the nose is pointed)",
            "0 mm",
        ),
        (
            "thickness: 31, crown: 3",
            "thickness: 21, crown: 3",
            "thickness place 7's thickness is 21 mm; allowed: at least 22 mm (both panels and 10 mm of spine)",
            "22 mm",
        ),
        (
            "thickness: 42, crown: 10",
            "thickness: 42, crown: 30",
            "thickness place 6's crown is 30 mm; allowed: at most 15 mm (the rim must hold the edge strip between",
            "15 mm",
        ),
        (
            "height_at_tips: 15",
            "height_at_tips: 35",
            "the edge strip's height at the tips is 35 mm; allowed: at most 30 mm (the strip's full height)",
            "30 mm",
        ),
        ("  height: 30", "  height: 41", "the edge strip's height is 41 mm; allowed: at most 40 mm", "40 mm"),
        ("  width: 5.3\n", "  width: 4\n", "the slots' width is 4 mm; allowed: 5 mm to 7 mm (the rib goes in", "5 mm"),
        ("  width: 5.3\n", "  width: 1/2 in\n", "the slots' width is 1/2 in; allowed: 1/4 in (the rib", "1/4 in"),
        (
            "{sides: 12, tips: 30}",
            "{sides: 12, tips: 8}",
            "the trace margin's tips is 8 mm; allowed: at least 12 mm (no less than at the sides)",
            "12 mm",
        ),
        (
            "low: 6.5 GPa",
            "low: 8 GPa",
            "the panel's stiffness, lower end is 8 GPa; allowed: at most 7.7 GPa",
            "7.7 GPa",
        ),
        (
            "high: 9 GPa",
            "high: 7 GPa",
            "the panel's stiffness, upper end is 7 GPa; allowed: at least 7.7 GPa",
            "7.7 GPa",
        ),
        (
            "timber: Western redcedar",
            "timber: western red cedar",
            "the panel's timber is western red cedar; allowed: a name in timber.csv: Western redcedar,",
            "Western redcedar",
        ),
        (
            "rails: {built: strips, layer: 10,",
            "rails: {built: strips, layer: 40,",
            "the rails' layer thickness is 40 mm; allowed: at most 30 mm (the rail is built up from them)",
            "30 mm",
        ),
        (
            "{holds: tail, from_tail: 0, length: 100, width: 120, density: 430}",
            "{holds: nose, from_tail: 0, length: 100, width: 120, density: 430}",
            "is the same as entry 1 (nose); allowed: each entry once",
            "one block for each",
        ),
        (
            "  - {holds: vent, from_tail: 1700, length: 70, width: 60, from_centre: 36, density: 430}\n",
            "",
            "without a block for the vent; allowed: tail, leash plug, fin, vent, nose",
            "adding a block with `holds: vent`",
        ),
        (
            "{holds: nose, from_tail: 2190,",
            "{holds: nose, from_tail: 2200,",
            "is 2200 mm; allowed: at most 2190 mm (the block ends within the board)",
            "2190 mm",
        ),
        (
            "{holds: fin, from_tail: 212,",
            "{holds: fin, from_tail: 200,",
            "running through the rib at 205 mm; allowed: between two ribs (198 mm long, ribs 5 mm thick)",
            "207.5 mm",
        ),
        (
            "fin: {from_tail: 230,",
            "fin: {from_tail: 300,",
            "is 300 mm; allowed: 222 mm to 240 mm (the fin's block reaches 10 mm past its base)",
            "240 mm",
        ),
        (
            "leash_plug: {from_tail: 150, from_centre: 24,",
            "leash_plug: {from_tail: 150, from_centre: 40,",
            "is 40 mm; allowed: -26 mm to 26 mm (its block has 10 mm of wood round the hole)",
            "26 mm",
        ),
        (
            "vent: {from_tail: 1735, from_centre: 36, hole: 10,",
            "vent: {from_tail: 1735, from_centre: 36, hole: 45,",
            "a hole of 45 mm in a block 70 × 60 mm; allowed: at most 40 mm",
            "40 mm",
        ),
        (
            "rail: 30\n",
            "",
            "the rail is missing; allowed: 0 mm to 80 mm (finished sizes need it",
            "adding the line `rail: …`",
        ),
    ],
)
def test_what_does_not_fit_in_a_board_is_a_fault(faults, old, new, message, way):
    found = faults(BOARD, (old, new))
    found = [fault for fault in found if message in fault] or found
    file = "boards/dunlin.yaml"
    assert found, "no fault"
    assert message in found[0], found
    assert found[0].startswith(file)
    assert found[0].partition("; try ")[2] == way


def test_a_frame_bottom_as_measured_must_reach_both_tips(faults):
    found = faults(BOARD, ("frame_bottom: straight\n", BOTTOM + "  - {from_tail: 2200, height: 9}\n"))
    assert len(found) == 1
    assert "height of the frame's bottom line 4's place from the tail is 2200 mm; allowed: 2300 mm" in found[0]


def test_a_frame_bottom_as_measured_may_be_given(faults):
    assert faults(BOARD, ("frame_bottom: straight\n", BOTTOM + "  - {from_tail: 2300, height: 9}\n")) == []


@pytest.mark.parametrize(
    ("old", "new", "message", "way"),
    [
        (
            "board: dunlin",
            "board: dunlon",
            "the board is dunlon; allowed: a name in the folder `boards`: dunlin, heron, teal",
            "dunlin",
        ),
        (
            "where: beach break",
            "where: beachbreak",
            "the surf's kind of wave is beachbreak; allowed: a name in rocker_rules.csv under `where`: beach",
            "beach break",
        ),
        ("how: cruising", "how: cruisin", "the surf's way of surfing is cruisin; allowed: a name in", "cruising"),
        (
            "skill: some years",
            "skill: some year",
            "the surf's skill is some year; allowed: a name in rocker_rules.csv under `skill`: first",
            "some years",
        ),
        (
            "stage: ready",
            "stage: redy",
            "the stage is redy; allowed: a name in the list of stages: ready, panels,",
            "ready",
        ),
        (
            "  bench: The floor",
            "  bnech: The floor",
            "the note for bnech is bnech; allowed: a name in the list of",
            "bench",
        ),
        (
            "tools: [jigsaw,",
            "tools: [jigsaw, jig saw,",
            "tool 2 is jig saw; allowed: a name in household.csv: jigsaw,",
            "jigsaw",
        ),
        (
            "scraper, sanding block",
            "scraper, scraper",
            "tool 13 is the same as entry 12 (scraper); allowed: each entry once",
            "taking out one of the two",
        ),
        (
            "[Tuesday, Thursday, Saturday]",
            "[Tuesday, Thursday, tue]",
            "day of the week 3 is the same as entry 1 (tue); allowed: each entry once",
            "taking out one of the two",
        ),
        ("name: grey card", "name: Thin card", "thing 12 is the same", ""),
        (
            "{name: grey card, kind: shim, height: 1,",
            "{name: grey card, kind: shim, height: 12,",
            "thing 11's height is 12 mm; allowed: 0.1 mm to 6 mm (usual for a shim)",
            "6 mm",
        ),
        (
            "{name: large paint tin, kind: tin, height: 246",
            "{name: large paint tin, kind: tin, height: 24.6",
            "thing 1's height is 24.6 mm; allowed: 40 mm to 600 mm (usual for a tin)",
            "40 mm",
        ),
        (
            "opening: 70",
            "opening: 25",
            "clamp 1's opening is 25 mm; allowed: at least 36 mm (the panel and the edge",
            "36 mm",
        ),
        ("opening: 70", "opening: 1 in", "clamp 1's opening is 1 in; allowed: at least 1 7/16 in", "1 7/16 in"),
        (
            "{from_tail: 2300, reading: 2}",
            "{from_tail: 3100, reading: 2}",
            "table reading 5's place from the tail is 3100 mm; allowed: 0 mm to 3000 mm (the table ends there)",
            "3000 mm",
        ),
        (
            "{from_tail: 1200, reading: -1}",
            "{from_tail: 500, reading: -1}",
            "table reading 3's place from the tail is 500 mm; allowed: at least 605 mm",
            "605 mm",
        ),
        ("night_low: 14", "night_low: 24", "the shed's lowest at night is 24 C; allowed: at most 19 C", "19 C"),
        (
            "type: polyurethane",
            "type: pva",
            "the glue's method is bead with PVA (it holds only as a thin, pressed film and fills no gap)",
            "spread",
        ),
        (
            "fills_gaps_to: 2 mm",
            "fills_gaps_to: 0.2 mm",
            "the glue's method is bead with a glue that fills gaps to 0.2 mm only",
            "spread",
        ),
        ("water_class: D4", "water_class: D2", "the glue's water class is D2; allowed: D3, D4 or none stated", "D3"),
        ("full_cure: 24 h", "full_cure: 3 h", "the glue's clamp time is 4 h; allowed: at most 3 h", "3 h"),
        (
            "also: {at: 10, open_time: 35 min, clamp_time: 8 h, full_cure: 48 h}",
            "also: {at: 21, open_time: 20 min, clamp_time: 4 h, full_cure: 24 h}",
            "the glue's other column, temperature is 21 C; allowed: at least 23 C (3 degrees or more from `times_at`",
            "23 C",
        ),
        (
            "also: {at: 10, open_time: 35 min, clamp_time: 8 h, full_cure: 48 h}",
            "also: {at: 10, open_time: 35 min, clamp_time: 8 h, full_cure: 20 h}",
            "the glue's other column, full cure is 20 h; allowed: at least 24 h (no shorter in the cold)",
            "24 h",
        ),
        (
            "also: {at: 10, open_time: 35 min, clamp_time: 8 h, full_cure: 48 h}",
            "also: {at: 30, open_time: 35 min, clamp_time: 3 h, full_cure: 16 h}",
            "the glue's other column, open time is 35 min; allowed: at most 20 min (no longer in the warm)",
            "20 min",
        ),
        (
            "recoat_before: 3 d",
            "recoat_before: 3 h",
            "the finish's latest time for the next coat is 3 h; allowed: at least 16 h (the latest comes",
            "16 h",
        ),
        ("tool: random orbit sander", "tool: jigsaw", "the same as entry 1 (jigsaw)", "one entry a tool"),
        ("{tool: jigsaw,", "{tool: chisel,", "allowed: a name in this file under `tools`: jigsaw,", "kitchen scale"),
        ("days: [Sunday]", "days: [Saturday]", "under `evenings` as well", "taking it out of `evenings`"),
        ("2027-02-28]", "2027-02-18]", "the same as entry 1 (2027-02-18)", "taking out one of the two"),
        (
            "stage: ready",
            "photo_first: [top deck]\nstage: ready",
            "is top deck; allowed: a name in the list of stages: ready,",
            "top-deck",
        ),
        (
            "stage: ready",
            "stage: ready\nmeasured: {panel_thickness: 9}",
            "the measured panel thickness is 9 mm; allowed: 4 mm to 8 mm (near the board's own)",
            "8 mm",
        ),
        (
            "stage: ready",
            "stage: ready\nmeasured: {finished_mass: 60}",
            "the measured mass of the finished board is 60 kg; allowed: 1 kg to 40 kg",
            "40 kg",
        ),
    ],
)
def test_what_does_not_fit_in_a_builder_is_a_fault(faults, old, new, message, way):
    found = faults(BUILDER, (old, new))
    if message.endswith("is the same"):
        assert "thing 12's name is the same as entry 11 (thin card); allowed: each entry once" in found[0]
        return
    assert len(found) == 1, found
    assert message in found[0]
    assert found[0].partition("; try ")[2] == way


def test_the_table_must_carry_both_tips(faults):
    found = faults(
        BUILDER,
        ("  length: 3000", "  length: 2000"),
        ("{from_tail: 2300, reading: 2}", "{from_tail: 1990, reading: 2}"),
    )
    one(found, BUILDER, "the table's length is 2000 mm; allowed: at least 2300 mm", "2300 mm")


def test_what_was_measured_lies_on_the_board(faults):
    found = faults(
        BUILDER,
        (
            "stage: ready\n",
            """stage: ready
measured:
  frame_sag: {apart: 2400, weight: 2, drop: 9}
  on_bench:
    - {from_tail: 0, height: 290}
    - {from_tail: 500, height: 250}
    - {from_tail: 400, height: 240}
    - {from_tail: 1400, height: 240}
    - {from_tail: 2500, height: 340}
""",
        ),
    )
    assert [re.sub(r"^\S+ ", "", fault) for fault in found] == [
        "the distance between the supports of the frame's sag test is 2400 mm; allowed: at most 2300 mm "
        "(the part lies on both supports); try 2300 mm",
        "reading on the bench 3's place from the tail is 400 mm; allowed: at least 505 mm "
        "(places go from tail to nose); try 505 mm",
        "reading on the bench 5's place from the tail is 2500 mm; allowed: 0 mm to 2300 mm (the board is so long); "
        "try 2300 mm",
    ]


def test_ribs_leave_room_for_the_middle_supports(faults):
    """The bench's own rule for its middle supports is the one that the file is checked by."""
    assert (MIDDLE_FROM, MIDDLE_APART) == (FROM_TIP_PER_LENGTH, APART_PER_LENGTH)
    (found,) = faults(BOARD, (RIBS, "[205, 900, 1200, 2095]"))
    assert "two ribs between 345 mm and 1955 mm from the tail, 460 mm or more apart" in found


def test_four_ribs_will_do_if_two_of_them_can_carry_the_middle_supports(faults):
    assert faults(BOARD, (RIBS, "[205, 800, 1300, 2095]")) == []


@pytest.mark.parametrize(("typed", "limit"), [("400", "338 mm"), ("15 in", "13 1/4 in")])
def test_no_board_is_wider_than_two_fifths_of_its_length(faults, typed, limit):
    found = faults("boards/teal.yaml", ("half_width: 230", f"half_width: {typed}"), builder="ines")
    assert len(found) == 1
    assert f"at most a fifth of the length); try {limit}" in found[0]


def test_pva_is_allowed_where_the_joint_is_opened_and_spread(faults):
    spread = (("type: polyurethane", "type: pva"), ("method: bead", "method: spread"))
    assert faults(BUILDER, *spread) == []


@pytest.mark.parametrize("water_class", ["D1", "D2", "none stated"])
def test_pva_that_is_not_said_to_stand_water_is_refused(faults, water_class):
    changes = (("water_class: D4", f"water_class: {water_class}"), ("type: polyurethane", "type: pva"))
    one(
        faults(BUILDER, *changes, ("method: bead", "method: spread")),
        BUILDER,
        f"the glue's water class is {water_class}; allowed: D3 or D4 (the board lives in water)",
        "D3",
    )


def test_a_spread_glue_must_be_closed_before_its_clamp_time_is_over(faults):
    found = faults(
        BUILDER,
        ("method: bead", "method: spread"),
        ("open_time: 20 min", "open_time: 3 h"),
        ("open_time: 35 min", "open_time: 4 h"),
        ("clamp_time: 4 h", "clamp_time: 2 h"),
    )
    assert len(found) == 1
    assert "the glue's open time is 3 h; allowed: at most 2 h" in found[0]


def test_a_builders_own_rocker_must_reach_both_tips_of_their_board(folder, faults):
    found = faults(
        "builders/ines.yaml", ("{from_tail: 1690, height: 108}", "{from_tail: 1700, height: 108}"), builder="ines"
    )
    one(
        found,
        "builders/ines.yaml",
        "rocker height 8's place from the tail is 1700 mm; allowed: 0 mm to 1690 mm (the board is so long)",
        "1690 mm",
    )


def test_the_makers_own_margin_is_checked_too(faults):
    found = faults(MAKER, ("{sides: 12, tips: 30}", "{sides: 12, tips: 10}"))
    one(found, MAKER, "the defaults' trace margin, tips is 10 mm; allowed: at least 12 mm", "12 mm")


def test_a_cross_check_runs_although_another_field_of_its_group_is_bad(faults):
    changes = (("type: polyurethane", "type: pva"), ("open_time: 20 min", "opne_time: 20 min"))
    found = faults(BUILDER, *changes)
    assert len(found) == 2
    assert "bead with PVA" in found[0]
    assert "the key `opne_time` of the glue is not known" in found[1]


def test_a_cross_check_is_left_out_when_a_field_of_its_own_is_bad(faults):
    found = faults(BUILDER, ("type: polyurethane", "type: putty"), ("method: bead", "method: bead"))
    assert len(found) == 1
    assert "the glue's type is putty" in found[0]


def test_cross_checks_with_the_board_run_on_what_is_sound_of_it(folder, edit, faults):
    edit(BOARD, ("tail: pointed", "tail: pointy"))
    found = faults(BUILDER, ("opening: 70", "opening: 30"))
    assert len(found) == 2
    assert "clamp 1's opening is 30 mm; allowed: at least 36 mm" in found[1]


def test_cross_checks_with_the_board_are_left_out_when_it_is_not_there(faults):
    found = faults(BUILDER, ("board: dunlin", "board: nothing"), ("opening: 70", "opening: 30"))
    assert len(found) == 1


def test_one_bad_entry_of_a_list_does_not_hide_a_misfit_between_others(faults):
    changes = (
        ("tail: pointed", "tail: square"),
        ("{from_tail: 1500, half_width: 266}", "{from_tail: 1500, half_width: 2660}"),
    )
    found = faults(BOARD, *changes)
    assert len(found) == 2
    assert "the tail is square without its half-width" in found[0]
