"""Benches solved elsewhere: data/bench_cases.json.

Each case there was solved by three programs of other kinds (a force method with a search over all contact sets, Hermite
finite elements with a search of their own, and a general frame program held at the found contacts), some by a closed
form too. They agree to 2e-8 mm. Tolerances are the file's own: it prints 4 decimals of a millimetre.
"""

import itertools
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import solve

CASES = json.loads((Path(__file__).parent / "data" / "bench_cases.json").read_text(encoding="utf-8"))["cases"]


def beam_of(case: dict[str, Any]) -> Beam:
    """The case's beam, its pieces cut wherever one of its lists has a break."""
    given = case["input"]
    lists = [given["EI_Nmm2"], given["distributed_load_N_per_mm"], given["stress_free_curvature_per_mm"]]
    ends_of = {float(p[k]) for part in lists for p in part for k in ("x0_mm", "x1_mm")}
    breaks = sorted(ends_of | {0.0, float(given["L_mm"])})

    def at(part: list[dict[str, float]], x: float, side: float, names: tuple[str, str]) -> float:
        for p in part:
            if p["x0_mm"] <= side <= p["x1_mm"]:
                share = (x - p["x0_mm"]) / (p["x1_mm"] - p["x0_mm"])
                return p[names[0]] + share * (p[names[1]] - p[names[0]])
        return 0.0

    spans = list(itertools.pairwise(breaks))
    ends = [
        [at(part, x, (a + b) / 2, names) for a, b in spans for x in (a, b)]
        for part, names in zip(lists, (("EI", "EI"), ("w0", "w1"), ("k0", "k1")), strict=True)
    ]
    stiffness, load, free = (np.reshape(e, (-1, 2)) for e in ends)
    points = tuple(PointLoad(p["x_mm"], p["P_N"]) for p in given["point_loads"])
    return Beam(
        given["L_mm"], np.array(breaks), stiffness[:, 0], load[:, 0], load[:, 1], free[:, 0], free[:, 1], points
    )


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["name"])
def test_the_bench_lies_as_it_was_solved_elsewhere(case):
    given, expected = case["input"], case["expected"]
    bent = solve(
        beam_of(case),
        x_mm=[s["x_mm"] for s in given["supports"]],
        height_mm=[s["height_mm"] for s in given["supports"]],
    )
    assert bent.status == expected["status"].replace("_", " ")
    assert bent.total_load_n == pytest.approx(expected["total_load_N"], abs=1e-4)
    if bent.status == "tips over":
        assert bent.resultant_x_mm == pytest.approx(expected["resultant_x_mm"], abs=1e-3)
        return
    stations = given["stations_mm"]
    assert bent.heights_mm(stations) == pytest.approx(expected["heights_mm"], abs=0.02)
    assert bent.curvature_per_mm(stations) == pytest.approx(expected["curvature_per_mm"], rel=5e-3, abs=5e-8)
    assert bent.reactions_n == pytest.approx(expected["reactions_N"], rel=2e-3, abs=0.05)
    assert bent.gaps_mm == pytest.approx(expected["gaps_mm"], abs=0.02)
    assert [i for i, on in enumerate(bent.touching) if not on] == expected["open_supports"]
    least, place = bent.least_curvature
    assert least == pytest.approx(expected["min_curvature_per_mm"], rel=5e-3, abs=5e-8)
    if expected["min_curvature_at_mm"] is not None:
        assert place == pytest.approx(expected["min_curvature_at_mm"], abs=0.5)
