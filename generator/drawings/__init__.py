"""Drawings: figures in, SVG text out. `DRAWINGS` names every picture that a page may ask for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from generator.drawings.afloat import afloat
from generator.drawings.air_hole import air_hole
from generator.drawings.bead_size import bead_size
from generator.drawings.bench import bench
from generator.drawings.bench_support import bench_support
from generator.drawings.block_cut import block_cut, vent_block
from generator.drawings.bridges import bridges
from generator.drawings.clamps import clamps
from generator.drawings.cupping import cupping
from generator.drawings.curve_chart import curve_chart
from generator.drawings.cut_order import cut_order
from generator.drawings.deck_rolled import deck_rolled
from generator.drawings.diagonals import diagonals
from generator.drawings.fin_plan import fin_plan
from generator.drawings.foam_section import foam_section
from generator.drawings.frame import frame
from generator.drawings.glue_bead import glue_bead
from generator.drawings.hollow import hollow
from generator.drawings.inset_chart import inset_chart
from generator.drawings.inside_plan import inside_plan
from generator.drawings.jigsaw import jigsaw
from generator.drawings.keying import keying
from generator.drawings.load_chart import load_chart
from generator.drawings.mass_bars import mass_bars
from generator.drawings.parts import parts
from generator.drawings.plan import plan
from generator.drawings.plan_strip import plan_strip
from generator.drawings.planks import planks
from generator.drawings.plug_depth import plug_depth
from generator.drawings.rags import rags
from generator.drawings.rail_section import rail_section
from generator.drawings.raking_light import raking_light
from generator.drawings.rim_bevels import rim_bevels
from generator.drawings.rocker_choice import rocker_choice
from generator.drawings.round_lines import round_lines
from generator.drawings.sealing_air import sealing_air
from generator.drawings.side import side
from generator.drawings.top_clamp import top_clamp
from generator.drawings.trace import trace
from generator.drawings.vent_when import vent_when
from generator.drawings.weighed_flat import weighed_flat
from generator.drawings.winding import winding
from generator.figures import Figures

DRAWINGS: Mapping[str, Callable[[Figures], str]] = MappingProxyType(
    {
        "parts": parts,
        "plan": plan,
        "mass_bars": mass_bars,
        "afloat": afloat,
        "plan_strip": plan_strip,
        "side": side,
        "rocker_choice": rocker_choice,
        "planks": planks,
        "weighed_flat": weighed_flat,
        "cupping": cupping,
        "frame": frame,
        "diagonals": diagonals,
        "keying": keying,
        "trace": trace,
        "jigsaw": jigsaw,
        "cut_order": cut_order,
        "bench": bench,
        "bench_support": bench_support,
        "inset_chart": inset_chart,
        "hollow": hollow,
        "winding": winding,
        "clamps": clamps,
        "bridges": bridges,
        "glue_bead": glue_bead,
        "bead_size": bead_size,
        "sealing_air": sealing_air,
        "rags": rags,
        "curve_chart": curve_chart,
        "load_chart": load_chart,
        "inside_plan": inside_plan,
        "air_hole": air_hole,
        "block_cut": block_cut,
        "vent_block": vent_block,
        "foam_section": foam_section,
        "vent_when": vent_when,
        "deck_rolled": deck_rolled,
        "fin_plan": fin_plan,
        "plug_depth": plug_depth,
        "rail_section": rail_section,
        "raking_light": raking_light,
        "rim_bevels": rim_bevels,
        "round_lines": round_lines,
        "top_clamp": top_clamp,
    }
)

__all__ = ["DRAWINGS"]
