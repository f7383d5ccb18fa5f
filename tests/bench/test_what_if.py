"""What the data of a bench hold."""

import json
from pathlib import Path

import jsonschema
import numpy as np
import pytest
from try_bench import KINDS, LENGTH, LINE, LOW_POINT, PLACED, RIBS, SHIMS, clamped, data_of, glued, tops, wanted_mm

from generator.bench.tops import Top
from generator.bench.what_if import what_if

SCHEMA = json.loads((Path(__file__).parents[2] / "site_data/schema/what-if.json").read_text("utf-8"))


def made(**changes):
    beam = clamped()
    given = {
        "beam": beam,
        "glued_n_mm2": glued(beam),
        "tops": tops(),
        "weight_kinds": KINDS,
        "placed": PLACED,
        "weight_places_mm": RIBS,
        "wanted_mm": wanted_mm,
        "line": LINE,
        "shims": SHIMS,
        "low_point_mm": LOW_POINT,
    }
    return what_if(**{**given, **changes})


def test_the_data_fit_their_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.Draft202012Validator(SCHEMA).validate(data_of())


@pytest.mark.parametrize(
    ("path", "value"),
    [(("schema",), "other"), (("low_node",), -1), (("load", "total_n"), 0), (("shims", 0, "height_mm"), "3 mm")],
)
def test_the_schema_sees_a_slip(path, value):
    data = data_of()
    spot = data
    for key in path[:-1]:
        spot = spot[key]
    spot[path[-1]] = value
    assert not jsonschema.Draft202012Validator(SCHEMA).is_valid(data)


def test_a_page_can_carry_it():
    assert len(json.dumps(made(), separators=(",", ":"))) < 20_000


def test_every_place_is_a_node_and_every_list_as_long_as_it_must_be():
    data, beam = data_of(), clamped()
    x = np.array(data["nodes"]["x_mm"])
    assert np.all(np.diff(x) > 0)
    assert {len(one) for one in data["nodes"].values()} == {x.size}
    assert {len(one) for one in data["pieces"].values()} == {beam.stiffness_n_mm2.size}
    assert x[data["stations"]] == pytest.approx(np.linspace(0, LENGTH, 61), abs=1e-4)
    assert x[data["weights"]["node"]] == pytest.approx(RIBS)
    assert x[data["pieces"]["first_node"]] == pytest.approx(beam.breaks_mm[:-1])
    assert x[data["low_node"]] == LOW_POINT
    for top, support in zip(tops(), data["supports"], strict=True):
        assert support["height_mm"] == pytest.approx(top.height_mm, abs=1e-4)
    touch = x[data["touch"]["node"]]
    for top, i in zip(tops(), range(4), strict=True):
        mine = touch[np.array(data["touch"]["support"]) == i]
        assert mine.min() == pytest.approx(max(top.low_x_mm, 0.0))
        assert mine.max() == pytest.approx(min(top.high_x_mm, LENGTH))


def test_the_same_bench_gives_the_same_text():
    assert json.dumps(made()) == json.dumps(made())


def test_weights_name_their_place():
    assert data_of()["weights"]["placed"] == [
        {"kind": 0, "place": 2, "count": 1},
        {"kind": 1, "place": 6, "count": 2},
        {"kind": 0, "place": 8, "count": 2},
    ]


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"glued_n_mm2": [1e9]}, "glued"),
        ({"glued_n_mm2": np.zeros(17)}, "glued"),
        ({"weight_places_mm": [300.0, 200.0]}, "increase"),
        ({"weight_places_mm": [300.0, 2400.0]}, "increase"),
        ({"stations": 1}, "stations"),
        ({"low_point_mm": 2400.0}, "low_point"),
        ({"placed": [(0, 300.0, 1)]}, "at 300 mm"),
        ({"placed": [(2, 625.0, 1)]}, "kind 2"),
        ({"tops": [Top(-50, -10, 0), Top(2000, 2100, 0)]}, "not under"),
    ],
)
def test_what_does_not_fit_together_is_refused(changes, message):
    with pytest.raises(ValueError, match=message):
        made(**changes)


def test_a_bench_that_tips_over_has_no_data():
    with pytest.raises(ArithmeticError, match="tips over"):
        made(tops=[Top(0, 10, 200), Top(100, 200, 200)])
