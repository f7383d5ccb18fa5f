"""How long the bench's sums take: `python tests/speed/bench_speed.py` prints a table. Not a test: machines differ.

Each figure is the middle of several runs on one core. The forward solve sets up its columns anew every time; the
yardstick beside it is a plain finite-element solve of the same benches (Hermite beams, 40 mm, dense, contact by
adding and removing supports one at a time), so that the ratio means something on any machine.
"""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).resolve().parents[2]), str(Path(__file__).resolve().parents[1] / "bench")]

from bench_boards import CLAMPS, TABLE, THINGS, WEIGHTS, board  # noqa: E402

from generator.bench.assembly import clamp_loads, place_clamps  # noqa: E402
from generator.bench.beam import Beam  # noqa: E402
from generator.bench.contact import solve  # noqa: E402
from generator.bench.heights import plan_heights  # noqa: E402
from generator.bench.layout import lay  # noqa: E402
from generator.bench.stacks import pile  # noqa: E402

PLACES = np.array([0.0, 835.0, 1465.0, 2300.0])


def middle_ms(run: Callable[[], object], times: int) -> float:
    """Middle time of `times` runs, ms, after one that does not count."""
    run()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append((time.perf_counter() - start) * 1e3)
    return statistics.median(taken)


def by_finite_elements(beam: Beam, x: np.ndarray, height: np.ndarray) -> np.ndarray:
    """Reactions by Hermite beam elements of at most 40 mm."""
    nodes = np.unique(
        np.concatenate([beam.breaks_mm, x, [p.x_mm for p in beam.point_loads], np.arange(0, beam.length_mm, 40.0)])
    )
    stiff, load = np.zeros((2 * nodes.size,) * 2), np.zeros(2 * nodes.size)
    for i, size in enumerate(np.diff(nodes)):
        piece = int(np.searchsorted(beam.breaks_mm, nodes[i], side="right")) - 1
        ei, w = beam.stiffness_n_mm2[piece], beam.load_start_n_mm[piece]
        k0, at = beam.free_curvature_start_per_mm[piece], slice(2 * i, 2 * i + 4)
        stiff[at, at] += (
            ei
            / size**3
            * np.array(
                [
                    [12, 6 * size, -12, 6 * size],
                    [6 * size, 4 * size**2, -6 * size, 2 * size**2],
                    [-12, -6 * size, 12, -6 * size],
                    [6 * size, 2 * size**2, -6 * size, 4 * size**2],
                ]
            )
        )
        load[at] -= w * size / 2 * np.array([1, size / 6, 1, -size / 6])
        load[at] += ei * k0 * np.array([0, -1, 0, 1])
    for p in beam.point_loads:
        load[2 * int(np.searchsorted(nodes, p.x_mm))] -= p.load_n
    held = 2 * np.searchsorted(nodes, x)
    on = np.ones(x.size, dtype=bool)
    for _ in range(3 * x.size):
        rows = held[on]
        free = np.setdiff1d(np.arange(load.size), rows)
        shape = np.zeros(load.size)
        shape[rows] = height[on]
        shape[free] = np.linalg.solve(stiff[np.ix_(free, free)], load[free] - stiff[np.ix_(free, rows)] @ shape[rows])
        push = (stiff @ shape - load)[held] * on
        if push.min() >= -1e-6 and np.all(shape[held] >= height - 1e-6):
            return push
        on = on & (push >= 0) if push.min() < -1e-6 else on | (shape[held] < height - 1e-6)
    raise ArithmeticError("the yardstick did not settle")


def main() -> None:
    on, stiff_on = board(cut_to_rocker=0.97), board()
    beam, plain = (b.value.beam(clamp_loads(place_clamps(b, CLAMPS))) for b in (on, stiff_on))
    station = np.linspace(0, on.length_mm, 61)
    wanted, heights = on.wanted_mm(station), on.wanted_mm(PLACES)
    ours = middle_ms(lambda: solve(beam, x_mm=PLACES, height_mm=heights), 100)
    yardstick = middle_ms(lambda: by_finite_elements(beam, PLACES, heights), 5)
    eight = np.linspace(0, 1, 8)
    rows = [
        ("forward solve, columns set up anew", ours),
        ("the same by finite elements", yardstick),
        (
            "heights, frame cut to the rocker",
            middle_ms(lambda: plan_heights(beam, place_mm=on.rib_mm, station_mm=station, wanted_mm=wanted), 3),
        ),
        (
            "heights and weights, straight frame",
            middle_ms(
                lambda: plan_heights(plain, place_mm=on.rib_mm, station_mm=station, wanted_mm=wanted, loose=WEIGHTS), 3
            ),
        ),
        (
            "stacks, 8 supports",
            middle_ms(
                lambda: pile(
                    THINGS,
                    x_per_length=eight,
                    height_mm=on.wanted_mm(eight * on.length_mm),
                    table_mm=0 * eight,
                    load_n=40 + 0 * eight,
                    tip=[True, *[False] * 6, True],
                    least_base_mm=100,
                ),
                3,
            ),
        ),
        (
            "whole bench, frame cut to the rocker",
            middle_ms(lambda: lay(on, pieces=THINGS, clamps=CLAMPS, loose=WEIGHTS, table=TABLE), 3),
        ),
        (
            "whole bench, straight frame",
            middle_ms(lambda: lay(stiff_on, pieces=THINGS, clamps=CLAMPS, loose=WEIGHTS, table=TABLE), 3),
        ),
    ]
    for what, ms in rows:
        print(f"{what:<40}{ms:>10.2f} ms{ms / ours:>10.1f} × the forward solve")
    print(f"the finite elements take {yardstick / ours:.0f} times as long as the forward solve")


if __name__ == "__main__":
    main()
