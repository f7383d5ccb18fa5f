"""Stacks from one stock: every rule, tolerances, and what is said where a list or a search is cut short."""

import numpy as np
import pytest
from bench_boards import FIFTEEN, THINGS, eight_supports
from hypothesis import given, settings
from hypothesis import strategies as st
from pile_checks import HEIGHTS, asked, assert_obeys, piled, wishes

from generator.bench import stack_list, stacks
from generator.bench.stack_list import Piece
from generator.bench.stack_search import cheapest
from generator.bench.stacks import TILTS_MM, pile

BEND_MM = 0.05
"""How much a lowest base in these tests may curve over the tilt."""


# ---- rules ----


def test_a_well_stocked_house_makes_four_stacks_within_a_millimetre():
    made = piled(THINGS)
    assert made.proven
    assert all(made.kept)
    assert made.allowed_mm == 1.0
    assert_obeys(THINGS, made, asked())


def test_crossbars_go_to_the_tips_where_they_hold_twist():
    tops = [THINGS[s.pieces[-1][0]].kind for s in piled(THINGS).stacks]
    assert tops[0] == tops[-1] == "crossbar"


thing = st.builds(
    lambda kind, height, width, mass, takes, count: Piece("x", kind, height, width, mass, takes, count),
    st.sampled_from(["tin", "block", "sheet", "shim", "crossbar"]),
    st.integers(1, 220) | st.floats(1, 220),
    st.integers(40, 250),
    st.floats(0.01, 5),
    st.floats(5, 120),
    st.integers(1, 4),
)
sloped = st.builds(
    lambda level, slope, bend: [level + slope * tilt + bend * tilt**2 for tilt in TILTS_MM],
    st.floats(-20, 200),
    st.floats(-1, 0),
    st.floats(0, BEND_MM),
)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_no_stack_breaks_a_rule_or_uses_more_than_the_house_has(data):
    things = data.draw(st.lists(thing, min_size=1, max_size=6))
    heights = data.draw(st.lists(st.floats(0, 120), min_size=2, max_size=5))
    question = asked(
        heights,
        loads=data.draw(st.lists(st.floats(0, 150), min_size=len(heights), max_size=len(heights))),
        table=data.draw(st.floats(-6, 6)),
        base=data.draw(sloped),
        tolerance_mm=data.draw(
            st.lists(st.sampled_from([0.25, 0.5, 1.0]), min_size=len(heights), max_size=len(heights))
        ),
    )
    assert_obeys(things, pile(things, **question), question)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.sampled_from(THINGS), min_size=3, max_size=7, unique=True), st.data())
def test_more_in_the_house_never_makes_it_worse(things, data):
    heights = data.draw(st.lists(st.floats(0, 60), min_size=2, max_size=4))
    more = data.draw(st.sampled_from([thing for thing in THINGS if thing.kind != "crossbar"]))
    fewer, richer = piled(things, heights), piled([*things, more], heights)
    if fewer.proven and richer.proven:
        assert wishes([*things, more], richer) <= wishes(things, fewer)


@settings(max_examples=15, deadline=None)
@given(st.lists(st.floats(0, 100), min_size=2, max_size=5), st.floats(50, 150))
def test_a_bench_seen_from_its_other_end_is_piled_as_well(heights, middle):
    """From the other end the tilt changes its sign and the middle stays where it is; the room depends on the middle."""
    room = [middle - tilt / 2 for tilt in TILTS_MM]
    ahead, behind = piled(THINGS, heights, base=room), piled(THINGS, heights[::-1], base=room)
    assert ahead.proven
    assert behind.proven
    assert wishes(THINGS, ahead) == wishes(THINGS, behind)


def test_the_tables_own_reading_is_taken_off_the_stack():
    level, high = piled(THINGS), piled(THINGS, table=3.0, base=63.0)
    assert [s.wanted_mm for s in high.stacks] == pytest.approx([s.wanted_mm for s in level.stacks])
    assert high.base_mm == pytest.approx(level.base_mm + 3)


def test_a_weak_tin_is_not_asked_to_carry_half_of_what_it_takes():
    weak = [Piece("weak tin", "tin", 134, 160, 1, 12, 4), *THINGS[2:]]
    made = piled(weak, loads=60.0)  # 60 N is 6.1 kg, more than half of 12
    assert all(0 not in dict(s.pieces) for s in made.stacks if s)
    light = piled(weak, loads=20.0)
    assert any(0 in dict(s.pieces) for s in light.stacks)


# ---- tolerances ----


def test_a_sensitive_support_is_held_closer_than_the_others():
    tolerance = [1.0, 0.5, 0.5, 1.0]
    made = piled(THINGS, tolerance_mm=tolerance)
    assert made.tolerance_mm == pytest.approx(tolerance)
    assert all(made.kept)
    assert all(abs(s.error_mm) <= t + 1e-7 for s, t in zip(made.stacks, tolerance, strict=True))


def test_only_the_support_that_nothing_fits_is_stretched_and_it_is_said():
    """Bricks only, and one height 5 mm off the others: no tilt helps in the middle, 4 mm does with 1 mm to spare."""
    bricks = [Piece("brick", "block", 65, 100, 2, 200, 20)]
    heights = [0.0, 0.0, 5.0, 0.0, 0.0]
    made = piled(bricks, heights)
    assert made.proven
    assert made.kept == (True, True, False, True, True)
    assert made.within_mm == pytest.approx([1, 1, 4, 1, 1])
    assert made.allowed_mm == pytest.approx(4.0)
    assert_obeys(bricks, made, asked(heights))


