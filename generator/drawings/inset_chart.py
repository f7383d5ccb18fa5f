"""What is lost with the end supports in from the tips, over the whole length of the bottom."""

from __future__ import annotations

import numpy as np

from generator.drawings.chart import Key, chart_svg, heading, keys, length_scale, new_canvas, place
from generator.drawings.dom import FAINT, INK, SEA, WARN, WOOD_DEEP
from generator.drawings.pen import EDGE
from generator.drawings.read import shown
from generator.figures import Figures

_HEIGHT = 206.0
_LEFT, _RIGHT = 46.0, 334.0
_TOP, _BOTTOM = 62.0, 162.0
_LOOKS = ((SEA, 1.6), (WOOD_DEEP, 2.2), (WARN, 2.2))


def inset_chart(figures: Figures) -> str:
    """How far the bottom lies below where it should, one line for each place of the end supports."""
    scale, unit = length_scale(str(figures.said["units"]))
    clamped = figures.curves["bench.clamped"]
    x, right = np.asarray(clamped.x_mm), np.asarray(clamped.y)
    canvas = new_canvas(_HEIGHT)
    axes = place(canvas, left=_LEFT, top=_TOP, right=_RIGHT, bottom=_BOTTOM, height=_HEIGHT)
    axes.plot([0, x[-1] * scale], [0, 0], color=INK, linewidth=0.8)
    entries, told, ends = [], [], [-2 * scale, 2 * scale]
    for row, (colour, weight) in zip(figures.rows["insets"], _LOOKS, strict=False):
        key = row["key"]
        off = (np.asarray(figures.curves[key].y) - right) * scale
        ends += [float(off.min()), float(off.max())]
        axes.plot(x * scale, off, color=colour, linewidth=weight)
        entries.append(Key(shown(figures, key), colour, weight))
        told.append(
            f"{shown(figures, key)} in: {shown(figures, key + '.tail')} lower at the tail, "
            f"{shown(figures, key + '.nose')} at the nose."
        )
    axes.set_xlim(0, float(x[-1]) * scale)
    axes.set_ylim(1.1 * min(ends), 1.1 * max(ends))
    axes.grid(axis="y", color=FAINT, linewidth=0.8)
    axes.locator_params(axis="both", nbins=5)
    heading(canvas, EDGE, 18, f"What end supports in from the tips do, {unit}", bold=True)
    keys(canvas, EDGE, 38, entries)
    heading(canvas, _RIGHT, _HEIGHT - 10, f"from the tail tip, {unit}", end=True)
    return chart_svg(
        canvas,
        name="inset-chart",
        title="End supports in from the tips",
        words="How far the bottom lies below where it should if the end supports touch nearer the middle. "
        + " ".join(told),
    )
