"""Glues and boards for the tests of glue: an invented label, and the demo boards with some fields changed."""

import functools
from pathlib import Path

from hypothesis import strategies as st

from generator.board.body import make_body
from generator.inputs.builder import Glue
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
LABEL = {
    "name": "invented",
    "type": "polyurethane",
    "water_class": "D4",
    "method": "bead",
    "times_at_c": 20.0,
    "open_min": 20.0,
    "clamp_min": 240.0,
    "full_cure_min": 1440.0,
    "lowest_c": 5.0,
    "gap_mm": 2.0,
    "bottle_l": 0.5,
    "spread_g_m2": 180.0,
    "density_kg_m3": 1100.0,
}


def glue_with(**changes):
    return Glue.model_validate(LABEL | changes)


@functools.cache
def inputs_of(slug):
    return read_builder(DATA, slug)


def body_of(slug="mara", *, measured=None, **board):
    """A demo board's body, nothing measured unless given; `panel={"plank_width_mm": 80}` changes one of a group."""
    inputs = inputs_of(slug)
    changes = {
        name: getattr(inputs.board, name).model_copy(update=value) if isinstance(value, dict) else value
        for name, value in board.items()
    }
    return make_body(
        inputs.board.model_copy(update=changes),
        rocker=inputs.board.rocker,
        measured=measured,
        trace_margin=inputs.maker.defaults.trace_margin,
    )


@st.composite
def two_column_glues(draw):
    """A glue whose label gives times at two temperatures, the colder ones no shorter."""
    apart = draw(st.floats(3, 30))
    warm_at = draw(st.floats(0, 40))
    warm = {"open": draw(st.floats(1, 200)), "clamp": draw(st.floats(5, 2000)), "cure": draw(st.floats(60, 20000))}
    most = {"open": 240, "clamp": 2880, "cure": 20160}
    cold = {name: min(value * draw(st.floats(1, 6)), most[name]) for name, value in warm.items()}
    one = {"times_at_c": warm_at, "open_min": warm["open"], "clamp_min": warm["clamp"], "full_cure_min": warm["cure"]}
    other = {"at_c": max(warm_at - apart, -10), "open_min": cold["open"], "clamp_min": cold["clamp"]}
    return glue_with(**one, also=other | {"full_cure_min": cold["cure"]})
