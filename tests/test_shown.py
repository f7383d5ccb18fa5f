"""Numbers in the builder's units."""

import re
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from generator.figures import Figure, Kind
from generator.shown import show, show_exact, show_range


def figure(value, unit="mm", *, step=1.0, low=None, high=None):
    low, high = value if low is None else low, value if high is None else high
    return Figure("a.key", value, unit, "label", "how", Kind.ASSUMED, "", low, high, step)


@pytest.mark.parametrize(
    ("value", "unit", "step", "metric", "inches"),
    [
        (212.4, "mm", 1.0, "212 mm", "8 3/8 in"),
        (55.5625, "mm", 0.1, "55.6 mm", "2 3/16 in"),
        (6.0, "mm", 0.1, "6 mm", "1/4 in"),
        (25.4, "mm", 1.0, "25 mm", "1 in"),
        (25.4 * 95.99, "mm", 1.0, "2438 mm", "8 ft"),
        (2750.0, "mm", 1.0, "2750 mm", "9 ft 1/4 in"),
        (11234.0, "mm", 10.0, "11.2 m", "36 ft 10 in"),
        (0.5, "mm", 0.1, "0.5 mm", "0.02 in"),
        (0.2, "mm", 0.5, "0 mm", "0 in"),
        (0.0, "mm", 1.0, "0 mm", "0 in"),
        (-3.2, "mm", 0.5, "−3 mm", "−1/8 in"),
        (-0.2, "mm", 1.0, "0 mm", "0 in"),
        (2.5, "mm", 1.0, "3 mm", "1/8 in"),
        (68.0, "kg", 1.0, "68 kg", "150 lb"),
        (0.85, "kg", 0.05, "0.85 kg", "1.87 lb"),
        (19.0, "°C", 1.0, "19 °C", "66 °F"),
        (-3.9, "°C difference", 1.0, "−4 °C", "−7 °F"),
        (0.76, "L/kg", 0.01, "0.76 L/kg", "0.34 L/lb"),
        (52.0, "L", 1.0, "52 L", "52 L"),
        (386 * 60.0, "min", 1.0, "16 days 2 h", "16 days 2 h"),
        (1.2, "points", 1.0, "1 point", "1 point"),
        (0.2, "points", 1.0, "0 points", "0 points"),
        (500.0, "ml", 1.0, "500 ml", "17 fl oz"),
        (20.0, "ml", 1.0, "20 ml", "0.7 fl oz"),
        (2.0, "ml", 1.0, "2 ml", "0.07 fl oz"),
        (1.0, "m2", 0.01, "1 m²", "10.76 sq ft"),
        (90.0, "min", 1.0, "90 min", "90 min"),
        (1440.0, "min", 1.0, "24 h", "24 h"),
        (210.0, "min", 5.0, "3 h 30 min", "3 h 30 min"),
        (8.5, "%", 0.5, "8.5%", "8.5%"),
        (7700.0, "MPa", 100.0, "7.7 GPa", "1.12 million psi"),
        (320.0, "kg/m3", 1.0, "320 kg/m³", "20 lb/ft³"),
        (-5e-6, "1/mm", 1e-7, "−0.005 per m", "−0.0015 per ft"),
        (12.0, "", 1.0, "12", "12"),
        (80.0, "grit", 1.0, "80 grit", "80 grit"),
        (42.2, "kg/m", 1.0, "42 kg per metre", "28 lb per foot"),
        (9.80665, "N", 0.1, "9.8 N", "2.2 lbf"),
        (2438.4, "m", 10.0, "2440 m", "8000 ft"),
        (42.0, "g", 1.0, "42 g", "1.5 oz"),
        (1.5, "min/m", 0.1, "1.5 min per metre", "0.5 min per foot"),
        (40.0, "m3", 1.0, "40 m³", "1400 cu ft"),
        (4.0, "dB", 1.0, "4 dB", "4 dB"),
    ],
)
def test_a_number_reads_as_a_builder_would_say_it(value, unit, step, metric, inches):
    assert show(figure(value, unit, step=step), "metric") == metric
    assert show(figure(value, unit, step=step), "inches") == inches


def test_the_number_alone_stays_in_one_unit():
    assert show(figure(2750.0), "inches", short=True) == "108 1/4"
    assert show(figure(11234.0), "metric", short=True) == "11234"
    assert show(figure(19.0, "°C"), "inches", short=True) == "66"


def test_a_range_names_its_unit_once():
    assert show_range(figure(210.0, low=190.0, high=230.0), "metric") == "190 to 230 mm"
    assert show_range(figure(210.0, low=190.0, high=230.0), "inches") == "7 1/2 to 9 1/16 in"
    assert show_range(figure(2400.0, low=2300.0, high=2750.0), "inches") == "90 9/16 in to 9 ft 1/4 in"
    assert show_range(figure(210.0, low=209.9, high=210.1), "metric") == "210 mm"
    assert show_range(figure(100.0, "min", low=90.0, high=150.0), "metric") == "90 min to 2 h 30 min"


def test_thin_stock_can_be_told_in_hundredths_of_an_inch():
    assert show_exact(figure(6.0, step=0.1), "inches") == "0.24 in"
    assert show_exact(figure(6.0, step=0.1), "metric") == "6 mm"


@pytest.mark.parametrize(("unit", "units"), [("furlong", "metric"), ("mm", "imperial")])
def test_an_unknown_unit_is_refused(unit, units):
    with pytest.raises(ValueError, match=r"unit|units"):
        show(figure(1.0, unit), units)


IN_INCHES = re.compile(r"−?(?:(\d+) ft ?)?(?:(\d+(?:\.\d+)?) )?(?:(\d+)/(\d+) )?(?:in)?")


def as_inches(text):
    feet, whole, above, below = IN_INCHES.fullmatch(text).groups()
    parts = Fraction(int(feet or 0) * 12) + Fraction(whole or 0) + Fraction(int(above or 0), int(below or 1))
    return -parts if text.startswith("−") else parts


@given(st.floats(-9000, 9000), st.sampled_from([0.1, 0.5, 1.0, 5.0]))
@example(17.0, 0.1)
@example(-24.0, 1.0)
def test_inches_are_nearest_sixteenths_in_lowest_terms(value, step):
    text = show(figure(value, step=step), "inches")
    shown = as_inches(text)
    if abs(value) < 25.4 / 32:
        assert abs(float(shown) - value / 25.4) <= max(0.005, step / 25.4) + 1e-9
        return
    assert shown * 16 == int(shown * 16)
    assert abs(float(shown) - value / 25.4) <= 1 / 32 + 1e-9
    if "/" in text:
        above, below = re.search(r"(\d+)/(\d+)", text).groups()
        assert below in {"2", "4", "8", "16"}
        assert int(above) % 2 == 1
        assert int(above) < int(below)
    assert " 0 in" not in text
    assert "-" not in text


@given(st.floats(-9000, 9000), st.sampled_from([0.01, 0.05, 0.1, 0.5, 1.0, 5.0, 10.0]))
def test_metric_is_the_nearest_step(value, step):
    text = show(figure(value, step=step), "metric")
    shown = float(text.removesuffix(" mm").replace("−", "-"))
    assert abs(shown - value) <= step / 2 + 1e-6
    assert text != "−0 mm"


@given(st.floats(-9000, 9000), st.sampled_from([0.1, 0.5, 1.0, 10.0]), st.sampled_from(["metric", "inches"]))
def test_a_negative_number_reads_as_its_positive_with_a_minus(value, step, units):
    up, down = show(figure(abs(value), step=step), units), show(figure(-abs(value), step=step), units)
    assert down in {up, "−" + up}
