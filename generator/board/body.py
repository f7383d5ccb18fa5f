"""Everything about one board's shape and stuff, made once and handed on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike

from generator.board.curve import FairCurve, Fit, fair_curve
from generator.board.depth import Depth, make_depth
from generator.board.mass import Load, Masses, Rib, make_ribs, weigh
from generator.board.outline import Outline, area_mm2, fair_outline, outline_polygon, perimeter_mm
from generator.board.rail import finished_round, frame_inside
from generator.board.rocker import HeightAt, Rises, rises
from generator.board.sag import Scale
from generator.board.shape import Shape, volume_litres
from generator.board.trace import Trace, make_trace
from generator.inputs.board import Board
from generator.inputs.builder import Measured
from generator.quantities import Floats


class Margin(Protocol):
    """How far the traced line lies outside the frame."""

    @property
    def sides_mm(self) -> float: ...
    @property
    def tips_mm(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Blank:
    """The glued-up panel before tracing, and the planks it takes.

    Length is the bottom's developed length along the wanted rocker with the tips' margin at both ends, width the traced
    line's. `spare_width_mm` and `spare_length_mm` are what whole planks leave over.
    """

    length_mm: float
    width_mm: float
    planks_across: int
    planks_along: int
    spare_width_mm: float
    spare_length_mm: float

    @property
    def planks(self) -> int:
        """Planks for one panel."""
        return self.planks_across * self.planks_along


@dataclass(frozen=True, slots=True)
class LineUpMark:
    """Cross where the spine's centre line meets a rib; `from_end_mm` along the bottom panel from its tail end."""

    number: int
    from_tail_mm: float
    from_end_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """One board. Lines are closed (n, 2) x, y in mm; curves have their lowest point at height 0.

    `rocker` is the fair curve nearest the wanted heights, `rocker_fit` says how near (misses in the order given).
    `frame_bottom` is the line that the frame's bottom was cut to; `frame_bottom_fit` is None if that is straight.
    `load` is the weight of frame and bottom panel, `panel_load` that of one panel. `frame_scale` and `panel_scale` say
    how much stiffer than given they were found to be; None before they are measured.
    """

    board: Board
    length_mm: float
    panel_mm: float
    finished: Outline
    frame: Outline
    finished_line: Floats
    frame_line: Floats
    margin: Margin
    trace: Trace
    depth: Depth
    rocker: FairCurve
    rocker_fit: Fit
    rises: Rises
    frame_bottom: FairCurve
    frame_bottom_fit: Fit | None
    ribs: tuple[Rib, ...]
    masses: Masses
    load: Load
    panel_load: Load
    volume_l: float
    blank: Blank
    marks: tuple[LineUpMark, ...]
    frame_scale: Scale | None = None
    panel_scale: Scale | None = None

    def spine_depth_mm(self, x_mm: ArrayLike) -> Floats:
        """Depth of the spine."""
        return self.depth.frame_mm(x_mm)

    def finished_thickness_mm(self, x_mm: ArrayLike) -> Floats:
        """Thickness of the finished board on its centre line."""
        return self.depth.finished_mm(x_mm)

    def crown_mm(self, x_mm: ArrayLike) -> Floats:
        """How much lower the deck lies at the rim."""
        return self.depth.crown_mm(x_mm)

    def inside_depth_mm(self, x_mm: ArrayLike, y_mm: ArrayLike) -> Floats:
        """Depth between the two panels: the frame's on the centre line, less what the deck falls away (broadcast)."""
        return np.asarray(np.maximum(self.spine_depth_mm(x_mm) - self.depth.drop_mm(x_mm, y_mm), 0.0))

    def strip_height_mm(self, x_mm: ArrayLike) -> Floats:
        """Height of the edge strip."""
        return self.depth.strip_mm(x_mm)

    def panel_half_width_mm(self, x_mm: ArrayLike) -> Floats:
        """Half width of the panel as traced."""
        return self.trace.half_width_mm(x_mm)

    @property
    def shape(self) -> Shape:
        """The outside of the finished board."""
        return Shape(self.depth, self.finished, self.board.rail_mm)

    @property
    def finished_area_mm2(self) -> float:
        """Area of the finished board seen from above."""
        return area_mm2(self.finished_line)

    @property
    def frame_area_mm2(self) -> float:
        """Area of the frame seen from above."""
        return area_mm2(self.frame_line)

    @property
    def finished_perimeter_mm(self) -> float:
        """Length of the finished outline."""
        return perimeter_mm(self.finished_line)

    @property
    def frame_perimeter_mm(self) -> float:
        """Length of the frame's outline."""
        return perimeter_mm(self.frame_line)

    @property
    def developed_length_mm(self) -> float:
        """Length of the wanted bottom along its curve, tip to tip."""
        return self.rocker.developed_length_mm(0.0, self.length_mm)


