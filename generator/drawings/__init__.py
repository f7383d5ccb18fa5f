"""Drawings: figures in, SVG text out. `DRAWINGS` names every picture that a page may ask for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from generator.drawings.bench import bench
from generator.drawings.bench_support import bench_support
from generator.drawings.clamps import clamps
from generator.drawings.curve_chart import curve_chart
from generator.drawings.frame import frame
from generator.drawings.glue_bead import glue_bead
from generator.drawings.hollow import hollow
from generator.drawings.inset_chart import inset_chart
from generator.drawings.jigsaw import jigsaw
from generator.drawings.keying import keying
from generator.drawings.load_chart import load_chart
from generator.drawings.plan import plan
from generator.drawings.planks import planks
from generator.drawings.rocker_choice import rocker_choice
from generator.drawings.side import side
from generator.drawings.trace import trace
from generator.drawings.winding import winding
from generator.figures import Figures

DRAWINGS: Mapping[str, Callable[[Figures], str]] = MappingProxyType(
    {
        "plan": plan,
        "side": side,
        "rocker_choice": rocker_choice,
        "planks": planks,
        "frame": frame,
        "keying": keying,
        "trace": trace,
        "jigsaw": jigsaw,
        "bench": bench,
        "bench_support": bench_support,
        "inset_chart": inset_chart,
        "hollow": hollow,
        "winding": winding,
        "clamps": clamps,
        "glue_bead": glue_bead,
        "curve_chart": curve_chart,
        "load_chart": load_chart,
    }
)

__all__ = ["DRAWINGS"]
