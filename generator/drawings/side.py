"""The board from the side: the wanted rocker, the layers, and how far the tips rise."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from generator.drawings.lettering import LINE, SMALL, spread, width
from generator.drawings.marks import span
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View, at, times_that_fit
from generator.figures import Figures

Floats = NDArray[np.float64]

_LEFT = 14.0
_ROOM = 108.0
_MOST_TIMES = 4
_TOP = 36.0
_STEP = SMALL * LINE


def side(figures: Figures) -> str:
    """The wanted bottom with the spine and both panels on it; heights enlarged, and said so."""
    length_mm = value(figures, "board.length")
    per_mm = (WIDE - 2 * _LEFT) / length_mm
    tallest = max(_deck(figures))
    times = times_that_fit(tallest, per_mm=per_mm, room=_ROOM, most=_MOST_TIMES)
    view = View(_LEFT, _TOP + tallest * per_mm * times, per_mm, times)
    sheet = Sheet(
        "side",
        title="The board from the side",
        words=f"Above its lowest point, {shown(figures, 'rocker.low_point')} from the tail tip, the bottom rises "
        f"{shown(figures, 'rocker.tail')} to the tail tip and {shown(figures, 'rocker.nose')} to the nose tip. "
        + view.scale_words(),
    )
    sheet.note(EDGE, 18, "How far the bottom rises above its lowest point", "d-small d-bold")
    _layers(sheet, figures, view)
    sheet.line(((_LEFT - 8, view.base), (WIDE - _LEFT + 8, view.base)), "d-level")
    y = _rises(sheet, figures, view)
    return sheet.svg(sheet.note(EDGE, y, view.scale_words()) - 4)


def _deck(figures: Figures) -> tuple[float, ...]:
    """Height of the top of the deck above the bottom's lowest point, at the places of the wanted curve."""
    bottom, depth = figures.curves["rocker.wanted"], figures.curves["spine.depth"]
    panels = 2 * value(figures, "panel.thickness")
    return tuple(y + panels + at(depth, x) for x, y in zip(bottom.x_mm, bottom.y, strict=True))


def _layers(sheet: Sheet, figures: Figures, view: View) -> None:
    bottom = figures.curves["rocker.wanted"]
    x_mm = np.asarray(bottom.x_mm)
    low = np.asarray(bottom.y)
    top = np.asarray(_deck(figures))
    panel = value(figures, "panel.thickness")

    def layer(under: Floats, over: Floats, classes: str) -> None:
        sheet.shape(view.line(x_mm, under) + view.line(x_mm, over)[::-1], classes)

    layer(low + panel, top - panel, "d-thing")
    for row in figures.rows["ribs"]:
        rib_x = value(figures, f"{row['key']}.from_tail")
        ends = (np.interp(rib_x, x_mm, low) + panel, np.interp(rib_x, x_mm, top) - panel)
        sheet.line(view.line((rib_x, rib_x), ends), "d-hair")
    layer(low, low + panel, "d-wood")
    layer(top - panel, top, "d-wood")


def _rises(sheet: Sheet, figures: Figures, view: View) -> float:
    """The heights a little way in, and under them those at the tips and the lowest point; gives the next baseline."""
    bottom = figures.curves["rocker.wanted"]
    length_mm, tips_in = value(figures, "board.length"), value(figures, "board.tips_in")
    far_in = f"{shown(figures, 'board.tips_in')} from tip"
    inner = ((tips_in, far_in, "rocker.tail_300"), (length_mm - tips_in, far_in, "rocker.nose_300"))
    outer = (
        (0.0, "tail", "rocker.tail"),
        (value(figures, "rocker.low_point"), "lowest, from the tail", "rocker.low_point"),
        (length_mm, "nose", "rocker.nose"),
    )
    y = view.base + 24
    for row, low in ((inner, _LEFT + 6), (outer, EDGE)):
        texts = [(place, shown(figures, key)) for _, place, key in row]
        sizes = [max(width(place), width(height, bold=True)) + 8 for place, height in texts]
        xs = [view.x(x_mm) for x_mm, *_ in row]
        middles = spread(xs, sizes, low=low - 4, high=WIDE - low + 4)
        for (x_mm, *_), x, middle, (place, height) in zip(row, xs, middles, texts, strict=True):
            if at(bottom, x_mm) > 0.5:
                span(sheet, (x, view.base), (x, view.y(at(bottom, x_mm))))
            sheet.line(((x, view.base + 2), (x, y - SMALL)), "d-hair")
            sheet.text(middle, y, place, anchor="middle")
            sheet.text(middle, y + _STEP, height, "d-small d-bold", anchor="middle")
        y += 2.5 * _STEP
    return y
