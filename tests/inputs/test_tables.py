"""CSV tables: rows with their types, and each bad cell with its line."""

import pytest

from generator.inputs.fault import BadInput
from generator.inputs.tables import PracticeRow, Species, Tool, read_table, tool_faults

HEADER = "key,value,unit,label,how,source\n"


def refused(raw, row_type=PracticeRow):
    with pytest.raises(BadInput) as bad:
        read_table(raw if isinstance(raw, bytes) else raw.encode(), "t.csv", row_type)
    return [str(fault) for fault in bad.value.faults]


def test_rows_come_in_file_order_without_comments():
    text = "# words, more words\n" + HEADER + 'b,1.5,mm,"one, two",how,src\n\n# x\na,2,,label,how,src\n'
    rows = read_table(text.encode(), "t.csv", PracticeRow)
    assert rows == (
        PracticeRow("b", 1.5, "mm", "one, two", "how", "src"),
        PracticeRow("a", 2.0, "", "label", "how", "src"),
    )


def test_the_timber_table_has_blanks_where_nothing_was_seen(data):
    rows = {row.name: row for row in read_table((data / "timber.csv").read_bytes(), "timber.csv", Species)}
    assert len(rows) == 21
    assert rows["Western redcedar"].shrink_tangential_pct == 5.0
    assert rows["Paulownia"].coef_radial_per_pct is None
    assert rows["Paulownia"].source.startswith("Akyildiz and Kol 2010")
    assert all(row.source and row.read for row in rows.values())


def test_every_tool_has_a_use_and_a_substitute(data):
    rows = read_table((data / "household.csv").read_bytes(), "household.csv", Tool)
    assert all(row.use and row.substitute for row in rows)
    assert len({row.name for row in rows}) == len(rows) > 15
    assert list(tool_faults(rows)) == []


def test_a_tool_of_no_stage_is_a_fault_with_the_nearest_stage():
    faults = list(tool_faults([Tool("rasp", "shaping", "u", "s"), Tool("saw", "shapng", "u", "s")]))
    assert [str(fault) for fault in faults] == [
        "household.csv: the stage of saw is shapng; allowed: ready, panels, frame, keying, trace, bench, rocker, "
        "clamp, glue, inside, top-deck, rails, shaping, fin, seal, water; try shaping"
    ]


def test_every_fact_of_practice_says_how_and_where_from(data):
    rows = read_table((data / "practice.csv").read_bytes(), "practice.csv", PracticeRow)
    assert all(row.how.endswith(".") and row.source for row in rows)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "t.csv: the table is empty; allowed: a first row with key, value, unit, label, how, source"),
        ("# only words\n", "t.csv: the table is empty"),
        ("key,valeu\n", "t.csv:1: the first row is key, valeu; allowed: key, value, unit, label, how, source"),
        (HEADER + "a,1,mm,l,h\n", "t.csv:2: the row is 5 cells long; allowed: 6 cells"),
        (HEADER + "a,1,5,mm,l,h,s\n", "t.csv:2: the row is 7 cells long; allowed: 6 cells"),
        (HEADER + "a,x,mm,l,h,s\n", "t.csv:2: the column `value` is x; allowed: a number with a dot"),
        (HEADER + "a,nan,mm,l,h,s\n", "t.csv:2: the column `value` is nan; allowed: a number with a dot"),
        (HEADER + "a,,mm,l,h,s\n", "t.csv:2: the column `value` is empty; allowed: a number with a dot"),
        (HEADER + "a,1_0,mm,l,h,s\n", "t.csv:2: the column `value` is 1_0; allowed: a number with a dot"),
        (HEADER + "a,1,mm,,h,s\n", "t.csv:2: the column `label` is empty; allowed: text"),
        (HEADER + "a,1,mm,l,h,s\na,2,mm,l,h,s\n", "t.csv:3: a is given again (first in line 2); allowed: each once"),
        (HEADER + 'a,1,mm,"l,h,s\n', "t.csv:2: the table is left with a quote open; allowed: quotes in pairs"),
        (HEADER + "a,1,mm,\x1b,h,s\n", "t.csv:2: the table is spoilt by the control character U+001B"),
        (HEADER.encode() + b"a,1,\xff,l,h,s\n", "t.csv:2: the table is not in UTF-8 here"),
        ("x" * 300_000, "t.csv: the table is over 256 KiB long; allowed: up to 256 KiB"),
    ],
)
def test_a_bad_table_is_refused_with_its_line(text, message):
    found = refused(text)
    assert len(found) == 1
    assert found[0].startswith(message)


def test_all_bad_cells_come_at_once():
    assert len(refused(HEADER + "a,x,mm,,h,s\nb,y,mm,l,,s\n")) == 4
