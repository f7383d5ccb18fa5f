"""Blocks and fittings that can't be built: the way out that is told is taken, and is not refused again."""

import pytest

from generator.inputs.fault import BadInput
from generator.inputs.site import read_builder

BOARD, BUILDER = "boards/dunlin.yaml", "builders/mara.yaml"
FIN = "fin, from_tail: 212, length: 198, width: 60"
LEASH = "leash plug, from_tail: 112, length: 80, width: 100"
VENT = "vent, from_tail: 1700, length: 70, width: 60, from_centre: 36"
ALSO = "also: {at: 10, open_time: 35 min, clamp_time: 8 h, full_cure: 48 h}"


def told(folder, word):
    """The one fault that has this word."""
    try:
        read_builder(folder, "mara")
    except BadInput as bad:
        found = [fault for fault in bad.faults if word in str(fault)]
        assert len(found) <= 1
        return found[0] if found else None
    return None


@pytest.mark.parametrize(
    ("old", "new", "word", "field"),
    [
        (LEASH, "leash plug, from_tail: {}, length: 100, width: 100", "through the rib", "112"),
        (LEASH, "leash plug, from_tail: 112, length: {}, width: 100", "longest room", "300"),
        (FIN, "fin, from_tail: 212, length: {}, width: 60", "past its base", "25"),
        (FIN, "fin, from_tail: 212, length: 198, width: 60, from_centre: {}", "stands on the centre line", "120"),
        (LEASH, "leash plug, from_tail: 112, length: {}, width: 100", "wood round the hole", "22"),
        (LEASH, "leash plug, from_tail: 112, length: 80, width: {}", "wood round the hole", "7/8 in"),
        (VENT, "vent, from_tail: 1700, length: 70, width: {}, from_centre: 0", "past the spine", "12 mm"),
    ],
)
def test_a_block_that_can_not_be_gets_a_way_out_that_is_taken(folder, edit, old, new, word, field):
    if word == "past the spine":
        edit(BOARD, ("  material: gaboon ply\n  thickness: 6 mm", "  material: gaboon ply\n  thickness: 25 mm"))
        field = "20 mm"
    edit(BOARD, (old, new.format(field)))
    fault = told(folder, word)
    assert fault is not None
    edit(BOARD, (new.format(field), new.format(fault.nearest)))
    assert told(folder, word) is None
    assert told(folder, "20 mm to 600 mm") is None


@pytest.mark.parametrize(
    ("old", "new", "written"),
    [
        ("vent: {from_tail: 1735, from_centre: 36,", "vent: {{from_tail: 1735, from_centre: {},", "290"),
        ("vent: {from_tail: 1735, from_centre: 36,", "vent: {{from_tail: 1735, from_centre: {},", "-11 in"),
        ("leash_plug: {from_tail: 150, from_centre: 24,", "leash_plug: {{from_tail: {}, from_centre: 0,", "2299"),
        ("leash_plug: {from_tail: 150, from_centre: 24,", "leash_plug: {{from_tail: {}, from_centre: 0,", "1/16 in"),
    ],
)
def test_a_hole_outside_the_frame_is_refused(folder, edit, old, new, written):
    edit(BOARD, (old, new.format(written)))
    fault = told(folder, "lie inside the edge strip")
    assert fault is not None
    edit(BOARD, (new.format(written), new.format(fault.nearest)))
    assert told(folder, "lie inside the edge strip") is None


@pytest.mark.parametrize("first", ["-10", "12.5", "20", "45", "64 F"])
@pytest.mark.parametrize("off", [-2, 0, 2])
def test_a_second_column_too_near_the_first_gets_one_that_is_far_enough(folder, edit, first, off):
    celsius = 17.8 if first.endswith("F") else float(first)
    other = min(max(celsius + off, -10.0), 45.0)
    line = "also: {{at: {}, open_time: 20 min, clamp_time: 4 h, full_cure: 24 h}}"
    edit(BUILDER, ("times_at: 20", f"times_at: {first}"), (ALSO, line.format(other)))
    fault = told(folder, "degrees or more")
    assert fault is not None
    edit(BUILDER, (line.format(other), line.format(fault.nearest)))
    assert told(folder, "other column, temperature") is None


def test_a_plate_where_no_tool_is_named_gets_a_way_out(folder, edit):
    text = (folder / BUILDER).read_text("utf-8")
    tools = text[text.index("tools: [") : text.index("table:")]
    edit(BUILDER, (tools, "tools: []\n"))
    with pytest.raises(BadInput) as caught:
        read_builder(folder, "mara")
    for fault in caught.value.faults:
        assert fault.nearest.startswith("adding it there")


def test_a_free_day_on_the_only_evening_is_not_told_to_take_that_out(folder, edit):
    edit(BUILDER, ("days: [Tuesday, Thursday, Saturday]", "days: [Sunday]"))
    assert told(folder, "under `evenings`").nearest == "another day"
