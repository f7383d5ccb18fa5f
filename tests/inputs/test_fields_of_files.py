"""Faults of single fields: place, field in plain words, what was found, what is allowed, the nearest good value."""

import pytest

from generator.inputs.fault import BadInput
from generator.inputs.site import read_builder


def test_the_demo_builder_has_no_fault(faults):
    assert faults("builders/mara.yaml") == []


@pytest.mark.parametrize(
    ("old", "new", "message", "way"),
    [
        (
            "name: Dunlin",
            "name: 12",
            "the name is 12; allowed: text (put it in quotes if it looks like a number)",
            '"12"',
        ),
        ("name: Dunlin", "name:", "the name is empty; allowed: text of 1 to 80 characters", ""),
        (
            "name: Dunlin",
            "name: true",
            "the name is the YAML value true; allowed: text (put it in quotes if it looks like a number)",
            "",
        ),
        (
            "name: Dunlin",
            "name: " + "x" * 81,
            "the name is 81 characters long; allowed: text of 1 to 80 characters",
            "a text of 80 characters",
        ),
        (
            "name: Dunlin",
            'name: "a\\x07b"',
            "the name is text with the character U+0007 in it; allowed: text without control characters",
            "ab",
        ),
        (
            "name: Dunlin",
            'name: "a\\nb"',
            "the name is text with a line break in it; allowed: text without control characters",
            "a b",
        ),
        ("sizes: finished", "sizes: finshed", "the kind of size is finshed; allowed: frame or finished", "finished"),
        (
            "length: 2300",
            "length: 60000",
            "the length is 60000 mm; allowed: 1200 mm to 4000 mm, written like 6.5 mm",
            "4000 mm",
        ),
        (
            "length: 2300",
            "length: 60 ft",
            "the length is 60 ft; allowed: 3 ft 11 1/4 in to 13 ft 1 7/16 in",
            "13 ft 1 7/16 in",
        ),
        ("length: 2300", "length: 2.3 cm", "the length is 2.3 cm; allowed: 120 cm to 400 cm", "120 cm"),
        (
            "length: 2300",
            "length: [2300]",
            "the length is a list (not a number); allowed: 1200 mm to 4000 mm, written like 6.5 mm",
            "",
        ),
        (
            "length: 2300",
            "length: 2,300 m",
            "the length is 2,300 m (written with a comma); allowed: 1200 mm to 4000 mm, written like 6.5 mm",
            "2.300 m",
        ),
        (
            "length: 2300",
            "length: 2,300",
            "the length is 2,300 (written with a comma); allowed: 1200 mm to 4000 mm, written like 6.5 mm",
            "2300",
        ),
        ("tail: pointed", "tail: pointy", "the tail is pointy; allowed: one of round, pointed, square", "pointed"),
        ("nose: pointed", "nose: no", "the nose is no; allowed: one of round, pointed, square", "round"),
        ("thickness: 6 mm", "thickness: 60 mm", "the spine's thickness is 60 mm; allowed: 3 mm to 25 mm", "25 mm"),
        (
            "half_width: 248",
            "half_width: 2480",
            "half-width 2's half-width is 2480 mm; allowed: 0 mm to 450 mm, written like 6.5 mm",
            "450 mm",
        ),
        (
            "share_of_depth: 1/2",
            "share_of_depth: 95 %",
            "the slots' share of the depth is 95 %; allowed: 5 % to 90 %",
            "90 %",
        ),
        ("open_to: top", "open_to: up", "the slots' open side is up; allowed: top or bottom", "top"),
        (
            "frame_bottom: straight",
            "frame_bottom: strait",
            "the frame's bottom line is strait; allowed: straight or to the rocker",
            "straight",
        ),
        (
            "[205, 415, 625, 835, 1045, 1255, 1465, 1675, 1885, 2095]",
            "[205]",
            "the ribs' place from the tail is a list of 1; allowed: at least 2 entries",
            "adding what is missing",
        ),
        (
            "trace_margin: {sides: 12, tips: 30}",
            "trace_margin: {sides: 12}",
            "the trace margin's tips is missing; allowed: 5 mm to 100 mm, written like 6.5 mm",
            "adding the line `tips: …`",
        ),
        (
            "{value: 7.7 GPa, low: 6.5 GPa, high: 9 GPa}",
            "77 GPa",
            "the panel's stiffness is 77 GPa; allowed: 0.2 GPa to 30 GPa",
            "30 GPa",
        ),
        (
            "{value: 7.7 GPa, low: 6.5 GPa, high: 9 GPa}",
            "{value: 7.7 GPa, low: 6.5 GPa}",
            "the panel's stiffness, upper end is missing",
            "adding the line `high: …`",
        ),
    ],
)
def test_a_bad_field_of_a_board_is_one_fault(faults, old, new, message, way):
    found = faults("boards/dunlin.yaml", (old, new))
    assert len(found) == 1, found
    assert found[0].startswith(f"boards/dunlin.yaml:@: {message}")
    assert found[0].partition("; try ")[2] == way


