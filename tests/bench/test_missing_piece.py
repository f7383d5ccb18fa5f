"""What one more thing would do: found again by having it."""

import numpy as np
import pytest
from bench_boards import FIFTEEN, THINGS
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.missing_piece import OWN_MASS_KG, missing_pieces
from generator.bench.stack_list import Piece
from generator.bench.stacks import pile

HEIGHTS = [58.0, 4.0, 12.0, 118.0]


def asked(heights, base=60.0, load=60.0, **more):
    n = len(heights)
    return {
        "x_per_length": np.linspace(0, 1, n),
        "height_mm": heights,
        "table_mm": np.zeros(n),
        "load_n": np.full(n, load),
        "wants_bar": [False] * n,
        "least_base_mm": base,
        **more,
    }


def told(things, made, question):
    return missing_pieces(things, made, **{k: question[k] for k in ("x_per_length", "load_n", "least_base_mm")})


def test_a_whole_pile_misses_nothing():
    question = asked(HEIGHTS)
    assert told(FIFTEEN, pile(FIFTEEN, **question), question) == ()


def test_a_brick_and_a_gap():
    """Three heights of 65, 65 and 87: two bricks fit, the third leaves 22 to fill, on a bench that may move 1 mm."""
    bricks = [Piece("brick", "block", 65, 102, 2.4, 200, 3)]
    question = asked([0.0, 0.0, 22.0], base=65.0)
    (piece,) = told(bricks, pile(bricks, factors=(1.0,), **question), question)
    assert piece.support == 2
    assert piece.others == ((0, 1),)
    assert piece.least_mm <= 21
    assert piece.most_mm >= 23
    assert piece.takes_kg == pytest.approx(2 * 60 / 9.80665)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.sampled_from(THINGS[:8]), min_size=1, max_size=4, unique=True),
    st.lists(st.floats(0, 120), min_size=2, max_size=4),
    st.floats(0, 1),
)
def test_with_the_missing_thing_in_the_house_the_pile_is_whole(things, heights, part):
    """The thing is added to the stock, as narrow as the rest needs it, and everything is piled again."""
    question = asked(heights)
    made = pile(things, factors=(1.0,), **question)
    wanted = told(things, made, question)
    assert [piece.support for piece in wanted] == [i for i, kept in enumerate(made.kept) if not kept]
    found = [
        Piece("found", "block", p.least_mm + part * (p.most_mm - p.least_mm), 1, OWN_MASS_KG, p.takes_kg, 1)
        for p in wanted
    ]
    # A hair less load: what it must take is just what it must take.
    again = pile([*things, *found], factors=(1.0,), **{**question, "load_n": question["load_n"] * (1 - 1e-9)})
    assert all(p.height_mm > 0 for p in found)
    assert all(again.kept)
