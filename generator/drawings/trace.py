"""The trace line round the frame: how far out at the sides and at the tips, and on which side of it to cut."""

from __future__ import annotations

import numpy as np
from shapely import LineString

from generator.drawings.marks import span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View, at
from generator.figures import Curve, Figures

_TOP = 30.0
_SHOWN_MM = 300.0
_SPARE_MM = 26.0
_KERF = 2.6
_SECTION_PER_MM = 2.2


def trace(figures: Figures) -> str:
    """The tail end from above, to scale, half of it; then the rim in section with the pencil and the saw."""
    line = figures.curves["outline.trace"]
    first = line.x_mm[0] - _SPARE_MM
    last = first + _SHOWN_MM
    per_mm = (WIDE - 2 * EDGE) / _SHOWN_MM
    tall_mm = at(line, last) + _SPARE_MM
    view = View(EDGE - first * per_mm, _TOP + tall_mm * per_mm, per_mm)
    sheet = Sheet(
        "trace",
        title="Where to trace and where to cut",
        words=f"The pencil line runs {shown(figures, 'trace.margin')} outside the frame at the sides and "
        f"{shown(figures, 'trace.margin_tips')} at the tips. The saw follows the outside of the line.",
    )
    sheet.note(EDGE, 18, "The tail end from above, frame on the panel", "d-small d-bold")
    sheet.box(EDGE, _TOP, WIDE - EDGE, view.base + 14, "d-table")
    _end(sheet, figures, view, last)
    y = _legend(sheet, view.base + 56)
    y = _section(sheet, figures, y + 20)
    return sheet.svg(y)


def _upto(curve: Curve, last_mm: float) -> tuple[list[float], list[float]]:
    """The part of a half outline that has width, as far as `last_mm`."""
    kept = [(x, y) for x, y in zip(curve.x_mm, curve.y, strict=True) if x < last_mm]
    start = max((i for i, (x, y) in enumerate(kept) if y <= 0 and x < last_mm - 150), default=0)
    kept = [*kept[start:], (last_mm, at(curve, last_mm))]
    return [x for x, _ in kept], [y for _, y in kept]


def _end(sheet: Sheet, figures: Figures, view: View, last: float) -> None:
    frame_x, frame_y = _upto(figures.curves["outline.frame"], last)
    line_x, line_y = _upto(figures.curves["outline.trace"], last)
    traced = ((view.x(line_x[0]), view.base), *view.line(line_x, line_y))
    cut = _outside(traced)
    floor = view.base + 14
    sheet.shape([*cut, (view.x(last), floor), (cut[0][0], floor)], "d-wood-bare")
    sheet.line(((cut[0][0], floor), *cut), "d-cut")
    sheet.line(traced, "d-pencil")
    sheet.line(((view.x(frame_x[0]), view.base), *view.line(frame_x, frame_y)), "d-frame")
    sheet.line(((view.x(frame_x[0]), view.base), (view.x(last), view.base)), "d-frame")
    for row in figures.rows["ribs"]:
        rib = value(figures, f"{row['key']}.from_tail")
        if frame_x[0] < rib < last - 5:
            sheet.line(view.line((rib, rib), (0, value(figures, f"{row['key']}.half_width"))), "d-frame")
    span(sheet, (view.x(line_x[0]), view.base + 7), (view.x(frame_x[0]), view.base + 7))
    sheet.text(EDGE, view.base + 31, f"{shown(figures, 'trace.margin_tips')} at the tip", "d-small d-bold")
    sheet.note(EDGE + 8, _TOP + 19, "falls off", room=120)
    ribs = [value(figures, f"{row['key']}.from_tail") for row in figures.rows["ribs"]]
    first_rib = min([last, *(x for x in ribs if x > frame_x[0] + 90)])
    sheet.line(((WIDE - EDGE - 14, view.base + 19), (WIDE - EDGE - 14, view.base + 3)), "d-line")
    sheet.text(WIDE - EDGE, view.base + 31, "spine", anchor="end")
    wanted = frame_x[0] + 0.38 * (first_rib - frame_x[0])
    roomy = (
        x for x in np.arange(wanted, last - 60, 5) if view.base - view.y(at(figures.curves["outline.frame"], x)) > 60
    )
    _margin(sheet, figures, view, float(next(roomy, last - 80)))


