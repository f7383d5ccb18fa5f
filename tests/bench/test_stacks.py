"""Stacks from one stock."""

import itertools

import numpy as np
import pytest
from bench_boards import THINGS
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.stack_list import KIND_COST, SHIM_COST, Piece
from generator.bench.stacks import ERROR_COST_PER_MM, STEP_MM, TILT_COST_PER_MM, TILTS_MM, Pile, pile

HEIGHTS = [58.0, 4.0, 12.0, 118.0]


def piled(things, heights=HEIGHTS, *, loads=60.0, table=0.0, base=60.0, tips=True) -> Pile:
    n = len(heights)
    return pile(
        things,
        x_per_length=np.linspace(0, 1, n),
        height_mm=heights,
        table_mm=np.full(n, table),
        load_n=np.full(n, loads),
        tip=[tips and i in (0, n - 1) for i in range(n)],
        least_base_mm=base,
    )


def assert_obeys(things, pile_, heights, loads, table=0.0):
    used = np.zeros(len(things), dtype=int)
    for i, stack in enumerate(pile_.stacks):
        if stack is None:
            assert pile_.missing_mm[i] != 0
            continue
        flat = [things[k] for k, count in stack.pieces for _ in range(count)]
        for k, count in stack.pieces:
            used[k] += count
        assert 1 <= len(flat) <= 5
        assert sum(p.kind == "tin" for p in flat) <= 1
        assert all(p.kind != "crossbar" for p in flat[:-1])
        body = [p for p in flat if p.kind != "crossbar"]
        assert all(low.width_mm >= high.width_mm for low, high in itertools.pairwise(body))
        assert stack.height_mm == pytest.approx(sum(p.height_mm for p in flat))
        above = np.concatenate([np.cumsum([p.mass_kg for p in flat[::-1]])[::-1][1:], [0.0]])
        assert all(p.takes_kg * 9.80665 >= 2 * (loads + m * 9.80665) - 1e-6 for p, m in zip(flat, above, strict=True))
        share = i / (len(heights) - 1)
        assert stack.wanted_mm == pytest.approx(pile_.base_mm + heights[i] + pile_.tilt_mm * share - table)
        assert abs(stack.error_mm) <= pile_.allowed_mm + 1e-9
    assert all(n <= thing.count for n, thing in zip(used, things, strict=True))


def test_a_well_stocked_house_makes_four_stacks_within_a_millimetre():
    made = piled(THINGS)
    assert made.proven
    assert made.allowed_mm == 1.0
    assert_obeys(THINGS, made, HEIGHTS, 60.0)


def test_crossbars_go_to_the_tips_where_they_hold_twist():
    tops = [THINGS[s.pieces[-1][0]].kind for s in piled(THINGS).stacks]
    assert tops[0] == tops[-1] == "crossbar"


thing = st.builds(
    lambda kind, height, width, mass, takes, count: Piece("x", kind, height, width, mass, takes, count),
    st.sampled_from(["tin", "block", "sheet", "shim", "crossbar"]),
    st.integers(1, 220),
    st.integers(40, 250),
    st.floats(0.01, 5),
    st.floats(5, 120),
    st.integers(1, 4),
)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(thing, min_size=1, max_size=7),
    st.lists(st.floats(0, 120), min_size=2, max_size=5),
    st.floats(0, 150),
    st.floats(-6, 6),
)
def test_no_stack_breaks_a_rule_or_uses_more_than_the_house_has(things, heights, load, table):
    made = piled(things, heights, loads=load, table=table)
    assert_obeys(things, made, heights, load, table)


