"""How long the bench's sums take, and what the pages cost: `python3 run.py speed` prints a table. Not a test.

Each figure is the middle of several runs on one core, so the goals in times hold on any machine; the goals in seconds
are for an ordinary laptop. What is timed:

- the forward solve, its columns set up anew every time, beside PyNiteFEA 3.2 on the same benches in the same run. That
  library gets the supports that bear as ours found them (left to find them alone it stops at wrong ones on some
  benches), so it has the easier job. One row are the demo builders' real benches, one small random ones;
- plan and stacks of each demo builder together, as their guide works them out;
- the stacks alone, for eight supports and fifteen kinds of things;
- the pages of one guide on a phone (page_speed.py), and a step of tuning there (tuning_speed.py).
"""

import statistics
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), *(str(ROOT / "tests" / part) for part in ("bench", "published", "speed"))]

from bench_boards import THINGS, wanted_mm  # noqa: E402
from drawn_benches import beam_of, drawn  # noqa: E402
from frame_library import frame_model  # noqa: E402
from page_speed import rows as page_rows  # noqa: E402
from rows import Row  # noqa: E402
from tuning_speed import rows as tuning_rows  # noqa: E402

import generator.bench.layout as layout  # noqa: E402
import generator.bench.tops as on_tops  # noqa: E402
import generator.figure_sets as sums  # noqa: E402
from generator.bench.beam import Beam  # noqa: E402
from generator.bench.contact import OK, solve  # noqa: E402
from generator.bench.stacks import pile  # noqa: E402
from generator.inputs.site import builder_slugs, read_builder  # noqa: E402

SITE_DATA = ROOT / "site_data"
TIMES_FASTER, LAY_S, STACKS_S = 100.0, 1.0, 1.0
APART_MM = 50.0
"""Points further apart than this are on two stacks."""
APART_SHARE = 0.01
"""Loads may differ by this share of them all: the library loses digits where pieces are 0.1 mm long."""


def middle_s(run: Callable[[], object], times: int) -> float:
    """Middle time of `times` runs, s, after one that does not count."""
    run()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


@contextmanager
def watched(place: Any, name: str, seen: Callable[[Any, dict[str, Any], float], None]) -> Iterator[None]:
    """Tell `seen` of each call of a function (its arguments and how long it took, s) while this lasts."""
    real = getattr(place, name)

    def watch(*args: Any, **named: Any) -> Any:
        start = time.perf_counter()
        out = real(*args, **named)
        seen(args, named, time.perf_counter() - start)
        return out

    setattr(place, name, watch)
    try:
        yield
    finally:
        setattr(place, name, real)


@dataclass(frozen=True)
class PointBench:
    """A beam on points."""

    beam: Beam
    x_mm: np.ndarray
    height_mm: np.ndarray


def demo_bench(slug: str) -> tuple[PointBench, list[float], list[float]]:
    """A demo builder's bench as last solved, one point a stack; the seconds of three plans with stacks, and of the
    search for a cure where the rocker is not reached."""
    inputs, solved, taken, cured = read_builder(SITE_DATA, slug), [], [], []
    with watched(on_tops, "solve", lambda args, named, _: solved.append((args[0], named["x_mm"], named["height_mm"]))):
        sums.work_out(inputs)
    with (
        watched(sums, "lay", lambda _, __, seconds: taken.append(seconds)),
        watched(layout, "find_cure", lambda _, __, seconds: cured.append(seconds)),
    ):
        for _ in range(3):
            sums.work_out(inputs)
    taken = [whole - cure for whole, cure in zip(taken, cured or [0.0] * len(taken), strict=True)]
    beam, x, height = solved[-1]
    loads = solve(beam, x_mm=x, height_mm=height).reactions_n
    stacks = np.split(np.argsort(x), np.flatnonzero(np.diff(np.sort(x)) > APART_MM) + 1)
    most = [int(points[loads[points].argmax()]) for points in stacks]
    return PointBench(beam, np.asarray(x)[most], np.asarray(height)[most]), taken, cured