@pytest.mark.parametrize(
    ("old", "new", "message", "way"),
    [
        (
            "body_mass: 68",
            "body_mass: 680 lb",
            "the body mass is 680 lb; allowed: 33.07 lb to 551.155 lb",
            "551.155 lb",
        ),
        ("helpers: 1", "helpers: 1.5", "the number of helpers is 1.5; allowed: a whole number from 0 to 10", "2"),
        ("helpers: 1", "helpers: two", "the number of helpers is two; allowed: a whole number from 0 to 10", ""),
        (
            "start: 2027-02-03",
            "start: 2027-02-30",
            "the start is 2027-02-30; allowed: a date from 2000 to 2099 written year-month-day, like",
            "2027-02-28",
        ),
        (
            "start: 2027-02-03",
            "start: 2027-13-45",
            "the start is 2027-13-45; allowed: a date from 2000 to 2099 written year-month-day, like",
            "2027-12-31",
        ),
        (
            "start: 2027-02-03",
            "start: 2027-2-3",
            "the start is 2027-2-3; allowed: a date from 2000 to 2099 written year-month-day, like",
            "2027-02-03",
        ),
        ("start: 2027-02-03", "start: 3.2.2027", "the start is 3.2.2027; allowed: a date", ""),
        (
            "[Tuesday, Thursday, Saturday]",
            "[Tuesday, Thirsday]",
            "day of the week 2 is Thirsday; allowed: one of Monday, Tuesday, Wednesday, Thursday, Friday, Saturday,",
            "Thursday",
        ),
        (
            "[Tuesday, Thursday, Saturday]",
            "[1]",
            "day of the week 1 is 1; allowed: one of Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday",
            "Tuesday",
        ),
        (
            "[Tuesday, Thursday, Saturday]",
            "[]",
            "the evenings' days is a list of 0; allowed: at least 1 entry",
            "adding what is missing",
        ),
        ("open_time: 20 min", "open_time: 20 h", "the glue's open time is 20 h; allowed: 0.02 h to 4 h", "4 h"),
        (
            "board: dunlin",
            "board: Dunlin",
            "the board is Dunlin; allowed: small letters, digits and single hyphens",
            "dunlin",
        ),
        (
            "kind: crossbar",
            "kind: cross-bar",
            "thing 13's kind is cross-bar; allowed: one of tin, block, sheet, shim, crossbar",
            "crossbar",
        ),
    ],
)
def test_a_bad_field_of_a_builder_is_one_fault(faults, old, new, message, way):
    found = faults("builders/mara.yaml", (old, new))
    assert len(found) == 1, found
    assert found[0].startswith(f"builders/mara.yaml:@: {message}")
    assert found[0].partition("; try ")[2] == way


@pytest.mark.parametrize(
    ("old", "new", "message", "way"),
    [
        ("hello@example.org", "hello", "the contact is hello; allowed: a mail address or a phone number", ""),
        (
            "https://example.org/sedge-lane/",
            "http://example.org/",
            "the address of the site is http://example.org/; allowed: an address that begins with https://",
            "https://example.org/",
        ),
        ("https://example.org/sedge-lane/", 'https://example.org/"><script>', "the address of the site is", ""),
        (
            "trace_margin: {sides: 12, tips: 30}",
            "trace_margin: 2",
            "the defaults' trace margin is 2; allowed: a group with sides, tips",
            "the form of a demo file",
        ),
    ],
)
def test_a_bad_field_of_the_maker_is_one_fault(faults, old, new, message, way):
    found = faults("maker.yaml", (old, new))
    assert len(found) == 1, found
    assert found[0].startswith(f"maker.yaml:@: {message}")
    assert found[0].partition("; try ")[2] == way


def test_a_misspelt_and_so_missing_field_is_one_fault(faults):
    (found,) = faults("boards/dunlin.yaml", ("length: 2300", "lenght: 2300"))
    assert found.startswith("boards/dunlin.yaml:@: the key `lenght` is not known; allowed: name, sizes, length,")
    assert found.endswith("; try length")


