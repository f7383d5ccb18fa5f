"""The plain replay of a bench's data against the full solve, and against beams that a handbook solves."""

import ast
import json
import sys
from pathlib import Path

import numpy as np
import pytest
from try_bench import (
    LENGTH,
    LINE,
    LOW_POINT,
    PLACES,
    RIBS,
    clamped,
    data_of,
    glued,
    line_mm,
    solved_again,
    tops,
    wanted_mm,
)

from generator.bench import replay as module
from generator.bench.beam import Beam
from generator.bench.replay import prepared, replay, settled, solved
from generator.bench.springback import spring_back
from generator.bench.tops import Top
from generator.bench.what_if import what_if

NONE = [0.0] * RIBS.size
STATION = np.linspace(0, LENGTH, 61)


def moves(seed: int, count: int):
    """Shims within 10 mm either way and up to three weights of 0 to 60 N anywhere."""
    rng = np.random.default_rng(seed)
    for _ in range(count):
        weights = np.zeros(RIBS.size)
        weights[rng.choice(RIBS.size, rng.integers(0, 4), replace=False)] = rng.uniform(0, 60)
        yield rng.uniform(-10, 10, 4), weights


@pytest.mark.parametrize("cut", [0.0, 0.4, 1.0])
def test_random_moves_replayed_from_the_data_alone_match_the_full_solve(cut):
    """A quarter of them or more change which points bear."""
    beam, on = clamped(1.5, cut), tops()
    ready = prepared(data_of(beam))
    before = solved_again(beam, on, [0] * 4, NONE).bent.touching
    other_set = 0
    for shims, weights in moves(71, 70):
        full = solved_again(beam, on, shims, weights)
        told = settled(ready, shims_mm=list(shims), weights_n=list(weights))
        other_set += not np.array_equal(full.bent.touching, before)
        assert told["status"] == "ok"
        assert told["heights_mm"] == pytest.approx(full.bent.heights_mm(STATION), abs=0.01)
        assert told["loads_n"] == pytest.approx(full.loads_n, abs=0.05)
        assert told["gaps_mm"] == pytest.approx(full.gaps_mm, abs=0.01)
        least, place = full.bent.least_curvature
        assert told["least_curvature_per_mm"] == pytest.approx(least, abs=1e-8)
        if least < -1e-6:
            assert told["least_curvature_x_mm"] == pytest.approx(place, abs=1e-3)
        inverted = full.bent.inverted()
        assert len(told["inverted"]) == len(inverted)
        for mine, exact in zip(told["inverted"], inverted, strict=True):
            assert mine == pytest.approx(exact, abs=2.0)
        for mine, load, exact in zip(told["touch_x_mm"], full.loads_n, full.touch_x_mm, strict=True):
            assert load <= 1 if mine is None else mine == pytest.approx(exact, abs=0.5) or load < 1
    assert other_set >= 70 / 4


def test_what_lies_there_can_be_taken_off():
    beam, on = clamped(), tops()
    taken = np.zeros(RIBS.size)
    taken[2], taken[8] = -2.5 * 9.80665, -5 * 9.80665
    full = solved_again(beam, on, [0] * 4, taken)
    told = replay(data_of(beam), shims_mm=[0] * 4, weights_n=list(taken))
    assert told["heights_mm"] == pytest.approx(full.bent.heights_mm(STATION), abs=0.01)
    assert told["loads_n"] == pytest.approx(full.loads_n, abs=0.05)
    assert told["total_n"] == pytest.approx(beam.total_load_n - 7.5 * 9.80665, abs=1e-3)


def test_lifted_off_it_loses_what_the_sums_of_spring_back_say():
    """M / E·I glued, integrated at 4,001 stations and both sides of every jump."""
    beam, on = clamped(), tops()
    weights = np.zeros(RIBS.size)
    weights[7] = 30
    full = solved_again(beam, on, [0, 2, -2, 1], weights).bent
    told = replay(data_of(beam), shims_mm=[0, 2, -2, 1], weights_n=list(weights))
    x = np.unique(np.concatenate([np.linspace(0, LENGTH, 4001), beam.breaks_mm[1:-1] - 1e-6, beam.breaks_mm]))
    piece = np.clip(np.searchsorted(beam.breaks_mm, x, side="right") - 1, 0, beam.stiffness_n_mm2.size - 1)
    loss = spring_back(
        x_mm=x,
        curvature_per_mm=full.curvature_per_mm(x),
        moment_n_mm=full.moment_n_mm(x),
        glued_n_mm2=glued(beam)[piece],
        low_point_mm=LOW_POINT,
    )
    level = full.heights_mm(STATION) - line_mm(STATION) - (full.heights_mm(LOW_POINT) - line_mm(LOW_POINT))
    assert told["released_mm"] == pytest.approx(level - loss.loss_at(STATION), abs=0.01)
    assert loss.nose_mm > 5


