"""The demo guides' figures of crown, rails, shaping, fin and plugs: what must hold between them."""

import dataclasses

import pytest

from generator.figure_sets import work_out
from generator.figure_sets.board import add_board
from generator.figure_sets.crown import add_crown, add_top_clamps
from generator.figure_sets.fin import add_fin
from generator.figure_sets.frame import add_frame
from generator.figure_sets.panels import add_panels, add_trace
from generator.figure_sets.rails import add_rails
from generator.figure_sets.shaping import add_shaping
from generator.figures import FigureBook, Kind
from generator.inputs.site import read_builder
from tests.demos import DATA, SLUGS, figures_of

each_demo = pytest.mark.parametrize("slug", SLUGS)


def of(slug):
    figures = figures_of(slug)
    return figures, lambda key: figures.values[key].value


@each_demo
def test_the_stretch_over_each_rib_is_the_panels_thickness_by_twice_the_radius(slug):
    figures, value = of(slug)
    for row in figures.rows["crown_ribs"]:
        if not row["flat"]:
            by_hand = 100 * value("panel.thickness") / (2 * value(f"{row['key']}.radius"))
            assert value(f"{row['key']}.strain") == pytest.approx(by_hand)
    assert value("crown.strain") == max(value(f"{row['key']}.strain") for row in figures.rows["crown_ribs"])


@each_demo
def test_the_verdict_follows_the_limits_that_the_page_shows(slug):
    figures, value = of(slug)
    for row in figures.rows["crown_ribs"]:
        strain = value(f"{row['key']}.strain")
        told = "easy" if strain <= value("crown.safe") else "slowly" if strain <= value("crown.limit") else "too much"
        assert row["verdict"] == told
    assert value("crown.use") == pytest.approx(100 * value("crown.strain") / value("crown.limit"))
    thin = value("crown.thin_to") / (2 * value("crown.radius"))
    assert 100 * thin <= value("crown.safe") * (1 + 1e-9)


@each_demo
def test_clamps_over_the_whole_thickness_open_further_than_those_of_the_bottom(slug):
    figures, value = of(slug)
    openings = [value(f"{row['key']}.opening") for row in figures.rows["top_openings"]]
    assert max(openings) == value("top.clamp_opening")
    assert value("top.clamp_opening") == pytest.approx(value("clamp.opening_needed") + value("panel.thickness"))
    pairs = figures.rows["top_clamps"]
    assert len(pairs) == value("top.pairs") == value("frame.ribs") - value("top.pairs_missing")
    assert figures.said["top_clamps_enough"] == (value("top.pairs_missing") == 0)
    clamps = {clamp.name: clamp for clamp in read_builder(DATA, slug).builder.clamps}
    for pair in pairs:
        assert clamps[pair["name"]].opening_mm >= value(f"top.rib.{pair['rib']}.opening")
    for name, clamp in clamps.items():
        assert 2 * sum(pair["name"] == name for pair in pairs) <= clamp.count


@each_demo
def test_layers_make_the_rail_and_their_lengths_add_up(slug):
    figures, value = of(slug)
    rows = figures.rows["rail_layers"]
    assert value("rail.layers") * value("rail.layer_thickness") - value("rail.plane_off") == value("board.rail")
    assert value("rail.length_all") == pytest.approx(2 * sum(value(f"{row['key']}.length") for row in rows))
    assert value("rail.pieces") == 2 * sum(value(f"{row['key']}.pieces") for row in rows if row["cut"])
    for row in rows:
        if row["cut"]:
            assert value(f"{row['key']}.piece_length") <= value("rail.stock_length")
            assert value(f"{row['key']}.plank_width") <= value("rail.stock_width")