def _margin(sheet: Sheet, figures: Figures, view: View, where: float) -> None:
    """The margin at the side, square to the rim."""
    frame, line = figures.curves["outline.frame"], figures.curves["outline.trace"]
    rim = at(frame, where)
    slope = (at(frame, where + 5) - rim) / 5
    foot = (view.x(where), view.y(rim))
    away = _unit((-slope, -1.0))
    reach = (at(line, where) - rim) * view.per_mm / float(np.hypot(1, slope))
    span(sheet, foot, (foot[0] + away[0] * reach, foot[1] + away[1] * reach))
    x = min(foot[0] + 6, WIDE - EDGE - 94)
    sheet.text(x, foot[1] + 24, shown(figures, "trace.margin"), "d-small d-bold")
    sheet.text(x, foot[1] + 40, "at the sides", "d-small d-bold")


def _legend(sheet: Sheet, y: float) -> float:
    sheet.line(((EDGE, y - 4), (EDGE + 24, y - 4)), "d-pencil")
    sheet.text(38, y, "pencil line")
    sheet.line(((150, y - 4), (174, y - 4)), "d-cut")
    sheet.text(182, y, "saw, on its outside")
    return y + 16


def _outside(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """A line just outside the traced one: to the left of it on the sheet."""
    return tuple((x, y) for x, y in LineString(points).offset_curve(-_KERF).coords)


def _unit(direction: Point) -> Point:
    length = float(np.hypot(*direction))
    return direction[0] / length, direction[1] / length


def _section(sheet: Sheet, figures: Figures, y: float) -> float:
    """The rim cut across: strip on the panel, pencil line at the margin, blade outside it; gives the height used."""
    per_mm = _SECTION_PER_MM
    panel_top = y + 88
    panel_bottom = panel_top + max(7.0, value(figures, "panel.thickness") * per_mm)
    strip_x = 132.0
    strip = (strip_x - max(5.0, value(figures, "frame.strip_thickness") * per_mm), strip_x)
    line_x = strip_x + value(figures, "trace.margin") * per_mm
    sheet.note(EDGE, y, "The same, cut across at the side", "d-small d-bold")
    sheet.box(EDGE, panel_top, WIDE - EDGE, panel_bottom, "d-wood")
    sheet.box(EDGE, panel_top - 46, strip[0], panel_top, "d-thing")
    sheet.box(strip[0], panel_top - 58, strip[1], panel_top, "d-wood")
    sheet.text((EDGE + strip[0]) / 2, panel_top - 18, "rib", anchor="middle")
    sheet.text(EDGE, panel_bottom + 17, "deck panel")
    sheet.text(strip[1], panel_top - 66, "edge strip", anchor="end")
    pencil = ((0, 0), (3, -8), (14, -50), (6, -52), (-2, -8))
    sheet.shape([(line_x + x, panel_top + y) for x, y in pencil], "d-wood")
    sheet.text(line_x + 18, panel_top - 36, f"pencil line, {shown(figures, 'trace.margin')} out")
    blade = line_x + 8
    sheet.line(((blade, panel_top), (blade, panel_bottom + 12)), "d-cut")
    sheet.text(blade + 7, panel_bottom + 17, "saw outside the line", "d-small d-bold d-warn")
    sheet.text(WIDE - EDGE, panel_top - 9, "falls off", anchor="end")
    span(sheet, (strip[1], panel_top - 22), (line_x, panel_top - 22))
    return panel_bottom + 28