def even(length: float, load: float, stiffness: float, places: list[float], heights: list[float], weight: float):
    one = np.ones(1)
    return what_if(
        beam=Beam(length, [0, length], stiffness * one, load * one, load * one, 0 * one, 0 * one),
        glued_n_mm2=4 * stiffness * one,
        tops=[Top(x, x, h) for x, h in zip(places, heights, strict=True)],
        weight_kinds=[],
        placed=[],
        weight_places_mm=[weight],
        wanted_mm=lambda x: 0 * np.asarray(x, dtype=np.float64),
        line=(0.0, 0.0),
        shims=[],
        low_point_mm=length / 2,
    )


def test_a_weight_at_mid_span_sags_as_in_the_handbooks():
    """5wL⁴/384EI + PL³/48EI under mid span of a beam on its ends (any handbook; from memory)."""
    length, load, stiffness, weight = 2000.0, 0.03, 2e8, 25.0
    told = replay(even(length, load, stiffness, [0, length], [10, 10], 1000.0), shims_mm=[5, 5], weights_n=[weight])
    sag = 5 * load * length**4 / (384 * stiffness) + weight * length**3 / (48 * stiffness)
    assert told["heights_mm"][30] == pytest.approx(15 - sag, abs=1e-4)
    assert told["loads_n"] == pytest.approx([(load * length + weight) / 2] * 2, rel=1e-9)
    # Glued it is four times as stiff, so a quarter of the curve is lost, and its low point lies at 0. The replay takes
    # the moment as straight between nodes 33 mm apart: 2 parts in 100,000 too little of the spread load's.
    assert told["released_mm"][0] == pytest.approx(sag * 3 / 4, abs=5e-3)
    assert told["released_mm"][30] == 0


def test_two_equal_spans_carry_three_and_ten_eighths():
    """wl·(3/8, 10/8, 3/8) on three level supports (any handbook; from memory), until one is lowered out of reach."""
    data = even(2000, 0.05, 2e8, [0, 1000, 2000], [0, 0, 0], 500.0)
    told = replay(data, shims_mm=[0, 0, 0], weights_n=[0])
    assert told["loads_n"] == pytest.approx([18.75, 62.5, 18.75], abs=1e-3)
    sag = 5 * 0.05 * 2000**4 / (384 * 2e8)
    lifted = replay(data, shims_mm=[0, -sag - 1, 0], weights_n=[0])
    assert lifted["loads_n"] == pytest.approx([50, 0, 50], abs=1e-6)
    assert lifted["gaps_mm"] == pytest.approx([0, 1, 0], abs=1e-3)
    assert lifted["touch_x_mm"][1] is None


def test_a_weight_outside_the_supports_tips_the_board():
    data = even(2000, 0.01, 2e8, [0, 1100], [0, 0], 1900.0)
    told = replay(data, shims_mm=[0, 0], weights_n=[40])
    assert told["status"] == "tips over"
    assert told["balance_x_mm"] == pytest.approx((20 * 1000 + 40 * 1900) / 60)
    assert replay(data, shims_mm=[0, 0], weights_n=[1])["status"] == "ok"


def test_of_two_tops_at_one_place_the_higher_one_bears():
    data = even(2000, 0.05, 2e8, [0, 1000, 1000, 2000], [0, 0, 2, 0], 500.0)
    assert replay(data, shims_mm=[0] * 4, weights_n=[0])["loads_n"][1] == 0
    assert replay(data, shims_mm=[0, 3, 0, 0], weights_n=[0])["loads_n"][2] == 0


def test_lifting_all_supports_lifts_the_curve():
    data = data_of()
    one, other = (replay(data, shims_mm=[up] * 4, weights_n=NONE) for up in (0.0, 7.0))
    assert np.subtract(other["heights_mm"], one["heights_mm"]) == pytest.approx(np.full(61, 7.0), abs=1e-6)
    assert other["loads_n"] == pytest.approx(one["loads_n"], abs=1e-6)


def test_equations_are_solved_as_numpy_does():
    rng = np.random.default_rng(72)
    for n in range(1, 9):
        matrix, right = rng.normal(size=(n, n)), rng.normal(size=n)
        matrix[0, 0] = 0 if n > 1 else 1
        rows = [[*map(float, row), float(value)] for row, value in zip(matrix, right, strict=True)]
        assert solved(rows) == pytest.approx(np.linalg.solve(matrix, right), rel=1e-8)


def test_the_replay_needs_nothing_but_the_language():
    tree = ast.parse(Path(module.__file__).read_text("utf-8"))
    names = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    names |= {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    assert {name.split(".")[0] for name in names} <= sys.stdlib_module_names


def test_wrong_calls_are_refused():
    data = data_of()
    with pytest.raises(ValueError, match="one shim a support"):
        replay(data, shims_mm=[0] * 3, weights_n=NONE)
    with pytest.raises(ValueError, match="press down"):
        replay(data, shims_mm=[0] * 4, weights_n=[-100.0] * RIBS.size)


def test_wanted_and_places_read_back_as_given():
    data = data_of()
    assert data["nodes"]["wanted_mm"] == pytest.approx(wanted_mm(data["nodes"]["x_mm"]), abs=1e-5)
    assert [s["height_mm"] for s in data["supports"]] == pytest.approx(
        wanted_mm(PLACES) + LINE[0] + LINE[1] * np.array(PLACES) / LENGTH + [0, 1, -1, 0], abs=1e-4
    )
    assert json.loads(json.dumps(data)) == data
