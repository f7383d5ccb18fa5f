"""YAML text into plain values with their lines, and everything that is refused on the way."""

import contextlib
import time

import pytest

from generator.inputs.fault import BadInput
from generator.inputs.read import read_document

KIB = 1024


def read(text):
    return read_document(text if isinstance(text, bytes) else text.encode(), "x.yaml")


def refused(text):
    with pytest.raises(BadInput) as bad:
        read(text)
    return [str(fault) for fault in bad.value.faults]


def test_values_keep_their_lines():
    document = read("a: 1\nb:\n  - c: 2\n  - c: 3\n    d: x\ne: {f:\n  4}\n")
    assert document.data == {"a": 1, "b": [{"c": 2}, {"c": 3, "d": "x"}], "e": {"f": 4}}
    assert document.at(("b", 1, "d")) == "x.yaml:5"
    assert document.at(("b", 1)) == "x.yaml:4"
    assert document.at(("e", "f")) == "x.yaml:6"
    assert document.at(("b", 1, "not there")) == "x.yaml:4"
    assert document.at(("nowhere",)) == "x.yaml:1"


def test_scalars_follow_yaml_1_2():
    document = read("a: no\nb: 9:30\nc: 010\nd: 0o10\ne: '12'\nf: \"true\"\ng: 2026-11-30\nh: |\n  5\ni:\n")
    assert document.data == {
        "a": "no", "b": "9:30", "c": 10, "d": 8, "e": "12", "f": "true", "g": "2026-11-30", "h": "5\n", "i": None,
    }  # fmt: skip


def test_keys_are_always_text():
    assert read("1: a\ntrue: b\n~: c\n<<: d\n").data == {"1": "a", "true": "b", "~": "c", "<<": "d"}


def test_windows_line_ends_and_a_byte_order_mark_are_fine():
    document = read(b"\xef\xbb\xbfa: 1\r\nb: 2\r\n")
    assert document.data == {"a": 1, "b": 2}
    assert document.at(("b",)) == "x.yaml:2"


def test_a_file_over_64_kib_is_refused_and_one_of_64_kib_is_read():
    assert read("a: 1\n#" + "x" * (64 * KIB - 6)).data == {"a": 1}
    assert refused("a: 1\n#" + "x" * (64 * KIB - 5)) == [
        "x.yaml:1: the file is over 64 KiB long; allowed: up to 64 KiB; try leaving out long comments"
    ]


def test_nesting_is_read_to_fifty_and_refused_beyond():
    assert read("[" * 50 + "]" * 50).data
    assert "nested deeper than 50" in refused("[" * 51 + "]" * 51)[0]
    assert "nested deeper than 50" in refused("{a: " * 15_000)[0]
    assert "x.yaml:51: " in refused("".join(" " * n + "a:\n" for n in range(60)))[0]


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        (b"a: 1\nb: \xff\n", 2, "not in UTF-8 here"),
        ("a: 1".encode("utf-16"), 1, "not in UTF-8 here"),
        ("a: 1\n\tb: 2\n", 2, "a tab"),
        ("a: x\ty\n", 1, "a tab"),
        ("a: 1\nb: \x07\n", 2, "the control character U+0007"),
        ("a: 1\nb: \x1b[31m\n", 2, "the control character U+001B"),
        ("a: 1\rb: 2\n", 1, "the control character U+000D"),
        ("a: \u2028\n", 1, "the control character U+2028"),
        ("a: \u202eabc\n", 1, "the control character U+202E"),
        ("a: 1\n# \x00\n", 2, "the control character U+0000"),
        ("a: 1\n---\nb: 2\n", 2, "made of more than one document"),
        ("%YAML 1.1\n---\na: 1\n", 1, "begun with a % line"),
        ("%TAG ! tag:x,2000:\n---\na: 1\n", 1, "begun with a % line"),
        ("%YAML " + "9" * 5000 + ".1\n---\na: 1\n", 1, "not readable as YAML"),
        ('a: 1\nb: "\\U00110000"\n', 2, "not readable as YAML"),
        ("a: 1\nb: [1, 2\n", 3, "no YAML here"),
        ("a: 1\n b: 2\n", 2, "no YAML here"),
        ("a: b: c\n", 1, "no YAML here"),
        ("[a]: 1\n", 1, "a list or group as a key"),
        ("{a: 1}: 1\n", 1, "a list or group as a key"),
        ("? - a\n: 1\n", 1, "a list or group as a key"),
        ('"\\a": 1\n', 1, "a key with a control character"),
    ],
)
def test_what_ends_the_reading_names_its_line(text, line, said):
    (message,) = refused(text)
    assert message.startswith(f"x.yaml:{line}: ")
    assert said in message


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("a: 1\nb: &x 2\n", 2, "the b is marked with an anchor (&x)"),
        ("a: &x 1\nb: *x\n", 2, "the b is an alias (*x)"),
        ("a: 1\nb: !!str 2\n", 2, "the b is marked with a tag (tag:yaml.org,2002:str)"),
        ("a: !thing {b: 1}\n", 1, "the a is marked with a tag (!thing)"),
        ("!!map {a: 1}\n", 1, "the file is marked with a tag"),
        ("a: 1\n&x b: 2\n", 2, "marked with an anchor (&x)"),
        ("a: 1\nb: 2\na: 3\n", 3, "the key `a` is given again (first in line 1)"),
        ("x: {a: 1, a: {b: 2}}\n", 1, "the key `a` is given again (first in line 1)"),
        ("a: 1e3\n", 1, "the a is 1e3; allowed: a plain number, written out; try 1000"),
        ("a: [1, .nan]\n", 1, "is .nan; allowed: a plain number"),
        ("a: " + "9" * 41 + "\n", 1, "the a is a number of 41 characters"),
    ],
)
def test_what_reading_can_go_on_after_is_kept_with_its_line(text, line, said):
    messages = [str(fault) for fault in read(text).faults]
    assert any(m.startswith(f"x.yaml:{line}: ") and said in m for m in messages), messages


def test_the_first_of_two_equal_keys_counts():
    assert read("a: 1\na: {b: 2}\nc: 3\n").data == {"a": 1, "c": 3}


def test_an_alias_bomb_builds_nothing():
    text = "a: &a [x, x]\n" + "".join(f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True))
    document = read(text)
    assert document.data["i"] == [None, None]
    assert sum("alias" in str(fault) for fault in document.faults) == 16


@pytest.mark.parametrize(
    "text",
    [
        "a: " + "9" * 60_000,
        'a: "' + "9" * 60_000 + '"',
        "a: [" + "b," * 30_000 + "]",
        "a: 1\n" * 12_000,
        "".join(f"k{n}: 1\n" for n in range(6000)),
        "- " * 30_000,
        "? " * 30_000,
        "[" * 65_000,
        "a:\n" + "  x\n\n" * 10_000,
        'a: "' + "\\x41" * 16_000 + '"',
        "#\n" * 30_000,
        ": " * 30_000,
        "'" * 60_000,
        "{" + "a: 1, " * 10_000,
    ],
)
def test_a_hostile_64_kib_file_takes_no_time(text):
    begun = time.process_time()
    with contextlib.suppress(BadInput):
        read(text)
    assert time.process_time() - begun < 2
