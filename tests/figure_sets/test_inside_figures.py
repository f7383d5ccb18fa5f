"""Figures of the inside and of the air: what must hold between them, on the demo boards."""

import dataclasses
import functools

import pytest

from generator.board.body import make_body
from generator.figure_sets.air import add_air
from generator.figure_sets.inside import add_inside
from generator.figure_sets.weight import finished_weight
from generator.figures import FigureBook, Kind
from tests.demos import facts_of

each_builder = pytest.mark.parametrize("slug", ["mara", "wen", "ines", "tobin"])


@functools.cache
def told(slug):
    book = FigureBook()
    add_inside(book, facts_of(slug))
    add_air(book, facts_of(slug))
    return book.close()


def number(slug, key):
    return told(slug).values[key].value


@each_builder
def test_what_the_page_lists_adds_up(slug):
    rows = told(slug).rows["bays"]
    assert sum(row["count"] for row in rows) == number(slug, "bay.count")
    assert sum(row["count"] for row in rows if row["soft"]) == number(slug, "bay.soft")
    foamed = [row for row in rows if row["foam"]]
    assert bool(foamed) == told(slug).said["foam.fits"]
    if not foamed:
        assert "foam.blocks" not in told(slug).values
        return
    assert sum(row["count"] for row in foamed) == number(slug, "foam.blocks")
    for part, whole in (("foam_mass", "foam.mass"), ("foam_layers", "foam.layers")):
        each = sum(row["count"] * number(slug, f"{row['key']}.{part}") for row in foamed)
        assert each == pytest.approx(number(slug, whole))
    area = sum(
        row["count"]
        * number(slug, f"{row['key']}.foam_layers")
        * number(slug, f"{row['key']}.foam_length")
        * number(slug, f"{row['key']}.foam_width")
        for row in foamed
    )
    assert area / 1e6 == pytest.approx(number(slug, "foam.sheet"))


@each_builder
def test_the_page_s_foam_is_what_stands_on_the_scales(slug):
    part = next((one for one in finished_weight(facts_of(slug)).parts if one.name == "foam"), None)
    assert (part is None) == (not told(slug).said["foam.fits"])
    if part is not None:
        assert 1000 * part.kg == pytest.approx(number(slug, "foam.mass"))


@each_builder
def test_every_block_has_its_sizes_its_place_and_its_pieces(slug):
    rows = told(slug).rows["blocks"]
    assert {row["key"] for row in rows} == {
        f"block.{block.holds.replace(' ', '_')}" for block in facts_of(slug).inputs.board.blocks
    }
    for row in rows:
        for part in ("from_tail", "length", "width", "depth", "from_centre"):
            assert f"{row['key']}.{part}" in told(slug).values
        assert number(slug, f"{row['key']}.to") == pytest.approx(
            number(slug, f"{row['key']}.from_tail") + number(slug, f"{row['key']}.length")
        )
        for piece in row["pieces"]:
            corners = ("tail", "tail_outer", "nose", "nose_outer")
            deepest = max(number(slug, f"{piece['key']}.{corner}") for corner in corners)
            assert deepest <= number(slug, f"{row['key']}.depth") + 1e-9


@each_builder
def test_pressures_and_pushes_go_together(slug):
    area = number(slug, "air.panel_area")
    for name in ("car", "flight", "pump", "warm"):
        assert number(slug, f"air.{name}_force") == pytest.approx(1000 * area * number(slug, f"air.{name}_kpa"))
        assert number(slug, f"air.{name}_push") == pytest.approx(number(slug, f"air.{name}_force") / 9.80665)
    assert number(slug, "air.warm_kpa") < number(slug, "air.pump_kpa") < number(slug, "air.car_kpa")
    assert number(slug, "air.car_kpa") < number(slug, "air.flight_kpa")
    assert number(slug, "air.warm_bay") < number(slug, "bay.heel_mass"), "the leak test is milder than a heel"


@each_builder
def test_less_air_than_board_and_less_water_than_air(slug):
    assert 0 < number(slug, "air.drawn_in") < 0.2 * number(slug, "air.inside")
    assert number(slug, "air.inside") < facts_of(slug).body.volume_l


def test_a_board_with_ribs_close_together_needs_no_foam_and_still_tells_its_air():
    close = facts_of("mara")
    ribs = close.inputs.board.ribs.model_copy(update={"from_tail_mm": tuple(range(105, 2200, 52))})
    board = close.inputs.board.model_copy(update={"ribs": ribs})
    body = make_body(board, rocker=board.rocker, trace_margin=close.inputs.maker.defaults.trace_margin)
    book = FigureBook()
    add_inside(book, dataclasses.replace(close, body=body))
    add_air(book, dataclasses.replace(close, body=body))
    assert not any(row["soft"] for row in book.rows["bays"])
    assert not book.said["foam.needed"]
    assert not book.said["foam.fits"]
    assert book.values["air.car_bay"].value > 0


def test_what_is_guessed_is_called_assumed():
    for key in ("bay.worst_dent", "bay.2.dent", "bay.2.dent_foam", "foam.stiffness", "air.car_kpa", "air.drawn_in"):
        figure = told("mara").values[key]
        assert figure.kind is Kind.ASSUMED, key
        assert figure.low < figure.value < figure.high, key