def brute_force(things, heights) -> float:
    """Least cost over the same grid by trying everything: all stacks of up to five pieces at every support."""
    stacks = []
    for counts in itertools.product(*(range(t.count + 1) for t in things)):
        if 1 <= sum(counts) <= 5 and sum(n for n, t in zip(counts, things, strict=True) if t.kind == "tin") <= 1:
            height = sum(n * t.height_mm for n, t in zip(counts, things, strict=True))
            cost = sum(counts) + KIND_COST * max(0, sum(n > 0 for n in counts) - 2)
            cost += SHIM_COST * any(n and t.kind == "shim" for n, t in zip(counts, things, strict=True))
            stacks.append((height, cost, counts))
    best = np.inf
    for base in np.arange(60.0, 60 + 160 + STEP_MM, STEP_MM):
        for tilt in TILTS_MM:
            wanted = [base + h + tilt * i / (len(heights) - 1) for i, h in enumerate(heights)]
            fits = [[(c + ERROR_COST_PER_MM * abs(h - w), n) for h, c, n in stacks if abs(h - w) <= 1] for w in wanted]
            for choice in itertools.product(*fits):
                total = sum(c for c, _ in choice) + TILT_COST_PER_MM * abs(tilt)
                if total < best and all(sum(n[k] for _, n in choice) <= t.count for k, t in enumerate(things)):
                    best = total
    return float(best)


@pytest.mark.parametrize("seed", range(4))
def test_nothing_cheaper_exists_on_the_grid(seed):
    rng = np.random.default_rng(seed)
    things = [
        Piece("tin", "tin", float(rng.integers(90, 200)), 150, 2, 100, 2),
        Piece("block", "block", float(rng.integers(40, 70)), 100, 2, 100, 3),
        Piece("sheet", "sheet", float(rng.integers(8, 20)), 90, 1, 100, 2),
        Piece("card", "shim", 1.5, 80, 0.01, 100, 3),
    ]
    heights = [float(h) for h in rng.uniform(0, 60, 3)]
    made = piled(things, heights, tips=False)
    best = brute_force(things, heights)
    if np.isfinite(best):
        flat = [[things[k] for k, n in s.pieces for _ in range(n)] for s in made.stacks]
        cost = sum(
            len(f)
            + KIND_COST * max(0, len(s.pieces) - 2)
            + SHIM_COST * any(p.kind == "shim" for p in f)
            + ERROR_COST_PER_MM * abs(s.error_mm)
            for f, s in zip(flat, made.stacks, strict=True)
        )
        assert made.allowed_mm == 1.0
        assert cost + TILT_COST_PER_MM * abs(made.tilt_mm) == pytest.approx(best)
    else:
        assert made.allowed_mm > 1.0 or any(s is None for s in made.stacks)


def test_the_tables_own_reading_is_taken_off_the_stack():
    level = piled(THINGS)
    high = piled(THINGS, table=3.0, base=63.0)
    assert [s.wanted_mm for s in high.stacks] == pytest.approx([s.wanted_mm for s in level.stacks])
    assert high.base_mm == pytest.approx(level.base_mm + 3)


def test_a_weak_tin_is_not_asked_to_carry_half_of_what_it_takes():
    weak = [Piece("weak tin", "tin", 134, 160, 1, 12, 4), *THINGS[2:]]
    made = piled(weak, loads=60.0)  # 60 N is 6.1 kg, more than half of 12
    assert all(0 not in dict(s.pieces) for s in made.stacks if s)
    light = piled(weak, loads=20.0)
    assert any(0 in dict(s.pieces) for s in light.stacks)


def test_errors_are_allowed_to_grow_only_when_nothing_fits_and_it_is_said():
    coarse = [Piece("brick", "block", 65, 100, 2, 200, 20)]
    made = piled(coarse, [0.0, 12.0], base=60.0)
    assert made.allowed_mm > 1
    assert_obeys(coarse, made, [0.0, 12.0], 60.0)


def test_a_height_that_the_stock_has_not_got_is_named():
    poor = [Piece("tin", "tin", 134, 160, 3, 60, 1), Piece("brick", "block", 65, 102, 2.8, 200, 1)]
    made = piled(poor)
    gone = [i for i, s in enumerate(made.stacks) if s is None]
    assert len(gone) >= 2  # two pieces make two stacks at most
    assert len(gone) < 4
    for i in gone:
        assert made.missing_mm[i] == pytest.approx(made.base_mm + HEIGHTS[i] + made.tilt_mm * i / 3)
