"""How stiff a panel is along the board while it is held bent over the crown."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from generator.board.body import Body
from generator.quantities import Floats, fixed

CROWN_WORKS = (0.0, 0.5, 1.0)
"""Share of the crown's stiffening that works before the glue is hard: none, a half, all. Assumed: a panel that is held
down at rim, spine and ribs keeps the shape of the crown there and may flatten in between."""


def crowned_panel_n_mm2(
    x_mm: ArrayLike, *, panel_mpa: float, panel_mm: float, width_mm: ArrayLike, crown_mm: ArrayLike, works: float
) -> Floats:
    """E·I along the board of one panel bent across over a crown, about its own middle.

    Flat, b·t³/12. Over a parabola that falls by `crown_mm` from the middle to both edges, heights differ from their
    mean by a variance of 4/45 · crown², so that I = b·t³/12 + works · b·t · 4/45 · crown² (thin, shallow, free to
    slide on what it lies on).

    Args:
        x_mm: (n,) places; sets the shape of the result.
        panel_mpa, panel_mm: stiffness along the grain and thickness.
        width_mm, crown_mm: (n,) or one.
        works: 0 to 1.

    Raises:
        ValueError: `works` is outside 0 to 1.

    Source: second moment of a thin curved strip (first principles; from memory).
    """
    if not 0 <= works <= 1:
        raise ValueError(f"works must be from 0 to 1, not {works}")
    x, width = np.asarray(x_mm, dtype=np.float64), np.asarray(width_mm, dtype=np.float64)
    spread = 4 / 45 * np.asarray(crown_mm, dtype=np.float64) ** 2
    return fixed(np.broadcast_to(panel_mpa * width * panel_mm * (panel_mm**2 / 12 + works * spread), x.shape))


def top_panel_n_mm2(body: Body, x_mm: ArrayLike, *, works: float) -> Floats:
    """E·I of this board's top panel, at its given or measured stiffness, at places along the board."""
    x = np.asarray(x_mm, dtype=np.float64)
    scale = 1.0 if body.panel_scale is None else body.panel_scale.value
    return crowned_panel_n_mm2(
        x,
        panel_mpa=scale * body.board.panel.stiffness_mpa.value,
        panel_mm=body.panel_mm,
        width_mm=2 * body.panel_half_width_mm(x),
        crown_mm=body.depth.drop_mm(x, body.frame.half_width_mm(x)),
        works=works,
    )
