"""One invented bench whose data the what-if tests share: a clamped, weighted board on four flat tops."""

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from generator.bench.beam import Beam, PointLoad
from generator.bench.tops import OnTops, Top, rest_on, top_at
from generator.bench.what_if import what_if
from generator.quantities import GRAVITY_M_S2, Floats, fixed

LENGTH, LOW_POINT = 2300.0, 1035.0
RIBS = np.arange(205.0, 2200.0, 210.0)
PLACES = (0.0, 625.0, 1465.0, 2300.0)
WIDTHS = (70.0, 178.0, 150.0, 70.0)
KINDS = (("sandbag", 2.5, 8), ("disc", 1.25, 4))
PLACED = ((0, 625.0, 1), (1, 1465.0, 2), (0, 1885.0, 2))
SHIMS = (("hardboard", 3.0, 6), ("tile", 2.0, 6), ("grey card", 1.0, 8), ("thin card", 0.5, 8))
LINE = (200.0, 4.0)


def wanted_mm(x_mm: object) -> Floats:
    """Power curves of 2.4 either side of the low point, tail 50 and nose 105 mm."""
    x = np.asarray(x_mm, dtype=np.float64)
    away = np.where(x < LOW_POINT, (LOW_POINT - x) / LOW_POINT, (x - LOW_POINT) / (LENGTH - LOW_POINT))
    return np.where(x < LOW_POINT, 50.0, 105.0) * np.abs(away) ** 2.4


def line_mm(x_mm: object) -> Floats:
    return np.asarray(LINE[0] + LINE[1] * np.asarray(x_mm, dtype=np.float64) / LENGTH)


def clamped(stiffness: float = 1.0, cut: float = 0.4) -> Beam:
    """A board of 4.2 kg with two clamps of 0.5 kg at each rib, weights on, its frame cut to a share of the rocker.

    Pieces of uneven length, stiffness that jumps, spread load and free curvature that run sloping in each piece.
    """
    breaks = np.array(
        [0, 55, 150, 260, 400, 560, 700, 880, 1060, 1240, 1400, 1580, 1750, 1900, 2040, 2160, 2240, LENGTH]
    )
    fullness = 0.2 + 0.8 * np.sin(np.pi * breaks / LENGTH) ** 0.7
    inside = np.clip(breaks, 2, LENGTH - 2)
    free = cut * (wanted_mm(inside - 1) - 2 * wanted_mm(inside) + wanted_mm(inside + 1))
    load = 42 / LENGTH * fullness / 0.75
    loose = stiffness * 3e8 * (fullness[1:] + fullness[:-1]) / 2
    clamps = [PointLoad(float(x), GRAVITY_M_S2) for x in RIBS]
    weights = [PointLoad(x, n * KINDS[k][1] * GRAVITY_M_S2) for k, x, n in PLACED]
    return Beam(LENGTH, breaks, loose, load[:-1], load[1:], free[:-1], free[1:], (*clamps, *weights))


def glued(beam: Beam) -> Floats:
    """Three to five times as stiff once glued."""
    return fixed(beam.stiffness_n_mm2 * np.linspace(3, 5, beam.stiffness_n_mm2.size))


def tops(over_mm: Sequence[float] = (0.0, 1.0, -1.0, 0.0)) -> list[Top]:
    """Tops that stand on the wanted curve, or so much over it."""
    heights = wanted_mm(PLACES) + line_mm(PLACES) + np.asarray(over_mm)
    return [
        top_at(edge_mm=x, width_mm=w, height_mm=float(h), low_point_mm=LOW_POINT)
        for x, w, h in zip(PLACES, WIDTHS, heights, strict=True)
    ]


def data_of(beam: Beam | None = None, on: Sequence[Top] | None = None) -> dict[str, Any]:
    """The bench's data, through JSON and back."""
    beam = beam or clamped()
    made = what_if(
        beam=beam,
        glued_n_mm2=glued(beam),
        tops=on or tops(),
        weight_kinds=KINDS,
        placed=PLACED,
        weight_places_mm=RIBS,
        wanted_mm=wanted_mm,
        line=LINE,
        shims=SHIMS,
        low_point_mm=LOW_POINT,
    )
    return dict(json.loads(json.dumps(made)))


def solved_again(beam: Beam, on: Sequence[Top], shims_mm: Sequence[float], weights_n: Sequence[float]) -> OnTops:
    """The full solve of the same change."""
    moved = [replace(top, height_mm=top.height_mm + shim) for top, shim in zip(on, shims_mm, strict=True)]
    more = [PointLoad(float(x), float(n)) for x, n in zip(RIBS, weights_n, strict=True) if n]
    return rest_on(beam.with_point_loads(more), moved)
