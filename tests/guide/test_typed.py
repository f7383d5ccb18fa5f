"""Places to type into: the fields of the builder's file, limits as the page prints them, and nothing that could run."""

import re
from functools import partial

import pytest
from guide_sample import SOURCES, Drawings, sample

from generator.figures import FigureBook, Kind
from generator.guide.environment import page_environment
from generator.guide.typed import fields, typed_filters
from generator.inputs.builder import LevelReading, Measured, Sag, Shed
from generator.inputs.measure import measure
from generator.shown import show

# Phones keep what was typed under these names, and the builder's file has them: none is ever changed or taken out.
KEPT = [
    *("panel_thickness", "panel_mass", "frame_mass", "frame_sag.apart", "frame_sag.weight", "frame_sag.drop"),
    *("panel_sag.apart", "panel_sag.weight", "panel_sag.drop", "on_bench", "cured", "with_top", "finished_mass"),
    *("shed.temperature", "shed.night_low", "shed.humidity", "table"),
]
ASKED = re.compile(r'measured\.(field|sag|heights|top_heights|table|air)\((?:"([a-z_]+)")?')


def filters(units="metric", **values):
    """The filters over figures given as key=(value, unit, low, high, step), of which the last three may be left out."""
    book = FigureBook()
    for key, given in values.items():
        value, unit, low, high, step = (*given, *(None, None, 1.0)[len(given) - 2 :])
        book.add(key, value, unit, key, how="", kind=Kind.ASSUMED, low=low, high=high, step=step)
    book.said["units"] = units
    return {name: partial(one, None) for name, one in typed_filters(book.close()).items()}


def attribute(markup, name):
    return re.search(rf'data-{name}="([^"]*)"', markup)[1].replace("&#46;", ".")


def test_the_fields_are_those_of_the_builders_file():
    assert list(fields()) == KEPT
    plain = {field.name.split(".")[0] for field in fields().values()} - {"table", "shed"}
    assert plain == {info.alias or key for key, info in Measured.model_fields.items()}


def test_every_field_of_the_file_is_asked_for_on_some_page():
    asked = set()
    for name, text in SOURCES.items():
        for macro, field in ASKED.findall(text) if name.startswith("pages/") else ():
            parts = ("apart", "weight", "drop") if macro == "sag" else ()
            own = {"top_heights": ["with_top"], "table": ["table"], "air": [name for name in KEPT if "shed." in name]}
            asked |= {f"{field}_sag.{part}" for part in parts} or set(own.get(macro, [field]))
    assert asked - {""} == set(KEPT)


@pytest.mark.parametrize("field", [field for field in fields().values() if field.name != "table"], ids=lambda f: f.name)
def test_a_field_takes_what_the_file_takes(field):
    group, _, part = field.name.partition(".")
    for value in (field.quantity.low, field.quantity.high):
        if part:
            air = {"temperature": 18.0, "night_low": 10.0, "humidity": 50.0}
            model, usual = (Shed, air) if group == "shed" else (Sag, {"apart": 1000.0, "weight": 1.0, "drop": 5.0})
            model(**(usual | {part: value}))
        elif field.listed:
            LevelReading(from_tail=0, height=value)
        else:
            Measured(**{group: value})


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("value", [4.83, 5.0, 5.97, 187.25, 204.4999])
def test_limits_are_those_that_are_printed(units, value):
    """A number typed as the page prints the limit is exactly at it."""
    made = filters(units, aim=(value, "mm", None, None, 0.5), miss=(3.0, "mm"))["limits"]("aim", "miss")
    low, high = float(attribute(made, "low")), float(attribute(made, "high"))
    words = attribute(made, "limits").replace("&#47;", "/")
    ends = words.split(" to ")
    unit = "in" if units == "inches" else "mm"
    typed = [float(measure("length", end if end.endswith(unit) else f"{end} {unit}").value) for end in ends]
    assert typed == pytest.approx([low, high], abs=1e-3)
    assert abs(low - (value - 3)) <= 0.8
    assert abs(high - (value + 3)) <= 0.8
    assert words.count(unit) == 1


