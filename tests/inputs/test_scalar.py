"""Plain scalars: YAML 1.2.2 (2021), section 10.3.2, the core schema's table of tag resolution (from memory)."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.inputs.scalar import resolved, unusual_number


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("no", "no"),
        ("yes", "yes"),
        ("on", "on"),
        ("Off", "Off"),
        ("9:30", "9:30"),
        ("190:20:30", "190:20:30"),
        ("010", 10),
        ("-07", -7),
        ("0o10", 8),
        ("0x1F", 31),
        ("0b11", "0b11"),
        ("1_000", "1_000"),
        ("0x_", "0x_"),
        ("2026-11-30", "2026-11-30"),
        ("2026-13-45", "2026-13-45"),
        ("true", True),
        ("TRUE", True),
        ("tRUE", "tRUE"),
        ("False", False),
        ("", None),
        ("~", None),
        ("Null", None),
        ("nULL", "nULL"),
        ("1.5", 1.5),
        (".5", 0.5),
        ("5.", 5.0),
        ("+12e03", 12000.0),
        ("-2E-2", -0.02),
        (".inf", math.inf),
        ("-.INF", -math.inf),
        ("inf", "inf"),
        ("<<", "<<"),
        ("=", "="),
        ("1,5", "1,5"),
        ("٣", "٣"),
    ],
)
def test_a_plain_scalar_follows_the_core_schema(text, value):
    got = resolved(text)
    assert got == value
    assert type(got) is type(value)


def test_not_a_number_is_one():
    assert math.isnan(resolved(".nan"))
    assert resolved("nan") == "nan"


@pytest.mark.parametrize("text", ["9" * 41, "1." + "0" * 60_000, "0x" + "f" * 39, "-" + "9" * 40])
def test_a_number_of_more_than_forty_characters_is_refused(text):
    with pytest.raises(ValueError, match="a number of"):
        resolved(text)


def test_unusual_numbers_are_told_from_plain_ones():
    assert all(map(unusual_number, ["1e3", "-2.5E-1", ".inf", ".nan"]))
    assert not any(map(unusual_number, ["1", "1.5", "0x1e3", "0o7", "e3", "1 e", "one", ""]))


@settings(deadline=None)
@given(st.integers(-(10**30), 10**30))
def test_whole_numbers_come_back(number):
    assert resolved(str(number)) == number


@settings(deadline=None)
@given(st.text(max_size=200))
def test_any_text_resolves(text):
    resolved(text[:40])
