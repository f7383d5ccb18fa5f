"""The rail: what stands between the frame's outline and the finished board's, seen from above."""

from __future__ import annotations

import numpy as np

from generator.board.outline import Outline, along
from generator.quantities import Floats

RUN_OUT_MM = 400.0
LEAST_FRAME_SHARE = 0.2


def rail_build_mm(outline: Outline, *, rail_mm: float) -> Floats:
    """Width of the rail at the outline's samples.

    The frame and the finished board have one length here: the blocks at nose and tail belong to both. So the rail is
    `rail_mm` wide along the sides, and over the last `RUN_OUT_MM` before a round or pointed tip it runs out into the
    block: its width is rail · (1 − (1 − s)³), s from 0 at the tip to 1, in the outline's own parameter, so that a round
    tip stays round. 300 mm in it has 98 % of its width or more. At a squared tip it keeps its width to the end.
    """
    length, tail, nose = outline.length_mm, outline.tail, outline.nose
    spans = float(along(RUN_OUT_MM / length, tail, nose)), 1 - float(along(1 - RUN_OUT_MM / length, tail, nose))
    built = np.full(outline.u.shape, rail_mm)
    for tip, way, span in ((tail, outline.u, spans[0]), (nose, 1 - outline.u, spans[1])):
        if tip != "square":
            built = built * (1 - (1 - np.clip(way / span, 0.0, 1.0)) ** 3)
    return built


def frame_inside(finished: Outline, *, rail_mm: float) -> Outline:
    """The frame's outline inside a finished board's; a board hardly wider than its rails keeps a fifth as frame."""
    inside = finished.y_mm - rail_build_mm(finished, rail_mm=rail_mm)
    return finished.with_half_widths(np.maximum(inside, LEAST_FRAME_SHARE * finished.y_mm))


def finished_round(frame: Outline, *, rail_mm: float) -> Outline:
    """The finished board's outline round a frame's."""
    return frame.with_half_widths(frame.y_mm + rail_build_mm(frame, rail_mm=rail_mm))
