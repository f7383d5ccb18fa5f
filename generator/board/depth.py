"""How deep the board is along its centre line: finished, frame, deck crown, edge strip."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.interpolate import PchipInterpolator

from generator.board.outline import Outline
from generator.inputs.board import Board
from generator.quantities import Floats, fixed

TIP_SHARE = 0.5  # past the last station the thickness goes on falling, to no less than this share of it
LEAST_FRAME_MM = 6.0  # of depth: blocks at the tips


@dataclass(frozen=True, slots=True, eq=False)
class Depth:
    """Depths along the centre line; all methods take places in mm and give mm in the same shape.

    Between stations a curve that keeps their rises and falls (PCHIP), so nothing is thicker than the thickest station.
    Before the first and after the last one, thickness runs on in a straight line, to half of that station's at least,
    and the deck keeps its station's crown radius, so that its crown shrinks with the square of the width.
    """

    of_frame: bool
    length_mm: float
    panel_cut_for_mm: float
    panel_mm: float
    strip_middle_mm: float
    strip_tips_mm: float
    finished_outline: Outline
    stations_mm: Floats
    _thickness: PchipInterpolator
    _crown: PchipInterpolator

    def frame_mm(self, x_mm: ArrayLike) -> Floats:
        """Depth of the frame: of spine and ribs on the centre line."""
        given = self._given(x_mm)
        return np.asarray(np.maximum(given if self.of_frame else given - 2 * self.panel_cut_for_mm, LEAST_FRAME_MM))

    def finished_mm(self, x_mm: ArrayLike) -> Floats:
        """Thickness of the finished board: the frame and both panels, as thick as they are."""
        return np.asarray(self.frame_mm(x_mm) + 2 * self.panel_mm)

    def crown_mm(self, x_mm: ArrayLike) -> Floats:
        """How much lower the deck lies at the finished board's rim than on the centre line."""
        x = np.asarray(x_mm, dtype=np.float64)
        inside = np.clip(x, self.stations_mm[0], self.stations_mm[-1])
        there, here = self.finished_outline.half_width_mm(inside), self.finished_outline.half_width_mm(x)
        narrowing = np.divide(here, there, out=np.ones_like(here), where=there > here)
        return np.asarray(self._crown(inside) * narrowing**2)

    def drop_mm(self, x_mm: ArrayLike, y_mm: ArrayLike) -> Floats:
        """How much lower the deck lies `y_mm` from the centre line: a parabola that ends at the finished board's rim.

        Outside that rim, and beside a tip that has no width, it is as low as at the rim.

        Args:
            x_mm, y_mm: places along and across that go together (broadcast).
        """
        half, y = self.finished_outline.half_width_mm(x_mm), np.abs(np.asarray(y_mm, dtype=np.float64))
        beside = np.where(np.broadcast_to(y, np.broadcast(half, y).shape) > 0, 1.0, 0.0)
        out = np.divide(y, half, out=beside, where=half > 0)
        return np.asarray(self.crown_mm(x_mm) * np.minimum(out, 1.0) ** 2)

    def strip_mm(self, x_mm: ArrayLike) -> Floats:
        """Height of the edge strip: its full height at mid length, falling as a parabola to its height at the tips."""
        share = np.clip(np.abs(2 * np.asarray(x_mm, dtype=np.float64) / self.length_mm - 1), 0.0, 1.0)
        return np.asarray(self.strip_middle_mm + (self.strip_tips_mm - self.strip_middle_mm) * share**2)

    def _given(self, x_mm: ArrayLike) -> Floats:
        """Thickness of what the maker gave."""
        x = np.asarray(x_mm, dtype=np.float64)
        inside = np.clip(x, self.stations_mm[0], self.stations_mm[-1])
        station, way = self._thickness(inside), x - inside
        slope = np.where(way == 0, 0.0, self._thickness(inside, 1))
        # Outward, thickness may only fall: a board is not thicker past its last station than at it.
        return np.asarray(np.maximum(station + np.minimum(slope * way, 0.0), TIP_SHARE * station))


def make_depth(board: Board, *, finished_outline: Outline, panel_mm: float) -> Depth:
    """Depths of one board; `panel_mm` is the panels' true thickness, the file's the one that the frame is cut for."""
    x = fixed([one.from_tail_mm for one in board.thickness])
    return Depth(
        of_frame=board.sizes_of == "frame",
        length_mm=board.length_mm,
        panel_cut_for_mm=board.panel.thickness_mm,
        panel_mm=panel_mm,
        strip_middle_mm=board.edge_strip.height_mm,
        strip_tips_mm=board.edge_strip.height_at_tips_mm,
        finished_outline=finished_outline,
        stations_mm=x,
        _thickness=PchipInterpolator(x, [one.thickness_mm for one in board.thickness]),
        _crown=PchipInterpolator(x, [one.crown_mm for one in board.thickness]),
    )
