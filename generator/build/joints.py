"""The glue joints between one panel and the frame: where they run and how long they are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from generator.board.body import Body

SLICES = 400


@dataclass(frozen=True, slots=True)
class Joints:
    """Lengths of the joints between the bottom panel and the frame, mm."""

    rim_mm: float
    spine_mm: float
    ribs_mm: float

    @property
    def bead_mm(self) -> float:
        """A bead in every corner: inside the rim, and on both sides of spine and ribs."""
        return self.rim_mm + 2 * (self.spine_mm + self.ribs_mm)

    @property
    def total_mm(self) -> float:
        return self.rim_mm + self.spine_mm + self.ribs_mm


def bottom_joints(body: Body) -> Joints:
    """Joints of the bottom panel: round the rim, along the spine, across every rib from rim to rim."""
    return Joints(
        rim_mm=body.frame_perimeter_mm,
        spine_mm=body.developed_length_mm,
        ribs_mm=sum(2 * rib.half_width_mm for rib in body.ribs),
    )


def slide_mm(body: Body) -> tuple[float, float]:
    """How far frame and panel slide along each other at the tail and nose tips when they are bent together.

    Added up from the low point outwards: half the panel's thickness times its curvature, and half the frame's depth
    times what is bent into it (its own curve was there before). For even depths and a straight frame that is the
    distance between their middles times the slope: 33 mm × 0.15 = 5 mm.
    Source: plane sections of two layers that don't hold each other (first principles).
    """
    x = np.linspace(0.0, body.length_mm, SLICES + 1)
    bent = body.rocker.curvature_per_mm(x)
    slip = body.panel_mm / 2 * bent + body.spine_depth_mm(x) / 2 * (bent - body.frame_bottom.curvature_per_mm(x))
    front = x >= body.rises.low_point_mm
    tail, nose = (abs(float(np.trapezoid(slip[side], x[side]))) for side in (~front, front))
    return tail, nose


def drawn_in_mm(body: Body) -> float:
    """How much shorter the bent board is from tip to tip than its frame was cut; 0 for one that was cut to a curve.

    A frame that is cut straight is as long along its curve as it was before.
    """
    if body.frame_bottom_fit is not None:
        return 0.0
    return body.developed_length_mm - body.length_mm
