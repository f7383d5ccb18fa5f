"""Odd but allowed boards and builders through the whole chain: figures, drawings and pages, nothing missing."""

import math
import re
from pathlib import Path

import pytest

from generator.deliver.sources import read_sources
from generator.figure_sets import make_figures
from generator.guide.pages import write_guide
from generator.guides import draw_all
from generator.inputs.builder import Builder
from generator.inputs.site import Inputs, read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
BARE = {"planks": (), "foam": None, "finish": None, "plates": ()}


def odd(slug, *, board=None, builder=None):
    """A demo builder's inputs with other fields, in the names of our own code; the builder is checked as a file is."""
    read = read_builder(DATA, slug)
    one = read.board.model_copy(update=board or {})
    changed = Builder.model_validate({**read.builder.__dict__, **(builder or {})})
    return Inputs(
        read.slug, read.board_slug, read.maker, one, changed, read.species, read.practice, read.tools, read.rocker_rules
    )


def pages_of(inputs):
    """Every page's text; figures and drawings are looked at on the way."""
    figures = make_figures(inputs)
    for figure in figures.values.values():
        assert math.isfinite(figure.value), figure.key
        assert figure.low <= figure.value <= figure.high, figure.key
    drawings = draw_all(figures)
    for name, drawing in drawings.items():
        assert not re.search(r"\b(?:nan|inf|None)\b", drawing), name
    pages = {page.slug: page.markdown for page in write_guide(figures, drawings, read_sources()).pages}
    plain = {slug: re.sub(r"\[([^][]*)\]\([^)]*\)(\{[^}]*\})?", r"\1", text) for slug, text in pages.items()}
    for slug, text in plain.items():
        assert not re.search(r"\b(?:nan|inf)\b", text), slug
        found = re.search(r"(?<![\d.,/⁄–−-])\b[01] (?:weeks|layers|coats|bottles|cans|pieces|evenings|ribs)\b", text)
        if slug != "numbers":
            assert not found, (slug, found[0])
    return plain


@pytest.mark.parametrize("slug", ["mara", "ines"])  # finished sizes, frame sizes
def test_a_board_without_rails_and_a_builder_without_stock(slug):
    pages = pages_of(odd(slug, board={"rail_mm": 0.0}, builder=BARE))
    assert "Your board has no built-up rail" in pages["rails"]


def test_one_evening_is_left_and_it_is_told_as_one():
    pages = pages_of(odd("tobin", builder={"stage": "water"}))
    assert "plan for 1 evening in 1 week," in pages["board"]


def test_planks_that_no_layer_fits_on_are_told_and_not_counted_as_none():
    planks = ({"width_mm": 20.0, "length_mm": 300.0, "count": 1},)
    pages = pages_of(odd("mara", builder={"planks": planks, "clamps": (), "weights": ()}))
    assert "no plank of yours is wide and long enough" in pages["rails"]
    assert "Wood for the rails" in pages["shopping"]


def test_a_block_that_lies_outside_the_frame_is_no_piece_to_cut():
    read = read_builder(DATA, "mara")
    blocks = tuple(
        one.model_copy(update={"from_centre_mm": 300.0}) if one.holds == "nose" else one for one in read.board.blocks
    )
    pages = pages_of(odd("mara", board={"blocks": blocks}))
    assert "nose block" not in pages["inside"].casefold()
