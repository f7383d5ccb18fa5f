"""What the figures of the panels promise: rows that add up, planks that are there, signs that go the right way."""

from dataclasses import replace

import pytest

from generator.board.section import expected_drop_mm
from generator.build.planks import as_laid
from generator.drawings.cupping import cupping
from generator.figure_sets.household import add_practice
from generator.figure_sets.movement import add_movement
from generator.figure_sets.panel_press import add_panel_press
from generator.figure_sets.panels import add_panels
from generator.figure_sets.planks import add_planks, laid_planks
from generator.figure_sets.shed import add_moisture
from generator.figures import FigureBook, Kind
from generator.inputs.builder import Air, Plank
from tests.demos import SLUGS, facts_of


@pytest.fixture(scope="module")
def facts():
    return {slug: facts_of(slug) for slug in SLUGS}


def told(one):
    """The figures of the panels alone."""
    book = FigureBook()
    add_moisture(book, one.inputs.builder)
    for add in (add_panels, add_planks, add_panel_press, add_movement, add_practice):
        add(book, one)
    return book.close()


@pytest.fixture(scope="module")
def demos(facts):
    return {slug: told(one) for slug, one in facts.items()}


@pytest.fixture(scope="module")
def inputs(facts):
    return {slug: one.inputs for slug, one in facts.items()}


def changed(one, **fields):
    """The same facts with other fields of the builder, and the panels laid anew."""
    inputs = replace(one.inputs, builder=one.inputs.builder.model_copy(update=fields))
    planks = laid_planks(inputs, one.body.blank)
    return replace(one, inputs=inputs, planks=planks, body=as_laid(one.body, planks))


def number(figures, key):
    return figures.values[key].value


def test_the_rows_of_a_panel_make_its_width(demos):
    for figures in demos.values():
        for panel in ("bottom", "top"):
            rows = figures.rows[f"panel_{panel}"]
            wide = sum(number(figures, f"{row['key']}.width") for row in rows)
            lines = number(figures, f"panel.{panel}.glue_lines")
            assert lines == len(rows) - 1
            lost = lines * number(figures, "practice.edge_loss")
            assert number(figures, f"panel.{panel}.width") == pytest.approx(wide - lost)
            assert number(figures, f"panel.{panel}.spare") >= -1e-3
        assert number(figures, "panel.width") == number(figures, "panel.bottom.width")


def test_no_more_planks_are_used_than_the_builder_has(inputs, demos):
    for slug, figures in demos.items():
        listed = sum(plank.count for plank in inputs[slug].builder.planks)
        sizes = [row["key"] for row in figures.rows["panel_sizes"]]
        assert sum(number(figures, f"{key}.have") for key in sizes) == listed
        for key in sizes:
            assert number(figures, f"{key}.used") <= number(figures, f"{key}.have") + number(figures, f"{key}.buy")
        used = sum(number(figures, f"{key}.used") for key in sizes)
        assert used == number(figures, "panel.planks_both")
        assert number(figures, "panel.buy") == sum(number(figures, f"{key}.buy") for key in sizes)
        assert number(figures, "panel.waste") >= 0


def test_one_demo_builder_has_too_few_planks_and_one_lists_none(demos):
    assert demos["tobin"].values["panel.buy"].value > 0
    assert demos["tobin"].said["panel.planks_listed"]
    assert not demos["wen"].said["panel.planks_listed"]
    assert demos["wen"].values["panel.buy"].value == demos["wen"].values["panel.planks_both"].value
    assert demos["mara"].values["panel.buy"].value == demos["ines"].values["panel.buy"].value == 0


def test_what_is_missing_is_of_the_kit_s_size(facts, inputs):
    few = told(changed(facts["mara"], planks=(Plank(width=95, length=2450, count=3),)))
    bought = [row["key"] for row in few.rows["panel_sizes"] if row["buy"]]
    panel = inputs["mara"].board.panel
    assert [(number(few, f"{key}.width"), number(few, f"{key}.length")) for key in bought] == [
        (panel.plank_width_mm, panel.plank_length_mm)
    ]


def test_the_sag_test_is_told_for_the_panel_that_is_really_laid(facts):
    """A wider panel sags less, in step with its width."""
    laid = [changed(facts["mara"], planks=(Plank(width=width, length=2450, count=20),)) for width in (104, 170)]
    widths = [one.planks.bottom.width_mm for one in laid]
    assert widths[0] < widths[1] - 100
    drops = [expected_drop_mm(one.body, "panel", apart_mm=1400, weight_kg=2) for one in laid]
    assert drops[0] * widths[0] == pytest.approx(drops[1] * widths[1], rel=1e-9)


def test_a_damper_beach_makes_a_panel_wider_and_a_drier_one_narrower(facts, demos):
    for figures in demos.values():
        change, grows = figures.values["panel.moisture_change"], figures.values["panel.grows"]
        assert change.value == pytest.approx(
            number(figures, "panel.moisture_beach") - number(figures, "panel.moisture")
        )
        assert change.value * grows.value > 0
        assert grows.low * grows.high > 0
    beaches = [Air(temperature=20, humidity=pct) for pct in (30, 50, 70, 90)]
    grown = [number(told(changed(facts["ines"], beach=beach)), "panel.grows") for beach in beaches]
    assert grown == sorted(grown)


def test_a_timber_without_directions_is_called_assumed_and_one_without_any_says_so(facts, demos):
    assert demos["tobin"].said["panel.moves_assumed"]
    assert not demos["mara"].said["panel.moves_assumed"]
    one = facts["mara"]
    bare = replace(
        one.inputs.species,
        shrink_radial_pct=None,
        shrink_tangential_pct=None,
        shrink_volumetric_pct=None,
        coef_radial_per_pct=None,
        coef_tangential_per_pct=None,
    )
    unknown = told(replace(one, inputs=replace(one.inputs, species=bare)))
    assert not unknown.said["panel.moves"]
    assert "panel.grows" not in unknown.values
    assert "the higher the dish" in cupping(unknown)
    assert all(figures.values["panel.grows"].kind is Kind.ASSUMED for figures in demos.values())


def test_the_panel_springs_up_long_before_the_textbook_s_pressure(demos):
    for figures in demos.values():
        assert figures.values["panel.press.buckles"].high < number(figures, "panel.press.textbook")
        assert figures.values["panel.press.times"].low > 1


def test_battens_carry_no_more_weights_than_the_builder_has(inputs, demos):
    for slug, figures in demos.items():
        builder = inputs[slug].builder
        have = {one.name: one.count for one in (*builder.weights, *builder.things)}
        used = {}
        for row in figures.rows["battens"]:
            for piece in row["pieces"]:
                used[piece["name"]] = used.get(piece["name"], 0) + piece["count"]
        assert all(count <= have[name] for name, count in used.items())
        assert figures.said["panel.weights_enough"] == (number(figures, "panel.press.short") == 0)


def test_a_shed_below_freezing_still_has_a_moisture(facts):
    shed = facts["mara"].inputs.builder.shed
    cold = shed.model_copy(update={"temperature_c": -8.0, "humidity_pct": 99.0})
    assert 15 < number(told(changed(facts["mara"], shed=cold)), "panel.moisture") < 30