def make_body(
    board: Board, *, rocker: Sequence[HeightAt], measured: Measured | None = None, trace_margin: Margin | None = None
) -> Body:
    """The whole board from its file.

    `sizes_of` says what the maker's outline and thickness describe; frame and finished board have the same length, the
    blocks at nose and tail belonging to both.

    Args:
        rocker: Heights to bend to (`rocker.wanted_rocker`).
        measured: The builder's own panel thickness and masses replace the computed ones. The frame keeps the depth
            that it was cut to, so thicker panels make a thicker board.
        trace_margin: Used where the board does not say.

    Raises:
        ValueError: no trace margin, or the board's stations make no shape.
    """
    margin = board.trace_margin or trace_margin
    if margin is None:
        raise ValueError("neither the board nor trace_margin says how wide the trace margin is")
    length = board.length_mm
    panel_mm = (measured.panel_thickness_mm if measured else None) or board.panel.thickness_mm
    finished, frame = _outlines(board)
    finished_line, frame_line = outline_polygon(finished), outline_polygon(frame)
    trace = make_trace(frame_line, sides_mm=margin.sides_mm, tips_mm=margin.tips_mm)
    depth = make_depth(board, finished_outline=finished, panel_mm=panel_mm)
    ribs = make_ribs(board, depth=depth, frame=frame)
    masses, load, panel_load = weigh(
        board, depth=depth, frame=frame, trace=trace, ribs=ribs, panel_mm=panel_mm, measured=measured
    )
    fit = _fit(rocker, length)
    curve = fit.curve.from_low_point()
    bottom_fit = _frame_bottom(board)
    return Body(
        board=board,
        length_mm=length,
        panel_mm=panel_mm,
        finished=finished,
        frame=frame,
        finished_line=finished_line,
        frame_line=frame_line,
        margin=margin,
        trace=trace,
        depth=depth,
        rocker=curve,
        rocker_fit=fit,
        rises=rises(curve, length_mm=length),
        frame_bottom=bottom_fit.curve.from_low_point() if bottom_fit else FairCurve.straight(length),
        frame_bottom_fit=bottom_fit,
        ribs=ribs,
        masses=masses,
        load=load,
        panel_load=panel_load,
        volume_l=volume_litres(Shape(depth, finished, board.rail_mm)),
        blank=_blank(board, curve, trace=trace, tips_mm=margin.tips_mm),
        marks=_marks(ribs, curve, tips_mm=margin.tips_mm),
    )


def _outlines(board: Board) -> tuple[Outline, Outline]:
    """Finished and frame outlines."""
    given = fair_outline(board.half_widths, length_mm=board.length_mm, tail=board.tail, nose=board.nose)
    if board.sizes_of == "frame":
        return finished_round(given, rail_mm=board.rail_mm), given
    return given, frame_inside(given, rail_mm=board.rail_mm)


def _fit(heights: Sequence[HeightAt], length_mm: float) -> Fit:
    """The fair curve through heights."""
    return fair_curve([one.from_tail_mm for one in heights], [one.height_mm for one in heights], length_mm=length_mm)


def _frame_bottom(board: Board) -> Fit | None:
    """What the frame's bottom was cut to; the board file's own rocker counts, not the maker's rules for a builder."""
    if board.frame_bottom == "straight":
        return None
    return _fit(board.rocker if board.frame_bottom == "to the rocker" else board.frame_bottom, board.length_mm)


def _blank(board: Board, rocker: FairCurve, *, trace: Trace, tips_mm: float) -> Blank:
    """Size of the panel before tracing, and its planks."""
    length = rocker.developed_length_mm(0.0, board.length_mm) + 2 * tips_mm
    width = trace.widest_mm
    across, along = math.ceil(width / board.panel.plank_width_mm), math.ceil(length / board.panel.plank_length_mm)
    spare = across * board.panel.plank_width_mm - width, along * board.panel.plank_length_mm - length
    return Blank(length, width, across, along, *spare)


def _marks(ribs: tuple[Rib, ...], rocker: FairCurve, *, tips_mm: float) -> tuple[LineUpMark, ...]:
    """A line-up mark for every rib."""
    places = [rib.from_tail_mm for rib in ribs]
    from_end = [tips_mm + rocker.developed_length_mm(0.0, place) for place in places]
    return tuple(LineUpMark(rib.number, *at) for rib, *at in zip(ribs, places, from_end, strict=True))
