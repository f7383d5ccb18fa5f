"""The wanted bottom, the bench that is set over for it, and what the board keeps once it is off."""

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
    """Above, three lines over the whole length; below, what is kept less what is wanted, its band and the limit."""
    scale, unit = length_scale(str(figures.said["units"]))
    lines = {
        key: np.asarray(figures.curves[f"bench.{key}"].y) * scale
        for key in ("wanted", "clamped", "after", "after_low", "after_high")
    }
    x = np.asarray(figures.curves["bench.wanted"].x_mm) * scale
    canvas = new_canvas(_HEIGHT)
    upper = place(canvas, left=_LEFT, top=_UPPER[0], right=_RIGHT, bottom=_UPPER[1], height=_HEIGHT)
    upper.plot(x, lines["clamped"], color=WOOD_DEEP, linewidth=2.2)
    upper.plot(x, lines["after"], color=INK, linewidth=1.0)
    upper.plot(x, lines["wanted"], color=SEA, linewidth=1.6, dashes=(3, 2))
    lower = place(canvas, left=_LEFT, top=_LOWER[0], right=_RIGHT, bottom=_LOWER[1], height=_HEIGHT)
    _differences(lower, x, lines, limit=value(figures, "bench.planned_to") * scale)
    for axes in (upper, lower):
        axes.set_xlim(0, float(x[-1]))
        axes.grid(axis="y", color=FAINT, linewidth=0.8)
        axes.locator_params(axis="both", nbins=5)
    heading(canvas, EDGE, 18, f"Bottom above its wanted lowest point, {unit}", bold=True)
    three = Key("on the bench", WOOD_DEEP, 2.2), Key("afterwards", INK, 1.0), Key("wanted", SEA, 1.6, dashed=True)
    keys(canvas, EDGE, 38, three)
    heading(canvas, EDGE, 204, f"Afterwards, above or below wanted, {unit}", bold=True)
    keys(canvas, EDGE, 224, (Key("softest to stiffest", MIST, 6), Key("limit", WARN, 1.6, dashed=True)))
    heading(canvas, _RIGHT, _HEIGHT - 10, f"from the tail tip, {unit}", end=True)
    return chart_svg(
        canvas,
        name="curve-chart",
        title="Wanted bottom, bench, and what the board keeps",
        words="The bottom line that is wanted, the one on the bench with everything on, and the one that the board "
        f"keeps once it is off. The last is {shown(figures, 'bench.deviation')} from the wanted one where they "
        f"differ most; the plan aims at {shown(figures, 'bench.planned_to')}.",
    )


def _differences(axes: Axes, x: NDArray[np.float64], lines: Lines, *, limit: float) -> None:
    off = {key: lines[key] - lines["wanted"] for key in ("after", "after_low", "after_high")}
    axes.fill_between(x, off["after_low"], off["after_high"], facecolor=MIST, edgecolor="none", linewidth=0)
    axes.plot(x, off["after"], color=INK, linewidth=1.0)
    for level in (-limit, limit):
        axes.plot(x[[0, -1]], [level, level], color=WARN, linewidth=1.6, dashes=(3, 2))
    axes.plot(x[[0, -1]], [0, 0], color=INK, linewidth=0.8)
    most = max(1.5 * limit, *(1.1 * float(np.abs(line).max()) for line in off.values()))
    axes.set_ylim(-most, most)
