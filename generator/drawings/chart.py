"""Charts with axes: matplotlib draws them in the units of a sheet, `dom.to_classes` gives them the pen's look.

Colours and line weights stand here only as tokens that the next step turns into classes.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure as Canvas
from matplotlib.lines import Line2D

from generator.drawings.dom import INK, to_classes
from generator.drawings.lettering import SMALL, width
from generator.drawings.pen import WIDE
from generator.shown import LB_PER_KG, MM_PER_INCH

_POINTS = 72.0
"""Matplotlib's points in an inch; one point is one unit of the sheet."""


def length_scale(units: str) -> tuple[float, str]:
    """What lengths in mm are multiplied by on an axis, and the unit's name there."""
    return (1 / MM_PER_INCH, "in") if units == "inches" else (1.0, "mm")


def mass_scale(units: str) -> tuple[float, str]:
    """What masses in kg are multiplied by on an axis, and the unit's name there."""
    return (LB_PER_KG, "lb") if units == "inches" else (1.0, "kg")


def new_canvas(height: float) -> Canvas:
    """An empty canvas as wide as a sheet."""
    canvas = Canvas(figsize=(WIDE / _POINTS, height / _POINTS), dpi=_POINTS)
    canvas.patch.set_visible(False)
    FigureCanvasSVG(canvas)
    return canvas


def place(canvas: Canvas, *, left: float, top: float, right: float, bottom: float, height: float) -> Axes:
    """Axes whose frame has these sides, in units of a sheet `height` tall, y down; no frame, a quiet grid."""
    axes = canvas.add_axes((left / WIDE, 1 - bottom / height, (right - left) / WIDE, (bottom - top) / height))
    axes.patch.set_visible(False)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set(color=INK, linewidth=1.0)
    axes.tick_params(length=0, pad=5, labelsize=SMALL, labelcolor=INK)
    axes.set_axisbelow(True)
    return axes


@dataclass(frozen=True, slots=True)
class Key:
    """One entry of a chart's legend: its words beside a piece of its line."""

    words: str
    colour: str
    weight: float
    dashed: bool = False


def heading(canvas: Canvas, x: float, y: float, words: str, *, bold: bool = False, end: bool = False) -> None:
    """Text anywhere on the canvas, in units of the sheet, `y` being the baseline."""
    height = canvas.get_figheight() * _POINTS
    weight, side = ("bold" if bold else "normal"), ("right" if end else "left")
    text = canvas.text(x / WIDE, 1 - y / height, words, fontsize=SMALL, color=INK, weight=weight, ha=side)
    text.set(va="baseline", parse_math=False)


def keys(canvas: Canvas, x: float, y: float, entries: Iterable[Key]) -> None:
    """A row of legend entries, `y` being the baseline."""
    height = canvas.get_figheight() * _POINTS
    for entry in entries:
        line = Line2D([x / WIDE, (x + 22) / WIDE], [1 - (y - 4) / height] * 2, transform=canvas.transFigure)
        line.set(color=entry.colour, linewidth=entry.weight)
        if entry.dashed:
            line.set_dashes((3, 2))
        canvas.add_artist(line)
        heading(canvas, x + 28, y, entry.words)
        x += 28 + width(entry.words) + 16


def chart_svg(canvas: Canvas, *, name: str, title: str, words: str) -> str:
    """The canvas as a drawing like any other: same bytes on every run."""
    stream = io.StringIO()
    with mpl.rc_context({"svg.fonttype": "none", "svg.hashsalt": name, "path.simplify": False}):
        canvas.savefig(stream, format="svg", metadata={"Date": None, "Creator": None})
    return to_classes(stream.getvalue(), name=name, title=title, words=words)
