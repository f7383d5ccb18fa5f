"""The grammar of measures.

Factors are definitions: inch 25.4 mm, pound 0.45359237 kg, °C = (°F − 32)·5/9 (from memory).
"""

import contextlib
import time
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.inputs.measure import Unread, measure
from generator.inputs.units import SCALES, say


@pytest.mark.parametrize(
    ("kind", "written", "value"),
    [
        ("length", "9 ft 2 in", "2794"),
        ("length", "1 1/4 in", "31.75"),
        ("length", "9' 2 1/2\"", "2806.7"),
        ("length", "9'2\"", "2794"),
        ("length", "9′ 2″", "2794"),
        ("length", "6.5 mm", "6.5"),
        ("length", "6.5mm", "6.5"),
        ("length", "2.3 m", "2300"),
        ("length", "12 cm", "120"),
        ("length", "1/3 in", "127/15"),
        ("length", ".5 in", "12.7"),
        ("length", "2 feet 3 inches", "685.8"),
        ("length", "-3/16 in", "-4.7625"),
        ("length", "−2 mm", "-2"),
        ("length", " 7 ", "7"),
        ("length", 7, "7"),
        ("length", 0.1, "0.1"),
        ("mass", "5 lb", "2.26796185"),
        ("mass", "3 lb 14 oz", "1.75767043375"),
        ("mass", "850 g", "0.85"),
        ("mass", "1.2", "1.2"),
        ("temperature", "64 F", "160/9"),
        ("temperature", "-4°F", "-20"),
        ("temperature", "18 °C", "18"),
        ("temperature", "-5", "-5"),
        ("time", "1 h 30 min", "90"),
        ("time", "2 d 6 h", "3240"),
        ("time", "1/2 h", "30"),
        ("time", 25, "25"),
        ("stiffness", "7.7 GPa", "7700"),
        ("stiffness", "7700 N/mm2", "7700"),
        ("stiffness", 7700, "7700"),
        ("density", "320 kg/m3", "320"),
        ("density", "320 kg/m³", "320"),
        ("humidity", "65 %", "65"),
        ("share", "1/3", "1/3"),
        ("share", "50 %", "0.5"),
        ("share", "0.4", "0.4"),
    ],
)
def test_a_measure_is_read_exactly(kind, written, value):
    assert measure(kind, written).value == Fraction(value)


@pytest.mark.parametrize(
    ("written", "found", "way"),
    [
        ("1,5 m", "written with a comma", "1.5 m"),
        ("2,300 mm", "written with a comma", "2.300 mm"),
        ("1,234,567 mm", "written with a comma", "1234567 mm"),
        ("1e3", "written with an exponent", "1000"),
        ("2.5E-1 in", "written with an exponent", "0.25 in"),
        ("nan", "not a finite number", ""),
        ("-.inf", "not a finite number", ""),
        ("infinity mm", "not a finite number", ""),
        ("1 1/4", "a fraction without its unit", "1 1/4 in"),
        ("9 ft 14 in", "more in than make a whole ft", "10 ft 2 in"),
        ("9.5 ft 2 in", "a part of a ft with in after it", ""),
        ("2 in 9 ft", "a mixture of units that do not belong together", ""),
        ("1 m 20 cm", "a mixture of units that do not belong together", ""),
        ("2 ft 3 ft", "a mixture of units that do not belong together", ""),
        ("-2 ft 3 in", "a minus before several units", ""),
        ("5 kg", "without a unit that is known here", "5 mm"),
        ("5 mmm", "without a unit that is known here", "5 mm"),
        ("9:30", "without a unit that is known here", "9 mm"),
        ("1 1 in", "without a unit that is known here", "1 mm"),
        ("5 in tall", "followed by something else", ""),
        ("1/0 in", "a fraction with 0 below the line", ""),
        ("1 5/4 in", "a whole number with a fraction that is not below 1", ""),
        ("1 1/2 1/2 in", "without a unit that is known here", "1 1/2 mm"),
        ("six", "no measure", ""),
        ("mm", "no measure", ""),
        ("1_000", "without a unit that is known here", "1 mm"),
        ("٣ mm", "no measure", ""),
        ("", "empty", ""),
        ("   ", "empty", ""),
        (True, "not a number", ""),
        (None, "not a number", ""),
        (float("nan"), "not a finite number", ""),
        (float("inf"), "not a finite number", ""),
    ],
)
def test_what_is_no_measure_is_refused_with_its_reason(written, found, way):
    with pytest.raises(Unread) as refused:
        measure("length", written)
    assert refused.value.found == found
    assert (refused.value.candidates or ("",))[0] == way


def test_thousands_marked_with_commas_offer_both_meanings():
    with pytest.raises(Unread) as refused:
        measure("length", "2,300 mm")
    assert refused.value.candidates == ("2.300 mm", "2300 mm")


@settings(deadline=None)
@given(
    feet=st.integers(0, 40),
    sixteenths=st.integers(0, 191),
    spaces=st.sampled_from(["", " ", "  "]),
    quotes=st.booleans(),
)
def test_feet_inches_and_fractions_come_back_exactly(feet, sixteenths, spaces, quotes):
    whole, part = divmod(sixteenths, 16)
    ft, inch = ("'", '"') if quotes else ("ft", "in")
    fraction = f" {part}/16" if part else ""
    text = f"{feet}{spaces}{ft} {whole}{fraction}{spaces}{inch}"
    assert measure("length", text).value == (feet * 192 + sixteenths) * Fraction("25.4") / 16


@settings(deadline=None)
@given(st.decimals(-9999, 9999, places=3), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_decimals_scale_exactly_with_their_unit(number, unit):
    factor = Fraction({"mm": "1", "cm": "10", "m": "1000", "in": "25.4", "ft": "304.8"}[unit])
    assert measure("length", f"{number} {unit}").value == Fraction(number) * factor


@settings(deadline=None)
@given(
    value=st.fractions(0, 4000, max_denominator=400),
    unit=st.sampled_from(["", "mm", "cm", "m", "in", "ft"]),
    rounding=st.sampled_from(["up", "down"]),
)
def test_a_value_said_in_words_reads_back_on_the_right_side(value, unit, rounding):
    back = measure("length", say("length", value, unit, rounding)).value
    step = Fraction("25.4") / 16
    assert (value <= back <= value + step) if rounding == "up" else (value - step <= back <= value)


@settings(deadline=None)
@given(st.sampled_from(sorted(SCALES)), st.fractions(1, 2000, max_denominator=50), st.data())
def test_every_unit_reads_back_what_was_said_in_it(kind, value, data):
    unit = data.draw(st.sampled_from(SCALES[kind].units))
    low = measure(kind, say(kind, value, unit.name, "down")).value
    high = measure(kind, say(kind, value, unit.name, "up")).value
    assert low <= value <= high
    assert high - low <= max(unit.factor / 10**unit.places, Fraction("25.4") / 16 if kind == "length" else 0)


@settings(deadline=None)
@given(st.sampled_from(sorted(SCALES)), st.text(max_size=80))
def test_any_text_is_a_measure_or_is_refused(kind, text):
    with contextlib.suppress(Unread):
        assert isinstance(measure(kind, text).value, Fraction)


@pytest.mark.parametrize("filler", ["9", "1/", " 1", "9 ft ", "1,", "-", ".", "1e", "'"])
def test_a_very_long_text_is_refused_at_once(filler):
    text = filler * (60_000 // len(filler))
    begun = time.process_time()
    with pytest.raises(Unread):
        measure("length", text)
    assert time.process_time() - begun < 0.5
