"""What the parts weigh, and how the weight lies along the board."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.board.depth import Depth
from generator.board.outline import Outline
from generator.board.trace import Trace
from generator.inputs.board import Board
from generator.inputs.builder import Measured
from generator.quantities import GRAVITY_M_S2, Floats, fixed

GRID = 801


@dataclass(frozen=True, slots=True)
class Rib:
    """One rib: where it stands, its depth at the centre line and at its ends, half its width, its mass as drawn."""

    number: int
    from_tail_mm: float
    depth_mm: float
    end_depth_mm: float
    half_width_mm: float
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Masses:
    """Masses of one panel and of the frame with its parts.

    `panel_weighed`, `frame_weighed`: the builder's scales replace the sums; a frame's parts are then scaled alike.
    """

    panel_kg: float
    spine_kg: float
    ribs_kg: float
    strips_kg: float
    frame_kg: float
    panel_weighed: bool
    frame_weighed: bool

    @property
    def loose_kg(self) -> float:
        """Frame and one panel: what lies on the bench besides clamps and weights."""
        return self.panel_kg + self.frame_kg


@dataclass(frozen=True, slots=True, eq=False)
class Load:
    """Weight of frame and one panel along the board: `up_to_n` counts it from the tail end to each `grid_mm`."""

    grid_mm: Floats
    up_to_n: Floats

    def per_mm(self, breaks_mm: ArrayLike) -> Floats:
        """N/mm at each break; straight lines between them hold the whole weight to rounding.

        Args:
            breaks_mm: (n,) increasing, from 0 to the board's length.
        """
        breaks = np.asarray(breaks_mm, dtype=np.float64)
        cells = np.concatenate((breaks[:1], (breaks[:-1] + breaks[1:]) / 2, breaks[-1:]))
        counted = np.interp(cells, self.grid_mm, self.up_to_n)
        counted[0] = 0.0  # the panel's overhang at the tail tip belongs to the first cell
        return np.asarray(np.diff(counted) / np.diff(cells))

    @property
    def total_n(self) -> float:
        """The whole weight."""
        return float(self.up_to_n[-1])

    @property
    def centre_mm(self) -> float:
        """Where the weight's resultant lies."""
        return float(self.grid_mm[-1] - np.trapezoid(self.up_to_n, self.grid_mm) / self.up_to_n[-1])


def make_ribs(board: Board, *, depth: Depth, frame: Outline) -> tuple[Rib, ...]:
    """All ribs from the tail: flat below, crowned above, as wide as the frame, less the slot for the spine."""
    x = np.array(board.ribs.from_tail_mm)
    deep, half = depth.frame_mm(x), frame.half_width_mm(x)
    drop = np.minimum(depth.drop_mm(x, half), deep)
    slot = (1 - board.slots.share_of_depth) * deep * board.spine.thickness_mm
    area = np.maximum(2 * half * (deep - drop / 3) - slot, 0.0)
    mass = area * board.ribs.thickness_mm * board.ribs.density_kg_m3 * 1e-9
    rows = zip(x, deep, deep - drop, half, mass, strict=True)
    return tuple(Rib(number, *(float(value) for value in row)) for number, row in enumerate(rows, 1))


def weigh(
    board: Board,
    *,
    depth: Depth,
    frame: Outline,
    trace: Trace,
    ribs: tuple[Rib, ...],
    panel_mm: float,
    measured: Measured | None,
) -> tuple[Masses, Load, Load]:
    """Masses of the parts, the weight of frame and one panel along the board, and that of one panel alone.

    The panel counts as cut to its traced line, lying flat; what overhangs a tip weighs on the tip. Strips run along
    both sides, not across a squared end. Each rib's weight is spread, rising and falling, to its neighbours.
    """
    length = board.length_mm
    x = np.unique(np.concatenate((np.linspace(0.0, length, GRID), frame.x_mm)))
    panel = _panel_up_to(x, trace) * panel_mm * board.panel.density_kg_m3 * 1e-9
    spine = _sum_up(x, depth.frame_mm(x)) * board.spine.thickness_mm * board.spine.density_kg_m3 * 1e-9
    cut = sum(rib.depth_mm for rib in ribs) * board.slots.share_of_depth * board.slots.width_mm
    spine *= 1 - cut * board.spine.thickness_mm * board.spine.density_kg_m3 * 1e-9 / spine[-1]
    strips = _strips_up_to(x, depth, frame) * board.edge_strip.thickness_mm * board.edge_strip.density_kg_m3 * 1e-9
    cross = _ribs_up_to(x, ribs, length)
    spine_kg, ribs_kg, strips_kg = (float(one[-1]) for one in (spine, cross, strips))
    panel_kg = measured.panel_mass_kg if measured is not None else None
    frame_kg = measured.frame_mass_kg if measured is not None else None
    summed_kg = spine_kg + ribs_kg + strips_kg
    scale = frame_kg / summed_kg if frame_kg is not None else 1.0
    masses = Masses(
        panel_kg=float(panel[-1]) if panel_kg is None else panel_kg,
        spine_kg=scale * spine_kg,
        ribs_kg=scale * ribs_kg,
        strips_kg=scale * strips_kg,
        frame_kg=scale * summed_kg,
        panel_weighed=panel_kg is not None,
        frame_weighed=frame_kg is not None,
    )
    one_panel = panel * masses.panel_kg / panel[-1]
    up_to = one_panel + scale * (spine + cross + strips)
    return masses, Load(fixed(x), fixed(up_to * GRAVITY_M_S2)), Load(fixed(x), fixed(one_panel * GRAVITY_M_S2))


def _sum_up(x: Floats, y: Floats) -> Floats:
    """Area under y from the first x to each x."""
    return np.concatenate(([0.0], np.cumsum(np.diff(x) * (y[:-1] + y[1:]) / 2)))


def _panel_up_to(x: Floats, trace: Trace) -> Floats:
    """Panel area, mm², from its tail end to each x; the overhang at the nose is in the last one."""
    tail, nose = trace.ends_mm
    before, after = np.linspace(tail, 0.0, 41), np.linspace(x[-1], nose, 41)
    areas = 2 * _sum_up(x, trace.half_width_mm(x)) + 2 * np.trapezoid(trace.half_width_mm(before), before)
    areas[-1] += 2 * np.trapezoid(trace.half_width_mm(after), after)
    return np.asarray(areas)


def _strips_up_to(x: Floats, depth: Depth, frame: Outline) -> Floats:
    """Side area of both edge strips, mm², up to each x: height times length along the rim."""
    along = np.concatenate(([0.0], np.cumsum(np.hypot(np.diff(x), np.diff(frame.half_width_mm(x))))))
    return 2 * _sum_up(along, depth.strip_mm(x))


def _ribs_up_to(x: Floats, ribs: tuple[Rib, ...], length_mm: float) -> Floats:
    """Mass of the ribs, kg, up to each x, each spread as a triangle between its neighbours (or the tips)."""
    total = np.zeros_like(x)
    places = [rib.from_tail_mm for rib in ribs]
    for rib, before, after in zip(ribs, [0.0, *places[:-1]], [*places[1:], length_mm], strict=True):
        rise, fall = max(rib.from_tail_mm - before, 1e-6), max(after - rib.from_tail_mm, 1e-6)
        peak = 2 / (rise + fall)
        up, down = np.clip((x - before) / rise, 0.0, 1.0), np.clip((x - rib.from_tail_mm) / fall, 0.0, 1.0)
        total += rib.mass_kg * peak * (rise * up**2 / 2 + fall * (down - down**2 / 2))
    return total
