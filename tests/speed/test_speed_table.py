"""The benchmarks run, and say whether a goal was met; how fast they are is no test."""

import numpy as np
import pytest
from bench_speed import SITE_DATA, builder_slugs, demo_bench, forward, random_benches, within


@pytest.mark.parametrize(("goal", "says"), [(0.5, "met"), (1e9, "NOT met")])
def test_the_forward_solve_is_timed_beside_the_library(goal, says):
    row = forward("two", random_benches(2), goal=goal)
    assert str(row).split(f"{goal:.0f} times ")[-1].strip() == says
    assert row.met is (goal < 1)


def test_without_a_goal_nothing_is_met():
    row = forward("one", random_benches(1), goal=None)
    assert row.met is None
    assert not str(row).endswith("met")


@pytest.mark.parametrize(("seconds", "says"), [(0.99, "met"), (1.01, "NOT met")])
def test_a_goal_in_seconds_is_met_under_it(seconds, says):
    assert str(within("lay", seconds, 1.0)).endswith(f"under 1 s    {says}")


def test_a_demo_bench_is_the_one_that_its_guide_solves():
    bench, taken, cured = demo_bench(builder_slugs(SITE_DATA)[0])
    assert not cured
    assert len(taken) == 3
    assert min(taken) > 0
    assert np.all(np.diff(bench.x_mm) > 50)
    assert bench.x_mm[[0, -1]] == pytest.approx([0, bench.beam.length_mm], abs=60)
