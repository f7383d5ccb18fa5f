"""The wanted bottom line and the one that the bench gives, and how far they are apart."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from generator.drawings.chart import Key, chart_svg, heading, keys, length_scale, new_canvas, place
from generator.drawings.dom import FAINT, INK, MIST, SEA, WARN, WOOD_DEEP
from generator.drawings.pen import EDGE
from generator.drawings.read import shown, value
from generator.figures import Figures

_HEIGHT = 396.0
_LEFT, _RIGHT = 46.0, 334.0
_UPPER = (62.0, 162.0)
_LOWER = (248.0, 348.0)

Lines = Mapping[str, NDArray[np.float64]]


def curve_chart(figures: Figures) -> str:
    """Above, both lines over the whole length; below, their difference with the band of stiffnesses and the limit."""
    scale, unit = length_scale(str(figures.said["units"]))
    lines = {
        key: np.asarray(figures.curves[f"bench.{key}"].y) * scale
        for key in ("wanted", "clamped", "clamped_low", "clamped_high")
    }
    x = np.asarray(figures.curves["bench.wanted"].x_mm) * scale
    canvas = new_canvas(_HEIGHT)
    upper = place(canvas, left=_LEFT, top=_UPPER[0], right=_RIGHT, bottom=_UPPER[1], height=_HEIGHT)
    upper.plot(x, lines["clamped"], color=WOOD_DEEP, linewidth=2.2)
    upper.plot(x, lines["wanted"], color=SEA, linewidth=1.6, dashes=(3, 2))
    lower = place(canvas, left=_LEFT, top=_LOWER[0], right=_RIGHT, bottom=_LOWER[1], height=_HEIGHT)
    _differences(lower, x, lines, limit=value(figures, "bench.pass_middle") * scale)
    for axes in (upper, lower):
        axes.set_xlim(0, float(x[-1]))
        axes.grid(axis="y", color=FAINT, linewidth=0.8)
        axes.locator_params(axis="both", nbins=5)
    heading(canvas, EDGE, 18, f"Bottom above its wanted lowest point, {unit}", bold=True)
    keys(canvas, EDGE, 38, (Key("bench, everything on", WOOD_DEEP, 2.2), Key("wanted", SEA, 1.6, dashed=True)))
    heading(canvas, EDGE, 204, f"Bench above or below wanted, {unit}", bold=True)
    keys(canvas, EDGE, 224, (Key("softest to stiffest", MIST, 6), Key("limit", WARN, 1.6, dashed=True)))
    heading(canvas, _RIGHT, _HEIGHT - 10, f"from the tail tip, {unit}", end=True)
    return chart_svg(
        canvas,
        name="curve-chart",
        title="Wanted bottom and bench",
        words="The bottom line that is wanted and the one that the bench gives with everything on. They are "
        f"{shown(figures, 'bench.deviation')} apart where they differ most; up to "
        f"{shown(figures, 'bench.pass_middle')} passes.",
    )


def _differences(axes: Axes, x: NDArray[np.float64], lines: Lines, *, limit: float) -> None:
    off = {key: lines[key] - lines["wanted"] for key in ("clamped", "clamped_low", "clamped_high")}
    axes.fill_between(x, off["clamped_low"], off["clamped_high"], facecolor=MIST, edgecolor="none", linewidth=0)
    axes.plot(x, off["clamped"], color=WOOD_DEEP, linewidth=2.2)
    for level in (-limit, limit):
        axes.plot(x[[0, -1]], [level, level], color=WARN, linewidth=1.6, dashes=(3, 2))
    axes.plot(x[[0, -1]], [0, 0], color=INK, linewidth=0.8)
    most = max(1.5 * limit, *(1.1 * float(np.abs(line).max()) for line in off.values()))
    axes.set_ylim(-most, most)