@each_demo
def test_a_layer_of_the_thickness_to_go_down_to_bends_dry(slug):
    figures, value = of(slug)
    assert 100 * value("rail.thin_to") / (2 * value("rail.radius")) <= value("rail.safe") * (1 + 1e-9)
    assert figures.said["rail.bends_dry"] == (value("rail.strain") <= value("rail.safe"))
    assert figures.said["rail.bends_dry"] == (value("rail.thin_to") == value("rail.layer_thickness"))
    tight = any(value(f"{row['key']}.tight_{end}") for row in figures.rows["rail_layers"] for end in ("tail", "nose"))
    assert tight != figures.said["rail.bends_dry"]


@each_demo
def test_no_hole_reaches_the_other_panel_and_every_one_has_wood_round_it(slug):
    figures, value = of(slug)
    for key in ("fin.leash", "fin.vent"):
        assert value(f"{key}.stop") == pytest.approx(
            value("panel.thickness") + value(f"{key}.block_depth") - value("fin.left")
        )
        assert value(f"{key}.margin") >= value("fin.margin_needed") - 1e-9
    assert min(value(f"fin.margin_{end}") for end in ("tail", "nose")) >= value("fin.margin_needed")
    assert value("fin.rear") + value("fin.base") == value("fin.front")
    assert figures.said["fin.plug_holds"] == (value("fin.leash.use") <= 100)


@each_demo
def test_marks_lie_on_the_side_and_the_rail(slug):
    figures, value = of(slug)
    for row in figures.rows["round_marks"]:
        key = row["key"]
        assert value(f"{key}.second_in") < value(f"{key}.width") <= value("board.rail") + 1e-9
        assert value(f"{key}.second_down") < value(f"{key}.height")
    assert value("shape.least") + value("shape.off") == pytest.approx(value("panel.thickness"))


def test_what_is_guessed_is_called_assumed_with_a_range():
    figures, _ = of("mara")
    for key in ("crown.limit", "crown.clamp_force", "fin.leash.pull", "fin.leash.use"):
        figure = figures.values[key]
        assert figure.kind is Kind.ASSUMED
        assert figure.low < figure.value < figure.high


def test_the_demo_boards_differ_in_what_the_pages_turn_on():
    for word in ("crown.verdict", "crown.published", "rail.built", "rail.bends_dry", "top_clamps_enough"):
        assert len({str(figures_of(slug).said[word]) for slug in SLUGS}) > 1, word


def told(**board):
    """Only these stages' figures, of a demo builder whose board is changed."""
    inputs = read_builder(DATA, "mara")
    facts = work_out(dataclasses.replace(inputs, board=inputs.board.model_copy(update=board)))
    book = FigureBook()
    for add in (
        add_board,
        add_panels,
        add_trace,
        add_frame,
        add_crown,
        add_top_clamps,
        add_rails,
        add_shaping,
        add_fin,
    ):
        add(book, facts)
    return book


def test_a_flat_deck_is_said_to_be_flat_and_asks_for_nothing():
    board = read_builder(DATA, "mara").board
    book = told(thickness=tuple(one.model_copy(update={"crown_mm": 0.0}) for one in board.thickness))
    assert book.said["crown.flat"]
    assert book.said["crown.verdict"] == "easy"
    assert "crown.radius" not in book.values
    assert book.values["rail.bevel_most"].value == book.values["crown.strain"].value == 0


def test_a_deep_crown_is_refused_and_says_how_thin_would_do():
    board = read_builder(DATA, "mara").board
    book = told(thickness=tuple(one.model_copy(update={"crown_mm": 3 * one.crown_mm}) for one in board.thickness))
    assert book.said["crown.verdict"] == "too much"
    assert book.values["crown.use"].value > 100
    assert 0 < book.values["crown.thin_to"].value < board.panel.thickness_mm


def test_a_board_without_rails_has_its_edges_eased_within_panel_and_strip():
    book = told(rail_mm=0.0)
    board = read_builder(DATA, "mara").board
    assert book.said["rail.none"]
    assert book.rows["rail_layers"] == ()
    assert "rail.layers" not in book.values
    for part in ("width", "height"):
        eased = book.values[f"shape.round.2.{part}"].value
        assert 0 < eased < min(board.panel.thickness_mm, board.edge_strip.thickness_mm)