def test_limits_may_be_a_share_of_the_value_or_the_figures_own_range():
    made = filters(mass=(2.0, "kg", 1.7, 2.4, 0.05), miss=(10.0, "%"))["limits"]
    assert (attribute(made("mass", "miss"), "low"), attribute(made("mass", "miss"), "high")) == ("1.8", "2.2")
    assert attribute(made("mass"), "limits") == "1.7 to 2.4 kg"


def test_thin_stock_is_compared_in_hundredths_of_an_inch():
    limits = filters("inches", thick=(5.0, "mm", None, None, 0.1), miss=(0.5, "mm"))["limits"]
    made = limits("thick", "miss", exact=True)
    assert attribute(made, "limits") == "0.18 to 0.22 in"
    assert float(attribute(made, "high")) == pytest.approx(0.22 * 25.4)


@pytest.mark.parametrize("units", ["metric", "inches"])
@pytest.mark.parametrize("along", [0.0, 145.0, 1689.96, 2300.0, 2743.2, 3048.0])
def test_a_place_along_the_board_is_never_beyond_it(units, along):
    text = filters(units, at=(along, "mm"))["place"]("at")
    read = float(measure("length", text).value)
    assert along - 0.255 <= read <= along + 1e-6


@pytest.mark.parametrize(
    ("units", "key", "said"),
    [
        ("metric", "kg", "4"),
        ("inches", "mm", "66 15/16"),
        ("inches", "long", "8 ft 2 7/16 in"),  # without its last unit no script could read it
        ("inches", "c", "50"),
        ("metric", "c", "10"),
        ("inches", "h", "60"),
    ],
)
def test_a_usual_value_is_typed_as_the_page_prints_it(units, key, said):
    values = {
        "kg": (4.0, "kg", None, None, 0.1),
        "mm": (1700.0, "mm"),
        "long": (2500.0, "mm"),
        "c": (10.0, "°C"),
        "h": (60.0, "%"),
    }
    made = filters(units, usual=values[key])["usual"]("usual").replace("&#47;", "/")
    assert made == said


def test_numbers_for_scripts_are_plain_digits():
    made = filters(cure=(1440.0, "min", 960.0, 2880.0), tiny=(1e-5, "mm"), down=(-2.5, "mm"))["bare"]
    assert [made("cure"), made("cure", "low"), made("cure", "high")] == ["1440", "960", "2880"]
    assert (made("tiny"), made("down")) == ("0", "-2.5")


def test_what_people_typed_can_not_leave_its_attribute():
    hostile = 'x"><script>alert(1)</script>'
    said = {"board__name": hostile, "builder__name": hostile, "slug": "robin"}
    text = "{% import 'pages/_measured.md' as measured with context %}{{ measured.send(photo) }}"
    figures = sample(**said)
    page = page_environment(figures, Drawings(), SOURCES | {"one": text})
    page.globals["contact_address"] = hostile
    made = page.get_template("one").render(here={"slug": "glue", "title": "Glue"}, photo=hostile)
    assert "<script" not in made
    assert 'x"' not in made
    assert 'data-board="x&#34;&#62;' in made


def test_a_clock_counts_what_the_page_says():
    text = (
        "{% import 'pages/_clock.md' as clock with context %}"
        "{% call clock.open('open', 'Now.') %}Over.{% endcall %}{% call clock.cure('cure') %}Done.{% endcall %}"
    )
    figures = sample(glue__cure_beyond="colder")
    made = (
        page_environment(figures, Drawings(), SOURCES | {"one": text})
        .get_template("one")
        .render(here={"slug": "glue", "title": "Glue"})
    )
    minutes = [float(found) for found in re.findall(r'data-minutes="(\d+)"', made)]
    assert minutes == [figures.values["glue.open_here"].value, figures.values["glue.cure_here"].value]
    assert 'id="clock-glue-open"' in made
    assert "Not for certain" in made
    assert show(figures.values["glue.open_here"], "metric").startswith(f"{minutes[0]:g}")


def test_a_lowest_temperature_is_a_limit_from_below_only():
    made = filters("inches", lowest=(10.0, "°C"))["least"]
    assert attribute(made("lowest"), "low") == "10"
    assert "data-high" not in made("lowest")
