"""The rail cut across, to scale: edge strip, both panels trimmed flush, layers, and the line it is rounded to."""

from __future__ import annotations

import math
from collections.abc import Callable

from generator.drawings.pen import EDGE, Point, Sheet
from generator.drawings.read import shown, value
from generator.figures import Figures

_INSIDE_MM = 62.0
_TOP = 36.0
_ROOM = 132.0


def rail_section(figures: Figures) -> str:
    """Half-way along the board. Without a rail only the panels' edges are rounded."""
    none = bool(figures.said["rail.none"])
    rail = 0.0 if none else value(figures, "board.rail")
    words = (
        "There is no rail: both panels are trimmed flush with the edge strip, and their edges rounded a little."
        if none
        else f"{len(figures.rows['rail_layers'])} layers stand side by side on the edge strip and the trimmed edges of "
        "both panels. Later they are rounded to half an ellipse."
    )
    sheet = Sheet("rail-section", title="The rail, cut across", words=f"Cut across half-way along. {words}")
    sheet.note(EDGE, 18, "Cut across half-way along, to scale", "d-small d-bold")
    side = value(figures, "rail.side_middle")
    per_mm = min(_ROOM / side, 170 / (_INSIDE_MM + rail))
    slope = math.tan(math.radians(value(figures, "rail.bevel_most")))
    rim = EDGE + _INSIDE_MM * per_mm
    out = rim + rail * per_mm
    low = _TOP + side * per_mm + _INSIDE_MM * slope * per_mm

    def deck(x: float, under: float = 0.0) -> Point:
        return x, low - side * per_mm + (x - rim) * slope + under * per_mm

    panel, strip = value(figures, "panel.thickness"), value(figures, "frame.strip_thickness")
    inside = rim - strip * per_mm
    sheet.shape((deck(EDGE), deck(rim), deck(rim, panel), deck(EDGE, panel)), "d-wood")
    sheet.box(EDGE, low - panel * per_mm, rim, low, "d-wood")
    sheet.shape((deck(inside, panel), deck(rim, panel), (rim, low - panel * per_mm), (inside, low - panel * per_mm)),
                "d-thing")  # fmt: skip
    _layers(sheet, figures, (rim, out, low), per_mm, deck)
    if rail:
        middle = (deck(out)[1] + low) / 2
        ellipse = [_round(rim, rail * per_mm, middle, deck, low, math.radians(angle)) for angle in range(-90, 91, 6)]
        sheet.line((deck(EDGE), deck(rim), *ellipse[1:], (EDGE, low)), "d-cut")
    _words(sheet, figures, none, out, low)
    return sheet.svg(_legend(sheet, none, low + 26))


def _round(rim: float, rail: float, middle: float, deck: Callable[[float], Point], low: float, angle: float) -> Point:
    """A point of the rounded side; its upper half leaves the deck along the deck's own slope."""
    x = rim + rail * math.cos(angle)
    end = deck(x)[1] if angle < 0 else low
    return x, middle + (end - middle) * abs(math.sin(angle))


def _layers(
    sheet: Sheet,
    figures: Figures,
    sides: tuple[float, float, float],
    per_mm: float,
    deck: Callable[[float], Point],
) -> None:
    rim, out, low = sides
    if figures.said["rail.none"]:
        return
    thick = value(figures, "rail.layer_thickness") * per_mm
    left = rim
    while left < out - 0.5:
        right = min(left + thick, out)
        sheet.shape((deck(left), deck(right), (right, low), (left, low)), "d-wood")
        left = right


def _words(sheet: Sheet, figures: Figures, none: bool, out: float, low: float) -> None:
    x = out + 14
    if none:
        sheet.note(x, _TOP + 40, "no rail: edge strip and panels flush, edges rounded a little")
        return
    count = len(figures.rows["rail_layers"])
    layers = "1 layer" if count == 1 else f"{count} layers"
    y = sheet.note(x, _TOP + 30, f"{layers} of {shown(figures, 'rail.layer_thickness')}")
    y = sheet.note(x, y + 4, f"{shown(figures, 'board.rail')} in all")
    sheet.note(x, y + 4, f"top edges bevelled by up to {shown(figures, 'rail.bevel_most')}, to carry on the deck")


def _legend(sheet: Sheet, none: bool, y: float) -> float:
    sheet.box(EDGE, y - 9, EDGE + 14, y + 1, "d-thing")
    y = sheet.note(EDGE + 22, y, "edge strip, between both panels")
    if not none:
        sheet.line(((EDGE, y - 4), (EDGE + 16, y - 4)), "d-cut")
        y = sheet.note(EDGE + 22, y, "where the rail is rounded to, on a later page")
    return y - 4
