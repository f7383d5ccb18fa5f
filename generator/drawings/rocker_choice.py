"""The three rockers laid on top of one another, the builder's own strong, and what each comes to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure as Canvas

from generator.drawings.chart import Key, chart_svg, heading, keys, length_scale, new_canvas, place
from generator.drawings.dom import FAINT, INK, SEA, WOOD_DEEP
from generator.drawings.pen import EDGE, WIDE
from generator.drawings.read import shown, value
from generator.drawings.view import View, times_that_fit
from generator.figures import Figures
from generator.shown import show

_LEFT, _RIGHT, _TOP = 40.0, 334.0, 50.0
_ROOM, _MOST_TIMES = 150.0, 8
_BAR = 10.0
_ROW = 19.0
_COLUMNS = (("tail", 216.0), ("nose", 284.0), ("flat", WIDE - EDGE))
_LOOKS = ((SEA, 1.6, True), (INK, 1.0, False), (SEA, 1.6, False))
_OWN = (WOOD_DEEP, 2.2, False)


@dataclass(frozen=True, slots=True)
class _Line:
    """One rocker: the key of its numbers, that of its curve, its name, and whether it is the builder's."""

    key: str
    curve: str
    name: str
    own: bool
    colour: str
    weight: float
    dashed: bool

    def style(self) -> dict[str, Any]:
        """How matplotlib draws it."""
        return {"color": self.colour, "linewidth": self.weight} | ({"dashes": (3, 2)} if self.dashed else {})


def rocker_choice(figures: Figures) -> str:
    """All bottoms from their lowest point, heights enlarged; under them their flat parts and their numbers."""
    lines = _lines(figures)
    scale, unit = length_scale(str(figures.said["units"]))
    length_mm = value(figures, "board.length")
    tallest_mm = max(max(figures.curves[line.curve].y) for line in lines)
    per_mm = (_RIGHT - _LEFT) / length_mm
    times = times_that_fit(tallest_mm, per_mm=per_mm, room=_ROOM, most=_MOST_TIMES)
    view = View(_LEFT, _TOP + tallest_mm * per_mm * times, per_mm, times)
    bars = (len(lines) + 0.5) * _BAR
    bottom = view.base + bars
    height = bottom + 64 + len(lines) * _ROW
    canvas = new_canvas(height)
    axes = place(canvas, left=_LEFT, top=_TOP, right=_RIGHT, bottom=bottom, height=height)
    axes.set_xlim(0, length_mm * scale)
    axes.set_ylim(-bars / per_mm / times * scale, tallest_mm * scale)
    for number, line in enumerate(lines, 1):
        curve = figures.curves[line.curve]
        axes.plot([x * scale for x in curve.x_mm], [y * scale for y in curve.y], zorder=2 + line.own, **line.style())
        level = -number * _BAR / per_mm / times * scale
        ends = [value(figures, f"{line.key}.flat_{end}") * scale for end in ("from", "to")]
        axes.plot(ends, [level, level], **line.style())
    _axes(axes)
    heading(canvas, EDGE, 18, f"Bottom above its lowest point, {unit}", bold=True)
    heading(canvas, EDGE, 36, view.scale_words())
    heading(canvas, _LEFT + 4, view.base + 15, "flat part")
    heading(canvas, _RIGHT, bottom + 34, f"from the tail tip, {unit}", end=True)
    _numbers(canvas, figures, lines, unit, bottom + 56)
    return chart_svg(
        canvas,
        name="rocker-choice",
        title="Three rockers for this board",
        words=" ".join(_told(figures, line) for line in lines) + f" {view.scale_words()}",
    )


def _lines(figures: Figures) -> tuple[_Line, ...]:
    """The candidates in order, and before them the agreed rocker where there is one."""
    made = [
        _Line(row["key"], row["key"], row["name"], row["chosen"], *(_OWN if row["chosen"] else look))
        for row, look in zip(figures.rows["candidates"], _LOOKS, strict=True)
    ]
    if figures.said["rocker_from"] == "agreed":
        made.insert(0, _Line("rocker", "rocker.wanted", "as agreed", True, *_OWN))
    return tuple(made)


def _axes(axes: Axes) -> None:
    axes.grid(axis="y", color=FAINT, linewidth=0.8)
    axes.locator_params(axis="both", nbins=5)
    axes.set_yticks([tick for tick in axes.get_yticks() if 0 <= tick <= axes.get_ylim()[1]])


def _numbers(canvas: Canvas, figures: Figures, lines: tuple[_Line, ...], unit: str, y: float) -> None:
    """A row a rocker: its line, its name, the rise of its tips and its flat part."""
    units = str(figures.said["units"])
    heading(canvas, EDGE, y, "yours in bold")
    for (part, x), named in zip(_COLUMNS, (f"tail, {unit}", f"nose, {unit}", "flat, %"), strict=True):
        heading(canvas, x, y, named, end=True)
        for number, line in enumerate(lines, 1):
            text = show(figures.values[f"{line.key}.{part}"], units, short=True)
            heading(canvas, x, y + number * _ROW, text, bold=line.own, end=True)
    for number, line in enumerate(lines, 1):
        keys(canvas, EDGE, y + number * _ROW, (Key("", line.colour, line.weight, line.dashed),))
        heading(canvas, EDGE + 28, y + number * _ROW, line.name, bold=line.own)


def _told(figures: Figures, line: _Line) -> str:
    yours = " (yours)" if line.own else ""
    return (
        f"{line.name}{yours}: {shown(figures, f'{line.key}.tail')} at the tail tip, "
        f"{shown(figures, f'{line.key}.nose')} at the nose tip, flat over {shown(figures, f'{line.key}.flat')}."
    )
