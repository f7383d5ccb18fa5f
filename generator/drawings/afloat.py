"""Board and rider in the water, from the side."""

from __future__ import annotations

import math

import numpy as np

from generator.drawings.lettering import LINE, SMALL, spread, width
from generator.drawings.marks import span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View, at
from generator.figures import Figures

_LEFT = 24.0
_TOP = 40.0
_TIMES = 2.0
_LEGS_MM, _TRUNK_MM = 800.0, 420.0  # how far a drawn person reaches back and forward from the middle
_LEG, _HEAD = 0.65, 0.85  # of the body's thickness


def afloat(figures: Figures) -> str:
    """The waterline with the rider lying on the board; a word instead where the board can't carry even itself."""
    if figures.said["float.sinks"]:
        return _sinks()
    length_mm = value(figures, "board.length")
    per_mm = (WIDE - 2 * _LEFT) / length_mm
    bottom, deck = figures.curves["float.bottom"], figures.curves["float.deck"]
    thick = value(figures, "float.body_thickness")
    lie_at = value(figures, "float.lie_at")
    tallest = max(max(deck.y), at(deck, lie_at) + 1.3 * thick)
    view = View(_LEFT, _TOP + tallest * per_mm * _TIMES, per_mm, _TIMES)
    level = value(figures, "float.depth")
    sheet = Sheet(
        "afloat",
        title="Board and rider in the water",
        words=f"With you lying still on it, the lowest point of the bottom is {shown(figures, 'float.depth')} under "
        f"water. Your middle lies {shown(figures, 'float.lie_at')} from the tail tip. {view.scale_words()}",
    )
    sheet.note(EDGE, 18, "You and your board at rest in the water", "d-small d-bold")
    _rider(sheet, view, lie_at, at(deck, lie_at), thick)
    sheet.shape(view.line(bottom.x_mm, bottom.y) + view.line(deck.x_mm, deck.y)[::-1], "d-wood")
    sheet.line(((EDGE, view.y(level)), (WIDE - EDGE, view.y(level))), "d-level")
    low_mm = bottom.x_mm[int(np.argmin(bottom.y))]
    span(sheet, (view.x(low_mm), view.y(level)), (view.x(low_mm), view.y(0.0)))
    y = _notes(sheet, figures, view, low_mm, lie_at, at(bottom, lie_at))
    return sheet.svg(sheet.note(EDGE, y, f"The dashed line is the water. {view.scale_words()}") - SMALL * LINE + 10)


def _sinks() -> str:
    sheet = Sheet(
        "afloat",
        title="Board and rider in the water",
        words="This board weighs about as much as the water that it pushes away, so nothing is drawn.",
    )
    y = sheet.note(EDGE, 18, "This board can't carry a rider. Ask before you go on.", "d-small d-bold")
    return sheet.svg(y)


def _rider(sheet: Sheet, view: View, middle_mm: float, deck_mm: float, thick_mm: float) -> None:
    """A lying person: legs, trunk, head."""
    for back, front, high in (
        (middle_mm - _LEGS_MM, middle_mm - 0.5 * _TRUNK_MM, _LEG * thick_mm),
        (middle_mm - 0.6 * _TRUNK_MM, middle_mm + _TRUNK_MM, thick_mm),
    ):
        turn = np.linspace(0, 2 * math.pi, 41)
        # a bar, flat in the middle and round at both ends
        x = (back + front) / 2 + (front - back) / 2 * np.sign(np.cos(turn)) * np.abs(np.cos(turn)) ** 0.4
        z = deck_mm + high / 2 + high / 2 * np.sign(np.sin(turn)) * np.abs(np.sin(turn)) ** 0.7
        body: tuple[Point, ...] = view.line(x, z)
        sheet.shape(body, "d-thing")
    head = _HEAD * thick_mm * view.per_mm * view.times / 2
    sheet.ring(view.x(middle_mm + _TRUNK_MM) + 0.9 * head, view.y(deck_mm + 0.75 * thick_mm), head, "d-thing")


def _notes(sheet: Sheet, figures: Figures, view: View, low_mm: float, lie_mm: float, under_mm: float) -> float:
    """Depth and the rider's place, under the board; gives the next baseline."""
    y = view.base + 20
    notes = sorted(
        (
            (view.x(low_mm), view.base, "depth", shown(figures, "float.depth")),
            (view.x(lie_mm), view.y(under_mm), "your middle, from the tail", shown(figures, "float.lie_at")),
        )
    )
    sizes = [max(width(place), width(number, bold=True)) + 10 for *_, place, number in notes]
    middles = spread([x for x, *_ in notes], sizes, low=EDGE, high=WIDE - EDGE)
    for (x, top, place, number), middle in zip(notes, middles, strict=True):
        sheet.line(((x, top + 2), (middle, y - SMALL)), "d-hair")
        sheet.text(middle, y, place, anchor="middle")
        sheet.text(middle, y + SMALL * LINE, number, "d-small d-bold", anchor="middle")
    return y + 2.6 * SMALL * LINE