def random_benches(count: int) -> list[PointBench]:
    """Plain random benches that do not tip over."""
    out: list[PointBench] = []
    number = 0
    while len(out) < count:
        kind, bench = drawn(np.random.default_rng([7, number]))
        made = PointBench(beam_of(bench), bench.x, bench.height)
        if kind == "plain" and solve(made.beam, x_mm=made.x_mm, height_mm=made.height_mm).status == OK:
            out.append(made)
        number += 1
    return out


def forward(name: str, benches: list[PointBench], *, goal: float | None) -> Row:
    """Our forward solve beside the library's, all benches together."""
    ours = theirs = apart = 0.0
    for bench in benches:
        bent = solve(bench.beam, x_mm=bench.x_mm, height_mm=bench.height_mm)
        held = bench.x_mm[bent.touching], bench.height_mm[bent.touching]

        def by_library(bench: PointBench = bench, held: tuple[np.ndarray, np.ndarray] = held) -> list[float]:
            model, nodes = frame_model(bench.beam, *held)
            model.analyze_linear()
            return [model.nodes[f"{int(np.searchsorted(nodes, x))}"].RxnFY["Combo 1"] for x in held[0]]

        off = np.abs(bent.reactions_n[bent.touching] - by_library()).max()
        apart = max(apart, float(off) / bent.total_load_n)
        theirs += middle_s(by_library, 3)
        ours += middle_s(lambda b=bench: solve(b.beam, x_mm=b.x_mm, height_mm=b.height_mm), 40)
    if apart > APART_SHARE:
        raise SystemExit(f"the two solvers are {apart:.3f} of all loads apart: this compares nothing")
    took = f"{ours / len(benches) * 1e3:.2f} ms to {theirs / len(benches) * 1e3:.1f} ms: {theirs / ours:.0f} times"
    return Row(
        f"forward solve to PyNiteFEA, {name}",
        took,
        f"{goal:.0f} times" if goal else "",
        theirs >= goal * ours if goal else None,
    )


def within(what: str, seconds: float, goal_s: float) -> Row:
    """A row for a goal in seconds."""
    return Row(what, f"{seconds:.2f} s", f"under {goal_s:.0f} s", seconds < goal_s)


def stacks_s() -> float:
    """Seconds for the stacks of eight supports from fifteen kinds of things."""
    heights = (4, 12, 25, 38, 85, 160)
    more = [replace(THINGS[3 + i % 4], name=f"more {i}", height_mm=height) for i, height in enumerate(heights)]
    share = np.linspace(0, 1, 8)
    return middle_s(
        lambda: pile(
            [*THINGS, *more],
            x_per_length=share,
            height_mm=wanted_mm(share * 2300, 2300, 58, 118),
            table_mm=0 * share,
            load_n=40 + 0 * share,
            wants_bar=[True, *[False] * 6, True],
            least_base_mm=100,
        ),
        3,
    )


def main() -> None:
    """Print the table."""
    slugs = builder_slugs(SITE_DATA)
    demos = {slug: demo_bench(slug) for slug in slugs}
    print(forward("the demo builders' benches", [bench for bench, *_ in demos.values()], goal=TIMES_FASTER))
    print(forward("30 random benches", random_benches(30), goal=None))
    for slug, (_, taken, cured) in demos.items():
        print(within(f"plan and stacks, {slug}", statistics.median(taken), LAY_S))
        if cured:
            print(f"and what would cure it, each change tried on a whole bench: {statistics.median(cured):.2f} s")
    print(within("stacks alone, 8 supports, 15 kinds", stacks_s(), STACKS_S))
    for row in (*tuning_rows(SITE_DATA), *page_rows(SITE_DATA, slugs[0])):
        print(row, flush=True)


if __name__ == "__main__":
    main()