def test_the_bench_is_set_where_the_worst_error_is_least():
    """Blocks of one height under heights that are 1.5 mm apart: half of that is the least worst error (by hand)."""
    blocks = [Piece("block", "block", 100, 90, 1, 200, 3)]
    made = piled(blocks, [0.0, 1.5, 0.0], tips=False)
    assert [s.error_mm for s in made.stacks] == pytest.approx([0.75, -0.75, 0.75])


def test_nothing_is_lost_between_steps_of_height_and_tilt():
    """Three blocks meet three heights at one base and one tilt only, neither of them a round number."""
    tilt, base = 3.37, 71.243
    heights = [10.0, 31.0, 17.0]
    blocks = [
        Piece(f"block {i}", "block", round(base + h + tilt * i / 2, 4), 90, 1, 200, 1) for i, h in enumerate(heights)
    ]
    made = piled(blocks, heights, base=60.0, tips=False, tolerance_mm=0.001)
    assert all(made.kept)
    assert made.base_mm == pytest.approx(base, abs=0.004)
    assert made.tilt_mm == pytest.approx(tilt, abs=0.004)


def test_what_cannot_be_asked_is_refused():
    with pytest.raises(ValueError, match="one of every number"):
        pile(THINGS, **{**asked(), "load_n": [1.0]})
    with pytest.raises(ValueError, match="above 0"):
        piled(THINGS, tolerance_mm=0.0)
    with pytest.raises(ValueError, match="rise from 1"):
        piled(THINGS, factors=(1.0, 1.0))


def test_a_height_that_the_stock_has_not_got_is_named():
    poor = [Piece("tin", "tin", 134, 160, 3, 60, 1), Piece("brick", "block", 65, 102, 2.8, 200, 1)]
    made = piled(poor)
    gone = [i for i, s in enumerate(made.stacks) if s is None]
    assert 2 <= len(gone) < 4  # two pieces make two stacks at most
    for i in gone:
        assert made.missing_mm[i] == pytest.approx(made.base_mm + HEIGHTS[i] + made.tilt_mm * i / 3)


def test_nothing_that_could_be_piled_leaves_every_support_out_on_the_lowest_level_bench():
    made = piled([Piece("sheet of paper", "shim", 0.1, 200, 0.01, 80, 1)], base=60.0)
    assert made.stacks == (None,) * 4
    assert made.proven
    assert made.missing_mm == pytest.approx(made.base_mm + np.array(HEIGHTS) + made.tilt_mm * np.linspace(0, 1, 4))


# ---- large and cut short ----


@pytest.mark.parametrize("seed", range(4))
def test_eight_supports_from_fifteen_kinds_are_searched_to_the_end(seed):
    question = eight_supports(110.0, spread_mm=6.0, seed=seed)
    made = pile(FIFTEEN, **question)
    assert made.proven
    assert all(made.kept)
    assert_obeys(FIFTEEN, made, question)


def test_a_list_that_had_to_be_cut_says_so_where_a_higher_stack_might_do_better(monkeypatch):
    sheets = [Piece("sheet", "sheet", 20, 100, 0.1, 200, 20)]
    whole = piled(sheets, [0.0, 0.0], base=100.0, tips=False)
    assert whole.proven
    assert sum(dict(whole.stacks[0].pieces).values()) == 5
    monkeypatch.setattr(stack_list, "MOST_STACKS", 4)
    short = piled(sheets, [0.0, 0.0], base=100.0, tips=False)
    assert short.cut == "list"
    assert not short.proven
    low = piled(sheets, [0.0, 0.0], base=40.0, tips=False)
    assert low.proven  # two sheets each: no stack of five can be cheaper


def test_a_search_that_was_given_up_says_so(monkeypatch):
    monkeypatch.setattr(stacks, "cheapest", lambda asked, **how: cheapest(asked, **{**how, "most_nodes": 1}))
    made = pile(FIFTEEN, **eight_supports())
    assert made.cut == "search"
    assert not made.proven


def test_sixty_kinds_are_piled_within_every_rule():
    rng = np.random.default_rng(7)
    things = [
        Piece(f"{kind} {i}", kind, float(h), float(rng.integers(60, 250)), 0.3, float(rng.uniform(40, 200)), 3)
        for i in range(20)
        for kind, h in (("block", rng.integers(30, 90)), ("sheet", rng.integers(3, 30)), ("tin", rng.integers(90, 250)))
    ]
    question = eight_supports(120.0)
    made = pile(things, **question)
    assert all(made.kept)
    assert_obeys(things, made, question)


def test_no_support_is_left_out_so_that_others_may_keep_a_close_tolerance():
    """Blocks that are all 0.6 mm too high for the three middle supports, though each is right for the next one."""
    sizes = {"tall": (100.0, 4), "first": (20.6, 1), "second": (21.2, 1), "third": (21.8, 1)}
    blocks = [Piece(name, "block", height, 100, 0.1, 200, count) for name, (height, count) in sizes.items()]
    heights = [80.0, 80.0, 0.0, 0.6, 1.2, 80.0, 80.0]
    made = piled(blocks, heights, base=0.0, tips=False, tolerance_mm=0.25, factors=(1.0, 4.0))
    assert all(made.stacks)
    assert made.allowed_mm == pytest.approx(1.0)
