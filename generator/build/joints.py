"""The glue joints between one panel and the frame: where they run and how long they are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from generator.board.body import Body


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

    The distance between their middles times the slope there, counted from the low point: 33 mm × 0.15 = 5 mm.
    Source: plane sections of two layers that don't hold each other (first principles).
    """
    tips = np.array([0.0, body.length_mm])
    between = (body.spine_depth_mm(tips) + body.panel_mm) / 2
    slide = np.abs(between * body.rocker.slope(tips))
    return float(slide[0]), float(slide[1])
