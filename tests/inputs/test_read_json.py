"""JSON text into plain values with their lines. What is good JSON and what is not: RFC 8259 (2017), sections 2 to 7."""

import json
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.inputs.fault import BadInput
from generator.inputs.read_json import MOST_BYTES, path_of, read_json


def read(text):
    return read_json(text if isinstance(text, bytes) else text.encode(), "x.json")


def refused(text):
    with pytest.raises(BadInput) as bad:
        read(text)
    (fault,) = bad.value.faults
    return str(fault)


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**14), 10**14) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=6), inner, max_size=4),
    max_leaves=20,
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(
    st.lists(VALUES, max_size=3) | st.dictionaries(st.text(max_size=6), VALUES, max_size=4),
    st.sampled_from([None, 0, 1, "\t"]),
    st.booleans(),
)
def test_what_the_standard_library_writes_is_read_as_it_was(value, indent, ascii_only):
    document = read(json.dumps(value, indent=indent, ensure_ascii=ascii_only))
    assert document.faults == ()
    assert document.data == value


def test_numbers_are_read_in_every_way_that_json_writes_them():
    document = read("[1e8, 1E+8, 1.0e-05, -0, 0.1, 100000000, 123456789012345678901234567890]")
    assert document.faults == ()
    assert document.data == [1e8, 1e8, 1e-5, 0, 0.1, 1e8, 123456789012345678901234567890.0]


def test_escapes_and_pairs_of_them_are_read():
    assert read(r'["\u00fc \"\\\/\b\f\n\r\t \ud83c\udf0a"]').data == ['ü "\\/\b\f\n\r\t 🌊']


def test_values_keep_their_lines():
    document = read('{"a": 1,\r\n "b": [\n  {"c": 2},\n  {"c": 3,\n   "d":\n "x"}], "e": [[5,\n6]]}\n')
    assert document.data == {"a": 1, "b": [{"c": 2}, {"c": 3, "d": "x"}], "e": [[5, 6]]}
    places = [("a",), ("b",), ("b", 0, "c"), ("b", 1, "c"), ("b", 1, "d"), ("e", 0, 0), ("e", 0, 1), ("nowhere",)]
    assert [document.at(place) for place in places] == [f"x.json:{line}" for line in (1, 2, 3, 4, 5, 6, 7, 1)]


def test_a_place_is_told_as_a_path():
    assert path_of(("cases", 0, "input", "supports", 12, "x_mm")) == "cases[0].input.supports[12].x_mm"
    assert path_of((2, 1)) == "[2][1]"
    assert path_of(()) == "the file"


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("", 1, "empty"),
        (" \n\n", 3, "empty"),
        ("hello", 1, "not JSON here (column 1: hello)"),
        ("7", 1, "not JSON here (column 1: 7)"),
        ("{} {}", 1, "(column 4: {}); allowed: the end of the file"),
        ("[1,\n2,]", 2, "(column 3: ]); allowed: another entry after the comma"),
        ('{"a": 1,}', 1, "(column 9: }); allowed: another entry after the comma"),
        ("[1 2]", 1, "allowed: a comma or ]"),
        ("[1}", 1, "(column 3: }); allowed: a comma or ]"),
        ('{"a" 1}', 1, "allowed: a colon after the key"),
        ('{"a":\n}', 2, "(column 1: }); allowed: a value"),
        ("{a: 1}", 1, "(column 2: a: 1}); allowed: a key in double quotes or }"),
        ('{"a": 1, 2: 3}', 1, "allowed: a key in double quotes"),
        ("[,1]", 1, "allowed: a value"),
        ('{"a": [1,\n2', 2, "the end); allowed: a comma or ]"),
        ('["a\nb"]', 1, "allowed: text that ends with a double quote in the same line"),
        ('["a\tb"]', 1, "allowed: text that ends with a double quote in the same line"),
        ('["a\\x"]', 1, "allowed: text whose backslashes stand before"),
        ('["\\u12"]', 1, "allowed: text whose backslashes stand before"),
        ("[\u00a01]", 1, "allowed: no U+00A0 outside text"),
        (b'["\xff"]', 1, "not in UTF-8 here"),
        ("[1]".encode("utf-16"), 1, "not in UTF-8 here"),
        ("[" * 51 + "]" * 51, 1, "nested deeper than 50"),
        ('{"a":' * 100_000, 1, "nested deeper than 50"),
        ("[" + "1," * 200_000 + "1]", 1, "longer than 200000 values"),
        (b"[1]" + b" " * MOST_BYTES, 1, "over 4 MiB long"),
    ],
)
def test_what_ends_the_reading_names_its_line(text, line, said):
    message = refused(text)
    assert message.startswith(f"x.json:{line}: the file is ")
    assert said in message


def test_nesting_is_read_to_fifty():
    assert read("[" * 50 + "]" * 50).faults == ()


def test_a_byte_order_mark_is_passed_over():
    assert read(b"\xef\xbb\xbf[1]").data == [1]


@pytest.mark.parametrize(
    ("word", "way"),
    [
        ("NaN", ""),
        ("Infinity", ""),
        ("-Infinity", ""),
        (".nan", ""),
        ("1e999", ""),
        ("9" * 400, ""),
        (".5", "0.5"),
        ("5.", "5"),
        ("+5", "5"),
        ("007", "7"),
        ("1_000", "1000"),
        ("0x10", ""),
        ("True", ""),
        ("undefined", ""),
        ("'a'", ""),
    ],
)
def test_what_is_no_value_in_json_is_told_and_the_reading_goes_on(word, way):
    document = read(f'{{"a": [1,\n{word}], "b": 2}}')
    (fault,) = document.faults
    assert fault.place == "x.json:2"
    assert fault.field == "a[1]"
    assert fault.nearest == way
    assert document.unsound == {("a", 1)}
    assert document.data["b"] == 2


def test_the_first_of_two_equal_keys_counts_and_the_second_is_told():
    document = read('{"a": 1,\n"b": {"c": 1},\n"b": {"c": 2}}')
    assert document.data == {"a": 1, "b": {"c": 1}}
    (fault,) = document.faults
    assert str(fault).startswith("x.json:3: the key b is given again (first in line 2)")


@pytest.mark.parametrize(
    "text",
    [
        '"' + "\\" * 4_000_000,
        '"' * 4_000_000,
        '["' + "\\u0041" * 600_000 + '"]',
        "[" + "\n" * 4_000_000,
        "9" * 4_000_000,
        "[" + "a" * 4_000_000 + "]",
        '{"a":1,' * 500_000,
        "[" + "[],\n" * 190_000 + "[]]",
    ],
    ids=lambda text: repr(text[:12]),
)
def test_a_hostile_file_of_the_greatest_size_is_read_once_and_not_over_and_over(text):
    begun = time.process_time()
    try:
        read(text)
    except BadInput as bad:
        assert len(str(bad)) < 1000  # noqa: PT017
    assert time.process_time() - begun < 60, "a second or two is usual; with the square of its length it takes hours"