def test_a_misspelt_optional_field_is_one_fault(faults):
    (found,) = faults("boards/dunlin.yaml", ("rail: 30", "rial: 30"))
    assert found.endswith("; try rail")


def test_a_misspelt_nested_field_names_its_group(faults):
    (found,) = faults("boards/dunlin.yaml", ("  width: 5.3\n", "  widht: 5.3\n"))
    assert found == (
        "boards/dunlin.yaml:@: the key `widht` of the entry for the slots is not known; "
        "allowed: share_of_depth, width, open_to; try width"
    )


def test_a_name_of_the_programs_own_is_not_a_key(faults):
    (found,) = faults("boards/dunlin.yaml", ("length: 2300", "length_mm: 2300"))
    assert "the key `length_mm` is not known" in found
    assert found.endswith("; try length")


def test_an_unknown_key_like_no_other_is_to_be_taken_out(faults):
    (found,) = faults("boards/dunlin.yaml", ("rail: 30", "rail: 30\nzzzz: 1"))
    assert "the key `zzzz` is not known" in found
    assert found.endswith("; try taking it out")


def test_a_missing_group_says_what_belongs_in_it(faults):
    (found,) = faults("boards/dunlin.yaml", ("frame_bottom: straight\n", ""))
    assert found == (
        "boards/dunlin.yaml:3: the frame's bottom line is missing; allowed: straight or to the rocker or "
        "a list, each with from_tail, height; try adding the line `frame_bottom: …`"
    )


@pytest.mark.parametrize(
    ("text", "found"), [("", "empty"), ("# only words\n", "empty"), ("- a\n", "a list"), ("x", "x")]
)
def test_a_file_that_is_no_group_of_fields_is_one_fault(folder, faults, text, found):
    (folder / "boards" / "dunlin.yaml").write_text(text, "utf-8")
    (message,) = faults("builders/mara.yaml")
    assert message.startswith(f"boards/dunlin.yaml:1: the file is {found}; allowed: fields by name: name, sizes,")


def test_all_faults_of_all_files_come_at_once_in_file_order(folder, edit):
    unit = edit("maker.yaml", ("units: metric", "units: feet"))
    board = edit("boards/dunlin.yaml", ("tail: pointed", "tail: x"), ("thickness: 5 mm", "thickness: 500 mm"))
    builder = edit("builders/mara.yaml", ("helpers: 1", "helpers: -1"), ("method: bead", "method: blob"))
    with pytest.raises(BadInput) as bad:
        read_builder(folder, "mara")
    expected = [f"boards/dunlin.yaml:{line}" for line in board] + [f"builders/mara.yaml:{line}" for line in builder]
    assert [fault.place for fault in bad.value.faults] == [*expected, f"maker.yaml:{unit[0]}"]


def test_faults_of_reading_and_of_fields_come_together_and_once(folder, edit):
    tail, length = edit(
        "boards/dunlin.yaml", ("tail: pointed", "tail: &x pointed\ntail: x"), ("length: 2300", "length: 1e9")
    )
    with pytest.raises(BadInput) as bad:
        read_builder(folder, "mara")
    assert [fault.place for fault in bad.value.faults] == [f"boards/dunlin.yaml:{n}" for n in (length, tail, tail + 1)]


@pytest.mark.parametrize(("typed", "found", "way"), [("19,5", "19,5", "19.5"), ("66,5 F", "66,5 F", "66.5 F")])
def test_a_decimal_comma_inside_braces_is_told_from_an_unknown_key(faults, typed, found, way):
    (message,) = faults("builders/mara.yaml", ("temperature: 19", f"temperature: {typed}"))
    assert message == (
        f"builders/mara.yaml:@: the shed's temperature is {found} (written with a comma); "
        f"allowed: decimals with a dot; try {way}"
    )


@pytest.mark.parametrize("name", ["trace_margin: {sides: 12, tips: 30}", "rail: 30"])
def test_a_field_that_may_be_missing_may_also_be_left_blank(faults, name):
    key = name.split(":")[0]
    found = faults("boards/dunlin.yaml", (name, f"{key}:"))
    assert not any("is empty" in fault for fault in found)


def test_control_characters_never_reach_a_message(faults):
    found = faults("boards/dunlin.yaml", ("tail: pointed", 'tail: "\\e[31mred\\u202e"'))
    assert len(found) == 1
    assert all(char.isprintable() for char in found[0])
