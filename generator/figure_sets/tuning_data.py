"""What a page needs besides the bench's own data to tune it: names, limits, places to measure, and stacks."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import numpy as np

from generator.figure_sets.bench_data import NAME as BENCH
from generator.figure_sets.bench_data import shims_held, shims_of
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook

NAME = "bench-tuning"
SCHEMA = "shedbook-tuning-1"
MOST_MM = 12.0
"""Change at one support that the page offers: further off it is another bench."""
PLAIN_STEP_MM = {"metric": 1.0, "inches": 25.4 / 16}
"""Step where there are no shims in the house."""


def add_tuning(book: FigureBook, facts: Facts) -> None:
    """The block for tuning on the rocker page, if the rocker can be reached; after `add_bench_data` and `add_curve`.

    - plan: changes with the bench that the data were written for; what was tried on another one means nothing here.
    - units; step_mm: the thinnest shim in the house; most_mm: how far a support may be moved.
    - limits: middle_mm, hollow_mm and straight_edge_mm, as the page's checks say them.
    - supports: name, held (how many of each shim its stack holds, in the order of the bench's shims), takes_n
      (0 where nothing could be piled).
    - places: key, name, x_mm and aim_mm (height above the level line) of both tips and every rib, tail first. The
      key is what a reading typed there is kept under.
    - ribs: number of the rib at each place for weights.
    - panel_mm, depth_mm: thickness of the bottom panel, and depth of the frame at the bench's stations.
    """
    if not facts.plan.reached:
        return
    bench = book.data[BENCH]
    x = np.array(bench["nodes"]["x_mm"])
    shims = [thing.height_mm for thing in shims_of(facts)]
    book.data[NAME] = {
        "schema": SCHEMA,
        "plan": _mark(bench),
        "units": facts.units,
        "step_mm": min(shims, default=PLAIN_STEP_MM[facts.units]),
        "most_mm": MOST_MM,
        "limits": {
            "middle_mm": book.values["bench.pass_middle"].value,
            "hollow_mm": book.values["bench.pass_hollow"].value,
            "straight_edge_mm": book.values["bench.straight_edge"].value,
        },
        "supports": [
            {"name": support.name, "held": held, "takes_n": round(support.takes_n, 1)}
            for support, held in zip(facts.plan.supports, shims_held(facts), strict=True)
        ],
        "places": _places(book, facts),
        "ribs": [rib.number for rib in facts.body.ribs],
        "panel_mm": round(book.values["panel.thickness"].value, 2),
        "depth_mm": [round(float(mm), 1) for mm in facts.body.spine_depth_mm(x[bench["stations"]])],
    }


def _places(book: FigureBook, facts: Facts) -> list[dict[str, Any]]:
    """Both tips and every rib, tail first, with the same heights to aim for as the page lists."""
    ribs = [
        (f"rib-{rib.number}", f"rib {rib.number}", rib.from_tail_mm, f"rocker.rib.{rib.number}")
        for rib in facts.body.ribs
    ]
    tail = ("tail", "the tail tip", 0.0, "rocker.tip.tail")
    nose = ("nose", "the nose tip", facts.body.length_mm, "rocker.tip.nose")
    return [
        {"key": key, "name": name, "x_mm": x, "aim_mm": round(book.values[f"{figure}.target"].value, 3)}
        for key, name, x, figure in (tail, *ribs, nose)
    ]


def _mark(bench: Any) -> str:
    """A short mark of a bench: its board, supports and weights."""
    parts = {name: bench[name] for name in ("length_mm", "pieces", "supports", "load", "weights")}
    return hashlib.sha256(json.dumps(parts, sort_keys=True).encode()).hexdigest()[:8]
