"""A slice through the board at its widest rib, pulled apart, with the name of every part."""

from __future__ import annotations

from generator.drawings.lettering import width
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import value
from generator.figures import Figures

_LEFT = 60.0
_FLAT = 7.0
_APART = 26.0
_STEPS = 24


def parts(figures: Figures) -> str:
    """Top panel, rib with spine and edge strips, bottom panel, and the rails beside them; heights enlarged."""
    rib = max(figures.rows["ribs"], key=lambda row: value(figures, f"{row['key']}.half_width"))
    half_mm = value(figures, f"{rib['key']}.half_width")
    centre_mm, edge_mm = (value(figures, f"{rib['key']}.{part}") for part in ("depth_centre", "depth_edge"))
    half = WIDE / 2 - _LEFT
    per_mm = half / half_mm
    tall = 64.0 / (centre_mm * per_mm)
    sheet = Sheet(
        "parts",
        title="The parts of the board",
        words="A slice across the board, pulled apart. From above: the top panel, crowned; the rib with the spine in "
        "its middle and an edge strip at each end; the bottom panel, flat. Outside the edge strips are the rails.",
    )
    middle = WIDE / 2
    deep, rim = centre_mm * per_mm * tall, edge_mm * per_mm * tall
    fall = deep - rim

    def arc(y: float, reach: float) -> list[Point]:
        return [
            (middle + reach * s, y + fall * s * s * (reach / half) ** 2)
            for s in (i / _STEPS for i in range(-_STEPS, _STEPS + 1))
        ]

    y = 40.0
    sheet.text(middle, y - 12, "top panel (the deck)", anchor="middle")
    upper = arc(y, half + 8)
    sheet.shape([*upper, *((px, py + _FLAT) for px, py in reversed(upper))], "d-wood")
    top = y + _FLAT + fall + _APART - 8
    base = top + deep
    sheet.shape([*arc(top, half), (middle + half, base), (middle - half, base)], "d-wood")
    sheet.box(middle - 4, top - 3, middle + 4, base, "d-fill-wood-deep")
    for side in (-1, 1):
        at = middle + side * (half + 8)
        sheet.box(at - 3, base - rim, at + 3, base, "d-fill-wood-deep")
        _rail(sheet, middle + side * (half + 22), base - rim - _FLAT, base + _FLAT, side)
    floor = base + _APART + 10
    sheet.box(middle - half - 8, floor, middle + half + 8, floor + _FLAT, "d-wood")
    sheet.text(middle, floor + _FLAT + 16, "bottom panel", anchor="middle")
    _names(sheet, middle, half, top, base, rim)
    y = sheet.note(
        EDGE, floor + _FLAT + 38, "Seen from the tail. Heights are enlarged, and the parts are pulled apart."
    )
    return sheet.svg(y - 4)


def _rail(sheet: Sheet, x: float, top: float, base: float, side: int) -> None:
    """Half an ellipse, flat towards the board."""
    middle, tall, wide = (top + base) / 2, (base - top) / 2, 16.0
    round_side = [
        (x + side * wide * (1 - (i / _STEPS) ** 2) ** 0.5, middle + tall * i / _STEPS)
        for i in range(-_STEPS, _STEPS + 1)
    ]
    sheet.shape(round_side, "d-wood")


def _names(sheet: Sheet, middle: float, half: float, top: float, base: float, rim: float) -> None:
    deep = base - top
    sheet.text(middle + half / 2, top + deep * 0.62, "rib", "d-small d-bold", anchor="middle")
    sheet.text(middle - 9, top + deep * 0.62, "spine", "d-small d-bold", anchor="end")
    y = base + 22
    for side, words, reach in ((-1, "edge strip", 8.0), (1, "rail", 30.0)):
        at = middle + side * (half + reach)
        text = middle + side * (half + 30) if side < 0 else min(at, WIDE - EDGE - width(words) / 2)
        sheet.line([(at, base - rim / 3), (at, y - 10)], "d-hair")
        sheet.text(max(text, EDGE + width(words) / 2), y, words, anchor="middle")
