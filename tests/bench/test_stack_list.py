"""The list of stacks, against all choices of pieces in all orders."""

import itertools

import numpy as np
import pytest
from bench_boards import FIFTEEN
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench import stack_list
from generator.bench.stack_list import Piece, list_stacks

G = 9.80665

thing = st.builds(
    lambda kind, height, width, mass, takes, count: Piece("x", kind, height, width, mass, takes, count),
    st.sampled_from(["tin", "block", "sheet", "shim", "crossbar"]),
    st.floats(1, 200),
    st.integers(40, 43),
    st.floats(0.01, 5),
    st.floats(5, 120),
    st.integers(0, 3),
)


def takes_kg(order):
    """Load that pieces in this order take on top: half of each one's limit, less what lies on it."""
    return min(p.takes_kg / 2 - sum(q.mass_kg for q in order[at + 1 :]) for at, p in enumerate(order))


def legal(order):
    body = order[:-1] if order[-1].kind == "crossbar" else order
    return (
        sum(p.kind == "tin" for p in order) <= 1
        and all(p.kind != "crossbar" for p in body)
        and all(low.width_mm >= high.width_mm for low, high in itertools.pairwise(body))
    )


@settings(max_examples=40, deadline=None)
@given(st.lists(thing, min_size=1, max_size=3))
def test_every_legal_choice_is_listed_once_with_the_most_that_any_order_takes(things):
    expected = {}
    for counts in itertools.product(*(range(min(t.count, 5) + 1) for t in things)):
        lying = [thing for thing, n in zip(things, counts, strict=True) for _ in range(n)]
        orders = [order for order in set(itertools.permutations(lying)) if order and legal(order)]
        if 1 <= len(lying) <= 5 and orders:
            expected[counts] = max(takes_kg(order) for order in orders)
    listed = list_stacks(things)
    found = [tuple(int(n) for n in row) for row in listed.counts]
    assert sorted(found) == sorted(expected)
    assert listed.takes_n == pytest.approx([expected[counts] * G for counts in found], abs=1e-6)
    for name in ("height_mm", "mass_kg"):
        sums = [sum(n * getattr(t, name) for n, t in zip(counts, things, strict=True)) for counts in found]
        assert getattr(listed, name) == pytest.approx(sums)
    assert (np.diff(listed.height_mm) >= 0).all()
    assert listed.depth == 5


def test_limits_leave_out_what_is_too_high_or_too_weak_and_nothing_else():
    whole, part = list_stacks(FIFTEEN), list_stacks(FIFTEEN, most_mm=150, least_n=200)
    fits = (whole.height_mm <= 150) & (whole.takes_n >= 200)
    assert 0 < part.height_mm.size < whole.height_mm.size
    assert part.height_mm == pytest.approx(whole.height_mm[fits])
    assert sorted(map(tuple, part.counts)) == sorted(map(tuple, whole.counts[fits]))


def test_fifteen_kinds_of_plenty_are_all_listed():
    """With repetition there are C(15 + 5, 5) - 1 = 15,503 choices of one to five of fifteen kinds (by hand)."""
    plenty = [Piece(str(i), "sheet", 1.0 + i, 100, 0.1, 100, 5) for i in range(15)]
    listed = list_stacks(plenty)
    assert listed.height_mm.size == 15_503
    assert listed.depth == 5


def test_sixty_kinds_of_plenty_are_listed_as_deep_as_the_limit_allows():
    """C(60 + 3, 3) - 1 = 39,710 of up to three pieces are few enough, C(60 + 4, 4) - 1 = 635,375 are not (by hand)."""
    plenty = [Piece(str(i), "sheet", 1.0 + i, 100, 0.1, 100, 5) for i in range(60)]
    listed = list_stacks(plenty)
    assert 39_710 <= stack_list.MOST_STACKS < 635_375
    assert listed.height_mm.size == 39_710
    assert listed.depth == 3


def test_of_two_things_as_wide_as_each_other_the_stronger_lies_below():
    weak, strong = Piece("weak", "block", 50, 100, 1, 20, 1), Piece("strong", "block", 60, 100, 1, 100, 1)
    listed = list_stacks([weak, strong])
    both = int(np.argmax(listed.pieces))
    assert listed.base[both] == 1
    assert listed.takes_n[both] == pytest.approx(10 * G)
